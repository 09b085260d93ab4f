//! Level 6 on the real core: each class of the exact search is among its classes, each landing goes
//! on as its class does, and what is found is played on the machine as it is.

use std::collections::BTreeSet;

use rackproof_attempt::Exercise;
use rackproof_buffer::{Board, Half, HalfSlot, Machine, MachineParts, MiddleBeam};
use rackproof_drill::{Cause, Page};
use rackproof_files::Problems;
use rackproof_grade::{Judged, JudgedOutcome, JudgedState, Rules};
use rackproof_library::{built_in_drill, built_in_drills, load};
use rackproof_model::{
    Instants, Micrometres, Micros, Model, Stride,
    key::{Key, KeyWriter},
    quantity::Percent,
};
use rackproof_prove::{Congruence, Difference, End, Exploration, OneHand, Settings, explore};

use super::{explore_unordered, flags_in_any_order, prune};
use crate::prove::{
    job::{STATES_MOST, judged},
    level::Level,
};

/// The first drill with a board in the outfeed half of each slot of a rack, which the controller
/// knows of; none at upstream, so that there are fewer states. Hands reach but the lowest slot from
/// under the lift: all others are one run.
fn full_rack(slots: u8) -> (Exercise, usize) {
    let mut exercise = load(built_in_drill(), &Problems::new())
        .expect("it has no problem")
        .exercise;
    exercise.drill.neighbours.leftover = None;
    exercise.hall.reached_from_under = 1;
    let number = exercise.variant("green-low").expect("it is listed");
    let variant = &mut exercise.drill.variants[number];
    variant.boards.clear();
    let half = Half::Outfeed;
    let stored = (0..slots).map(|slot| (HalfSlot { slot, half }, Board::good(0)));
    variant.stored = stored.collect();
    (exercise, number)
}

fn pair(slots: u8, level: Level) -> Judged {
    let (exercise, variant) = full_rack(slots);
    let rules = exercise.rules.for_proof();
    level.of(judged(&exercise, variant, slots, &rules))
}

/// How a canonical form may be wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Wrong {
    /// It is right.
    Nowhere,
    /// One member stands for its class, whatever comes next.
    NoMembers,
    /// It takes slots that are not known for slots that are.
    MapForgotten,
    /// It leaves the map where it was when the slots change places.
    MapLeftBehind,
}

/// Level 6 with a canonical form that is wrong in one point.
struct Bent {
    right: Judged,
    wrong: Wrong,
}

impl Bent {
    fn new(slots: u8, wrong: Wrong) -> Bent {
        Bent {
            right: pair(slots, Level::Unordered),
            wrong,
        }
    }
}

impl Model for Bent {
    type State = JudgedState;
    type Cause = Cause;
    type Outcome = JudgedOutcome;

    fn offers(&self, state: &JudgedState, out: &mut Vec<Cause>) {
        self.right.offers(state, out);
    }

    fn chances(&self, state: &JudgedState, out: &mut Vec<Cause>) {
        self.right.chances(state, out);
    }

    fn strides(&self, state: &JudgedState, out: &mut Vec<Stride<Cause>>) {
        self.right.strides(state, out);
    }

    fn act(&self, state: &mut JudgedState, cause: Cause, hear: &mut impl FnMut(JudgedOutcome)) {
        self.right.act(state, cause, hear);
    }

    fn next_event(&self, state: &JudgedState) -> Option<Micros> {
        self.right.next_event(state)
    }

    fn critical_instants(&self, state: &JudgedState, out: &mut Instants) {
        self.right.critical_instants(state, out);
    }

    fn advance(&self, state: &mut JudgedState, span: Micros, hear: &mut impl FnMut(JudgedOutcome)) {
        self.right.advance(state, span, hear);
    }

    fn alike(&self, state: &JudgedState, out: &mut Vec<JudgedState>) {
        if self.wrong != Wrong::NoMembers {
            self.right.alike(state, out);
        }
    }

    fn stutters(&self) -> bool {
        self.right.stutters()
    }

    fn write_key(&self, state: &JudgedState, out: &mut KeyWriter) {
        let mut copy = *state;
        let map = &mut copy.world.machine.map;
        match self.wrong {
            Wrong::MapForgotten => map.unknown = 0,
            // The lowest slots are unknown, as many as were.
            Wrong::MapLeftBehind => map.unknown = (1 << map.unknown.count_ones()) - 1,
            Wrong::Nowhere | Wrong::NoMembers => {}
        }
        self.right.write_key(&copy, out);
    }

    fn read_key(&self, key: &Key) -> JudgedState {
        self.right.read_key(key)
    }
}

