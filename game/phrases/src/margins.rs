//! By how much a rule was kept or missed.

use rackproof_drill::{Unread, Width};
use rackproof_grade::{Judged, Margin, Missed, Spare, WidthRead};
use rackproof_words::{Arg, Words};

use crate::named;

/// A margin with the plain words of its rule.
pub fn margin_line(judged: &Judged, margin: &Margin, words: &Words) -> String {
    let rule = judged.rules().list.get(margin.rule);
    let rule = rule.map_or_else(String::new, |rule| {
        named(words, &format!("rule-{}", rule.name), &rule.name)
    });
    let rule = ("rule", Arg::from(rule));
    let missed = margin.spare.amount() < 0;
    match margin.spare {
        Spare::Time(spare) => {
            let id = if missed {
                "margin-missed"
            } else {
                "margin-kept"
            };
            words.say(id, &[rule, ("time", Arg::Micros(spare.unsigned_abs()))])
        }
        Spare::Width(width) if missed => {
            let beyond = ("beyond", Arg::from(beyond(width, words)));
            words.say("margin-width-missed", &[rule, read(width), beyond])
        }
        Spare::Width(width) => {
            let id = if width.least {
                "margin-limit-least"
            } else {
                "margin-limit-most"
            };
            let limit = Arg::from(words.say(id, &[limit(width)]));
            let arguments = [rule, read(width), by(width), ("limit", limit)];
            words.say("margin-width-kept", &arguments)
        }
    }
}

/// By how much a rule was missed, in a sentence, or why that cannot be said.
pub(crate) fn missed_line(missed: Missed, words: &Words) -> String {
    match missed {
        Missed::By(Spare::Time(spare)) => {
            let time = Arg::Micros(spare.unsigned_abs());
            words.say("finding-missed-time", &[("time", time)])
        }
        Missed::By(Spare::Width(width)) => {
            let beyond = ("beyond", Arg::from(beyond(width, words)));
            words.say("finding-missed-width", &[read(width), beyond])
        }
        Missed::Unread(width, why) => {
            let said = |id| Arg::from(words.say(id, &[]));
            let arguments = [("width", said(width_id(width))), ("why", said(why_id(why)))];
            words.say("finding-unread-width", &arguments)
        }
    }
}

/// The name of a width that can be read.
fn width_id(width: Width) -> &'static str {
    match width {
        Width::Counted => "width-counted",
        Width::Measured => "width-measured",
        Width::Wanted => "width-wanted",
        Width::LoadedStored => "width-loaded-stored",
        Width::NextStored => "width-next-stored",
        Width::Typed => "width-typed",
    }
}

/// Why a width could not be read.
fn why_id(why: Unread) -> &'static str {
    match why {
        Unread::PanelDark => "unread-panel-dark",
        Unread::RailsMove => "unread-rails-move",
        Unread::CountUnknown => "unread-count-unknown",
        Unread::NoSensor => "unread-no-sensor",
        Unread::NothingTyped => "unread-nothing-typed",
    }
}

fn beyond(width: WidthRead, words: &Words) -> String {
    let id = if width.least {
        "margin-beyond-least"
    } else {
        "margin-beyond-most"
    };
    words.say(id, &[by(width), limit(width)])
}

fn read(width: WidthRead) -> (&'static str, Arg<'static>) {
    ("read", Arg::Micrometres(width.read.0))
}

fn limit(width: WidthRead) -> (&'static str, Arg<'static>) {
    ("limit", Arg::Micrometres(width.limit.0))
}

fn by(width: WidthRead) -> (&'static str, Arg<'static>) {
    ("by", Arg::Micrometres(width.spare().0.saturating_abs()))
}
