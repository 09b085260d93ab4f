//! What can be done, as a numbered list.

use rackproof_attempt::Attempt;
use rackproof_buffer::{Half, HalfSlot};
use rackproof_drill::{
    Intent, IntentKind,
    message::{IntentGroup, group_of, of_group, of_intent},
};
use rackproof_words::{Arg, Words};

use crate::phrases::{text, wrapped};

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

/// The menu as text.
pub(super) fn menu(attempt: &Attempt, entries: &[(IntentGroup, Entry)], words: &Words) -> String {
    // The longest heading, a number of two figures, and the blanks between.
    const LABEL: usize = 20;
    let mut out = format!("{}\n", words.say("play-i-can", &[]));
    let mut last = None;
    for (number, (group, entry)) in entries.iter().enumerate() {
        let head = match last.replace(*group) == Some(*group) {
            true => String::new(),
            false => text(words, &of_group(*group)),
        };
        let told = match entry {
            Entry::Do(intent) => text(
                words,
                &of_intent(attempt.world(), &attempt.state().world, *intent),
            ),
            Entry::AtSlot(IntentKind::Take) => words.say("play-take-somewhere", &[]),
            Entry::AtSlot(_) => words.say("play-put-somewhere", &[]),
        };
        let label = format!("  {head:<14} {:>2}", number + 1);
        out.push_str(&wrapped(&label, LABEL, &told));
    }
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
