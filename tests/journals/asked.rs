//! What `prove` is asked for, rightly and wrongly.

use std::{fs, path::Path};

use rackproof_commands::Exit;
use rackproof_library::proof_path;

use crate::{
    play::{grade, in_a_row, run, text},
    proofs::{FILES, proved, tree},
};

/// What is named wrongly, and parts of what is said of it.
const REFUSED: &[(&[&str], Exit, &[&str])] = &[
    (
        &["gone.ron", "left-inside", "far-away.ron"],
        Exit::WrongUse,
        &["gone.ron cannot be read", "far-away.ron cannot be read"],
    ),
    (
        &["left-insid"],
        Exit::WrongUse,
        &[
            "left-insid cannot be read: there is no such file, and no drill of that name. \
             Perhaps “left-inside” is meant.",
        ],
    ),
    (
        &["DRILL", "--level", "x", "--states", "12"],
        Exit::WrongUse,
        &[
            "“x” is not a number",
            "Level 4 is exact",
            "12 states is out of range",
        ],
    ),
    (
        &["DRILL", "--level", "-5"],
        Exit::WrongUse,
        &["-5 is out of range. Level 4 is exact, level 5 squeezes"],
    ),
    (
        &["DRILL", "--variant", "green-lo"],
        Exit::WrongUse,
        &["Perhaps “green-low” is meant"],
    ),
    (
        &["DRILL", "--variant", "zzz"],
        Exit::WrongUse,
        &["Known are: green-low, green-middle"],
    ),
    (
        &["MACHINE"],
        Exit::WrongUse,
        &["alder-16.ron is no drill: its record is “Machine”"],
    ),
    (
        &["FOLDER/assets"],
        Exit::WrongUse,
        &["There is no drill in", "assets."],
    ),
    (
        &["FOLDER/broken.ron", "gone.ron"],
        Exit::WrongUse,
        &["The field “minutes” is 0", "gone.ron cannot be read"],
    ),
    (
        &["FOLDER/broken.ron"],
        Exit::No,
        &["The field “minutes” is 0"],
    ),
];

#[test]
fn all_that_is_wrong_is_told_before_anything_is_searched() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let drill = tree(folder.path());
    let shipped = fs::read_to_string(&drill).expect("it is there");
    let broken = shipped.replacen("minutes: 45", "minutes: 0", 1);
    fs::write(folder.path().join("broken.ron"), broken).expect("it can be written");
    let (root, drill) = (text(folder.path()), text(&drill));
    let machine = text(&folder.path().join(FILES[0]));
    for (words, exit, parts) in REFUSED {
        let named = words.iter().map(|word| match *word {
            "DRILL" => drill.clone(),
            "MACHINE" => machine.clone(),
            other => other.replace("FOLDER", &root),
        });
        let mut line = vec!["prove".to_owned()];
        line.extend(named);
        let of = |line: &[String]| run(&line.iter().map(String::as_str).collect::<Vec<_>>());
        let (found, said) = of(&line);
        let row = in_a_row(&said);
        assert_eq!(found, *exit, "{words:?}: {said}");
        line.push("--json".to_owned());
        let (found, json) = of(&line);
        let object: serde_json::Value = serde_json::from_str(&json).expect("it is one object");
        assert_eq!((found, &object["proved"]), (*exit, &false.into()), "{json}");
        let told = in_a_row(&object.to_string());
        for part in *parts {
            assert!(row.contains(part), "{words:?}: {part}: {said}");
            // For a program a file that cannot be read is a place, not a sentence.
            let part = part.split(" cannot be read").next().unwrap_or(part);
            assert!(told.contains(part), "{words:?}: {part}: {told}");
        }
        assert!(row.ends_with("Nothing was proved."), "{said}");
    }
    assert!(!proof_path(Path::new(&drill)).exists());
    // Sizes of racks are a list of figures, each with its bound.
    for (sizes, part) in [
        ("8,abc", "“abc” is not a number"),
        ("41,1", "41 slots is out of range"),
    ] {
        let (exit, said) = run(&["prove", &drill, "--slots", sizes]);
        assert_eq!(exit, Exit::WrongUse, "{said}");
        assert!(in_a_row(&said).contains(part), "{said}");
    }
}

