//! A plan laid out for speed: what joins yes and no is masks over whole words, so that a formula
//! of many conditions and signs costs one look. It gives what the plan gives, in the same memory.
//!
//! A plan with windows, or with more memory or joints than a word has bits, has no circuit.

use rackproof_buffer::Halves;

use crate::{
    Observation, Program, Watch,
    formula::{At, Operator, SetAtom, Wider},
    known::Known,
};

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
}

/// A plan of one sort of observation, laid out.
#[derive(Clone, Debug)]
pub(crate) struct Circuit {
    steps: Vec<Step>,
    /// Bits of the memory that may change.
    kept: Vec<(u8, Form)>,
    /// The rules that can be false.
    roots: Vec<(u8, Form)>,
}

impl Circuit {
    /// Lays out `operators`, those of a plan; `known` is what is known beforehand of each operator
    /// of the program, `roots` are the rules that can be false. `None` if it does not fit.
    pub(crate) fn of(
        program: &Program,
        (operators, known): (&[(At, bool, Operator)], &[Known]),
        roots: &[(u8, At)],
    ) -> Option<Circuit> {
        let mut maker = Maker::new(program, known);
        for &(at, _, operator) in operators {
            maker.lay(at, operator)?;
        }
        let form = |&(rule, at): &(u8, At)| (rule, maker.forms[at as usize]);
        let roots = roots.iter().map(form).collect();
        let fits = program.bits <= 64 && maker.lines <= 64 && usize::from(maker.next_set) <= SETS;
        fits.then_some(Circuit {
            steps: maker.steps,
            kept: maker.kept,
            roots,
        })
    }

