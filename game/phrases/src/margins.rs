//! By how much time a rule was kept or missed.

use rackproof_grade::{Judged, Margin};
use rackproof_words::{Arg, Words};

use crate::named;

/// A margin with the plain words of its rule.
pub fn margin_line(judged: &Judged, margin: &Margin, words: &Words) -> String {
    let rule = judged.rules().list.get(margin.rule);
    let rule = rule.map_or_else(String::new, |rule| {
        named(words, &format!("rule-{}", rule.name), &rule.name)
    });
    let id = if margin.spare < 0 {
        "margin-missed"
    } else {
        "margin-kept"
    };
    let time = Arg::Micros(margin.spare.unsigned_abs());
    words.say(id, &[("rule", Arg::from(rule)), ("time", time)])
}
