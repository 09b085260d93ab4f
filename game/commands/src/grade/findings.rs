//! A grade as text: verdict, the three questions, then every line of evidence.

use std::io;

use rackproof_attempt::{Exercise, intent_text};
use rackproof_buffer::{Harm, HarmKind};
use rackproof_drill::message::{of_finish_item, of_harm, of_intent};
use rackproof_grade::{Breach, Grade, Judged, Moment, Severity, StepDone, Verdict};
use rackproof_words::{Arg, Words};

use crate::phrases::{named, text, wrapped};

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
    let writer = Writer {
        judged,
        exercise,
        grade,
        words,
    };
    let parts = [
        writer.verdict(),
        writer.questions(),
        writer.breaches(),
        writer.harms(),
        writer.unfinished(),
        writer.traps(),
        writer.steps(),
    ];
    for part in parts.iter().filter(|part| !part.is_empty()) {
        writeln!(out, "\n{}", part.trim_end_matches('\n'))?;
    }
    Ok(())
}

/// The steps of a procedure in words, by what became of them.
#[derive(Default)]
struct Steps {
    done: Vec<(Moment, String)>,
    missing: Vec<String>,
    unneeded: Vec<String>,
}

struct Writer<'w> {
    judged: &'w Judged,
    exercise: &'w Exercise,
    grade: &'w Grade,
    words: &'w Words,
}

/// The id of a severity's name.
pub(crate) fn severity_id(severity: Severity) -> &'static str {
    match severity {
        Severity::Stop => "severity-stop",
        Severity::Major => "severity-major",
        Severity::Minor => "severity-minor",
    }
}

fn count(number: usize) -> Arg<'static> {
    Arg::Number(i64::try_from(number).unwrap_or(i64::MAX))
}

