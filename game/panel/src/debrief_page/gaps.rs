//! What the slot map did not know, in words. Only what is certain: what it showed, what was so, who
//! had seen it, and which look would have shown it.

use rackproof_buffer::Halves;
use rackproof_drill::message::slot_ranges;
use rackproof_words::Arg;

use super::{DebriefView, Gap, clock};

/// A gap in full.
pub(super) fn said(view: &DebriefView<'_>, gap: &Gap) -> String {
    let mut parts = Vec::new();
    if !gap.missing.is_empty() {
        let slots = gap.missing.infeed | gap.missing.outfeed;
        let arguments = [
            ("slots", Arg::from(slot_ranges(slots))),
            ("count", Arg::Number(i64::from(slots.count_ones()))),
            ("boards", Arg::Number(i64::from(gap.missing.len()))),
        ];
        parts.push(view.say_with("debrief-gap-missing", &arguments));
        match gap.seen {
            Some(at) => {
                let time = [("time", Arg::from(clock(at)))];
                parts.push(view.say_with("debrief-gap-seen", &time));
            }
            None => {
                parts.push(view.say("debrief-gap-unseen"));
                parts.push(view.say(look_id(gap.shown_by)));
            }
        }
    }
    if gap.ghosts != 0 {
        let arguments = [
            ("slots", Arg::from(slot_ranges(gap.ghosts))),
            ("count", Arg::Number(i64::from(gap.ghosts.count_ones()))),
        ];
        parts.push(view.say_with("debrief-gap-ghost", &arguments));
    }
    parts.join(" ")
}

/// From when to when.
pub(super) fn times(view: &DebriefView<'_>, gap: &Gap) -> String {
    let times = [
        ("from", Arg::from(clock(gap.from))),
        ("to", Arg::from(clock(gap.to))),
    ];
    view.say_with("debrief-gap-times", &times)
}

/// A gap in a few words, for the timeline.
pub(super) fn short(view: &DebriefView<'_>, gap: &Gap) -> String {
    if gap.missing == Halves::NONE {
        let slots = i64::from(gap.ghosts.count_ones());
        return view.say_with("debrief-gap-short-ghost", &[("slots", Arg::Number(slots))]);
    }
    let boards = [("boards", Arg::Number(i64::from(gap.missing.len())))];
    let id = if gap.seen.is_some() {
        "debrief-gap-short-seen"
    } else {
        "debrief-gap-short-unseen"
    };
    view.say_with(id, &boards)
}

fn look_id(shown_by: [bool; 2]) -> &'static str {
    match shown_by {
        [true, true] => "debrief-gap-either-lean",
        [true, false] => "debrief-gap-infeed-lean",
        [false, true] => "debrief-gap-outfeed-lean",
        [false, false] => "debrief-gap-no-lean",
    }
}
