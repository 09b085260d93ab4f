//! Typed reading of whole records: what is answered and what is reported.

use super::*;
use crate::{Problem, Problems, read};

pub(crate) const SLOTS: Bound = Bound::whole("slots", "slots", 1, 200, "places for a board");
pub(crate) const ORDERS: &[(&str, char)] = &[("FirstInFirstOut", 'f'), ("LastInFirstOut", 'l')];

/// Reads a record by asking one question, and gives the problems of it.
pub(crate) fn ask<T>(text: &str, question: impl FnOnce(&Fields<'_>) -> T) -> (T, Vec<Problem>) {
    let problems = Problems::new();
    let report = problems.for_file("f", text);
    let value = read(report).unwrap();
    let fields = Fields::of(&value, "Rack", report).unwrap();
    let answer = question(&fields);
    fields.finish();
    (answer, problems.sorted())
}

fn ids_of(problems: &[Problem]) -> Vec<(&'static str, u32, u32)> {
    problems
        .iter()
        .map(|one| (one.found.id, one.line, one.column))
        .collect()
}

#[test]
fn all_problems_of_nested_records_come_at_once() {
    let text = "Rack(
    slot: 300,
    lift: Lift(speed: 400, colour: Red),
    order: FirstInFirstOut,
    order: LastInFirstOut,
    rest: @,
)";
    let (_, problems) = ask(text, |fields| {
        fields.integer("slots", &SLOTS);
        fields.name("id");
        fields.integer("rest", &SLOTS);
        fields.choice("order", ORDERS);
        let lift = fields.record("lift", "Lift").unwrap();
        lift.integer("speed", &SLOTS);
        lift.integer("rooms", &SLOTS);
        lift.finish();
        assert_eq!(
            fields.optional("spare", 7, |value, report| report.integer(value, &SLOTS)),
            Some(7)
        );
        assert!(!fields.has("doors"));
    });
    use ids::*;
    assert_eq!(
        ids_of(&problems),
        [
            (PROBLEM_MISSING_FIELD, 1, 1),
            (PROBLEM_MISSING_FIELD, 1, 1),
            (PROBLEM_UNKNOWN_FIELD, 2, 5),
            (PROBLEM_MISSING_FIELD, 3, 11),
            (PROBLEM_OUT_OF_BOUNDS, 3, 23),
            (PROBLEM_UNKNOWN_FIELD, 3, 28),
            (PROBLEM_REPEATED_FIELD, 5, 5),
            (PROBLEM_UNEXPECTED, 6, 11),
        ]
    );
    let missing = &problems[0];
    assert_eq!(missing.found.argument("field"), Some("slots"));
    assert_eq!(missing.expected, Some(SLOTS.expected()));
    let unknown = &problems[2];
    assert_eq!(
        unknown.hint.as_ref().unwrap().argument("name"),
        Some("slots")
    );
    let known = unknown.expected.as_ref().unwrap().argument("fields");
    assert_eq!(known, Some("slots, id, rest, order, lift, spare, doors"));
    let bound = &problems[4].found;
    assert_eq!(
        (bound.argument("thing"), bound.argument("number")),
        (Some("speed"), Some("400"))
    );
}

#[test]
fn a_lost_part_makes_no_field_missing() {
    let (_, problems) = ask("Rack(b: 1 % slots: 3)", |fields| {
        fields.integer("b", &SLOTS);
        fields.integer("slots", &SLOTS);
    });
    assert_eq!(ids_of(&problems), [(ids::PROBLEM_UNEXPECTED, 1, 11)]);
}

#[test]
fn a_record_has_its_name_or_none() {
    use ids::*;
    let cases: &[(&str, bool, &[&str])] = &[
        ("Rack(a: 1)", true, &[]),
        ("(a: 1)", true, &[]),
        ("Rak(a: 1)", true, &[PROBLEM_WRONG_RECORD_NAME]),
        ("()", true, &[PROBLEM_MISSING_FIELD]),
        ("Rack()", true, &[PROBLEM_MISSING_FIELD]),
        ("Rack", false, &[PROBLEM_WRONG_KIND]),
        ("[1]", false, &[PROBLEM_WRONG_KIND]),
        ("Rack(@)", false, &[PROBLEM_UNEXPECTED]),
    ];
    for (text, is_record, expected) in cases {
        let problems = Problems::new();
        let report = problems.for_file("f", text);
        let value = read(report).unwrap();
        let fields = Fields::of(&value, "Rack", report);
        assert_eq!(fields.is_some(), *is_record, "{text}");
        if let Some(fields) = fields {
            fields.integer("a", &SLOTS);
            fields.finish();
        }
        let ids: Vec<_> = problems.into_iter().map(|one| one.found.id).collect();
        assert_eq!(ids, *expected, "{text}");
    }
}
