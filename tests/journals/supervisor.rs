//! What a supervisor reads: each line of a verdict plain, true and complete.

use std::fs;

use rackproof_commands::Exit;
use serde_json::Value;

use crate::play::{in_a_row, play, root, run};

/// What a command says, its line breaks aside.
fn said_of(arguments: &[&str]) -> String {
    let (_, said) = run(arguments);
    in_a_row(&said)
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
        &["broken: see", "Finding"],
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
            "Reach into the rack. But in doing it a rule was broken: see the finding at 00:54.",
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
            "Hold the declare-empty button. But in doing it a rule was broken: see the finding at \
             01:09.",
            "The panel showed unit Stopped, mode Production, Wren loaded, no width.",
        ],
        &["Why: Every slot was seen empty", "makes no difference"],
    ),
    // Who never asks upstream to hold left two steps out, though the rack is empty.
    (
        "blocked-downstream/upstream-unasked",
        &[
            "FAILED - A major rule was broken: this drill allows none.",
            "8 steps done, 2 missing",
            "Steps missing on this way - Ask upstream to hold",
        ],
        &["Harm was done"],
    ),
    // Two rules at one Start: what was so then is told once.
    (
        "belt-forgotten",
        &[
            "Stop rules were broken 3 times. - Harm was done.",
            "02:55 Finding 3: Stop rule broken. Done: Press Start. Rule: Start only with both \
             mouths seen free",
            "What was true, believed and to be seen: as at finding 2.",
        ],
        &["makes no difference", "as at finding 1"],
    ),
    (
        "production-width",
        &["FAILED - A major rule was broken: this drill allows none."],
        &["A stop rule was broken", "Harm was done"],
    ),
    (
        "emergency-for-stop",
        &[
            "PASSED - The finish was reached",
            "Looked at: none of 32 half-slots, by a look that still counted then. To be seen",
        ],
        &["FAILED", "Looked at: 0"],
    ),
    // One slot of sixteen was answered for unseen: that one is told apart, and only there.
    (
        "answered-unseen",
        &[
            "Answer for the slot. Slots: 4. But in doing it a rule was broken: see the finding at \
             01:15.",
            "Answer for the slot. Slots: 1-3, 5-16. Why: The controller cannot see",
        ],
        &["Slots: 1-16. Why: The controller"],
    ),
    // The wrong answer was wrong, and the look that it rests on was right.
    (
        "answered-untaken",
        &[
            "Answer for the slot. Slots: 1. But in doing it a rule was broken: see the finding at",
            "Answer for the slot. Slots: 2-16. Why: The controller cannot see",
            "Have both halves of the slot seen empty when it counts. Slots: 1. Why: A slot counts \
             as empty when both halves were seen, and nothing moved since. With it a rule was \
             broken: see the finding at",
            "Have both halves of the slot seen empty when it counts. Slots: 2-16. Why: A slot \
             counts as empty",
        ],
        &["seen empty when it counts. Slots: 1. But"],
    ),
    // A hand at the outfeed belt: the sweep that ran on meanwhile was none of it.
    (
        "hands-while-moving",
        &["Let the lift sweep the rack. Why: It is a second witness"],
        &["Let the lift sweep the rack. But"],
    ),
    // The ends were seen free at that Start, so the reason holds; another rule broke with it.
    (
        "sweep-believed",
        &[
            "Have both ends seen free when the rails start. Why: The moving rail takes both belts \
             with it, and no sweep looks there. With it a rule was broken: see the finding at",
        ],
        &["Have both ends seen free when the rails start. But"],
    ),
    (
        "rails-unproven",
        &[
            "Have both ends seen free when the rails start. Why: The moving rail takes both belts \
             with it, and no sweep looks there. With it a rule was broken: see the finding at",
        ],
        &["Have both ends seen free when the rails start. But"],
    ),
    (
        "started-hands-full",
        &["Have both ends seen free when the sweep starts. Why: The lift moves in the sweep."],
        &["Have both ends seen free when the sweep starts. But"],
    ),
    // Three rules at one Start: all of them are told.
    (
        "harms/sprung-out",
        &["But 3 rules were broken in doing it: see the findings at"],
        &[],
    ),
];

