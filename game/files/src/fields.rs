//! The fields of a record, asked for by name.

use std::cell::{Cell, RefCell};

use crate::{
    Asked, Bound, Field, Kind, LeftOut, Message, Place, Record, Report, Value, What,
    choice::choices_expected, ids, nearest, typed::name_expected,
};

/// The fields of one record. Ask for each field that can be there, then [`Fields::finish`].
///
/// Each question reports what does not fit and answers `None`. Ask for all fields first and only
/// then use `?`: so one run finds all problems.
#[derive(Debug)]
#[must_use = "unknown fields are found by `finish`"]
pub struct Fields<'v> {
    report: Report<'v>,
    record: Option<&'v Record>,
    place: Place,
    name: &'static str,
    asked: RefCell<Vec<&'static str>>,
    /// Where the last of the fields ends that were asked for and are there.
    behind: Cell<u32>,
}

impl<'v> Fields<'v> {
    /// The fields of a record. `name` is how the domain calls it: a name in the file must be the
    /// same, but may be left away. `()` is a record without fields.
    pub fn of(value: &'v Value, name: &'static str, report: Report<'v>) -> Option<Fields<'v>> {
        let record = match &value.kind {
            Kind::Record(record) => Some(record),
            Kind::Unit => None,
            Kind::Tagged(_, values) | Kind::Tuple(values)
                if values.iter().any(|one| one.kind == Kind::Unreadable) =>
            {
                return None;
            }
            _ => {
                report.wrong_kind(value, record_expected(name));
                return None;
            }
        };
        let place = record.map_or(value.place, |record| record.opening);
        if let Some(found) = value.tag().filter(|found| *found != name) {
            report
                .add(place, ids::PROBLEM_WRONG_RECORD_NAME, &[("found", &found)])
                .expecting(record_expected(name))
                .did_you_mean(nearest(found, [name]));
        }
        // Behind the opening parenthesis: `()` is a record as well.
        let opening = record.map_or(value.place.start + 1, |record| record.opening.end);
        Some(Fields {
            report,
            record,
            place,
            name,
            asked: RefCell::default(),
            behind: Cell::new(opening),
        })
    }

    /// Where the record starts: its name and its opening parenthesis.
    pub fn place(&self) -> Place {
        self.place
    }

    /// The report, for problems of several fields together.
    pub fn report(&self) -> Report<'v> {
        self.report
    }

    /// Where a field's value stands, else the record's start: for problems of the domain's own.
    pub fn place_of(&self, field: &'static str) -> Place {
        self.find(field).map_or(self.place, |value| value.place)
    }

    /// Whether the field is there. Counts as asking for it.
    pub fn has(&self, field: &'static str) -> bool {
        self.find(field).is_some()
    }

    /// A whole number, see [`Report::integer`].
    pub fn integer(&self, field: &'static str, bound: &Bound) -> Option<i64> {
        self.required(
            field,
            || bound.expected(),
            |value, report| report.integer(value, bound),
        )
    }

    /// Millimetres in the file, micrometres here, see [`Report::micrometres`].
    pub fn micrometres(&self, field: &'static str, bound: &Bound) -> Option<i32> {
        self.required(
            field,
            || bound.expected(),
            |value, report| report.micrometres(value, bound),
        )
    }

    /// Seconds in the file, microseconds here, see [`Report::micros`].
    pub fn micros(&self, field: &'static str, bound: &Bound) -> Option<u32> {
        self.required(
            field,
            || bound.expected(),
            |value, report| report.micros(value, bound),
        )
    }

    /// A text.
    pub fn text(&self, field: &'static str) -> Option<String> {
        let expected = || Message::new(ids::EXPECTED_TEXT, &[]);
        self.required(field, expected, |value, report| {
            report.text(value).map(str::to_owned)
        })
    }

    /// A name, see [`Report::name`].
    pub fn name(&self, field: &'static str) -> Option<String> {
        self.required(field, name_expected, |value, report| report.name(value))
    }

    /// The name of something that somebody may name, see [`Report::name`].
    pub fn own_name(&self, field: &'static str) -> Option<String> {
        if let Some(found) = self.field(field) {
            self.report.note_asked(found.value.place, What::Name);
        }
        self.name(field)
    }

    /// The name of something that has one of these names. Whether it does, the caller looks.
    pub fn name_of(&self, field: &'static str, names: &[String]) -> Option<String> {
        if let Some(found) = self.field(field) {
            let what = What::OneOf(names.to_vec());
            self.report.note_asked(found.value.place, what);
        }
        self.name(field)
    }

    /// `true` or `false`.
    pub fn flag(&self, field: &'static str) -> Option<bool> {
        let expected = || Message::new(ids::EXPECTED_FLAG, &[]);
        self.required(field, expected, |value, report| report.flag(value))
    }

