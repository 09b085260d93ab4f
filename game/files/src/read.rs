//! Text to values. After a problem, reading goes on at the next comma or closing bracket, so that
//! one look at a file finds them all.

use crate::{Field, Kind, Place, Record, Report, Value, ids, scan::Scanner};

/// The longest text that is read, in bytes.
pub const TEXT_BYTES_MOST: usize = 1024 * 1024;

/// How many brackets may stand inside each other.
pub const NESTING_MOST: usize = 64;

/// After so many syntax problems reading stops: by then they only follow from each other.
pub const SYNTAX_PROBLEMS_MOST: usize = 100;

/// Reads the one value of a text. Problems go to the report.
///
/// A value can come back although there were problems: then its broken parts are
/// [`Kind::Unreadable`], and checking the rest finds more problems in the same run.
/// Use what was read only if [`crate::Problems::is_empty`].
pub fn read(report: Report<'_>) -> Option<Value> {
    let bytes = report.source().text().len();
    if bytes > TEXT_BYTES_MOST {
        report
            .add(
                Place::default(),
                ids::PROBLEM_TEXT_LARGE,
                &[("bytes", &bytes)],
            )
            .expected(ids::EXPECTED_TEXT_SHORT, &[("most", &TEXT_BYTES_MOST)]);
        return None;
    }
    let mut reader = Reader {
        scanner: Scanner::new(report),
        open: Vec::new(),
    };
    reader.whole_text()
}

/// Reads one text. How it goes on after a problem is in `recover.rs`.
pub(crate) struct Reader<'t> {
    pub(crate) scanner: Scanner<'t>,
    /// The closing brackets that are awaited, the innermost last.
    pub(crate) open: Vec<char>,
}

/// One entry of a pair of parentheses: only after its identifier can be seen which it is.
enum Entry {
    Field(Field),
    Value(Value),
}

