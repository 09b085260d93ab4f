//! What a picture shows of faults and of neighbours' quirks is what a look from there tells: each
//! cue that is told has its pixels in the view that is for it, and no other cue has any.

use std::collections::{BTreeMap, BTreeSet};

use rackproof_buffer::{BeamName, Button, Contact, Mode, Side};
use rackproof_drill::{Aim, Cause, Cue, Intent, Outcome, Sign, Stand, State, World};
use rackproof_model::Model;
use rackproof_stage::hall::{
    CUES_DRAWN, EXIT_MARK, Filter, Gaze, Hall, Scene, Shows, Turn, View, cue_mark,
};

use crate::scenes::{Painter, after, empty, machine, marks, presses, second_machine, world_in};

/// A cue that is told has at least so many pixels in a picture of this size.
const SEEN_LEAST: u32 = 12;
const SIZE: [u32; 2] = [824, 556];
/// So far the head is turned of somebody at the outfeed mouth who looks at the end beam: it hangs
/// right over them.
const TURNED: Turn = Turn {
    left: 0.35,
    up: 0.25,
};

macro_rules! scenarios {
    ($($name:literal),* $(,)?) => {
        &[$(($name, include_str!(concat!(
            "../../../../tests/journals/neighbours/scenarios/", $name, ".ron"
        )))),*]
    };
}

/// Each quirk, in the drill of its kept journal.
const QUIRKS: &[(&str, &str)] = scenarios![
    "stands-behind",
    "wait-for-each-other",
    "jumper-seen",
    "link-behind",
    "always-offered",
    "failed-board-waits",
    "dropped-behind",
    "dropped-before",
    "chatters",
    "old-rails-behind",
    "fed-by-hand",
    "turned",
    "test-box-before",
    "test-box-behind",
];

/// Each fault that is seen by what is drawn for it.
const FAULTS: &[&str] = &[
    "Debris(at_mm: 200.0, wide_mm: 5.0)",
    "Beam(beam: InfeedMouth, sees: Nothing)",
    "Beam(beam: OutfeedMouth, sees: Nothing)",
    "Beam(beam: End, sees: Nothing)",
    "Beam(beam: InfeedMouth, sees: Always)",
    "Beam(beam: OutfeedMouth, sees: Always)",
    "Beam(beam: End, sees: Always)",
    "Beam(beam: InfeedMouth, sees: Elsewhere(along_mm: 0.0, across_mm: 70.0))",
    "Beam(beam: OutfeedMouth, sees: Elsewhere(along_mm: 0.0, across_mm: 70.0))",
    "Beam(beam: End, sees: Elsewhere(along_mm: 0.0, across_mm: 70.0))",
    "Contact(contact: UpstreamAvailable, stays: Closed)",
    "Contact(contact: OwnReady, stays: Closed)",
    "Contact(contact: DownstreamReady, stays: Closed)",
    "Contact(contact: OwnAvailable, stays: Closed)",
];

/// What a real look from there tells.
fn told(world: &World, state: &State, stand: Stand, aim: Aim) -> Vec<Cue> {
    let (mut there, mut told) = (*state, Vec::new());
    there.person.stand = stand;
    world.act(&mut there, Cause::Did(Intent::Look(aim)), &mut |outcome| {
        if let Outcome::Sign(Sign::Cue(cue)) = outcome {
            told.push(cue);
        }
    });
    told
}

/// Where a cue is looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Seen {
    /// Upright at the side.
    Upright,
    /// Into the mouth; the end beam with the head turned up.
    Mouth(BeamName),
    /// Through the hatch.
    Hatch,
}

fn seen_from(cue: Cue) -> Seen {
    match cue {
        Cue::LensFilmed(beam) | Cue::BeamOutOfLine(beam) | Cue::BeamLit(beam) => Seen::Mouth(beam),
        Cue::StripOnScrew => Seen::Hatch,
        _ => Seen::Upright,
    }
}

/// Whether a cue is in the picture of somebody who stands upright.
pub(crate) fn is_upright(cue: Cue) -> bool {
    seen_from(cue) == Seen::Upright
}

/// How the head is turned of somebody whose look shows a cue.
pub(crate) fn turn_for(cue: Option<Cue>) -> Turn {
    let at_end = cue.is_some_and(|cue| seen_from(cue) == Seen::Mouth(BeamName::End));
    if at_end { TURNED } else { Turn::default() }
}

/// As large as a machine: it may be in the picture of somebody farther off.
fn is_large(cue: Cue) -> bool {
    matches!(
        cue,
        Cue::TakesAlways | Cue::FedByHand | Cue::TestBox(_) | Cue::NoMachine(_)
    )
}

/// A view with the head turned to the end beam or not.
type Look = (View, bool);

