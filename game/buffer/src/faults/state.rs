//! Which faults are there, and how far they have come.

use rackproof_model::{Micrometres, Micros, key::Coder};

use crate::State;

/// A lift that sinks, or has sunk until its brake gripped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Sink {
    /// Height where it began, above the reference.
    pub(crate) from: Micrometres,
    /// Time since then.
    pub(crate) elapsed: Micros,
}

/// The faults of one machine as they are now.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Faults {
    /// Bit n for the n-th of [`crate::Machine::faults`].
    pub(crate) present: u16,
    /// Width by step count less the true width, while the width counts as known.
    pub(crate) count_off: Micrometres,
    /// The width that this move of the rails does not pass.
    pub(crate) stall_at: Option<Micrometres>,
    /// The rails' motor has stalled in this move, and hums.
    pub(crate) stalled: bool,
    /// By how much the belts slip in this run, in hundredths.
    pub(crate) slip: u8,
    /// The machine downstream does not take the board of this run.
    pub(crate) blocked: bool,
    /// The lift sinks.
    pub(crate) sink: Option<Sink>,
}

impl Faults {
    /// Which faults are there, bit n for the n-th of [`crate::Machine::faults`].
    pub fn present(&self) -> u16 {
        self.present
    }

    /// The fields in a key: one bit while nothing is wrong.
    pub(crate) fn code(&mut self, coder: &mut impl Coder) {
        let mut any = *self != Faults::default();
        coder.flag(&mut any);
        if !any {
            *self = Faults::default();
            return;
        }
        coder.short(&mut self.present, 16);
        coder.signed(&mut self.count_off.0);
        code_option(&mut self.stall_at, Micrometres(0), coder, |at, coder| {
            coder.signed(&mut at.0);
        });
        coder.flag(&mut self.stalled);
        coder.byte(&mut self.slip, 7);
        coder.flag(&mut self.blocked);
        let none = Sink {
            from: Micrometres(0),
            elapsed: Micros(0),
        };
        code_option(&mut self.sink, none, coder, |sink, coder| {
            coder.signed(&mut sink.from.0);
            coder.word(&mut sink.elapsed.0, 32);
        });
    }
}

fn code_option<T: Copy, C: Coder>(
    value: &mut Option<T>,
    none: T,
    coder: &mut C,
    code: impl Fn(&mut T, &mut C),
) {
    let mut some = value.is_some();
    coder.flag(&mut some);
    let mut inner = value.unwrap_or(none);
    if some {
        code(&mut inner, coder);
    }
    *value = some.then_some(inner);
}

impl State {
    /// Whether a fault is there, or what one did to the lift goes on.
    #[inline]
    pub(crate) fn is_unsound(&self) -> bool {
        self.faults.present != 0 || self.faults.sink.is_some()
    }

    /// The faults as they are now.
    pub fn faults(&self) -> &Faults {
        &self.faults
    }

    /// Steps that the rails lost, as a width: by step count less in truth. Nought while the width
    /// does not count as known.
    pub fn steps_lost(&self) -> Micrometres {
        self.faults.count_off
    }
}
