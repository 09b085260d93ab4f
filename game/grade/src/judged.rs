//! The world together with the monitors of its rules. `attempt` and `prove` both run this pair.

use rackproof_buffer::Member;
use rackproof_drill::{Cause, IntentKind, Mergers, Outcome, Reaches, State, World};
use rackproof_model::{
    Instants, Micros, Model, Stride,
    key::{Key, KeyReader, KeyWriter},
};

use keys::Forgets;

use crate::{
    Reads, Rules, Severity, Watch,
    formula::{Asks, SetAtom},
    known::Sort,
    plan::Plan,
};

mod acts;
mod keys;
mod time;
mod unordered;

/// A world and its rules.
#[derive(Clone, Debug)]
pub struct Judged {
    world: World,
    rules: Rules,
    reads: Reads,
    mergers: Mergers,
    reaches: Reaches,
    /// Whether it is forgotten how the lift comes to rest, and which product is loaded, where
    /// nothing asks for it.
    forgets: Forgets,
    /// Whether runs of alike slots are squeezed.
    squeezes: bool,
    /// Whether the order of slots is forgotten.
    unordered: bool,
    start: JudgedState,
    /// The rules made ready for each kind of intent, and for signs.
    before: Vec<Plan>,
    after: Plan,
    /// And for time that passes.
    quiet: Plan,
    /// The rules that time alone can break.
    breakable: u64,
    /// What the rules ask of an observation.
    asks: Asks,
    /// Sets of evidence that count only when whole.
    whole_sets: Vec<(u8, SetAtom)>,
}

/// The state of both.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct JudgedState {
    /// The world's.
    pub world: State,
    /// The monitors' memory.
    pub watch: Watch,
    /// Rules broken so far, bit n for the n-th.
    pub broken: u64,
    /// Of the rules that time alone can break: those that did not hold at the last moment. Such a
    /// rule is broken anew only after it held again.
    pub failing: u64,
}

/// What the pair publishes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum JudgedOutcome {
    /// What the world published.
    World(Outcome),
    /// The rule with this number was broken.
    Broke(u8),
}

impl Judged {
    /// The pair.
    pub fn new(world: World, rules: Rules) -> Judged {
        let reads = Reads::of(&world, &rules);
        let start = JudgedState {
            world: world.start(),
            watch: Watch::default(),
            broken: 0,
            failing: 0,
        };
        let mergers = Mergers::Plain;
        let whole_sets = rules.program.whole_sets();
        let roots: Vec<u16> = rules.list.iter().map(|rule| rule.root).collect();
        let plan = |sort| Plan::new(&rules.program, &roots, sort);
        let before = IntentKind::ALL
            .iter()
            .map(|&(_, kind)| plan(Sort::Before(kind)))
            .collect();
        let after = plan(Sort::After);
        let quiet = plan(Sort::Quiet);
        let asks = rules.program.asks();
        Judged {
            before,
            after,
            breakable: quiet.breakable(),
            quiet,
            asks,
            whole_sets,
            world,
            rules,
            reads,
            mergers,
            reaches: if asks.reaches() {
                Reaches::Each
            } else {
                Reaches::OfEachSort
            },
            forgets: Forgets::default(),
            squeezes: false,
            unordered: false,
            start,
        }
    }

    /// The same pair, explored by prepared steps: for attempts that keep the rules.
    #[must_use]
    pub fn prepared(self) -> Judged {
        Judged {
            mergers: Mergers::Prepared,
            forgets: self.forgets_of_prepared(),
            ..self
        }
    }

    /// The same pair, explored with nothing forgotten of how the lift comes to rest and of what is
    /// loaded, though nothing ask for it.
    #[must_use]
    pub fn forgetting_nothing(self) -> Judged {
        Judged {
            forgets: Forgets::default(),
            ..self
        }
    }

    /// The same pair, explored with a hand that reaches for each half-slot, though no rule tell one
    /// with nothing in it from another.
    #[must_use]
    pub fn reaching_for_each(self) -> Judged {
        Judged {
            reaches: Reaches::Each,
            ..self
        }
    }

    /// The same pair, explored by prepared steps, with runs of alike slots squeezed: the size of
    /// the rack is not special. Faults have their places, and where another clock runs beside the
    /// lift it matters how long its ways are: then nothing is squeezed.
    #[must_use]
    pub fn squeezed(self) -> Judged {
        Judged {
            squeezes: !self.world.has_faults() && !self.clocks_run_beside(),
            ..self.prepared()
        }
    }

    /// Whether a clock of the rules or of a neighbour may run while the lift does. How long a way
    /// of the lift is cannot be forgotten beside it.
    fn clocks_run_beside(&self) -> bool {
        self.rules.program.has_windows() || self.world.drill().neighbours.go_by_the_clock()
    }

    /// Whether all that acts put to the test is laid out for speed.
    #[cfg(test)]
    pub(crate) fn is_laid_out(&self) -> bool {
        let mut plans = self.before.iter().chain([&self.after, &self.quiet]);
        plans.all(Plan::is_laid_out)
    }

