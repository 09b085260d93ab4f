//! Yes and no as masks over words: a form before it is laid out, and the look that it becomes.

use crate::{Observation, Watch};

/// The words that masks look at: conditions, signs, lines that are worked out on the way, and bits
/// of memory as they were. Each stands there twice, the second time with its bits turned round, so
/// that a formula is one look whether it asks for bits that are set or for bits that are not.
pub(super) const WORDS: usize = 8;
pub(super) const CONDITIONS: usize = 0;
pub(super) const SIGNS: usize = 1;
pub(super) const LINES: usize = 2;
pub(super) const MEMORY: usize = 3;
/// From a word to the same one turned round.
pub(super) const TURNED: usize = 4;

/// True if one of some bits is set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Any(pub(super) [u64; WORDS]);

/// What is so at one observation.
pub(super) struct Words(pub(super) [u64; WORDS]);

/// A yes or a no before it is worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Form {
    Constant(bool),
    Any(Any),
    Not(Any),
}

/// A form laid out: true if some bits of two words are set, or others of the rest. Mostly there is
/// no rest.
#[derive(Clone, Debug)]
pub(super) struct Look {
    at: [u8; 2],
    masks: [u64; 2],
    negated: bool,
    rest: Option<Box<Any>>,
}

impl Words {
    /// Those of an observation, before any line is worked out.
    #[inline]
    pub(super) fn of(watch: &Watch, seen: &Observation) -> Words {
        let words = [seen.conditions(), seen.signs(), 0, watch.first_bits()];
        let [conditions, signs, lines, memory] = words;
        Words([
            conditions,
            signs,
            lines,
            memory,
            !conditions,
            !signs,
            !lines,
            !memory,
        ])
    }

    /// Puts the truth of a line there.
    #[inline]
    pub(super) fn put(&mut self, line: u8, truth: bool) {
        let bit = u64::from(truth) << line;
        self.0[LINES] |= bit;
        self.0[LINES + TURNED] &= !bit;
    }
}

impl Any {
    pub(super) fn one(word: usize, bit: u32) -> Any {
        let mut any = Any::default();
        any.0[word] = 1 << bit;
        any
    }

    #[inline]
    pub(super) fn holds(&self, words: &Words) -> bool {
        let pairs = words.0.iter().zip(&self.0);
        pairs.fold(0, |found, (word, mask)| found | word & mask) != 0
    }

    pub(super) fn or(self, other: Any) -> Any {
        Any(std::array::from_fn(|word| self.0[word] | other.0[word]))
    }

    /// What is true just where this one is false, if it looks at one bit alone.
    pub(super) fn opposite(self) -> Option<Any> {
        let looked_at: u32 = self.0.iter().map(|mask| mask.count_ones()).sum();
        let turned = |word: usize| self.0[(word + TURNED) % WORDS];
        (looked_at == 1).then(|| Any(std::array::from_fn(turned)))
    }
}

impl Look {
    pub(super) fn of(form: Form) -> Look {
        let (any, negated) = match form {
            Form::Constant(truth) => (Any::default(), truth),
            Form::Any(any) => (any, false),
            Form::Not(any) => (any, true),
        };
        let mut look = Look {
            at: [0; 2],
            masks: [0; 2],
            negated,
            rest: None,
        };
        let asked = (0..).zip(any.0).filter(|&(_, mask)| mask != 0);
        for (number, (word, mask)) in asked.enumerate() {
            if let Some(place) = look.masks.get_mut(number) {
                *place = mask;
                look.at[number] = word;
            } else {
                look.rest.get_or_insert_default().0[usize::from(word)] = mask;
            }
        }
        look
    }

    #[inline]
    pub(super) fn holds(&self, words: &Words) -> bool {
        // Written out: this is asked more often than all else.
        let word = |number: usize| words.0[usize::from(self.at[number]) % WORDS];
        let found = word(0) & self.masks[0] | word(1) & self.masks[1] != 0;
        let more = self.rest.as_ref().is_some_and(|rest| rest.holds(words));
        (found || more) ^ self.negated
    }
}

impl Form {
    pub(super) fn not(self) -> Form {
        match self {
            Form::Constant(truth) => Form::Constant(!truth),
            Form::Any(any) => any.opposite().map_or(Form::Not(any), Form::Any),
            Form::Not(any) => Form::Any(any),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bit_is_set_or_not() {
        let any = Any::one(SIGNS, 3).or(Any::one(LINES, 0).opposite().expect("one bit"));
        let more = any.or(Any::one(MEMORY, 5)).or(Any::one(CONDITIONS, 5));
        let cases = [
            ([0, 0, 1, 0], [false, false]),
            ([0, 8, 1, 0], [true, true]),
            ([0, 0, 0, 0], [true, true]),
            ([0, 0, 2, 0], [true, true]),
            ([0, 0, 1, 32], [false, true]),
            ([32, 0, 1, 0], [false, true]),
            ([31, 0, 1, 31], [false, false]),
        ];
        for (plain, expected) in cases {
            let turned = plain.map(|word: u64| !word);
            let words = Words(std::array::from_fn(|word| match word.checked_sub(TURNED) {
                Some(word) => turned[word],
                None => plain[word],
            }));
            let [few, many] = expected;
            let forms = [
                (Form::Any(any), few),
                (Form::Any(any).not(), !few),
                (Form::Any(more), many),
                (Form::Not(more), !many),
                (Form::Constant(true), true),
                (Form::Constant(false), false),
            ];
            for (form, expected) in forms {
                assert_eq!(
                    Look::of(form).holds(&words),
                    expected,
                    "{form:?}, {plain:?}"
                );
            }
        }
        assert_eq!(any.opposite(), None);
    }

    #[test]
    fn a_line_stands_there_both_ways_round() {
        let mut words = Words::of(&Watch::default(), &Observation::default());
        for (line, truth) in [(3, true), (63, true), (4, false)] {
            words.put(line, truth);
            let set = Any::one(LINES, u32::from(line));
            assert_eq!(set.holds(&words), truth, "{line}");
            let unset = set.opposite().expect("one bit");
            assert_eq!(unset.holds(&words), !truth, "{line}");
        }
    }
}
