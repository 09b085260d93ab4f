//! Shipped files with something broken in them, and the texts that they then give.

mod bounds;
mod drill;
mod geometry;
mod other_machine;

use drill::DRILL;
use geometry::GEOMETRY;
use other_machine::OTHER_MACHINE;
use rackproof_drill::file;
use rackproof_files::{Problem, Problems, render_plain};
use rackproof_words::{Arg, Words};

use crate::shipped;

/// What stands in the machine file, what is put in its place, and what is then said.
const MACHINE: &[(&str, &str, &str)] = &[
    (
        "acceleration_mm_s2: 400, braking_mm_s2: 800",
        "acceleration_mm_s2: 400, braking_mm_s2: 300",
        "The braking is 300 mm/s², less than the acceleration. \
         Expected: At least the acceleration: 400 mm/s².",
    ),
    (
        "speed_mm_s: 150, acceleration_mm_s2: 600",
        "speed_mm_s: 150, acceleration_mm_s2: 30",
        "The ramp up to 150 mm/s takes more than 4 s. \
         Expected: A speed of at most 120 mm/s at this acceleration.",
    ),
    (
        "speed_mm_s: 200, acceleration_mm_s2: 400, braking_mm_s2: 800",
        "speed_mm_s: 1000, acceleration_mm_s2: 400, braking_mm_s2: 800, jerk_mm_s3: 200",
        "With a jerk of 200 mm/s³ the ramp up to 1000 mm/s takes more than 4 s. \
         Expected: A jerk of at least 267 mm/s³ at this speed and acceleration.",
    ),
    (
        "speed_mm_s: 200, acceleration_mm_s2: 400, braking_mm_s2: 800",
        "speed_mm_s: 200, acceleration_mm_s2: 50, braking_mm_s2: 800, jerk_mm_s3: 5000",
        "With a jerk of 5000 mm/s³ the ramp up to 200 mm/s takes more than 4 s. \
         Expected: No limit of jerk, or a speed below 200 mm/s at this acceleration.",
    ),
    (
        "from_mm: [-20, 30, 12]",
        "from_mm: [-20, 30, -2]",
        "This beam does not look down. \
         Expected: A start that is higher than the place it looks at.",
    ),
    (
        "from_mm: [-20, 30, 12]",
        "from_mm: [-20, 30]",
        "The number of values is 2. Expected: Number of values: 3.",
    ),
    (
        "\"kestrel\", length_mm: 200.0",
        "\"kestrel\", length_mm: 245.0",
        "The board “kestrel” is 245 mm long, too long for a half of a slot. \
         Expected: A length of at most 240 mm in this rack.",
    ),
    (
        "\"kestrel\", length_mm: 200.0",
        "\"kestrel\", length_mm: 160.0",
        "The board “kestrel” is 160 mm long, which does not go with the belts. \
         Expected: It fits on the infeed belt with its clearance at both ends, \
         and three of them in a row are longer than the outfeed belt. \
         Hint: Change the length of the board or of a belt.",
    ),
    (
        "most_mm: 300.0",
        "most_mm: 200.0",
        "Product “kestrel” is 220 mm wide, beyond the travel of the rails. \
         Expected: A width that with its side play is from 50 mm to 200 mm.",
    ),
    (
        "least_mm: 50.0",
        "least_mm: 300.0",
        "The least width between the rails is 300 mm, and the greatest 300 mm: they have no \
         travel. Expected: A least width that is smaller than the greatest.",
    ),
    (
        "thickness_mm: 1.6, reflectance: 4,\n            strain_limit: 800, strain_break: 4000",
        "thickness_mm: 1.6, reflectance: 4,\n            strain_limit: 800, strain_break: 800",
        "The board breaks at 800 microstrain, before its joints crack. \
         Expected: At least 801 microstrain, more than the strain limit.",
    ),
    (
        "along_mm: [40, 140]",
        "along_mm: [40, 181]",
        "The window does not lie inside its board, or a side of it ends before it begins. \
         Expected: Along the flow two places from 0 to 180 mm, across it from 0 to 160 mm, \
         the smaller first.",
    ),
    (
        "across_mm: [60, 130]",
        "across_mm: [130, 60]",
        "The window does not lie inside its board",
    ),
    (
        "posts_mm: [[-30, 0]",
        "posts_mm: [[0, -30]",
        "It begins at 0 mm and ends at -30 mm. Expected: Two places, the smaller first.",
    ),
    (
        "across_mm: [12, 45]",
        "across_mm: [45, 45]",
        "It begins at 45 mm and ends at 45 mm.",
    ),
    (
        "reached_from_under: 2",
        "reached_from_under: 17",
        "Hands reach 17 slots from under the lift, more than there are. \
         Expected: At most 16 slots.",
    ),
    (
        "panel_reach: [Panel, Outfeed]",
        "panel_reach: []",
        "The panel is reached from no place: nothing could be pressed. \
         Expected: At least one place, such as Panel.",
    ),
    (
        "sheared_after_mm: 3.0",
        "sheared_after_mm: 0.4",
        "At a mouth a board is cut before it is bent.",
    ),
    (
        "board: \"kestrel\"",
        "board: \"kestral\"",
        "“kestral” is not known here. Expected: One of wren, heron, kestrel, raven. \
         Hint: Perhaps “kestrel” is meant.",
    ),
    (
        "Product(name: \"kestrel\"",
        "Product(name: \"wren\"",
        "The name “wren” is given twice.",
    ),
    ("shield_pin: Pin14", "shield_pin: Pin41", "“Pin41”"),
    (
        "unit_states: Shared46",
        "unit_states: Shared64",
        "“Shared64”",
    ),
    ("latching: []", "latching: [BoardSean]", "“BoardSeen”"),
];

