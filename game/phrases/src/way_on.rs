//! A safe way on in words: in practice as far as it can be known, in the debrief with the truth
//! known.

use std::collections::BTreeSet;

use rackproof_attempt::{Exercise, History, NoWayOn, Shortest, WayOn, WhatIf};
use rackproof_drill::{
    Cause, Intent,
    message::{Message, of_intent},
};
use rackproof_grade::{Grade, Severity, Verdict};
use rackproof_words::{Arg, Words};

use crate::{named, text};

/// One thing that is done on a way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DoneTold {
    /// When, in µs: from now on, or since the start of the attempt.
    pub at: u64,
    /// What, as the procedure says it, or the doing itself.
    pub said: String,
    /// Why. Empty if nobody wrote it down.
    pub why: String,
    /// How: the doing itself. Empty if that was said already.
    pub how: String,
}

/// A safe way on in practice, or that there is none.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WayOnTold {
    /// What this is, and by what: before the steps.
    pub head: Vec<String>,
    /// The steps. None if there is no way on.
    pub steps: Vec<DoneTold>,
    /// What comes after the steps, and how long it takes.
    pub tail: Vec<String>,
}

fn count(number: usize) -> Arg<'static> {
    Arg::Number(i64::try_from(number).unwrap_or(i64::MAX))
}

/// The words of a text that carry its meaning, in small letters. Which words carry none is a
/// question of the language: its file lists them.
fn carrying(words: &Words, text: &str) -> BTreeSet<String> {
    let split = |text: &str| -> BTreeSet<String> {
        let parts = text.split(|letter: char| !letter.is_alphanumeric());
        let parts = parts.filter(|part| !part.is_empty());
        parts.map(str::to_lowercase).collect()
    };
    let small = split(&words.say("way-on-small-words", &[]));
    split(text).difference(&small).cloned().collect()
}

/// Whether a doing, read beside its step, says something that the step has not said: with a value
/// it always does, else if its words are not the same.
fn adds(words: &Words, step: &str, doing: &Message) -> bool {
    let said = || text(words, doing);
    !doing.arguments.is_empty() || carrying(words, step) != carrying(words, &said())
}

fn step_name(words: &Words, step: &str) -> String {
    named(words, &format!("step-{step}"), step)
}

/// Tells what [`rackproof_attempt::way_on`] answered at this moment of an attempt.
pub fn way_on_told(
    words: &Words,
    exercise: &Exercise,
    answer: &Result<WayOn, NoWayOn>,
) -> WayOnTold {
    let noted = words.say("way-on-noted", &[]);
    let on = match answer {
        Ok(on) => on,
        Err(none) => {
            let head = vec![no_way(words, none)];
            let (steps, tail) = (Vec::new(), vec![noted]);
            return WayOnTold { head, steps, tail };
        }
    };
    let mut head = vec![words.say("way-on-head", &[])];
    if !on.may_pass {
        head.push(words.say("way-on-cannot-pass", &[]));
    }
    let way = exercise.procedure.ways.get(on.way);
    let way = way.map(|way| named(words, &format!("way-{way}"), way));
    head.extend(way.map(|way| words.say("way-on-way", &[("way", Arg::from(way))])));
    let steps = on.steps.iter().map(|step| {
        let why = format!("step-{}-why", step.step);
        let said = step_name(words, &step.step);
        let wait = || Message::plain("way-on-wait");
        let how = step.message.clone().unwrap_or_else(wait);
        DoneTold {
            at: step.after,
            why: if words.has(&why) {
                words.say(&why, &[])
            } else {
                String::new()
            },
            how: if adds(words, &said, &how) {
                text(words, &how)
            } else {
                String::new()
            },
            said,
        }
    });
    let after = if on.ends {
        "way-on-ends"
    } else {
        "way-on-then-ask"
    };
    let (least, most) = on.to_end;
    let times = [("least", Arg::Clock(least)), ("most", Arg::Clock(most))];
    let time = if least == most {
        "way-on-to-end"
    } else {
        "way-on-to-end-between"
    };
    WayOnTold {
        head,
        steps: steps.collect(),
        tail: vec![words.say(after, &[]), words.say(time, &times), noted],
    }
}

fn no_way(words: &Words, none: &NoWayOn) -> String {
    match none {
        NoWayOn::Over => words.say("way-on-over", &[]),
        NoWayOn::NoStep(None) => words.say("way-on-no-step", &[]),
        NoWayOn::NoStep(Some(step)) => {
            let step = ("step", Arg::from(step_name(words, step)));
            words.say("way-on-stuck", &[step])
        }
        NoWayOn::Open => words.say("way-on-open", &[]),
        NoWayOn::Breaks => words.say("way-on-breaks", &[]),
    }
}

