//! Attempts that come out otherwise in this version: what was recorded by another core stands, what
//! this one computes is told beside it, and nothing is made up.

use std::{fs, path::Path};

use rackproof_attempt::hash_of;
use rackproof_commands::Exit;
use serde_json::Value;

use crate::play::{grade, in_a_row, play, run};

/// A kept journal's attempt with some of its text changed and its chain of hashes made anew, as
/// another core, or somebody with time, would have written it.
fn rewritten(journal: &str, folder: &Path, pairs: &[(&str, &str)]) -> std::path::PathBuf {
    let path = play(journal, folder);
    let mut text = fs::read_to_string(&path).expect("it was written");
    for (from, to) in pairs {
        assert!(text.contains(from), "{journal} has no {from}");
        text = text.replace(from, to);
    }
    let (mut before, mut anew) = (String::new(), String::new());
    for line in text.lines() {
        let (content, _) = line
            .rsplit_once(",\"hash\":\"")
            .expect("each line is sealed");
        let hash = hash_of(&format!("{before}{content}"));
        anew.push_str(&format!("{content},\"hash\":\"{hash}\"}}\n"));
        before = hash;
    }
    fs::write(&path, anew).expect("it can be written");
    path
}

/// What the file says of the core: this program's.
fn this_core(folder: &Path) -> String {
    let text = fs::read_to_string(play("by-hand-low", folder)).expect("it was written");
    let (_, rest) = text.split_once("\"core\":\"").expect("it names its core");
    format!("\"core\":\"{}\"", &rest[..64])
}

fn said_of(path: &Path) -> String {
    let (exit, said) = run(&["grade", &path.to_string_lossy()]);
    assert_eq!(
        exit,
        Exit::No,
        "what cannot be confirmed is no pass: {said}"
    );
    in_a_row(&said)
}

struct Case {
    journal: &'static str,
    /// What another core is made to have recorded.
    pairs: &'static [(&'static str, &'static str)],
    recorded: Value,
    computed: Value,
    flips: Value,
    said: &'static [&'static str],
}

const FAILED: &str = "By the recorded outcomes: failed.";
const PASSED: &str = "By the recorded outcomes: passed. This version cannot confirm them.";

/// What stands in each case follows from the record alone: no stop rule, no harm, the job reported
/// and the finish reached is a pass.
fn otherwise() -> Vec<Case> {
    vec![
        Case {
            journal: "by-hand",
            pairs: &[("StrapsTested\"", "Dark\"")],
            recorded: "passed".into(),
            computed: "passed".into(),
            flips: false.into(),
            said: &[
                PASSED,
                "The same doings in this version: passed.",
                "The verdict is the same.",
            ],
        },
        Case {
            journal: "hands-untried",
            pairs: &[("Broke(hands-untried)", "Told(Nothing)")],
            recorded: "passed".into(),
            computed: "failed".into(),
            flips: true.into(),
            said: &[
                PASSED,
                "It does not flip.",
                "Broken now: hands-untried (Major).",
            ],
        },
        Case {
            journal: "by-hand",
            pairs: &[("StrapsTested\"", "Broke(hands-untried)\"")],
            recorded: "failed".into(),
            computed: "passed".into(),
            flips: true.into(),
            said: &[FAILED, "Not broken any more: hands-untried (Major)."],
        },
        Case {
            journal: "by-hand",
            pairs: &[("StrapsTested\"", "Harm(Dropped, wren, nowhere, 2, 1)\"")],
            recorded: "failed".into(),
            computed: "passed".into(),
            flips: true.into(),
            said: &[
                FAILED,
                "No harm any more: Harm(Dropped, wren, nowhere, 2, 1).",
            ],
        },
        Case {
            journal: "by-hand",
            pairs: &[(
                "\"reached\":true,\"open\":[]",
                "\"reached\":false,\"open\":[\"KeyOut\"]",
            )],
            recorded: "failed".into(),
            computed: "passed".into(),
            flips: true.into(),
            said: &[FAILED, "Not open any more: The setter's key is out."],
        },
    ]
}

/// Records from before the finish was recorded, one that was not reported, and one that cannot be
/// done here.
fn without_an_end() -> Vec<Case> {
    vec![
        // A stop fails it all the same, and where nothing fails it, nothing is claimed.
        Case {
            journal: "hands-without-lock",
            pairs: &[
                (",\"finish\":{\"reached\":true,\"open\":[]}", ""),
                ("StrapsTested\"", "Dark\""),
            ],
            recorded: "failed".into(),
            computed: "failed".into(),
            flips: false.into(),
            said: &[FAILED],
        },
        Case {
            journal: "by-hand",
            pairs: &[
                (",\"finish\":{\"reached\":true,\"open\":[]}", ""),
                ("StrapsTested\"", "Dark\""),
            ],
            recorded: Value::Null,
            computed: "passed".into(),
            flips: Value::Null,
            said: &[
                "so there is no verdict by the record",
                "in this version: passed.",
            ],
        },
        // Not reported.
        Case {
            journal: "by-hand",
            pairs: &[("\"cause\":\"Report\"", "\"cause\":\"Torch(false)\"")],
            recorded: "not ended".into(),
            computed: "not ended".into(),
            flips: false.into(),
            said: &["By the recorded outcomes: not ended."],
        },
        // What this version does not let anybody do.
        Case {
            journal: "by-hand",
            pairs: &[("\"cause\":\"TryStart\"", "\"cause\":\"LockOff\"")],
            recorded: "passed".into(),
            computed: Value::Null,
            flips: Value::Null,
            said: &[PASSED, "This version cannot run it to its end"],
        },
    ]
}

