//! What the machine does in production, changeover, clear-out, with its settings, alarms and unit
//! states: a journal and a small drill for each choice of a machine file and for each deed at the
//! panel. What the attempt must hold in this order, what it must not, which harms come of it, and
//! how some of them end.

use std::{fs, path::Path};

use rackproof_buffer::{Alarm, State};
use rackproof_commands::Exit;
use rackproof_drill::World;

use crate::{
    all_shown::played,
    listed::{making, panel},
    neighbours::{Case, all_are_listed, each_shows},
    play::{in_clone, root, run},
};

fn cases() -> Vec<Case> {
    let making = [making::CHOICES, making::PRODUCTION];
    let panel = [panel::SETTINGS, panel::CLEAR_OUT, panel::UNIT];
    [making.concat(), panel.concat()].concat()
}

#[test]
fn each_behaviour_shows_in_its_journal() {
    each_shows("behaviours", &cases());
}

#[test]
fn every_journal_of_a_behaviour_has_its_drill_and_is_listed() {
    all_are_listed("behaviours", &cases());
}

/// What must hold as a journal ends.
type Ends = fn(&World, &State) -> String;

/// The width of the rails in truth, and as the panel counts it, in µm.
fn widths(world: &World, s: &State) -> String {
    let counted = s.width_by_count(world.machine()).map(|width| width.0);
    format!("{} {counted:?}", s.width(world.machine()).0)
}

/// The states of the alarms in the letters of ANSI/ISA-18.2, and which came first.
fn alarms(_: &World, s: &State) -> String {
    let letters: Vec<String> = Alarm::ALL
        .iter()
        .map(|&(name, alarm)| (name, s.alarms().state(alarm).letter()))
        .filter(|(_, letter)| *letter != 'A')
        .map(|(name, letter)| format!("{name} {letter}"))
        .collect();
    format!("{} first {:?}", letters.join(" "), s.alarms().first_up())
}

/// The width that each product has stored, in µm, and in which order it was saved, by whom.
fn stored(world: &World, s: &State) -> String {
    let products = 0..world.machine().parts().products.len() as u8;
    let told = products.map(|product| {
        let saved = s.service.saved[product as usize];
        let saved = saved.map(|saved| format!("{:?} {}", saved.by, saved.order));
        format!("{} {saved:?}", s.stored_width(product).0)
    });
    told.collect::<Vec<_>>().join(", ")
}

/// How journals end. By hand: 220 + 1.2 mm for all, 220 + 0.6 for the other product; an offset is
/// in the truth and not in the count; what is typed counts from saving, what is saved from loading.
const ENDS: &[(&str, Ends, &str)] = &[
    ("side-play-of-all", widths, "221200 Some(221200)"),
    ("side-play-of-one", widths, "220600 Some(220600)"),
    ("width-offset-wrong", widths, "223300 Some(220800)"),
    ("sensor-finds-offset", widths, "222300 None"),
    ("edited-not-saved", widths, "220800 Some(220800)"),
    ("saved-then-loaded", widths, "224800 Some(224800)"),
    ("saved-not-loaded", widths, "220800 Some(220800)"),
    ("saved-after-loading", widths, "220800 Some(220800)"),
    (
        "saved-after-loading",
        stored,
        "160000 None, 224000 Some(\"Operator 1\")",
    ),
    ("power-lost-while-rails-move", widths, "220800 Some(220800)"),
    ("loaded-anew", widths, "224800 Some(224800)"),
    (
        "saved-not-loaded",
        stored,
        "150000 Some(\"Operator 1\"), 220000 None",
    ),
    (
        "number-slips",
        stored,
        "106000 Some(\"Operator 1\"), 220000 None",
    ),
    (
        "saved-over-another",
        stored,
        "224000 Some(\"Operator 1\"), 220000 None",
    ),
    (
        "setters-only",
        stored,
        "160000 None, 224000 Some(\"Setter 1\"), 200000 None",
    ),
    ("alarm-acknowledged", alarms, " first None"),
    (
        "alarm-returned",
        alarms,
        "EmergencyStop D first Some(EmergencyStop)",
    ),
    (
        "alarm-latched",
        alarms,
        "EmergencyStop F first Some(EmergencyStop)",
    ),
    (
        "alarm-latched-unseen",
        alarms,
        "EmergencyStop E first Some(EmergencyStop)",
    ),
    (
        "first-alarm-is-kept",
        alarms,
        "EmergencyStop B HatchOpened B first Some(HatchOpened)",
    ),
];

#[test]
fn each_journal_ends_as_it_must() {
    for (name, ends, expected) in ENDS {
        let path = root().join(format!("tests/journals/behaviours/{name}.ron"));
        let attempt = played(&path);
        let state = &attempt.state().world.machine;
        assert_eq!(ends(attempt.world(), state), *expected, "{name}");
    }
}

/// Through tinted glass nothing is seen, so no look is on offer while the hatch is shut.
#[test]
fn through_a_tinted_hatch_there_is_no_look() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = folder.path().join("tinted.ron");
    let journal = "Journal(drill: \"left-inside\", variant: \"green-low\",
        causes: [Walk(Hatch), LookInfeedSide])";
    fs::write(&path, journal).expect("it can be written");
    let out = folder.path().join("tinted.attempt");
    let text = |path: &Path| path.to_string_lossy().into_owned();
    let (exit, said) = run(&["play", "--journal", &text(&path), "--out", &text(&out)]);
    assert_eq!(exit, Exit::No, "{said}");
    assert!(said.contains("“LookInfeedSide” is not on offer"), "{said}");
    // The same on the machine with clear glass, and with the hatch of this one open, is done.
    let clear = in_clone("tests/journals/behaviours/glass-clear.ron");
    let (exit, said) = run(&[
        "play",
        "--journal",
        &clear,
        "--out",
        &text(&path.with_extension("a")),
    ]);
    assert_eq!(exit, Exit::Done, "{said}");
}
