//! Whole texts: what is read, what is reported, and that nothing panics.

use proptest::{prelude::*, sample::Index};

use super::*;
use crate::{Decimal, Problems, render_snippet};

const VALID: &str = r##"
// A rack.
Rack(
    id: "east-1", /* its /* own */ name */
    slots: 1_48,
    widths_mm: [170.8, -250, +3,],
    order: FirstInFirstOut,
    lift: (speed_mm_s: 120.5, brake: Spring(2, true)),
    note: r#"a "raw" text"#,
    doors: { "left": (), "right": Door(), },
    pair: (1, "\u{41}\n"),
)
"##;

fn kind(text: &str) -> Kind {
    let problems = Problems::new();
    let value = read(problems.for_file("f", text)).unwrap();
    assert!(problems.is_empty(), "{:?}", problems.sorted());
    value.kind
}

type Found = (&'static str, u32, u32);

/// The ids of the problems of a text, each with its line and column.
fn problems_of(text: &str) -> Vec<Found> {
    let problems = Problems::new();
    read(problems.for_file("f", text));
    problems
        .into_iter()
        .map(|one| (one.found.id, one.line, one.column))
        .collect()
}

fn record(value: &Value) -> &Record {
    match &value.kind {
        Kind::Record(record) => record,
        other => panic!("no record: {other:?}"),
    }
}

#[test]
fn a_valid_text_is_read_whole_and_with_places() {
    let problems = Problems::new();
    let report = problems.for_file("f", VALID);
    let value = read(report).unwrap();
    assert!(problems.is_empty(), "{:?}", problems.sorted());
    let rack = record(&value);
    assert!(rack.whole);
    assert_eq!(value.tag(), Some("Rack"));
    assert_eq!(report.source().at(rack.opening), "Rack(");
    let places: Vec<_> = rack
        .fields
        .iter()
        .map(|field| {
            (
                report.source().at(field.place),
                report.source().at(field.value.place),
            )
        })
        .collect();
    let expected = [
        ("id", "\"east-1\""),
        ("slots", "1_48"),
        ("widths_mm", "[170.8, -250, +3,]"),
        ("order", "FirstInFirstOut"),
        ("lift", "(speed_mm_s: 120.5, brake: Spring(2, true))"),
        ("note", "r#\"a \"raw\" text\"#"),
        ("doors", "{ \"left\": (), \"right\": Door(), }"),
        ("pair", "(1, \"\\u{41}\\n\")"),
    ];
    assert_eq!(places, expected);
    assert_eq!(rack.fields[1].value.kind, Kind::Integer(148));
    let lift = record(&rack.fields[4].value);
    let speed = Kind::Decimal(Decimal {
        mantissa: 1205,
        scale: 1,
    });
    assert_eq!(
        (lift.name.as_deref(), &lift.fields[0].value.kind),
        (None, &speed)
    );
}

#[test]
fn each_form_has_its_kind() {
    let integer = |number: i64, start: usize| Value {
        place: Place::new(start, start + 1),
        kind: Kind::Integer(number),
    };
    let cases = [
        ("()", Kind::Unit),
        ("true", Kind::Bool(true)),
        ("Fifo", Kind::Tagged("Fifo".into(), vec![])),
        ("Fifo // last", Kind::Tagged("Fifo".into(), vec![])),
        ("Some(1)", Kind::Tagged("Some".into(), vec![integer(1, 5)])),
        ("(1, 2)", Kind::Tuple(vec![integer(1, 1), integer(2, 4)])),
        ("[]", Kind::List(vec![])),
        ("{}", Kind::Map(vec![])),
        ("{1: 2}", Kind::Map(vec![(integer(1, 1), integer(2, 4))])),
        ("[Fifo ,1]", {
            let fifo = Kind::Tagged("Fifo".into(), vec![]);
            Kind::List(vec![
                Value {
                    place: Place::new(1, 5),
                    kind: fifo,
                },
                integer(1, 7),
            ])
        }),
    ];
    for (text, expected) in cases {
        assert_eq!(kind(text), expected, "{text}");
    }
}

#[test]
fn each_syntax_problem_is_reported_at_its_place() {
    use ids::*;
    let cases: &[(&str, &[Found])] = &[
        ("", &[(PROBLEM_EMPTY, 1, 1)]),
        (" // only a comment", &[(PROBLEM_EMPTY, 1, 1)]),
        ("@", &[(PROBLEM_UNEXPECTED, 1, 1)]),
        ("1 2", &[(PROBLEM_TRAILING, 1, 3)]),
        ("[1, 2", &[(PROBLEM_NOT_CLOSED, 1, 1)]),
        ("(a: [1, (b: 2", &[(PROBLEM_NOT_CLOSED, 1, 9)]),
        (
            "(a: [1, 2), b: 3",
            &[(PROBLEM_WRONG_BRACKET, 1, 10), (PROBLEM_TRAILING, 1, 11)],
        ),
        ("(a: [1, 2}, b: 3)", &[(PROBLEM_WRONG_BRACKET, 1, 10)]),
        ("(a: 1\n b: 2)", &[(PROBLEM_NO_COMMA, 2, 2)]),
        (
            "(a: , b: @, c: 1.2.3)",
            &[
                (PROBLEM_UNEXPECTED, 1, 5),
                (PROBLEM_UNEXPECTED, 1, 10),
                (PROBLEM_NUMBER_FORM, 1, 16),
            ],
        ),
        ("(a: 1, 2)", &[(PROBLEM_NO_FIELD_NAME, 1, 8)]),
        ("(a = 1)", &[(PROBLEM_UNEXPECTED, 1, 4)]),
        ("(\"a\": 1)", &[(PROBLEM_NO_FIELD_NAME, 1, 2)]),
        ("{\"a\" 1, \"b\": 2}", &[(PROBLEM_UNEXPECTED, 1, 6)]),
        (
            "[,1,,2]",
            &[(PROBLEM_UNEXPECTED, 1, 2), (PROBLEM_UNEXPECTED, 1, 5)],
        ),
        ("(a:", &[(PROBLEM_ENDS, 1, 4)]),
        ("{\"a\"", &[(PROBLEM_ENDS, 1, 5)]),
        ("[1 /* ]", &[(PROBLEM_COMMENT_NOT_CLOSED, 1, 4)]),
        (
            "[1e-3, 99999999999999999999]",
            &[(PROBLEM_NUMBER_FORM, 1, 2), (PROBLEM_NUMBER_LONG, 1, 8)],
        ),
        ("[r#x, 1]", &[(PROBLEM_UNEXPECTED, 1, 4)]),
        (
            "#![enable(implicit_some)] (a: 1)",
            &[(PROBLEM_UNEXPECTED, 1, 1)],
        ),
    ];
    for (text, expected) in cases {
        assert_eq!(problems_of(text), *expected, "{text}");
    }
}

#[test]
fn what_stands_around_a_problem_is_still_read() {
    let problems = Problems::new();
    let text = "(a: @(x: [1, \")\"]), b: 2, c: [1, %, 3] d: 4)";
    let value = read(problems.for_file("f", text)).unwrap();
    let names: Vec<_> = record(&value)
        .fields
        .iter()
        .map(|field| field.name.as_str())
        .collect();
    assert_eq!(names, ["a", "b", "c", "d"]);
    assert_eq!(record(&value).fields[0].value.kind, Kind::Unreadable);
    assert!(matches!(&record(&value).fields[2].value.kind, Kind::List(all) if all.len() == 3));
    assert_eq!(problems.len(), 3);
}

#[test]
fn a_record_knows_whether_a_field_may_be_lost() {
    let cases = [
        ("(a: 1, b: @, c: 3)", true),
        ("(a: 1 b: 2)", true),
        ("(a: @ b: 2, c: 3)", false),
        ("(a: 1, 2)", false),
        ("(a: 1 % b: 2)", false),
        ("(a: 1, b: [2), c: 3", true),
        ("(a: 1, b: 2", false),
    ];
    for (text, expected) in cases {
        let problems = Problems::new();
        let value = read(problems.for_file("f", text)).unwrap();
        assert_eq!(record(&value).whole, expected, "{text}");
    }
}

#[test]
fn limits_are_problems() {
    let deep = |depth: usize| format!("{}1{}", "[".repeat(depth), "]".repeat(depth));
    assert_eq!(problems_of(&deep(NESTING_MOST)), []);
    let nesting = (ids::PROBLEM_NESTING, 1, 65);
    assert_eq!(problems_of(&deep(NESTING_MOST + 1)), [nesting]);
    assert_eq!(problems_of(&deep(100_000)), [nesting]);

    let long = |bytes: usize| format!("1{}", " ".repeat(bytes - 1));
    assert_eq!(problems_of(&long(TEXT_BYTES_MOST)), []);
    assert_eq!(
        problems_of(&long(TEXT_BYTES_MOST + 1)),
        [(ids::PROBLEM_TEXT_LARGE, 1, 1)]
    );

    let many = problems_of(&format!("[{}]", "@,".repeat(10_000)));
    assert_eq!(many.len(), SYNTAX_PROBLEMS_MOST + 1);
    assert_eq!(many.last().map(|one| one.0), Some(ids::PROBLEM_TOO_MANY));
}

/// Every place lies within the text, and every problem has a line that exists.
fn check_any(text: &str) -> Result<(), TestCaseError> {
    let problems = Problems::new();
    let value = read(problems.for_file("f", text));
    let lines = u32::try_from(text.split('\n').count()).unwrap();
    for problem in &problems {
        prop_assert!(problem.place.end as usize <= text.len());
        prop_assert!((1..=lines).contains(&problem.line));
        prop_assert!(problem.column >= 1);
        // Drawing must bear every place, too.
        render_snippet(&problem, &|id, _| id.to_owned(), false);
    }
    prop_assert!(
        value.is_some() || !problems.is_empty(),
        "nothing read and nothing said"
    );
    if let Some(value) = value {
        prop_assert!(value.place.end as usize <= text.len());
        let broken = format!("{value:?}").contains("Unreadable");
        prop_assert!(
            !broken || !problems.is_empty(),
            "something is broken and nothing said"
        );
    }
    Ok(())
}

/// The characters that mean something to the reader, and a few that come in between.
const SIGNS: &str = r##"([()\[\]{},:="\\#ru/*.0-9eaxT \n+-]|ö|//|/\*|r#"){0,60}"##;

proptest! {
    #[test]
    fn no_text_panics(text in any::<String>()) {
        check_any(&text)?;
    }

    #[test]
    fn no_text_of_our_signs_panics(text in SIGNS) {
        check_any(&text)?;
    }

    #[test]
    fn no_changed_text_panics(
        changes in prop::collection::vec((any::<Index>(), 0..4_usize, any::<char>()), 1..6)
    ) {
        let mut letters: Vec<char> = VALID.chars().collect();
        for (index, how, letter) in changes {
            if letters.is_empty() {
                break;
            }
            let at = index.index(letters.len());
            match how {
                0 => { letters.remove(at); }
                1 => letters.insert(at, letter),
                2 => letters[at] = ")]}([{\",:"[..].chars().nth(at % 9).unwrap(),
                _ => letters.truncate(at.max(1)),
            }
        }
        check_any(&letters.into_iter().collect::<String>())?;
    }
}
