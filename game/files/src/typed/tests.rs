//! Typed questions to one field: what is answered and what is reported.

use super::*;
use crate::{
    Fields,
    fields::tests::{ORDERS, SLOTS, ask},
};

const WIDTH: Bound = Bound::millimetres("width", 50_000, 508_000, "the width of a board");
const WAIT: Bound = Bound::seconds("wait", 0, 60_000_000, "how long to wait");

/// Asks for field `a` of a text; gives the answer for people and the ids that were reported.
fn one<T: std::fmt::Debug>(
    value: &str,
    question: impl FnOnce(&Fields<'_>) -> Option<T>,
) -> (String, Vec<&'static str>) {
    let (answer, problems) = ask(&format!("Rack(a: {value})"), question);
    let shown = answer.map_or("-".to_owned(), |answer| format!("{answer:?}"));
    (
        shown,
        problems.iter().map(|problem| problem.found.id).collect(),
    )
}

#[test]
fn numbers_are_checked_against_their_bound() {
    use ids::*;
    type Question = fn(&Fields<'_>) -> Option<i64>;
    let slots: Question = |fields| fields.integer("a", &SLOTS);
    let width: Question = |fields| fields.micrometres("a", &WIDTH).map(i64::from);
    let wait: Question = |fields| fields.micros("a", &WAIT).map(i64::from);
    let cases: &[(&str, Question, &str, &[&str])] = &[
        ("1", slots, "1", &[]),
        ("200", slots, "200", &[]),
        ("0", slots, "-", &[PROBLEM_OUT_OF_BOUNDS]),
        ("201", slots, "-", &[PROBLEM_OUT_OF_BOUNDS]),
        ("1.0", slots, "-", &[PROBLEM_WRONG_KIND]),
        ("\"1\"", slots, "-", &[PROBLEM_WRONG_KIND]),
        ("170.8", width, "170800", &[]),
        ("250", width, "250000", &[]),
        ("508.000", width, "508000", &[]),
        ("508.001", width, "-", &[PROBLEM_OUT_OF_BOUNDS]),
        ("49.999", width, "-", &[PROBLEM_OUT_OF_BOUNDS]),
        ("170.8001", width, "-", &[PROBLEM_TOO_MANY_DECIMALS]),
        ("9223372036854775807", width, "-", &[PROBLEM_OUT_OF_BOUNDS]),
        ("true", width, "-", &[PROBLEM_WRONG_KIND]),
        ("0.000001", wait, "1", &[]),
        ("60", wait, "60000000", &[]),
        ("-1", wait, "-", &[PROBLEM_OUT_OF_BOUNDS]),
        ("0.0000001", wait, "-", &[PROBLEM_TOO_MANY_DECIMALS]),
    ];
    for (value, question, answer, ids) in cases {
        let (shown, reported) = one(value, question);
        assert_eq!(
            (shown.as_str(), reported.as_slice()),
            (*answer, *ids),
            "{value}"
        );
    }
}

type TextQuestion = fn(&Fields<'_>) -> Option<String>;

/// Value, question, answer, reported ids, hint of the first problem.
type TextCase<'c> = (
    &'c str,
    TextQuestion,
    &'c str,
    &'c [&'c str],
    Option<&'c str>,
);

fn check(cases: &[TextCase<'_>]) {
    for (value, question, answer, ids, hint) in cases {
        let (found, problems) = ask(&format!("Rack(a: {value})"), question);
        let reported: Vec<_> = problems.iter().map(|problem| problem.found.id).collect();
        let hinted = problems
            .first()
            .and_then(|problem| problem.hint.as_ref())
            .map(|it| it.id);
        let shown = found.unwrap_or("-".to_owned());
        assert_eq!(
            (shown.as_str(), reported.as_slice()),
            (*answer, *ids),
            "{value}"
        );
        assert_eq!(hinted, *hint, "{value}");
    }
}

#[test]
fn texts_and_names_are_checked() {
    use ids::*;
    let text: TextQuestion = |fields| fields.text("a");
    let name: TextQuestion = |fields| fields.name("a");
    let longest = "a".repeat(NAME_CHARACTERS_MOST);
    check(&[
        ("\"any ö\"", text, "any ö", &[], None),
        (
            "any",
            text,
            "-",
            &[PROBLEM_WRONG_KIND],
            Some(HINT_WITH_QUOTES),
        ),
        ("\"east-1\"", name, "east-1", &[], None),
        (
            "\"East_1\"",
            name,
            "-",
            &[PROBLEM_NAME_FORM],
            Some(HINT_WRITE_NAME),
        ),
        ("\"-x\"", name, "-", &[PROBLEM_NAME_FORM], None),
        ("\"\"", name, "-", &[PROBLEM_NAME_FORM], None),
        (&format!("\"{longest}\""), name, &longest, &[], None),
        (
            &format!("\"{longest}a\""),
            name,
            "-",
            &[PROBLEM_NAME_FORM],
            None,
        ),
        ("7", name, "-", &[PROBLEM_WRONG_KIND], None),
    ]);
}

#[test]
fn flags_and_choices_are_checked() {
    use ids::*;
    let flag: TextQuestion = |fields| fields.flag("a").map(|flag| flag.to_string());
    let order: TextQuestion = |fields| fields.choice("a", ORDERS).map(String::from);
    check(&[
        ("true", flag, "true", &[], None),
        (
            "\"true\"",
            flag,
            "-",
            &[PROBLEM_WRONG_KIND],
            Some(HINT_WITHOUT_QUOTES),
        ),
        ("1", flag, "-", &[PROBLEM_WRONG_KIND], None),
        ("LastInFirstOut", order, "l", &[], None),
        (
            "LastInFirstOt",
            order,
            "-",
            &[PROBLEM_UNKNOWN_CHOICE],
            Some(HINT_DID_YOU_MEAN),
        ),
        ("Random", order, "-", &[PROBLEM_UNKNOWN_CHOICE], None),
        (
            "LastInFirstOut(1)",
            order,
            "-",
            &[PROBLEM_CHOICE_VALUES],
            None,
        ),
        (
            "\"LastInFirstOut\"",
            order,
            "-",
            &[PROBLEM_WRONG_KIND],
            Some(HINT_WITHOUT_QUOTES),
        ),
    ]);
}

#[test]
fn lists_maps_and_values_of_a_choice_are_checked() {
    use ids::*;
    type Question = fn(&Fields<'_>) -> Option<String>;
    let each: Question = |fields| {
        fields
            .each("a", |value, report| report.micrometres(value, &WIDTH))
            .map(|it| format!("{it:?}"))
    };
    let map: Question = |fields| {
        let entries = fields.entries("a")?;
        Some(
            entries
                .iter()
                .map(|(key, _)| *key)
                .collect::<Vec<_>>()
                .join(" "),
        )
    };
    let pair: Question = |fields| {
        let value = fields.value("a")?;
        let report = fields.report();
        let kind = report.variant(value, &[("Between", 'b'), ("Never", 'n')])?;
        let [least, most] = report.values::<2>(value)?;
        Some(format!(
            "{kind}{:?}{:?}",
            report.integer(least, &SLOTS)?,
            report.integer(most, &SLOTS)?
        ))
    };
    let cases: &[(&str, Question, &str, &[&str])] = &[
        ("[170.8, 60]", each, "\"[170800, 60000]\"", &[]),
        (
            "[170.8, 1, x, 2]",
            each,
            "-",
            &[
                PROBLEM_OUT_OF_BOUNDS,
                PROBLEM_WRONG_KIND,
                PROBLEM_OUT_OF_BOUNDS,
            ],
        ),
        ("(170.8, 60)", each, "-", &[PROBLEM_WRONG_KIND]),
        ("{ \"x\": 1, \"y\": 2 }", map, "\"x y\"", &[]),
        (
            "{ \"x\": 1, 2: 2, \"x\": 3 }",
            map,
            "\"x\"",
            &[PROBLEM_WRONG_KIND, PROBLEM_REPEATED_KEY],
        ),
        ("Between(1, 7)", pair, "\"b17\"", &[]),
        ("Between(1)", pair, "-", &[PROBLEM_CHOICE_VALUES]),
        ("Never", pair, "-", &[PROBLEM_CHOICE_VALUES]),
        ("Betwen(1, 7)", pair, "-", &[PROBLEM_UNKNOWN_CHOICE]),
        ("Between(x: 1)", pair, "-", &[PROBLEM_WRONG_KIND]),
    ];
    for (value, question, answer, ids) in cases {
        let (shown, reported) = one(value, question);
        assert_eq!(
            (shown.as_str(), reported.as_slice()),
            (*answer, *ids),
            "{value}"
        );
    }
}
