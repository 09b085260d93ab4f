//! A grade as text: verdict, the three questions, then every line of evidence.

use std::io;

use rackproof_attempt::{Exercise, intent_text};
use rackproof_grade::{Breach, Grade, Judged, Moment};
use rackproof_phrases::{BreachTold, EvidenceTold, Findings, StepTold, margin_line};
use rackproof_words::{Arg, Words};

use crate::lines::wrapped;

/// Where the text of a finding begins.
const INDENT: usize = 11;

/// Writes a grade.
pub(crate) fn write_grade(
    judged: &Judged,
    exercise: &Exercise,
    grade: &Grade,
    out: &mut dyn io::Write,
    words: &Words,
) -> io::Result<()> {
    let findings = Findings::of(judged, exercise, grade, words);
    let writer = Writer {
        findings: &findings,
        words,
    };
    let parts = [
        writer.verdict(),
        writer.questions(),
        writer.breaches(),
        writer.harms(),
        writer.unfinished(),
        writer.traps(),
        writer.guesses(),
        writer.margins(judged, grade),
    ];
    let parts = parts.into_iter().chain(writer.steps());
    for part in parts.filter(|part| !part.is_empty()) {
        writeln!(out, "\n{}", part.trim_end_matches('\n'))?;
    }
    Ok(())
}

struct Writer<'w> {
    findings: &'w Findings,
    words: &'w Words,
}

/// A row that begins with its time.
fn timed(moment: Moment, row: &str) -> String {
    wrapped(&format!("  {}", Arg::Clock(moment.at)), INDENT, row)
}

/// A finding's number as people count.
fn number_of(at: usize) -> Arg<'static> {
    Arg::Number(i64::try_from(at + 1).unwrap_or(i64::MAX))
}

/// A row of a plain list.
fn bare(row: &str) -> String {
    wrapped("  -", 4, row)
}

