//! Grading again: what becomes of an attempt under the rules and the procedure of today.
//!
//! What happened is the recorded outcomes', and they stand: machine and drill are the kept ones,
//! and so is every cause. Only what is asked of it is read anew.

use std::{
    io,
    path::{Path, PathBuf},
};

use rackproof_attempt::{Kept, Rebuilt, Text};
use rackproof_files::{Problem, Problems};
use rackproof_grade::{Grade, GradeInput, Judged, Severity, Verdict};
use rackproof_library::{asset, read_text};
use rackproof_phrases::problem_json;
use rackproof_words::{Arg, Words};
use serde_json::{Value, json};

use super::{
    json::{severity_name, verdict_name},
    known::Known,
};
use crate::{lines::wrapped, problems::write_problems};

/// The texts that were named on the command line, in place of those on disk.
#[derive(Default)]
pub(super) struct Named {
    rules: Option<Text>,
    procedure: Option<Text>,
}

impl Named {
    /// Reads them.
    ///
    /// # Errors
    /// The path that cannot be read, and why.
    pub(super) fn read(
        rules: Option<&PathBuf>,
        procedure: Option<&PathBuf>,
    ) -> Result<Named, (PathBuf, io::Error)> {
        let text = |path: Option<&PathBuf>| {
            let read = |path: &PathBuf| read_text(path).map_err(|error| (path.clone(), error));
            path.map(read).transpose()
        };
        Ok(Named {
            rules: text(rules)?,
            procedure: text(procedure)?,
        })
    }
}

impl Named {
    /// Whether any was named.
    pub(super) fn any(&self) -> bool {
        self.rules.is_some() || self.procedure.is_some()
    }
}

/// A rule that was broken, by name, with its severity.
pub(super) type Broken = (String, Severity);

/// What became of an attempt under other texts.
pub(super) enum Again {
    /// The texts are those that it keeps.
    Same,
    /// The texts have problems, or do not go together with the kept ones.
    Unreadable(Problems),
    /// Graded.
    Graded(Regraded),
}

/// An attempt graded under other texts.
pub(super) struct Regraded {
    pub(super) before: Verdict,
    pub(super) after: Verdict,
    /// Rules that are broken now and were not, or not with this severity.
    pub(super) now: Vec<Broken>,
    /// Rules that were broken and are not any more, or not with this severity.
    pub(super) not_now: Vec<Broken>,
}

impl Regraded {
    pub(super) fn flips(&self) -> bool {
        self.before != self.after
    }
}

/// Grades a whole attempt again. `near` is where its file lies.
pub(super) fn of(
    near: &Path,
    named: &Named,
    (kept, rebuilt, grade): (&Kept, &Rebuilt, &Grade),
    known: &mut Known,
) -> Again {
    let drill = &rebuilt.exercise.drill;
    let mut material = kept.header.material.clone();
    let on_disk = |named: &Option<Text>, folder, name: &str| {
        named.clone().or_else(|| asset(near, folder, name))
    };
    let rules = on_disk(&named.rules, "rules", &drill.rules);
    let procedure = on_disk(&named.procedure, "procedures", &drill.procedure);
    let mut changed = false;
    for (text, found) in [
        (&mut material.rules, rules),
        (&mut material.procedure, procedure),
    ] {
        if let Some(found) = found.filter(|found| found.text != text.text) {
            *text = found;
            changed = true;
        }
    }
    if !changed {
        return Again::Same;
    }
    let problems = Problems::new();
    let Some(texts) = known.read(&material, &problems) else {
        return Again::Unreadable(problems);
    };
    let Some(judged) = known.exercise(texts).judged(kept.header.number) else {
        return Again::Unreadable(problems);
    };
    let (exercise, references) = known.references(texts, kept.header.number, &judged);
    let attempt = &rebuilt.attempt;
    let again = Grade::of(GradeInput {
        judged: &judged,
        procedure: &exercise.procedure,
        marks: exercise.marks(),
        causes: &attempt.causes(),
        after: u64::from(attempt.since().0),
        references: Some(references),
    });
    let (before, after) = (broken(attempt.judged(), grade), broken(&judged, &again));
    Again::Graded(Regraded {
        before: grade.verdict,
        after: again.verdict,
        now: without(&after, &before),
        not_now: without(&before, &after),
    })
}

/// What is in one list and not in the other.
pub(super) fn without<T: Clone + PartialEq>(of: &[T], others: &[T]) -> Vec<T> {
    let new = of.iter().filter(|one| !others.contains(one));
    new.cloned().collect()
}

/// The rules that were broken, each once, in the order of their list.
pub(super) fn broken(judged: &Judged, grade: &Grade) -> Vec<Broken> {
    let rules = judged.rules().list.iter().enumerate();
    rules
        .filter(|(number, _)| grade.breaches.iter().any(|breach| breach.rule == *number))
        .map(|(_, rule)| (rule.name.clone(), rule.severity))
        .collect()
}

