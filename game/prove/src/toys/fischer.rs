//! Fischer's protocol: two or three processes keep each other out of one place by a shared variable
//! and by time alone. A published timed automaton with a known verdict.
//!
//! Each process, for ever: waits until the lock is free; within `set_most` writes its number into
//! it; waits at least `check_least`; goes in if the lock still holds its number, else begins anew.
//! Never are two inside if `set_most` < `check_least`; else there is a way by which two are.
//!
//! Source: B. Dutertre, "Fischer's Mutual Exclusion Protocol", the README of an example of SAL,
//! SRI, 2003: "Mutual exclusion is ensured provided delta1 < delta2", and a counter-example "if
//! delta2 <= delta1". The protocol is told in L. Lamport, "A fast mutual exclusion algorithm",
//! 1987, from memory.
//!
//! All its bounds are closed (at most, at least): whole moments then decide what real ones do
//! (Henzinger, Manna and Pnueli, "What good are digital clocks?", 1992, from memory). So the world
//! names each whole moment as critical; and where it does not, the explorer's own must do.

use rackproof_model::{
    Instants, Micros, Model,
    key::{Coder, Key, KeyReader, KeyWriter},
};

const PROCESSES: usize = 3;

/// The world.
#[derive(Clone, Copy)]
pub(crate) struct Fischer {
    /// How many processes take part, 1 to 3.
    pub(crate) processes: usize,
    /// Longest time from finding the lock free to writing it.
    pub(crate) set_most: u32,
    /// Least time from writing the lock to checking it.
    pub(crate) check_least: u32,
    /// Whether each whole moment is named as critical.
    pub(crate) names_instants: bool,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Stage {
    #[default]
    Outside,
    /// Found the lock free.
    Setting,
    /// Wrote the lock.
    Checking,
    Inside,
}

use Stage::{Checking, Inside, Outside, Setting};

const STAGES: [Stage; 4] = [Outside, Setting, Checking, Inside];

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Process {
    stage: Stage,
    /// Time since the stage began, as far as anybody asks.
    clock: u32,
}

#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Protocol {
    processes: [Process; PROCESSES],
    /// 0, or one more than the number of a process.
    lock: u8,
}

/// One step of a process.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Act {
    FindFree(usize),
    Set(usize),
    GoIn(usize),
    BeginAnew(usize),
    Leave(usize),
}

impl Protocol {
    fn inside(&self) -> usize {
        let stages = self.processes.iter().map(|one| one.stage);
        stages.filter(|&stage| stage == Inside).count()
    }

    /// Bit n: n processes are inside.
    fn flags(&self) -> u64 {
        1 << self.inside()
    }
}

impl Fischer {
    fn taking_part<'p>(
        &self,
        state: &'p Protocol,
    ) -> impl Iterator<Item = (usize, &'p Process)> + 'p {
        state.processes.iter().take(self.processes).enumerate()
    }

    /// What a clock still has to run until somebody asks for it.
    fn left(&self, process: &Process) -> Option<u32> {
        let ends = match process.stage {
            Setting => self.set_most,
            Checking if process.clock < self.check_least => self.check_least,
            _ => return None,
        };
        Some(ends - process.clock)
    }

    fn code(&self, coder: &mut impl Coder, state: &mut Protocol) {
        coder.byte(&mut state.lock, 2);
        for process in &mut state.processes[..self.processes] {
            let mut stage = process.stage as u8;
            coder.byte(&mut stage, 2);
            process.stage = STAGES[stage as usize];
            coder.word(&mut process.clock, 20);
        }
    }
}

impl Model for Fischer {
    type State = Protocol;
    type Cause = Act;
    type Outcome = ();

    fn offers(&self, _: &Protocol, _: &mut Vec<Act>) {}

    fn chances(&self, state: &Protocol, out: &mut Vec<Act>) {
        for (number, process) in self.taking_part(state) {
            let (own, checks) = (
                state.lock == number as u8 + 1,
                process.clock >= self.check_least,
            );
            match process.stage {
                Outside if state.lock == 0 => out.push(Act::FindFree(number)),
                Outside => (),
                Setting => out.push(Act::Set(number)),
                Checking if checks && own => out.push(Act::GoIn(number)),
                Checking if checks => out.push(Act::BeginAnew(number)),
                Checking => (),
                Inside => out.push(Act::Leave(number)),
            }
        }
    }

