//! A grade for a program: one JSON object a line, one line an attempt.

use rackproof_attempt::{Rebuilt, outcome_text};
use rackproof_drill::{FinishItem, Outcome};
use rackproof_grade::{Breach, Grade, JudgedOutcome, Severity, StepDone, Verdict};
use rackproof_words::Words;
use serde_json::{Value, json};

use super::{Graded, findings::done_text, not_graded, passed};

/// The object for one file.
pub(super) fn of(name: &str, graded: &Graded, words: &Words) -> Value {
    let mut object = match graded {
        Graded::Whole(kept, rebuilt, grade) => {
            let mut object = grade_object(rebuilt, grade);
            object["drill"] = json!(kept.header.drill);
            object["variant"] = json!(kept.header.variant);
            object["mode"] = json!(kept.header.mode);
            object["proved"] = json!(kept.header.proved);
            object["proof"] = json!(kept.header.proof);
            object["hashes"] = json!(kept.header.hashes);
            object["notes"] = json!(kept.notes);
            object
        }
        _ => {
            let (id, mut arguments) = not_graded(graded);
            arguments.push(("path", name.into()));
            let state = id.strip_prefix("grade-").unwrap_or(id);
            json!({ "state": state, "passed": false, "reason": words.say(id, &arguments) })
        }
    };
    object["attempt"] = json!(name);
    object
}

fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Stop => "stop",
        Severity::Major => "major",
        Severity::Minor => "minor",
    }
}

fn grade_object(rebuilt: &Rebuilt, grade: &Grade) -> Value {
    let (judged, exercise) = (rebuilt.attempt.judged(), &rebuilt.exercise);
    let breach = |breach: &Breach| {
        let rule = judged.rules().list.get(breach.rule);
        json!({
            "at": breach.moment.at,
            "cause": breach.moment.cause,
            "rule": rule.map(|rule| rule.name.as_str()),
            "severity": rule.map(|rule| severity(rule.severity)),
            "did": done_text(judged, breach),
            "source": rule.map(|rule| rule.source.as_str()),
        })
    };
    let harms = grade.harms.iter().map(|(moment, harm)| {
        let outcome = JudgedOutcome::World(Outcome::Harm(*harm));
        json!({
            "at": moment.at,
            "cause": moment.cause,
            "harm": outcome_text(judged, &outcome),
            "number": harm.number,
            "limit": harm.limit,
        })
    });
    let steps = grade.steps.iter().map(|found| {
        let step = exercise.procedure.analysis.steps.get(found.step);
        let (state, at) = match found.done {
            StepDone::Done(moment) => ("done", Some(moment.at)),
            StepDone::Moved(moment) => ("moved", Some(moment.at)),
            StepDone::Missing => ("missing", None),
            StepDone::NotNeeded(moment) => ("not needed", Some(moment.at)),
        };
        json!({
            "step": step.map(|step| step.name.as_str()),
            "slot": found.slot.map(|slot| slot + 1),
            "state": state,
            "at": at,
            "certain": found.certain,
        })
    });
    let traps = grade.sprung.iter().map(|(moment, number)| {
        let trap = exercise.drill.traps.get(*number);
        json!({ "at": moment.at, "trap": trap.map(|trap| trap.id.as_str()) })
    });
    let margins = grade.margins.iter().map(|margin| {
        let rule = judged.rules().list.get(margin.rule);
        json!({
            "at": margin.moment.at,
            "rule": rule.map(|rule| rule.name.as_str()),
            "spare_us": margin.spare,
        })
    });
    let finish = |item: &FinishItem| {
        let known = FinishItem::ALL.iter().find(|(_, known)| known == item);
        known.map_or("", |(name, _)| name)
    };
    json!({
        "state": "graded",
        "passed": passed(grade),
        "verdict": match grade.verdict {
            Verdict::Passed => "passed",
            Verdict::Failed => "failed",
            Verdict::NotEnded => "not ended",
        },
        "breaches": grade.breaches.iter().map(breach).collect::<Vec<_>>(),
        "harms": harms.collect::<Vec<_>>(),
        "unfinished": grade.unfinished.iter().map(finish).collect::<Vec<_>>(),
        "traps": traps.collect::<Vec<_>>(),
        "way": exercise.procedure.ways.get(grade.way),
        "steps": steps.collect::<Vec<_>>(),
        "margins": margins.collect::<Vec<_>>(),
        "fitness": grade.fitness.map(|fitness| json!([fitness.kept, fitness.most])),
        "time_us": grade.time,
        "reference_us": grade.reference,
    })
}
