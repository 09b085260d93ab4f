//! Messages of the core and problems of files as text.

use rackproof_drill::message::{Argument, Message};
use rackproof_files::{Problem, render_plain, render_snippet};
use rackproof_words::{Arg, Words};

/// The text of a message of the core.
pub(crate) fn text(words: &Words, message: &Message) -> String {
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
pub(crate) fn named(words: &Words, id: &str, name: &str) -> String {
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
pub(crate) fn problem_drawn(words: &Words, problem: &Problem) -> String {
    render_snippet(problem, &|id, arguments| say(words, id, arguments), false)
}

/// A problem on one line.
pub(crate) fn problem_line(words: &Words, problem: &Problem) -> String {
    render_plain(problem, &|id, arguments| say(words, id, arguments))
}

/// A problem for a program.
pub(crate) fn problem_json(words: &Words, problem: &Problem) -> serde_json::Value {
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

/// Text in lines of at most 80 columns: the first begins with `label`, the others with as many
/// blanks as stand in front of the first's text, `from` at least. A line that is a command of this
/// program stays whole, so that it can be copied.
pub(crate) fn wrapped(label: &str, from: usize, text: &str) -> String {
    const COLUMNS: usize = 80;
    const COMMAND: &str = "rackproof ";
    let indent = from.max(label.chars().count() + usize::from(!label.is_empty()));
    let mut out = format!("{label:indent$}");
    let mut column = indent;
    for (number, line) in text.lines().enumerate() {
        if number > 0 {
            out.push_str(&format!("\n{:indent$}", ""));
            column = indent;
        }
        if line.trim_start().starts_with(COMMAND) {
            out.push_str(line.trim());
            continue;
        }
        for word in line.split_whitespace() {
            let length = word.chars().count();
            if column > indent && column + 1 + length > COLUMNS {
                out.push_str(&format!("\n{:indent$}", ""));
                column = indent;
            }
            if column > indent {
                out.push(' ');
                column += 1;
            }
            out.push_str(word);
            column += length;
        }
    }
    out.push('\n');
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_broken_between_words() {
        let long = "word ".repeat(30);
        let command = format!("rackproof {}", long.trim_end());
        let cases = [
            (
                "Told",
                9,
                "All looks are void.",
                "Told     All looks are void.\n".to_owned(),
            ),
            ("", 0, "one\ntwo", "one\ntwo\n".to_owned()),
            ("", 0, command.as_str(), format!("{command}\n")),
            ("Outfeed belt", 9, "free", "Outfeed belt free\n".to_owned()),
            (
                "A",
                2,
                long.as_str(),
                format!(
                    "A {}\n  {}\n",
                    ["word"; 15].join(" "),
                    ["word"; 15].join(" ")
                ),
            ),
        ];
        for (label, from, text, expected) in cases {
            assert_eq!(wrapped(label, from, text), expected);
        }
    }
}
