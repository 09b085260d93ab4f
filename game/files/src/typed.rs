//! Typed questions to a value. Each reports what does not fit, and then answers `None`.

use crate::{Bound, Decimal, Kind, Message, Place, Report, Value, What, ids, number, scan::shown};

/// The longest name, in characters.
pub const NAME_CHARACTERS_MOST: usize = 40;

impl<'v> Report<'v> {
    /// A whole number within its bound.
    ///
    /// # Panics
    /// If the bound has decimals: then it is not meant for whole numbers.
    pub fn integer(self, value: &Value, bound: &Bound) -> Option<i64> {
        assert!(
            bound.decimals == 0,
            "{}: a whole number has no decimals",
            bound.name
        );
        self.number(value, bound)
    }

    /// A length in micrometres, written in millimetres with at most 3 decimals.
    ///
    /// # Panics
    /// If the bound is not one of [`Bound::millimetres`].
    pub fn micrometres(self, value: &Value, bound: &Bound) -> Option<i32> {
        assert!(
            bound.decimals == 3,
            "{}: millimetres have 3 decimals",
            bound.name
        );
        let length = i32::try_from(self.number(value, bound)?);
        assert!(
            length.is_ok(),
            "{}: the bound of a length fits 32 bits",
            bound.name
        );
        length.ok()
    }

    /// A span of time in microseconds, written in seconds with at most 6 decimals.
    ///
    /// # Panics
    /// If the bound is not one of [`Bound::seconds`].
    pub fn micros(self, value: &Value, bound: &Bound) -> Option<u32> {
        assert!(
            bound.decimals == 6,
            "{}: seconds have 6 decimals",
            bound.name
        );
        let span = u32::try_from(self.number(value, bound)?);
        assert!(
            span.is_ok(),
            "{}: the bound of a span fits 32 bits, no sign",
            bound.name
        );
        span.ok()
    }

    /// A number within its bound, in steps of the last decimal the bound allows.
    pub fn number(self, value: &Value, bound: &Bound) -> Option<i64> {
        self.note_asked(value.place, What::Number(*bound));
        let decimal = match &value.kind {
            Kind::Integer(number) => Decimal {
                mantissa: *number,
                scale: 0,
            },
            Kind::Decimal(decimal) if bound.decimals > 0 => *decimal,
            _ => {
                self.wrong_kind(value, bound.expected());
                return None;
            }
        };
        let written = shown(self.source().at(value.place));
        if decimal.scale > bound.decimals {
            let thing = self.thing();
            self.add(
                value.place,
                ids::PROBLEM_TOO_MANY_DECIMALS,
                &[
                    ("thing", &thing),
                    ("number", &written),
                    ("unit", &bound.unit),
                ],
            )
            .expecting(bound.expected());
            return None;
        }
        match decimal.scaled(bound.decimals) {
            Some(number) => self.within(value.place, number, bound),
            None => {
                self.out_of_bounds(value.place, &written, bound);
                None
            }
        }
    }

    /// A number from elsewhere, such as the length of a list, if it is within a bound.
    pub fn within(self, place: Place, number: i64, bound: &Bound) -> Option<i64> {
        if bound.contains(number) {
            return Some(number);
        }
        self.out_of_bounds(place, &bound.written(number), bound);
        None
    }

