//! A question that several of its choices answer, or none of them.

use rackproof_words::Words;

use super::chosen;
use crate::machine::{questions::Question, says};

/// The list as a person reads it.
pub(super) fn now(value: &str, question: &Question, words: &Words) -> String {
    let choices = says::choices(words, question);
    let meaning = |item: &str| {
        let known = choices.iter().find(|(name, _)| name == item);
        known.map_or_else(|| item.to_owned(), |(_, meaning)| meaning.clone())
    };
    let items: Vec<String> = items(value).map(meaning).collect();
    if items.is_empty() {
        return words.say("ask-word-none", &[]);
    }
    items.join(", ")
}

/// The list that was typed, as it is written in the file: in the order of the choices. Else the
/// piece that is none of them.
pub(super) fn read(line: &str, question: &Question, words: &Words) -> Result<String, String> {
    let choices = says::choices(words, question);
    let mut taken = vec![false; choices.len()];
    // One choice may be typed in words, with blanks between them.
    let pieces: Vec<&str> = match chosen(line, question, words) {
        Some(_) => vec![line],
        None if line.to_lowercase() == words.say("ask-word-none", &[]) => Vec::new(),
        None => items(line).collect(),
    };
    for piece in pieces {
        let name = chosen(piece, question, words).ok_or_else(|| piece.to_owned())?;
        let at = choices.iter().position(|(known, _)| *known == name);
        taken[at.unwrap_or_default()] = true;
    }
    let names = choices.iter().zip(taken).filter(|(_, taken)| *taken);
    let names: Vec<&str> = names.map(|((name, _), _)| name.as_str()).collect();
    Ok(format!("[{}]", names.join(", ")))
}

fn items(list: &str) -> impl Iterator<Item = &str> {
    let pieces = list.split(|one: char| one.is_whitespace() || "[],".contains(one));
    pieces.filter(|piece| !piece.is_empty())
}
