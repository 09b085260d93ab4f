//! Seen is seen: no picture shows a board that the core says is out of sight, and each board that
//! the core says is seen is in the picture. Pixels of flat pictures are counted.
//!
//! A board that is seen covers many pixels; one that is not has none at all, because darkness, a
//! cover or the rack stands before it.

use std::collections::BTreeMap;

use crate::scenes::{
    Painter, after, at_slots, empty, eye_lowered, leaning, marks, second_world, world,
};
use rackproof_buffer::{Board, Half, HalfSlot, Halves, Side};
use rackproof_drill::{Aim, Cause, Intent, Outcome, Sign, Stand, State, World};
use rackproof_model::Model;
use rackproof_stage::hall::{Filter, Hall, Scene, Shows, View, belt_mark, slot_mark};

/// A board that is seen has at least so many pixels in a picture of this size.
const SEEN_LEAST: u32 = 40;
/// Size of the pictures.
const SIZE: [u32; 2] = [412, 278];
/// More boards than this never lie outside the slots.
const ON_BELTS_MOST: u32 = 8;

/// How often a board was seen, and how often one that is there was not, by the core.
type Counts = BTreeMap<View, [u32; 2]>;

struct Trial<'w> {
    /// Who says what is seen.
    core: &'w World,
    /// Whose hall is drawn.
    world: &'w World,
    hall: Hall,
    painter: Painter,
    counts: Counts,
    wrong: Vec<String>,
}

/// How much is tried.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Extent {
    Whole,
    /// Enough to find an eye that is wrong.
    FullRacks,
}

impl<'w> Trial<'w> {
    fn new(core: &'w World, world: &'w World) -> Trial<'w> {
        let hall = Hall::new(world);
        let painter = Painter::new(&hall, SIZE[0], SIZE[1]);
        let (counts, wrong) = (Counts::new(), Vec::new());
        Trial {
            core,
            world,
            hall,
            painter,
            counts,
            wrong,
        }
    }

    /// Every picture so far showed what the core says.
    fn differs_nowhere(&self) {
        let wrong = &self.wrong;
        assert!(
            wrong.is_empty(),
            "{} differ:\n{}",
            wrong.len(),
            wrong.join("\n")
        );
    }

    /// Compares one picture with the core, in both directions.
    fn compare(&mut self, state: &State, view: View, filter: Filter) {
        let seen = seen(self.core, state, view);
        let scene = Scene {
            world: self.world,
            state,
            gaze: view.into(),
            shows: Shows::Seen,
        };
        let frame = self
            .hall
            .count_frame(&scene, self.painter.area(), filter, None);
        let pixels = marks(&self.painter.paint(frame));
        for (at, board) in state.machine.rack.iter() {
            let count = pixels.get(&slot_mark(at)).copied().unwrap_or(0);
            let is_seen = seen.contains(at);
            self.counts.entry(view).or_default()[usize::from(!is_seen)] += 1;
            let right = if is_seen {
                count >= SEEN_LEAST
            } else {
                count == 0
            };
            if !right {
                let kind = board.kind;
                let said = if is_seen { "seen" } else { "hidden" };
                self.wrong.push(format!(
                    "{view:?} {filter:?} {at:?} kind {kind}: {said}, {count} px"
                ));
            }
        }
    }
}

/// The boards of the rack that the core says are seen from this view.
fn seen(core: &World, state: &State, view: View) -> Halves {
    let Some((stand, aim)) = view.aim() else {
        return Halves::NONE;
    };
    let is_hatch = stand == Stand::Hatch;
    let through = state.machine.hatch_open() || core.hall().sight.clear_glass.is_some();
    if state.person.stand != stand || (is_hatch && !through) {
        return Halves::NONE;
    }
    core.seen(state, aim)
        .map_or(Halves::NONE, |(_, boards)| boards)
}

fn all_halves(world: &World) -> Vec<HalfSlot> {
    let slots = 0..world.machine().slots();
    slots
        .flat_map(|slot| Half::BOTH.map(|half| HalfSlot { slot, half }))
        .collect()
}

/// Racks: each half-slot alone with one of these kinds, every half full of one kind, every second.
fn racks(world: &World, kinds: &[u8]) -> Vec<Vec<(HalfSlot, u8)>> {
    let halves = all_halves(world);
    let kind = |number: usize| kinds[number % kinds.len()];
    let alone = halves
        .iter()
        .enumerate()
        .map(|(n, &at)| vec![(at, kind(n))]);
    let full = kinds
        .iter()
        .map(|&kind| halves.iter().map(|&at| (at, kind)).collect());
    let second = (0..2u8).map(|first| {
        let every = halves.iter().filter(|at| at.slot % 2 == first);
        every
            .map(|&at| (at, kind(usize::from(at.slot / 2))))
            .collect()
    });
    full.chain(second).chain(alone).collect()
}