    fn out_of_bounds(self, place: Place, written: &str, bound: &Bound) {
        let Message { mut arguments, .. } = bound.expected();
        arguments.push(("thing", self.thing().to_owned()));
        arguments.push(("number", written.to_owned()));
        let found: Vec<(&'static str, &dyn std::fmt::Display)> = arguments
            .iter()
            .map(|(name, text)| (*name, text as &dyn std::fmt::Display))
            .collect();
        self.add(place, ids::PROBLEM_OUT_OF_BOUNDS, &found)
            .expecting(bound.expected());
    }

    /// A text.
    pub fn text(self, value: &'v Value) -> Option<&'v str> {
        match &value.kind {
            Kind::Text(text) => Some(text),
            _ => {
                self.wrong_kind(value, Message::new(ids::EXPECTED_TEXT, &[]));
                None
            }
        }
    }

    /// A name: a text of small letters `a` to `z`, digits and `-`, that starts with no `-`.
    pub fn name(self, value: &Value) -> Option<String> {
        let expected = name_expected();
        let Kind::Text(text) = &value.kind else {
            self.wrong_kind(value, expected);
            return None;
        };
        if is_name(text) {
            return Some(text.clone());
        }
        let thing = self.thing();
        let added = self
            .add(
                value.place,
                ids::PROBLEM_NAME_FORM,
                &[("thing", &thing), ("found", &shown(text))],
            )
            .expecting(expected);
        let nearby = text.trim().to_lowercase().replace(['_', ' '], "-");
        if is_name(&nearby) {
            added.hint(ids::HINT_WRITE_NAME, &[("name", &nearby)]);
        }
        None
    }

    /// `true` or `false`.
    pub fn flag(self, value: &Value) -> Option<bool> {
        self.note_asked(value.place, What::Flag);
        match value.kind {
            Kind::Bool(flag) => Some(flag),
            _ => {
                self.wrong_kind(value, Message::new(ids::EXPECTED_FLAG, &[]));
                None
            }
        }
    }

    /// The values of a list.
    pub fn list(self, value: &'v Value) -> Option<Vec<&'v Value>> {
        match &value.kind {
            Kind::List(values) => Some(values.iter().collect()),
            _ => {
                self.wrong_kind(value, Message::new(ids::EXPECTED_LIST, &[]));
                None
            }
        }
    }

    /// All values of a list, each read in the same way. All are read, so that the problems of all
    /// are found; `None` if one cannot be.
    pub fn each<T>(
        self,
        value: &'v Value,
        mut read: impl FnMut(&'v Value, Report<'v>) -> Option<T>,
    ) -> Option<Vec<T>> {
        let values = self.list(value)?;
        let read: Vec<Option<T>> = values.into_iter().map(|one| read(one, self)).collect();
        read.into_iter().collect()
    }

    /// Adds the problem that a value is of another kind than expected. Says nothing about a value
    /// that could not be read.
    pub fn wrong_kind(self, value: &Value, expected: Message) {
        if value.kind == Kind::Unreadable {
            return;
        }
        let (thing, kind) = (self.thing(), value.kind_key());
        let wants_text = [ids::EXPECTED_TEXT, ids::EXPECTED_NAME].contains(&expected.id);
        let added = self
            .add(
                value.place,
                ids::PROBLEM_WRONG_KIND,
                &[("thing", &thing), ("kind", &kind)],
            )
            .expecting(expected.clone());
        match &value.kind {
            Kind::Text(text) if fits_without_quotes(text, &expected) => {
                added.hint(ids::HINT_WITHOUT_QUOTES, &[]);
            }
            Kind::Tagged(_, values) if wants_text && values.is_empty() => {
                added.hint(ids::HINT_WITH_QUOTES, &[]);
            }
            _ => {}
        }
    }
}

fn fits_without_quotes(text: &str, expected: &Message) -> bool {
    match expected.id {
        ids::EXPECTED_FLAG => text == "true" || text == "false",
        ids::EXPECTED_WHOLE => matches!(number::parse(text), Ok(number::Number::Integer(_))),
        ids::EXPECTED_DECIMAL => number::parse(text).is_ok(),
        ids::EXPECTED_CHOICE => expected
            .argument("choices")
            .is_some_and(|choices| choices.split(", ").any(|choice| choice == text)),
        _ => false,
    }
}

pub(crate) fn name_expected() -> Message {
    Message::new(ids::EXPECTED_NAME, &[("most", &NAME_CHARACTERS_MOST)])
}

/// Whether a text is a name: 1 to [`NAME_CHARACTERS_MOST`] characters, a to z, 0 to 9 and -, not
/// with - first.
pub fn is_name(text: &str) -> bool {
    let fits = |one: u8| one.is_ascii_lowercase() || one.is_ascii_digit() || one == b'-';
    !text.is_empty()
        && text.len() <= NAME_CHARACTERS_MOST
        && !text.starts_with('-')
        && text.bytes().all(fits)
}

#[cfg(test)]
mod tests;
