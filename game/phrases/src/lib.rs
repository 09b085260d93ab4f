//! Messages of the core, problems of files, and grades as text.

mod findings;
mod margins;
mod proofs;
#[cfg(test)]
mod sample;
mod site;
mod task_sheet;
mod way_on;

use rackproof_drill::message::{Argument, Message};
use rackproof_files::{Problem, render_plain, render_snippet};
use rackproof_words::{Arg, Words};

pub use findings::{
    BreachTold, EvidenceTold, Finding, Findings, GuessTold, HarmTold, Questions, RightTold,
    StepTold, Told, severity_id,
};
pub use margins::margin_line;
pub use task_sheet::{Criterion, CriticalStep, TaskSheet};

pub use proofs::{claim_name, claim_said, exam_closed, proof_told};
pub use site::{check_site_words, site_words, words_of};
pub use way_on::{DoneTold, OtherTold, WayOnTold, WaysTold, way_on_told};

/// The text of a message of the core.
pub fn text(words: &Words, message: &Message) -> String {
    let value = |argument: &Argument| match argument {
        Argument::Number(number) => Arg::Number(*number),
        Argument::Length(length) => Arg::Micrometres(length.0),
        Argument::Time(time) => Arg::Micros(u64::from(time.0)),
        Argument::Name(name) => Arg::from(name.clone()),
        Argument::Id(id) => Arg::from(words.say(id, &[])),
        Argument::Message(message) => Arg::from(text(words, message)),
    };
    let arguments: Vec<(&str, Arg<'_>)> = message
        .arguments
        .iter()
        .map(|(name, argument)| (*name, value(argument)))
        .collect();
    words.say(message.id, &arguments)
}

/// The text under an id that is made from a name, or the name itself if nobody wrote one.
pub fn named(words: &Words, id: &str, name: &str) -> String {
    if words.has(id) {
        words.say(id, &[])
    } else {
        name.to_owned()
    }
}

fn say(words: &Words, id: &str, arguments: &[(&'static str, String)]) -> String {
    let arguments: Vec<(&str, Arg<'_>)> = arguments
        .iter()
        .map(|(name, value)| (*name, Arg::from(value.as_str())))
        .collect();
    words.say(id, &arguments)
}

/// A problem with its line of the file.
pub fn problem_drawn(words: &Words, problem: &Problem) -> String {
    render_snippet(problem, &|id, arguments| say(words, id, arguments), false)
}

/// A problem on one line.
pub fn problem_line(words: &Words, problem: &Problem) -> String {
    render_plain(problem, &|id, arguments| say(words, id, arguments))
}

/// A problem for a program.
pub fn problem_json(words: &Words, problem: &Problem) -> serde_json::Value {
    let told = |message: &rackproof_files::Message| say(words, message.id, &message.arguments);
    serde_json::json!({
        "file": problem.file,
        "line": problem.line,
        "column": problem.column,
        "id": problem.found.id,
        "found": told(&problem.found),
        "expected": problem.expected.as_ref().map(told),
        "hint": problem.hint.as_ref().map(told),
    })
}
