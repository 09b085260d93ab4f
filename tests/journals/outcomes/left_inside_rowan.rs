//! What becomes of the journals of the drill on a machine that does not ask. Its rules are those of
//! the first drill; here each of severity Stop is broken once, and each trap sprung.

use super::{Expected, Journals, expect};

pub(super) const JOURNALS: Journals = Journals {
    drill: "left-inside-rowan",
    all: ALL,
    kept: KEPT,
    unbroken: UNBROKEN,
    untested: UNTESTED,
};

const ALL: &[Expected] = &[
    expect("by-hand", &[], &[], &[], &[]),
    expect("by-clear-out", &[], &[], &[], &[]),
    // One for each rule of severity Stop: it breaks that rule, harms nobody and fails for it.
    expect(
        "rails-unproven",
        &["rails-unproven"],
        &[],
        &[],
        &["sweep-first"],
    ),
    expect(
        "production-unproven",
        &["production-unproven"],
        &[],
        &[],
        &[],
    ),
    expect("declared-unseen", &["declared-unseen"], &[], &[], &[]),
    expect(
        "belts-unseen",
        &["belts-unseen"],
        &[],
        &[],
        &["belt-not-asked"],
    ),
    expect("upstream-not-held", &["upstream-not-held"], &[], &[], &[]),
    expect(
        "upstream-let-go-early",
        &["upstream-let-go-early"],
        &[],
        &[],
        &[],
    ),
    expect("hands-without-lock", &["hands-without-lock"], &[], &[], &[]),
    expect("hands-while-moving", &["hands-while-moving"], &[], &[], &[]),
    expect("answered-unseen", &["answered-unseen"], &[], &[], &[]),
    expect(
        "started-mouths-unseen",
        &["started-mouths-unseen"],
        &[],
        &[],
        &[],
    ),
    expect("started-hands-full", &["started-hands-full"], &[], &[], &[]),
    expect("board-put-in", &["board-put-in"], &[], &[], &[]),
    // One for each trap. There is no luck here: rails that open drop what is there.
    expect(
        "sweep-first",
        &["rails-unproven"],
        &["Dropped"],
        &["MapTrueIsEmpty"],
        &["sweep-first"],
    ),
    expect(
        "every-second-slot",
        &["rails-unproven"],
        &["Dropped"],
        &["MapTrueIsEmpty"],
        &["every-second-slot"],
    ),
    expect(
        "half-a-look",
        &["declared-unseen"],
        &["Dropped"],
        &["MapTrueIsEmpty"],
        &["half-a-look"],
    ),
    expect(
        "belt-not-asked",
        &["belts-unseen", "started-mouths-unseen"],
        &["Dropped"],
        &["BeltsClear"],
        &["belt-not-asked"],
    ),
];

const KEPT: &[(&str, &str, &str)] = &[
    ("rails-unproven", "by-hand", "Start"),
    ("declared-unseen", "by-hand", "HoldDeclare"),
    ("belts-unseen", "by-hand", "Start"),
    ("upstream-not-held", "by-hand", "Start"),
    ("upstream-let-go-early", "by-hand", "LetUpstreamGo"),
    ("hands-without-lock", "by-hand", "HandIn"),
    ("hands-untried", "by-hand", "HandIn"),
    ("hands-while-moving", "by-hand", "HandIn"),
    ("hands-ungrounded", "by-hand", "HandIn"),
    ("answered-unseen", "by-clear-out", "AnswerSeenEmpty"),
    ("answered-untaken", "by-clear-out", "AnswerTaken"),
    ("started-mouths-unseen", "by-hand", "Start"),
    ("started-hands-full", "by-hand", "Start"),
    ("power-given-early", "by-hand", "LockOff"),
];

// Of severity Major and Minor: the first drill breaks them, under the same rules.
const UNBROKEN: &[&str] = &[
    "production-width",
    "hands-untried",
    "hands-under-lift",
    "hands-ungrounded",
    "answered-untaken",
    "power-given-early",
    "emergency-for-stop",
    "doubtful-board-good",
];
const UNTESTED: &[&str] = &[
    "production-width",
    "production-unproven",
    "hands-under-lift",
    "board-put-in",
    "doubtful-board-good",
    "emergency-for-stop",
];
