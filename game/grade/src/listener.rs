//! Who follows an attempt by a program: its memory, and what it gives now.

use rackproof_model::Micros;

use crate::{
    Observation, Watch,
    changes::Signals,
    formula::{At, Values},
    prepared::Prepared,
};

/// A program along an attempt.
#[derive(Clone, Debug)]
pub(crate) struct Listener<'p> {
    prepared: &'p Prepared,
    watch: Watch,
    signals: Signals<'p>,
    /// What gaps changed since the last observation.
    in_gaps: u64,
}

/// What an observation told: the values now, and which operators can have others than before.
pub(crate) struct Told<'l, 'p> {
    prepared: &'p Prepared,
    pub(crate) values: &'l Values<'p>,
    changed: u64,
}

impl Told<'_, '_> {
    /// Whether an operator can have another value than before.
    pub(crate) fn concerns(&self, at: At) -> bool {
        self.prepared.changes.rests_on(at) & self.changed != 0
    }
}

impl<'p> Listener<'p> {
    pub(crate) fn new(prepared: &'p Prepared) -> Listener<'p> {
        Listener {
            signals: Signals::new(&prepared.program),
            watch: Watch::default(),
            in_gaps: 0,
            prepared,
        }
    }

    /// Whether time that passes can tell it something.
    pub(crate) fn hears_time(&self) -> bool {
        self.prepared.program.gaps_matter
    }

    /// Whether it compares widths.
    pub(crate) fn compares(&self) -> bool {
        !self.prepared.program.comparisons.is_empty()
    }

    /// Takes up an observation: what it told, and the gaps since the one before, if that is
    /// something. One in which only time passed tells something only to who hears time.
    pub(crate) fn observe(&mut self, seen: &Observation) -> Option<Told<'_, 'p>> {
        if seen.is_quiet() && !self.hears_time() {
            return None;
        }
        let (prepared, changes) = (self.prepared, &self.prepared.changes);
        let changed = if changes.hears_all() {
            let values = prepared.step(&mut self.watch, seen);
            self.signals.give(values)
        } else {
            let present = (&mut self.signals, &mut self.watch);
            changes.step::<false>(&prepared.program, present, seen)
        };
        let in_gaps = std::mem::take(&mut self.in_gaps);
        self.told(changed | in_gaps)
    }

    /// Lets a span pass in which only `quiet` is to be seen: what the gap that begins it told. No
    /// window runs out before its end, so that it goes for all of them.
    pub(crate) fn pass(&mut self, quiet: &Observation, span: Micros) -> Option<Told<'_, 'p>> {
        if !self.hears_time() || span == Micros(0) {
            return None;
        }
        let (prepared, changes) = (self.prepared, &self.prepared.changes);
        let changed = if changes.hears_all() {
            let values = prepared.pass_quietly(&mut self.watch, span, quiet)?;
            self.signals.give(values)
        } else {
            let present = (&mut self.signals, &mut self.watch);
            changes.step::<true>(&prepared.program, present, quiet)
        };
        self.in_gaps |= changed;
        self.told(changed)
    }

    fn told(&self, changed: u64) -> Option<Told<'_, 'p>> {
        (changed != 0).then_some(Told {
            prepared: self.prepared,
            values: self.signals.values(),
            changed,
        })
    }

    /// The time until a window runs out while only `quiet` is to be seen.
    pub(crate) fn next_change(&self, quiet: &Observation) -> Option<Micros> {
        self.prepared.next_quiet_change(&self.watch, quiet)
    }
}
