//! Bounds of a number, declared once.

use crate::{Decimal, Message, ids};

/// What a number may be. Declared once by its owner; checks, messages and help all read from it.
///
/// `least` and `most` are whole numbers: they count the smallest step of the unit that can be
/// written. A length in millimetres has 3 decimals, so its bounds count micrometres.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bound {
    /// A key, by which a translation can choose its own words. ASCII letters, digits, `-`, `_`.
    pub name: &'static str,
    /// The unit in which the number is written in a file: `mm`, `s`, `slots`.
    pub unit: &'static str,
    /// How many decimals may be written, 0 to 6.
    pub decimals: u8,
    /// The least number allowed, in steps of the last decimal.
    pub least: i64,
    /// The greatest number allowed, in steps of the last decimal.
    pub most: i64,
    /// What it is, for a human: "the width of a board".
    pub words: &'static str,
}

impl Bound {
    /// The bound of a whole number.
    pub const fn whole(
        name: &'static str,
        unit: &'static str,
        least: i64,
        most: i64,
        words: &'static str,
    ) -> Bound {
        assert!(least <= most, "a bound allows at least one number");
        Bound {
            name,
            unit,
            decimals: 0,
            least,
            most,
            words,
        }
    }

    /// The bound of a length that is written in millimetres and kept in micrometres.
    pub const fn millimetres(
        name: &'static str,
        least_um: i32,
        most_um: i32,
        words: &'static str,
    ) -> Bound {
        assert!(least_um <= most_um, "a bound allows at least one number");
        let (least, most) = (least_um as i64, most_um as i64);
        Bound {
            name,
            unit: "mm",
            decimals: 3,
            least,
            most,
            words,
        }
    }

    /// The bound of a span of time that is written in seconds and kept in microseconds.
    pub const fn seconds(
        name: &'static str,
        least_us: u32,
        most_us: u32,
        words: &'static str,
    ) -> Bound {
        assert!(least_us <= most_us, "a bound allows at least one number");
        let (least, most) = (least_us as i64, most_us as i64);
        Bound {
            name,
            unit: "s",
            decimals: 6,
            least,
            most,
            words,
        }
    }

    /// Whether a number, in steps of the last decimal, is allowed.
    pub const fn contains(&self, number: i64) -> bool {
        self.least <= number && number <= self.most
    }

    /// A number, in steps of the last decimal, as it would stand in a file: `170.8`.
    pub fn written(&self, number: i64) -> String {
        Decimal {
            mantissa: number,
            scale: self.decimals,
        }
        .written()
    }

    /// What is expected of a number with this bound.
    pub fn expected(&self) -> Message {
        let id = if self.decimals == 0 {
            ids::EXPECTED_WHOLE
        } else {
            ids::EXPECTED_DECIMAL
        };
        Message::new(
            id,
            &[
                ("name", &self.name),
                ("words", &self.words),
                ("least", &self.written(self.least)),
                ("most", &self.written(self.most)),
                ("unit", &self.unit),
                ("decimals", &self.decimals),
            ],
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SLOTS: Bound = Bound::whole("slots", "slots", 1, 200, "places for a board");
    const WIDTH: Bound = Bound::millimetres("width", 50_500, 508_000, "the width of a board");
    const WAIT: Bound = Bound::seconds("wait", 1, 60_000_000, "how long to wait");

    #[test]
    fn both_ends_are_allowed() {
        let cases = [(0, false), (1, true), (200, true), (201, false)];
        for (number, expected) in cases {
            assert_eq!(SLOTS.contains(number), expected, "{number}");
        }
    }

    #[test]
    fn what_is_expected_is_written_in_the_unit_of_the_file() {
        let cases = [
            (SLOTS, ids::EXPECTED_WHOLE, "1", "200"),
            (WIDTH, ids::EXPECTED_DECIMAL, "50.5", "508"),
            (WAIT, ids::EXPECTED_DECIMAL, "0.000001", "60"),
        ];
        for (bound, id, least, most) in cases {
            let expected = bound.expected();
            assert_eq!(expected.id, id);
            assert_eq!(expected.argument("least"), Some(least));
            assert_eq!(expected.argument("most"), Some(most));
        }
    }
}
