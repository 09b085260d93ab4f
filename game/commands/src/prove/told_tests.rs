//! What is said of searches that did not come to their end, and of a proof that cannot be kept.

use rackproof_library::shown;
use rackproof_words::Words;

use super::{loaded, proof, said, to_keep, way};
use crate::prove::{
    claims::Line,
    head,
    json::{self, Origin},
    leave,
    level::Level,
    report,
    written::Written,
};

/// What no way breaks is open when the searches were ended, and what one breaks is not.
#[test]
fn ended_before_its_time_a_claim_is_open_or_broken() {
    let drill = loaded();
    let words = Words::english();
    let mut proof = proof(&drill, false);
    proof.kept[5].harm = Some((5, vec!["Wait(1)".to_owned()]));
    proof.kept[5].complete = false;
    proof.vacuity = None;
    let mut out = Vec::new();
    report::write_claims(&drill, &proof, true, &mut out, &words).expect("memory can be written");
    let said = String::from_utf8(out).expect("it says text");
    assert!(said.contains("fails      Rules suffice"), "{said}");
    assert!(said.contains("open       Fair:"), "{said}");
    assert!(said.contains("Ended before its time."), "{said}");
    // The guide's runs come before all searches.
    assert_eq!(said.matches("holds      ").count(), 2, "{said}");
    for known in ["Guide:", "Milestones:"] {
        assert!(said.contains(&format!("holds      {known}")), "{said}");
    }
}

/// At its most states a search shows nothing of what it did not break, and says what would help.
#[test]
fn a_search_that_stopped_at_its_most_states_says_what_is_open_and_what_would_help() {
    let drill = loaded();
    let mut proof = proof(&drill, false);
    proof.kept[0].complete = false;
    let kept = to_keep(&drill, &proof);
    assert!(!kept.holds());
    let said = said(&drill, &proof);
    for part in [
        "open       Rules suffice",
        "open       Races:",
        "holds      Live traps",
        "The search stopped at its most states.",
        "“--level 5”",
        "left-inside: not proved.",
        "\"rules-suffice\":null",
        "\"proved\":false",
    ] {
        assert!(said.contains(part), "{part}: {said}");
    }
    assert!(!said.contains("every claim holds"), "{said}");
    assert!(!said.contains("fails      "), "{said}");
}

/// What helps hangs on why a search did not come to its end, and on what was merged already.
#[test]
fn why_a_search_stopped_and_what_would_help_are_told_apart() {
    let drill = loaded();
    let most = "The search stopped at its most states.";
    let behave = "The search stopped where two states that were merged behave differently";
    let (five, six) = ("“--level 5”", "“--level 6”");
    let cases: [(Level, bool, &[&str], &[&str]); 4] = [
        (Level::Exact, false, &[most, five, six], &[behave]),
        (Level::Squeezed, false, &[most, six], &[behave, five]),
        (Level::Unordered, false, &[most], &[behave, five, six]),
        (Level::Unordered, true, &[behave], &[most, five, six]),
    ];
    for (level, incongruent, parts, others) in cases {
        let mut proof = proof(&drill, false);
        proof.level = level;
        proof.kept[0].complete = false;
        proof.kept[0].incongruent = way(incongruent).map(|way| (0, way));
        let said = said(&drill, &proof);
        let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
        for part in parts {
            assert!(said.contains(part), "{level:?}: {part}: {said}");
        }
        for part in others {
            assert!(!said.contains(part), "{level:?}: {part}: {said}");
        }
        // And where the search is told of, as soon as it stopped.
        let (mut out, words) = (Vec::new(), Words::english());
        let line = Line::Kept(&proof.kept[0], &drill.exercise);
        head::write_progress(&line, &mut out, &words).expect("memory can be written");
        let row = String::from_utf8(out).expect("it says text");
        let end = match incongruent {
            true => "Two states that were merged behave differently.\n",
            false => "Not proved within the bounds.\n",
        };
        assert!(row.ends_with(end), "{row}");
    }
}

/// A disk that is full, a folder that nobody may write in: here a file stands where the folder is
/// to be, so that it fails for everybody.
#[test]
fn a_proof_that_cannot_be_kept_is_told_with_its_path_and_the_reason() {
    let folder = tempfile::tempdir().expect("there is room");
    let file = folder.path().join("plain.txt");
    std::fs::write(&file, "Not a folder.").expect("there is room");
    let mut drill = loaded();
    drill.material.drill.file = shown(&file.join("left-inside.ron"));
    let (proof, words) = (proof(&drill, false), Words::english());
    let (mut out, mut written) = (Vec::new(), Written::default());
    leave::keep((&drill, &proof), (&mut out, &mut written), &words).expect("memory can be written");
    let made = Origin::Made { interrupted: false };
    let told = json::json(&drill, &proof, (made, &written), &words);
    let of = &told["written"];
    assert_eq!(of["proof"], serde_json::Value::Null, "{of}");
    assert_eq!(of["failed"].as_array().map(Vec::len), Some(1), "{of}");
    let path = format!("{}/left-inside.proof.ron", shown(&file));
    assert_eq!(of["failed"][0]["file"], path.as_str());
    let reason = of["failed"][0]["reason"].as_str().expect("it is text");
    assert!(
        reason.contains("os error"),
        "a program gets the system's own: {reason}"
    );
    // What was found is no less so.
    assert_eq!(
        (&told["proved"], &told["kept"]),
        (&true.into(), &false.into())
    );
    let said = String::from_utf8(out).expect("it says text");
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    let why =
        format!("{path} cannot be written: its folder is not there. Make it, or name another.");
    assert!(said.contains(&why), "{said}");
    assert!(!said.contains("is kept as"), "{said}");
    assert_eq!(words.faults(), [""; 0]);
}
