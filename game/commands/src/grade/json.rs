//! A grade for a program: one JSON object a line, one line an attempt.

use rackproof_attempt::{Exercise, Helped, Kept, claim_of, intent_text, outcome_text, place_text};
use rackproof_drill::{Aim, FinishItem, Outcome, Stand, Unread, Vantage, Width};
use rackproof_grade::{
    Breach, Evidence, Grade, GuessKind, Judged, JudgedOutcome, Missed, Severity, Spare, StepDone,
    Verdict,
};
use rackproof_phrases::{claim_said, problem_json};
use rackproof_words::Words;
use serde_json::{Value, json};

use super::{
    Graded, again,
    findings::done_text,
    not_graded::not_graded,
    passed,
    way_on::{self, KeptWays},
    what_if,
};
use crate::lines::on_one_line;

/// The object where nothing is graded at all: the id of what is said of it, and the text.
pub(super) fn refused(id: &str, said: &str) -> Value {
    json!({ "state": state_of(id), "passed": false, "reason": said })
}

/// What became of a file, by the id of what is said of it.
fn state_of(id: &str) -> &str {
    id.split_once('-').map_or(id, |(_, state)| state)
}

/// The object for one file. `kept` are the ways on, if they were to be kept.
pub(super) fn of(name: &str, graded: &Graded, kept: Option<&KeptWays>, words: &Words) -> Value {
    let mut object = match graded {
        Graded::Whole(whole) => {
            let (ways_kept, kept, rebuilt) = (kept, &whole.kept, &whole.rebuilt);
            let judged = rebuilt.attempt.judged();
            let mut object = grade_object(judged, &rebuilt.exercise, &whole.grade);
            object["again"] = again::object(&whole.again, words);
            if let Some((finding, other)) = &whole.other {
                object["what_if"] = what_if::object(*finding, rebuilt, other);
            }
            if let Some(ways) = &whole.ways {
                object["ways_on"] = way_on::object(rebuilt, ways);
            }
            if let Some(kept) = ways_kept {
                object["ways_kept"] = way_on::kept_object(kept);
            }
            object["helped"] = helped(kept);
            object["claims"] = json!(claims(kept, words));
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
            let state = match graded {
                // The same to a program, whatever there is to go on with.
                Graded::CutOff(_) => "cut-off",
                _ => state_of(id),
            };
            let reason = words.say(id, &arguments);
            let mut object = json!({ "state": state, "passed": false, "reason": reason });
            match graded {
                Graded::Differs(differs) => differs.object(&mut object),
                Graded::Unreadable(problems) => {
                    let told = problems.sorted();
                    let told = told.iter().map(|problem| problem_json(words, problem));
                    object["problems"] = json!(told.collect::<Vec<_>>());
                }
                _ => {}
            }
            object
        }
    };
    object["attempt"] = json!(name);
    object
}

/// How often help was asked for.
fn helped(kept: &Kept) -> Value {
    let helped = Helped::of(&kept.notes);
    json!({ "hints": helped.hints, "ways_on": helped.ways })
}

/// The claims of a proof that it is noted to break.
fn claims(kept: &Kept, words: &Words) -> Vec<Value> {
    let claims = kept.notes.iter().filter_map(claim_of);
    let claims = claims.map(|(at, claim)| {
        let claim = on_one_line(claim);
        json!({ "at": at, "claim": claim, "said": claim_said(words, &claim) })
    });
    claims.collect()
}

pub(super) fn severity_name(severity: Severity) -> &'static str {
    match severity {
        Severity::Stop => "stop",
        Severity::Major => "major",
        Severity::Minor => "minor",
    }
}

pub(super) fn verdict_name(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Passed => "passed",
        Verdict::Failed => "failed",
        Verdict::NotEnded => "not ended",
    }
}

// Names for programs: a value that has another name in the core keeps its name here.

fn width_name(width: Width) -> &'static str {
    match width {
        Width::Counted => "Counted",
        Width::Measured => "Measured",
        Width::Wanted => "Wanted",
        Width::LoadedStored => "LoadedStored",
        Width::NextStored => "NextStored",
        Width::Typed => "Typed",
    }
}

fn unread_name(why: Unread) -> &'static str {
    match why {
        Unread::PanelDark => "PanelDark",
        Unread::RailsMove => "RailsMove",
        Unread::CountUnknown => "CountUnknown",
        Unread::NoSensor => "NoSensor",
        Unread::NothingTyped => "NothingTyped",
    }
}

fn stand_name(stand: Stand) -> &'static str {
    match stand {
        Stand::Panel => "Panel",
        Stand::Infeed => "Infeed",
        Stand::Outfeed => "Outfeed",
        Stand::Hatch => "Hatch",
        Stand::Isolator => "Isolator",
    }
}

fn aim_name(aim: Aim) -> &'static str {
    match aim {
        Aim::LeanInfeed => "LeanInfeed",
        Aim::LeanOutfeed => "LeanOutfeed",
        Aim::Mouth => "Mouth",
    }
}

