//! What the record of an attempt says by itself: the outcomes that were heard then, whatever this
//! program computes. A core that changed takes nothing of it back.

use rackproof_grade::{Severity, Verdict};

use crate::{Exercise, Kept, core_hash};

/// What was recorded of an attempt.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Recorded {
    /// The rules that were broken, each once, in the order in which they first were, with how
    /// often.
    pub broken: Vec<(String, usize)>,
    /// The harms, as attempts write them, in the order of time.
    pub harms: Vec<String>,
    /// What of the finish did not hold at the end, by its names in files. `None`: the record is
    /// older than that, and does not say.
    pub open: Option<Vec<String>>,
    /// The verdict of these outcomes. `None`: nothing recorded fails the attempt, but the record
    /// does not say whether the finish was reached, or names a rule that its own rules lack.
    pub verdict: Option<Verdict>,
}

/// Which core recorded an attempt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RecordedBy {
    /// The one of this program, by the file's own word.
    ThisCore,
    /// Another.
    AnotherCore,
    /// The record is older than that, and does not say.
    Unsaid,
}

impl Kept {
    /// Which core recorded it.
    pub fn recorded_by(&self) -> RecordedBy {
        match &self.header.core {
            None => RecordedBy::Unsaid,
            Some(core) if core == core_hash() => RecordedBy::ThisCore,
            Some(_) => RecordedBy::AnotherCore,
        }
    }

    /// What was recorded. `exercise` must be what its own texts say.
    pub fn recorded(&self, exercise: &Exercise) -> Recorded {
        let heard = self.causes.iter().flat_map(|(_, cause)| &cause.heard);
        let end = self.end.as_ref().map(|(_, end)| end);
        let heard = heard.chain(end.iter().flat_map(|end| &end.heard));
        let (mut broken, mut harms) = (Vec::<(String, usize)>::new(), Vec::new());
        // A time, a gap, and the outcome.
        for outcome in heard.filter_map(|line| line.split_once(' ').map(|(_, text)| text)) {
            if outcome.starts_with("Harm(") {
                harms.push(outcome.to_owned());
            } else if let Some(rule) = outcome.strip_prefix("Broke(") {
                let rule = rule.trim_end_matches(')');
                match broken.iter_mut().find(|(known, _)| known == rule) {
                    Some((_, times)) => *times += 1,
                    None => broken.push((rule.to_owned(), 1)),
                }
            }
        }
        let finish = end.and_then(|end| end.finish.as_ref());
        let reached = finish.map(|finish| finish.reached);
        Recorded {
            verdict: self.verdict(exercise, &broken, harms.is_empty(), reached),
            open: finish.map(|finish| finish.open.clone()),
            broken,
            harms,
        }
    }

    /// The same conditions as those of a grade.
    fn verdict(
        &self,
        exercise: &Exercise,
        broken: &[(String, usize)],
        harmless: bool,
        reached: Option<bool>,
    ) -> Option<Verdict> {
        let severity = |name: &str| {
            let mut rules = exercise.rules.list.iter();
            rules
                .find(|rule| rule.name == name)
                .map(|rule| rule.severity)
        };
        let count = |of: Option<Severity>| -> usize {
            let of = broken.iter().filter(|(name, _)| severity(name) == of);
            of.map(|(_, times)| times).sum()
        };
        let majors = count(Some(Severity::Major));
        let reported = self.causes.iter().any(|(_, cause)| cause.cause == "Report");
        if count(Some(Severity::Stop)) > 0 || !harmless {
            return Some(Verdict::Failed);
        }
        if !reported {
            return Some(Verdict::NotEnded);
        }
        if majors > exercise.drill.limits.majors as usize || reached == Some(false) {
            return Some(Verdict::Failed);
        }
        let known = reached == Some(true) && count(None) == 0;
        known.then_some(Verdict::Passed)
    }
}
