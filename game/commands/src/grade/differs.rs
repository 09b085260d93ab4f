//! An attempt that comes out otherwise in this program, mostly because the core changed since. The
//! recorded outcomes stand: what they say is told, and beside it what this program computes, and
//! whether that would flip the verdict.

use std::io;

use rackproof_attempt::{Difference, Exercise, Kept, Recorded, RecordedBy, outcome_text};
use rackproof_drill::{FinishItem, Outcome, message::of_finish_item};
use rackproof_grade::{Grade, Judged, JudgedOutcome, Verdict};
use rackproof_phrases::text;
use rackproof_words::{Arg, Words};
use serde_json::{Value, json};

use super::{
    again::{Broken, broken, names, verdict_id, without},
    json::verdict_name,
};
use crate::lines::wrapped;

/// Such an attempt.
pub(super) struct Differs {
    pub(super) kept: Box<Kept>,
    pub(super) difference: Difference,
    exercise: Exercise,
    recorded: Recorded,
    /// What this program computes.
    computed: Computed,
}

enum Computed {
    /// What was done on this line cannot be done in this program any more.
    Stuck(usize),
    /// The attempt to its end.
    Graded(Box<Judged>, Box<Grade>),
}

/// What is so in one list and not in the other, and the other way round.
type Change<T> = (Vec<T>, Vec<T>);

/// Why a verdict comes out otherwise.
struct Changes {
    rules: Change<Broken>,
    harms: Change<String>,
    /// `None`: the record does not say what was open.
    open: Option<Change<String>>,
}

impl Differs {
    /// Takes up what was recorded, and does the attempt by this program.
    pub(super) fn of(kept: Box<Kept>, exercise: Exercise, difference: Difference) -> Differs {
        let computed = match kept.rerun(&exercise) {
            Some(rerun) => match rerun.stuck {
                Some(line) => Computed::Stuck(line),
                None => {
                    let grade = rerun.attempt.grade(&exercise);
                    let judged = rerun.attempt.judged().clone();
                    Computed::Graded(Box::new(judged), Box::new(grade))
                }
            },
            None => Computed::Stuck(difference.line),
        };
        let mut recorded = kept.recorded(&exercise);
        if kept.recorded_by() == RecordedBy::ThisCore {
            // This core computes something else: these outcomes are of no run by it.
            recorded.verdict = None;
        }
        Differs {
            recorded,
            kept,
            difference,
            exercise,
            computed,
        }
    }

    /// Whether this program's verdict is another than the recorded one. `None` if one of them is
    /// not known.
    pub(super) fn flips(&self) -> Option<bool> {
        let Computed::Graded(_, grade) = &self.computed else {
            return None;
        };
        Some(self.recorded.verdict? != grade.verdict)
    }

    /// The recorded rules with the severities that the attempt's own texts give them.
    fn recorded_rules(&self, judged: &Judged) -> Vec<Broken> {
        let rules = judged.rules().list.iter();
        let was = |name: &str| self.recorded.broken.iter().any(|(known, _)| known == name);
        rules
            .filter(|rule| was(&rule.name))
            .map(|rule| (rule.name.clone(), rule.severity))
            .collect()
    }

    fn changes(&self, judged: &Judged, grade: &Grade) -> Changes {
        fn change<T: Clone + PartialEq>(before: &[T], after: &[T]) -> Change<T> {
            (without(after, before), without(before, after))
        }
        let open: Vec<String> = grade
            .unfinished
            .iter()
            .map(|item| finish_name(*item))
            .collect();
        let open_then = self.recorded.open.as_ref();
        Changes {
            rules: change(&self.recorded_rules(judged), &broken(judged, grade)),
            harms: change(&self.recorded.harms, &harms(judged, grade)),
            open: open_then.map(|then| change(then, &open)),
        }
    }

    /// What stands, what this program says, and why.
    pub(super) fn write(&self, out: &mut dyn io::Write, words: &Words) -> io::Result<()> {
        let mut line = |indent, id: &str, arguments: &[(&str, Arg<'_>)]| {
            write!(out, "{}", wrapped("", indent, &words.say(id, arguments)))
        };
        let said = |verdict| Arg::from(words.say(verdict_id(verdict), &[]));
        line(2, self.by_id(), &[])?;
        match self.recorded.verdict {
            Some(verdict) => line(2, "differs-recorded", &[("verdict", said(verdict))])?,
            None if self.kept.recorded_by() == RecordedBy::ThisCore => {}
            None => line(2, "differs-recorded-open", &[])?,
        }
        let (judged, grade) = match &self.computed {
            Computed::Stuck(at) => {
                let at = Arg::Number(i64::try_from(*at).unwrap_or(i64::MAX));
                return line(2, "differs-stuck", &[("line", at)]);
            }
            Computed::Graded(judged, grade) => (judged, grade),
        };
        line(2, "differs-computed", &[("verdict", said(grade.verdict))])?;
        match self.flips() {
            Some(true) => line(2, "differs-flips", &[])?,
            Some(false) => line(2, "differs-same", &[])?,
            None => {}
        }
        let changes = self.changes(judged, grade);
        let open = changes.open.unwrap_or_default();
        let items = |items: &[String]| self.items(items, judged, words);
        let rows = [
            ("again-now", "rules", names(&changes.rules.0, words)),
            ("again-not-now", "rules", names(&changes.rules.1, words)),
            ("differs-harms-now", "harms", changes.harms.0.join("; ")),
            ("differs-harms-not-now", "harms", changes.harms.1.join("; ")),
            ("differs-open-now", "items", items(&open.0)),
            ("differs-open-not-now", "items", items(&open.1)),
        ];
        for (id, name, row) in rows.into_iter().filter(|(_, _, row)| !row.is_empty()) {
            line(4, id, &[(name, Arg::from(row))])?;
        }
        Ok(())
    }

    fn by_id(&self) -> &'static str {
        match self.kept.recorded_by() {
            RecordedBy::ThisCore => "differs-this-core",
            RecordedBy::AnotherCore => "differs-another-core",
            RecordedBy::Unsaid => "differs-unsaid-core",
        }
    }

