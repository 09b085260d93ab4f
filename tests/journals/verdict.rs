//! What a grade says beyond its verdict: evidence, guesses, what was left behind; the moment of a
//! finding run on with the right action; many attempts, and grading again.

use std::{fs, path::Path};

use rackproof_commands::Exit;
use serde_json::Value;

use crate::play::{grade, in_a_row, play, root, run};

fn text(value: &Value) -> String {
    value.as_str().expect("it is a text").to_owned()
}

/// What a command says, its line breaks aside.
fn said_of(arguments: &[&str]) -> (Exit, String) {
    let (exit, said) = run(arguments);
    (exit, in_a_row(&said))
}

fn list(value: &Value) -> &[Value] {
    value.as_array().expect("it is a list")
}

/// The place of each board that truly lay somewhere, and from where it could be seen.
fn visible(breach: &Value) -> Vec<String> {
    let boards = list(&breach["evidence"]["boards"]).iter();
    let said = boards.map(|one| {
        let from = list(&one["from"]).iter();
        let from: Vec<String> = from.map(|from| text(&from[1])).collect();
        format!(
            "{} {}: {}",
            text(&one["board"]),
            text(&one["place"]),
            from.join(" ")
        )
    });
    said.collect()
}

/// Source: where the variants of the drill file put their boards; each lean shows its own half.
#[test]
fn a_finding_says_what_was_true_and_from_where_it_could_be_seen() {
    let cases: &[(&str, &str, &[&str])] = &[
        (
            "declared-unseen",
            "declared-unseen",
            &["raven Slot(12, Outfeed): LeanOutfeed"],
        ),
        (
            "belt-forgotten",
            "belts-unseen",
            &["wren Belt(Infeed): Mouth"],
        ),
        ("declared-unseen-harmless", "declared-unseen", &[]),
    ];
    let folder = tempfile::tempdir().expect("a folder can be made");
    for (journal, rule, expected) in cases {
        let path = play(journal, folder.path());
        let (_, object) = grade(&path);
        let breaches = list(&object["breaches"]).iter();
        let breach = breaches.clone().find(|breach| breach["rule"] == *rule);
        let breach = breach.unwrap_or_else(|| panic!("{journal}: {object:#}"));
        assert_eq!(visible(breach), *expected, "{journal}");
        let (_, said) = run(&["grade", &path.to_string_lossy()]);
        for label in [
            "True was:",
            "Believed:",
            "Looked at:",
            "To be seen:",
            "Why:",
            "Source:",
        ] {
            assert!(said.contains(label), "{journal}: no {label} in:\n{said}");
        }
    }
}

/// Source: the machine file (boards of 160 mm and 220 mm, 0.8 mm of side play) and the rule (from
/// 0.4 mm to 2 mm of play).
#[test]
fn a_finding_on_a_width_says_how_far_it_was_from_its_limit() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = play("production-width", folder.path());
    let (_, object) = grade(&path);
    let missed = serde_json::json!({
        "um": -59_600, "read_um": 160_800, "limit_um": 220_400, "least": true,
    });
    assert_eq!(object["breaches"][0]["missed"], missed);
    assert_eq!(object["margins"][0]["spare"], missed);
    let (_, said) = said_of(&["grade", &path.to_string_lossy()]);
    let finding = "160.8 mm was read: 59.6 mm under the limit of 220.4 mm.";
    assert!(said.contains(finding), "{said}");
    let path = play("production-started", folder.path());
    let (_, said) = said_of(&["grade", &path.to_string_lossy()]);
    let kept = "At the nearest 220.8 mm: 0.4 mm to spare, at least 220.4 mm.";
    assert!(said.contains(kept), "{said}");
}

