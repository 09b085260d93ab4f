//! One moment of an attempt as the person saw it: nothing can be done in it.

use rackproof_attempt::{Attempt, Exercise, History, Looks, Sheet, line_down};
use rackproof_drill::{Aim, Cause, Intent};
use rackproof_grade::JudgedState;
use rackproof_panel::Way;

/// A moment.
pub struct Moment {
    history: History,
    at: u64,
    way: Way,
    sheet: Sheet,
    looks: Looks,
    down: u64,
    reference: Option<u64>,
}

impl Moment {
    /// The moment `at`, in µs, of an attempt that was played this way.
    pub fn new(exercise: Exercise, attempt: &Attempt, at: u64, way: Way, sheet: Sheet) -> Moment {
        let history = History::of(attempt);
        let reference = super::play::reference_time(&exercise, history.judged());
        Moment {
            looks: Looks::of(history.heard_until(at)),
            down: line_down(&history.take_over(at)),
            reference: reference.filter(|_| way != Way::Exam),
            history,
            at,
            way,
            sheet,
        }
    }

    /// All moments of the attempt.
    pub fn history(&self) -> &History {
        &self.history
    }

    /// The moment, in µs since the start.
    pub fn at(&self) -> u64 {
        self.at
    }

    /// The state at that moment.
    pub fn state(&self) -> JudgedState {
        self.history.state_at(self.at)
    }

    /// How it was played.
    pub fn way(&self) -> Way {
        self.way
    }

    /// The tick sheet at that moment.
    pub fn sheet(&self) -> &Sheet {
        &self.sheet
    }

    /// The looks that counted.
    pub fn looks(&self) -> &Looks {
        &self.looks
    }

    /// How long the line stood, in µs.
    pub fn line_down(&self) -> u64 {
        self.down
    }

    /// The time of the quickest listed way, in µs. Never in an exam.
    pub fn reference(&self) -> Option<u64> {
        self.reference
    }

    /// The aim that the person kept.
    pub fn aim(&self) -> Option<Aim> {
        aim_at(&self.history, self.at)
    }
}

/// The aim that the person kept at a moment: of their last look, until they walked or shut the
/// hatch.
pub(super) fn aim_at(history: &History, at: u64) -> Option<Aim> {
    let mut aim = None;
    for done in history.done_until(at) {
        match done.cause {
            Cause::Did(Intent::Look(of)) => aim = Some(of),
            Cause::Did(Intent::Walk(_) | Intent::ShutHatch) => aim = None,
            _ => {}
        }
    }
    aim
}
