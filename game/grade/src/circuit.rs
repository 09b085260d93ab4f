//! A plan laid out for speed: what joins yes and no is masks over whole words, so that a formula
//! of many conditions and signs costs one look. It gives what the plan gives, in the same memory.
//!
//! A plan with more memory or joints than a word has bits has no circuit.

use rackproof_buffer::Halves;

use crate::{
    Observation, Program, Watch,
    formula::{At, Operator, SetAtom, Wider},
    known::Known,
    limits::CLOCKS_MOST,
    turn::Turn,
    watch::Clock,
};

mod maker;

use maker::Maker;

/// What a circuit is laid out for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Moment {
    /// An intent, or signs.
    Observed,
    /// A moment at which nothing is done and nothing comes.
    Quiet,
    /// The open span between two moments: see `time`.
    Gap,
}

/// The words that masks look at: conditions, signs, lines that are worked out on the way, and bits
/// of memory as they were. Each stands there twice, the second time with its bits turned round, so
/// that a formula is one look whether it asks for bits that are set or for bits that are not.
const WORDS: usize = 8;
const CONDITIONS: usize = 0;
const SIGNS: usize = 1;
const LINES: usize = 2;
const MEMORY: usize = 3;
/// From a word to the same one turned round.
const TURNED: usize = 4;

/// Sets in hand. The first are always there: none, all, and those of the memory as they were.
const SETS: usize = 32;
/// Most programs do with so many.
const FEW_SETS: usize = 16;
const NONE: u8 = 0;
const ALL: u8 = 1;
const REMEMBERED: u8 = 2;

/// True if one of some bits is set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Any([u64; WORDS]);

/// What is so at one observation.
struct Words([u64; WORDS]);

/// A yes or a no before it is worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Form {
    Constant(bool),
    Any(Any),
    Not(Any),
}

/// A form laid out: true if some bits of two words are set, or others of the rest. Mostly there is
/// no rest.
#[derive(Clone, Debug)]
struct Look {
    at: [u8; 2],
    masks: [u64; 2],
    negated: bool,
    rest: Option<Box<Any>>,
}

/// A look, and what it is about: a bit of memory, or a rule.
#[derive(Clone, Debug)]
struct Laid {
    number: u8,
    look: Look,
}

/// What is worked out, in order. A set goes to a place of its own, a yes or no to the next line.
#[derive(Clone, Debug)]
enum Step {
    Line(Look),
    Compares(u8),
    Every(u8),
    Some(u8),
    AtBelts(u8),
    Observed(SetAtom),
    Fixed(Halves),
    Spread(Look),
    Without(u8, u8),
    And(u8, u8),
    Or(u8, u8),
    Wider(Wider, u8),
    /// What holds, what comes, and the place of the memory.
    Since(u8, u8, u8),
    /// A window, by its number.
    Window(u8),
    SetWindow(SetWindow),
}

/// A window over sets.
#[derive(Clone, Copy, Debug)]
struct SetWindow {
    holds: u8,
    comes: u8,
    /// The number of its clocks.
    number: u8,
    /// Whether anybody reads the set. Else only how long it stays so is of interest.
    is_read: bool,
}

/// A window over yes or no.
#[derive(Clone, Debug)]
struct Window {
    holds: Look,
    comes: Look,
    /// Its clock, and which one that is.
    clock: Clock,
    place: u8,
}

/// A window whose clock runs by itself at this sort of observation: it holds, and nothing comes.
#[derive(Clone, Copy, Debug)]
struct PlainWindow {
    clock: Clock,
    place: u8,
    /// The bit of its line.
    line: u8,
}

/// A plan of one sort of observation, laid out.
#[derive(Clone, Debug)]
pub(crate) struct Circuit {
    steps: Vec<Step>,
    plain: Vec<PlainWindow>,
    windows: Vec<Window>,
    /// Bits of the memory that may change.
    kept: Vec<Laid>,
    /// The rules that can be false.
    roots: Vec<Laid>,
    /// Whether it is a gap.
    gap: bool,
    /// Whether it works out nothing but lines, and knows no window.
    is_plain: bool,
    /// Whether few sets do.
    few_sets: bool,
}