/// What is changed at several places of a machine file, and all that is then said: one problem, and
/// none that only follows from it.
const ALONE: &[(&[(&str, &str)], &str)] = &[
    (
        &[
            ("side_play_mm: 0.6", "side_play_mm: 1.5"),
            ("ledge_mm: 2.5", "ledge_mm: 1.4"),
        ],
        "The side play of 1.5 mm is more than the ledge of 1.4 mm: between rails at their right \
         width each board would fall. Expected: A side play of at most 1.4 mm, as much as the \
         ledge. Hint: Measure both again. The ledge stands under rack, in ledge_mm.",
    ),
    (
        &[("thickness_mm: 2.0", "thickness_mm: 0.2")],
        "The field “thickness_mm” is 0.2 mm. Expected: A number from 0.5 to 5 mm with at most 3 \
         decimals: thickness of a board.",
    ),
    (
        &[("at_mm: 300.0", "at_mm: 700.0")],
        "The middle beam at 700 mm is outside the rack or not clear of a board that rests in one \
         of the halves. Expected: From 296 mm, where a board in the infeed half ends with the \
         clearance, to less than 584 mm.",
    ),
    (
        &[
            ("pitch_mm: 12.0", "pitch_mm: 5.0"),
            ("name: \"raven\"", "name: \"raven-thick\""),
            (
                "thickness_mm: 1.6, reflectance: 4,\n            above_mm: 6.0, below_mm: 2.0",
                "thickness_mm: 5.0, reflectance: 4,\n            above_mm: 0.0, below_mm: 0.0",
            ),
            ("interval: 1,", "interval: 3,"),
            ("interval: 2,", "interval: 5,"),
            ("interval: 3, tandem: false", "interval: 7, tandem: false"),
        ],
        "The board “raven-thick” is 5 mm thick, and the slots are 5 mm apart: a board in one slot \
         would lie in the next as well. Expected: A pitch of more than 5 mm.",
    ),
    (
        &[("least_mm: 50.0", "least_mm: 260.001")],
        "The least width between the rails is 260.001 mm, and the greatest 260 mm: they have no \
         travel. Expected: A least width that is smaller than the greatest.",
    ),
];

/// The problems of a file in words, one a line.
fn lines(words: &Words, problems: &Problems) -> String {
    let lines = problems.sorted();
    let lines = lines.iter().map(|problem| line(words, problem));
    lines.collect::<Vec<_>>().join("\n")
}

