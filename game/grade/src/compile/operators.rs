//! The operators of the language: their names, how each is written, and what is said of one that is
//! not.

use rackproof_files::{Kind, Report, Value, nearest};

/// Each with how it is written, and how it is with a window if it takes one.
const OPERATORS: [(&str, &str, Option<&str>); 29] = [
    ("Did", "Did(Start)", None),
    ("Sign", "Sign(Took)", None),
    ("Is", "Is(Moving)", None),
    ("Not", "Not(a)", None),
    ("And", "And([a, b])", None),
    ("Or", "Or([a, b])", None),
    ("Implies", "Implies(a, b)", None),
    ("Previously", "Previously(a)", None),
    ("Once", "Once(a)", Some("Once(within_s: 5.0, of: a)")),
    (
        "Historically",
        "Historically(a)",
        Some("Historically(within_s: 5.0, of: a)"),
    ),
    (
        "Since",
        "Since(a, b)",
        Some("Since(within_s: 5.0, held: a, since: b)"),
    ),
    ("Every", "Every(a)", None),
    ("Some", "Some(a)", None),
    ("AtBelts", "AtBelts(a)", None),
    ("AtLeast", "AtLeast(width: Counted, mm: 50.0)", None),
    ("AtMost", "AtMost(width: Counted, mm: 50.0)", None),
    ("Named", "Named(\"name\")", None),
    ("SeenEmpty", "SeenEmpty", None),
    ("SeenBoard", "SeenBoard", None),
    ("Answered", "Answered", None),
    ("ReachedFor", "ReachedFor", None),
    ("Infeed", "Infeed", None),
    ("Outfeed", "Outfeed", None),
    ("WholeSlots", "WholeSlots(a)", None),
    ("PartSlots", "PartSlots(a)", None),
    ("WholeSides", "WholeSides(a)", None),
    ("PartSides", "PartSides(a)", None),
    ("True", "True", None),
    ("False", "False", None),
];

/// All names, for a hint.
pub(crate) fn names() -> String {
    let names = OPERATORS.iter().map(|(name, ..)| *name);
    names.collect::<Vec<_>>().join(", ")
}

/// How an operator is written without a window.
pub(super) fn form(operator: &str) -> &'static str {
    let mut known = OPERATORS.iter();
    known
        .find(|(name, ..)| *name == operator)
        .map_or("", |(_, form, _)| form)
}

/// Reports that a value is no formula: its operator is not known, or is not written like this.
pub(super) fn no_operator(value: &Value, operator: &str, report: Report<'_>) {
    let known = OPERATORS.iter().find(|(name, ..)| *name == operator);
    let Some((_, form, window)) = known else {
        report
            .add(
                value.place,
                "problem-unknown-operator",
                &[("operator", &operator)],
            )
            .expected("expected-operator", &[("names", &names())])
            .did_you_mean(nearest(operator, OPERATORS.iter().map(|(name, ..)| *name)));
        return;
    };
    // A part that could not be read was reported, and may be what is missing.
    if matches!(&value.kind, Kind::Tagged(_, parts) if parts.iter().any(is_lost)) {
        return;
    }
    let added = report.add(
        value.place,
        "problem-operator-form",
        &[("operator", &operator)],
    );
    match window {
        None => added.expected("expected-form", &[("form", form)]),
        Some(window) => added.expected("expected-forms", &[("form", form), ("window", window)]),
    };
}

fn is_lost(value: &Value) -> bool {
    value.kind == Kind::Unreadable
}
