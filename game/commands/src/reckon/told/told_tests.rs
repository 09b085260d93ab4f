//! What is written: no text is missing, and terms add up.

use rackproof_buffer::{Machine, Scope};
use rackproof_model::Micros;

use super::*;
use crate::reckon::figures::figures_tests::asked;

#[test]
fn times_are_written_to_a_thousandth() {
    let cases = [
        (0, "0 s"),
        (499, "0 s"),
        (500, "0.001 s"),
        (4_910_000, "4.91 s"),
        (110_197_400, "110.197 s"),
        (60_000_000, "60 s"),
    ];
    for (micros, expected) in cases {
        assert_eq!(seconds(micros).to_string(), expected);
    }
    assert_eq!(time_of_day(0), "00:00:00");
    assert_eq!(time_of_day(DAY - 1), "23:59:59");
}

/// Every row of every sort of answer has its text and its values.
#[test]
fn every_answer_has_its_words() {
    let words = Words::english();
    let changeovers = [
        None,
        Some(Changeover::At(0)),
        Some(Changeover::At(1_439)),
        Some(Changeover::Within(0)),
        Some(Changeover::Within(1_440)),
    ];
    for (name, product) in [
        ("alder-16", "wren"),
        ("rowan-40", "wren"),
        ("rowan-40", "plover"),
    ] {
        for scope in [Scope::Product, Scope::Machine] {
            for takt in [None, Some(2_000_000), Some(60_000_000)] {
                for changeover in changeovers {
                    let mut asked = asked(name, product, None);
                    let mut parts = asked.machine.parts().clone();
                    parts.storing.order_scope = scope;
                    asked.machine = Machine::new(parts);
                    asked.takt = takt.map(Micros);
                    asked.changeover = changeover;
                    let mut out = Vec::new();
                    let figures = Figures::of(&asked);
                    write_text(&asked, &figures, &mut out, &words).expect("it is written");
                    assert_eq!(words.faults(), [""; 0]);
                    let said = String::from_utf8(out).expect("it is text");
                    assert!(
                        said.lines().all(|line| line.chars().count() <= 80),
                        "{said}"
                    );
                }
            }
        }
    }
}

/// What the help says of takt. Source: net working time over demand, (480 − 30) min for 900 boards
/// are 30.0 s, as any handbook of lines has it.
#[test]
fn the_takt_of_the_help_is_the_one_that_it_reckons() {
    let said = Words::english().say("help-reckon-takt", &[]);
    let numbers: Vec<u32> = said
        .split(|one: char| !one.is_ascii_digit())
        .filter_map(|word| word.parse().ok())
        .collect();
    assert_eq!(numbers, [480, 30, 900, (480 - 30) * 60 / 900]);
}