impl Circuit {
    /// Lays out `operators`, those of a plan; `known` is what is known beforehand of each operator
    /// of the program, `roots` are the rules that can be false. `None` if it does not fit.
    pub(crate) fn of(
        program: &Program,
        moment: Moment,
        (operators, known): (&[(At, bool, Operator)], &[Known]),
        roots: &[(u8, At)],
    ) -> Option<Circuit> {
        let mut maker = Maker::new(program, moment, known);
        for &(at, _, operator) in operators {
            maker.lay(at, operator)?;
        }
        maker.note_reads();
        let root = |&(rule, at): &(u8, At)| Laid {
            number: rule,
            look: Look::of(maker.forms[at as usize]),
        };
        let roots = roots.iter().map(root).collect();
        let kept = maker.kept.iter();
        let kept = kept.map(|&(number, form)| Laid {
            number,
            look: Look::of(form),
        });
        let kept = kept.collect();
        let lines = maker.lines as usize + maker.plain.len();
        let sets = usize::from(maker.next_set);
        let fits = program.bits <= 64 && lines <= 64 && sets <= SETS;
        let is_line = |step: &Step| matches!(step, Step::Line(_) | Step::Compares(_));
        fits.then_some(Circuit {
            is_plain: maker.plain.is_empty() && maker.steps.iter().all(is_line),
            few_sets: sets <= FEW_SETS,
            steps: maker.steps,
            plain: maker.plain,
            windows: maker.windows,
            gap: moment == Moment::Gap,
            kept,
            roots,
        })
    }

    /// Lets an observation pass, or a gap: what it told.
    pub(crate) fn step(&self, program: &Program, watch: &mut Watch, seen: &Observation) -> Turn {
        if self.is_plain {
            self.step_plainly(program, watch, seen)
        } else if self.few_sets {
            self.step_with::<FEW_SETS>(program, watch, seen)
        } else {
            self.step_with::<SETS>(program, watch, seen)
        }
    }

    /// The same for one that works out lines alone.
    fn step_plainly(&self, program: &Program, watch: &mut Watch, seen: &Observation) -> Turn {
        let mut words = Words::of(watch, seen);
        for (line, step) in (0..).zip(&self.steps) {
            words.put(line, step.line(&words, program, seen));
        }
        let mut turn = Turn::default();
        turn.fails = self.conclude(&words, watch);
        turn
    }

    /// The same with room for so many sets, a power of two.
    fn step_with<const SETS: usize>(
        &self,
        program: &Program,
        watch: &mut Watch,
        seen: &Observation,
    ) -> Turn {
        let all = Halves::all(program.slots);
        let mut words = Words::of(watch, seen);
        let mut sets = [Halves::NONE; SETS];
        sets[usize::from(ALL)] = all;
        let remembered = usize::from(REMEMBERED);
        sets[remembered..remembered + watch.sets.len()].copy_from_slice(&watch.sets);
        let mut line = 0;
        let mut place = remembered + watch.sets.len();
        let mut turn = Turn::default();
        for window in &self.plain {
            let clock = watch.clocks[usize::from(window.place) % CLOCKS_MOST];
            // No witness: it does not hold, and nothing will turn it.
            if clock != 0 {
                words.put(window.line, window.clock.counts(clock));
                turn.run(window.clock, clock);
            }
        }
        for step in &self.steps {
            let of = |set: u8| sets[usize::from(set) % SETS];
            let truth = match step {
                Step::Line(_) | Step::Compares(_) => step.line(&words, program, seen),
                Step::Every(set) => all.without(of(*set)).is_empty(),
                Step::Some(set) => !of(*set).is_empty(),
                Step::AtBelts(set) => {
                    let slot = seen.at_belts();
                    !slot.is_empty() && slot.without(of(*set)).is_empty()
                }
                Step::Window(number) => {
                    let window = &self.windows[usize::from(*number)];
                    window.step(self.gap, &words, watch, &mut turn)
                }
                _ => {
                    let set = match step {
                        Step::Observed(atom) => seen.set(*atom),
                        Step::Fixed(set) => *set,
                        Step::Spread(look) if look.holds(&words) => all,
                        Step::Without(set, others) => of(*set).without(of(*others)),
                        Step::And(a, b) => of(*a).intersection(of(*b)),
                        Step::Or(a, b) => of(*a).union(of(*b)),
                        Step::Wider(wider, set) => wider.of(of(*set), all),
                        &Step::Since(holds, comes, at) => {
                            let old = watch.sets[usize::from(at)];
                            let now = of(comes).union(old.intersection(of(holds)));
                            let goes_on = if self.gap { of(holds) } else { all };
                            watch.sets[usize::from(at)] = now.intersection(goes_on);
                            now
                        }
                        &Step::SetWindow(window) => {
                            let sets = [of(window.holds), of(window.comes)];
                            self.set_window(program, window, sets, (watch, &mut turn))
                        }
                        _ => Halves::NONE,
                    };
                    sets[place % SETS] = set;
                    place += 1;
                    continue;
                }
            };
            words.put(line, truth);
            line += 1;
        }
        turn.fails = self.conclude(&words, watch);
        turn
    }

