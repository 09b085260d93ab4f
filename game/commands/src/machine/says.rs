//! What is said of one question: what it is, what may stand there, how to measure it, why it
//! counts.
//!
//! Texts are found by the fields on the way, from the whole way to the last field alone: one text
//! serves all three axes. What has no text of its own is told by its bound and its unit.

use rackproof_files::{NAME_CHARACTERS_MOST, What};
use rackproof_phrases::named;
use rackproof_words::{Arg, Words};

use super::questions::Question;
use crate::figure::range_told;

/// What it is.
pub(super) fn what(words: &Words, question: &Question) -> String {
    let head = ["ask-what", "ask-has"][usize::from(question.is_part())];
    if let Some(id) = own_id(words, head, question) {
        return words.say(&id, &[]);
    }
    match &question.what {
        What::Number(bound) | What::Items(bound) => bound.words.to_owned(),
        What::Part(_) => words.say("ask-has-any", &[("part", section(words, question).into())]),
        _ => question.shown(),
    }
}

/// What may stand there.
pub(super) fn range(words: &Words, what: &What) -> String {
    match what {
        What::Number(bound) | What::Items(bound) => range_told(words, bound),
        What::Name => {
            let most = i64::try_from(NAME_CHARACTERS_MOST).unwrap_or(i64::MAX);
            words.say("ask-range-name", &[("most", Arg::Number(most))])
        }
        What::Choice(_) | What::OneOf(_) | What::Flag | What::Part(_) => {
            words.say("ask-range-choice", &[])
        }
        What::Several(_) => words.say("ask-range-several", &[]),
    }
}

/// How to find it out at the real machine.
pub(super) fn measure(words: &Words, question: &Question) -> String {
    let head = ["ask-measure", "ask-measure-has"][usize::from(question.is_part())];
    if let Some(id) = own_id(words, head, question) {
        return words.say(&id, &[]);
    }
    let id = match &question.what {
        What::Number(bound) => match bound.unit {
            "mm" => "ask-measure-any-length",
            "s" => "ask-measure-any-time",
            _ => "ask-measure-any",
        },
        _ => "ask-measure-any-choice",
    };
    words.say(id, &[])
}

/// What it does in a drill.
pub(super) fn why(words: &Words, question: &Question) -> String {
    let part = format!("ask-why-{}", question.section().replace('_', "-"));
    let id = own_id(words, "ask-why", question).or_else(|| words.has(&part).then_some(part));
    words.say(id.as_deref().unwrap_or("ask-why-any"), &[])
}

/// The heading of the question's part of the file.
pub(super) fn section(words: &Words, question: &Question) -> String {
    let name = question.section();
    named(words, &format!("ask-part-{}", name.replace('_', "-")), name)
}

/// What can be chosen: as it stands in the file, and what it means.
pub(super) fn choices(words: &Words, question: &Question) -> Vec<(String, String)> {
    let names: Vec<&str> = match &question.what {
        What::OneOf(names) => {
            let quoted = |name: &String| (format!("{name:?}"), name.clone());
            return names.iter().map(quoted).collect();
        }
        What::Number(_) | What::Items(_) | What::Name => Vec::new(),
        What::Choice(names) | What::Several(names) => names.clone(),
        What::Flag | What::Part(_) => vec!["true", "false"],
    };
    let field = question.fields().pop().unwrap_or_default();
    let meaning = |name: &str| {
        let name = bare(name);
        let id = format!("ask-choice-{field}-{}", kebab(name));
        match name {
            "true" if question.is_part() => words.say("ask-choice-yes", &[]),
            "false" if question.is_part() => words.say("ask-choice-no", &[]),
            "true" if !words.has(&id) => words.say("ask-choice-yes", &[]),
            "false" if !words.has(&id) => words.say("ask-choice-no", &[]),
            _ => named(words, &id, name),
        }
    };
    names
        .into_iter()
        .map(|name| (name.to_owned(), meaning(name)))
        .collect()
}

/// The name of a choice alone, without the fields that are written behind it.
pub(super) fn bare(written: &str) -> &str {
    written.split('(').next().unwrap_or(written).trim_end()
}

/// The id of a text of the question's own: for the whole way, else for its last fields.
fn own_id(words: &Words, head: &str, question: &Question) -> Option<String> {
    let fields = question.fields();
    (0..fields.len())
        .map(|from| format!("{head}-{}", fields[from..].join("-")))
        .find(|id| words.has(id))
}

/// `FromThereUp` as ids have it: `from-there-up`.
fn kebab(name: &str) -> String {
    let mut out = String::new();
    for letter in name.chars() {
        if letter.is_uppercase() && !out.is_empty() {
            out.push('-');
        }
        out.extend(letter.to_lowercase());
    }
    out
}

#[cfg(test)]
mod outside_tests;
#[cfg(test)]
mod says_tests;
