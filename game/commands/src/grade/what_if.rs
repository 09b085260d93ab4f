//! `grade ATTEMPT --what-if N`: the moment of a finding, run on with the right action.

use std::io;

use rackproof_attempt::{Done, History, Rebuilt, WhatIf, journal_entry};
use rackproof_drill::{
    Cause,
    message::{of_chance, of_intent},
};
use rackproof_grade::{Breach, Grade, Verdict};
use rackproof_phrases::{Findings, text};
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
    /// How it would have ended, and whether the right action comes before what was found.
    Ended(Box<WhatIf>, bool),
}

/// Runs on from a finding, counted from 1.
pub(super) fn of(rebuilt: &Rebuilt, grade: &Grade, finding: usize) -> Other {
    let Some(breach) = finding.checked_sub(1).and_then(|at| grade.breaches.get(at)) else {
        return Other::NoFinding(grade.breaches.len());
    };
    let other = WhatIf::of(&rebuilt.attempt, &rebuilt.exercise, grade, breach);
    other.map_or(Other::NoWay, |other| {
        let before = is_before(&other, breach);
        Other::Ended(Box::new(other), before)
    })
}

/// Whether it is another attempt from before the finding on.
fn is_before(other: &WhatIf, breach: &Breach) -> bool {
    let done = breach.moment.cause.map_or(0, |cause| cause + 1);
    other.same + usize::from(breach.intent.is_some()) < done
}

/// What was done at the finding, as journals write it.
fn done_then<'d>(rebuilt: &'d Rebuilt, other: &WhatIf) -> Option<&'d Done> {
    rebuilt.attempt.done().get(other.same)
}

/// What is done where the two attempts part, in words. Nothing: somebody waited.
fn said_of(done: Option<&Done>, (rebuilt, other): (&Rebuilt, &WhatIf), words: &Words) -> String {
    let world = rebuilt.attempt.world();
    let state = History::of(&rebuilt.attempt).state_at(other.from.at);
    match done.map(|done| done.cause) {
        Some(Cause::Did(intent)) => text(words, &of_intent(world, &state.world, intent)),
        Some(Cause::Chose(chance)) => text(words, &of_chance(world, chance)),
        None => words.say("what-if-nothing", &[]),
    }
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
        Other::Ended(other, before) => (other, before),
    };
    let (other, before) = other;
    let world = rebuilt.attempt.world();
    let said = |done: Option<&Done>| Arg::from(said_of(done, (rebuilt, other), words));
    let head = [
        finding,
        ("at", Arg::Clock(other.from.at)),
        ("done", said(done_then(rebuilt, other))),
        ("instead", said(other.instead().first())),
    ];
    write!(out, "{}", plain("what-if-head", &head))?;
    if *before {
        write!(out, "{}", plain("what-if-before", &[]))?;
    }
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
        Other::Ended(other, _) => other,
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
