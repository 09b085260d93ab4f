//! How many attempts of one run of the command came out how.

use std::io;

use rackproof_grade::Verdict;
use rackproof_words::{Arg, Words};

use super::{Graded, again::verdict_id};
use crate::lines::wrapped;

/// How many files came out how.
#[derive(Default)]
pub(super) struct Tally {
    passed: i64,
    failed: i64,
    not_ended: i64,
    not_graded: i64,
    /// A line for each file, when there are several.
    rows: Vec<(String, Option<Verdict>)>,
}

impl Tally {
    pub(super) fn take(&mut self, name: &str, graded: &Graded) {
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
        self.rows.push((name.to_owned(), verdict));
    }

    /// Each file with its verdict, then how many of each there are.
    pub(super) fn write(&self, out: &mut dyn io::Write, words: &Words) -> io::Result<()> {
        for (name, verdict) in &self.rows {
            let id = verdict.map_or("grade-file-not-graded", verdict_id);
            let row = [
                ("path", Arg::from(name.as_str())),
                ("verdict", Arg::from(words.say(id, &[]))),
            ];
            write!(out, "{}", wrapped("  -", 4, &words.say("grade-file", &row)))?;
        }
        write!(out, "{}", wrapped("", 0, &self.said(words)))
    }

    fn said(&self, words: &Words) -> String {
        let counts = [
            ("passed", Arg::Number(self.passed)),
            ("failed", Arg::Number(self.failed)),
            ("not-ended", Arg::Number(self.not_ended)),
            ("not-graded", Arg::Number(self.not_graded)),
        ];
        words.say("grade-tally", &counts)
    }
}