    /// One of several names, see [`Report::choice`].
    pub fn choice<T: Clone>(
        &self,
        field: &'static str,
        choices: &[(&'static str, T)],
    ) -> Option<T> {
        let expected = || choices_expected(choices);
        self.required(field, expected, |value, report| {
            report.choice(value, choices)
        })
    }

    /// A list of some of several names, see [`Report::several`].
    pub fn several<T: Clone>(
        &self,
        field: &'static str,
        choices: &[(&'static str, T)],
    ) -> Option<Vec<T>> {
        let expected = || Message::new(ids::EXPECTED_LIST, &[]);
        self.required(field, expected, |value, report| {
            report.several(value, choices)
        })
    }

    /// The values of a list.
    pub fn list(&self, field: &'static str) -> Option<Vec<&'v Value>> {
        let expected = || Message::new(ids::EXPECTED_LIST, &[]);
        self.required(field, expected, |value, report| report.list(value))
    }

    /// All values of a list, each read in the same way, see [`Report::each`].
    pub fn each<T>(
        &self,
        field: &'static str,
        read: impl FnMut(&'v Value, Report<'v>) -> Option<T>,
    ) -> Option<Vec<T>> {
        let expected = || Message::new(ids::EXPECTED_LIST, &[]);
        self.required(field, expected, |value, report| report.each(value, read))
    }

    /// The same, where somebody may be asked how many there are. Their number is within a bound.
    pub fn items<T>(
        &self,
        field: &'static str,
        bound: &Bound,
        read: impl FnMut(&'v Value, Report<'v>) -> Option<T>,
    ) -> Option<Vec<T>> {
        if let Some(found) = self.field(field) {
            self.report
                .note_asked(found.value.place, What::Items(*bound));
        }
        let items = self.each(field, read)?;
        let report = self.report.about(field);
        report.within(self.place_of(field), items.len() as i64, bound);
        Some(items)
    }

    /// The entries of a map, see [`Report::entries`].
    pub fn entries(&self, field: &'static str) -> Option<Vec<(&'v str, &'v Value)>> {
        let expected = || Message::new(ids::EXPECTED_MAP, &[]);
        self.required(field, expected, |value, report| report.entries(value))
    }

    /// A record in this one, under the name that the domain gives it.
    pub fn record(&self, field: &'static str, name: &'static str) -> Option<Fields<'v>> {
        let report = self.report;
        self.required(
            field,
            || record_expected(name),
            |value, _| Fields::of(value, name, report),
        )
    }

    /// The value as it was read, of whatever kind.
    pub fn value(&self, field: &'static str) -> Option<&'v Value> {
        let readable = |value: &'v Value, _| Some(value).filter(|it| it.kind != Kind::Unreadable);
        self.required(field, || Message::new(ids::EXPECTED_ANY, &[]), readable)
    }

    /// Any field that must be there. Missing, it is a problem at the record's start that says what
    /// was expected.
    pub fn required<T>(
        &self,
        field: &'static str,
        expected: impl FnOnce() -> Message,
        read: impl FnOnce(&'v Value, Report<'v>) -> Option<T>,
    ) -> Option<T> {
        if let Some(value) = self.find(field) {
            return read(value, self.report.about(field));
        }
        // In a record that lost a part to a syntax problem, the field may well be there.
        if self.record.is_none_or(|record| record.whole) {
            self.report
                .add(
                    self.place,
                    ids::PROBLEM_MISSING_FIELD,
                    &[("field", &field), ("record", &self.name)],
                )
                .expecting(expected());
        }
        None
    }

    fn find(&self, field: &'static str) -> Option<&'v Value> {
        self.field(field).map(|one| &one.value)
    }

    /// The field with its name's place. Counts as asking for it.
    pub(crate) fn field(&self, field: &'static str) -> Option<&'v Field> {
        let mut asked = self.asked.borrow_mut();
        let found = self.record.and_then(|record| {
            let mut fields = record.fields.iter();
            fields.find(|one| one.name == field)
        });
        if !asked.contains(&field) {
            asked.push(field);
            // What could not be read ends nowhere.
            if let Some(found) = found.filter(|one| one.value.kind != Kind::Unreadable) {
                self.behind.set(found.value.place.end);
            }
        }
        found
    }

    /// Notes that a field is left out, for whoever asks a person.
    pub(crate) fn note_left_out(&self, field: &'static str, what: What, stands_for: String) {
        // In a record that lost a part to a syntax problem, the field may well be there.
        if self.record.is_some_and(|record| !record.whole) {
            return;
        }
        let at = self.behind.get() as usize;
        self.report.push_asked(Asked {
            place: Place::new(at, at),
            what,
            left_out: Some(LeftOut {
                field,
                stands_for,
                record: self.place,
            }),
        });
    }

    /// Reports the fields that nobody asked for, and those that stand there more than once.
    pub fn finish(self) {
        let Some(record) = self.record else { return };
        let asked = self.asked.borrow();
        let mut first_places = std::collections::BTreeMap::new();
        for field in &record.fields {
            let (place, name) = (field.place, field.name.as_str());
            if let Some(first) = first_places.get(name) {
                let (line, _) = self.report.source().line_and_column(*first);
                self.report
                    .add(
                        place,
                        ids::PROBLEM_REPEATED_FIELD,
                        &[("field", &name), ("line", &line)],
                    )
                    .expected(ids::EXPECTED_ONCE, &[]);
                continue;
            }
            first_places.insert(name, place);
            if !asked.contains(&name) {
                let not_there = |known: &&str| record.fields.iter().all(|one| one.name != *known);
                let arguments: [(&str, &dyn std::fmt::Display); 2] =
                    [("field", &name), ("record", &self.name)];
                self.report
                    .add(place, ids::PROBLEM_UNKNOWN_FIELD, &arguments)
                    .expected(ids::EXPECTED_KNOWN_FIELD, &[("fields", &asked.join(", "))])
                    .did_you_mean(nearest(name, asked.iter().copied().filter(not_there)));
            }
        }
    }
}

fn record_expected(name: &'static str) -> Message {
    Message::new(ids::EXPECTED_RECORD, &[("record", &name)])
}

#[cfg(test)]
pub(crate) mod tests;
