//! What a supervisor reads: each line of a verdict plain, true and complete.

use std::fs;

use rackproof_commands::Exit;

use crate::play::{play, root, run};

/// What a command says, its line breaks aside.
fn said_of(arguments: &[&str]) -> String {
    let (_, said) = run(arguments);
    said.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A journal; what its verdict must say; and what it must not.
type Case = (
    &'static str,
    &'static [&'static str],
    &'static [&'static str],
);

const CASES: &[Case] = &[
    (
        "by-hand",
        &[
            "PASSED - The finish was reached, nobody and nothing was harmed, no stop rule was \
             broken, and no major rule.",
            "Reach into the rack. Why: You are locked out, tried, grounded and propped",
            "Hold the declare-empty button. Why: Every slot was seen empty",
        ],
        &["a rule was broken: see", "Finding"],
    ),
    // Harmless, and it fails all the same. The isolator was off, with no lock on it: what is said
    // of a hand that goes in under lock is not said of this one.
    (
        "hands-without-lock",
        &[
            "FAILED - A stop rule was broken. That nothing came of it makes no difference.",
            "The person stood at the hatch, hands outside. The isolator was off, with no lock on \
             it. The hatch was open, the prop was set, nothing moved. The rails stood 160.8 mm \
             apart.",
            "The panel was dark.",
            "A look through the open hatch, leaning to the outfeed side, would have shown 16 \
             half-slots more, of slots 1-16.",
            "A look at the infeed, into the mouth, would have shown 1 half-slot more, of slot 1.",
            "Reach into the rack. But in doing it a rule was broken: see finding 1.",
        ],
        &[
            "You are locked out",
            "Harm was done",
            "The finish was not reached",
        ],
    ),
    // Declared after half a look: the reason of a proper declaration is no reason here.
    (
        "declared-unseen",
        &[
            "FAILED - A stop rule was broken. - Harm was done. - The finish was not reached: one \
             thing is open at the end.",
            "Hold the declare-empty button. But in doing it a rule was broken: see finding 1.",
            "The panel showed unit Stopped, mode Production, Wren loaded, no width.",
        ],
        &["Why: Every slot was seen empty", "makes no difference"],
    ),
    (
        "belt-forgotten",
        &["Stop rules were broken 3 times. - Harm was done."],
        &["makes no difference"],
    ),
    (
        "production-width",
        &["FAILED - Major rules were broken once: this drill allows 0."],
        &["A stop rule was broken", "Harm was done"],
    ),
    (
        "emergency-for-stop",
        &["PASSED - The finish was reached"],
        &["FAILED"],
    ),
];

#[test]
fn a_verdict_says_what_it_rests_on_and_nothing_that_is_not_so() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    for (journal, says, says_not) in CASES {
        let path = play(journal, folder.path()).to_string_lossy().into_owned();
        let said = said_of(&["grade", &path]);
        for part in *says {
            assert!(said.contains(part), "{journal}: no “{part}” in: {said}");
        }
        for part in *says_not {
            assert!(!said.contains(part), "{journal}: “{part}” in: {said}");
        }
    }
}

#[test]
fn what_if_says_in_words_what_would_have_been_done_and_since_when() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let what_if = |journal: &str| {
        let path = play(journal, folder.path()).to_string_lossy().into_owned();
        said_of(&["grade", "--what-if", "1", &path])
    };
    // From the hand on there is no way: the cord was plugged in without a lock already.
    let said = what_if("hands-without-lock");
    let head = "What if, for finding 1: at 00:28 not “Plug my wrist cord into the bonding stud” \
                but “Walk to the isolator”.";
    assert!(said.contains(head), "{said}");
    assert!(said.contains("That is before the finding"), "{said}");
    let said = what_if("declared-unseen");
    let head = "at 01:09 not “Hold the declare-empty button";
    assert!(said.contains(head), "{said}");
    assert!(!said.contains("That is before the finding"), "{said}");
}

#[test]
fn of_a_folder_each_file_has_its_line_and_what_is_wrong_with_rules_is_told() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let attempts = folder.path().join("attempts");
    fs::create_dir(&attempts).expect("it can be made");
    for journal in ["by-hand", "hands-without-lock"] {
        play(journal, &attempts);
    }
    fs::write(attempts.join("nothing.attempt"), "").expect("it can be written");
    let path = attempts.to_string_lossy().into_owned();
    let said = said_of(&["grade", &path]);
    for line in [
        "by-hand.attempt: passed",
        "hands-without-lock.attempt: failed",
        "nothing.attempt: not graded",
        "nothing.attempt is empty, or was cut off in its first line.",
    ] {
        assert!(said.contains(line), "no “{line}” in: {said}");
    }
    assert!(
        !said.contains("--resume"),
        "nothing can be gone on with: {said}"
    );
    // The procedure rests on this rule: it is refused as a minor one, and the reason stands there.
    let rules = fs::read_to_string(root().join("assets/rules/changeover.ron"));
    let stop = "Rule(name: \"hands-without-lock\", severity: Stop";
    let minor = "Rule(name: \"hands-without-lock\", severity: Minor";
    let rules = rules.expect("it is shipped").replacen(stop, minor, 1);
    assert!(rules.contains(minor));
    let changed = folder.path().join("changed.ron");
    fs::write(&changed, rules).expect("it can be written");
    let changed = changed.to_string_lossy().into_owned();
    let (exit, drawn) = run(&["grade", "--rules", &changed, &path]);
    assert_eq!(exit, Exit::No);
    // Each problem begins a line of its own.
    let begun = drawn.lines().filter(|line| line.starts_with("problem: "));
    assert_eq!(begun.count(), drawn.matches("problem: ").count(), "{drawn}");
    assert!(drawn.ends_with('\n'), "{drawn}");
    let said = said_of(&["grade", "--rules", &changed, &path]);
    for part in [
        "2 attempts cannot be graded by the rules and the procedure of today",
        "does not fail who breaks it",
        "The verdicts above stand.",
    ] {
        assert!(said.contains(part), "no “{part}” in: {said}");
    }
    let told = said.matches("does not fail who breaks it").count();
    assert!(told <= 2, "each problem once: {said}");
}