/// A grade alone: nothing of the file that it is of.
pub(super) fn grade_object(judged: &Judged, exercise: &Exercise, grade: &Grade) -> Value {
    let breach = |breach: &Breach| {
        let rule = judged.rules().list.get(breach.rule);
        let mut object = json!({
            "at": breach.moment.at,
            "cause": breach.moment.cause,
            "rule": rule.map(|rule| rule.name.as_str()),
            "severity": rule.map(|rule| severity_name(rule.severity)),
            "did": done_text(judged, breach),
            "source": rule.map(|rule| rule.source.as_str()),
            "evidence": evidence(judged, breach),
        });
        if let Some(missed) = breach.missed {
            object["missed"] = match missed {
                Missed::By(by) => spare(by),
                Missed::Unread(width, why) => json!({
                    "unread": width_name(width), "why": unread_name(why),
                }),
            };
        }
        object
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
    let finish = |item: &FinishItem| {
        let known = FinishItem::ALL.iter().find(|(_, known)| known == item);
        known.map_or("", |(name, _)| name)
    };
    json!({
        "state": "graded",
        "passed": passed(grade),
        "verdict": verdict_name(grade.verdict),
        "breaches": grade.breaches.iter().map(breach).collect::<Vec<_>>(),
        "harms": harms.collect::<Vec<_>>(),
        "guesses": guesses(judged, grade),
        "outturn": outturn(grade),
        "unfinished": grade.unfinished.iter().map(finish).collect::<Vec<_>>(),
        "traps": traps(exercise, grade),
        "way": exercise.procedure.ways.get(grade.way),
        "steps": steps.collect::<Vec<_>>(),
        "margins": margins(judged, grade),
        "fitness": grade.fitness.map(|fitness| json!([fitness.kept, fitness.most])),
        "time_us": grade.time,
        "reference_us": grade.reference,
        "allowed_us": u64::from(exercise.drill.limits.minutes) * 60_000_000,
    })
}

/// How near the rules with a limit came to it.
fn margins(judged: &Judged, grade: &Grade) -> Vec<Value> {
    let margins = grade.margins.iter().map(|margin| {
        let rule = judged.rules().list.get(margin.rule);
        json!({
            "at": margin.moment.at,
            "rule": rule.map(|rule| rule.name.as_str()),
            "spare": spare(margin.spare),
        })
    });
    margins.collect()
}

/// By how much a rule was kept, or missed if it is less than nought.
fn spare(spare: Spare) -> Value {
    match spare {
        Spare::Time(micros) => json!({ "us": micros }),
        Spare::Width(width) => json!({
            "um": width.spare().0,
            "read_um": width.read.0,
            "limit_um": width.limit.0,
            "least": width.least,
        }),
    }
}

/// What was so at a breach. Half-slots as two masks, infeed first; bit 0 is slot 1.
fn evidence(judged: &Judged, breach: &Breach) -> Value {
    let found: Evidence = breach.evidence(judged.world());
    let kinds = &judged.world().hall().kind_names;
    let from = |from: &Vantage| json!([stand_name(from.stand), aim_name(from.aim)]);
    let boards = found.boards.iter().map(|one| {
        json!({
            "board": kinds.get(usize::from(one.kind)),
            "place": place_text(one.place),
            "from": one.from.iter().map(from).collect::<Vec<_>>(),
            "looked": one.looked,
        })
    });
    let shown = found.shown_by.iter().map(|(vantage, halves)| {
        json!({ "from": from(vantage), "halves": [halves.infeed, halves.outfeed] })
    });
    let map = &breach.state.world.machine.map;
    json!({
        "boards": boards.collect::<Vec<_>>(),
        "believed": { "full": map.full, "unknown": map.unknown },
        "unlooked": [found.unlooked.infeed, found.unlooked.outfeed],
        "shown_by": shown.collect::<Vec<_>>(),
    })
}

fn traps(exercise: &Exercise, grade: &Grade) -> Vec<Value> {
    let traps = grade.sprung.iter().map(|(moment, number)| {
        let trap = exercise.drill.traps.get(*number);
        json!({ "at": moment.at, "trap": trap.map(|trap| trap.id.as_str()) })
    });
    traps.collect()
}

fn guesses(judged: &Judged, grade: &Grade) -> Vec<Value> {
    let guesses = grade.guesses.iter().map(|guess| {
        let (kind, after) = match guess.kind {
            GuessKind::AnsweredAtOnce(after) => ("answered at once", Some(after.0)),
            GuessKind::DeclaredUnlooked => ("declared unlooked", None),
        };
        json!({
            "at": guess.moment.at,
            "cause": guess.moment.cause,
            "did": intent_text(judged.world(), guess.intent),
            "kind": kind,
            "after_us": after,
        })
    });
    guesses.collect()
}

fn outturn(grade: &Grade) -> Value {
    let outturn = &grade.outturn;
    let [good, quarantine, scrap] = outturn.put_down;
    json!({
        "lost": outturn.lost,
        "left": outturn.left,
        "put_down": { "good": good, "quarantine": quarantine, "scrap": scrap },
        "untraced": outturn.untraced,
        "put_in": outturn.put_in,
        "line_stood_us": outturn.line_stood,
    })
}
