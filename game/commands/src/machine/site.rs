//! All words that a site may put its own in place of, in the form in which a machine file has them.

use std::io;

use rackproof_words::{Arg, Words};

use crate::{Answer, Exit};

/// Writes the list: each id with our text, and how long a text in its place may be.
pub(super) fn list(out: &mut dyn io::Write, words: &Words) -> Answer {
    let head = words.say("ask-site-head", &[]);
    for line in head.lines() {
        writeln!(out, "// {line}")?;
    }
    writeln!(out, "words: {{")?;
    for id in words.renameable() {
        let most = Arg::Number(i64::try_from(words.room(id)).unwrap_or(i64::MAX));
        let most = words.say("ask-site-most", &[("most", most)]);
        writeln!(out, "    {id:?}: {:?}, // {most}", words.as_written(id))?;
    }
    writeln!(out, "}},")?;
    Ok(Exit::Done)
}