fn with_rack(state: &State, boards: &[(HalfSlot, u8)]) -> State {
    let mut state = *state;
    for &(at, kind) in boards {
        state.machine.rack.set(at, Board::good(kind));
    }
    state
}

/// Every place and aim, with the torch and without, the hatch open and shut, for boards that fit
/// between the rails of either product.
fn all_pictures(trial: &mut Trial, extent: Extent) {
    let machine = trial.world.machine();
    for product in 0..machine.parts().products.len() as u8 {
        let at_slots = at_slots(trial.world, product);
        let width = at_slots[0].machine.width(machine);
        // What is narrower by more than the ledges does not lie there.
        let fits = |&kind: &u8| {
            let limits = machine.press_limits(kind);
            machine.kinds()[kind as usize].width <= width && width <= limits.dropped_over
        };
        let kinds: Vec<u8> = (0..machine.kinds().len() as u8).filter(fits).collect();
        let racks = racks(trial.world, &kinds);
        let count = if extent == Extent::Whole {
            racks.len()
        } else {
            kinds.len() + 2
        };
        for (number, boards) in racks.iter().take(count).enumerate() {
            let last = at_slots.len() - 1;
            let low_middle_high = [0, last / 2, last];
            at_the_hatch(
                trial,
                &at_slots[low_middle_high[number % 3]],
                boards,
                number,
            );
            elsewhere(trial, &at_slots[number % at_slots.len()], boards, number);
        }
        // Slot by slot at the belts, with all else full too.
        for at_slot in &at_slots {
            if let [.., Filter::Off] = filters(trial.world, &racks[0]) {
                at_the_mouths(trial, &with_rack(at_slot, &racks[0]), Filter::Off);
            }
        }
    }
}

/// How a rack is drawn: for the person, and, where no part stands out of its slot, with all boards,
/// hidden by geometry and darkness alone. To the core a board is flat.
fn filters(world: &World, boards: &[(HalfSlot, u8)]) -> &'static [Filter] {
    let machine = world.machine();
    let stands_out = |&(_, kind): &(HalfSlot, u8)| {
        let kind = &machine.kinds()[kind as usize];
        kind.above + kind.below + kind.thickness > machine.parts().pitch
    };
    if boards.iter().any(stands_out) {
        &[Filter::AsDrawn]
    } else {
        &[Filter::AsDrawn, Filter::Off]
    }
}

fn at_the_hatch(trial: &mut Trial, base: &State, boards: &[(HalfSlot, u8)], number: usize) {
    let lean = leaning(trial.world, with_rack(base, boards));
    let mut dark = lean;
    dark.person.torch = false;
    for &filter in filters(trial.world, boards) {
        for half in Half::BOTH {
            trial.compare(&lean, View::Lean(half), filter);
            if number.is_multiple_of(4) {
                trial.compare(&dark, View::Lean(half), filter);
            }
        }
        trial.compare(&lean, View::Stand(Stand::Hatch), filter);
    }
}

fn elsewhere(trial: &mut Trial, base: &State, boards: &[(HalfSlot, u8)], number: usize) {
    let mut shut = with_rack(base, boards);
    shut.person.torch = true;
    for &filter in filters(trial.world, boards) {
        at_the_mouths(trial, &shut, filter);
        if number.is_multiple_of(3) {
            for (_, stand) in Stand::ALL {
                shut.person.stand = stand;
                trial.compare(&shut, View::Stand(stand), filter);
            }
        }
    }
    // From the hatch nobody looks into a mouth, and through a shut hatch nobody leans.
    shut.person.stand = Stand::Hatch;
    trial.compare(&shut, View::Mouth(Side::Infeed), Filter::AsDrawn);
    trial.compare(&shut, View::Lean(Half::Infeed), Filter::AsDrawn);
}

fn at_the_mouths(trial: &mut Trial, base: &State, filter: Filter) {
    let mut state = *base;
    state.person.torch = true;
    for (side, stand) in [
        (Side::Infeed, Stand::Infeed),
        (Side::Outfeed, Stand::Outfeed),
    ] {
        state.person.stand = stand;
        trial.compare(&state, View::Mouth(side), filter);
    }
}