/// A folder holds more than drills: what else is in it is passed over.
#[test]
fn in_a_folder_the_drills_are_found() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    proved(folder.path());
    let (exit, said) = run(&["prove", &text(folder.path())]);
    assert_eq!(exit, Exit::Done, "{said}");
    assert!(
        in_a_row(&said).contains("left-inside: every claim holds"),
        "{said}"
    );
    // With its texts and bounds, also if it was proved before.
    for part in [
        "The hashes of its texts begin with: machine alder-16",
        "13 variants (green-low, green-middle",
        "at most 1 slot left “not sure”",
        "Milestones, and how many of the guide’s runs",
    ] {
        assert!(in_a_row(&said).contains(part), "{part}: {said}");
    }
}

/// Who bounds the states of a search learns what that leaves open, and the drill keeps no proof.
#[test]
fn at_a_bound_that_was_asked_for_all_is_open_and_nothing_is_kept() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let drill = tree(folder.path());
    let path = text(&drill);
    // At level 6 there are few searches.
    let line = ["prove", &path, "--level", "6", "--states", "1000"];
    let (exit, said) = run(&line);
    let row = in_a_row(&said);
    assert_eq!(exit, Exit::No, "{said}");
    for part in [
        "each of at most 1000 states",
        "stopped at 1000 states",
        "open Rules suffice",
        "open Fair:",
        "The search stopped at its most states.",
        "left-inside: not proved.",
        "No proof is kept of searches that stopped at the bound of “--states”.",
    ] {
        assert!(row.contains(part), "{part}: {said}");
    }
    assert!(!proof_path(&drill).exists(), "{said}");
    let (exit, json) = run(&[&line[..], &["--json"]].concat());
    let json: serde_json::Value = serde_json::from_str(&json).expect("it is one object");
    assert_eq!((exit, &json["proved"]), (Exit::No, &false.into()));
    let open = serde_json::json!({"rules-suffice": null, "fair": null});
    assert_eq!(
        (&json["claims"], &json["interrupted"]),
        (&open, &false.into())
    );
    assert_eq!(json["written"]["proof"], serde_json::Value::Null);
}

/// The attempts that a kept proof has are written as those of one that was just made, and told in
/// the same place.
#[test]
fn attempts_of_a_kept_proof_are_listed_for_a_program() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let drill = text(&proved(folder.path()));
    let ways = folder.path().join("ways");
    let json = |ways: &Path, exit: Exit| {
        let (found, said) = run(&["prove", &drill, "--json", "--ways", &text(ways)]);
        assert_eq!(found, exit, "{said}");
        let json: serde_json::Value = serde_json::from_str(&said).expect("it is one object");
        assert_eq!(
            (&json["kept"], &json["proved"]),
            (&true.into(), &true.into())
        );
        assert_eq!(json["written"]["proof"], serde_json::Value::Null);
        json["written"].clone()
    };
    let written = json(&ways, Exit::Done);
    let path = written["attempts"][0].as_str().expect("it is a path");
    assert_eq!(written["attempts"].as_array().map(Vec::len), Some(1));
    assert_eq!(written["failed"], serde_json::json!([]));
    let name = "left-inside-guide-by-hand-green-low-1.attempt";
    assert!(path.ends_with(name), "{path}");
    let (exit, grade) = grade(Path::new(path));
    assert_eq!(
        (exit, &grade["verdict"]),
        (Exit::Done, &"passed".into()),
        "{grade:#}"
    );
    // Where nothing can be written, that is told in the same object, and the exit code says it.
    let file = folder.path().join("plain.txt");
    fs::write(&file, "Not a folder.").expect("it can be written");
    let written = json(&file.join("ways"), Exit::No);
    assert_eq!(written["attempts"], serde_json::json!([]));
    let failed = written["failed"].as_array().expect("it is a list");
    assert_eq!(failed.len(), 1, "{written:#}");
    let told = failed[0]["file"].as_str().expect("it is a path");
    assert!(told.contains("plain.txt/ways"), "{told}");
    assert!(!failed[0]["reason"].as_str().expect("it is text").is_empty());
}
