//! What becomes of the journals of the first drill.

use super::{Expected, Journals, expect};

pub(super) const JOURNALS: Journals = Journals {
    drill: "left-inside",
    all: ALL,
    kept: KEPT,
    unbroken: &[],
    untested: UNTESTED,
};

const ALL: &[Expected] = &[
    expect("by-hand", &[], &[], &[], &[]),
    expect("by-hand-low", &[], &[], &[], &[]),
    expect("by-clear-out", &[], &[], &[], &[]),
    expect("with-the-good-ones", &[], &[], &[], &[]),
    expect("stopped-while-moving", &[], &[], &[], &[]),
    expect("production-started", &[], &[], &[], &[]),
    // One for each rule of severity Stop: it breaks that rule, harms nobody and fails for it.
    expect(
        "rails-unproven",
        &["rails-unproven"],
        &[],
        &[],
        &["sweep-believed"],
    ),
    expect(
        "production-unproven",
        &["production-unproven"],
        &[],
        &[],
        &[],
    ),
    expect(
        "declared-unseen-harmless",
        &["declared-unseen"],
        &[],
        &[],
        &[],
    ),
    expect(
        "belts-unseen",
        &["belts-unseen"],
        &[],
        &[],
        &["belt-forgotten"],
    ),
    expect("upstream-not-held", &["upstream-not-held"], &[], &[], &[]),
    expect(
        "upstream-let-go-early",
        &["upstream-let-go-early"],
        &[],
        &[],
        &[],
    ),
    // Who has no lock on cannot have tried under lock: the two go together.
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
    // One for each rule of severity Major or Minor.
    expect("production-width", &["production-width"], &[], &[], &[]),
    expect("hands-untried", &["hands-untried"], &[], &[], &[]),
    expect("hands-under-lift", &["hands-under-lift"], &[], &[], &[]),
    expect(
        "hands-ungrounded-harmless",
        &["hands-ungrounded"],
        &[],
        &[],
        &[],
    ),
    // It looks as good as before: that it was harmed is said by the debrief alone.
    expect(
        "hands-ungrounded",
        &["hands-ungrounded"],
        &["Charged"],
        &[],
        &[],
    ),
    expect("answered-untaken", &["answered-untaken"], &[], &[], &[]),
    expect("power-given-early", &["power-given-early"], &[], &[], &[]),
    // Whoever lets upstream go between two products breaks another rule with it.
    expect(
        "doubtful-board-good",
        &["doubtful-board-good", "upstream-let-go-early"],
        &[],
        &[],
        &[],
    ),
    expect("emergency-for-stop", &["emergency-for-stop"], &[], &[], &[]),
    // Where luck ends.
    expect(
        "declared-unseen",
        &["declared-unseen"],
        &["Overstrained", "Broken"],
        &["MapTrueIsEmpty"],
        &["half-a-look"],
    ),
    // One for each trap.
    expect(
        "sweep-believed",
        &["rails-unproven"],
        &["Overstrained", "Broken"],
        &["MapTrueIsEmpty"],
        &["sweep-believed"],
    ),
    expect(
        "half-a-look",
        &["declared-unseen"],
        &[],
        &["WidthTrueIsWanted", "MapTrueIsEmpty", "UnitReady"],
        &["half-a-look"],
    ),
    expect(
        "belt-forgotten",
        &["belts-unseen", "started-mouths-unseen"],
        &["Overstrained", "SprungOut"],
        &["BeltsClear"],
        &["belt-forgotten"],
    ),
];

const KEPT: &[(&str, &str, &str)] = &[
    ("rails-unproven", "by-hand", "Start"),
    (
        "production-unproven",
        "production-started",
        "ModeProduction",
    ),
    ("production-width", "production-started", "ModeProduction"),
    ("declared-unseen", "by-hand", "HoldDeclare"),
    ("belts-unseen", "by-hand", "Start"),
    ("upstream-not-held", "by-hand", "Start"),
    ("upstream-let-go-early", "by-hand", "LetUpstreamGo"),
    ("hands-without-lock", "by-hand", "HandIn"),
    ("hands-untried", "by-hand", "HandIn"),
    ("hands-while-moving", "by-hand", "HandIn"),
    ("hands-under-lift", "by-hand-low", "Take("),
    ("hands-ungrounded", "by-hand", "HandIn"),
    ("answered-unseen", "by-clear-out", "AnswerSeenEmpty"),
    ("answered-untaken", "by-clear-out", "AnswerTaken"),
    ("started-mouths-unseen", "by-hand", "Start"),
    ("started-hands-full", "by-hand", "Start"),
    ("doubtful-board-good", "with-the-good-ones", "PutDownGood"),
    ("power-given-early", "by-hand", "LockOff"),
    (
        "emergency-for-stop",
        "stopped-while-moving",
        "PressEmergency",
    ),
];

// `board-put-in` forbids an act always, so that none can keep it.
const UNTESTED: &[&str] = &["board-put-in"];
