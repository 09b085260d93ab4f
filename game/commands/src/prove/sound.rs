//! Whether who passes has done well: nothing that should fail an attempt is forgiven, and its end
//! is as the drill wants it in truth.
//!
//! The verdict is asked at each end that passes in a search. It hangs on what was broken and done
//! by then: so it is also asked what it would be there after each stop breach and each harm.

use rackproof_buffer::HarmKind;
use rackproof_drill::{Cause, Intent};
use rackproof_grade::{Judged, JudgedState, Severity};
use rackproof_model::{Model, Stride};

/// Whether an attempt that ends with this step passes, and should not.
pub(super) fn is_unsound(judged: &Judged, state: &JudgedState, stride: &Stride<Cause>) -> bool {
    if stride.causes().last() != Some(Cause::Did(Intent::Report)) {
        return false;
    }
    // What is true is asked right before the report: after it the world holds the verdict alone.
    let (mut before, mut end) = (*state, *state);
    for cause in stride.causes() {
        before = end;
        judged.act(&mut end, cause, &mut |_| {});
    }
    judged.passes(&end, 0) && !(ends_well(judged, &before) && forgives_nothing(judged, &end))
}

/// Whether all that the drill wants at the end is true, with nothing done that fails an attempt and
/// nobody's hand in the machine.
fn ends_well(judged: &Judged, before: &JudgedState) -> bool {
    let world = &before.world;
    judged.world().unfinished(world).next().is_none()
        && !world.person.hand_in
        && world.harms() == 0
        && before.broken & judged.rules().mask(Severity::Stop) == 0
}

/// Whether the same end does not pass once any stop rule was broken, or any harm done.
fn forgives_nothing(judged: &Judged, end: &JudgedState) -> bool {
    let stops = judged.rules().mask(Severity::Stop);
    let stops = (0..u64::BITS).filter(|rule| stops >> rule & 1 == 1);
    let broken = stops.map(|rule| JudgedState {
        broken: end.broken | 1 << rule,
        ..*end
    });
    let harmed = HarmKind::ALL.into_iter().map(|kind| JudgedState {
        world: end.world.harmed(kind),
        ..*end
    });
    !broken.chain(harmed).any(|one| judged.passes(&one, 0))
}

#[cfg(test)]
mod tests {
    use rackproof_files::Problems;
    use rackproof_grade::GuideRun;
    use rackproof_library::{built_in_drill, load};
    use rackproof_model::Micros;

    use super::*;

    /// The guide's way, up to right before its report.
    #[test]
    fn an_end_is_good_with_nothing_forgiven_and_all_of_the_finish_true() {
        let loaded = load(built_in_drill(), &Problems::new()).expect("it has no problem");
        let exercise = &loaded.exercise;
        let judged = exercise.judged(0).expect("it has a variant");
        let run = GuideRun::play(&judged, &exercise.procedure, 0).expect("the guide finishes");
        assert!(judged.passes(&run.end, 0) && forgives_nothing(&judged, &run.end));
        let mut before = judged.start();
        assert!(!ends_well(&judged, &before), "nothing is done yet");
        for &(span, cause) in &run.causes[..run.causes.len() - 1] {
            let mut left = span;
            while let Some(event) = judged.next_event(&before).filter(|event| *event <= left) {
                judged.advance(&mut before, event, &mut |_| {});
                left = Micros(left.0 - event.0);
            }
            judged.advance(&mut before, left, &mut |_| {});
            judged.act(&mut before, cause, &mut |_| {});
        }
        assert!(ends_well(&judged, &before));
        let stops = judged.rules().mask(Severity::Stop);
        let harmed = before.world.harmed(HarmKind::Dropped);
        let mut hand_in = before;
        hand_in.world.person.hand_in = true;
        let wrong = [
            JudgedState {
                broken: stops,
                ..before
            },
            JudgedState {
                world: harmed,
                ..before
            },
            hand_in,
        ];
        for (number, state) in wrong.iter().enumerate() {
            assert!(!ends_well(&judged, state), "{number}");
        }
        let report = Stride::one(Cause::Did(Intent::Report));
        assert!(!is_unsound(&judged, &before, &report));
    }
}
