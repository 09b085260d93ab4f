//! Whether a green proof says anything: is each rule needed, does each trap spring, is each thing
//! that is on offer allowed somewhere, does each choice of the environment come up.
//!
//! Beer, Ben-David, Eisner and Rodeh, "Efficient detection of vacuity in temporal model checking",
//! 2001, from memory, for the idea.

use rackproof_attempt::Exercise;
use rackproof_drill::IntentKind;
use rackproof_grade::{JudgedState, Rules};
use rackproof_prove::{Congruence, Settings};

use super::{
    choices::{Choice, choices},
    interrupt::explore,
    job::{
        BREACH, HARMED_KEPT, HARMS, Kept, REPORTED, SAFE, STATES_MOST_FREE, flags, groups, joined,
    },
    sprung::Sprung,
    survey::Survey,
};

/// The rack on which rules are knocked out.
const SLOTS: u8 = 2;
/// Most states of such a search. All variants begin in it at once.
const STATES_MOST_WITHOUT: usize = 4 * STATES_MOST_FREE;

/// A rule, and what became of the proof without it.
#[derive(Clone, Debug)]
pub(crate) struct Need {
    pub(crate) rule: String,
    /// Whether it rests on a source from outside, and not on common practice.
    pub(crate) sourced: bool,
    /// In how many states of the searches it was the first to be broken.
    pub(crate) first_broken: u64,
    /// Whether it is the first to be broken somewhere: in such a state, by a plain step, or by a
    /// step of which something was left out.
    pub(crate) tested: bool,
    /// Whether it is there to name a mistake early, though others would catch it.
    pub(crate) early: bool,
    /// The variant in which, without it, an attempt that keeps all others does harm.
    pub(crate) turned: Option<usize>,
    /// The variant in which, without it, an attempt that keeps all others comes to where no safe
    /// finish can be reached for sure any more.
    pub(crate) cornered: Option<usize>,
}

/// What becomes of the proof without a rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Turn {
    Harm,
    Corner,
    /// Two states that were merged behave differently: nothing else is known.
    Incongruent,
}

/// Without a rule states are merged that are never met with it. It costs a twentieth of such a
/// search to see to some of them.
const CHECKED_WITHOUT: Congruence = Congruence::Dense {
    states: 300,
    every: 3_000,
};

/// All checks.
#[derive(Clone, Debug)]
pub(crate) struct Vacuity {
    pub(crate) needs: Vec<Need>,
    /// The number of a rule without which two states that were merged behave differently, and the
    /// variant in which they do.
    pub(crate) incongruent: Option<(usize, usize)>,
    pub(crate) traps: Vec<Sprung>,
    /// Names of the kinds of intent that break a rule wherever they are on offer.
    pub(crate) always_wrong: Vec<&'static str>,
    /// Those of them that the drill does not list.
    pub(crate) unlisted: Vec<&'static str>,
    /// What the environment may choose, and where it comes up.
    pub(crate) choices: Vec<Choice>,
}

impl Need {
    /// Whether nothing speaks for it: without it nothing turns, and it rests on nothing else.
    pub(crate) fn is_idle(&self) -> bool {
        let turns = self.turned.is_some() || self.cornered.is_some();
        self.tested && !turns && !self.sourced && !self.early
    }
}

impl Vacuity {
    /// Whether each rule that can be broken is needed: without it harm is done, or a corner is
    /// reached, or it rests on a source from outside, or it names a mistake early.
    pub(crate) fn rules_count(&self) -> bool {
        !self.needs.iter().any(Need::is_idle)
    }

    /// Whether all that is on offer is allowed somewhere, but what the drill lists as always wrong.
    pub(crate) fn offers_allowed(&self) -> bool {
        self.unlisted.is_empty()
    }

    /// Whether all that the environment may choose comes up.
    pub(crate) fn choices_come_up(&self) -> bool {
        self.choices.iter().all(Choice::comes_up)
    }

    /// Whether each trap is armed in some variant, and sprung.
    pub(crate) fn traps_live(&self) -> bool {
        let lives = |trap: &Sprung| !trap.variants.is_empty() && trap.way.is_some();
        self.traps.iter().all(lives)
    }
}