fn search<'m, M>(model: &'m M, pair: &Judged, congruence: Congruence) -> Exploration<'m, M>
where
    M: Model<State = JudgedState, Cause = Cause> + Sync,
{
    let settings = Settings {
        prune: prune(pair),
        states_most: 4_000_000,
        congruence,
        ..Settings::default()
    };
    let flags = |state: &JudgedState| flags_in_any_order(pair, state);
    explore(model, &[pair.start()], &settings, flags)
}

/// The classes of level 6 that a search found, each with whether it lies between two events.
fn classes<M>(found: &Exploration<'_, M>, unordered: &Judged) -> BTreeSet<(Vec<u8>, bool)>
where
    M: Model<State = JudgedState, Cause = Cause>,
{
    assert_eq!(found.end, End::Complete);
    let mut writer = KeyWriter::new();
    let of = |(node, state)| {
        writer.clear();
        unordered.write_key(&state, &mut writer);
        (writer.finish().to_vec(), found.is_between(node))
    };
    found.states().map(of).collect()
}

/// Classes of the exact search, how many of them a search with this form did not find, and how
/// many it found in all.
fn compared(slots: u8, wrong: Wrong) -> (usize, usize, usize) {
    let exact = pair(slots, Level::Exact);
    let bent = Bent::new(slots, wrong);
    let all = classes(&search(&exact, &exact, Congruence::Off), &bent.right);
    let found = search(&bent, &bent.right, Congruence::Off);
    let found = classes(&found, &bent.right);
    let missing = all.difference(&found).count();
    (all.len(), missing, found.len())
}

#[test]
fn each_class_of_the_exact_search_is_found_with_the_order_forgotten() {
    for slots in [2, 3, 4] {
        let (all, missing, found) = compared(slots, Wrong::Nowhere);
        println!("{slots} slots: {all} classes of the exact search, {found} found");
        assert_eq!(missing, 0, "{slots} slots: of {all} classes, {found} found");
        assert!(found >= all, "{slots} slots: {all}, {found}");
    }
}

#[test]
fn a_wrong_form_misses_classes_of_the_exact_search() {
    for wrong in [Wrong::NoMembers, Wrong::MapForgotten, Wrong::MapLeftBehind] {
        let (all, missing, found) = compared(3, wrong);
        println!("{wrong:?}: {missing} of {all} missing, {found} found");
        assert!(missing > 0, "{wrong:?}: {all} classes, {found} found");
    }
}

#[test]
fn what_is_merged_goes_on_as_its_class_does_and_a_wrong_form_is_found_out() {
    let of = |wrong: Wrong| {
        let bent = Bent::new(4, wrong);
        let found = search(&bent, &bent.right, Congruence::Every(7));
        (what_differs(&bent, &found), found.checked)
    };
    let (differs, checked) = of(Wrong::Nowhere);
    assert!(differs.is_empty(), "{differs}");
    assert!(checked > 10_000, "{checked}");
    for wrong in [Wrong::NoMembers, Wrong::MapForgotten, Wrong::MapLeftBehind] {
        assert!(!of(wrong).0.is_empty(), "{wrong:?}");
    }
}

/// Where a check failed: the way, the class, and some of what follows but one of the two states.
fn what_differs<M>(model: &M, found: &Exploration<'_, M>) -> String
where
    M: Model<State = JudgedState, Cause = Cause>,
{
    let Some(one) = &found.incongruence else {
        return String::new();
    };
    let show = |key: &Key| {
        let state = model.read_key(key);
        let machine = &state.world.machine;
        let lift = (machine.lift_place, machine.motions());
        let of_map = (machine.map, machine.rack.present());
        let phase = (machine.phase(), machine.unit(), machine.task());
        format!("{lift:?} {phase:?} {of_map:?} {:?}\n", state.watch)
    };
    let mut text = format!("{:#?}\n{}", one.witness.steps, show(&one.key));
    match &one.difference {
        Difference::Successors { reached, read } => {
            for (name, list) in [("reached", reached), ("read", read)] {
                for next in list.iter().take(3) {
                    let who = (next.by, next.between);
                    text.push_str(&format!("{name} {who:?}: {}", show(&next.key)));
                }
            }
        }
        Difference::Key { read } => text.push_str(&format!("other key {}", show(read))),
        Difference::Flags { reached, read } => text.push_str(&format!("{reached:b} {read:b}")),
    }
    text
}

fn kept(slots: u8, rules: impl FnOnce(Rules) -> Rules) -> super::Kept {
    let (exercise, variant) = full_rack(slots);
    let rules = rules(exercise.rules.for_proof());
    explore_unordered(
        &exercise,
        &[variant],
        (slots, STATES_MOST),
        &rules,
        (&OneHand, &mut |_| {}),
    )
}

#[test]
fn with_the_rules_kept_nothing_is_found() {
    let found = kept(4, |rules| rules);
    assert!(found.complete && found.finished > 0);
    let ways = (found.harm, found.unfair, found.incongruent);
    assert_eq!(ways, (None, None, None));
}

/// Boards that neither the controller nor its sweep knows of, and no rule that asks for a proof.
#[test]
fn what_is_found_is_played_on_the_machine_as_it_is() {
    let slots = 3;
    let (mut exercise, number) = full_rack(slots);
    let raven = Board::good(3);
    let variant = &mut exercise.drill.variants[number];
    variant.boards = variant
        .stored
        .drain(..)
        .map(|(at, _)| (at, raven))
        .collect();
    let rules = exercise.rules.for_proof().without("rails-unproven");
    let found = explore_unordered(
        &exercise,
        &[number],
        (slots, STATES_MOST),
        &rules,
        (&OneHand, &mut |_| {}),
    );
    let (_, way) = found.harm.expect("rails move on boards");
    let starts = way.iter().filter(|line| line.contains("Start"));
    assert!(starts.count() >= 2, "it was played: {way:?}");
}

#[test]
fn what_asks_for_a_slot_switches_it_off() {
    let unordered = |change: &dyn Fn(&mut Exercise)| {
        let (mut exercise, variant) = full_rack(4);
        change(&mut exercise);
        let rules = exercise.rules.for_proof();
        Level::Unordered
            .of(judged(&exercise, variant, 4, &rules))
            .is_unordered()
    };
    let with_rule = |rule: &str| {
        let loaded = load(built_in_drill(), &Problems::new()).expect("it has no problem");
        let more = format!(
            "rules: [Rule(name: \"more\", severity: Major, source: \"for this test\", \
             always: Not({rule})),"
        );
        let text = loaded.material.rules.text.replacen("rules: [", &more, 1);
        let rules = Rules::read(Problems::new().for_file("", &text), 4);
        rules.expect("it has no problem").for_proof()
    };
    let of_rule = |rule: &str| {
        let (exercise, variant) = full_rack(4);
        let pair = judged(&exercise, variant, 4, &with_rule(rule));
        Level::Unordered.of(pair).is_unordered()
    };
    assert!(unordered(&|_| {}));
    assert!(of_rule("And([Did(Report), Every(Named(\"answered\"))])"));
    // Rules that ask of a slot what it is, whether it was, and for how long.
    for rule in [
        "And([Did(Report), Some(Named(\"seen-empty\"))])",
        "And([Did(Report), Every(Or([Named(\"seen-empty\"), Named(\"answered\")]))])",
        "And([Did(Report), Every(Once(of: SeenEmpty, within_s: 5.0))])",
        "And([Did(Report), Every(SeenEmpty)])",
        // A window's clock runs on while the lift does.
        "And([Did(Report), Once(of: Did(Start), within_s: 5.0)])",
    ] {
        assert!(!of_rule(rule), "{rule}");
    }
    // Pages for machine settings and for commands, clear glass.
    for page in [Page::Settings, Page::Orders] {
        assert!(!unordered(&|exercise| exercise.drill.pages.push(page)));
    }
    assert!(!unordered(&|exercise| {
        exercise.hall.sight.clear_glass = Some(Micrometres(1));
    }));
    // A machine with slots that are passed over, a middle beam, parts that meet.
    let with_machine = |change: &dyn Fn(&mut MachineParts)| {
        unordered(&|exercise| {
            let mut parts = exercise.machine.parts().clone();
            change(&mut parts);
            exercise.machine = Machine::new(parts);
        })
    };
    assert!(with_machine(&|_| {}));
    assert!(!with_machine(
        &|parts| parts.products[0].storing.interval = 2
    ));
    assert!(!with_machine(&|parts| {
        parts.storing.middle_beam = Some(MiddleBeam {
            at: Micrometres(300_000),
            clearance: Micrometres(6_000),
            reflectance: Percent(1),
        });
    }));
    assert!(!with_machine(
        &|parts| parts.kinds[0].above = Micrometres(100_000)
    ));
}

/// Boards go where the machine's order of slots sends them.
#[test]
fn neighbours_that_do_something_by_themselves_switch_it_off() {
    let working = built_in_drills()
        .into_iter()
        .find(|drill| drill.file.ends_with("blocked-downstream.ron"))
        .and_then(|drill| load(drill, &Problems::new()))
        .expect("it has no problem");
    let rules = working.exercise.rules.for_proof();
    for variant in 0..working.exercise.drill.variants.len() {
        let pair = judged(&working.exercise, variant, 6, &rules);
        assert!(!Level::Unordered.of(pair).is_unordered());
    }
}