#[test]
fn the_picture_shows_the_boards_that_the_core_says_are_seen_and_no_other() {
    let world = world();
    let mut trial = Trial::new(&world, &world);
    all_pictures(&mut trial, Extent::Whole);
    trial.differs_nowhere();
    // Boards are seen with each aim, and hidden from each view.
    let counts = &trial.counts;
    let of = |view: View| counts.get(&view).copied().unwrap_or_default();
    for view in View::ALL {
        let [seen, hidden] = of(view);
        let least = match view {
            View::Lean(_) => [150, 150],
            View::Mouth(_) => [40, 500],
            View::Stand(_) => [0, 100],
            View::Overview | View::CloseBy => [0, 0],
        };
        assert!(
            seen >= least[0] && hidden >= least[1],
            "{view:?}: {seen} seen, {hidden} hidden"
        );
        assert!(view.aim().is_some() || seen == 0, "{view:?}");
    }
    println!("compared: {counts:?}");
}

/// Forty slots, clear glass, parts that stand high and hang low.
#[test]
fn so_it_is_on_the_second_machine() {
    let world = second_world();
    let mut trial = Trial::new(&world, &world);
    all_pictures(&mut trial, Extent::FullRacks);
    trial.differs_nowhere();
    for view in View::ALL.into_iter().filter(|view| view.aim().is_some()) {
        let [seen, hidden] = trial.counts.get(&view).copied().unwrap_or_default();
        assert!(
            seen >= 40 && hidden >= 100,
            "{view:?}: {seen} seen, {hidden} hidden"
        );
    }
    println!("compared: {:?}", trial.counts);
}

#[test]
fn a_moved_eye_is_found() {
    let world = world();
    for (moved, found_in) in [
        (eye_lowered(200, 0), "Lean"),
        (eye_lowered(0, -200), "Mouth"),
    ] {
        let mut trial = Trial::new(&moved, &world);
        all_pictures(&mut trial, Extent::FullRacks);
        let count = trial
            .wrong
            .iter()
            .filter(|wrong| wrong.starts_with(found_in))
            .count();
        assert!(count > 10, "{found_in}: {count} of {}", trial.wrong.len());
    }
}

/// Boards outside the slots: what the person is told of belt and mouth is what is drawn.
#[test]
fn belts_and_mouths_show_what_a_look_tells() {
    let world = world();
    let mut trial = Trial::new(&world, &world);
    let board = Some(Board::good(0));
    let mut compared = [0; 2];
    for set in 0..32u32 {
        let mut state = after(&world, empty(&world), &[]);
        let here = |bit: u32| board.filter(|_| set >> bit & 1 == 1);
        state.machine.infeed_belt = here(0);
        state.machine.mouths = [here(1), here(2)];
        state.machine.outfeed_belt = [here(3), here(4)];
        for view in View::ALL {
            if let Some((stand, _)) = view.aim() {
                state.person.stand = stand;
            }
            let told = told_at_mouth(&world, &state, view);
            let scene = Scene {
                world: &world,
                state: &state,
                gaze: view.into(),
                shows: Shows::Seen,
            };
            let area = trial.painter.area();
            let frame = trial.hall.count_frame(&scene, area, Filter::AsDrawn, None);
            let pixels = marks(&trial.painter.paint(frame));
            let shown = (0..ON_BELTS_MOST).filter(|&n| pixels.contains_key(&belt_mark(n)));
            assert_eq!(shown.clone().count() as u32, told, "{view:?} {set:05b}");
            for number in shown {
                assert!(
                    pixels[&belt_mark(number)] >= SEEN_LEAST,
                    "{view:?} {set:05b}: {pixels:?}"
                );
            }
            compared[usize::from(told == 0)] += 1;
        }
    }
    assert!(compared[0] >= 40 && compared[1] >= 200, "{compared:?}");
}

/// How many boards a look at a mouth tells of; none where there is no such look.
fn told_at_mouth(world: &World, state: &State, view: View) -> u32 {
    if !matches!(view.aim(), Some((_, Aim::Mouth))) {
        return 0;
    }
    let (mut copy, mut told) = (*state, 0);
    world.act(
        &mut copy,
        Cause::Did(Intent::Look(Aim::Mouth)),
        &mut |outcome| match outcome {
            Outcome::Sign(Sign::SawBelt(_, boards)) => told += u32::from(boards),
            Outcome::Sign(Sign::SawMouth(_, across)) => told += u32::from(across),
            _ => {}
        },
    );
    told
}
