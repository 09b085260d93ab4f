//! What the neighbours choose in an attempt that is played: the environment has no will of its own
//! there, so that each choice comes after a fixed time. It stands in the journal like any cause.

use rackproof_drill::{Cause, Chance, Intent};

use crate::{Attempt, Done};

/// The upstream neighbour, if it was never asked to hold, lays its left-over board on the infeed
/// belt after this time, in µs: 30 s.
pub const UPSTREAM_LAYS_AFTER: u64 = 30_000_000;

/// A neighbour that works as it likes brings its next board, or has room again, so long after it
/// could for the first time, in µs: 20 s.
pub const NEIGHBOUR_WORKS_AFTER: u64 = 20_000_000;

/// What neighbours choose that work as they like. What they should not do comes by a journal, or by
/// a trainer.
const WORKS: [Chance; 2] = [Chance::UpstreamOffersBoard, Chance::DownstreamMakesRoom];

/// Whether the neighbours act, and since when each could do its work, in µs since the start.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Neighbour {
    pub(crate) acts: bool,
    could: [Option<u64>; 2],
}

impl Attempt {
    /// Time until a neighbour may act, in µs. `u64::MAX` if none does.
    pub(crate) fn neighbour_part(&self) -> u64 {
        if !self.neighbour.acts {
            return u64::MAX;
        }
        let works = self.neighbour.could.into_iter().flatten();
        let works = works.map(|since| since + NEIGHBOUR_WORKS_AFTER);
        let due = works.chain([UPSTREAM_LAYS_AFTER]);
        let ahead = due.filter(|&due| due > self.at()).min();
        ahead.map_or(u64::MAX, |due| due - self.at())
    }

    /// Lets the neighbours choose what it is time for.
    pub(crate) fn neighbour_acts(&mut self) {
        if !self.neighbour.acts {
            return;
        }
        self.neighbour_lays();
        if self.world().drill().neighbours.chooses_to_work() {
            self.neighbours_work();
        }
    }

    fn neighbours_work(&mut self) {
        for (which, chance) in WORKS.into_iter().enumerate() {
            let since = self.neighbour.could[which];
            let open = self.chances().contains(&chance);
            self.neighbour.could[which] = open.then(|| since.unwrap_or(self.at()));
            if open && since.is_some_and(|since| self.at() >= since + NEIGHBOUR_WORKS_AFTER) {
                self.neighbour.could[which] = None;
                // It was open a moment ago.
                let _done = self.do_at_once(Cause::Chose(chance));
            }
        }
    }

    fn neighbour_lays(&mut self) {
        if self.at() < UPSTREAM_LAYS_AFTER {
            return;
        }
        let laid = Cause::Chose(Chance::UpstreamLaysBoard);
        let settles =
            |done: &Done| done.cause == laid || done.cause == Cause::Did(Intent::AskUpstreamHold);
        if !self.done().iter().any(settles) {
            // It may find no room yet: then it comes back at the next event.
            let _later = self.do_at_once(laid);
        }
    }
}

#[cfg(test)]
mod tests {
    use rackproof_buffer::Button;
    use rackproof_files::Problems;
    use rackproof_model::Micros;

    use super::*;
    use crate::{Pieces, sample};

    const LINE: &str = "lays_by_hand: true, downstream_ready: false";

    /// Two minutes in production, and the causes with their times.
    fn played(line: &str, pieces: Pieces) -> Vec<(u64, Cause)> {
        let (mut material, problems) = (sample::material(), Problems::new());
        assert!(material.drill.text.contains(LINE));
        material.drill.text = material.drill.text.replace(LINE, line);
        let exercise = material.read(&problems);
        assert_eq!(sample::plain(&problems), [""; 0]);
        let exercise = exercise.expect("it has no problem");
        let judged = exercise.judged(2).expect("it has variants");
        let mut attempt = Attempt::new(judged).in_pieces(pieces).with_neighbour();
        for button in [Button::Reset, Button::Start] {
            attempt
                .do_intent(Intent::Press(button))
                .expect("it is on offer");
        }
        attempt.wait(120_000_000);
        attempt
            .done()
            .iter()
            .map(|done| (done.at, done.cause))
            .collect()
    }

    /// Each choice of a neighbour that works as it likes comes 20 s after it could be made, and the
    /// pieces in which time passes change nothing.
    #[test]
    fn neighbours_that_work_as_they_like_work() {
        let line = "lays_by_hand: false, upstream: Upstream(boards: 3, works: Chance),
            downstream: Downstream(works: Chance)";
        let whole = played(line, Pieces::Events);
        let chosen = |which: Chance| {
            let chosen = |&&(_, cause): &&(u64, Cause)| cause == Cause::Chose(which);
            whole
                .iter()
                .filter(chosen)
                .map(|done| done.0)
                .collect::<Vec<u64>>()
        };
        let offers = chosen(Chance::UpstreamOffersBoard);
        assert_eq!((offers.len(), offers[0]), (3, NEIGHBOUR_WORKS_AFTER));
        let room = chosen(Chance::DownstreamMakesRoom);
        assert!(
            room.len() >= 3 && room[0] == NEIGHBOUR_WORKS_AFTER,
            "{room:?}"
        );
        assert_eq!(whole, played(line, Pieces::Of(Micros(777_777))));
    }

    /// One that works by the clock makes no choice, and one left-over board is laid as before.
    #[test]
    fn other_neighbours_choose_no_work() {
        let clock =
            "lays_by_hand: false, upstream: Upstream(boards: 3, works: Every(cycle_s: 9.0)),
            downstream: Downstream(works: Stopped)";
        let choice = |&(_, cause): &(u64, Cause)| matches!(cause, Cause::Chose(_));
        assert!(!played(clock, Pieces::Events).iter().any(choice));
        let laid = (UPSTREAM_LAYS_AFTER, Cause::Chose(Chance::UpstreamLaysBoard));
        let before = played(LINE, Pieces::Events);
        assert_eq!(before.iter().find(|done| choice(done)), Some(&laid));
    }
}