/// Joins what the searches gave. `kept` are the searches with the rules kept, `survey` what the
/// acts on offer came to in all searches; then what the searches without each rule gave, and those
/// for each trap.
pub(crate) fn check(
    exercise: &Exercise,
    kept: &[Kept],
    survey: &Survey,
    (turned, traps): (Vec<Without>, Vec<Sprung>),
) -> Vacuity {
    let rules = exercise.rules.for_proof();
    let first_broken = |rule: usize| kept.iter().map(|one| one.first_broken[rule]).sum();
    let incongruent = turned.iter().enumerate();
    let incongruent = incongruent
        .filter_map(|(rule, turn)| Some((rule, turn.incongruent?)))
        .next();
    let needs = rules.list.iter().zip(turned).enumerate();
    let needs = needs.map(|(number, (rule, turn))| Need {
        rule: rule.name.clone(),
        sourced: rule.source != "common practice",
        first_broken: first_broken(number),
        tested: first_broken(number) > 0 || survey.broken >> number & 1 == 1,
        early: rule.early,
        turned: turn.harm,
        cornered: turn.corner,
    });
    let wrong = survey.offered & !survey.allowed;
    let kinds = IntentKind::ALL.iter();
    let always_wrong: Vec<&'static str> = kinds
        .filter(|(_, kind)| wrong >> *kind as u8 & 1 == 1)
        .map(|(name, _)| *name)
        .collect();
    Vacuity {
        needs: needs.collect(),
        incongruent,
        traps,
        unlisted: unlisted(exercise, &always_wrong),
        always_wrong,
        choices: choices(exercise, kept),
    }
}