#[test]
fn a_verdict_says_what_it_rests_on_and_nothing_that_is_not_so() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let mut wrong = Vec::new();
    for (journal, says, says_not) in CASES {
        let path = play(journal, folder.path()).to_string_lossy().into_owned();
        let said = said_of(&["grade", &path]);
        let missing = says.iter().filter(|part| !said.contains(**part));
        wrong.extend(missing.map(|part| format!("{journal}: no “{part}” in: {said}")));
        let not_so = says_not.iter().filter(|part| said.contains(**part));
        wrong.extend(not_so.map(|part| format!("{journal}: “{part}” in: {said}")));
    }
    assert_eq!(wrong, [""; 0]);
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
    // Each doing reads as right before it was done: the panel asked about that slot.
    let said = what_if("answered-unseen");
    let head = "at 01:15 not “Slot 4: answer seen empty” but";
    assert!(said.contains(head), "{said}");
    let said = what_if("declared-unseen");
    let head = "at 01:09 not “Hold the declare-empty button";
    assert!(said.contains(head), "{said}");
    assert!(!said.contains("That is before the finding"), "{said}");
}

/// Whether the other attempt parts before the finding is told to a program as well.
#[test]
fn what_if_tells_a_program_whether_it_is_before_the_finding() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    for (journal, before) in [("hands-without-lock", true), ("declared-unseen", false)] {
        let path = play(journal, folder.path()).to_string_lossy().into_owned();
        let (_, said) = run(&["grade", "--json", "--what-if", "1", &path]);
        let object: Value = serde_json::from_str(&said).expect("it is one object");
        assert_eq!(object["what_if"]["before"], before, "{journal}");
    }
}

/// A rule with a window is broken by time alone: what was done next was not what broke it.
#[test]
fn what_time_alone_broke_is_told_as_waiting() {
    const RULE: &str = "    rules: [
        Rule(name: \"asked-again\", severity: Minor, source: \"invented\",
            always: Implies(Is(UpstreamHeld), Once(within_s: 20.0, of: Did(AskUpstreamHold)))),";
    let folder = tempfile::tempdir().expect("a folder can be made");
    let put = |path: &str, text: &str| {
        let path = folder.path().join(path);
        fs::create_dir_all(path.parent().expect("it has one")).expect("it can be made");
        fs::write(&path, text).expect("it can be written");
        path.to_string_lossy().into_owned()
    };
    let shipped = |path: &str| fs::read_to_string(root().join(path)).expect("it is shipped");
    let machine = "assets/machines/alder-16.ron";
    put(machine, &shipped(machine));
    let rules = shipped("assets/rules/changeover.ron").replacen("    rules: [", RULE, 1);
    assert!(rules.contains("asked-again"));
    put("assets/rules/changeover.ron", &rules);
    put(
        "scenarios/left-inside.ron",
        &shipped("scenarios/changeover/left-inside.ron"),
    );
    let journal = put(
        "by-hand.ron",
        &shipped("tests/journals/left-inside/by-hand.ron"),
    );
    let attempt = folder.path().join("timed.attempt");
    let attempt = attempt.to_string_lossy();
    let (exit, said) = run(&["play", "--journal", &journal, "--out", &attempt]);
    assert_eq!(exit, Exit::Done, "{said}");
    let said = said_of(&["grade", "--what-if", "1", &attempt]);
    assert!(said.contains("Done: nothing at that moment."), "{said}");
    assert!(said.contains(" not “waiting” but “"), "{said}");
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
    assert_eq!(told, 2, "each problem once: {said}");
    // Each problem begins a line of its own, with an empty one before it.
    let (_, raw) = run(&["grade", "--rules", &changed, &path]);
    let heads = raw.matches("problem: ").count();
    assert_eq!(raw.matches("\n\nproblem: ").count(), heads, "{raw}");
    assert_eq!((heads, raw.ends_with('\n')), (2, true), "{raw}");
}
