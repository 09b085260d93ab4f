//! What a reader asked of a file: each figure and each choice, with its place. So that a dialog can
//! ask a person for the same, and nothing has to be listed twice.

use crate::{Bound, Place, Problems, Report};

/// One question to a value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Asked {
    /// Where the value stands.
    pub place: Place,
    /// What may stand there.
    pub what: What,
}

/// What may stand in a place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum What {
    /// A number within its bound.
    Number(Bound),
    /// One of these, as it is written: a name, and fields behind it where it has some.
    Choice(Vec<&'static str>),
    /// `true` or `false`.
    Flag,
}

impl Problems {
    /// All figures and choices that were asked for so far, each once, in the order of the text.
    /// Those of all files: read one file only. Names and texts are not among them.
    pub fn asked(&self) -> Vec<Asked> {
        let mut asked = self.asked.borrow().clone();
        asked.sort_by_key(|one| one.place);
        asked.dedup_by_key(|one| one.place);
        asked
    }
}

impl Report<'_> {
    pub(crate) fn note_asked(self, place: Place, what: What) {
        self.problems()
            .asked
            .borrow_mut()
            .push(Asked { place, what });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Fields, read};

    const SLOTS: Bound = Bound::whole("slots", "slots", 1, 200, "places for a board");
    const WIDTH: Bound = Bound::millimetres("width", 50_000, 508_000, "the width of a board");

    #[test]
    fn what_was_asked_is_there_with_its_place_though_it_does_not_fit() {
        let text = "Rack(id: \"a\", ready: No, order: Lst(1), /* 1 */ slots: 900, \
                    widths_mm: [60.0, \"x\"], doors: {\"a\": 1})";
        let problems = Problems::new();
        let report = problems.for_file("f", text);
        let value = read(report).expect("it can be read");
        let fields = Fields::of(&value, "Rack", report).expect("a record");
        fields.name("id");
        fields.integer("slots", &SLOTS);
        fields.integer("slots", &SLOTS);
        fields.flag("ready");
        fields.choice("order", &[("First", 1), ("Last", 2)]);
        fields.choice("missing", &[("First", 1), ("Last", 2)]);
        fields.each("widths_mm", |value, report| {
            report.micrometres(value, &WIDTH)
        });
        fields.entries("doors");
        let asked: Vec<(&str, What)> = problems
            .asked()
            .into_iter()
            .map(|one| (report.source().at(one.place), one.what))
            .collect();
        let expected = [
            ("No", What::Flag),
            ("Lst(1)", What::Choice(vec!["First", "Last"])),
            ("900", What::Number(SLOTS)),
            ("60.0", What::Number(WIDTH)),
            ("\"x\"", What::Number(WIDTH)),
        ];
        assert_eq!(asked, expected);
        assert_eq!(problems.len(), 6, "slots twice");
    }
}