    /// Lets an observation pass. The mask of rules that do not hold.
    pub(crate) fn step(&self, program: &Program, watch: &mut Watch, seen: &Observation) -> u64 {
        let all = Halves::all(program.slots);
        let mut words = [seen.conditions(), seen.signs(), 0, watch.first_bits()];
        let mut sets = [Halves::NONE; SETS];
        sets[usize::from(ALL)] = all;
        let remembered = usize::from(REMEMBERED);
        sets[remembered..remembered + watch.sets.len()].copy_from_slice(&watch.sets);
        let mut line = 0;
        let mut place = remembered + watch.sets.len();
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
                            watch.sets[usize::from(at)] = now;
                            now
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
        self.roots.iter().fold(0, fails)
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
        let pairs = words.iter().zip(self.set.iter().zip(&self.unset));
        pairs.fold(0, |found, (word, (set, unset))| {
            found | word & set | !word & unset
        }) != 0
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

/// A circuit in the making.
struct Maker<'p> {
    program: &'p Program,
    /// For each operator that gives a yes or no.
    forms: Vec<Form>,
    /// For each operator that gives a set: where it is.
    places: Vec<u8>,
    steps: Vec<Step>,
    kept: Vec<(u8, Form)>,
    lines: u32,
    next_set: u8,
}

impl<'p> Maker<'p> {
    fn new(program: &'p Program, known: &[Known]) -> Maker<'p> {
        let form = |known: &Known| Form::Constant(*known == Known::Truth(true));
        let place = |known: &Known| if *known == Known::Full { ALL } else { NONE };
        Maker {
            program,
            forms: known.iter().map(form).collect(),
            places: known.iter().map(place).collect(),
            steps: Vec::new(),
            kept: Vec::new(),
            lines: 0,
            next_set: REMEMBERED + crate::limits::SETS_MOST as u8,
        }
    }

    /// Lays out one operator, after those that it rests on.
    fn lay(&mut self, at: At, operator: Operator) -> Option<()> {
        if operator.is_set() {
            self.places[at as usize] = self.set(operator)?;
        } else {
            self.forms[at as usize] = self.truth(operator)?;
        }
        Some(())
    }

    fn truth(&mut self, operator: Operator) -> Option<Form> {
        let form = |maker: &Maker<'_>, at: At| maker.forms[at as usize];
        Some(match operator {
            Operator::Sign(kind) => Form::Any(Any::one(SIGNS, kind as u32)),
            Operator::Is(condition) => Form::Any(Any::one(CONDITIONS, condition as u32)),
            Operator::Constant(truth) => Form::Constant(truth),
            Operator::Not(a) => form(self, a).not(),
            Operator::And(a, b) => {
                let (a, b) = (form(self, a), form(self, b));
                self.and(a, b)
            }
            Operator::Or(a, b) => {
                let (a, b) = (form(self, a), form(self, b));
                self.or(a, b)
            }
            Operator::Previously(a, place) => {
                self.kept.push((place, form(self, a)));
                self.remembered(place)?
            }
            Operator::Once(a, place) => self.since(Form::Constant(true), form(self, a), place)?,
            // The memory says whether it was ever false.
            Operator::Historically(a, place) => {
                let failed = form(self, a).not();
                self.since(Form::Constant(true), failed, place)?.not()
            }
            Operator::Since(a, b, place) => self.since(form(self, a), form(self, b), place)?,
            Operator::Compares(number) => self.line(Step::Compares(number)),
            Operator::Every(a) => self.line(Step::Every(self.places[a as usize])),
            Operator::Some(a) => self.line(Step::Some(self.places[a as usize])),
            Operator::AtBelts(a) => self.line(Step::AtBelts(self.places[a as usize])),
            // Who did what is known beforehand, and windows have clocks.
            _ => return None,
        })
    }

    fn set(&mut self, operator: Operator) -> Option<u8> {
        let place = |at: At| self.places[at as usize];
        let step = match operator {
            Operator::Set(atom) => Step::Observed(atom),
            Operator::Side(half) => {
                let mut side = Halves::NONE;
                *side.of_mut(half) = Halves::all(self.program.slots).of(half);
                Step::Fixed(side)
            }
            Operator::Spread(a) => match self.forms[a as usize] {
                Form::Constant(true) => return Some(ALL),
                Form::Constant(false) => return Some(NONE),
                form => Step::Spread(form),
            },
            Operator::SetNot(a) => Step::Without(ALL, place(a)),
            Operator::SetAnd(a, b) => Step::And(place(a), place(b)),
            Operator::SetOr(a, b) => Step::Or(place(a), place(b)),
            Operator::Wider(wider, a) => Step::Wider(wider, place(a)),
            Operator::SetSince(a, b, at) => match (place(a), place(b)) {
                // Nothing comes, and all goes on.
                (ALL, NONE) => return Some(REMEMBERED + at),
                (holds, comes) => Step::Since(holds, comes, at),
            },
            _ => return None,
        };
        self.steps.push(step);
        self.next_set = self.next_set.checked_add(1)?;
        Some(self.next_set - 1)
    }

    /// Since: what comes, or what is remembered and holds on. That is what is remembered next.
    fn since(&mut self, holds: Form, comes: Form, place: u8) -> Option<Form> {
        let before = self.remembered(place)?;
        let goes_on = self.and(before, holds);
        let now = self.or(comes, goes_on);
        if now != before {
            self.kept.push((place, now));
        }
        Some(now)
    }

    fn remembered(&self, place: u8) -> Option<Form> {
        (place < 64).then(|| Form::Any(Any::one(MEMORY, place.into())))
    }

    fn and(&mut self, a: Form, b: Form) -> Form {
        self.or(a.not(), b.not()).not()
    }

    fn or(&mut self, a: Form, b: Form) -> Form {
        match (a, b) {
            (Form::Constant(true), _) | (_, Form::Constant(true)) => Form::Constant(true),
            (Form::Constant(false), other) | (other, Form::Constant(false)) => other,
            _ => Form::Any(self.any(a).or(self.any(b))),
        }
    }

    /// The same as bits that are set or not; what is no such thing is worked out as a line.
    fn any(&mut self, form: Form) -> Any {
        match form {
            Form::Any(any) => any,
            Form::Constant(_) => Any::default(),
            Form::Not(any) => match self.line(Step::Line(any)).not() {
                Form::Any(any) => any,
                _ => Any::default(),
            },
        }
    }

    fn line(&mut self, step: Step) -> Form {
        self.steps.push(step);
        self.lines += 1;
        Form::Any(Any::one(LINES, (self.lines - 1) % 64))
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