/// One way on in the debrief.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OtherTold {
    /// Whose way it is, or why there is none.
    pub head: String,
    /// How it ends. `None` if there is no way.
    pub ends: Option<String>,
    /// What is done on it, with the time since the start of the attempt.
    pub steps: Vec<DoneTold>,
}

/// Both ways on from a moment, in the debrief.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WaysTold {
    /// The moment, in µs since the start.
    pub at: u64,
    /// The guide's, by what could be known.
    pub guide: OtherTold,
    /// The shortest, with the truth known. `None` while it is searched.
    pub shortest: Option<OtherTold>,
}

impl OtherTold {
    /// The guide's way on from a moment.
    pub fn of_guide(words: &Words, other: Option<&WhatIf>, earlier: &Grade) -> OtherTold {
        match other {
            Some(other) => {
                let head = words.say("ways-guide", &[("time", Arg::Clock(other.from.at))]);
                OtherTold::of(words, head, other, earlier)
            }
            None => OtherTold::none(words.say("ways-guide-none", &[])),
        }
    }

    /// The shortest way on, or why there is none.
    pub fn of_shortest(words: &Words, found: &Shortest, earlier: &Grade) -> OtherTold {
        let say = |id: &str, states: usize| words.say(id, &[("states", count(states))]);
        match found {
            Shortest::Found(other, states) => {
                let head = [
                    ("time", Arg::Clock(other.from.at)),
                    ("states", count(*states)),
                ];
                OtherTold::of(words, words.say("ways-shortest", &head), other, earlier)
            }
            Shortest::None(states) => OtherTold::none(say("ways-shortest-none", *states)),
            Shortest::Bound(states) => OtherTold::none(say("ways-shortest-bound", *states)),
            Shortest::Strayed(states) => OtherTold::none(say("ways-shortest-strayed", *states)),
            Shortest::BrokenOff(states) => {
                OtherTold::none(say("ways-shortest-broken-off", *states))
            }
        }
    }

    fn none(head: String) -> OtherTold {
        OtherTold {
            head,
            ends: None,
            steps: Vec::new(),
        }
    }

    fn of(words: &Words, head: String, other: &WhatIf, earlier: &Grade) -> OtherTold {
        let world = other.attempt.world();
        // What a doing is called depends on the state in which it is done.
        let history = History::of(&other.attempt);
        let doings = (other.same..).zip(other.instead());
        let steps: Vec<DoneTold> = doings
            .filter_map(|(number, done)| {
                let intent = match done.cause {
                    Cause::Did(Intent::Walk(_)) | Cause::Chose(_) => return None,
                    Cause::Did(intent) => intent,
                };
                let there = &history.before_doing(number)?.world;
                Some(DoneTold {
                    at: done.at,
                    said: text(words, &of_intent(world, there, intent)),
                    why: String::new(),
                    how: String::new(),
                })
            })
            .collect();
        let ends = match other.grade.verdict {
            Verdict::Passed => "ways-passes",
            _ if ends_safely(other, earlier) => "ways-safe-not-passed",
            _ => "ways-not-passed",
        };
        let figures = [
            ("steps", count(steps.len())),
            ("takes", Arg::Clock(other.attempt.at() - other.from.at)),
            ("whole", Arg::Clock(other.attempt.at())),
        ];
        OtherTold {
            head,
            ends: Some(words.say(ends, &figures)),
            steps,
        }
    }
}

/// Whether another way comes to a good end, and only what was broken before it keeps it from
/// passing. `earlier` is the grade of the attempt that it leaves.
fn ends_safely(other: &WhatIf, earlier: &Grade) -> bool {
    let rules = &other.attempt.judged().rules().list;
    let was_broken = earlier
        .breaches
        .iter()
        .any(|one| other.is_common(one.moment));
    let mut breaches = other.grade.breaches.iter();
    let keeps = breaches
        .all(|one| other.is_common(one.moment) || rules[one.rule].severity == Severity::Minor);
    let harmless = other
        .grade
        .harms
        .iter()
        .all(|(moment, _)| other.is_common(*moment));
    let reached = other.grade.reported && other.grade.unfinished.is_empty();
    was_broken && keeps && harmless && reached
}

#[cfg(test)]
#[path = "way_on_tests.rs"]
mod tests;
