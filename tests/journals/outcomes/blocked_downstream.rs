//! The journals of the drill blocked-downstream.

use super::{Expected, Journals, expect};

pub(super) const JOURNALS: Journals = Journals {
    drill: "blocked-downstream",
    all: ALL,
    kept: KEPT,
    unbroken: &[],
    untested: &["hand-in-production", "left-production"],
};

const ALL: &[Expected] = &[
    expect("talk-first", &[], &[], &[], &[]),
    // One for each rule: it breaks that rule, harms nobody and fails for it. A start unasked is
    // what the trap waits for, in a variant in which it does not wait.
    expect(
        "started-unasked",
        &["started-unasked"],
        &[],
        &[],
        &["lamp-believed"],
    ),
    expect("started-hands-full", &["started-hands-full"], &[], &[], &[]),
    expect(
        "production-broken-off",
        &["production-broken-off"],
        &[],
        &[],
        &[],
    ),
    expect(
        "upstream-unasked",
        &["production-broken-off"],
        &[],
        &[],
        &[],
    ),
    expect("reference-given-up", &["reference-given-up"], &[], &[], &[]),
    expect("hand-in-production", &["hand-in-production"], &[], &[], &[]),
    expect("left-production", &["left-production"], &[], &[], &[]),
    // One for each trap.
    expect(
        "lamp-believed",
        &["started-unasked"],
        &["Collided"],
        &["MapTrueIsEmpty", "BeltsClear", "UnitReady"],
        &["lamp-believed"],
    ),
    expect(
        "fetched-by-hand",
        &["hand-in-production", "reference-given-up"],
        &[],
        &["MapTrueIsEmpty", "UnitReady"],
        &["fetched-by-hand"],
    ),
];

const KEPT: &[(&str, &str, &str)] = &[
    ("started-unasked", "talk-first", "Start"),
    ("started-hands-full", "talk-first", "Start"),
    ("production-broken-off", "talk-first", "Stop"),
    ("reference-given-up", "started-hands-full", "OpenHatch"),
];