impl Writer<'_> {
    fn say(&self, id: &str, arguments: &[(&str, Arg<'_>)]) -> String {
        self.words.say(id, arguments)
    }

    /// The verdict, and what it rests on.
    fn verdict(&self) -> String {
        let because = self.findings.because.iter();
        let because: String = because.map(|said| bare(said.trim_end())).collect();
        format!("{}\n{because}", self.findings.said)
    }

    /// The three questions, a line each.
    fn questions(&self) -> String {
        let questions = &self.findings.questions;
        let rows = [
            ("label-safety", &questions.safety_said),
            ("label-procedure", &questions.procedure_said),
            ("label-result", &questions.result_said),
            ("label-time", &questions.time_said),
        ];
        let labels = ["label-boards", "label-order", "label-line"];
        rows.into_iter()
            .chain(labels.into_iter().zip(&self.findings.outturn))
            .map(|(label, row)| wrapped(&self.say(label, &[]), INDENT, row))
            .collect()
    }

    fn headed(&self, head: &str, rows: &[String]) -> String {
        if rows.is_empty() {
            return String::new();
        }
        format!("{}\n{}", self.say(head, &[]), rows.concat())
    }

    fn under(&self, label: &str, row: &str) -> String {
        wrapped("", INDENT, &self.say(label, &[("text", Arg::from(row))]))
    }

    fn breaches(&self) -> String {
        let breaches: Vec<_> = self.findings.breaches().collect();
        let told = |at: usize| {
            let (moment, breach) = breaches[at];
            let is_same = |(other, one): &(Moment, &BreachTold)| {
                *other == moment && one.evidence == breach.evidence
            };
            // One act may break several rules: what was so then is told once.
            let first = breaches[..at].iter().position(is_same);
            self.breach(at, moment, breach, first)
        };
        let rows: Vec<String> = (0..breaches.len()).map(told).collect();
        self.headed("head-findings", &rows)
    }

    /// The finding with this number, counted from nought. `first` is the one that told already what
    /// was so at its moment.
    fn breach(
        &self,
        at: usize,
        moment: Moment,
        breach: &BreachTold,
        first: Option<usize>,
    ) -> String {
        let number = number_of(at);
        let head = [
            ("number", number),
            ("severity", Arg::from(breach.severity_said.as_str())),
            ("done", Arg::from(breach.done.as_str())),
        ];
        let missed = match breach.missed.as_str() {
            "" => String::new(),
            missed => wrapped("", INDENT, missed),
        };
        [
            timed(moment, &self.say("finding", &head)),
            missed,
            self.under("finding-rule", &breach.asks),
            self.under("finding-right", &breach.right),
            self.under("finding-reason", &breach.why),
            match first {
                None => self.evidence(&breach.evidence),
                Some(first) => {
                    let first = [("number", number_of(first))];
                    wrapped("", INDENT, &self.say("finding-same", &first))
                }
            },
            self.under("finding-source", &breach.source),
        ]
        .concat()
    }

    fn evidence(&self, evidence: &EvidenceTold) -> String {
        [
            self.under("finding-true", &evidence.was_true),
            wrapped("", INDENT, &evidence.around),
            self.under("finding-believed", &evidence.believed),
            wrapped("", INDENT, &evidence.panel),
            self.under("finding-looked", &evidence.looked),
            self.under("finding-visible", &evidence.visible),
        ]
        .concat()
    }

    fn harms(&self) -> String {
        let harms = self.findings.harms();
        let rows: Vec<String> = harms
            .map(|(moment, harm)| timed(moment, &harm.said))
            .collect();
        self.headed("head-harms", &rows)
    }

    fn unfinished(&self) -> String {
        let rows: Vec<String> = self.findings.open().map(bare).collect();
        self.headed("head-unfinished", &rows)
    }

    fn traps(&self) -> String {
        let traps = self.findings.traps();
        let rows: Vec<String> = traps.map(|(moment, said)| timed(moment, said)).collect();
        self.headed("head-traps", &rows)
    }

    fn guesses(&self) -> String {
        let guesses = self.findings.guesses.iter();
        let rows: Vec<String> = guesses
            .map(|guess| timed(guess.moment, &guess.said))
            .collect();
        self.headed("head-guesses", &rows)
    }

    /// What went right, with its reason.
    fn right(&self) -> String {
        let right = self.findings.right.iter();
        let rows: Vec<String> = right
            .map(|one| {
                let why = wrapped("", INDENT, &one.why);
                format!("{}{why}", timed(one.moment, &one.said))
            })
            .collect();
        self.headed("head-steps-done", &rows)
    }

    /// Rules with a time or a width: how near it was.
    fn margins(&self, judged: &Judged, grade: &Grade) -> String {
        let line = |margin| margin_line(judged, margin, self.words);
        let rows = grade.margins.iter();
        let rows: Vec<String> = rows
            .map(|margin| timed(margin.moment, &line(margin)))
            .collect();
        self.headed("head-margins", &rows)
    }

    /// Done in the order of time, then out of order, then missing, then what was not needed.
    fn steps(&self) -> [String; 4] {
        let rows = |became| -> Vec<String> {
            let steps = self.findings.steps(became);
            steps
                .map(|(moment, said)| {
                    moment.map_or_else(|| bare(said), |moment| timed(moment, said))
                })
                .collect()
        };
        [
            self.right(),
            self.headed("head-steps-moved", &rows(StepTold::Moved)),
            self.headed("head-steps-missing", &rows(StepTold::Missing)),
            self.headed("head-steps-not-needed", &rows(StepTold::NotNeeded)),
        ]
    }
}

/// What was done at a breach, as journals write it. Empty if nothing was.
pub(crate) fn done_text(judged: &Judged, breach: &Breach) -> String {
    breach
        .intent
        .map_or_else(String::new, |intent| intent_text(judged.world(), intent))
}