/// Boards, order and traceability, and the line. Source: the journals, counted by hand. In this
/// drill the unit stands in Production at the start, so that the line stands all the time.
#[test]
fn what_an_attempt_left_behind_is_counted() {
    // Lost, left, into quarantine, put in by hand.
    let cases: &[(&str, [u64; 4])] = &[
        ("by-hand", [0, 0, 1, 0]),
        ("declared-unseen", [1, 1, 0, 0]),
        ("board-put-in", [0, 0, 1, 1]),
        ("sweep-believed", [1, 1, 0, 0]),
    ];
    let folder = tempfile::tempdir().expect("a folder can be made");
    for (journal, expected) in cases {
        let (_, object) = grade(&play(journal, folder.path()));
        let outturn = &object["outturn"];
        let found = [
            &outturn["lost"],
            &outturn["left"],
            &outturn["put_down"]["quarantine"],
            &outturn["put_in"],
        ];
        let found = found.map(|number| number.as_u64().expect("a number"));
        assert_eq!(found, *expected, "{journal}");
        assert_eq!(outturn["line_stood_us"], object["time_us"], "{journal}");
    }
}

/// Plays a journal text to an attempt.
fn play_text(folder: &Path, name: &str, journal: &str) -> std::path::PathBuf {
    let path = folder.join(format!("{name}.ron"));
    fs::write(&path, journal).expect("it can be written");
    let out = folder.join(format!("{name}.attempt"));
    let paths = [&path, &out].map(|path| path.to_string_lossy().into_owned());
    let (exit, said) = run(&["play", "--journal", &paths[0], "--out", &paths[1]]);
    assert_eq!(exit, Exit::Done, "{name}: {said}");
    out
}

/// From each finding the right action is run on, and what is told is what a journal of it gives.
#[test]
fn from_a_finding_the_right_action_is_run_on() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    // The first finding. With it mended everything is kept, or something else stays broken.
    let cases = [
        ("declared-unseen", "passed"),
        ("declared-unseen-harmless", "passed"),
        ("sweep-believed", "passed"),
        ("half-a-look", "passed"),
        ("belt-forgotten", "passed"),
        ("hands-without-lock", "passed"),
        ("answered-unseen", "passed"),
        ("upstream-let-go-early", "passed"),
        ("power-given-early", "passed"),
    ];
    for (journal, verdict) in cases {
        let path = play(journal, folder.path()).to_string_lossy().into_owned();
        let (exit, said) = run(&["grade", "--json", "--what-if", "1", &path]);
        assert_eq!(exit, Exit::No, "{journal}: the attempt itself failed");
        let object: Value = serde_json::from_str(&said).expect("it is one object");
        let other = &object["what_if"];
        assert_eq!(other["verdict"], verdict, "{journal}: {other:#}");
        assert!(other["from"].as_u64() <= object["breaches"][0]["at"].as_u64());
        // The same as a journal, played and graded by itself.
        let variant = text(&object["variant"]);
        let entries: Vec<String> = list(&other["journal"]).iter().map(text).collect();
        let again = format!(
            "Journal(drill: \"left-inside\", variant: \"{variant}\", causes: [{}])",
            entries.join(", ")
        );
        let again = play_text(folder.path(), &format!("{journal}-else"), &again);
        let (_, again) = grade(&again);
        for part in [
            "verdict",
            "breaches",
            "harms",
            "unfinished",
            "time_us",
            "outturn",
        ] {
            assert_eq!(again[part], other[part], "{journal}: {part}");
        }
        let (_, told) = run(&["grade", "--what-if", "1", &path]);
        assert!(told.contains("It would have ended: PASSED"), "{told}");
        assert!(told.contains("As a journal, from there on:"), "{told}");
    }
    let path = play("by-hand", folder.path())
        .to_string_lossy()
        .into_owned();
    let (_, told) = run(&["grade", "--what-if", "1", &path]);
    assert!(
        told.contains("There is no finding 1. This attempt has no finding."),
        "{told}"
    );
}

