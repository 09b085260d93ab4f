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

mod look;
mod maker;

use look::{Look, MEMORY, Words};
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

/// Sets in hand. The first are always there: none, all, and those of the memory as they were.
const SETS: usize = 32;
/// Most programs do with so many.
const FEW_SETS: usize = 16;
const NONE: u8 = 0;
const ALL: u8 = 1;
const REMEMBERED: u8 = 2;

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
