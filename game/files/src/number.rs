//! Numbers as they are written, without a float.

use crate::ids;

/// A decimal number, exact as written: `170.8` is 1708 with one decimal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Decimal {
    /// The digits without the point, with the sign.
    pub mantissa: i64,
    /// How many of the digits stand after the point, 0 to 18.
    pub scale: u8,
}

impl Decimal {
    /// The number counted in units of so many decimals: `170.8` in 3 decimals is 170800.
    /// `None` if it has more decimals than that, or does not fit.
    pub fn scaled(self, decimals: u8) -> Option<i64> {
        let more = decimals.checked_sub(self.scale)?;
        self.mantissa
            .checked_mul(10i64.checked_pow(u32::from(more))?)
    }

    /// The same number as text, without needless zeros: 170800 in 3 decimals is `170.8`.
    pub fn written(self) -> String {
        let digits = format!(
            "{:0>1$}",
            self.mantissa.unsigned_abs(),
            usize::from(self.scale) + 1
        );
        let (whole, part) = digits.split_at(digits.len() - usize::from(self.scale));
        let sign = if self.mantissa < 0 { "-" } else { "" };
        match part.trim_end_matches('0') {
            "" => format!("{sign}{whole}"),
            part => format!("{sign}{whole}.{part}"),
        }
    }
}

/// A number as it stands in a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Number {
    Integer(i64),
    Decimal(Decimal),
}

/// Reads one written number. The error is the id of what is wrong with it.
pub(crate) fn parse(written: &str) -> Result<Number, &'static str> {
    let unsigned = written.strip_prefix(['-', '+']).unwrap_or(written);
    let (whole, part) = match unsigned.split_once('.') {
        None => (unsigned, None),
        Some((whole, part)) => (whole, Some(part)),
    };
    if !are_digits(whole) || !part.is_none_or(are_digits) {
        return Err(ids::PROBLEM_NUMBER_FORM);
    }
    // The sign goes in front of the digits, so that the least number of all can be read, too.
    let mut digits = String::from(if written.starts_with('-') { "-" } else { "" });
    digits.extend(unsigned.chars().filter(char::is_ascii_digit));
    let mantissa: i64 = digits.parse().map_err(|_| ids::PROBLEM_NUMBER_LONG)?;
    let Some(part) = part else {
        return Ok(Number::Integer(mantissa));
    };
    match u8::try_from(part.chars().filter(char::is_ascii_digit).count()) {
        Ok(scale) if scale <= SCALE_MOST => Ok(Number::Decimal(Decimal { mantissa, scale })),
        _ => Err(ids::PROBLEM_NUMBER_LONG),
    }
}

/// The most decimals for which a one still fits an `i64`.
pub(crate) const SCALE_MOST: u8 = 18;

/// Digits, with `_` between them as one likes.
fn are_digits(text: &str) -> bool {
    text.starts_with(|first: char| first.is_ascii_digit())
        && text.ends_with(|last: char| last.is_ascii_digit())
        && text.chars().all(|one| one.is_ascii_digit() || one == '_')
}

#[cfg(test)]
mod tests {
    use super::*;

    fn decimal(mantissa: i64, scale: u8) -> Result<Number, &'static str> {
        Ok(Number::Decimal(Decimal { mantissa, scale }))
    }

    #[test]
    fn numbers_are_read_exactly() {
        let cases = [
            ("0", Ok(Number::Integer(0))),
            ("+7", Ok(Number::Integer(7))),
            ("-1_000", Ok(Number::Integer(-1000))),
            ("9223372036854775807", Ok(Number::Integer(i64::MAX))),
            ("-9223372036854775808", Ok(Number::Integer(i64::MIN))),
            ("9223372036854775808", Err(ids::PROBLEM_NUMBER_LONG)),
            ("170.8", decimal(1708, 1)),
            ("-0.05", decimal(-5, 2)),
            ("1_0.2_5", decimal(1025, 2)),
            ("3.0", decimal(30, 1)),
            ("0.000000000000000001", decimal(1, 18)),
            ("0.0000000000000000001", Err(ids::PROBLEM_NUMBER_LONG)),
            (".5", Err(ids::PROBLEM_NUMBER_FORM)),
            ("5.", Err(ids::PROBLEM_NUMBER_FORM)),
            ("1.2.3", Err(ids::PROBLEM_NUMBER_FORM)),
            ("1e3", Err(ids::PROBLEM_NUMBER_FORM)),
            ("0x10", Err(ids::PROBLEM_NUMBER_FORM)),
            ("1_", Err(ids::PROBLEM_NUMBER_FORM)),
            ("--1", Err(ids::PROBLEM_NUMBER_FORM)),
            ("-", Err(ids::PROBLEM_NUMBER_FORM)),
            ("", Err(ids::PROBLEM_NUMBER_FORM)),
        ];
        for (written, expected) in cases {
            assert_eq!(parse(written), expected, "{written}");
        }
    }

    #[test]
    fn scaling_never_rounds() {
        let cases = [
            ((1708, 1), 3, Some(170_800)),
            ((1708, 3), 3, Some(1708)),
            ((17080, 4), 3, None),
            ((i64::MAX, 0), 1, None),
            ((1, 0), 40, None),
        ];
        for ((mantissa, scale), decimals, expected) in cases {
            assert_eq!(Decimal { mantissa, scale }.scaled(decimals), expected);
        }
    }

    #[test]
    fn a_number_is_written_short() {
        let cases = [
            ((170_800, 3), "170.8"),
            ((5, 3), "0.005"),
            ((-5, 3), "-0.005"),
            ((508_000, 3), "508"),
            ((100, 0), "100"),
            ((0, 6), "0"),
            ((i64::MIN, 0), "-9223372036854775808"),
        ];
        for ((mantissa, scale), expected) in cases {
            assert_eq!(Decimal { mantissa, scale }.written(), expected);
        }
    }
}