    fn act(&self, state: &mut Protocol, cause: Act, _: &mut impl FnMut(())) {
        let (number, stage) = match cause {
            Act::FindFree(number) => (number, Setting),
            Act::Set(number) => (number, Checking),
            Act::GoIn(number) => (number, Inside),
            Act::BeginAnew(number) | Act::Leave(number) => (number, Outside),
        };
        state.processes[number] = Process { stage, clock: 0 };
        match cause {
            Act::Set(_) => state.lock = number as u8 + 1,
            Act::Leave(_) => state.lock = 0,
            _ => (),
        }
    }

    /// Who must write now lets no time pass before.
    fn next_event(&self, state: &Protocol) -> Option<Micros> {
        let left = self
            .taking_part(state)
            .filter_map(|(_, one)| self.left(one));
        left.min().filter(|&left| left > 0).map(Micros)
    }

    fn critical_instants(&self, state: &Protocol, out: &mut Instants) {
        let next = self.next_event(state).map_or(0, |next| next.0);
        if self.names_instants {
            (1..next).for_each(|instant| out.push(Micros(instant)));
        }
    }

    fn advance(&self, state: &mut Protocol, span: Micros, _: &mut impl FnMut(())) {
        for process in &mut state.processes[..self.processes] {
            if self.left(process).is_some() {
                process.clock += span.0;
            }
        }
    }

    fn write_key(&self, state: &Protocol, out: &mut KeyWriter) {
        self.code(out, &mut { *state });
    }

    fn read_key(&self, key: &Key) -> Protocol {
        let mut state = Protocol::default();
        self.code(&mut KeyReader::new(key), &mut state);
        state
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::toys::{all, end_of};

    const START: Protocol = Protocol {
        processes: [Process {
            stage: Outside,
            clock: 0,
        }; PROCESSES],
        lock: 0,
    };

    #[test]
    fn two_are_inside_just_if_setting_may_last_as_long_as_the_wait() {
        let cases = [
            // Processes, longest setting, least wait, each moment named.
            (2, 1, 2, true),
            (2, 2, 3, true),
            (2, 2, 5, true),
            (2, 1, 1, true),
            (2, 2, 2, true),
            (2, 3, 2, true),
            (2, 5, 2, true),
            (3, 2, 3, true),
            (3, 3, 3, true),
            // The explorer's own moments: events, and one inside each interval.
            (2, 20, 21, false),
            (2, 21, 21, false),
            (2, 21, 20, false),
        ];
        for (processes, set_most, check_least, names_instants) in cases {
            let world = Fischer {
                processes,
                set_most,
                check_least,
                names_instants,
            };
            let found = all(&world, START, Protocol::flags);
            let case = (processes, set_most, check_least);
            assert!(found.count(1) > 0, "{case:?}: nobody ever goes in");
            assert_eq!(found.count(2) > 0, set_most >= check_least, "{case:?}");
        }
    }

    #[test]
    fn a_way_by_which_two_are_inside_can_be_replayed() {
        let world = Fischer {
            processes: 2,
            set_most: 3,
            check_least: 2,
            names_instants: true,
        };
        let found = all(&world, START, Protocol::flags);
        let witness = found.witness(2).expect("the parameters are the wrong ones");
        assert_eq!(end_of(&world, &START, &witness).inside(), 2);
        // Both find it free; one sets, waits, goes in; the other sets, waits, goes in.
        assert_eq!(witness.moves, 8);
    }

    /// Alone, counted by hand: outside; setting at 0, 1; checking at 0, 1, 2; inside. The last
    /// moment of the setting lets no time pass. The lock says nothing new.
    #[test]
    fn one_alone_is_counted_by_hand() {
        let world = Fischer {
            processes: 1,
            set_most: 1,
            check_least: 2,
            names_instants: true,
        };
        let found = all(&world, START, Protocol::flags);
        assert_eq!(found.states, 7);
        assert_eq!((found.count(1), found.dead_ends), (1, 0));
    }
}
