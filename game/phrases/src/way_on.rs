//! A safe way on in words: in practice as far as it can be known, in the debrief with the truth
//! known.

use rackproof_attempt::{Attempt, Exercise, NoWayOn, Shortest, WayOn, WhatIf};
use rackproof_drill::{Cause, Intent, message::of_intent};
use rackproof_grade::{Grade, Verdict};
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

/// Shorter words than this, in bytes, carry no more than grammar.
const CARRIES: usize = 5;

/// Whether the doing says something that the step has not said: a word that the step is without.
fn adds(step: &str, doing: &str) -> bool {
    let words = |text: &str| -> Vec<String> {
        text.split(|letter: char| !letter.is_alphanumeric())
            .filter(|word| word.len() >= CARRIES || word.chars().any(char::is_numeric))
            .map(str::to_lowercase)
            .collect()
    };
    let said = words(step);
    words(doing).iter().any(|word| !said.contains(word))
}

fn step_name(words: &Words, step: &str) -> String {
    named(words, &format!("step-{step}"), step)
}

/// Tells what [`rackproof_attempt::way_on`] answered at this moment of an attempt.
pub fn way_on_told(
    words: &Words,
    attempt: &Attempt,
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
    let (world, state) = (attempt.world(), attempt.state().world);
    let steps = on.steps.iter().map(|step| {
        // What a doing is called depends on where it is done.
        let mut there = state;
        there.person.stand = step.stand;
        let why = format!("step-{}-why", step.step);
        let said = step_name(words, &step.step);
        let how = match step.intent {
            Some(intent) => text(words, &of_intent(world, &there, intent)),
            None => words.say("way-on-wait", &[]),
        };
        DoneTold {
            at: step.after,
            why: if words.has(&why) {
                words.say(&why, &[])
            } else {
                String::new()
            },
            how: if adds(&said, &how) {
                how
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
        // What a doing is called depends on where it is done.
        let mut there = world.start();
        let before = &other.attempt.done()[..other.same];
        let mut stands = before.iter().rev().filter_map(|done| match done.cause {
            Cause::Did(Intent::Walk(to)) => Some(to),
            _ => None,
        });
        there.person.stand = stands.next().unwrap_or(there.person.stand);
        let steps: Vec<DoneTold> = other
            .instead()
            .iter()
            .filter_map(|done| match done.cause {
                Cause::Did(Intent::Walk(to)) => {
                    there.person.stand = to;
                    None
                }
                Cause::Chose(_) => None,
                Cause::Did(intent) => Some(DoneTold {
                    at: done.at,
                    said: text(words, &of_intent(world, &there, intent)),
                    why: String::new(),
                    how: String::new(),
                }),
            })
            .collect();
        let broken_before = earlier
            .breaches
            .iter()
            .any(|breach| breach.moment.at <= other.from.at);
        let ends = match other.grade.verdict {
            Verdict::Passed => "ways-passes",
            _ if broken_before => "ways-safe-not-passed",
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

#[cfg(test)]
mod tests {
    use super::adds;

    #[test]
    fn a_doing_is_told_only_if_it_says_more_than_its_step() {
        let cases = [
            ("Open the hatch.", "Open the hatch", false),
            ("Test your shoe straps.", "Test my shoe straps", false),
            ("Set the prop under the lift.", "Prop the lift", false),
            (
                "Lean to the infeed side.",
                "Lean to the infeed side and look into every slot",
                true,
            ),
            ("Take the board out.", "Take board 2 out of slot 9", true),
            ("Wait until it rests.", "Walk to the panel", true),
        ];
        for (step, doing, expected) in cases {
            assert_eq!(adds(step, doing), expected, "{step} / {doing}");
        }
    }
}
