//! What can be done, as a numbered list.

use rackproof_attempt::Attempt;
use rackproof_buffer::{Half, HalfSlot};
use rackproof_drill::{
    Intent, IntentKind,
    message::{IntentGroup, group_of, of_group, of_intent},
};
use rackproof_words::{Arg, Words};

use super::screen::INDENT;
use crate::lines::wrapped;
use rackproof_phrases::text;

/// One line of the menu.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Entry {
    /// An intent.
    Do(Intent),
    /// Taking a board out of the rack, or putting one in: slot and half are asked for.
    AtSlot(IntentKind),
}

/// The lines of the menu, grouped as they are shown.
pub(super) fn entries(offers: &[Intent]) -> Vec<(IntentGroup, Entry)> {
    let mut found: Vec<(IntentGroup, Entry)> = Vec::new();
    for &intent in offers {
        let entry = match intent {
            Intent::Take(_) | Intent::PutIn(_) => Entry::AtSlot(intent.kind()),
            _ => Entry::Do(intent),
        };
        let entry = (group_of(intent), entry);
        if !found.contains(&entry) {
            found.push(entry);
        }
    }
    // Stable: within a group the order of the offers stays.
    found.sort_by_key(|(group, _)| *group);
    found
}

/// The menu as text: a group begins a line, and its offers stand beside each other in columns.
pub(super) fn menu(attempt: &Attempt, entries: &[(IntentGroup, Entry)], words: &Words) -> String {
    let mut out = format!("{}\n", words.say("play-i-can", &[]));
    let mut groups: Vec<(IntentGroup, Vec<String>)> = Vec::new();
    for (number, (group, entry)) in entries.iter().enumerate() {
        let told = match entry {
            Entry::Do(intent) => text(
                words,
                &of_intent(attempt.world(), &attempt.state().world, *intent),
            ),
            Entry::AtSlot(IntentKind::Take) => words.say("play-take-somewhere", &[]),
            Entry::AtSlot(_) => words.say("play-put-somewhere", &[]),
        };
        let offer = format!("{:>2} {told}", number + 1);
        match groups.last_mut() {
            Some((last, offers)) if last == group => offers.push(offer),
            _ => groups.push((*group, vec![offer])),
        }
    }
    for (group, offers) in &groups {
        out.push_str(&in_columns(&text(words, &of_group(*group)), offers));
    }
    out
}

/// Offers beside each other under one head. One that is wider than its column takes the next too.
fn in_columns(head: &str, offers: &[String]) -> String {
    const COLUMN: usize = 12;
    const COLUMNS: usize = 80;
    // A number of two figures and a blank: all of one byte.
    const NUMBER: usize = 3;
    let mut out = format!("{head:<INDENT$}");
    if head.chars().count() >= INDENT {
        out.push_str(&format!("\n{:INDENT$}", ""));
    }
    let mut at = INDENT;
    let mut last_end = INDENT;
    for offer in offers {
        let width = offer.chars().count();
        if at > INDENT && at + width > COLUMNS {
            out.push_str(&format!("\n{:INDENT$}", ""));
            (at, last_end) = (INDENT, INDENT);
        }
        if INDENT + width > COLUMNS {
            // Wider than the page: in lines of its own, under its first word.
            let (number, told) = offer.split_at(offer.len().min(NUMBER));
            out.push_str(number);
            out.push_str(wrapped("", INDENT + NUMBER, told).trim());
            at = COLUMNS;
            continue;
        }
        out.push_str(&" ".repeat(at - last_end));
        out.push_str(offer);
        last_end = at + width;
        // Two blanks at least between two offers.
        at += (width + 2).div_ceil(COLUMN) * COLUMN;
    }
    out.push('\n');
    out
}

/// The half-slot that somebody typed: `5 i`, `5 infeed`, `5, o`. Slots count from 1.
pub(super) fn half_slot(typed: &str, slots: u8, words: &Words) -> Option<HalfSlot> {
    let mut parts = typed.split([' ', ',']).filter(|part| !part.is_empty());
    let slot: u8 = parts.next()?.parse().ok()?;
    let half = parts.next()?.to_lowercase();
    let named = |id: &str| words.say(id, &[]).to_lowercase();
    let is = |id: &str| named(id).starts_with(&half);
    let half = if is("half-infeed") {
        Half::Infeed
    } else if is("half-outfeed") {
        Half::Outfeed
    } else {
        return None;
    };
    let known = (1..=slots).contains(&slot) && parts.next().is_none();
    known.then(|| HalfSlot {
        slot: slot - 1,
        half,
    })
}

/// The question for slot and half.
pub(super) fn slot_question(slots: u8, words: &Words) -> String {
    words.say(
        "play-which-slot",
        &[("slots", Arg::Number(i64::from(slots)))],
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn offers_stand_in_columns_of_a_page() {
        let offers = |all: &[&str]| -> Vec<String> { all.iter().map(|&it| it.into()).collect() };
        let walk = [
            " 1 Walk to the infeed",
            " 2 Walk to the outfeed",
            " 3 Walk to the hatch",
            " 4 Walk to the isolator",
        ];
        let one = "Walk      1 Walk to the infeed    2 Walk to the outfeed   3 Walk to the hatch\n";
        let two = "          4 Walk to the isolator\n";
        assert_eq!(in_columns("Walk", &offers(&walk)), format!("{one}{two}"));
        let wide = in_columns("A very long head", &offers(&["11 Hold", "12 Let go"]));
        assert_eq!(wide, "A very long head\n         11 Hold     12 Let go\n");
        let long = format!("13 {}", "word ".repeat(30).trim_end());
        let lines = in_columns("Hands", &[long, "14 Look".to_owned()]);
        assert!(
            lines.lines().all(|line| line.chars().count() <= 80),
            "{lines}"
        );
        assert!(lines.ends_with("\n         14 Look\n"), "{lines}");
    }

    #[test]
    fn slots_are_read_as_they_are_written() {
        let words = Words::english();
        let at = |slot, half| Some(HalfSlot { slot, half });
        let cases = [
            ("5 i", at(4, Half::Infeed)),
            ("16 Outfeed", at(15, Half::Outfeed)),
            ("1,o", at(0, Half::Outfeed)),
            ("  2   infeed ", at(1, Half::Infeed)),
            ("0 i", None),
            ("17 i", None),
            ("5", None),
            ("i 5", None),
            ("5 x", None),
            ("5 i 6", None),
            ("-1 i", None),
            ("", None),
        ];
        for (typed, expected) in cases {
            assert_eq!(half_slot(typed, 16, &words), expected, "{typed}");
        }
    }
}
