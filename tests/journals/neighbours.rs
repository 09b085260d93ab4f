//! Neighbours with quirks: a journal and a small drill for each. What the attempt must hold, what
//! it must not, and which harms come of it.

use std::fs;

use rackproof_commands::Exit;
use rackproof_library::files_in;

use crate::{
    all_shown::lies_in,
    play::{grade, in_clone, root, run},
};

/// A journal, what must be told in its attempt in this order, what must not, and its harms.
pub(crate) type Case = (
    &'static str,
    &'static [&'static str],
    &'static [&'static str],
    &'static [&'static str],
);

const CASES: &[Case] = &[
    (
        "stands-behind",
        &["BoardStored(3)", "Cue(NeighbourStands(Outfeed))"],
        &["BoardSent"],
        &[],
    ),
    (
        "wait-for-each-other",
        &["Cue(BoardWaitsUpstream)"],
        &["MachineReady(true)", "BoardStored"],
        &[],
    ),
    (
        "jumper-behind",
        &["Alarmed(NoArrival)", "Cue(Jumper(Outfeed))"],
        &["BoardSent"],
        &["Collided"],
    ),
    (
        "jumper-seen",
        &["Cue(NeighbourStands(Outfeed))", "Cue(Jumper(Outfeed))"],
        &["BoardStored", "BoardSent"],
        &[],
    ),
    (
        "link-behind",
        &["BoardSent(1)", "BoardStored(1)", "Cue(TakesAlways)"],
        &["Alarmed"],
        &[],
    ),
    (
        "always-offered",
        &[
            "Started(Belts)",
            "Alarmed(NoArrival)",
            "Cue(Jumper(Infeed))",
        ],
        &["BoardStored"],
        &[],
    ),
    (
        "failed-board-among-good",
        &["FailedBoardCame(wren)", "BoardSent(1)"],
        &["Alarmed"],
        &[],
    ),
    (
        "failed-board-waits",
        &[
            "Cue(FailedLampLit)",
            "Cue(BoardWaitsUpstream)",
            "FailedBoardTakenAway(wren)",
        ],
        &["FailedBoardCame"],
        &[],
    ),
    (
        "dropped-behind",
        &[
            "Alarmed(NoArrival)",
            "SawBelt(Outfeed, 1)",
            "Cue(NeighbourStands(Outfeed))",
            "Took(wren",
        ],
        &["SawMouth(Outfeed, taken true)"],
        &[],
    ),
    (
        "dropped-before",
        &["Alarmed(NoArrival)", "SawBelt(Infeed, 0)"],
        &["BoardEntered", "BoardStored"],
        &[],
    ),
    (
        "chatters",
        &["BoardSent(1)", "Cue(LampFlickers)"],
        &[],
        &["Collided"],
    ),
    (
        "two-on-one-closing",
        &["BoardLaid(wren)", "BoardStored(1)"],
        &[],
        &["Collided"],
    ),
    (
        "two-on-one-closing-seen",
        &[
            "SawBoardLaid",
            "SawBelt(Infeed, 2)",
            "Took(wren",
            "BoardSent(1)",
        ],
        &["Alarmed"],
        &[],
    ),
    (
        "slow",
        &["BoardStored(2)", "BoardSent(2)"],
        &["Alarmed"],
        &[],
    ),
    (
        "old-rails-behind",
        &["Alarmed(NoArrival)", "Cue(OtherWidth(Outfeed))"],
        &["BoardSent"],
        &["Collided"],
    ),
    // 220.8 mm less 160: falls beyond a ledge of 3.
    (
        "old-rails-before",
        &[
            "Cue(OtherWidth(Infeed))",
            "Harm(Dropped, wren, Belt(Infeed), 60800, 3000)",
        ],
        &["Alarmed"],
        &["Dropped"],
    ),
    (
        "fed-by-hand",
        &["BoardSent(1)", "BoardLaid(wren)", "Cue(FedByHand)"],
        &["BoardEntered", "Alarmed"],
        &[],
    ),
    (
        "turned",
        &["BoardLaid(wren)", "BoardSent(1)"],
        &["Alarmed"],
        &[],
    ),
    (
        "test-box-before",
        &["Alarmed(NoArrival)", "Cue(TestBox(Infeed))"],
        &["BoardStored"],
        &[],
    ),
    (
        "test-box-behind",
        &["BoardSent(1)", "Cue(TestBox(Outfeed))"],
        &[],
        &["Dropped"],
    ),
    (
        "jumper-taken-out",
        &[
            "Cue(Jumper(Outfeed))",
            "Cue(JumperOut(Outfeed))",
            "Cue(NeighbourStands(Outfeed))",
            "BoardStored(3)",
        ],
        &["BoardSent", "Alarmed"],
        &[],
    ),
    (
        "jumper-upstream-taken-out",
        &["Cue(JumperOut(Infeed))", "BoardStored(1)", "BoardSent(1)"],
        &["Alarmed"],
        &[],
    ),
    (
        "test-box-taken-off",
        &[
            "Cue(TestBoxOff(Outfeed))",
            "Cue(PlugInOrder(Outfeed))",
            "Cue(NoMachine(Outfeed))",
        ],
        &["BoardSent", "Alarmed"],
        &[],
    ),
    (
        "test-box-before-taken-off",
        &[
            "Cue(TestBox(Infeed))",
            "Cue(TestBoxOff(Infeed))",
            "Cue(PlugInOrder(Infeed))",
            "Cue(NoMachine(Infeed))",
        ],
        &["Started(Belts)", "Alarmed"],
        &[],
    ),
];