    /// Things that must hold at the end, in words.
    fn items(&self, names: &[String], judged: &Judged, words: &Words) -> String {
        let item = |name: &String| {
            let known = FinishItem::ALL.iter().find(|(known, _)| known == name);
            known.map_or_else(
                || name.clone(),
                |(_, item)| text(words, &of_finish_item(judged.world(), *item)),
            )
        };
        let items: Vec<String> = names.iter().map(item).collect();
        items.join(" ")
    }

    /// The same for a program.
    pub(super) fn object(&self, object: &mut Value) {
        let recorded = &self.recorded;
        let rule = |(rule, times): &(String, usize)| json!({ "rule": rule, "times": times });
        let broken_then = recorded.broken.iter().map(rule);
        object["line"] = json!(self.difference.line);
        object["core"] = json!(match self.kept.recorded_by() {
            RecordedBy::ThisCore => "this",
            RecordedBy::AnotherCore => "another",
            RecordedBy::Unsaid => "unsaid",
        });
        object["recorded"] = json!({
            "verdict": recorded.verdict.map(verdict_name),
            "broken": broken_then.collect::<Vec<_>>(),
            "harms": recorded.harms,
            "open": recorded.open,
        });
        object["computed"] = match &self.computed {
            Computed::Stuck(line) => json!({ "stuck_on_line": line }),
            Computed::Graded(judged, grade) => {
                super::json::grade_object(judged, &self.exercise, grade)
            }
        };
        object["flips"] = json!(self.flips());
    }

    /// The recorded verdict and this program's, if both are known.
    pub(super) fn verdicts(&self) -> Option<(Verdict, Verdict)> {
        match &self.computed {
            Computed::Stuck(_) => None,
            Computed::Graded(_, grade) => Some((self.recorded.verdict?, grade.verdict)),
        }
    }
}

fn finish_name(item: FinishItem) -> String {
    let known = FinishItem::ALL.iter().find(|(_, known)| *known == item);
    known.map_or("", |(name, _)| name).to_owned()
}

/// The harms of a grade, as attempts write them.
fn harms(judged: &Judged, grade: &Grade) -> Vec<String> {
    let harms = grade
        .harms
        .iter()
        .map(|(_, harm)| outcome_text(judged, &JudgedOutcome::World(Outcome::Harm(*harm))));
    harms.collect()
}

/// What came out otherwise in one run of the command.
#[derive(Default)]
pub(super) struct Otherwise {
    attempts: usize,
    unknown: usize,
    rows: Vec<(String, Verdict, Verdict)>,
}

impl Otherwise {
    pub(super) fn take(&mut self, name: &str, differs: &Differs) {
        self.attempts += 1;
        match differs.verdicts() {
            None => self.unknown += 1,
            Some((before, after)) if before != after => {
                self.rows.push((name.to_owned(), before, after));
            }
            Some(_) => {}
        }
    }

    /// Says which verdicts would flip. Nothing if none came out otherwise.
    pub(super) fn write(&self, out: &mut dyn io::Write, words: &Words) -> io::Result<()> {
        if self.attempts == 0 {
            return Ok(());
        }
        let count = |number: usize| Arg::Number(i64::try_from(number).unwrap_or(i64::MAX));
        let counts = [
            ("attempts", count(self.attempts)),
            ("flips", count(self.rows.len())),
            ("unknown", count(self.unknown)),
        ];
        let head = words.say("differs-head", &counts);
        write!(out, "\n{}", wrapped("", 0, &head))?;
        for (path, before, after) in &self.rows {
            let flip = [
                ("path", Arg::from(path.as_str())),
                ("before", Arg::from(words.say(verdict_id(*before), &[]))),
                ("after", Arg::from(words.say(verdict_id(*after), &[]))),
            ];
            let said = words.say("again-flip", &flip);
            write!(out, "{}", wrapped("  -", 4, &said))?;
        }
        Ok(())
    }
}
