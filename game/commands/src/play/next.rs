//! The next step, in words.

use rackproof_attempt::{Ahead, Attempt};
use rackproof_drill::message::of_intent;
use rackproof_phrases::{named, text};
use rackproof_words::Words;

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
        None => words.say("play-now-wait", &[]),
    };
    [("play-next", step), ("play-why", why), ("play-now", now)]
}
