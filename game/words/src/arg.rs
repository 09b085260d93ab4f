//! Values for messages, and how each of them is written.
//!
//! All figures are made from whole numbers: the same value is the same text on any machine.

use std::borrow::Cow;

use fluent_bundle::FluentValue;

/// The largest whole number that Fluent's own number type holds without loss.
const EXACT_MAX: u64 = 1 << 53;

const MICROS_PER_SECOND: u64 = 1_000_000;
const MICROS_PER_TENTH: u64 = 100_000;

/// A value for a message.
///
/// A message can choose between forms (one board, two boards) by a [`Arg::Number`] or a
/// [`Arg::Text`]. The other kinds reach it as finished text.
///
/// ```
/// use rackproof_words::Arg;
///
/// assert_eq!(Arg::Micrometres(170_800).to_string(), "170.8 mm");
/// assert_eq!(Arg::Clock(65_900_000).to_string(), "01:05");
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Arg<'a> {
    /// Text that is shown as it is.
    Text(Cow<'a, str>),
    /// A plain whole number, without thousands separators.
    Number(i64),
    /// A length or place in micrometres, shown in millimetres: `170.8 mm`. As many decimals as
    /// the value has, at least one.
    Micrometres(i32),
    /// A stretch of time in microseconds, shown in seconds with one decimal, rounded to the
    /// nearest tenth: `6.0 s`.
    Micros(u64),
    /// A time since the start in microseconds, shown as a clock shows it: `mm:ss`, from one hour
    /// on `h:mm:ss`. Seconds that are not yet full are not shown.
    Clock(u64),
}

impl std::fmt::Display for Arg<'_> {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Arg::Text(text) => out.write_str(text),
            Arg::Number(number) => write!(out, "{number}"),
            Arg::Micrometres(micrometres) => out.write_str(&millimetres_text(*micrometres)),
            Arg::Micros(micros) => out.write_str(&seconds_text(*micros)),
            Arg::Clock(micros) => out.write_str(&clock_text(*micros)),
        }
    }
}

impl<'a> From<&'a str> for Arg<'a> {
    fn from(text: &'a str) -> Self {
        Arg::Text(Cow::Borrowed(text))
    }
}

impl From<String> for Arg<'_> {
    fn from(text: String) -> Self {
        Arg::Text(Cow::Owned(text))
    }
}

impl From<i64> for Arg<'_> {
    fn from(number: i64) -> Self {
        Arg::Number(number)
    }
}

impl Arg<'_> {
    /// The value as Fluent takes it. A number stays a number, so that plural forms work. Beyond
    /// what Fluent holds exactly it goes in as text: a right figure matters more than its form.
    pub(crate) fn to_fluent(&self) -> FluentValue<'_> {
        match self {
            Arg::Number(number) if number.unsigned_abs() <= EXACT_MAX => FluentValue::from(*number),
            Arg::Text(text) => FluentValue::from(text.as_ref()),
            other => FluentValue::from(other.to_string()),
        }
    }
}

fn millimetres_text(micrometres: i32) -> String {
    let sign = if micrometres < 0 { "-" } else { "" };
    let size = micrometres.unsigned_abs();
    let decimals = format!("{:03}", size % 1000);
    let kept = decimals.trim_end_matches('0');
    let kept = if kept.is_empty() { "0" } else { kept };
    format!("{sign}{}.{kept} mm", size / 1000)
}

fn seconds_text(micros: u64) -> String {
    let round_up = micros % MICROS_PER_TENTH >= MICROS_PER_TENTH / 2;
    let tenths = micros / MICROS_PER_TENTH + u64::from(round_up);
    format!("{}.{} s", tenths / 10, tenths % 10)
}

fn clock_text(micros: u64) -> String {
    let seconds = micros / MICROS_PER_SECOND;
    let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    if hours == 0 {
        format!("{minutes:02}:{seconds:02}")
    } else {
        format!("{hours}:{minutes:02}:{seconds:02}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_kind_is_written_as_agreed() {
        let cases: &[(Arg<'_>, &str)] = &[
            (Arg::from("slot 3"), "slot 3"),
            (Arg::from(String::from("slot 4")), "slot 4"),
            (Arg::Number(0), "0"),
            (Arg::Number(1_234_567), "1234567"),
            (Arg::Number(i64::MIN), "-9223372036854775808"),
            (Arg::Micrometres(0), "0.0 mm"),
            (Arg::Micrometres(170_800), "170.8 mm"),
            (Arg::Micrometres(170_000), "170.0 mm"),
            (Arg::Micrometres(170_825), "170.825 mm"),
            (Arg::Micrometres(170_050), "170.05 mm"),
            (Arg::Micrometres(5), "0.005 mm"),
            (Arg::Micrometres(-500), "-0.5 mm"),
            (Arg::Micrometres(i32::MIN), "-2147483.648 mm"),
            (Arg::Micros(0), "0.0 s"),
            (Arg::Micros(6_000_000), "6.0 s"),
            (Arg::Micros(6_049_999), "6.0 s"),
            (Arg::Micros(6_050_000), "6.1 s"),
            (Arg::Micros(59_990_000), "60.0 s"),
            (Arg::Micros(u64::MAX), "18446744073709.6 s"),
            (Arg::Clock(0), "00:00"),
            (Arg::Clock(65_999_999), "01:05"),
            (Arg::Clock(3_599_000_000), "59:59"),
            (Arg::Clock(3_600_000_000), "1:00:00"),
            (Arg::Clock(36_061_000_000), "10:01:01"),
        ];
        for (arg, expected) in cases {
            assert_eq!(arg.to_string(), *expected, "{arg:?}");
        }
    }

    #[test]
    fn large_numbers_reach_fluent_without_loss() {
        for number in [
            i64::MAX,
            i64::MIN,
            9_007_199_254_740_993,
            9_007_199_254_740_992,
            -7,
        ] {
            let value = Arg::Number(number);
            let text = match value.to_fluent() {
                FluentValue::Number(inner) => inner.as_string().into_owned(),
                FluentValue::String(inner) => inner.into_owned(),
                other => format!("{other:?}"),
            };
            assert_eq!(text, number.to_string());
        }
    }
}