/// What was graded again in one run of the command.
#[derive(Default)]
pub(super) struct Flips {
    graded: usize,
    unreadable: usize,
    /// What is wrong with the texts, each problem once.
    problems: Vec<Problem>,
    rows: Vec<(String, Regraded)>,
}

impl Flips {
    pub(super) fn take(&mut self, name: &str, again: Again) {
        match again {
            Again::Same => {}
            Again::Unreadable(problems) => {
                self.unreadable += 1;
                for problem in problems.sorted() {
                    if !self.problems.contains(&problem) {
                        self.problems.push(problem);
                    }
                }
            }
            Again::Graded(regraded) => {
                self.graded += 1;
                if regraded.flips() {
                    self.rows.push((name.to_owned(), regraded));
                }
            }
        }
    }

    /// Whether the texts of today could not be used for an attempt.
    pub(super) fn has_problems(&self) -> bool {
        self.unreadable > 0
    }

    /// Says which verdicts flip, and why. Nothing if all texts are the kept ones.
    pub(super) fn write(&self, out: &mut dyn io::Write, words: &Words) -> io::Result<()> {
        let count = |number: usize| Arg::Number(i64::try_from(number).unwrap_or(i64::MAX));
        if self.unreadable > 0 {
            let said = words.say("again-unreadable", &[("attempts", count(self.unreadable))]);
            writeln!(out, "\n{}", wrapped("", 0, &said))?;
            write_problems(out, words, &self.problems)?;
        }
        if self.graded == 0 {
            return Ok(());
        }
        let counts = [
            ("attempts", count(self.graded)),
            ("flips", count(self.rows.len())),
        ];
        // Problems end with a line left free.
        let gap = if self.unreadable > 0 { "" } else { "\n" };
        let head = wrapped("", 0, &words.say("again-head", &counts));
        write!(out, "{gap}{head}")?;
        for (name, regraded) in &self.rows {
            let flip = [
                ("path", Arg::from(name.as_str())),
                (
                    "before",
                    Arg::from(words.say(verdict_id(regraded.before), &[])),
                ),
                (
                    "after",
                    Arg::from(words.say(verdict_id(regraded.after), &[])),
                ),
            ];
            write!(
                out,
                "{}",
                wrapped("  -", 4, &words.say("again-flip", &flip))
            )?;
            let reasons = [
                ("again-now", &regraded.now),
                ("again-not-now", &regraded.not_now),
            ];
            for (id, rules) in reasons.iter().filter(|(_, rules)| !rules.is_empty()) {
                let (asked, rules) = (*rules, ("rules", Arg::from(names(rules, words))));
                write!(out, "{}", wrapped("", 4, &words.say(id, &[rules])))?;
                write_asks(asked, out, words)?;
            }
        }
        Ok(())
    }
}

/// What rules ask, in their plain words.
fn write_asks(rules: &[Broken], out: &mut dyn io::Write, words: &Words) -> io::Result<()> {
    for (rule, _) in rules {
        let id = format!("rule-{rule}");
        if words.has(&id) {
            write!(out, "{}", wrapped("", 6, &words.say(&id, &[])))?;
        }
    }
    Ok(())
}

/// The verdict in one word.
pub(super) fn verdict_id(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Passed => "again-passed",
        Verdict::Failed => "again-failed",
        Verdict::NotEnded => "again-not-ended",
    }
}

pub(super) fn names(rules: &[Broken], words: &Words) -> String {
    let name = |(rule, severity): &Broken| {
        let severity = words.say(rackproof_phrases::severity_id(*severity), &[]);
        let arguments = [
            ("rule", Arg::from(rule.as_str())),
            ("severity", Arg::from(severity)),
        ];
        words.say("again-rule", &arguments)
    };
    let names: Vec<String> = rules.iter().map(name).collect();
    names.join(", ")
}

/// The same for a program. `null` if the texts are the kept ones.
pub(super) fn object(again: &Again, words: &Words) -> Value {
    let rules = |rules: &[Broken]| -> Vec<Value> {
        let rules = rules.iter().map(|(rule, severity)| {
            let severity = severity_name(*severity);
            json!({ "rule": rule, "severity": severity })
        });
        rules.collect()
    };
    match again {
        Again::Same => Value::Null,
        Again::Unreadable(problems) => {
            let told = problems.sorted();
            let told = told.iter().map(|problem| problem_json(words, problem));
            json!({ "state": "unreadable", "problems": told.collect::<Vec<_>>() })
        }
        Again::Graded(regraded) => json!({
            "state": "graded",
            "flips": regraded.flips(),
            "before": verdict_name(regraded.before),
            "after": verdict_name(regraded.after),
            "now": rules(&regraded.now),
            "not_now": rules(&regraded.not_now),
        }),
    }
}
