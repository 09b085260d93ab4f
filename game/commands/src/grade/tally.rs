//! How many attempts of one run of the command came out how.

use rackproof_grade::Verdict;
use rackproof_words::{Arg, Words};

use super::Graded;

/// How many files came out how.
#[derive(Default)]
pub(super) struct Tally {
    passed: i64,
    failed: i64,
    not_ended: i64,
    not_graded: i64,
}

impl Tally {
    pub(super) fn take(&mut self, graded: &Graded) {
        let verdict = match graded {
            Graded::Whole(whole) => Some(whole.grade.verdict),
            _ => None,
        };
        let count = match verdict {
            Some(Verdict::Passed) => &mut self.passed,
            Some(Verdict::Failed) => &mut self.failed,
            Some(Verdict::NotEnded) => &mut self.not_ended,
            None => &mut self.not_graded,
        };
        *count += 1;
    }

    pub(super) fn said(&self, words: &Words) -> String {
        let counts = [
            ("passed", Arg::Number(self.passed)),
            ("failed", Arg::Number(self.failed)),
            ("not-ended", Arg::Number(self.not_ended)),
            ("not-graded", Arg::Number(self.not_graded)),
        ];
        words.say("grade-tally", &counts)
    }
}