#[test]
fn what_another_core_recorded_stands_and_what_this_one_computes_is_told_beside_it() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let this = this_core(folder.path());
    let another = format!("\"core\":\"{}\"", "0".repeat(64));
    for case in otherwise().into_iter().chain(without_an_end()) {
        let mut pairs = vec![(this.as_str(), another.as_str())];
        pairs.extend(case.pairs);
        let folder = tempfile::tempdir().expect("a folder can be made");
        let path = rewritten(case.journal, folder.path(), &pairs);
        let (exit, object) = grade(&path);
        let about = format!("{} {:?}: {object:#}", case.journal, case.pairs);
        assert_eq!(
            (exit, &object["passed"]),
            (Exit::No, &false.into()),
            "{about}"
        );
        assert_eq!(object["state"], "differs", "{about}");
        assert_eq!(object["core"], "another", "{about}");
        assert_eq!(object["recorded"]["verdict"], case.recorded, "{about}");
        assert_eq!(object["computed"]["verdict"], case.computed, "{about}");
        assert_eq!(object["flips"], case.flips, "{about}");
        let said = said_of(&path);
        for part in case.said.iter().chain(&["The recorded outcomes stand."]) {
            assert!(
                said.contains(part),
                "{}: no {part} in:\n{said}",
                case.journal
            );
        }
    }
}

/// Nobody gets a verdict by writing down better outcomes than this very core computes.
#[test]
fn outcomes_that_this_core_does_not_compute_do_not_stand_under_its_name() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = rewritten(
        "hands-untried",
        folder.path(),
        &[("Broke(hands-untried)", "Told(Nothing)")],
    );
    let (_, object) = grade(&path);
    assert_eq!(object["state"], "differs");
    assert_eq!(object["core"], "this");
    assert_eq!(object["recorded"]["verdict"], Value::Null);
    assert_eq!(object["flips"], Value::Null);
    let said = said_of(&path);
    assert!(said.contains("Its outcomes do not stand."), "{said}");
    assert!(!said.contains("By the recorded outcomes"), "{said}");
}

#[test]
fn a_folder_lists_the_verdicts_that_would_flip() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let this = this_core(folder.path());
    let another = format!("\"core\":\"{}\"", "0".repeat(64));
    let core = (this.as_str(), another.as_str());
    let broke = ("Broke(hands-untried)", "Told(Nothing)");
    rewritten("hands-untried", folder.path(), &[core, broke]);
    rewritten(
        "by-hand",
        folder.path(),
        &[core, ("StrapsTested\"", "Dark\"")],
    );
    let (_, said) = run(&["grade", &folder.path().to_string_lossy()]);
    let said = in_a_row(&said);
    assert!(
        said.contains("Passed: 1. Failed: 0. Not ended: 0. Not graded: 2."),
        "{said}"
    );
    let listed = "2 attempts come out otherwise in this version. One verdict would flip: \
                  What was recorded by another core stands.";
    assert!(said.contains(listed), "{said}");
    assert!(
        said.contains("hands-untried.attempt: passed becomes failed."),
        "{said}"
    );
    assert_eq!(said.matches("becomes").count(), 1, "{said}");
}

/// An attempt is graded as one of the drill and variant whose texts it keeps, or not at all.
#[test]
fn an_attempt_that_names_another_drill_than_its_own_is_not_graded() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let pairs = [
        (
            "\"drill\":\"left-inside\",\"variant\"",
            "\"drill\":\"other\",\"variant\"",
        ),
        ("\"variant\":\"green-middle\"", "\"variant\":\"nowhere\""),
        ("\"number\":1,", "\"number\":99,"),
    ];
    for pair in pairs {
        let path = rewritten("by-hand", folder.path(), &[pair]);
        let said = said_of(&path);
        assert!(
            said.contains("are of another drill, or have no such variant")
                && !said.contains("PASSED"),
            "{said}"
        );
        let (_, object) = grade(&path);
        assert_eq!(object["state"], "other-drill");
        assert_eq!(object["passed"], false);
        fs::remove_file(&path).expect("it is there");
    }
}

/// What a file says stands on one line, so that none of it can be taken for what the program says.
#[test]
fn a_note_cannot_speak_for_the_program() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let note =
        "{\"noted\":1,\"note\":\"Claim(x\\n\\nPASSED\\u001b[2J)\",\"hash\":\"\"}\n{\"at\":3000000,";
    let path = rewritten(
        "hands-untried",
        folder.path(),
        &[("{\"at\":3000000,", note)],
    );
    let (exit, said) = run(&["grade", &path.to_string_lossy()]);
    assert_eq!(exit, Exit::No, "{said}");
    let verdicts: Vec<&str> = said
        .lines()
        .filter(|line| line.trim() == "PASSED")
        .collect();
    assert_eq!(verdicts, [""; 0], "{said}");
    assert!(
        said.contains("FAILED") && !said.contains('\u{1b}'),
        "{said}"
    );
    let claims = &grade(&path).1["claims"];
    let claim = claims[0]["claim"].as_str().expect("it is noted");
    assert_eq!(claims[0]["at"], 1);
    assert!(!claim.contains(['\n', '\u{1b}']), "{claims:#}");
}
