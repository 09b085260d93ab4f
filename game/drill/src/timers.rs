//! What runs by itself in the world: the machine's timers, the neighbours' clocks, that of faults.

use rackproof_buffer::Timer;

use crate::{State, World};

impl World {
    /// The timers that run now, in the order of [`Timer::ALL`].
    pub fn timers(&self, s: &State) -> impl Iterator<Item = Timer> + use<> {
        let [upstream, downstream] = self.neighbours_clocks(s);
        let others = [
            (Timer::Upstream, upstream),
            (Timer::Downstream, downstream),
            (Timer::Fault, self.fault_due(s).is_some()),
        ];
        let others = others.into_iter().filter(|(_, runs)| *runs);
        self.machine()
            .timers(&s.machine)
            .chain(others.map(|(timer, _)| timer))
    }
}