const LOOKS: [Look; 9] = [
    (View::Stand(Stand::Infeed), false),
    (View::Stand(Stand::Outfeed), false),
    (View::Stand(Stand::Panel), false),
    (View::Stand(Stand::Hatch), false),
    (View::Mouth(Side::Infeed), false),
    (View::Mouth(Side::Outfeed), false),
    (View::Mouth(Side::Outfeed), true),
    (View::Lean(rackproof_buffer::Half::Infeed), false),
    (View::Lean(rackproof_buffer::Half::Outfeed), false),
];

/// What must be in the picture of a view, and what else may be.
fn wanted(world: &World, state: &State, (view, turned): Look) -> (Vec<Cue>, Vec<Cue>) {
    let at = |stand| told(world, state, stand, Aim::Mouth);
    let around: Vec<Cue> = [Stand::Infeed, Stand::Outfeed]
        .into_iter()
        .flat_map(at)
        .filter(|cue| is_large(*cue))
        .collect();
    let (must, may) = match (view, view.aim()) {
        (View::Stand(stand), _) if stand.side().is_some() => {
            let must = at(stand).into_iter();
            (
                must.filter(|cue| seen_from(*cue) == Seen::Upright)
                    .collect(),
                around,
            )
        }
        (View::Stand(_), _) => (Vec::new(), around),
        (_, Some((stand, aim))) => {
            let all = told(world, state, stand, aim);
            let is_in = |cue: &&Cue| match seen_from(**cue) {
                Seen::Mouth(BeamName::End) => turned,
                Seen::Mouth(_) => !turned,
                Seen::Hatch => true,
                Seen::Upright => false,
            };
            // Through the machine one sees out at its other end.
            let may = all.iter().copied().chain(around).collect();
            (all.iter().filter(is_in).copied().collect(), may)
        }
        _ => (Vec::new(), Vec::new()),
    };
    (must, may)
}

struct Trial<'w> {
    world: &'w World,
    hall: Hall,
    painter: Painter,
    met: BTreeMap<u32, u32>,
    wrong: Vec<String>,
}

