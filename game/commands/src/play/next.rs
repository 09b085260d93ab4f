//! The next step, and a safe way on, in words.

use rackproof_attempt::{Ahead, Attempt};
use rackproof_drill::message::of_intent;
use rackproof_model::Micros;
use rackproof_phrases::{WayOnTold, named, text};
use rackproof_words::{Arg, Words};

use super::screen::INDENT;
use crate::lines::wrapped;

/// A safe way on: what it is, its steps with their times from now on, and what comes after.
pub(super) fn way_on_rows(told: &WayOnTold) -> String {
    let mut out = String::new();
    for said in &told.head {
        out.push_str(&wrapped("", 0, said));
    }
    for step in &told.steps {
        let label = format!("{:>6}", Arg::Clock(step.at));
        let said = match step.how.as_str() {
            "" => step.said.clone(),
            how => format!("{} ({how})", step.said),
        };
        out.push_str(&wrapped(&label, INDENT, &said));
        if !step.why.is_empty() {
            out.push_str(&wrapped("", INDENT, &step.why));
        }
    }
    for said in &told.tail {
        out.push_str(&wrapped("", 0, said));
    }
    out
}

/// Whether something moves or a button is held: what `r` waits for. Where all rests, only `w` lets
/// time pass.
pub(super) fn acts(attempt: &Attempt) -> bool {
    let machine = &attempt.state().world.machine;
    machine.moves() || machine.hold_left() > Micros(0)
}

/// What to do next, why, and what that is in the list: labels and texts.
pub(super) fn rows_of(
    ahead: &Ahead,
    attempt: &Attempt,
    words: &Words,
) -> [(&'static str, String); 3] {
    let step = named(words, &format!("step-{}", ahead.step), &ahead.step);
    let why = format!("step-{}-why", ahead.step);
    let why = if words.has(&why) {
        words.say(&why, &[])
    } else {
        String::new()
    };
    let state = &attempt.state().world;
    let now = match ahead.intent {
        Some(intent) => text(words, &of_intent(attempt.world(), state, intent)),
        None if acts(attempt) => words.say("play-now-rest", &[]),
        None => words.say("play-now-wait", &[]),
    };
    [("play-next", step), ("play-why", why), ("play-now", now)]
}