    /// Whether runs of alike slots are squeezed.
    pub fn squeezes(&self) -> bool {
        self.squeezes
    }

    /// The world.
    pub fn world(&self) -> &World {
        &self.world
    }

    /// The rules.
    pub fn rules(&self) -> &Rules {
        &self.rules
    }

    /// What rules and finish ask of a state.
    pub fn reads(&self) -> Reads {
        self.reads
    }

    /// The state in which an attempt begins.
    pub fn start(&self) -> JudgedState {
        self.start
    }

    /// Whether the rules were kept so far: no stop and no major breach.
    pub fn kept(&self, state: &JudgedState) -> bool {
        state.broken & self.rules.mask(Severity::Major) == 0
    }

    /// Whether an attempt that ends here has passed: the finish is reached, no stop breach, no
    /// harm, and no more major breaches than the drill allows. `majors` counts breaches, not rules.
    pub fn passes(&self, state: &JudgedState, majors: u32) -> bool {
        self.world.finished(&state.world)
            && state.broken & self.rules.mask(Severity::Stop) == 0
            && state.world.harms() == 0
            && majors <= self.world.drill().limits.majors
    }
}

impl Model for Judged {
    type State = JudgedState;
    type Cause = Cause;
    type Outcome = JudgedOutcome;

    fn offers(&self, state: &JudgedState, out: &mut Vec<Cause>) {
        self.world.offers(&state.world, out);
    }

    fn chances(&self, state: &JudgedState, out: &mut Vec<Cause>) {
        self.world.chances(&state.world, out);
    }

    fn strides(&self, state: &JudgedState, out: &mut Vec<Stride<Cause>>) {
        let mergers = (self.mergers, self.reaches);
        self.world.strides_by(mergers, &state.world, out);
    }

    fn act(&self, state: &mut JudgedState, cause: Cause, hear: &mut impl FnMut(JudgedOutcome)) {
        match cause {
            Cause::Did(intent) => self.do_intent(state, intent, &mut None, hear),
            Cause::Chose(_) => self.after_signs(state, false, hear, |world, tell| {
                self.world.act(world, cause, &mut |outcome| tell(outcome));
            }),
        }
    }

    fn act_in_turn(
        &self,
        state: &mut JudgedState,
        causes: impl Iterator<Item = Cause>,
        hear: &mut impl FnMut(JudgedOutcome),
    ) {
        let mut known = None;
        for cause in causes {
            if let Cause::Did(intent) = cause {
                self.do_intent(state, intent, &mut known, hear);
            } else {
                known = None;
                self.act(state, cause, hear);
            }
        }
    }

    fn next_event(&self, state: &JudgedState) -> Option<Micros> {
        let events = [self.world.next_event(&state.world), self.next_change(state)];
        events.into_iter().flatten().min()
    }

    fn critical_instants(&self, state: &JudgedState, out: &mut Instants) {
        self.world.critical_instants(&state.world, out);
    }

    fn same_ahead(&self, one: &JudgedState, other: &JudgedState) -> bool {
        self.quiet.is_idle() && self.world.same_ahead(&one.world, &other.world)
    }

    fn advance(&self, state: &mut JudgedState, span: Micros, hear: &mut impl FnMut(JudgedOutcome)) {
        let looks = self.pass(state, span, hear);
        self.after_signs(state, looks, hear, |world, tell| {
            self.world
                .advance(world, span, &mut |outcome| tell(outcome));
        });
    }

    fn write_key(&self, state: &JudgedState, out: &mut KeyWriter) {
        if self.is_over(state) {
            return self.write_verdict(state, out);
        }
        let mut copy = *state;
        self.write_last_key(&mut copy, out);
    }

    fn write_last_key(&self, state: &mut JudgedState, out: &mut KeyWriter) {
        if self.is_over(state) {
            return self.write_verdict(state, out);
        }
        if self.squeezes {
            self.squeeze(state, Member::First);
        }
        if self.unordered {
            self.put_in_order(state);
        }
        self.code(state, out);
    }

    fn same_class(&self, one: &JudgedState, other: &JudgedState) -> bool {
        one.broken == other.broken
            && one.failing == other.failing
            && one.watch == other.watch
            && self.world.same_class(&one.world, &other.world)
    }

    fn alike(&self, state: &JudgedState, out: &mut Vec<JudgedState>) {
        let mut copy = *state;
        let goes_on = self.squeezes && !self.is_over(state);
        if goes_on && self.squeeze(&mut copy, Member::NearTheEnd) {
            out.push(copy);
        }
        if self.unordered && !self.is_over(state) {
            self.in_other_orders(state, out);
        }
    }

    fn stutters(&self) -> bool {
        self.squeezes || self.unordered
    }

    fn read_key(&self, key: &Key) -> JudgedState {
        let mut state = self.start;
        self.code(&mut state, &mut KeyReader::new(key));
        state
    }
}
