//! What a verdict rests on, in words.

use rackproof_grade::{Breach, Severity, Verdict};
use rackproof_words::Arg;

use super::teller::Teller;

fn count(number: usize) -> Arg<'static> {
    Arg::Number(i64::try_from(number).unwrap_or(i64::MAX))
}

impl Teller<'_> {
    /// Harm counts against an attempt whoever did it. Where every rule was kept until then, that is
    /// said: the rules do not show whose it is.
    fn harm_id(&self) -> &'static str {
        let (grade, rules) = (self.grade, &self.judged.rules().list);
        let first = grade.harms.iter().map(|(moment, _)| moment.at).min();
        let before = |breach: &&Breach| first.is_some_and(|first| breach.moment.at <= first);
        let mut before = grade.breaches.iter().filter(before);
        let grave = |breach: &Breach| rules[breach.rule].severity > Severity::Minor;
        match before.any(grave) {
            true => "verdict-because-harm",
            false => "verdict-because-harm-kept",
        }
    }

    /// What decided, and nothing else.
    pub(super) fn because(&self) -> Vec<String> {
        let allowed = self.exercise.drill.limits.majors;
        let majors = self.grade.count(self.judged, Severity::Major);
        let counts = [
            ("majors", count(majors)),
            ("allowed", Arg::Number(i64::from(allowed))),
        ];
        match self.grade.verdict {
            Verdict::NotEnded => Vec::new(),
            Verdict::Passed => vec![self.words.say("verdict-because-passed", &counts)],
            Verdict::Failed => {
                let (stops, harms) = (
                    self.grade.count(self.judged, Severity::Stop),
                    self.grade.harms.len(),
                );
                let open = self.grade.unfinished.len();
                let too_many = majors > usize::try_from(allowed).unwrap_or(usize::MAX);
                let counts_of_stops = [("stops", count(stops)), ("harms", count(harms))];
                let say = |decides: bool, id, with: &[(&str, Arg<'_>)]| {
                    decides.then(|| self.words.say(id, with))
                };
                let reasons = [
                    say(stops > 0, "verdict-because-stop", &counts_of_stops),
                    say(harms > 0, self.harm_id(), &[]),
                    say(too_many, "verdict-because-majors", &counts),
                    say(open > 0, "verdict-because-open", &[("open", count(open))]),
                ];
                reasons.into_iter().flatten().collect()
            }
        }
    }
}
