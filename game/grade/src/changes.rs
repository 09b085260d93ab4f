//! A program along an attempt: an observation works out again only what rests on something that
//! changed.
//!
//! What is seen twice changes no memory: an operator gives again what it gave, and keeps it.
//! Programs for which this is not so hear all: those that count observations, and those to which a
//! gap does what no moment does. So do those that compare widths, which are not kept here.

use rackproof_buffer::Halves;

use crate::{
    Observation, Program, Watch,
    asks::Asks,
    formula::{At, Operator, Values},
};

/// Wires: a bit for each thing that is asked for. The last ones share one.
const WIRES: u32 = 62;
/// What never changes rests on this one.
const CONSTANT: u64 = 1 << 63;
/// All that changes, at the first observation.
const ALL: u64 = u64::MAX;

/// What operators rest on.
#[derive(Clone, Debug)]
pub(crate) struct Changes {
    asks: Asks,
    /// Whether each observation is heard.
    hears_all: bool,
    conditions: [u64; 64],
    signs: [u64; 64],
    intents: [u64; 64],
    /// What was seen, answered or reached for.
    sets: u64,
    /// Which slot is at the belts.
    belts: u64,
    /// The operators that are needed, in their order.
    gates: Vec<Gate>,
    /// For each operator: the wires that it rests on.
    rests_on: Vec<u64>,
}

#[derive(Clone, Copy, Debug)]
struct Gate {
    rests_on: u64,
    at: At,
    is_set: bool,
    operator: Operator,
}

/// The present of a program whose changes are followed.
#[derive(Clone, Debug)]
pub(crate) struct Signals<'p> {
    values: Values<'p>,
    /// What was known at the last observation that was heard, and the slot at the belts.
    lasting: (u64, Halves),
    /// The wires of what was done or came there: it is over at the next.
    passing: u64,
    /// Whether nothing was heard yet.
    is_new: bool,
}

/// Gives out wires.
struct Wires(u32);

impl Wires {
    fn next(&mut self) -> u64 {
        let wire = 1 << self.0;
        self.0 = (self.0 + 1).min(WIRES);
        wire
    }

    /// A wire for each bit of a mask.
    fn each(&mut self, mask: u64) -> [u64; 64] {
        std::array::from_fn(|bit| match mask >> bit & 1 {
            1 => self.next(),
            _ => 0,
        })
    }
}

/// The wires of the bits of a mask.
fn wires_of(mut mask: u64, wires: &[u64; 64]) -> u64 {
    let mut found = 0;
    while mask != 0 {
        found |= wires[mask.trailing_zeros() as usize];
        mask &= mask - 1;
    }
    found
}

impl Changes {
    /// What a program rests on, for who needs these of its operators alone.
    pub(crate) fn of(program: &Program, needed: &[bool]) -> Changes {
        let asks = program.asks_of(needed);
        let mut wires = Wires(0);
        let mut changes = Changes {
            hears_all: asks.all() || !program.gaps_are_moments || program.compares(needed),
            sets: wires.next(),
            belts: wires.next(),
            intents: wires.each(asks.intents),
            conditions: wires.each(asks.conditions),
            signs: wires.each(asks.signs),
            asks,
            gates: Vec::new(),
            rests_on: Vec::with_capacity(program.operators.len()),
        };
        for (at, &operator) in program.operators.iter().enumerate() {
            let mut rests_on = changes.own(operator);
            operator.arguments(program, &mut |argument| {
                rests_on |= changes.rests_on[argument as usize];
            });
            changes.rests_on.push(rests_on);
            if needed[at] {
                changes.gates.push(Gate {
                    rests_on,
                    at: at as At,
                    is_set: operator.is_set(),
                    operator,
                });
            }
        }
        changes
    }

    /// The wire that an operator reads itself.
    fn own(&self, operator: Operator) -> u64 {
        match operator {
            Operator::Did(kind) => self.intents[kind as usize],
            Operator::Sign(kind) => self.signs[kind as usize],
            Operator::Is(condition) => self.conditions[condition as usize],
            Operator::Set(_) => self.sets,
            Operator::AtBelts(_) => self.belts,
            _ => CONSTANT,
        }
    }

    /// Whether each observation is heard.
    pub(crate) fn hears_all(&self) -> bool {
        self.hears_all
    }

    /// The wires that an operator rests on.
    pub(crate) fn rests_on(&self, at: At) -> u64 {
        self.rests_on[at as usize]
    }

    /// Lets an observation, or a gap, pass: the wires that changed. Nought: it told nothing.
    pub(crate) fn step<const GAP: bool>(
        &self,
        program: &Program,
        (signals, watch): (&mut Signals<'_>, &mut Watch),
        seen: &Observation,
    ) -> u64 {
        let changed = self.changed(signals, seen);
        if changed != 0 {
            for gate in &self.gates {
                if gate.rests_on & changed != 0 {
                    signals.values.forget(gate.at);
                    let place = (gate.at, gate.is_set);
                    program.evaluate::<GAP>(place, gate.operator, &mut signals.values, watch, seen);
                }
            }
        }
        changed
    }

    fn changed(&self, signals: &mut Signals<'_>, seen: &Observation) -> u64 {
        let lasting = (seen.conditions() & self.asks.conditions, seen.at_belts());
        let mut passing = wires_of(seen.signs() & self.asks.signs, &self.signs);
        if let Some(kind) = seen.intent() {
            passing |= self.intents[kind as usize];
        }
        if seen.has_sets() {
            passing |= self.sets;
        }
        let mut changed = passing | signals.passing;
        changed |= wires_of(lasting.0 ^ signals.lasting.0, &self.conditions);
        if lasting.1 != signals.lasting.1 {
            changed |= self.belts;
        }
        (signals.lasting, signals.passing) = (lasting, passing);
        if std::mem::take(&mut signals.is_new) {
            return ALL;
        }
        changed
    }
}

impl<'p> Signals<'p> {
    /// Before the first observation.
    pub(crate) fn new(program: &'p Program) -> Signals<'p> {
        Signals {
            values: Values::new(program, &Default::default()),
            lasting: (0, Halves::NONE),
            passing: 0,
            is_new: true,
        }
    }

    /// The values of the operators that are needed, as they are now.
    pub(crate) fn values(&self) -> &Values<'p> {
        &self.values
    }

    /// Takes values that were worked out whole. All can have changed.
    pub(crate) fn give(&mut self, values: Values<'p>) -> u64 {
        self.values = values;
        ALL
    }

    /// Forgets what it heard: somebody else changed the memory.
    pub(crate) fn renew(&mut self) {
        self.is_new = true;
    }
}
