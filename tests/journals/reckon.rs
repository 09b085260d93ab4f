//! `reckon`: what a planner asks, and what cannot be answered.

use std::fs;

use rackproof_commands::Exit;
use serde_json::Value;

use crate::play::{in_a_row, in_clone, root, run};

fn json(arguments: &[&str]) -> Value {
    let (exit, said) = run(&[&["reckon", "--json"], arguments].concat());
    assert_eq!(exit, Exit::Done, "{said}");
    serde_json::from_str(&said).expect("it is one object")
}

/// What is asked, and parts of the answer. By hand:
/// slots: ⌈40 / 3⌉ = 14, one in each. Takts: 13 before the last board. Rounded up: 788 s of 60.
const ASKED: &[(&[&str], &[&str])] = &[
    (
        &["wren", "--takt", "30", "--changeover", "13:40"],
        &[
            "alder-16, product wren, 16 boards inside",
            "slots / interval = 16 / 1, rounded up: 16 slots",
            "= 16 · 1 = 16 boards",
            "= 15 · 30 s + 0 s (0 boards take longer) + 6.91 s = 456.91 s (07:36)",
            "boards · takt = 16 · 30 s = 480 s (08:00)",
            "456.91 s, rounded up: 8 min",
            "13:40:00 - 456.91 s = 13:32:23",
            "16 · 5.377 s",
            "to kestrel",
        ],
    ),
    (
        &[
            "plover",
            "--machine",
            "rowan-40",
            "--takt",
            "1 min",
            "--next",
            "wren",
        ],
        &[
            "40 / 3, rounded up: 14 slots",
            "= 14 · 1 = 14 boards",
            "= 13 · 60 s + 0 s (0 boards take longer) + 8.01 s = 788.01 s (13:08)",
            "788.01 s, rounded up: 14 min",
            "to wren",
        ],
    ),
    (
        &[
            "kestrel",
            "--machine",
            "rowan-40",
            "--takt",
            "12",
            "--changeover",
            "3",
        ],
        &[
            "40 / 2, rounded up: 20 slots",
            "= 20 · 2 = 40 boards",
            "The takt of 12 s is less than",
            "It is too late.",
            "second boards · way to the end",
        ],
    ),
    (
        &["wren", "--boards", "1", "--changeover", "25 min"],
        &["one board inside", "= 0 s (0 boards) +", "25 min - "],
    ),
];

/// Both machines answer, and text and object say the same.
#[test]
fn each_figure_is_told_with_its_formula() {
    for (arguments, parts) in ASKED {
        let (exit, said) = run(&[&["reckon"], *arguments].concat());
        assert_eq!(exit, Exit::Done, "{said}");
        for part in *parts {
            assert!(in_a_row(&said).contains(part), "no “{part}” in:\n{said}");
        }
        let object = json(arguments);
        let time = object["drain"]["time_us"].as_u64().expect("it is a time");
        let millis = (time + 500) / 1_000;
        let told = format!("{}.{:03}", millis / 1_000, millis % 1_000);
        let told = format!("{} s", told.trim_end_matches('0').trim_end_matches('.'));
        assert!(in_a_row(&said).contains(&told), "no {told} in:\n{said}");
        let boards = object["boards"].as_u64().expect("it is a number");
        let sendings = object["drain"]["sendings"]
            .as_array()
            .expect("it is a list");
        assert_eq!(sendings.len() as u64, boards);
    }
}

#[test]
fn a_machine_file_is_found_by_its_path_and_by_its_name() {
    let path = in_clone("assets/machines/rowan-40.ron");
    let by_path = json(&["wren", "--machine", &path]);
    assert_eq!(by_path, json(&["wren", "--machine", "rowan-40"]));
    assert_eq!(by_path["capacity"]["boards"], 80);
    assert_eq!(json(&["wren"])["machine"], "alder-16");
}

#[test]
fn a_product_is_found_as_its_name_is_shown() {
    assert_eq!(
        json(&["Wren", "--next", "KESTREL"]),
        json(&["wren", "--next", "kestrel"])
    );
}

/// What is asked wrongly, and what is said of it.
const WRONG: &[(&[&str], &[&str])] = &[
    (
        &["kestrl"],
        &["no product “kestrl”", "Perhaps “kestrel” is meant."],
    ),
    (
        &["quail"],
        &["no product “quail”", "Its products are: wren, kestrel."],
    ),
    (&[""], &["no product “”"]),
    (&["wren", "--next", "plover"], &["no product “plover”"]),
    (
        &["wren", "--machine", "rowan-4"],
        &["Perhaps “rowan-40” is meant."],
    ),
    (
        &["wren", "--machine", "oak"],
        &["Ours are: alder-16, rowan-40."],
    ),
    (
        &["wren", "--takt", "0.999999"],
        &["0.999999 s is out of range", "1 to 600 s"],
    ),
    (
        &["wren", "--takt", "600.000001"],
        &["600.000001 s is out of range"],
    ),
    (&["wren", "--takt", "11 min"], &["660 s is out of range"]),
    (&["wren", "--takt=-30"], &["-30 s is out of range"]),
    (&["wren", "--takt", "30,5"], &["has a comma"]),
    (&["wren", "--takt", "soon"], &["is not a number"]),
    (&["wren", "--takt", ""], &["is not a number"]),
    (&["wren", "--takt", "30 mm"], &["“mm” is not a unit"]),
    (
        &["wren", "--takt", "99999999999999999999"],
        &["is out of range"],
    ),
    (
        &["wren", "--boards", "0"],
        &["0 boards is out of range", "1 to 16 boards"],
    ),
    (&["wren", "--boards", "17"], &["17 boards is out of range"]),
    (&["wren", "--boards", "2.5"], &["too many decimals"]),
    (&["wren", "--boards", "-1"], &["-1 boards is out of range"]),
    (
        &["wren", "--takt", "-3", "--changeover", "-5"],
        &["-3 s is out of range", "-5 min is out of range"],
    ),
    (
        &["wren", "--machine", "assets/"],
        &["“assets” is a folder", "Name the file of a machine in it"],
    ),
    (
        &["wren", "--changeover", "14.30"],
        &["“14.30” is no time of a changeover", "such as 13:40"],
    ),
    (
        &["wren", "--changeover", "24:00"],
        &["“24:00” is no time of a changeover"],
    ),
    (&["wren", "--changeover", "13:60"], &["“13:60” is no time"]),
    (&["wren", "--changeover", "13:5"], &["“13:5” is no time"]),
    (&["wren", "--changeover", "+1:05"], &["“+1:05” is no time"]),
    (&["wren", "--changeover", "1:2:3"], &["is no time"]),
    (
        &["wren", "--changeover", "1441"],
        &["1441 min is out of range"],
    ),
    (&["wren", "--changeover", "noon"], &["is not a number"]),
    (
        &[
            "kestrl",
            "--takt",
            "0",
            "--changeover",
            "25:00",
            "--next",
            "wrn",
        ],
        &[
            "no product “kestrl”",
            "0 s is out of range",
            "“25:00” is no time",
            "“wrn”",
        ],
    ),
];