/// A problem in words.
fn line(words: &Words, problem: &Problem) -> String {
    let say = |id: &str, arguments: &[(&'static str, String)]| {
        let arguments: Vec<(&str, Arg<'_>)> = arguments
            .iter()
            .map(|(name, value)| (*name, Arg::from(value.as_str())))
            .collect();
        words.say(id, &arguments)
    };
    render_plain(problem, &say)
}

fn shipped_text(folder: &str, name: &str) -> String {
    let files = shipped::files(folder, "ron");
    let path = files
        .iter()
        .find(|path| path.ends_with(name))
        .expect("it is shipped");
    shipped::text(path)
}

fn check(text: &str, cases: &[(&str, &str, &str)], read: impl Fn(&Problems, &str)) {
    let words = Words::english();
    for (from, to, expected) in cases {
        assert!(text.contains(from), "{from} does not stand there");
        let problems = Problems::new();
        read(&problems, &text.replacen(from, to, 1));
        let lines = lines(&words, &problems);
        assert!(
            lines.contains(expected),
            "{to}: expected\n{expected}\nfound\n{lines}"
        );
    }
    assert_eq!(words.faults(), [""; 0]);
}

#[test]
fn a_problem_of_a_machine_file_reads_well() {
    let text = shipped_text("assets/machines", "alder-16.ron");
    for cases in [MACHINE, GEOMETRY] {
        check(&text, cases, |problems, text| {
            file::read_machine(problems.for_file("alder-16.ron", text));
        });
    }
}

#[test]
fn a_problem_of_the_other_machine_file_reads_well() {
    let text = shipped_text("assets/machines", "rowan-40.ron");
    check(&text, OTHER_MACHINE, |problems, text| {
        file::read_machine(problems.for_file("rowan-40.ron", text));
    });
}

#[test]
fn one_problem_of_a_machine_file_brings_no_others() {
    let whole = shipped_text("assets/machines", "rowan-40.ron");
    let words = Words::english();
    for (changes, expected) in ALONE {
        let mut text = whole.clone();
        for (from, to) in *changes {
            assert!(text.contains(from), "{from} does not stand there");
            text = text.replacen(from, to, 1);
        }
        let problems = Problems::new();
        file::read_machine(problems.for_file("rowan-40.ron", &text));
        let lines = lines(&words, &problems);
        let (_, said) = lines.split_once(": ").expect("a place stands before it");
        assert_eq!(said, *expected);
    }
}

/// Kestrels need 1.6 + 15 + 3 mm, and slots are 12 mm apart: two slots for each.
#[test]
fn boards_whose_parts_would_meet_are_told() {
    let text = shipped_text(
        "tests/journals/behaviours/scenarios",
        "every-second-slot.ron",
    );
    let rowan = shipped::machine("rowan-40");
    let lying = "[Lying(slot: 40, half: Outfeed, board: \"kestrel\")]";
    let both = |slot: u8, half: &str| {
        lying.replace(
            ']',
            &format!(", Lying(slot: {slot}, half: {half}, board: \"kestrel\")]"),
        )
    };
    assert!(text.contains(lying));
    for (slot, half, meets) in [
        (39, "Outfeed", true),
        (39, "Infeed", false),
        (38, "Outfeed", false),
    ] {
        let problems = Problems::new();
        let text = text.replace(lying, &both(slot, half));
        file::read_drill(problems.for_file("d.ron", &text), |_| Ok(&rowan));
        let lines = lines(&Words::english(), &problems);
        let told = "the parts of a board in slot 39 meet those of one in slot 40. \
                    Expected: Slots so far apart that thickness, parts above and parts below fit \
                    between them.";
        assert_eq!(lines.contains(told), meets, "{slot} {half}: {lines}");
        assert_eq!(lines.is_empty(), !meets, "{lines}");
    }
}

#[test]
fn a_problem_of_a_drill_file_reads_well() {
    let text = shipped_text("scenarios", "left-inside.ron");
    let alder = shipped::machine("alder-16");
    check(&text, DRILL, |problems, text| {
        let find = |name: &str| {
            (name == "alder-16")
                .then_some(&alder)
                .ok_or(file::NoMachine::Missing)
        };
        file::read_drill(problems.for_file("left-inside.ron", text), find);
    });
}