#[test]
fn each_quirk_shows_in_its_journal() {
    each_shows("neighbours", CASES);
}

/// Plays the journals of a folder, and sees what is told in them.
pub(crate) fn each_shows(kind: &str, cases: &[Case]) {
    let folder = tempfile::tempdir().expect("a folder can be made");
    for (name, told, untold, harms) in cases {
        let attempt = folder.path().join(format!("{name}.attempt"));
        let path = in_clone(&format!("tests/journals/{kind}/{name}.ron"));
        let out = attempt.to_string_lossy();
        let (exit, said) = run(&["play", "--journal", &path, "--out", &out]);
        assert_eq!(exit, Exit::Done, "{name}: {said}");
        let text = fs::read_to_string(&attempt).expect("it was written");
        // What was done, without the texts that the attempt keeps.
        let lines: Vec<&str> = text.lines().skip(1).collect();
        let kept = lines.join("\n");
        let mut rest = kept.as_str();
        for wanted in *told {
            let Some(at) = rest.find(wanted) else {
                panic!("{name}: no {wanted}, or not in this order, in\n{kept}");
            };
            rest = &rest[at + wanted.len()..];
        }
        for other in *untold {
            assert!(!kept.contains(other), "{name}: {other} in\n{kept}");
        }
        let (_, grade) = grade(&attempt);
        let list = grade["harms"].as_array().expect("it is a list");
        let kinds: Vec<&str> = list
            .iter()
            .filter_map(|harm| {
                harm["harm"]
                    .as_str()?
                    .strip_prefix("Harm(")?
                    .split(',')
                    .next()
            })
            .collect();
        let mut once = kinds.clone();
        once.dedup();
        assert_eq!(once, *harms, "{name}");
    }
}

#[test]
fn every_journal_of_a_neighbour_has_its_drill_and_is_listed() {
    all_are_listed("neighbours", CASES);
}

/// Each journal of a folder has its drill, and both are in the list. A machine for such drills lies
/// among them in a folder of assets.
pub(crate) fn all_are_listed(kind: &str, cases: &[Case]) {
    let folder = root().join(format!("tests/journals/{kind}"));
    let names = |drills: bool| {
        let files = files_in(&folder, "ron").expect("it can be read");
        let mut names: Vec<String> = files
            .iter()
            .filter(|path| lies_in(path, "scenarios") == drills && !lies_in(path, "machines"))
            .filter_map(|path| Some(path.file_stem()?.to_string_lossy().into_owned()))
            .collect();
        names.sort();
        names
    };
    let mut listed: Vec<&str> = cases.iter().map(|case| case.0).collect();
    listed.sort_unstable();
    assert_eq!(names(false), listed);
    assert_eq!(names(true), listed);
}
