//! What a reader asked of a file: each figure and each choice, with its place. So that a dialog can
//! ask a person for the same, and nothing has to be listed twice.
//!
//! A field that may be left out is asked for as well. Where leaving it out means a value, that
//! value is asked for ([`LeftOut`]); where it means that something is not there, whether it is
//! there comes first ([`What::Part`]).

use std::collections::BTreeSet;

use crate::{Bound, Place, Problems, Report};

/// One question to a value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Asked {
    /// Where the value stands. Of a part that is there: its name. Of a field that is left out: the
    /// empty place behind which it would be written.
    pub place: Place,
    /// What may stand there.
    pub what: What,
    /// That it is not in the file.
    pub left_out: Option<LeftOut>,
}

/// A field that is not in the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeftOut {
    /// Its name.
    pub field: &'static str,
    /// What leaving it out means, as it would be written. Of a part: nothing.
    pub stands_for: String,
    /// Where the record begins that it would stand in.
    pub record: Place,
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
    /// One of these names, in quotes.
    OneOf(Vec<String>),
    /// A name of its own, in quotes, see [`Report::name`].
    Name,
    /// So many items of a list.
    Items(Bound),
    /// A list of some of these, each at most once, in any order.
    Several(Vec<&'static str>),
    /// A field that is there or not, with the value that is written first.
    Part(&'static str),
}

impl Problems {
    /// All figures and choices that were asked for so far, each once, in the order of the text.
    /// What is left out stands behind what was asked for before it. Those of all files: read one
    /// file only. Texts are not among them, and of names only those that somebody may be asked
    /// for.
    pub fn asked(&self) -> Vec<Asked> {
        let mut asked = self.asked.borrow().clone();
        asked.sort_by_key(|one| one.place);
        let mut known = BTreeSet::new();
        asked.retain(|one| {
            let field = one.left_out.as_ref().map(|left_out| left_out.field);
            known.insert((one.place, field))
        });
        asked
    }
}

impl Report<'_> {
    pub(crate) fn note_asked(self, place: Place, what: What) {
        self.push_asked(Asked {
            place,
            what,
            left_out: None,
        });
    }

    pub(crate) fn push_asked(self, asked: Asked) {
        self.problems().asked.borrow_mut().push(asked);
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

    /// Behind which text each left-out field would be written, and what leaving it out means.
    #[test]
    fn what_is_left_out_is_asked_for_where_it_would_be_written() {
        let ask = |text: &str| {
            let problems = Problems::new();
            let report = problems.for_file("f", text);
            let value = read(report).expect("it can be read");
            let fields = Fields::of(&value, "Rack", report).expect("a record");
            let order = [("First", 1), ("Last", 2)];
            let slots = fields.optional_integer("slots", 16, &SLOTS);
            let width = fields.optional_micrometres("width_mm", 60_500, &WIDTH);
            let order = fields.optional_choice("order", 2, &order);
            let doors = fields.optional_several("doors", &[("Left", 1), ("Right", 2)]);
            let beam = fields.optional_part("beam", None, "7.5", |value, report| {
                report.micrometres(value, &WIDTH).map(Some)
            });
            let flag = fields.optional_flag("ready", true);
            fields.finish();
            let read = (slots, width, order, doors, beam, flag);
            let asked = problems.asked().into_iter().map(|one| {
                let before = text[..one.place.start as usize].to_owned();
                (before, one.what, one.left_out.map(|one| one.stands_for))
            });
            (read, asked.collect::<Vec<_>>(), problems.len())
        };
        let bare = (
            Some(16),
            Some(60_500),
            Some(2),
            Some(vec![]),
            Some(None),
            Some(true),
        );
        let (read, asked, problems) = ask("Rack()");
        assert_eq!((read, problems), (bare, 0));
        let stand: Vec<_> = asked
            .iter()
            .map(|(_, _, stand)| stand.clone().unwrap())
            .collect();
        assert_eq!(stand, ["16", "60.5", "Last", "[]", "", "true"]);
        assert!(
            asked.iter().all(|(before, ..)| before == "Rack("),
            "{asked:?}"
        );

        let (read, asked, problems) =
            ask("Rack(beam: 70.0, width_mm: 61.0, doors: [Right, Left], ready: false)");
        let there = (
            Some(16),
            Some(61_000),
            Some(2),
            Some(vec![2, 1]),
            Some(Some(70_000)),
        );
        assert_eq!((read.0, read.1, read.2, read.3, read.4), there);
        assert_eq!((read.5, problems), (Some(false), 0));
        let places = [
            ("Rack(", true, What::Number(SLOTS)),
            ("Rack(", false, What::Part("7.5")),
            ("Rack(beam: ", false, What::Number(WIDTH)),
            ("Rack(beam: 70.0, width_mm: ", false, What::Number(WIDTH)),
            (
                "Rack(beam: 70.0, width_mm: 61.0",
                true,
                What::Choice(vec!["First", "Last"]),
            ),
        ];
        for ((before, what, left_out), place) in asked.iter().zip(places) {
            assert_eq!((before.as_str(), left_out.is_some(), what.clone()), place);
        }
    }

    #[test]
    fn nothing_is_written_behind_or_into_what_could_not_be_read() {
        let ask = |text: &str| {
            let problems = Problems::new();
            let report = problems.for_file("f", text);
            let value = read(report).expect("it can be read");
            let fields = Fields::of(&value, "Rack", report).expect("a record");
            fields.integer("slots", &SLOTS);
            fields.choice("order", &[("First", 1)]);
            fields.optional_flag("ready", true);
            fields.finish();
            problems.asked()
        };
        let asked = ask("Rack(slots: 20, order: )");
        let flag = asked.iter().find(|one| one.what == What::Flag);
        let before = "Rack(slots: 20".len() as u32;
        assert_eq!(flag.expect("it is asked for").place.start, before);
        // In a record that lost a part, nobody knows what is left out.
        let asked = ask("Rack(slots: 20, order First)");
        assert!(asked.iter().all(|one| one.left_out.is_none()), "{asked:?}");
    }
}