impl Reader<'_> {
    fn whole_text(&mut self) -> Option<Value> {
        self.scanner.skip_blank();
        if self.scanner.peek().is_none() {
            self.scanner.problem(|report| {
                report
                    .add(Place::default(), ids::PROBLEM_EMPTY, &[])
                    .expected(ids::EXPECTED_VALUE, &[]);
            });
            return None;
        }
        let value = self.value();
        if value.kind == Kind::Unreadable {
            return None;
        }
        self.scanner.skip_blank();
        if self.scanner.peek().is_some() {
            self.found_here(ids::PROBLEM_TRAILING, ids::EXPECTED_END);
        }
        Some(value)
    }

    /// The value that starts here. If it is unreadable, the caller goes on at the next boundary.
    fn value(&mut self) -> Value {
        let start = self.scanner.at();
        match self.scanner.peek() {
            Some('"') => self.scanner.quoted(),
            Some('r') if self.scanner.is_raw_quoted() => self.scanner.raw_quoted(),
            Some('(') => self.parentheses(start, None),
            Some('[') => self.list(),
            Some('{') => self.map(),
            Some('0'..='9' | '+' | '-' | '.') => self.scanner.number(),
            _ => match self.scanner.identifier() {
                Some(name) => self.named(self.scanner.since(start), name),
                None => {
                    self.found_here(ids::PROBLEM_UNEXPECTED, ids::EXPECTED_VALUE);
                    Value {
                        place: self.scanner.here(),
                        kind: Kind::Unreadable,
                    }
                }
            },
        }
    }

    /// The value whose identifier was read, at that place.
    fn named(&mut self, place: Place, name: &str) -> Value {
        let kind = match name {
            "true" => Kind::Bool(true),
            "false" => Kind::Bool(false),
            _ => {
                self.scanner.skip_blank();
                if self.scanner.peek() == Some('(') {
                    return self.parentheses(place.start as usize, Some(name));
                }
                Kind::Tagged(name.to_owned(), Vec::new())
            }
        };
        Value { place, kind }
    }

    /// What stands in parentheses: a record if it has fields, else a tuple or a choice with values.
    fn parentheses(&mut self, start: usize, name: Option<&str>) -> Value {
        let opening = Place::new(start, self.scanner.at() + 1);
        let (mut fields, mut values) = (Vec::new(), Vec::new());
        let whole = self.group(')', |reader| {
            let entry = reader.entry();
            let value = match &entry {
                Entry::Field(field) => &field.value,
                Entry::Value(value) => value,
            };
            let readable = value.kind != Kind::Unreadable;
            match entry {
                Entry::Field(field) => fields.push(field),
                Entry::Value(value) => values.push(value),
            }
            readable
        });
        let name = name.map(str::to_owned);
        let kind = match (name, fields.is_empty(), values.is_empty()) {
            (None, true, true) if whole => Kind::Unit,
            (None, true, false) => Kind::Tuple(values),
            (Some(name), true, false) => Kind::Tagged(name, values),
            (name, _, no_values) => {
                self.values_among_fields(&values);
                let whole = whole && no_values;
                Kind::Record(Record {
                    name,
                    opening,
                    fields,
                    whole,
                })
            }
        };
        Value {
            place: self.scanner.since(start),
            kind,
        }
    }

    fn values_among_fields(&mut self, values: &[Value]) {
        for value in values.iter().filter(|value| value.kind != Kind::Unreadable) {
            self.scanner.problem(|report| {
                report
                    .add(value.place, ids::PROBLEM_NO_FIELD_NAME, &[])
                    .expected(ids::EXPECTED_FIELD, &[]);
            });
        }
    }

    fn entry(&mut self) -> Entry {
        let start = self.scanner.at();
        let name = if self.scanner.is_raw_quoted() {
            None
        } else {
            self.scanner.identifier()
        };
        let Some(name) = name else {
            return self.entry_without_name();
        };
        let place = self.scanner.since(start);
        self.scanner.skip_blank();
        match self.scanner.peek() {
            Some(':') => {}
            Some('=') => self.equals_sign(),
            _ => return Entry::Value(self.named(place, name)),
        }
        self.scanner.advance();
        self.scanner.skip_blank();
        Entry::Field(Field {
            name: name.to_owned(),
            place,
            value: self.value(),
        })
    }

    /// A value; or a field whose name stands in quotes, as JSON has it.
    fn entry_without_name(&mut self) -> Entry {
        let value = self.value();
        let Kind::Text(name) = &value.kind else {
            return Entry::Value(value);
        };
        self.scanner.skip_blank();
        if !self.scanner.eat(':') {
            return Entry::Value(value);
        }
        self.scanner.problem(|report| {
            report
                .add(value.place, ids::PROBLEM_NO_FIELD_NAME, &[])
                .expected(ids::EXPECTED_FIELD, &[])
                .hint(ids::HINT_WITHOUT_QUOTES, &[]);
        });
        self.scanner.skip_blank();
        Entry::Field(Field {
            name: name.clone(),
            place: value.place,
            value: self.value(),
        })
    }

    fn equals_sign(&mut self) {
        let here = self.scanner.here();
        self.scanner.problem(|report| {
            report
                .add(here, ids::PROBLEM_UNEXPECTED, &[("found", &'=')])
                .expected(ids::EXPECTED_TOKEN, &[("token", &':')])
                .hint(ids::HINT_COLON, &[]);
        });
    }

    fn list(&mut self) -> Value {
        let start = self.scanner.at();
        let mut values = Vec::new();
        self.group(']', |reader| {
            let value = reader.value();
            let readable = value.kind != Kind::Unreadable;
            values.push(value);
            readable
        });
        Value {
            place: self.scanner.since(start),
            kind: Kind::List(values),
        }
    }

    fn map(&mut self) -> Value {
        let start = self.scanner.at();
        let mut entries = Vec::new();
        self.group('}', |reader| {
            let key = reader.value();
            if key.kind == Kind::Unreadable {
                return false;
            }
            reader.scanner.skip_blank();
            if !reader.scanner.eat(':') {
                reader.token_expected(':');
                return false;
            }
            reader.scanner.skip_blank();
            let value = reader.value();
            let readable = value.kind != Kind::Unreadable;
            entries.push((key, value));
            readable
        });
        Value {
            place: self.scanner.since(start),
            kind: Kind::Map(entries),
        }
    }
}

#[cfg(test)]
mod tests;
