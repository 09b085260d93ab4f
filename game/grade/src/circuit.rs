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
/// of memory as they were.
const WORDS: usize = 4;
const CONDITIONS: usize = 0;
const SIGNS: usize = 1;
const LINES: usize = 2;
const MEMORY: usize = 3;

/// Sets in hand. The first are always there: none, all, and those of the memory as they were.
const SETS: usize = 32;
const NONE: u8 = 0;
const ALL: u8 = 1;
const REMEMBERED: u8 = 2;

/// True if one of some bits is set, or one of some others is not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
struct Any {
    set: [u64; WORDS],
    unset: [u64; WORDS],
}

/// A yes or a no before it is worked out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Form {
    Constant(bool),
    Any(Any),
    Not(Any),
}

/// What is worked out, in order. A set goes to a place of its own, a yes or no to the next line.
#[derive(Clone, Copy, Debug)]
enum Step {
    Line(Any),
    Compares(u8),
    Every(u8),
    Some(u8),
    AtBelts(u8),
    Observed(SetAtom),
    Fixed(Halves),
    Spread(Form),
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
#[derive(Clone, Copy, Debug)]
struct Window {
    holds: Form,
    comes: Form,
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
    kept: Vec<(u8, Form)>,
    /// The rules that can be false.
    roots: Vec<(u8, Form)>,
    /// Whether it is a gap.
    gap: bool,
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
        let form = |&(rule, at): &(u8, At)| (rule, maker.forms[at as usize]);
        let roots = roots.iter().map(form).collect();
        let lines = maker.lines as usize + maker.plain.len();
        let fits = program.bits <= 64 && lines <= 64 && usize::from(maker.next_set) <= SETS;
        fits.then_some(Circuit {
            steps: maker.steps,
            plain: maker.plain,
            windows: maker.windows,
            gap: moment == Moment::Gap,
            kept: maker.kept,
            roots,
        })
    }

    /// Lets an observation pass, or a gap: what it told.
    pub(crate) fn step(&self, program: &Program, watch: &mut Watch, seen: &Observation) -> Turn {
        let all = Halves::all(program.slots);
        let mut words = [seen.conditions(), seen.signs(), 0, watch.first_bits()];
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
                words[LINES] |= u64::from(window.clock.counts(clock)) << window.line;
                turn.run(window.clock, clock);
            }
        }
        for step in &self.steps {
            let of = |set: u8| sets[usize::from(set)];
            let truth = match *step {
                Step::Line(any) => any.holds(&words),
                Step::Compares(number) => program.comparisons[usize::from(number)].holds(seen),
                Step::Every(set) => all.without(of(set)).is_empty(),
                Step::Some(set) => !of(set).is_empty(),
                Step::AtBelts(set) => {
                    let slot = seen.at_belts();
                    !slot.is_empty() && slot.without(of(set)).is_empty()
                }
                Step::Window(number) => {
                    let window = &self.windows[usize::from(number)];
                    window.step(self.gap, &words, watch, &mut turn)
                }
                _ => {
                    let set = match *step {
                        Step::Observed(atom) => seen.set(atom),
                        Step::Fixed(set) => set,
                        Step::Spread(form) if form.holds(&words) => all,
                        Step::Without(set, others) => of(set).without(of(others)),
                        Step::And(a, b) => of(a).intersection(of(b)),
                        Step::Or(a, b) => of(a).union(of(b)),
                        Step::Wider(wider, set) => wider.of(of(set), all),
                        Step::Since(holds, comes, at) => {
                            let old = watch.sets[usize::from(at)];
                            let now = of(comes).union(old.intersection(of(holds)));
                            let goes_on = if self.gap { of(holds) } else { all };
                            watch.sets[usize::from(at)] = now.intersection(goes_on);
                            now
                        }
                        Step::SetWindow(window) => {
                            let sets = [of(window.holds), of(window.comes)];
                            self.set_window(program, window, sets, (watch, &mut turn))
                        }
                        _ => Halves::NONE,
                    };
                    sets[place] = set;
                    place += 1;
                    continue;
                }
            };
            words[LINES] |= u64::from(truth) << line;
            line += 1;
        }
        let mut bits = words[MEMORY];
        for (place, form) in &self.kept {
            bits = bits & !(1 << place) | u64::from(form.holds(&words)) << place;
        }
        watch.keep_first_bits(bits);
        let fails = |mask, (rule, form): &(u8, Form)| mask | u64::from(!form.holds(&words)) << rule;
        turn.fails = self.roots.iter().fold(0, fails);
        turn
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
    fn step(&self, gap: bool, words: &[u64; WORDS], watch: &mut Watch, turn: &mut Turn) -> bool {
        let (holds, comes) = (self.holds.holds(words), self.comes.holds(words));
        let clock = &mut watch.clocks[usize::from(self.place)];
        let now = self.clock.now(*clock, holds, comes);
        *clock = if holds || !gap { now } else { 0 };
        turn.take(self.clock, self.place, *clock, (holds, comes));
        self.clock.counts(now)
    }
}

impl Any {
    fn one(word: usize, bit: u32) -> Any {
        let mut any = Any::default();
        any.set[word] = 1 << bit;
        any
    }

    #[inline]
    fn holds(&self, words: &[u64; WORDS]) -> bool {
        // Written out: this is asked more often than all else.
        let of = |word: usize| words[word] & self.set[word] | !words[word] & self.unset[word];
        of(CONDITIONS) | of(SIGNS) | of(LINES) | of(MEMORY) != 0
    }

    fn or(self, other: Any) -> Any {
        Any {
            set: std::array::from_fn(|word| self.set[word] | other.set[word]),
            unset: std::array::from_fn(|word| self.unset[word] | other.unset[word]),
        }
    }

    /// What is true just where this one is false, if it looks at one bit alone.
    fn opposite(self) -> Option<Any> {
        let masks = self.set.iter().chain(&self.unset);
        let looked_at: u32 = masks.map(|mask| mask.count_ones()).sum();
        (looked_at == 1).then_some(Any {
            set: self.unset,
            unset: self.set,
        })
    }
}

impl Form {
    #[inline]
    fn holds(&self, words: &[u64; WORDS]) -> bool {
        match self {
            Form::Constant(truth) => *truth,
            Form::Any(any) => any.holds(words),
            Form::Not(any) => !any.holds(words),
        }
    }

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
        let cases = [
            ([0, 0, 1, 0], false),
            ([u64::MAX, 0, 1, u64::MAX], false),
            ([0, 8, 1, 0], true),
            ([0, 0, 0, 0], true),
            ([0, 0, 2, 0], true),
        ];
        for (words, expected) in cases {
            assert_eq!(any.holds(&words), expected, "{words:?}");
            assert_eq!(Form::Any(any).not().holds(&words), !expected, "{words:?}");
        }
        assert_eq!(any.opposite(), None);
    }
}
