//! What is said of a figure that cannot be taken.

use std::io;

use rackproof_files::Bound;
use rackproof_words::Arg;

use crate::{
    machine::{
        Ways,
        answer::{Wrong, unit_names},
    },
    play::typed::readable,
};

/// Says what is wrong with it.
pub(super) fn tell_wrong(
    line: &str,
    wrong: &Wrong,
    bound: &Bound,
    ways: &mut Ways<'_>,
) -> io::Result<()> {
    let typed = ("typed", Arg::from(readable(line)));
    let unit = ("unit", Arg::from(bound.unit));
    match wrong {
        Wrong::NoNumber => ways.tell("ask-no-number", &[typed]),
        Wrong::Comma => ways.tell("ask-comma", &[typed]),
        Wrong::Decimals => {
            let decimals = ("decimals", Arg::Number(i64::from(bound.decimals)));
            ways.tell("ask-decimals", &[typed, decimals])
        }
        Wrong::Range(number) => {
            let number = ("number", Arg::from(number.as_str()));
            ways.tell("ask-out-of-range", &[number, unit])
        }
        Wrong::Unit(found) => {
            let found = ("found", Arg::from(readable(found)));
            let units = ("units", Arg::from(unit_names(bound.unit).join(", ")));
            ways.tell("ask-wrong-unit", &[found, units])
        }
    }
}