/// The clone's rules with one part in place of another, in a file of its own.
fn changed_rules(folder: &Path, from: &str, to: &str) -> String {
    let rules = fs::read_to_string(root().join("assets/rules/changeover.ron"));
    let rules = rules.expect("it is shipped");
    assert!(rules.contains(from), "no {from}");
    let path = folder.join("changed.ron");
    fs::write(&path, rules.replacen(from, to, 1)).expect("it can be written");
    path.to_string_lossy().into_owned()
}

#[test]
#[expect(
    clippy::too_many_lines,
    reason = "one folder, looked at from all sides"
)]
fn a_folder_is_graded_again_and_flips_are_listed_with_their_reason() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let (attempts, other) = (folder.path().join("attempts"), folder.path().join("other"));
    for folder in [&attempts, &other] {
        fs::create_dir(folder).expect("it can be made");
    }
    for journal in [
        "by-hand",
        "hands-untried",
        "declared-unseen",
        "hands-without-lock",
    ] {
        play(journal, &attempts);
    }
    let whole = fs::read(attempts.join("by-hand.attempt")).expect("it was written");
    let cut = &whole[..whole.len() - 300];
    fs::write(attempts.join("cut.attempt"), cut).expect("it can be written");
    let edited = String::from_utf8(whole)
        .expect("it is text")
        .replacen("HandIn", "HandOn", 1);
    fs::write(attempts.join("edited.attempt"), edited).expect("it can be written");
    let later = b"{\"format\":9,\"kind\":\"rackproof attempt\"}\n";
    fs::write(attempts.join("later.attempt"), later).expect("it can be written");
    let path = attempts.to_string_lossy().into_owned();
    // By the rules that they keep, which are those on disk: nothing is graded again.
    let (exit, said) = said_of(&["grade", &path]);
    assert_eq!(exit, Exit::No, "{said}");
    let tally = "Passed: 1. Failed: 3. Not ended: 0. Not graded: 3.";
    assert!(said.contains(tally) && !said.contains("becomes"), "{said}");
    assert!(
        said.contains("was cut off") && said.contains("was changed after"),
        "{said}"
    );
    assert!(said.contains("later than this program"), "{said}");
    // Who had not tried under lock failed for it. Once that is minor, they pass; the cut and the
    // edited ones are not graded by any rules.
    let lenient = changed_rules(
        &other,
        "Rule(name: \"hands-untried\", severity: Major",
        "Rule(name: \"hands-untried\", severity: Minor",
    );
    let (_, said) = said_of(&["grade", "--rules", &lenient, &path]);
    assert!(said.contains(tally), "the verdicts stand: {said}");
    assert!(
        said.contains("4 attempts were graded again. What happened stands"),
        "{said}"
    );
    assert!(
        said.contains("One verdict flips: - ") && said.contains("hands-untried.attempt: failed"),
        "the list follows: {said}"
    );
    assert!(
        said.contains("hands-untried.attempt: failed becomes passed."),
        "{said}"
    );
    assert!(
        said.contains("Broken now: hands-untried (Minor)."),
        "{said}"
    );
    assert!(
        said.contains("Not broken any more: hands-untried (Major)."),
        "{said}"
    );
    assert_eq!(said.matches("becomes").count(), 1, "{said}");
    // A rule that the good one breaks flips it, and no other.
    let strict = changed_rules(
        &other,
        "always: Implies(Did(PressEmergency), Is(Moving))",
        "always: Not(Did(TestStraps))",
    );
    let text = fs::read_to_string(&strict).expect("it is there");
    let text = text.replace(
        "\"emergency-for-stop\", severity: Minor",
        "\"emergency-for-stop\", severity: Stop",
    );
    fs::write(&strict, text).expect("it can be written");
    let (_, said) = run(&["grade", "--json", "--rules", &strict, &path]);
    let objects: Vec<Value> = said
        .lines()
        .map(|line| serde_json::from_str(line).expect("each line is an object"))
        .collect();
    assert_eq!(objects.len(), 7);
    let flips = objects.iter().filter(|one| one["again"]["flips"] == true);
    let flips: Vec<&Value> = flips.collect();
    assert_eq!(flips.len(), 1, "{flips:#?}");
    assert!(text_of_attempt(flips[0]).ends_with("by-hand.attempt"));
    assert_eq!(
        flips[0]["verdict"], "passed",
        "the verdict of its own rules stands"
    );
    assert_eq!(flips[0]["again"]["after"], "failed");
    assert_eq!(flips[0]["again"]["now"][0]["rule"], "emergency-for-stop");
    // Rules that cannot be read grade nothing.
    let broken = changed_rules(&other, "severity: Stop", "severity: Grave");
    let (_, said) = said_of(&["grade", "--rules", &broken, &path]);
    assert!(said.contains("4 attempts cannot be graded"), "{said}");
    let empty = folder.path().join("empty");
    fs::create_dir(&empty).expect("it can be made");
    let empty = rackproof_library::shown(&empty);
    let none = format!("There is no attempt in {empty}: no file in it ends in .attempt.");
    // Beside others it is named as well, and is no yes.
    let passed = play("by-hand-low", folder.path());
    for others in [&[][..], &[&*passed.to_string_lossy()]] {
        let (exit, said) = said_of(&[&["grade", &empty], others].concat());
        assert_eq!(exit, Exit::No);
        assert!(said.contains(&none), "{said}");
        assert_eq!(said.contains("PASSED"), !others.is_empty(), "{said}");
    }
}