/// Of these kinds of intent those that the drill does not list.
pub(super) fn unlisted(exercise: &Exercise, wrong: &[&'static str]) -> Vec<&'static str> {
    let listed = exercise.drill.always_wrong.iter().copied();
    let listed: Vec<IntentKind> = listed.collect();
    let kinds = IntentKind::ALL.iter();
    kinds
        .filter(|(name, kind)| wrong.contains(name) && !listed.contains(kind))
        .map(|(name, _)| *name)
        .collect()
}

/// What becomes of the proof without a rule: the variant in which harm is done, the one in which a
/// corner is reached, the one in which merged states behave differently.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Without {
    harm: Option<usize>,
    corner: Option<usize>,
    incongruent: Option<usize>,
}

/// What becomes of the proof without the rule with this number.
pub(super) fn without(exercise: &Exercise, chosen: &[usize], rule: usize) -> Without {
    let name = &exercise.rules.for_proof().list[rule].name;
    let groups = groups(exercise, chosen);
    first_turns(
        groups
            .iter()
            .map(|group| turn_without(exercise, group, name)),
    )
}

/// The first variant in which harm is done; if there is none, the first with a corner. What was
/// merged wrongly is told in any case.
fn first_turns(turns: impl Iterator<Item = Option<(usize, Turn)>>) -> Without {
    let mut found = Without::default();
    for (variant, turn) in turns.flatten() {
        let place = match turn {
            Turn::Harm => &mut found.harm,
            Turn::Corner => &mut found.corner,
            Turn::Incongruent => &mut found.incongruent,
        };
        place.get_or_insert(variant);
    }
    if found.harm.is_some() {
        found.corner = None;
    }
    found
}

/// The rules without this one, and without those that only name a mistake early: they forbid what
/// the others would keep from doing harm, and so hide what each of the others is for.
fn rules_without(rules: &Rules, rule: &str) -> Rules {
    let is_early = rules.list.iter().any(|one| one.early && one.name == rule);
    let gone = rules
        .list
        .iter()
        .filter(|one| one.name == rule || (one.early && !is_early));
    gone.fold(rules.clone(), |left, one| left.without(&one.name))
}

/// What an attempt can come to that keeps all rules but this one, and in which of the variants of a
/// group.
fn turn_without(exercise: &Exercise, group: &[usize], rule: &str) -> Option<(usize, Turn)> {
    let rules = rules_without(&exercise.rules.for_proof(), rule);
    let (judged, starts) = joined(exercise, group, SLOTS, &rules);
    let judged = judged.prepared();
    let settings = Settings {
        prune: HARMS | 1 << BREACH | 1 << REPORTED,
        until: 1 << HARMED_KEPT,
        states_most: STATES_MOST_WITHOUT,
        steps_kept: true,
        congruence: CHECKED_WITHOUT,
        ..Settings::default()
    };
    let flags = |state: &JudgedState| flags(&judged, state);
    let found = explore(&judged, &starts, &settings, flags);
    if let Some(witness) = found.witness(HARMED_KEPT) {
        return Some((group[witness.start], Turn::Harm));
    }
    if let Some(one) = &found.incongruence {
        return Some((group[one.witness.start], Turn::Incongruent));
    }
    // Of a search that was not ended nothing is known.
    let corners = found.corners(1 << SAFE, settings.prune)?;
    let witness = found.witness_to(corners.first?);
    Some((group[witness.start], Turn::Corner))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rule_that_names_a_mistake_early_hides_no_other() {
        let problems = rackproof_files::Problems::new();
        let drill = rackproof_library::built_in_drill();
        let loaded = rackproof_library::load(drill, &problems).expect("it has no problem");
        let rules = loaded.exercise.rules.for_proof();
        let gone = |rule: &str| {
            let left = rules_without(&rules, rule);
            let stays = |name: &str| left.list.iter().any(|one| one.name == name);
            let names = rules.list.iter().map(|one| one.name.clone());
            names.filter(|name| !stays(name)).collect::<Vec<_>>()
        };
        let early = ["production-width", "upstream-not-held", "board-put-in"];
        assert_eq!(gone("board-put-in"), ["board-put-in"]);
        let found = gone("declared-unseen");
        assert_eq!(found.len(), 1 + early.len(), "{found:?}");
        assert!(
            early
                .iter()
                .all(|name| found.iter().any(|gone| gone == name))
        );
    }

    /// Here a clear-out that lies beyond the bound goes on until another rule is broken: what is
    /// over lies beyond nothing, as of it the verdict alone is kept.
    #[test]
    fn what_is_over_beyond_the_bound_is_merged_rightly() {
        let problems = rackproof_files::Problems::new();
        let drills = rackproof_library::built_in_drills();
        let mut drills = drills.into_iter();
        let drill = drills.find(|drill| drill.file.ends_with("left-inside-rowan.ron"));
        let drill = drill.expect("it is compiled in");
        let loaded = rackproof_library::load(drill, &problems).expect("it has no problem");
        let variant = loaded.exercise.variant("window-high").expect("it has one");
        let turn = turn_without(&loaded.exercise, &[variant], "production-unproven");
        // In this variant other rules stand in for it, so that nothing else can turn either.
        assert_eq!(turn, None, "merged states behave differently");
    }

    #[test]
    fn harm_in_any_variant_counts_before_a_corner_in_another() {
        type Turns = &'static [Option<(usize, Turn)>];
        let none = None;
        let cases: [(Turns, [Option<usize>; 3]); 6] = [
            (&[None, None], [none, none, none]),
            (
                &[Some((0, Turn::Corner)), Some((4, Turn::Harm))],
                [Some(4), none, none],
            ),
            (
                &[None, Some((4, Turn::Corner)), Some((8, Turn::Corner))],
                [none, Some(4), none],
            ),
            (
                &[Some((0, Turn::Harm)), Some((4, Turn::Corner))],
                [Some(0), none, none],
            ),
            (&[Some((3, Turn::Corner)), None], [none, Some(3), none]),
            (
                &[Some((2, Turn::Incongruent)), Some((4, Turn::Harm))],
                [Some(4), none, Some(2)],
            ),
        ];
        for (turns, [harm, corner, incongruent]) in cases {
            let expected = Without {
                harm,
                corner,
                incongruent,
            };
            assert_eq!(first_turns(turns.iter().copied()), expected, "{turns:?}");
        }
    }
}
