//! A mover on its way towards a thing that must not be bent.
//!
//! It starts at 0 and moves one micrometre in a microsecond. Stopped, it brakes over 20,000 µm at
//! once. It touches the thing at 30,000, which is an event, breaks it at 33,000, and arrives at
//! 100,000. Four ends are possible: unharmed, bowed, broken, and broken on arrival. The bowed one
//! needs a stop at 10,000 to 12,999, where nothing happens by itself.
//!
//! Counted by hand, with the critical instants 9,999 (the last that ends unharmed) and 12,999 (the
//! last that ends bowed): waiting; moving, at 0; seven moments before the touch (4,999, 9,999,
//! 10,000, 11,499, 12,999, 13,000, 21,500); the touch; one moment behind it (65,000); 4 ends:
//! 15 states. Steps: 1 from waiting; 9 from moving (stop, 7 moments, the touch); 2 from each of the
//! 7 (stop, the touch); 3 from the touch (stop, a moment, the arrival); 2 from the moment behind:
//! 29. Without them: one moment before the touch (15,000), and no bowed end: 8 states, and
//! 1 + 3 + 2 + 3 + 2 = 11 steps. Depth 3 in both: start, a wait, and a stop or a wait.

use rackproof_model::{
    Instants, Micros, Model,
    key::{Coder, Key, KeyReader, KeyWriter},
};

const BRAKE: u32 = 20_000;
const TOUCH: u32 = 30_000;
const BREAK: u32 = 33_000;
const ARRIVE: u32 = 100_000;

/// The world, with its critical instants named or not.
pub(crate) struct Mover {
    pub(crate) names_instants: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Order {
    Start,
    Stop,
}

/// Where the mover is, or how it ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Stage {
    Waiting,
    Moving { at: u32 },
    Unharmed,
    Bowed,
    Broken,
    BrokenOnArrival,
}

use Stage::{Bowed, Broken, BrokenOnArrival, Moving, Unharmed, Waiting};

/// Each stage stands where its number says.
const STAGES: [Stage; 6] = [
    Waiting,
    Moving { at: 0 },
    Unharmed,
    Bowed,
    Broken,
    BrokenOnArrival,
];

fn number(stage: Stage) -> u8 {
    match stage {
        Waiting => 0,
        Moving { .. } => 1,
        Unharmed => 2,
        Bowed => 3,
        Broken => 4,
        BrokenOnArrival => 5,
    }
}

impl Model for Mover {
    type State = Stage;
    type Cause = Order;
    type Outcome = ();

    fn offers(&self, state: &Stage, out: &mut Vec<Order>) {
        match state {
            Waiting => out.push(Order::Start),
            Moving { .. } => out.push(Order::Stop),
            _ => (),
        }
    }

    fn chances(&self, _: &Stage, _: &mut Vec<Order>) {}

    fn act(&self, state: &mut Stage, cause: Order, _: &mut impl FnMut(())) {
        *state = match (cause, *state) {
            (Order::Start, _) => Moving { at: 0 },
            (Order::Stop, Moving { at }) if at + BRAKE < TOUCH => Unharmed,
            (Order::Stop, Moving { at }) if at + BRAKE < BREAK => Bowed,
            (Order::Stop, _) => Broken,
        };
    }

    fn next_event(&self, state: &Stage) -> Option<Micros> {
        match *state {
            Moving { at } if at < TOUCH => Some(Micros(TOUCH - at)),
            Moving { at } => Some(Micros(ARRIVE - at)),
            _ => None,
        }
    }

    fn critical_instants(&self, state: &Stage, out: &mut Instants) {
        let Moving { at } = *state else { return };
        let last = [BREAK, TOUCH].map(|limit| limit - BRAKE - 1);
        for last in last.into_iter().filter(|_| self.names_instants) {
            last.checked_sub(at)
                .into_iter()
                .for_each(|after| out.push(Micros(after)));
        }
    }

    fn advance(&self, state: &mut Stage, span: Micros, _: &mut impl FnMut(())) {
        if let Moving { at } = state {
            *at += span.0;
            if *at == ARRIVE {
                *state = BrokenOnArrival;
            }
        }
    }

    fn write_key(&self, state: &Stage, out: &mut KeyWriter) {
        out.byte(&mut number(*state), 3);
        if let Moving { at } = state {
            out.word(&mut { *at }, 17);
        }
    }

    fn read_key(&self, key: &Key) -> Stage {
        let mut reader = KeyReader::new(key);
        let mut stage = STAGES[reader.bits(0, 3) as usize];
        if let Moving { at } = &mut stage {
            reader.word(at, 17);
        }
        stage
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::toys::{all, counts, end_of};

    fn flags(state: &Stage) -> u64 {
        1 << number(*state)
    }

    #[test]
    fn critical_instants_find_the_end_that_events_and_middles_miss() {
        let cases = [
            // Named, (states, steps, depth, dead ends), the ends that are found.
            (false, (8, 11, 3, 3), 0b110_101),
            (true, (15, 29, 3, 4), 0b111_101),
        ];
        for (names_instants, expected, ends) in cases {
            let world = Mover { names_instants };
            let found = all(&world, Waiting, flags);
            let without_moving = found.seen() & !0b10;
            assert_eq!(
                (counts(&found), without_moving),
                (expected, ends),
                "{names_instants}"
            );
        }
    }

    #[test]
    fn each_end_has_a_witness_that_leads_to_it() {
        let world = Mover {
            names_instants: true,
        };
        let found = all(&world, Waiting, flags);
        for (bit, moves) in [(2, 2), (3, 3), (4, 3), (5, 3)] {
            let witness = found.witness(bit).expect("each end is found");
            assert_eq!(witness.moves, moves, "{witness:?}");
            assert_eq!(end_of(&world, &Waiting, &witness), STAGES[bit as usize]);
        }
        assert_eq!(
            found.first_dead_end.map(|node| found.state(node)),
            Some(Unharmed)
        );
        let between = found.nodes().filter(|&node| found.is_between(node)).count();
        assert_eq!(between, 8);
    }
}