/// Whoever asks as a program is answered as one, also where nothing is graded.
#[test]
fn a_program_is_always_answered_with_objects() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = play("by-hand", folder.path());
    let path = path.to_string_lossy();
    let empty = folder.path().join("empty");
    fs::create_dir(&empty).expect("it can be made");
    let empty = rackproof_library::shown(&empty);
    let cases: [(&[&str], &str, &str); 4] = [
        (&[&empty], "none", "There is no attempt in"),
        (
            &["nothing.attempt"],
            "unread",
            "nothing.attempt cannot be read",
        ),
        (
            &["--rules", "nothing.ron", &path],
            "unread",
            "nothing.ron cannot be read",
        ),
        (
            &["--way-on", "soon", &path],
            "no-moment",
            "“soon” is no moment",
        ),
    ];
    for (arguments, state, reason) in cases {
        let (exit, said) = run(&[&["grade", "--json"], arguments].concat());
        assert_ne!(exit, Exit::Done, "{arguments:?}");
        let object: Value = serde_json::from_str(&said).expect("it is one object");
        assert_eq!(
            (&object["state"], &object["passed"]),
            (&state.into(), &false.into())
        );
        assert!(text(&object["reason"]).contains(reason), "{object:#}");
    }
}

fn text_of_attempt(object: &Value) -> String {
    text(&object["attempt"])
}

/// Who asks for other texts is told that nothing came of it, also by the exit, and all that is
/// wrong in them.
#[test]
fn named_texts_with_problems_are_no_yes() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = play("by-hand", folder.path())
        .to_string_lossy()
        .into_owned();
    let (exit, _) = run(&["grade", &path]);
    assert_eq!(exit, Exit::Done);
    let broken = changed_rules(folder.path(), "severity: Stop", "severity: Grave");
    let (exit, said) = said_of(&["grade", "--rules", &broken, &path]);
    assert_eq!(exit, Exit::No, "{said}");
    assert!(said.contains("PASSED"), "its own rules stand: {said}");
    let (exit, said) = run(&["grade", "--json", "--rules", &broken, &path]);
    assert_eq!(exit, Exit::No, "{said}");
    let object: Value = serde_json::from_str(&said).expect("it is one object");
    let problems = object["again"]["problems"].as_array();
    let problems = problems.expect("they are listed");
    assert_eq!(problems.len(), 1, "{said}");
    assert!(problems[0].to_string().contains("Grave"), "{said}");
}
