//! By how much a rule was kept or missed.

use rackproof_grade::{Judged, Margin, Spare, WidthRead};
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

/// By how much a rule was missed, in a sentence.
pub(crate) fn missed_line(spare: Spare, words: &Words) -> String {
    match spare {
        Spare::Time(spare) => {
            let time = Arg::Micros(spare.unsigned_abs());
            words.say("finding-missed-time", &[("time", time)])
        }
        Spare::Width(width) => {
            let beyond = ("beyond", Arg::from(beyond(width, words)));
            words.say("finding-missed-width", &[read(width), beyond])
        }
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
