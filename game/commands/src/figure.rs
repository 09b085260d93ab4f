//! A figure that somebody typed: a number, with or without a unit.

use rackproof_files::Bound;
use rackproof_words::{Arg, Words};

use crate::play::typed::readable;

/// Why it cannot be taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Wrong {
    /// It is no number.
    NoNumber,
    /// A comma could part thousands or decimals.
    Comma,
    /// The unit is none that this figure can have.
    Unit(String),
    /// It has more decimals than the figure may have.
    Decimals,
    /// It is out of the figure's range: as it would stand in the file, or as it was typed where it
    /// is too great to be reckoned with.
    Range(String),
}

/// Names of a unit, and how many of the figure's own unit it is: so many over so many.
type Unit = (&'static [&'static str], i128, i128);

const LENGTHS: &[Unit] = &[
    (&["mm"], 1, 1),
    (&["cm"], 10, 1),
    (&["m"], 1_000, 1),
    (&["µm", "um"], 1, 1_000),
    // Exactly 25.4 mm: the international inch.
    (&["in", "inch", "\""], 254, 10),
];

const TIMES: &[Unit] = &[(&["s"], 1, 1), (&["ms"], 1, 1_000), (&["min"], 60, 1)];

const SPEEDS: &[Unit] = &[
    (&["mm/s"], 1, 1),
    (&["cm/s"], 10, 1),
    (&["m/s"], 1_000, 1),
    (&["m/min"], 1_000, 60),
    (&["in/s"], 254, 10),
];

const ACCELERATIONS: &[Unit] = &[
    (&["mm/s²", "mm/s2", "mm/s^2"], 1, 1),
    (&["m/s²", "m/s2", "m/s^2"], 1_000, 1),
];

fn units(own: &str) -> &'static [Unit] {
    match own {
        "mm" => LENGTHS,
        "s" => TIMES,
        "mm/s" => SPEEDS,
        "mm/s²" => ACCELERATIONS,
        _ => &[],
    }
}

