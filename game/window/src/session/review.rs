//! The debrief of one attempt: its grade, its findings, and any of its moments.

use std::path::{Path, PathBuf};

use rackproof_attempt::{Attempt, Exercise, Helped, History, Note, claim_of};
use rackproof_grade::{Grade, JudgedState};
use rackproof_panel::{Timeline, Way};
use rackproof_phrases::{Findings, OtherTold, Told, claim_said};
use rackproof_words::{Arg, Words};

use super::ways::Ways;

/// An attempt that is looked at.
pub struct Review {
    exercise: Exercise,
    history: History,
    grade: Grade,
    findings: Findings,
    timeline: Timeline,
    path: PathBuf,
    way: Way,
    variant: usize,
    at: u64,
    plays: bool,
    speed: f32,
    chosen: Option<usize>,
    helped: Helped,
    claim: Option<String>,
    ways: Option<Ways>,
}

impl Review {
    /// The debrief of an attempt with its file and its notes. It shows the first finding, else the
    /// end; of a way that a proof found, where it breaks its claim.
    pub fn new(
        exercise: Exercise,
        attempt: &Attempt,
        (path, notes): (PathBuf, &[Note]),
        (way, variant): (Way, usize),
        words: &Words,
    ) -> Review {
        let grade = attempt.grade(&exercise);
        let findings = Findings::of(attempt.judged(), &exercise, &grade, words);
        let history = History::of(attempt);
        let timeline = Timeline::of(&history);
        let mut review = Review {
            at: history.end(),
            exercise,
            history,
            grade,
            findings,
            timeline,
            path,
            way,
            variant,
            plays: false,
            speed: 1.0,
            chosen: None,
            helped: Helped::of(notes),
            claim: None,
            ways: None,
        };
        let first = review.counting().next();
        if let Some((first, _)) = first {
            review.choose(first);
        }
        if let Some((at, claim)) = notes.iter().find_map(claim_of) {
            let claim = ("claim", Arg::from(claim_said(words, claim)));
            let said = words.say("grade-way", &[("time", Arg::Clock(at)), claim]);
            review.claim = Some(said);
            review.show(at);
        }
        review
    }

    /// What the attempt was made from.
    pub fn exercise(&self) -> &Exercise {
        &self.exercise
    }

    /// All its moments.
    pub fn history(&self) -> &History {
        &self.history
    }

    /// The grade.
    pub fn grade(&self) -> &Grade {
        &self.grade
    }

    /// What was found.
    pub fn findings(&self) -> &Findings {
        &self.findings
    }

    /// The time line.
    pub fn timeline(&self) -> &Timeline {
        &self.timeline
    }

    /// The attempt's file.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// How it was played.
    pub fn way(&self) -> Way {
        self.way
    }

    /// Its variant, by number.
    pub fn variant(&self) -> usize {
        self.variant
    }

    /// The moment shown, in µs.
    pub fn at(&self) -> u64 {
        self.at
    }

    /// The state at that moment.
    pub fn state(&self) -> JudgedState {
        self.history.state_at(self.at)
    }

    /// Whether it plays.
    pub fn plays(&self) -> bool {
        self.plays
    }

    /// How many times as fast.
    pub fn speed(&self) -> f32 {
        self.speed
    }

    /// The chosen finding, by number.
    pub fn chosen(&self) -> Option<usize> {
        self.chosen
    }

    /// Help that was asked for in it.
    pub fn helped(&self) -> Helped {
        self.helped
    }

    /// Of a way that a proof found: what the claim was and where it broke.
    pub fn claim(&self) -> Option<&str> {
        self.claim.as_deref()
    }

    /// The ways on, once they were asked for.
    pub(super) fn ways(&self) -> Option<&Ways> {
        self.ways.as_ref()
    }

    pub(super) fn set_ways(&mut self, ways: Ways) {
        self.ways = Some(ways);
    }

    /// Takes up what the search for the shortest way found, once it has.
    pub(super) fn take_found(&mut self, words: &Words) {
        if let Some(ways) = &mut self.ways
            && let Some(found) = ways.answer()
        {
            ways.hear(OtherTold::of_shortest(words, &found, &self.grade));
        }
    }

    /// Nobody asks for the ways on any more: a search for them ends.
    pub fn forget_ways(&mut self) {
        self.ways = None;
    }

    /// Plays or stands still. At the end it begins again.
    pub fn play(&mut self, plays: bool) {
        if plays && self.at >= self.history.end() {
            self.at = 0;
        }
        self.plays = plays;
    }

    /// Plays this many times as fast, 1 to 16.
    pub fn set_speed(&mut self, speed: f32) {
        self.speed = speed.clamp(1.0, 16.0);
    }

    /// Shows a moment.
    pub fn scrub(&mut self, at: u64) {
        self.at = at.min(self.history.end());
        self.chosen = None;
    }

    /// Shows a moment, with the finding that was made then, if one was.
    pub fn show(&mut self, at: u64) {
        self.scrub(at);
        let found = self.counting().find(|(_, then)| *then == at);
        self.chosen = found.map(|(number, _)| number);
    }

    /// Chooses a finding and shows its moment. Nothing if there is no such finding, or if it has
    /// no moment.
    pub fn choose(&mut self, number: usize) {
        let finding = self.findings.list.get(number);
        if let Some(moment) = finding.and_then(|finding| finding.moment) {
            self.at = moment.at.min(self.history.end());
            self.chosen = Some(number);
            self.plays = false;
        }
    }

    /// Breaches and harms, by number, with their moments.
    fn counting(&self) -> impl Iterator<Item = (usize, u64)> + '_ {
        let all = self.findings.list.iter().enumerate();
        all.filter_map(|(number, finding)| match (&finding.told, finding.moment) {
            (Told::Breach(_) | Told::Harm(_), Some(moment)) => Some((number, moment.at)),
            _ => None,
        })
    }

    /// Lets real time pass, in µs.
    pub fn pass(&mut self, real: u64) {
        if self.plays {
            let span = (real as f64 * f64::from(self.speed)) as u64;
            self.at = (self.at + span).min(self.history.end());
            self.plays = self.at < self.history.end();
        }
    }
}
