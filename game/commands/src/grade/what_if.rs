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
    /// How it would have ended.
    Ended(Box<Ended>),
}

/// Another end.
pub(super) struct Ended {
    other: WhatIf,
    /// Whether the right action comes before what was found.
    before: bool,
    /// What was done where the two attempts part. Nothing if time alone broke the rule: what was
    /// done next was none of it.
    done: Option<Cause>,
}

/// Runs on from a finding, counted from 1.
pub(super) fn of(rebuilt: &Rebuilt, grade: &Grade, finding: usize) -> Other {
    let Some(breach) = finding.checked_sub(1).and_then(|at| grade.breaches.get(at)) else {
        return Other::NoFinding(grade.breaches.len());
    };
    let other = WhatIf::of(&rebuilt.attempt, &rebuilt.exercise, grade, breach);
    other.map_or(Other::NoWay, |other| {
        let before = is_before(&other, breach);
        let done = rebuilt.attempt.done().get(other.same);
        let then = |done: &&Done| done.at == other.from.at && (before || breach.intent.is_some());
        let done = done.filter(then).map(|done| done.cause);
        Other::Ended(Box::new(Ended {
            other,
            before,
            done,
        }))
    })
}

/// Whether it is another attempt from before the finding on.
fn is_before(other: &WhatIf, breach: &Breach) -> bool {
    let done = breach.moment.cause.map_or(0, |cause| cause + 1);
    other.same + usize::from(breach.intent.is_some()) < done
}

/// What keeps another end from passing: what was broken before the two attempts part, and what the
/// procedure breaks after that.
fn why_not_passed(other: &WhatIf) -> Vec<&'static str> {
    if other.grade.verdict == Verdict::Passed {
        return Vec::new();
    }
    let is_earlier = |breach: &&Breach| other.is_common(breach.moment);
    let earlier = other.grade.breaches.iter().filter(is_earlier).count();
    let told = [
        (earlier > 0, "what-if-earlier"),
        (earlier < other.grade.breaches.len(), "what-if-breaks"),
    ];
    let told = told.into_iter().filter(|(is_so, _)| *is_so);
    told.map(|(_, id)| id).collect()
}

/// What is done where the two attempts part, in words: as it reads right before. Nothing: somebody
/// waited.
fn said_of(cause: Option<Cause>, other: &WhatIf, words: &Words) -> String {
    let (world, history) = (other.attempt.world(), History::of(&other.attempt));
    // Both attempts are the same until then.
    let state = history.before_doing(other.same);
    match (cause, state) {
        (Some(Cause::Did(intent)), Some(state)) => {
            text(words, &of_intent(world, &state.world, intent))
        }
        (Some(Cause::Chose(chance)), _) => text(words, &of_chance(world, chance)),
        _ => words.say("what-if-nothing", &[]),
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
        Other::Ended(ended) => ended,
    };
    let Ended {
        other,
        before,
        done,
    } = &**other;
    let world = rebuilt.attempt.world();
    let said = |cause: Option<Cause>| Arg::from(said_of(cause, other, words));
    let head = [
        finding,
        ("at", Arg::Clock(other.from.at)),
        ("done", said(*done)),
        (
            "instead",
            said(other.instead().first().map(|done| done.cause)),
        ),
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
    for id in why_not_passed(other) {
        write!(out, "{}", wrapped("  -", 4, &words.say(id, &[])))?;
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
        Other::Ended(ended) => ended,
    };
    let Ended { other, before, .. } = &**other;
    let world = rebuilt.attempt.world();
    let journal = other.attempt.done().iter();
    let journal: Vec<String> = journal.map(|done| journal_entry(world, done)).collect();
    let mut object = grade_object(other.attempt.judged(), &rebuilt.exercise, &other.grade);
    object["finding"] = json!(finding);
    object["from"] = json!(other.from.at);
    object["before"] = json!(before);
    object["same"] = json!(other.same);
    object["journal"] = json!(journal);
    object
}

#[cfg(test)]
mod tests {
    use rackproof_attempt::{Attempt, Journal};
    use rackproof_files::Problems;
    use rackproof_grade::Moment;
    use rackproof_library::{built_in_drill, load};

    use super::*;

    /// What is said to stay broken was broken before; what the procedure breaks is said to be.
    #[test]
    fn what_stays_broken_was_broken_before() {
        let problems = Problems::new();
        let exercise = load(built_in_drill(), &problems)
            .expect("no problem")
            .exercise;
        let text = include_str!("../../../../tests/journals/left-inside/declared-unseen.ron");
        let report = problems.for_file("journal", text);
        let journal = Journal::read(report, &exercise).expect("no problem");
        let judged = exercise.judged(journal.variant).expect("it is listed");
        let mut attempt = Attempt::new(judged);
        assert!(journal.run(&mut attempt, report, &mut |_| true));
        let grade = attempt.grade(&exercise);
        let breach = grade.breaches[0];
        let other = WhatIf::of(&attempt, &exercise, &grade, &breach).expect("a way");
        assert_eq!(why_not_passed(&other), [""; 0], "it passes");
        let at = |at: u64, cause: Option<usize>| Breach {
            moment: Moment { at, cause },
            ..breach
        };
        let before = at(0, None);
        let after = at(other.from.at + 1, other.same.checked_sub(1));
        let cases: [(&[Breach], &[&str]); 4] = [
            (&[], &[]),
            (&[before], &["what-if-earlier"]),
            (&[after], &["what-if-breaks"]),
            (&[before, after], &["what-if-earlier", "what-if-breaks"]),
        ];
        for (breaches, expected) in cases {
            let mut other = other.clone();
            other.grade.verdict = Verdict::Failed;
            other.grade.breaches = breaches.to_vec();
            assert_eq!(why_not_passed(&other), expected);
        }
    }
}
