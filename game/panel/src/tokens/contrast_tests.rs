//! Contrast of each pair of colours that stand on each other.
//!
//! Formula: WCAG 2.2, "relative luminance" and "contrast ratio". Least values: 1.4.3 for text
//! (4.5), 1.4.6 for the text of the operator panel (7), 1.4.11 for marks and edges (3).

use super::*;

/// What a pair is for, with the least contrast that it needs.
#[derive(Clone, Copy, Debug)]
enum Use {
    Text,
    PanelText,
    Mark,
    /// A rule between things. Nothing is lost with it.
    Divider,
}

impl Use {
    const fn least(self) -> f64 {
        match self {
            Self::Text => 4.5,
            Self::PanelText => 7.0,
            Self::Mark => 3.0,
            Self::Divider => 1.0,
        }
    }
}

/// Name, what is on it, ground, contrast as the look gives it, use.
type Pair = (&'static str, Color32, Color32, f64, Use);

const PAIRS: &[Pair] = &[
    ("ink on hall", INK, HALL, 12.9, Use::Text),
    ("ink on sheet", INK, SHEET, 15.0, Use::Text),
    ("ink on yellow", INK, YELLOW, 9.3, Use::Text),
    ("ink on yellow tint", INK, YELLOW_TINT, 14.2, Use::Text),
    ("ink 2 on hall", INK_2, HALL, 7.3, Use::Text),
    ("ink 2 on sheet", INK_2, SHEET, 8.5, Use::Text),
    ("ink 2 on yellow tint", INK_2, YELLOW_TINT, 8.0, Use::Text),
    ("pencil on hall", PENCIL, HALL, 5.1, Use::Mark),
    ("pencil on sheet", PENCIL, SHEET, 5.9, Use::Mark),
    ("edge on hall", EDGE, HALL, 3.4, Use::Mark),
    ("edge on sheet", EDGE, SHEET, 3.9, Use::Mark),
    ("hair on sheet", HAIR, SHEET, 1.6, Use::Divider),
    ("plum on hall", PLUM, HALL, 7.7, Use::Text),
    ("plum on sheet", PLUM, SHEET, 9.0, Use::Text),
    ("paper on plum", PAPER, PLUM, 9.6, Use::Text),
    ("red on sheet", RED, SHEET, 7.0, Use::Text),
    ("red on red tint", RED, RED_TINT, 6.1, Use::Text),
    ("paper on red", PAPER, RED, 7.5, Use::Text),
    ("blue on sheet", BLUE, SHEET, 7.1, Use::Text),
    ("paper on blue", PAPER, BLUE, 7.6, Use::PanelText),
    ("green on hall", GREEN, HALL, 4.2, Use::Mark),
    ("panel ink on panel", PANEL_INK, PANEL, 11.1, Use::PanelText),
    (
        "panel ink on well",
        PANEL_INK,
        PANEL_WELL,
        13.4,
        Use::PanelText,
    ),
    (
        "panel ink 2 on panel",
        PANEL_INK_2,
        PANEL,
        7.4,
        Use::PanelText,
    ),
    (
        "panel ink 2 on well",
        PANEL_INK_2,
        PANEL_WELL,
        8.9,
        Use::PanelText,
    ),
    ("paper on panel ink", PAPER, PANEL_INK, 18.1, Use::PanelText),
    ("panel pencil on panel", PANEL_PENCIL, PANEL, 5.6, Use::Mark),
    ("panel line on panel", PANEL_LINE, PANEL, 2.8, Use::Divider),
    ("red on panel", RED, PANEL, 4.6, Use::Mark),
    ("blue on panel", BLUE, PANEL, 4.7, Use::Mark),
];

fn luminance(colour: Color32) -> f64 {
    let [red, green, blue, _] = colour.to_array();
    let linear = |part: u8| {
        let part = f64::from(part) / 255.0;
        if part <= 0.04045 {
            part / 12.92
        } else {
            ((part + 0.055) / 1.055).powf(2.4)
        }
    };
    0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue)
}

fn contrast(one: Color32, other: Color32) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

/// What is wrong with a pair: not what the look says, or too little for its use.
fn fault((name, on, ground, said, used): Pair) -> Option<String> {
    let is = contrast(on, ground);
    if (is - said).abs() > 0.1 {
        return Some(format!("{name}: said to be {said:.1}, is {is:.2}"));
    }
    let least = used.least();
    (is < least).then(|| format!("{name}: {is:.2}, {used:?} needs {least:.1}"))
}

#[test]
fn every_pair_has_the_contrast_that_the_look_says_and_its_use_needs() {
    let faults: Vec<String> = PAIRS.iter().copied().filter_map(fault).collect();
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
}

#[test]
fn a_changed_colour_is_found() {
    let paler = hex(0x0070_6C77);
    let changed = ("pencil on hall", paler, HALL, 5.1, Use::Mark);
    assert_eq!(
        fault(changed).as_deref(),
        Some("pencil on hall: said to be 5.1, is 4.10")
    );
    let weak = ("hair on sheet", HAIR, SHEET, 1.6, Use::Mark);
    assert!(fault(weak).is_some_and(|fault| fault.contains("Mark needs 3.0")));
}

#[test]
fn black_on_white_is_21() {
    let ratio = contrast(Color32::BLACK, Color32::WHITE);
    assert!((ratio - 21.0).abs() < 1e-9, "{ratio}");
}

#[test]
fn no_text_is_smaller_than_the_least_that_carries_meaning() {
    for step in Step::ALL {
        assert!(step.size() >= 12.5, "{step:?}");
        assert!(step.line() >= step.size(), "{step:?}");
    }
}
