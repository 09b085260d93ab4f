//! The checks: functions over plain data that return complaints. Each is seen to fail below.

use std::collections::BTreeSet;

use rackproof_drill::message::{Argument, Message};
use rackproof_words::{Arg, Words};

/// Words that no text has. A text does not beg, apologise or blame.
const BANNED: &[&str] = &[
    "please", "oops", "sorry", "invalid", "illegal", "blame", "fault",
];

/// Messages without a text, or whose text names other values than they bring.
pub(crate) fn wrong_messages(words: &Words, said: &[Message]) -> Vec<String> {
    let mut complaints = BTreeSet::new();
    for message in said {
        let id = message.id;
        if !words.has(id) {
            complaints.insert(format!("{id}: no text"));
            continue;
        }
        let mut given: Vec<&str> = message.arguments.iter().map(|(name, _)| *name).collect();
        given.sort_unstable();
        let named = words.arguments_of(id);
        if named != given {
            complaints.insert(format!(
                "{id}: the text names {named:?}, given are {given:?}"
            ));
        }
        let text = text_of(words, message);
        if text.trim().is_empty() {
            complaints.insert(format!("{id}: an empty text"));
        }
    }
    complaints.into_iter().collect()
}

/// A message as it is shown.
pub(crate) fn text_of(words: &Words, message: &Message) -> String {
    let arguments: Vec<(&str, Arg<'_>)> = message
        .arguments
        .iter()
        .map(|(name, argument)| (*name, arg(words, argument)))
        .collect();
    words.say(message.id, &arguments)
}

fn arg(words: &Words, argument: &Argument) -> Arg<'static> {
    match argument {
        Argument::Number(number) => Arg::Number(*number),
        Argument::Length(length) => Arg::Micrometres(length.0),
        Argument::Time(time) => Arg::Micros(u64::from(time.0)),
        Argument::Name(name) => Arg::from(name.clone()),
        Argument::Id(id) => Arg::from(words.say(id, &[])),
        Argument::Message(message) => Arg::from(text_of(words, message)),
    }
}

/// Ids without a text.
pub(crate) fn missing(words: &Words, ids: &[String]) -> Vec<String> {
    let mut missing: Vec<String> = ids.iter().filter(|id| !words.has(id)).cloned().collect();
    missing.sort();
    missing.dedup();
    missing
}

/// Texts that nobody says.
pub(crate) fn unused<'w>(ids: &[&'w str], used: &BTreeSet<String>) -> Vec<&'w str> {
    ids.iter()
        .copied()
        .filter(|id| !used.contains(*id))
        .collect()
}

/// Words that are not ours, and exclamation marks, in the text of a locale file.
pub(crate) fn banned_words(name: &str, text: &str) -> Vec<String> {
    let mut complaints = Vec::new();
    for (index, line) in text.lines().enumerate() {
        if line.starts_with('#') {
            continue;
        }
        let lower = line.to_lowercase();
        let has = |word: &&&str| {
            lower
                .split(|c: char| !c.is_alphabetic())
                .any(|w| w == **word)
        };
        let found = BANNED.iter().filter(has).copied();
        let mark = line.contains('!').then_some("!");
        complaints.extend(
            found
                .chain(mark)
                .map(|word| format!("{name}:{}: {word}", index + 1)),
        );
    }
    complaints
}

#[test]
fn a_message_without_text_or_with_other_values_is_found() {
    let words = Words::english();
    let slot = || ("slot", Argument::Number(3));
    let answer = ("answer", Argument::Id("answer-taken"));
    let said = |id, arguments| Message { id, arguments };
    let right = said("sign-answered", vec![slot(), answer]);
    assert_eq!(wrong_messages(&words, &[right]), [""; 0]);
    let wrong = [
        said("no-such-message", Vec::new()),
        said("sign-answered", vec![slot()]),
        said("intent-start", vec![slot()]),
    ];
    let expected = [
        "intent-start: the text names [], given are [\"slot\"]",
        "no-such-message: no text",
        "sign-answered: the text names [\"answer\", \"slot\"], given are [\"slot\"]",
    ];
    assert_eq!(wrong_messages(&words, &wrong), expected);
    assert!(!words.faults().is_empty());
}

#[test]
fn a_missing_and_an_unused_text_are_found() {
    let ids = ["step-wait", "step-dance"].map(String::from);
    assert_eq!(missing(&Words::english(), &ids), ["step-dance"]);
    let used = BTreeSet::from([String::from("step-wait")]);
    assert_eq!(unused(&["step-dance", "step-wait"], &used), ["step-dance"]);
}

#[test]
fn a_banned_word_is_found() {
    let text = "# Oops!\na = Go on.\nb = Please look.\nc = Done!\nd = An invalidated look, Oops\n";
    let expected = ["a.ftl:3: please", "a.ftl:4: !", "a.ftl:5: oops"];
    assert_eq!(banned_words("a.ftl", text), expected);
}