impl Writer<'_> {
    fn say(&self, id: &str, arguments: &[(&str, Arg<'_>)]) -> String {
        self.words.say(id, arguments)
    }

    fn verdict(&self) -> String {
        let id = match self.grade.verdict {
            Verdict::Passed => "verdict-passed",
            Verdict::Failed => "verdict-failed",
            Verdict::NotEnded => "verdict-not-ended",
        };
        self.say(id, &[])
    }

    /// The three questions, a line each.
    fn questions(&self) -> String {
        let grade = self.grade;
        let of = |severity| count(grade.count(self.judged, severity));
        let steps = self.steps_by_state();
        let way = self.way();
        let safety = self.say(
            "question-safety",
            &[
                ("stops", of(Severity::Stop)),
                ("majors", of(Severity::Major)),
                ("minors", of(Severity::Minor)),
            ],
        );
        let procedure = self.say(
            "question-procedure",
            &[
                ("way", Arg::from(way)),
                ("done", count(steps.done.len())),
                ("missing", count(steps.missing.len())),
                ("unneeded", count(steps.unneeded.len())),
            ],
        );
        let open = ("open", count(grade.unfinished.len()));
        let harms = ("harms", count(self.told_harms().len()));
        let result = self.say("question-result", &[open, harms]);
        let time = ("time", Arg::Clock(grade.time));
        let time = match grade.reference {
            Some(reference) => {
                self.say("grade-time", &[time, ("reference", Arg::Clock(reference))])
            }
            None => self.say("grade-time-alone", &[time]),
        };
        let rows = [
            ("label-safety", safety),
            ("label-procedure", procedure),
            ("label-result", result),
            ("label-time", time),
        ];
        rows.iter()
            .map(|(label, row)| wrapped(&self.say(label, &[]), INDENT, row))
            .collect()
    }

    fn way(&self) -> String {
        let ways = &self.exercise.procedure.ways;
        let name = ways.get(self.grade.way).map_or("", String::as_str);
        named(self.words, &format!("way-{name}"), name)
    }

    fn headed(&self, head: &str, rows: &[String]) -> String {
        if rows.is_empty() {
            return String::new();
        }
        format!("{}\n{}", self.say(head, &[]), rows.concat())
    }

    /// A row that begins with its time.
    fn timed(&self, moment: Moment, row: &str) -> String {
        wrapped(&format!("  {}", Arg::Clock(moment.at)), INDENT, row)
    }

    fn under(&self, label: &str, row: &str) -> String {
        wrapped("", INDENT, &self.say(label, &[("text", Arg::from(row))]))
    }

    fn breaches(&self) -> String {
        let rows: Vec<String> = self
            .grade
            .breaches
            .iter()
            .map(|breach| self.breach(breach))
            .collect();
        self.headed("head-findings", &rows)
    }

    fn breach(&self, breach: &Breach) -> String {
        let Some(rule) = self.judged.rules().list.get(breach.rule) else {
            return String::new();
        };
        let world = self.judged.world();
        let done = match breach.intent {
            Some(intent) => text(self.words, &of_intent(world, &breach.state.world, intent)),
            None => self.say("finding-by-itself", &[]),
        };
        let severity = self.say(severity_id(rule.severity), &[]);
        let head = [("severity", Arg::from(severity)), ("done", Arg::from(done))];
        let told = |part: &str| {
            let id = format!("rule-{}{part}", rule.name);
            named(self.words, &id, &rule.name)
        };
        [
            self.timed(breach.moment, &self.say("finding", &head)),
            self.under("finding-rule", &told("")),
            self.under("finding-right", &told("-right")),
            self.under("finding-reason", &told("-reason")),
            self.under("finding-source", &rule.source),
        ]
        .concat()
    }

    /// The harms, without a strain that the same board passed on its way to breaking.
    fn told_harms(&self) -> Vec<(Moment, Harm)> {
        let all = &self.grade.harms;
        let broke_later = |at: usize, harm: &Harm| {
            let mut later = all.iter().skip(at + 1);
            harm.kind == HarmKind::Overstrained
                && later.any(|(_, other)| {
                    other.kind == HarmKind::Broken
                        && (other.board, other.place) == (harm.board, harm.place)
                })
        };
        let told = all.iter().enumerate();
        told.filter(|(at, (_, harm))| !broke_later(*at, harm))
            .map(|(_, one)| *one)
            .collect()
    }

    fn harms(&self) -> String {
        let world = self.judged.world();
        let row = |(moment, harm): &(Moment, Harm)| {
            self.timed(*moment, &text(self.words, &of_harm(world, harm)))
        };
        let rows: Vec<String> = self.told_harms().iter().map(row).collect();
        self.headed("head-harms", &rows)
    }

    fn unfinished(&self) -> String {
        let world = self.judged.world();
        let row = |item| wrapped("  -", 4, &text(self.words, &of_finish_item(world, item)));
        let rows: Vec<String> = self
            .grade
            .unfinished
            .iter()
            .map(|item| row(*item))
            .collect();
        self.headed("head-unfinished", &rows)
    }

    fn traps(&self) -> String {
        let row = |(moment, number): &(Moment, usize)| {
            let trap = self.exercise.drill.traps.get(*number);
            let name = trap.map_or("", |trap| trap.id.as_str());
            self.timed(
                *moment,
                &named(self.words, &format!("trap-{name}-debrief"), name),
            )
        };
        let rows: Vec<String> = self.grade.sprung.iter().map(row).collect();
        self.headed("head-traps", &rows)
    }

    /// The steps by what became of them. What this variant does not ask for is named only if it
    /// belongs to the way that was gone, and was not done at another place.
    fn steps_by_state(&self) -> Steps {
        let all = &self.exercise.procedure.steps;
        let told = |number: usize| {
            let name = all.get(number).map_or("", |step| step.name.as_str());
            named(self.words, &format!("step-{name}"), name)
        };
        let of_way = |number: usize| {
            let ways = all.get(number).map_or(&[][..], |step| &step.ways);
            ways.is_empty() || ways.contains(&self.grade.way)
        };
        let mut steps = Steps::default();
        for (number, state) in &self.grade.steps {
            match state {
                StepDone::Done(moment) => steps.done.push((*moment, told(*number))),
                StepDone::Missing => steps.missing.push(told(*number)),
                StepDone::NotNeeded if of_way(*number) => steps.unneeded.push(told(*number)),
                StepDone::NotNeeded => {}
            }
        }
        steps
            .done
            .sort_by_key(|(moment, _)| (moment.at, moment.cause));
        let mut known: Vec<String> = steps.done.iter().map(|(_, told)| told.clone()).collect();
        known.extend(steps.missing.iter().cloned());
        steps.unneeded.retain(|told| {
            let new = !known.contains(told);
            known.push(told.clone());
            new
        });
        steps
    }

    /// Done in the order of time, then missing, then what this variant does not ask for.
    fn steps(&self) -> String {
        let steps = self.steps_by_state();
        let done: Vec<String> = steps
            .done
            .iter()
            .map(|(moment, told)| self.timed(*moment, told))
            .collect();
        let bare = |rows: &[String]| -> Vec<String> {
            rows.iter().map(|row| wrapped("  -", 4, row)).collect()
        };
        [
            self.headed("head-steps-done", &done),
            self.headed("head-steps-missing", &bare(&steps.missing)),
            self.headed("head-steps-not-needed", &bare(&steps.unneeded)),
        ]
        .concat()
    }
}

/// What was done at a breach, as journals write it. Empty if nothing was.
pub(crate) fn done_text(judged: &Judged, breach: &Breach) -> String {
    breach
        .intent
        .map_or_else(String::new, |intent| intent_text(judged.world(), intent))
}
