//! How each trap springs: a shortest way on a small rack, and the same way on the whole one.

use rackproof_attempt::Exercise;
use rackproof_drill::{Cause, Intent, Mergers};
use rackproof_grade::{Judged, JudgedState, Timed};
use rackproof_model::{Micros, Model};
use rackproof_prove::{Congruence, Settings, Step, Witness};

use super::{
    interrupt::explore,
    job::{BREACH, HARMS, REPORTED, STATES_MOST_FREE, down, flags, judged},
    lines::{Way, lines, lines_of},
};

/// The rack on which ways are searched for.
const SLOTS: u8 = 4;
/// After so many events a machine that does not come to rest is waited for no longer.
const EVENTS_MOST: usize = 10_000;

/// A trap, and how it is sprung.
#[derive(Clone, Debug)]
pub(crate) struct Sprung {
    pub(crate) trap: usize,
    /// Variants that list it: it is armed there from the start.
    pub(crate) variants: Vec<usize>,
    /// The rack on which it springs: the whole one, where the way goes there as well. 0 if there is
    /// no way.
    pub(crate) slots: u8,
    /// A variant and a way that springs it there; on the small rack none is shorter.
    pub(crate) way: Option<(usize, Way)>,
}

/// How a trap springs, in the first variant that lists it and has a way: one that goes on the whole
/// rack if there is one, so that it is an attempt like any other.
pub(super) fn spring(exercise: &Exercise, chosen: &[usize], trap: usize) -> Sprung {
    let lists = |variant: &usize| exercise.drill.variants[*variant].traps.contains(&trap);
    let variants: Vec<usize> = chosen.iter().copied().filter(lists).collect();
    let whole = exercise.machine.slots();
    let small = SLOTS.min(whole);
    let mut found = None;
    for &variant in &variants {
        let way = [Mergers::Prepared, Mergers::Plain]
            .into_iter()
            .find_map(|mergers| spring_in(exercise, (variant, small), trap, mergers));
        let Some((pair, witness)) = way else { continue };
        if let Some(way) = on_the_whole(exercise, (variant, &pair), trap, &witness) {
            found = Some((whole, (variant, way)));
            break;
        }
        let way = (variant, lines(&pair, &witness));
        found.get_or_insert((small, way));
    }
    let (slots, way) = found.unzip();
    Sprung {
        trap,
        variants,
        slots: slots.unwrap_or(0),
        way,
    }
}

/// The variant on a rack of so many slots, with no rule but that of this trap.
fn pair(exercise: &Exercise, (variant, slots): (usize, u8), trap: usize) -> Judged {
    let traps = exercise.rules.of_traps(&exercise.drill);
    let only = traps.only_named(&exercise.drill.traps[trap].id);
    judged(exercise, variant, slots, &only)
}

/// A shortest way that springs a trap.
fn spring_in(
    exercise: &Exercise,
    of: (usize, u8),
    trap: usize,
    mergers: Mergers,
) -> Option<(Judged, Witness<Cause>)> {
    let pair = pair(exercise, of, trap);
    let pair = match mergers {
        Mergers::Plain => pair,
        Mergers::Prepared => pair.prepared(),
    };
    let settings = Settings {
        prune: HARMS | 1 << REPORTED,
        until: 1 << BREACH,
        states_most: STATES_MOST_FREE,
        congruence: Congruence::Off,
        ..Settings::default()
    };
    let flags = |state: &JudgedState| flags(&pair, state);
    let witness = explore(&pair, &[pair.start()], &settings, flags).witness(BREACH)?;
    Some((pair, witness))
}

/// The same doings on the whole rack, if they spring the trap there: on the slots where its boards
/// lie, and after each rest that the small rack came to.
fn on_the_whole(
    exercise: &Exercise,
    (variant, small): (usize, &Judged),
    trap: usize,
    witness: &Witness<Cause>,
) -> Option<Way> {
    let slots = small.world().machine().slots();
    let up = down(exercise, variant, slots);
    let whole = pair(exercise, (variant, exercise.machine.slots()), trap);
    let (mut there, mut here) = (small.start(), whole.start());
    let (mut causes, mut waited): (Vec<Timed>, u32) = (Vec::new(), 0);
    for step in &witness.steps {
        match *step {
            Step::Waited(span) => {
                small.advance(&mut there, span, &mut |_| {});
                if small.next_event(&there).is_none() {
                    waited += rest(&whole, &mut here)?;
                } else {
                    // In the middle of something: just as long, event by event.
                    waited += pass(&whole, &mut here, span)?;
                }
            }
            Step::Did(cause) | Step::Chose(cause) => {
                small.act(&mut there, cause, &mut |_| {});
                let cause = moved_up(cause, up);
                let mut allowed = Vec::new();
                whole.offers(&here, &mut allowed);
                whole.chances(&here, &mut allowed);
                if !allowed.contains(&cause) {
                    return None;
                }
                whole.act(&mut here, cause, &mut |_| {});
                causes.push((Micros(std::mem::take(&mut waited)), cause));
            }
        }
    }
    (waited == 0 && !whole.kept(&here)).then(|| lines_of(&whole, &causes))
}

/// Waits until nothing happens by itself any more. How long that took.
fn rest(judged: &Judged, state: &mut JudgedState) -> Option<u32> {
    let mut waited = 0_u32;
    for _ in 0..EVENTS_MOST {
        let Some(event) = judged.next_event(state) else {
            return Some(waited);
        };
        judged.advance(state, event, &mut |_| {});
        waited = waited.checked_add(event.0)?;
    }
    None
}

/// Lets time pass, event by event. How long it was.
fn pass(judged: &Judged, state: &mut JudgedState, span: Micros) -> Option<u32> {
    let mut left = span.0;
    for _ in 0..EVENTS_MOST {
        let event = judged.next_event(state).map_or(left, |event| event.0);
        let piece = event.min(left);
        judged.advance(state, Micros(piece), &mut |_| {});
        left -= piece;
        if left == 0 {
            return Some(span.0);
        }
    }
    None
}

/// A cause with its slot so many higher.
fn moved_up(cause: Cause, up: u8) -> Cause {
    let Cause::Did(intent) = cause else {
        return cause;
    };
    Cause::Did(match intent {
        Intent::Take(mut at) => {
            at.slot += up;
            Intent::Take(at)
        }
        Intent::PutIn(mut at) => {
            at.slot += up;
            Intent::PutIn(at)
        }
        other => other,
    })
}

#[cfg(test)]
mod tests {
    use rackproof_buffer::{Half, HalfSlot};

    use super::*;

    #[test]
    fn what_is_done_to_a_slot_is_done_so_many_slots_higher() {
        let at = |slot| HalfSlot {
            slot,
            half: Half::Outfeed,
        };
        let cases = [
            (Intent::Take(at(2)), Intent::Take(at(5))),
            (Intent::PutIn(at(0)), Intent::PutIn(at(3))),
            (Intent::HandIn, Intent::HandIn),
        ];
        for (below, above) in cases {
            assert_eq!(moved_up(Cause::Did(below), 3), Cause::Did(above));
        }
    }
}
