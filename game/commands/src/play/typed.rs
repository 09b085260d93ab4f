//! Lines that are typed.

use std::io::{self, BufRead};

use super::Ways;

/// What was typed, as it can be shown: no control characters, and not longer than a line.
pub(crate) fn readable(typed: &str) -> String {
    const MOST: usize = 40;
    let shown = typed.chars().filter(|it| !it.is_control());
    shown.take(MOST).collect()
}

/// Asks for one more line. `None` at the end of the input.
pub(super) fn ask(
    question: &str,
    input: &mut dyn BufRead,
    ways: &mut Ways<'_>,
) -> io::Result<Option<String>> {
    write!(ways.out, "{question} ")?;
    ways.out.flush()?;
    let line = read_line(input)?;
    writeln!(ways.out)?;
    Ok(line.map(|line| line.trim().to_owned()))
}

/// One line, or `None` at the end of the input. What is no text is read as well as it can be.
pub(crate) fn read_line(input: &mut dyn BufRead) -> io::Result<Option<String>> {
    let mut bytes = Vec::new();
    let count = input.read_until(b'\n', &mut bytes)?;
    Ok((count > 0).then(|| String::from_utf8_lossy(&bytes).into_owned()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_typed_is_shown_without_control_characters() {
        let long = "x".repeat(100);
        let cases = [
            ("\u{1b}[A", "[A"),
            ("5\0 i", "5 i"),
            ("ü", "ü"),
            (&long, &long[..40]),
        ];
        for (typed, expected) in cases {
            assert_eq!(readable(typed), expected);
        }
    }
}
