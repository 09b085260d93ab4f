//! Parts that a machine may have or not.

use super::*;

/// A hatch is made clear by choice, its figure is asked next, and it can be made tinted again.
#[test]
fn the_hatch_is_made_clear_or_tinted_by_choice() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = alder(folder.path());
    let before = text(&path);
    let end = ["go write_s", "", "yes"];
    let make = |answers: &[&str]| answer(&path, &[answers, &end[..]].concat());
    let (exit, said) = make(&["go rail_height", "", "clear", "60"]);
    assert_eq!(exit, Exit::Done, "{said}");
    let asked = ["hall, sight, hatch, light_reach_mm", "Now 10.0 mm"];
    has(&said, &asked);
    let wanted = before.replacen("hatch: Tinted", "hatch: Clear(light_reach_mm: 60.0)", 1);
    assert_eq!(text(&path), wanted);
    // Clear as it is already: the figure stays. Then it is tinted again.
    let (exit, said) = make(&["go rail_height", "", "clear", ""]);
    assert_eq!(exit, Exit::Done, "{said}");
    assert_eq!(text(&path), wanted);
    let (exit, said) = make(&["go rail_height", "", "tinted"]);
    assert_eq!(exit, Exit::Done, "{said}");
    assert_eq!(text(&path), before);
}

const TYPED: &[&str] = &[
    "go middle_beam",
    "perhaps",
    "yes",
    "248",
    "6.5",
    "",
    "go latching",
    "2 9",
    "noarrival, 2",
    "go wren, above",
    "6",
    "2 mm",
    "go products, wren, order",
    "2",
    "2",
    "yes",
    "182.5",
    "go write_s",
    "",
    "yes",
];

const TOLD: &[&str] = &[
    "What whether a beam in the middle of the rack stops a second board",
    "Now no",
    "“perhaps” is none of these.",
    "Noted: yes.",
    "storing, middle_beam, at_mm",
    "Now 250.0 mm",
    "Range any of these, by their numbers, or none",
    "“9” is none of these.",
    "Expected: numbers from 1 to 7 with blanks between them, or none.",
    "Noted: hatch opened, a board did not arrive.",
    "Range 0 to 100 mm, with at most 3 decimals.",
    "Now 0 mm: the file says nothing of it",
    "What length stored for this product; where its page says none, that of its board",
    "Now 180 mm: the file says nothing of it",
    "is written, with its comments as they were.",
];

/// What the template lacks is asked for, written, and read: a middle beam with two boards in a
/// slot, tall parts, a product's own length and interval, alarms that latch. And it is taken out
/// again.
#[test]
fn what_the_template_lacks_is_asked_for_and_written() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = alder(folder.path());
    let before = text(&path);
    let (exit, said) = answer(&path, TYPED);
    assert_eq!(exit, Exit::Done, "{said}");
    has(&said, TOLD);
    let part = "part_margin_mm: 2.0,";
    let beam =
        "\n        middle_beam: MiddleBeam(at_mm: 248.0, clearance_mm: 6.5, reflectance: 1),";
    let width = "board: \"wren\", width_mm: 160.0";
    let product = ", order: LastInFirstOut, interval: 2, tandem: true, length_mm: 182.5";
    let thick = "thickness_mm: 1.6,";
    let expected = before
        .replacen(part, &format!("{part}{beam}"), 1)
        .replacen("latching: []", "latching: [HatchOpened, NoArrival]", 1)
        .replacen(thick, &format!("{thick} above_mm: 6.0, below_mm: 2.0,"), 1)
        .replacen(width, &format!("{width}{product}"), 1);
    assert_eq!(text(&path), expected);
    assert_eq!(run(&["check", &path.to_string_lossy()]).0, Exit::Done);

    // Two boards do not lie in one slot without the beam: told at once, and right again.
    let lines = ["go middle_beam", "no", "go wren, tandem", "no"];
    let end = ["go latching", "none", "go write_s", "", "yes"];
    let (exit, said) = answer(&path, &[&lines[..], &end[..]].concat());
    assert_eq!(exit, Exit::Done, "{said}");
    has(
        &said,
        &[
            "it does not go with the rest",
            "Now all fits together.",
            "Noted: none.",
        ],
    );
    let expected = expected
        .replacen(beam, "", 1)
        .replacen("tandem: true", "tandem: false", 1)
        .replacen("latching: [HatchOpened, NoArrival]", "latching: []", 1);
    assert_eq!(text(&path), expected);
}

/// A further board and a further product begin as copies of the last, get names of their own, and
/// the one is made of the other.
#[test]
fn a_further_board_and_a_further_product_are_named_and_asked_about() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let path = alder(folder.path());
    let before = text(&path);
    let typed = [
        "go boards",
        "9",
        "5",
        "go raven-2, name",
        "Siskin",
        "siskin",
        "go siskin, reflectance",
        "60",
        "go products",
        "3",
        "go kestrel-2, name",
        "siskin",
        "raven-2",
        "siskin",
        "162",
        "go write_s",
        "",
        "yes",
    ];
    let (exit, said) = answer(&path, &typed);
    assert_eq!(exit, Exit::Done, "{said}");
    let told = [
        "What kinds of board Range 1 to 8 kinds, whole.",
        "Now 4 kinds",
        "9 kinds is out of range.",
        "Noted: 5 kinds.",
        "“Siskin” is no name. Expected: 1 to 40 of a to z, 0 to 9 and -, the first not -.",
        "Noted: siskin.",
        "“raven-2” is none of these.",
        "products, siskin, width_mm",
    ];
    has(&said, &told);
    let made = text(&path);
    let board = "Board(name: \"siskin\", length_mm: 180.0, width_mm: 160.0, thickness_mm: 1.6, \
                 reflectance: 60,";
    let product = "\n        Product(name: \"siskin\", board: \"siskin\", width_mm: 162.0),";
    assert!(made.contains(board) && made.contains(product), "{made}");
    assert!(made.starts_with(&before[..before.find("    boards:").expect("it is there")]));
    assert_eq!(run(&["check", &path.to_string_lossy()]).0, Exit::Done);
}
