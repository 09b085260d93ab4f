//! The tick sheet as text.

use rackproof_attempt::Sheet;
use rackproof_buffer::Half;
use rackproof_drill::message::slot_ranges;
use rackproof_words::{Arg, Words};

use crate::lines::wrapped;

/// The sheet as text.
pub(super) fn sheet_text(sheet: &Sheet, words: &Words) -> String {
    let row = |id: &str, half| {
        let ranges = slot_ranges(sheet.marks().of(half));
        let marked = if ranges.is_empty() {
            words.say("sheet-none", &[])
        } else {
            ranges
        };
        words.say(id, &[("slots", Arg::from(marked))])
    };
    [
        wrapped("", 0, &words.say("sheet-head", &[])),
        wrapped("", 2, &row("sheet-infeed", Half::Infeed)),
        wrapped("", 2, &row("sheet-outfeed", Half::Outfeed)),
    ]
    .concat()
}
