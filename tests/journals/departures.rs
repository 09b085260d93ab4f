//! Kept journals beside the nearest way: what departs from it, and whether that is certain.
//!
//! Each row was checked by hand against the journal and the analysis in
//! assets/procedures/changeover.ron.

use serde_json::Value;

use crate::play::{grade, play};

/// A journal, its nearest way, and all that departs from it. Slots count from 1.
const CASES: &[(&str, &str, &[&str])] = &[
    ("by-hand", "by-hand", &[]),
    ("by-clear-out", "by-clear-out", &[]),
    (
        "hands-without-lock",
        "by-hand",
        &["missing lock", "missing try-start", "missing unlock"],
    ),
    // Seen from one side, so no slot is seen; then the sweep sees the board, and that is the end.
    (
        "half-a-look",
        "by-hand",
        &[
            "missing see-slot-empty 1-16",
            "missing look-before-rails",
            "missing set-rails",
            "not needed stop",
            "missing reset",
        ],
    ),
    (
        "declared-unseen",
        "by-hand",
        &["missing see-slot-empty 1-16"],
    ),
    // A belt that upstream may lay on is not seen empty.
    (
        "upstream-not-held",
        "by-hand",
        &["moved hold-upstream", "missing look-before-sweep"],
    ),
    (
        "answered-unseen",
        "by-clear-out",
        &["missing see-slot-empty 4"],
    ),
    // Nothing was proved, by either way; and the board that was seen at the mouth stayed inside.
    (
        "sweep-believed",
        "by-hand",
        &[
            "missing isolate",
            "missing lock",
            "missing try-start",
            "missing open-hatch",
            "missing plug-cord",
            "missing unplug-cord",
            "missing shut-hatch",
            "missing unlock",
            "missing power",
            "missing key-in",
            "missing see-slot-empty 1-16",
            "missing declare",
            "missing key-out",
            "missing take-out",
            "missing quarantine",
        ],
    ),
    (
        "rails-unproven",
        "by-hand",
        &[
            "missing key-in",
            "missing see-slot-empty 1-16",
            "missing declare",
            "missing key-out",
        ],
    ),
    (
        "belts-unseen",
        "by-hand",
        &["missing look-before-sweep", "missing look-before-rails"],
    ),
];

/// Each departure once, with its slots.
fn departures(grade: &Value) -> Vec<String> {
    let mut told: Vec<(String, Vec<u64>)> = Vec::new();
    let steps = grade["steps"].as_array().expect("it is a list").iter();
    for step in steps.filter(|step| step["state"] != "done") {
        let text = |name: &str| step[name].as_str().expect("it is a text").to_owned();
        let certain = step["certain"].as_bool().expect("it is told");
        let possibly = if certain { "" } else { "possibly " };
        let said = format!("{possibly}{} {}", text("state"), text("step"));
        let slot = step["slot"].as_u64();
        match told.iter_mut().find(|(known, _)| *known == said) {
            Some((_, slots)) => slots.extend(slot),
            None => told.push((said, slot.into_iter().collect())),
        }
    }
    let line = |(said, slots): (String, Vec<u64>)| match slots.as_slice() {
        [] => said,
        [one] => format!("{said} {one}"),
        [first, .., last] if last - first + 1 == slots.len() as u64 => {
            format!("{said} {first}-{last}")
        }
        _ => format!("{said} {slots:?}"),
    };
    let mut lines: Vec<String> = told.into_iter().map(line).collect();
    lines.sort_by_key(|line| !line.contains("moved"));
    lines
}

#[test]
fn what_departs_from_the_nearest_way_is_told() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let mut unlike = Vec::new();
    for (journal, way, expected) in CASES {
        let (_, grade) = grade(&play(journal, folder.path()));
        let found = departures(&grade);
        if found != *expected || grade["way"] != *way {
            unlike.push(format!("{journal}: {} {found:#?}", grade["way"]));
        }
    }
    assert!(unlike.is_empty(), "{}", unlike.join("\n"));
}