impl<'w> Trial<'w> {
    fn new(world: &'w World) -> Trial<'w> {
        let hall = Hall::new(world);
        let painter = Painter::new(&hall, SIZE[0], SIZE[1]);
        Trial {
            world,
            hall,
            painter,
            met: BTreeMap::new(),
            wrong: Vec::new(),
        }
    }

    /// Compares the picture of a view, by somebody who stands there with a lit torch.
    fn compare(&mut self, name: &str, state: &State, look: Look) {
        let (view, turned) = look;
        let mut state = *state;
        state.person.torch = true;
        state.person.stand = match view {
            View::Stand(stand) => stand,
            _ => view.aim().map_or(state.person.stand, |(stand, _)| stand),
        };
        let turn = if turned { TURNED } else { Turn::default() };
        let scene = Scene {
            world: self.world,
            state: &state,
            gaze: Gaze {
                turn,
                ..view.into()
            },
            shows: Shows::Seen,
        };
        let area = self.painter.area();
        let frame = (self.hall).count_frame(&scene, area, Filter::AsDrawn, None);
        let pixels = marks(&self.painter.paint(frame));
        let count = |mark: u32| pixels.get(&mark).copied().unwrap_or(0);
        let (must, may) = wanted(self.world, &state, look);
        for cue in CUES_DRAWN {
            let mark = cue_mark(cue).expect("it has a mark");
            let found = count(mark);
            let right = if must.contains(&cue) {
                let met = self.met.entry(mark).or_insert(u32::MAX);
                *met = found.min(*met);
                found >= SEEN_LEAST
            } else {
                found == 0 || may.contains(&cue)
            };
            if !right {
                self.wrong.push(format!(
                    "{name} {look:?} {cue:?}: {found} px, told {must:?}"
                ));
            }
        }
        let board = self.world.board_at_exit(&state).is_some();
        let near = view == View::Stand(Stand::Infeed);
        let waits = must.contains(&Cue::BoardWaitsUpstream);
        let shown = count(EXIT_MARK);
        if (shown > 0) != (board && near && !waits) {
            self.wrong.push(format!(
                "{name} {look:?} board at the exit {board}: {shown} px"
            ));
        }
    }

    fn differs_nowhere(&self) {
        let wrong = &self.wrong;
        assert!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
    }
}

/// The start, some moments of production, and the rest behind it.
fn moments(world: &World) -> Vec<State> {
    let mut states = vec![world.start()];
    let mut state = world.start();
    for button in [Button::Reset, Button::Start] {
        world.act(&mut state, Cause::Did(Intent::Press(button)), &mut |_| {});
    }
    for number in 0..200 {
        let Some(next) = world.next_event(&state) else {
            break;
        };
        world.advance(&mut state, next, &mut |_| {});
        if number == 12 || number == 31 {
            states.push(state);
        }
    }
    states.push(state);
    states
}

/// Our rails changed over to the next product, those of a neighbour perhaps not.
fn changed_over(world: &World) -> State {
    let buttons = [
        Button::Stop,
        Button::Mode(Mode::Changeover),
        Button::Reset,
        Button::Choose(1),
        Button::Load,
        Button::Start,
        Button::Start,
    ];
    let state = after(world, empty(world), &presses(&buttons));
    let machine = world.machine();
    assert_ne!(
        state.machine.width(machine),
        world.start().machine.width(machine)
    );
    state
}

#[test]
fn each_quirk_of_a_neighbour_is_drawn_where_it_is_told_and_nowhere_else() {
    let (alder, rowan) = (machine(), second_machine());
    let mut met: BTreeSet<u32> = BTreeSet::new();
    let mut least = u32::MAX;
    for (name, drill) in QUIRKS {
        let machine = if drill.contains("rowan-40") {
            &rowan
        } else {
            &alder
        };
        let world = world_in(machine, drill);
        let mut trial = Trial::new(&world);
        let mut states = moments(&world);
        if drill.contains("rails: Old") {
            states.push(changed_over(&world));
        }
        for state in states {
            for look in &LOOKS[..6] {
                trial.compare(name, &state, *look);
            }
        }
        trial.differs_nowhere();
        met.extend(trial.met.keys());
        least = trial.met.values().copied().fold(least, u32::min);
    }
    let neighbours = CUES_DRAWN.into_iter().filter(|cue| {
        let other = matches!(cue, Cue::LampsDiffer(_) | Cue::NoMachine(_));
        seen_from(*cue) == Seen::Upright && !other
    });
    let unmet: Vec<Cue> = neighbours
        .filter(|cue| cue_mark(*cue).is_none_or(|mark| !met.contains(&mark)))
        .collect();
    // Upstream's rails are as downstream's: no drill has them old on that side.
    assert_eq!(unmet, [Cue::OtherWidth(Side::Infeed)]);
    println!("{} sorts met, the smallest has {least} px", met.len());
}

#[test]
fn each_fault_is_drawn_where_it_is_told_and_nowhere_else() {
    let machine = machine();
    let (_, plain) = QUIRKS[0];
    let mut met: BTreeMap<u32, u32> = BTreeMap::new();
    for what in FAULTS {
        let fault = format!(
            "    faults: [Fault(name: \"fault\", what: {what}, comes: Start)],\n    traps: [\n"
        );
        let drill = plain.replace("    traps: [\n", &fault).replace(
            "traps: [\"half-a-look\"],",
            "traps: [\"half-a-look\"], faults: [\"fault\"],",
        );
        let world = world_in(&machine, &drill);
        let mut trial = Trial::new(&world);
        let mut state = world.start();
        world.act(&mut state, Cause::Did(Intent::OpenHatch), &mut |_| {});
        for look in LOOKS {
            trial.compare(what, &state, look);
        }
        trial.differs_nowhere();
        assert!(!trial.met.is_empty(), "{what}: nothing is told of it");
        met.extend(trial.met);
    }
    for (cue, what) in [
        (Cue::StripOnScrew, "the strip"),
        (Cue::LensFilmed(BeamName::End), "the end's film"),
        (Cue::LampsDiffer(Contact::OwnReady), "our lamps"),
    ] {
        let mark = cue_mark(cue).expect("it is drawn");
        assert!(met.contains_key(&mark), "{what}");
    }
    println!("{} sorts met, smallest {:?}", met.len(), met.values().min());
}

/// The wall has nothing on it in the debrief that it does not have in truth, and all of it at once.
#[test]
fn the_debrief_shows_all_that_is_so() {
    let machine = machine();
    for (name, drill) in QUIRKS.iter().filter(|(_, drill)| !drill.contains("rowan")) {
        let world = world_in(&machine, drill);
        let hall = Hall::new(&world);
        let state = world.start();
        let scene = Scene {
            world: &world,
            state: &state,
            gaze: View::CloseBy.into(),
            shows: Shows::All,
        };
        let area = rackproof_stage::frame::Area {
            width: 8,
            height: 8,
            ..Default::default()
        };
        let marks: BTreeSet<u32> = hall
            .frame(&scene, area)
            .pieces
            .iter()
            .map(|piece| piece.mark)
            .collect();
        let all: Vec<Cue> = [Stand::Infeed, Stand::Outfeed]
            .into_iter()
            .flat_map(|stand| told(&world, &state, stand, Aim::Mouth))
            .collect();
        for cue in CUES_DRAWN {
            let mark = cue_mark(cue).expect("it has a mark");
            let drawn = marks.contains(&mark);
            assert_eq!(drawn, all.contains(&cue), "{name} {cue:?}");
        }
    }
}
