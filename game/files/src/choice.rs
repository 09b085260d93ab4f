//! Typed questions to choices, records and maps.

use crate::{Kind, Message, Report, Value, What, ids, nearest, scan::shown};

impl<'v> Report<'v> {
    /// One of several names without values, and what it stands for.
    pub fn choice<T: Clone>(self, value: &Value, choices: &[(&'static str, T)]) -> Option<T> {
        let names = choices.iter().map(|(name, _)| *name).collect();
        self.note_asked(value.place, What::Choice(names));
        let (name, meaning) = self.chosen(value, choices)?;
        self.bare(value, name).then_some(meaning)
    }

    /// Whether nothing follows a name; what does is a problem.
    fn bare(self, value: &Value, name: &str) -> bool {
        let bare = matches!(&value.kind, Kind::Tagged(_, values) if values.is_empty());
        if !bare {
            self.wrong_values(value, name, 0);
        }
        bare
    }

    /// A list of some of several names, in the order of the file.
    pub fn several<T: Clone>(
        self,
        value: &'v Value,
        choices: &[(&'static str, T)],
    ) -> Option<Vec<T>> {
        let names = choices.iter().map(|(name, _)| *name).collect();
        self.note_asked(value.place, What::Several(names));
        self.each(value, |one, report| {
            let (name, meaning) = report.chosen(one, choices)?;
            report.bare(one, name).then_some(meaning)
        })
    }

    /// One of several names, whatever follows it: values or fields. Ask for those with
    /// [`Report::values`] or [`crate::Fields::of`].
    pub fn variant<T: Clone>(self, value: &Value, choices: &[(&'static str, T)]) -> Option<T> {
        self.chosen(value, choices).map(|(_, meaning)| meaning)
    }

    /// The same as [`Report::variant`], where a dialog may ask which it is: each choice with all
    /// that is written when it is chosen, the fields behind its name included.
    pub fn form<T: Clone>(
        self,
        value: &Value,
        choices: &[(&'static str, T)],
        written: &[&'static str],
    ) -> Option<T> {
        self.note_asked(value.place, What::Choice(written.to_vec()));
        self.variant(value, choices)
    }

    /// The values of a choice, if there are so many: `Name(value, value)`.
    pub fn values<const COUNT: usize>(self, value: &'v Value) -> Option<&'v [Value; COUNT]> {
        let values: &[Value] = match &value.kind {
            Kind::Tagged(_, values) => values,
            Kind::Record(record) if record.fields.is_empty() => &[],
            _ => {
                self.wrong_kind(value, values_expected(value.tag().unwrap_or("Name"), COUNT));
                return None;
            }
        };
        let exact = values.try_into().ok();
        if exact.is_none() {
            self.wrong_values(value, value.tag().unwrap_or(""), COUNT);
        }
        exact
    }

    /// The entries of a map whose keys are texts, in the order of the file. A key that stands there
    /// again is a problem and is left out.
    pub fn entries(self, value: &'v Value) -> Option<Vec<(&'v str, &'v Value)>> {
        let Kind::Map(entries) = &value.kind else {
            self.wrong_kind(value, Message::new(ids::EXPECTED_MAP, &[]));
            return None;
        };
        let mut read: Vec<(&'v str, &'v Value)> = Vec::new();
        let mut first_places = std::collections::BTreeMap::new();
        for (key, entry) in entries {
            let Some(text) = self.text(key) else { continue };
            if let Some(first) = first_places.get(text) {
                let (line, _) = self.source().line_and_column(*first);
                self.add(
                    key.place,
                    ids::PROBLEM_REPEATED_KEY,
                    &[("key", &shown(text)), ("line", &line)],
                )
                .expected(ids::EXPECTED_ONCE, &[]);
                continue;
            }
            first_places.insert(text, key.place);
            read.push((text, entry));
        }
        Some(read)
    }

    fn chosen<T: Clone>(
        self,
        value: &Value,
        choices: &[(&'static str, T)],
    ) -> Option<(&'static str, T)> {
        let Some(tag) = value.tag() else {
            self.wrong_kind(value, choices_expected(choices));
            return None;
        };
        let known = choices.iter().find(|(name, _)| *name == tag);
        if known.is_none() {
            let (thing, found) = (self.thing(), shown(tag));
            self.add(
                value.place,
                ids::PROBLEM_UNKNOWN_CHOICE,
                &[("thing", &thing), ("found", &found)],
            )
            .expecting(choices_expected(choices))
            .did_you_mean(nearest(tag, choices.iter().map(|(name, _)| *name)));
        }
        known.cloned()
    }

    fn wrong_values(self, value: &Value, name: &str, wanted: usize) {
        let count = match &value.kind {
            Kind::Tagged(_, values) => values.len(),
            Kind::Record(record) => record.fields.len(),
            _ => 0,
        };
        self.add(
            value.place,
            ids::PROBLEM_CHOICE_VALUES,
            &[("found", &shown(name)), ("count", &count)],
        )
        .expecting(values_expected(name, wanted));
    }
}

fn values_expected(choice: &str, count: usize) -> Message {
    Message::new(
        ids::EXPECTED_CHOICE_VALUES,
        &[("choice", &shown(choice)), ("count", &count)],
    )
}

pub(crate) fn choices_expected<T>(choices: &[(&'static str, T)]) -> Message {
    let names: Vec<&str> = choices.iter().map(|(name, _)| *name).collect();
    Message::new(ids::EXPECTED_CHOICE, &[("choices", &names.join(", "))])
}