#[test]
fn what_cannot_be_answered_is_told_all_at_once() {
    let nothing = "Nothing was reckoned.";
    for (arguments, parts) in WRONG {
        for json in [&[][..], &["--json"]] {
            let (exit, said) = run(&[&["reckon"], *arguments, json].concat());
            assert_eq!(exit, Exit::WrongUse, "{arguments:?}: {said}");
            for part in parts.iter().chain([&nothing]) {
                assert!(in_a_row(&said).contains(part), "no “{part}” in:\n{said}");
            }
        }
    }
    let (exit, said) = run(&["reckon"]);
    assert_eq!(exit, Exit::WrongUse, "{said}");
}

/// A part of a text, and what stands in its place.
type Change<'t> = (&'t str, &'t str);

/// A machine of ours with parts of its text in place of others, and what is said of it.
fn of_file(changes: &[Change], arguments: &[&str]) -> (Exit, String) {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = root().join("assets/machines/rowan-40.ron");
    let mut text = fs::read_to_string(path).expect("it is shipped");
    for (from, to) in changes {
        assert!(text.contains(from), "no {from}");
        text = text.replacen(from, to, 1);
    }
    let path = folder.path().join("rowan-40.ron");
    fs::write(&path, text).expect("it can be written");
    let path = path.to_string_lossy().into_owned();
    let (exit, said) = run(&[&["reckon"], arguments, &["--machine", &path]].concat());
    (exit, in_a_row(&said))
}

#[test]
fn a_machine_file_with_problems_is_refused_with_all_of_them() {
    let fits = "name: \"plover\", board: \"plover\", width_mm: 200.0,";
    let too_wide = fits.replace("200.0", "261.0");
    // Found when the file is read, and when its parts are laid beside each other; a name that no
    // drill would find, and a word that nobody says.
    let cases: &[(&[Change], &[&str])] = &[
        (
            &[
                ("slots: 40", "slots: 41"),
                ("signal_open_s: 0.1", "signal_open_s: 0.01"),
            ],
            &["“slots” is 41", "“signal_open_s” is 0.01"],
        ),
        (
            &[(fits, &too_wide), ("interval: 2", "interval: 1")],
            &["261 mm wide", "“kestrel”"],
        ),
        (
            &[("name: \"rowan-40\",", "name: \"rowan-41\",")],
            &["is not the name of its file"],
        ),
        (
            &[(
                "name: \"rowan-40\",",
                "name: \"rowan-41\", words: { \"no-such\": \"x\" },",
            )],
            &[
                "is not the name of its file",
                "There is no message “no-such”",
            ],
        ),
    ];
    for (changes, parts) in cases {
        let (exit, said) = of_file(changes, &["plover"]);
        assert_eq!(exit, Exit::No, "{said}");
        for part in parts.iter().chain([&"Nothing was reckoned."]) {
            assert!(said.contains(part), "no “{part}” in: {said}");
        }
    }
    let (exit, said) = run(&["reckon", "wren", "--machine", "no-such.ron"]);
    assert_eq!(exit, Exit::No, "{said}");
    assert!(said.contains("no-such.ron cannot be read"), "{said}");
}

/// The panel would refuse to load it: its page says a length that no half of a slot takes. The
/// product that comes next by itself is then another.
#[test]
fn a_product_that_does_not_fit_the_machine_is_refused() {
    let wren = "name: \"wren\", board: \"wren\", width_mm: 160.0,";
    let long = format!("{wren} length_mm: 290.001,");
    let (exit, said) = of_file(&[(wren, &long)], &["wren"]);
    assert_eq!(exit, Exit::WrongUse, "{said}");
    for part in ["“wren” does not fit", "290.001 mm long", "takes 290.0 mm"] {
        assert!(said.contains(part), "no “{part}” in: {said}");
    }
    let (exit, said) = of_file(&[(wren, &long)], &["plover"]);
    assert_eq!(exit, Exit::Done, "{said}");
    assert!(said.contains("to kestrel"), "{said}");
    let just = format!("{wren} length_mm: 290.0,");
    let (exit, said) = of_file(&[(wren, &just)], &["wren"]);
    assert_eq!(exit, Exit::Done, "{said}");
}
