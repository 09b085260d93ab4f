//! The characters of a text, one after the other: blanks, comments, identifiers, numbers.

use crate::{Kind, Place, Report, SYNTAX_PROBLEMS_MOST, Value, ids, number};

/// A position in a text, and where to say what does not fit.
pub(crate) struct Scanner<'t> {
    pub(crate) report: Report<'t>,
    text: &'t str,
    at: usize,
    problems: usize,
    /// The rest is not read any more, and nothing more is said about it.
    over: bool,
}

impl<'t> Scanner<'t> {
    pub(crate) fn new(report: Report<'t>) -> Scanner<'t> {
        Scanner {
            report,
            text: report.source().text(),
            at: 0,
            problems: 0,
            over: false,
        }
    }

    pub(crate) fn at(&self) -> usize {
        self.at
    }

    pub(crate) fn rest(&self) -> &'t str {
        self.text.get(self.at..).unwrap_or("")
    }

    pub(crate) fn peek(&self) -> Option<char> {
        self.rest().chars().next()
    }

    /// Goes on behind the next character.
    pub(crate) fn advance(&mut self) -> Option<char> {
        let next = self.peek()?;
        self.at += next.len_utf8();
        Some(next)
    }

    pub(crate) fn eat(&mut self, wanted: char) -> bool {
        let found = self.peek() == Some(wanted);
        if found {
            self.at += wanted.len_utf8();
        }
        found
    }

    /// Goes on as long as characters fit, and gives them.
    pub(crate) fn take_while(&mut self, fits: impl Fn(char) -> bool) -> &'t str {
        let rest = self.rest();
        let taken = rest
            .find(|one: char| !fits(one))
            .map_or(rest, |end| &rest[..end]);
        self.at += taken.len();
        taken
    }

    /// Goes on so many bytes further. The caller has seen that a character ends there.
    pub(crate) fn jump(&mut self, bytes: usize) {
        self.at += bytes;
        assert!(
            self.text.is_char_boundary(self.at),
            "a jump ends between characters"
        );
    }

    /// The place from a byte up to here.
    pub(crate) fn since(&self, start: usize) -> Place {
        Place::new(start, self.at)
    }

    /// The place of the next character, or the empty one at the end.
    pub(crate) fn here(&self) -> Place {
        Place::new(self.at, self.at + self.peek().map_or(0, char::len_utf8))
    }

    /// Reads nothing more and says nothing more.
    pub(crate) fn give_up(&mut self) {
        self.at = self.text.len();
        self.over = true;
    }

    /// Adds a problem, unless the rest was given up. After too many, gives up.
    pub(crate) fn problem(&mut self, say: impl FnOnce(Report<'t>)) {
        if self.over {
            return;
        }
        self.problems += 1;
        if self.problems > SYNTAX_PROBLEMS_MOST {
            self.report.add(
                self.here(),
                ids::PROBLEM_TOO_MANY,
                &[("count", &SYNTAX_PROBLEMS_MOST)],
            );
            self.give_up();
        } else {
            say(self.report);
        }
    }

    /// Goes on behind blanks and comments.
    pub(crate) fn skip_blank(&mut self) {
        loop {
            self.take_while(char::is_whitespace);
            if self.rest().starts_with("//") {
                self.take_while(|one| one != '\n');
            } else if self.rest().starts_with("/*") {
                self.skip_block_comment();
            } else {
                return;
            }
        }
    }

    fn skip_block_comment(&mut self) {
        let start = self.at;
        let mut depth = 0_usize;
        loop {
            if self.rest().starts_with("/*") {
                depth += 1;
                self.at += 2;
            } else if self.rest().starts_with("*/") {
                depth -= 1;
                self.at += 2;
                if depth == 0 {
                    return;
                }
            } else if self.advance().is_none() {
                self.problem(|report| {
                    report
                        .add(
                            Place::new(start, start + 2),
                            ids::PROBLEM_COMMENT_NOT_CLOSED,
                            &[],
                        )
                        .expected(ids::EXPECTED_TOKEN, &[("token", &"*/")]);
                });
                return self.give_up();
            }
        }
    }

    /// The identifier that starts here, if one does.
    pub(crate) fn identifier(&mut self) -> Option<&'t str> {
        if !self
            .peek()
            .is_some_and(|first| first.is_ascii_alphabetic() || first == '_')
        {
            return None;
        }
        Some(self.take_while(|one| one.is_ascii_alphanumeric() || one == '_'))
    }

    /// The number that starts here. All that hangs together with it is taken, so that `1e3` and
    /// `0x10` are one problem each, not several.
    pub(crate) fn number(&mut self) -> Value {
        let start = self.at;
        self.take_while(|one| one == '+' || one == '-');
        loop {
            let part =
                self.take_while(|one| one.is_ascii_alphanumeric() || ['.', '_'].contains(&one));
            let exponent = part.ends_with(['e', 'E']) && self.peek().is_some_and(is_sign);
            if !exponent {
                break;
            }
            self.advance();
        }
        let place = self.since(start);
        let written = self.report.source().at(place);
        let kind = match number::parse(written) {
            Ok(number::Number::Integer(number)) => Kind::Integer(number),
            Ok(number::Number::Decimal(decimal)) => Kind::Decimal(decimal),
            Err(id) => {
                self.problem(|report| number_problem(report, place, id, written));
                Kind::Unreadable
            }
        };
        Value { place, kind }
    }
}

fn is_sign(one: char) -> bool {
    one == '+' || one == '-'
}

fn number_problem(report: Report<'_>, place: Place, id: &'static str, written: &str) {
    let added = report.add(place, id, &[("found", &shown(written))]);
    if id == ids::PROBLEM_NUMBER_LONG {
        let bounds: [(&str, &dyn std::fmt::Display); 3] = [
            ("least", &i64::MIN),
            ("most", &i64::MAX),
            ("decimals", &number::SCALE_MOST),
        ];
        added.expected(ids::EXPECTED_NUMBER_SHORT, &bounds);
    } else {
        added.expected(ids::EXPECTED_NUMBER, &[]);
    }
}

/// The most characters of a file's text that a message repeats.
const SHOWN_CHARACTERS_MOST: usize = 60;

/// A piece of a file as a message repeats it: short, on one line, without control characters.
pub(crate) fn shown(text: &str) -> String {
    let mut shown: String = text
        .chars()
        .take(SHOWN_CHARACTERS_MOST)
        .flat_map(|one| -> Vec<char> {
            if one.is_control() {
                one.escape_default().collect()
            } else {
                vec![one]
            }
        })
        .collect();
    if text.chars().nth(SHOWN_CHARACTERS_MOST).is_some() {
        shown.push('…');
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Problems;

    #[test]
    fn blanks_and_comments_are_skipped_and_nest() {
        let cases = [
            ("  \r\n\tx", "x"),
            ("// to the end\nx", "x"),
            ("/* a /* b */ c */x", "x"),
            ("// /* \nx", "x"),
            ("/ x", "/ x"),
            ("// no line break", ""),
        ];
        for (text, rest) in cases {
            let problems = Problems::new();
            let mut scanner = Scanner::new(problems.for_file("f", text));
            scanner.skip_blank();
            assert_eq!(scanner.rest(), rest, "{text}");
            assert!(problems.is_empty());
        }
    }

    #[test]
    fn a_repeated_piece_of_text_is_short_and_on_one_line() {
        assert_eq!(shown("a\n\u{7}ö"), "a\\n\\u{7}ö");
        assert_eq!(
            shown(&"ä".repeat(1000)).chars().count(),
            SHOWN_CHARACTERS_MOST + 1
        );
    }
}