/// The units that a figure of this unit can be typed in.
fn unit_names(own: &'static str) -> Vec<&'static str> {
    let known = units(own);
    if known.is_empty() {
        return vec![own];
    }
    known
        .iter()
        .filter_map(|unit| unit.0.first().copied())
        .collect()
}

/// Reads a figure, in steps of the last decimal that its bound allows. What is typed in another
/// unit is rounded to the nearest step; in its own unit it must fit as it is.
pub(crate) fn figure(typed: &str, bound: &Bound) -> Result<i64, Wrong> {
    let typed = typed.trim();
    let signs = |one: char| one.is_ascii_digit() || "+-.,".contains(one);
    let (number, unit) = typed.split_at(typed.find(|one| !signs(one)).unwrap_or(typed.len()));
    if number.contains(',') {
        return Err(Wrong::Comma);
    }
    let (whole, part) = digits(number).ok_or(Wrong::NoNumber)?;
    let unit = unit.trim();
    let (more, less) = factor(unit, bound).ok_or_else(|| Wrong::Unit(unit.to_owned()))?;
    let (mantissa, scale) = decimal(number, whole, part)?;
    let of = mantissa * more * 10_i128.pow(u32::from(bound.decimals));
    let by = less * 10_i128.pow(scale);
    if of % by != 0 && (more, less) == (1, 1) {
        return Err(Wrong::Decimals);
    }
    // To the nearest step, half away from zero.
    let steps = (2 * of.abs() + by) / (2 * by) * of.signum();
    let steps = i64::try_from(steps).map_err(|_| Wrong::Range(readable(number)))?;
    if bound.contains(steps) {
        Ok(steps)
    } else {
        Err(Wrong::Range(bound.written(steps)))
    }
}

/// What is wrong with a figure that cannot be taken.
pub(crate) fn wrong_told(words: &Words, typed: &str, wrong: &Wrong, bound: &Bound) -> String {
    let typed = ("typed", Arg::from(readable(typed)));
    let unit = ("unit", Arg::from(bound.unit));
    match wrong {
        Wrong::NoNumber => words.say("ask-no-number", &[typed]),
        Wrong::Comma => words.say("ask-comma", &[typed]),
        Wrong::Decimals => {
            let decimals = ("decimals", Arg::Number(i64::from(bound.decimals)));
            words.say("ask-decimals", &[typed, decimals])
        }
        Wrong::Range(number) => {
            let number = ("number", Arg::from(number.as_str()));
            words.say("ask-out-of-range", &[number, unit])
        }
        Wrong::Unit(found) => {
            let found = ("found", Arg::from(readable(found)));
            let units = ("units", Arg::from(unit_names(bound.unit).join(", ")));
            words.say("ask-wrong-unit", &[found, units])
        }
    }
}

/// What may stand in place of a figure: from where to where, and in which units.
pub(crate) fn range_told(words: &Words, bound: &Bound) -> String {
    let units = unit_names(bound.unit);
    let arguments = [
        ("least", Arg::from(bound.written(bound.least))),
        ("most", Arg::from(bound.written(bound.most))),
        ("unit", Arg::from(bound.unit)),
        ("units", Arg::from(units.join(", "))),
        ("decimals", Arg::Number(i64::from(bound.decimals))),
    ];
    let id = match (units.len(), bound.decimals) {
        // A number of nothing, such as a level.
        (1, _) if bound.unit.is_empty() => "ask-range-bare",
        (1, _) => "ask-range-count",
        (_, 0) => "ask-range-whole",
        _ => "ask-range-decimal",
    };
    words.say(id, &arguments)
}

/// What is expected in place of a figure that cannot be taken, with an example.
pub(crate) fn expected_told(words: &Words, bound: &Bound, example: &str) -> String {
    let arguments = [
        ("range", Arg::from(range_told(words, bound))),
        ("example", Arg::from(example)),
        ("unit", Arg::from(bound.unit)),
    ];
    words.say("ask-expected-figure", &arguments)
}

fn factor(unit: &str, bound: &Bound) -> Option<(i128, i128)> {
    let small = unit.to_lowercase();
    if small.is_empty() || small == bound.unit {
        return Some((1, 1));
    }
    let (_, more, less) = units(bound.unit)
        .iter()
        .find(|(names, ..)| names.contains(&small.as_str()))?;
    Some((*more, *less))
}

/// The digits before the point and those behind it. `None` if it is no number.
fn digits(number: &str) -> Option<(&str, &str)> {
    let unsigned = number.strip_prefix(['-', '+']).unwrap_or(number);
    let (whole, part) = unsigned.split_once('.').unwrap_or((unsigned, "0"));
    let all = |text: &str| !text.is_empty() && text.bytes().all(|one| one.is_ascii_digit());
    (all(whole) && all(part)).then_some((whole, part))
}

/// The number without its point, and how many digits stand behind it. Noughts that say nothing do
/// not count among the digits.
fn decimal(number: &str, whole: &str, part: &str) -> Result<(i128, u32), Wrong> {
    const DIGITS_MOST: usize = 12;
    let (whole, part) = (whole.trim_start_matches('0'), part.trim_end_matches('0'));
    if whole.len() > DIGITS_MOST {
        return Err(Wrong::Range(readable(number)));
    }
    if part.len() > DIGITS_MOST {
        return Err(Wrong::Decimals);
    }
    let mantissa: i128 = format!("0{whole}{part}")
        .parse()
        .map_err(|_| Wrong::NoNumber)?;
    let sign = if number.starts_with('-') { -1 } else { 1 };
    let scale = u32::try_from(part.len()).map_err(|_| Wrong::Decimals)?;
    Ok((sign * mantissa, scale))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SLOTS: Bound = Bound::whole("slots", "slots", 2, 40, "slots of the rack");
    const PITCH: Bound = Bound::millimetres("pitch_mm", 5_000, 60_000, "from slot to slot");
    const PLACE: Bound = Bound::millimetres("place_mm", -90_000, 90_000, "a place");
    const HOLD: Bound = Bound::seconds("hold_s", 50_000, 90_000_000, "how long");
    const SPEED: Bound = Bound::whole("speed_mm_s", "mm/s", 1, 1_000, "speed of an axis");

    #[test]
    fn figures_are_read_with_their_units() {
        let range = |text: &str| Err(Wrong::Range(text.to_owned()));
        let unit = |text: &str| Err(Wrong::Unit(text.to_owned()));
        let cases: &[(Bound, &str, Result<i64, Wrong>)] = &[
            (PITCH, "20", Ok(20_000)),
            (PITCH, " 20.5 mm ", Ok(20_500)),
            (PITCH, "20.5mm", Ok(20_500)),
            (PITCH, "2 cm", Ok(20_000)),
            (PITCH, "0.02 M", Ok(20_000)),
            // The international inch is exactly 25.4 mm.
            (PITCH, "1 in", Ok(25_400)),
            (PITCH, "0.8125\"", Ok(20_638)),
            (PITCH, "20.0001", Err(Wrong::Decimals)),
            (PITCH, "20.000100 mm", Err(Wrong::Decimals)),
            (PITCH, "20.0000", Ok(20_000)),
            (PITCH, "4.999", range("4.999")),
            (PITCH, "7 cm", range("70")),
            (PITCH, "20,5", Err(Wrong::Comma)),
            (PITCH, "1,200.5", Err(Wrong::Comma)),
            (PITCH, "20 s", unit("s")),
            (PITCH, "20 parsecs", unit("parsecs")),
            (PITCH, "twenty", Err(Wrong::NoNumber)),
            (PITCH, ".5", Err(Wrong::NoNumber)),
            (PITCH, "5.", Err(Wrong::NoNumber)),
            (PITCH, "1.2.3", Err(Wrong::NoNumber)),
            (PITCH, "--5", Err(Wrong::NoNumber)),
            (PITCH, "9999999999999999", range("9999999999999999")),
            (PITCH, "-9999999999999999 mm", range("-9999999999999999")),
            (PITCH, "000000000000000020", Ok(20_000)),
            (PITCH, "20.0000000000000001", Err(Wrong::Decimals)),
            (PITCH, "9999999999999999 parsecs", unit("parsecs")),
            (PITCH, "999999999999 m", range("999999999999000")),
            (PLACE, "-1.5 cm", Ok(-15_000)),
            (PLACE, "-0.00005 m", Ok(-50)),
            (PLACE, "-0.0000005 m", Ok(-1)),
            (PLACE, "+3", Ok(3_000)),
            (SLOTS, "16", Ok(16)),
            (SLOTS, "16 slots", Ok(16)),
            (SLOTS, "16.0", Ok(16)),
            (SLOTS, "16.5", Err(Wrong::Decimals)),
            (SLOTS, "16 mm", unit("mm")),
            (HOLD, "50 ms", Ok(50_000)),
            (HOLD, "1 min", Ok(60_000_000)),
            (HOLD, "2 mm", unit("mm")),
            (SPEED, "12 m/min", Ok(200)),
            (SPEED, "0.2 m/s", Ok(200)),
        ];
        for (bound, typed, expected) in cases {
            assert_eq!(figure(typed, bound), *expected, "{typed}");
        }
    }

    #[test]
    fn a_range_of_bare_numbers_names_no_unit() {
        let words = Words::english();
        const LEVEL: Bound = Bound::whole("level", "", 4, 6, "level of a search");
        assert_eq!(range_told(&words, &LEVEL), "4 to 6, whole.");
        assert_eq!(range_told(&words, &SLOTS), "2 to 40 slots, whole.");
    }

    #[test]
    fn a_unit_that_nobody_knows_stands_for_itself() {
        assert_eq!(unit_names("slots"), ["slots"]);
        assert_eq!(unit_names("mm"), ["mm", "cm", "m", "µm", "in"]);
    }
}
