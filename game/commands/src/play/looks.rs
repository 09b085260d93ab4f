//! What was looked at since the looks became void, in words, for practice.

use rackproof_attempt::Looks;
use rackproof_buffer::Halves;
use rackproof_drill::message::slot_ranges;
use rackproof_words::{Arg, Words};

/// Which slots a person asks themselves about now.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Scope {
    /// In a clear-out, the slot at the belts alone.
    pub(super) at_belts: Option<u8>,
    /// Slots that the panel shows as answered for.
    pub(super) said: u64,
}

/// What still counts as unseen, in words.
pub(super) fn looks_text(looks: &Looks, slots: u8, asked: &Scope, words: &Words) -> String {
    let all = match asked.at_belts {
        Some(slot) => Halves::slot(slot),
        None => Halves::all(slots),
    };
    let (infeed, outfeed) = (
        all.infeed & !looks.empty.infeed,
        all.outfeed & !looks.empty.outfeed,
    );
    let whole = infeed & outfeed;
    let belts = [0, 1].map(|side| u64::from(!(looks.belts[side] && looks.mouths[side])));
    let parts = [
        ("looks-whole", whole & !asked.said),
        ("looks-said", whole & asked.said),
        ("looks-infeed", infeed & !whole),
        ("looks-outfeed", outfeed & !whole),
        ("looks-infeed-belt", belts[0]),
        ("looks-outfeed-belt", belts[1]),
    ];
    let unseen: Vec<String> = parts
        .iter()
        .filter(|(_, mask)| *mask != 0)
        .map(|(id, mask)| words.say(id, &[("slots", Arg::from(slot_ranges(*mask)))]))
        .collect();
    let since = match looks.voided {
        Some((at, _)) => words.say("looks-since", &[("time", Arg::Clock(at))]),
        None => words.say("looks-since-start", &[]),
    };
    let since = ("since", Arg::from(since));
    if unseen.is_empty() {
        return words.say("looks-all", &[since]);
    }
    let unseen = ("places", Arg::from(unseen.join("; ")));
    words.say("looks-unseen", &[since, unseen])
}

#[cfg(test)]
mod tests {
    use super::*;
    use rackproof_buffer::Side;
    use rackproof_drill::{Sign, Told, VoidCause};

    fn after(signs: &[Sign]) -> String {
        let mut looks = Looks::default();
        for (at, sign) in signs.iter().enumerate() {
            looks.take(at as u64 * 1_000_000, sign);
        }
        looks_text(&looks, 4, &Scope::default(), &Words::english())
    }

    fn looked(infeed: u64, outfeed: u64) -> Sign {
        Sign::Looked {
            empty: Halves { infeed, outfeed },
            boards: Halves::NONE,
        }
    }

    #[test]
    fn what_was_not_seen_since_looks_became_void_is_named() {
        let ends = [
            Sign::Told(Told::UpstreamHolds),
            Sign::SawBelt(Side::Infeed, 0),
            Sign::SawMouth(Side::Infeed, false),
            Sign::SawBelt(Side::Outfeed, 0),
            Sign::SawMouth(Side::Outfeed, false),
        ];
        let none = after(&[]);
        assert!(
            none.contains("1-4") && none.contains("infeed belt"),
            "{none}"
        );
        let half = after(&[looked(0b1011, 0)]);
        assert!(
            half.contains("slots 3;") && half.contains("outfeed half of 1-2, 4"),
            "{half}"
        );
        let all = after(&[&ends[..], &[looked(0b1111, 0b1111)]].concat());
        assert!(!all.contains(';') && !all.contains("Not seen"), "{all}");
        let void = Sign::LooksVoided(VoidCause::HandEntered);
        let again = after(&[&ends[..], &[looked(0b1111, 0b1111), void]].concat());
        assert!(again.contains("00:06") && again.contains("1-4"), "{again}");
        // In a clear-out the slot at the belts alone; afterwards what was answered for is named so.
        let words = Words::english();
        let (at_belts, said) = (Some(2), 0);
        let one = looks_text(&Looks::default(), 4, &Scope { at_belts, said }, &words);
        assert!(one.contains("slots 3;"), "{one}");
        let (at_belts, said) = (None, 0b0110);
        let some = looks_text(&Looks::default(), 4, &Scope { at_belts, said }, &words);
        assert!(
            some.contains("slots 1, 4;") && some.contains("2-3"),
            "{some}"
        );
        // A belt seen before upstream held is not seen.
        let early = after(&[ends[1], ends[2], ends[0]]);
        assert!(early.contains("infeed belt"), "{early}");
    }
}
