//! `grade ATTEMPT --what-if N`: the moment of a finding, run on with the right action.

use std::io;

use rackproof_attempt::{Done, Rebuilt, WhatIf, cause_text, journal_entry};
use rackproof_grade::{Grade, Verdict};
use rackproof_phrases::Findings;
use rackproof_words::{Arg, Words};
use serde_json::{Value, json};

use super::json::grade_object;
use crate::lines::wrapped;

/// The other end of a finding.
pub(super) enum Other {
    /// There are only so many findings.
    NoFinding(usize),
    /// The procedure knows no way on from there.
    NoWay,
    /// How it would have ended.
    Ended(Box<WhatIf>),
}

/// Runs on from a finding, counted from 1.
pub(super) fn of(rebuilt: &Rebuilt, grade: &Grade, finding: usize) -> Other {
    let Some(breach) = finding.checked_sub(1).and_then(|at| grade.breaches.get(at)) else {
        return Other::NoFinding(grade.breaches.len());
    };
    let other = WhatIf::of(&rebuilt.attempt, &rebuilt.exercise, grade, breach);
    other.map_or(Other::NoWay, |other| Other::Ended(Box::new(other)))
}

/// What was done at the finding, as journals write it.
fn done_then<'d>(rebuilt: &'d Rebuilt, other: &WhatIf) -> Option<&'d Done> {
    rebuilt.attempt.done().get(other.same)
}

/// Writes it.
pub(super) fn write(
    finding: usize,
    (rebuilt, other): (&Rebuilt, &Other),
    out: &mut dyn io::Write,
    words: &Words,
) -> io::Result<()> {
    let number = |number: usize| Arg::Number(i64::try_from(number).unwrap_or(i64::MAX));
    let finding = ("finding", number(finding));
    let plain = |id: &str, arguments: &[(&str, Arg<'_>)]| wrapped("", 0, &words.say(id, arguments));
    writeln!(out)?;
    let other = match other {
        Other::NoFinding(findings) => {
            let findings = ("findings", number(*findings));
            let said = plain("what-if-no-finding", &[finding, findings]);
            return write!(out, "{said}");
        }
        Other::NoWay => return write!(out, "{}", plain("what-if-no-way", &[finding])),
        Other::Ended(other) => other,
    };
    let world = rebuilt.attempt.world();
    let text =
        |done: Option<&Done>| done.map_or_else(String::new, |done| cause_text(world, done.cause));
    let head = [
        finding,
        ("at", Arg::Clock(other.from.at)),
        ("done", Arg::from(text(done_then(rebuilt, other)))),
        ("instead", Arg::from(text(other.instead().first()))),
    ];
    write!(out, "{}", plain("what-if-head", &head))?;
    let judged = other.attempt.judged();
    let findings = Findings::of(judged, &rebuilt.exercise, &other.grade, words);
    let ended = words.say("what-if-ended", &[("verdict", Arg::from(&*findings.said))]);
    write!(out, "{}", wrapped("", 2, &ended))?;
    for said in [
        &findings.questions.safety_said,
        &findings.questions.result_said,
        &findings.questions.time_said,
    ] {
        write!(out, "{}", wrapped("  -", 4, said))?;
    }
    if other.grade.verdict != Verdict::Passed && !other.grade.breaches.is_empty() {
        write!(
            out,
            "{}",
            wrapped("  -", 4, &words.say("what-if-earlier", &[]))
        )?;
    }
    writeln!(out, "{}", words.say("what-if-journal", &[]))?;
    for done in other.instead() {
        writeln!(out, "    {},", journal_entry(world, done))?;
    }
    Ok(())
}

/// The same for a program. `journal` is the whole other attempt.
pub(super) fn object(finding: usize, rebuilt: &Rebuilt, other: &Other) -> Value {
    let other = match other {
        Other::NoFinding(findings) => {
            return json!({ "finding": finding, "state": "no finding", "findings": findings });
        }
        Other::NoWay => return json!({ "finding": finding, "state": "no way" }),
        Other::Ended(other) => other,
    };
    let world = rebuilt.attempt.world();
    let journal = other.attempt.done().iter();
    let journal: Vec<String> = journal.map(|done| journal_entry(world, done)).collect();
    let mut object = grade_object(other.attempt.judged(), &rebuilt.exercise, &other.grade);
    object["finding"] = json!(finding);
    object["from"] = json!(other.from.at);
    object["same"] = json!(other.same);
    object["journal"] = json!(journal);
    object
}
