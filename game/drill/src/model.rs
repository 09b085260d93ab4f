//! The world as a model: to be run against a clock, and to be explored.

use rackproof_model::{
    Instants, Micros, Model, Stride,
    key::{Key, KeyReader, KeyWriter},
};

use crate::{Cause, Mergers, Outcome, Reaches, State, World};

impl Model for World {
    type State = State;
    type Cause = Cause;
    type Outcome = Outcome;

    fn offers(&self, state: &State, out: &mut Vec<Cause>) {
        let mut found = Vec::with_capacity(48);
        self.offered(state, &mut found);
        out.extend(found.into_iter().map(Cause::Did));
    }

    fn chances(&self, state: &State, out: &mut Vec<Cause>) {
        let mut found = Vec::new();
        self.chosen(state, &mut found);
        out.extend(found.into_iter().map(Cause::Chose));
    }

    fn strides(&self, state: &State, out: &mut Vec<Stride<Cause>>) {
        self.strides_by((Mergers::Plain, Reaches::Each), state, out);
    }

    fn act(&self, state: &mut State, cause: Cause, hear: &mut impl FnMut(Outcome)) {
        self.do_cause(state, cause, hear);
    }

    fn next_event(&self, state: &State) -> Option<Micros> {
        let machine = self.machine().next_event(&state.machine);
        let faults = self.fault_due(state);
        let others = faults.into_iter().chain(self.neighbours_due(state));
        machine.into_iter().chain(others).min()
    }

    fn critical_instants(&self, state: &State, out: &mut Instants) {
        if !self.has_faults() && !self.has_neighbours() {
            self.machine().critical_instants(&state.machine, out);
            return self.critical_chances(state, out);
        }
        let mut found = Instants::new();
        self.machine().critical_instants(&state.machine, &mut found);
        self.critical_chances(state, &mut found);
        // Something beside the machine may come sooner than the machine's next event.
        let next = self.next_event(state);
        let sooner = |at: &&Micros| next.is_some_and(|next| **at < next);
        found
            .as_slice()
            .iter()
            .filter(sooner)
            .for_each(|at| out.push(*at));
    }

    fn same_ahead(&self, one: &State, other: &State) -> bool {
        !self.has_faults()
            && !one.machine.differs_at_a_glance(&other.machine)
            && one.machine == other.machine
            && one.next_door == other.next_door
            && one.leftover == other.leftover
            && one.upstream_held == other.upstream_held
    }

    fn advance(&self, state: &mut State, span: Micros, hear: &mut impl FnMut(Outcome)) {
        self.pass(state, span, hear);
    }

    fn write_key(&self, state: &State, out: &mut KeyWriter) {
        let mut copy = *state;
        self.code(&mut copy, Mergers::Plain, out);
    }

    fn read_key(&self, key: &Key) -> State {
        let mut state = self.start();
        self.code(&mut state, Mergers::Plain, &mut KeyReader::new(key));
        state
    }
}
