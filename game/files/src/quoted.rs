//! Texts in quotes.

use crate::{
    Kind, Place, Value, ids,
    scan::{Scanner, shown},
};

impl Scanner<'_> {
    /// The text whose opening quote is next. A wrong escape is reported and left away.
    pub(crate) fn quoted(&mut self) -> Value {
        let start = self.at();
        self.advance();
        let mut text = String::new();
        loop {
            let before = self.at();
            match self.advance() {
                None => return self.not_closed(Place::new(start, start + 1), "\""),
                Some('"') => break,
                Some('\\') => match self.escape() {
                    Some(one) => text.push(one),
                    None => self.wrong_escape(before),
                },
                Some(one) => text.push(one),
            }
        }
        Value {
            place: self.since(start),
            kind: Kind::Text(text),
        }
    }

    /// Whether a raw text starts here: `r"` or `r#`.
    pub(crate) fn is_raw_quoted(&self) -> bool {
        self.rest().starts_with("r\"") || self.rest().starts_with("r#")
    }

    /// The raw text that starts here, whose end has as many `#` as its start.
    pub(crate) fn raw_quoted(&mut self) -> Value {
        let start = self.at();
        self.advance();
        let closing = format!("\"{}", self.take_while(|one| one == '#'));
        let opening = self.since(start);
        if !self.eat('"') {
            let here = self.here();
            self.problem(|report| {
                report
                    .add(
                        here,
                        ids::PROBLEM_UNEXPECTED,
                        &[("found", &report.source().at(here))],
                    )
                    .expected(ids::EXPECTED_TOKEN, &[("token", &'"')]);
            });
            return Value {
                place: opening,
                kind: Kind::Unreadable,
            };
        }
        let Some(length) = self.rest().find(&closing) else {
            return self.not_closed(opening, &closing);
        };
        let text = self.rest().get(..length).unwrap_or("").to_owned();
        self.jump(length + closing.len());
        Value {
            place: self.since(start),
            kind: Kind::Text(text),
        }
    }

    /// What follows a backslash. `None` if it means nothing; then it is taken all the same.
    fn escape(&mut self) -> Option<char> {
        match self.advance()? {
            'n' => Some('\n'),
            'r' => Some('\r'),
            't' => Some('\t'),
            '0' => Some('\0'),
            same @ ('\\' | '"' | '\'') => Some(same),
            'x' => {
                let digits = self
                    .rest()
                    .get(..2)
                    .filter(|two| two.chars().all(is_hexadecimal))?;
                self.jump(2);
                u8::from_str_radix(digits, 16).ok().map(char::from)
            }
            'u' if self.eat('{') => {
                let digits = self.take_while(is_hexadecimal);
                let closed = self.eat('}');
                u32::from_str_radix(digits, 16)
                    .ok()
                    .filter(|_| closed)
                    .and_then(char::from_u32)
            }
            _ => None,
        }
    }

    fn wrong_escape(&mut self, start: usize) {
        // At the end of the text the missing quote is the one problem worth a word.
        if self.peek().is_none() {
            return;
        }
        let place = self.since(start);
        self.problem(|report| {
            report
                .add(
                    place,
                    ids::PROBLEM_ESCAPE,
                    &[("found", &shown(report.source().at(place)))],
                )
                .expected(ids::EXPECTED_ESCAPE, &[]);
        });
    }

    fn not_closed(&mut self, opening: Place, closing: &str) -> Value {
        self.problem(|report| {
            report
                .add(opening, ids::PROBLEM_TEXT_NOT_CLOSED, &[])
                .expected(ids::EXPECTED_TOKEN, &[("token", &closing)]);
        });
        self.give_up();
        Value {
            place: opening,
            kind: Kind::Unreadable,
        }
    }
}

fn is_hexadecimal(one: char) -> bool {
    one.is_ascii_hexdigit()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Problems, read};

    #[test]
    fn texts_are_read_with_their_escapes() {
        let cases = [
            (r#""""#, ""),
            (r#""a \"b\" \\ \' \n\r\t\0""#, "a \"b\" \\ ' \n\r\t\0"),
            (r#""\x41\xe9\u{df}\u{1F600}""#, "Aéß😀"),
            ("\"two\nlines\"", "two\nlines"),
            (r##"r"a\n""##, "a\\n"),
            (r###"r##"a "# b"##"###, "a \"# b"),
        ];
        for (written, expected) in cases {
            let problems = Problems::new();
            let value = read(problems.for_file("f", written)).unwrap();
            assert_eq!(value.kind, Kind::Text(expected.to_owned()), "{written}");
            assert!(problems.is_empty(), "{written}");
        }
    }

    #[test]
    fn each_wrong_escape_is_a_problem_of_its_own() {
        let problems = Problems::new();
        let value = read(problems.for_file("f", r#""a\q b\x4 c\u{110000} d\u{41 e\xaö""#)).unwrap();
        assert_eq!(value.kind, Kind::Text("a b4 c d eaö".to_owned()));
        let found: Vec<_> = problems
            .into_iter()
            .map(|one| (one.column, one.found))
            .collect();
        assert!(
            found
                .iter()
                .all(|(_, found)| found.id == ids::PROBLEM_ESCAPE)
        );
        let columns: Vec<_> = found.iter().map(|(column, _)| *column).collect();
        assert_eq!(columns, [3, 7, 12, 24, 31]);
    }

    #[test]
    fn a_text_without_an_end_is_one_problem_at_its_start() {
        let cases = ["(a: \"b, c: 1)", "(a: \"b\\", "[r#\"a\", 1]"];
        for text in cases {
            let problems = Problems::new();
            read(problems.for_file("f", text));
            let ids: Vec<_> = problems.into_iter().map(|one| one.found.id).collect();
            assert_eq!(ids, [ids::PROBLEM_TEXT_NOT_CLOSED], "{text}");
        }
    }
}