    /// Keeps what is remembered from now on: the mask of rules that do not hold.
    #[inline]
    fn conclude(&self, words: &Words, watch: &mut Watch) -> u64 {
        let mut bits = words.0[MEMORY];
        for laid in &self.kept {
            let truth = u64::from(laid.look.holds(words));
            bits = bits & !(1 << laid.number) | truth << laid.number;
        }
        watch.keep_first_bits(bits);
        let fails = |mask, laid: &Laid| mask | u64::from(!laid.look.holds(words)) << laid.number;
        self.roots.iter().fold(0, fails)
    }

    // Apart, so that sets without a window do not pay for it.
    #[inline(never)]
    fn set_window(
        &self,
        program: &Program,
        window: SetWindow,
        sets: [Halves; 2],
        (watch, turn): (&mut Watch, &mut Turn),
    ) -> Halves {
        let kind = program.set_clocks[usize::from(window.number)];
        // Clocks that run by themselves stay as they are at a moment.
        let runs = window.holds == ALL && window.comes == NONE;
        let found = if runs && !window.is_read {
            Halves::NONE
        } else if self.gap {
            program.step_set_window::<true>(kind, sets, watch)
        } else {
            program.step_set_window::<false>(kind, sets, watch)
        };
        turn.take_set(program, kind, sets, watch);
        found
    }
}

impl Window {
    /// Whether it holds, and its memory after that.
    #[inline]
    fn step(&self, gap: bool, words: &Words, watch: &mut Watch, turn: &mut Turn) -> bool {
        let (holds, comes) = (self.holds.holds(words), self.comes.holds(words));
        let clock = &mut watch.clocks[usize::from(self.place)];
        let now = self.clock.now(*clock, holds, comes);
        *clock = if holds || !gap { now } else { 0 };
        turn.take(self.clock, self.place, *clock, (holds, comes));
        self.clock.counts(now)
    }
}

impl Words {
    /// Those of an observation, before any line is worked out.
    #[inline]
    fn of(watch: &Watch, seen: &Observation) -> Words {
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
    fn put(&mut self, line: u8, truth: bool) {
        let bit = u64::from(truth) << line;
        self.0[LINES] |= bit;
        self.0[LINES + TURNED] &= !bit;
    }
}

impl Any {
    fn one(word: usize, bit: u32) -> Any {
        let mut any = Any::default();
        any.0[word] = 1 << bit;
        any
    }

    #[inline]
    fn holds(&self, words: &Words) -> bool {
        let pairs = words.0.iter().zip(&self.0);
        pairs.fold(0, |found, (word, mask)| found | word & mask) != 0
    }

    fn or(self, other: Any) -> Any {
        Any(std::array::from_fn(|word| self.0[word] | other.0[word]))
    }

    /// What is true just where this one is false, if it looks at one bit alone.
    fn opposite(self) -> Option<Any> {
        let looked_at: u32 = self.0.iter().map(|mask| mask.count_ones()).sum();
        let turned = |word: usize| self.0[(word + TURNED) % WORDS];
        (looked_at == 1).then(|| Any(std::array::from_fn(turned)))
    }
}

impl Look {
    fn of(form: Form) -> Look {
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
    fn holds(&self, words: &Words) -> bool {
        // Written out: this is asked more often than all else.
        let word = |number: usize| words.0[usize::from(self.at[number]) % WORDS];
        let found = word(0) & self.masks[0] | word(1) & self.masks[1] != 0;
        let more = self.rest.as_ref().is_some_and(|rest| rest.holds(words));
        (found || more) ^ self.negated
    }
}

impl Step {
    /// The truth of a line or of a comparison.
    #[inline]
    fn line(&self, words: &Words, program: &Program, seen: &Observation) -> bool {
        match self {
            Step::Line(look) => look.holds(words),
            Step::Compares(number) => program.comparisons[usize::from(*number)].holds(seen),
            _ => false,
        }
    }
}

impl Form {
    fn not(self) -> Form {
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
