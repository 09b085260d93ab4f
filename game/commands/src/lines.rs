//! Text in the lines of a terminal.

use std::io::{self, Write};

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

/// Writes text in lines of at most 80 columns, from the first one on.
pub(crate) fn paragraph(out: &mut dyn Write, text: &str) -> io::Result<()> {
    write!(out, "{}", wrapped("", 0, text))
}

/// Text of a file on one line, without what would move a terminal.
pub(crate) fn on_one_line(text: &str) -> String {
    let shown = |one: char| if one.is_control() { '\u{fffd}' } else { one };
    text.chars().map(shown).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_would_move_a_terminal_is_shown() {
        assert_eq!(
            on_one_line("a\n\u{1b}[2J\té“"),
            "a\u{fffd}\u{fffd}[2J\u{fffd}é“"
        );
    }

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
