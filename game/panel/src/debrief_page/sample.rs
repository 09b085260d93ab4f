//! Kept journals of the first drill, debriefed.

use rackproof_attempt::{Attempt, Exercise, Helped, History, Journal};
use rackproof_files::Problems;
use rackproof_library::{built_in_drill, load};
use rackproof_phrases::{Findings, Told};
use rackproof_words::Words;

use super::{DebriefView, Timeline};
use crate::{Preferences, Way};

pub(super) const BY_HAND: &str = include_str!("../../../../tests/journals/left-inside/by-hand.ron");
pub(super) const BY_CLEAR_OUT: &str =
    include_str!("../../../../tests/journals/left-inside/by-clear-out.ron");
pub(super) const DECLARED_UNSEEN: &str =
    include_str!("../../../../tests/journals/left-inside/declared-unseen.ron");
pub(super) const BELT_FORGOTTEN: &str =
    include_str!("../../../../tests/journals/left-inside/belt-forgotten.ron");
pub(super) const BOARD_PUT_IN: &str =
    include_str!("../../../../tests/journals/left-inside/board-put-in.ron");

/// What a view borrows from.
pub(super) struct Debriefed {
    pub(super) words: Words,
    pub(super) exercise: Exercise,
    pub(super) history: History,
    pub(super) findings: Findings,
    pub(super) timeline: Timeline,
}

impl Debriefed {
    /// A journal played to its end.
    pub(super) fn of(journal: &str) -> Debriefed {
        let problems = Problems::new();
        let loaded = load(built_in_drill(), &problems).expect("it has no problem");
        let exercise = loaded.exercise;
        let report = problems.for_file("journal", journal);
        let journal = Journal::read(report, &exercise).expect("it has no problem");
        let judged = exercise
            .judged(journal.variant)
            .expect("it has this variant");
        let mut attempt = Attempt::new(judged);
        assert!(journal.run(&mut attempt, report, &mut |_| true));
        let words = Words::english();
        let grade = attempt.grade(&exercise);
        let findings = Findings::of(attempt.judged(), &exercise, &grade, &words);
        let history = History::of(&attempt);
        let timeline = Timeline::of(&history);
        Debriefed {
            words,
            exercise,
            history,
            findings,
            timeline,
        }
    }

    pub(super) fn view(&self) -> DebriefView<'_> {
        DebriefView {
            words: &self.words,
            exercise: &self.exercise,
            history: &self.history,
            findings: &self.findings,
            timeline: &self.timeline,
            way: Way::Exam,
            badge: Some("4471"),
            attempt: "left-inside-3.attempt",
            helped: Helped::default(),
            claim: None,
            ways: None,
            at: self.history.end(),
            plays: false,
            speed: 1.0,
            chosen: None,
            over: None,
            preferences: Preferences::default(),
        }
    }

    /// The first harm, by number, with its moment.
    pub(super) fn harm(&self) -> (usize, u64) {
        self.find(|told| matches!(told, Told::Harm(_)))
    }

    /// The first broken rule, by number, with its moment.
    pub(super) fn breach(&self) -> (usize, u64) {
        self.find(|told| matches!(told, Told::Breach(_)))
    }

    fn find(&self, is: impl Fn(&Told) -> bool) -> (usize, u64) {
        let all = self.findings.list.iter();
        let number = all.clone().position(|finding| is(&finding.told));
        let number = number.expect("it is told");
        let moment = self.findings.list[number].moment.expect("it has a moment");
        (number, moment.at)
    }
}
