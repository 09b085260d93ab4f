//! A clear-out with loose and stuck boards, slot by slot, with or without a look.
//!
//! The same world is written anew in the language of another explorer
//! (`tests/outside/scripts/clear_out.pml`), by the same description and not from this text.
//!
//! By hand, for one slot: it is empty, loose or stuck. Filled: 3 states on the way to the belts, 3
//! before they run, one more as the loose board is at the end, and the questions: nothing there or
//! stuck, each looked or not (4); done: empty or with a stuck board inside (2). With the first, 14.

use rackproof_model::{
    Instants, Micros, Model,
    key::{Coder, Key, KeyReader, KeyWriter},
};

/// The world, with this many slots, 1 to 8.
pub(crate) struct ClearOut {
    pub(crate) slots: u8,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Phase {
    Fill,
    Index,
    RunOut,
    Take,
    Ask,
    Done,
}

const PHASES: [Phase; 6] = [
    Phase::Fill,
    Phase::Index,
    Phase::RunOut,
    Phase::Take,
    Phase::Ask,
    Phase::Done,
];

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Act {
    LeaveEmpty,
    PutLoose,
    PutStuck,
    TakeAtEnd,
    Look,
    TakeByHand,
    SayEmpty,
    SayNotSure,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Rack {
    phase: Phase,
    slot: u8,
    loose: u8,
    stuck: u8,
    unknown: u8,
    looked: bool,
}

pub(crate) const START: Rack = Rack {
    phase: Phase::Fill,
    slot: 0,
    loose: 0,
    stuck: 0,
    unknown: 0,
    looked: false,
};

impl ClearOut {
    fn code(&self, rack: &mut Rack, coder: &mut impl Coder) {
        let mut phase = rack.phase as u8;
        coder.byte(&mut phase, 3);
        rack.phase = PHASES[(phase as usize).min(PHASES.len() - 1)];
        for byte in [
            &mut rack.slot,
            &mut rack.loose,
            &mut rack.stuck,
            &mut rack.unknown,
        ] {
            coder.byte(byte, 8);
        }
        coder.flag(&mut rack.looked);
    }

    /// The next unknown slot, or done.
    fn next(&self, rack: &mut Rack) {
        rack.looked = false;
        let behind = (1..=self.slots).map(|step| (rack.slot + step) % self.slots);
        let found = behind
            .into_iter()
            .find(|slot| rack.unknown >> slot & 1 == 1);
        (rack.phase, rack.slot) = match found {
            Some(slot) => (Phase::Index, slot),
            None => (Phase::Done, 0),
        };
    }

    fn filled(&self, rack: &mut Rack) {
        if rack.slot + 1 < self.slots {
            rack.slot += 1;
        } else {
            rack.slot = 0;
            rack.unknown = ((1_u16 << self.slots) - 1) as u8;
            rack.phase = Phase::Index;
        }
    }

    /// Flag 0: done, and empty. Flag 1: done, with a board inside.
    pub(crate) fn flags(rack: &Rack) -> u64 {
        let done = rack.phase == Phase::Done;
        let empty = rack.loose | rack.stuck == 0;
        u64::from(done && empty) | u64::from(done && !empty) << 1
    }
}

impl Model for ClearOut {
    type State = Rack;
    type Cause = Act;
    type Outcome = ();

    fn offers(&self, rack: &Rack, out: &mut Vec<Act>) {
        match rack.phase {
            Phase::Fill => out.extend([Act::LeaveEmpty, Act::PutLoose, Act::PutStuck]),
            Phase::Take => out.push(Act::TakeAtEnd),
            Phase::Ask => {
                if !rack.looked {
                    out.push(Act::Look);
                } else if rack.stuck >> rack.slot & 1 == 1 {
                    out.push(Act::TakeByHand);
                }
                out.extend([Act::SayEmpty, Act::SayNotSure]);
            }
            _ => {}
        }
    }

    fn chances(&self, _: &Rack, _: &mut Vec<Act>) {}

    fn act(&self, rack: &mut Rack, act: Act, _: &mut impl FnMut(())) {
        let here = 1 << rack.slot;
        match act {
            Act::LeaveEmpty => self.filled(rack),
            Act::PutLoose => {
                rack.loose |= here;
                self.filled(rack);
            }
            Act::PutStuck => {
                rack.stuck |= here;
                self.filled(rack);
            }
            Act::TakeAtEnd => {
                rack.loose &= !here;
                rack.phase = Phase::RunOut;
            }
            Act::Look => rack.looked = true,
            Act::TakeByHand => {
                rack.stuck &= !here;
                rack.looked = false;
            }
            Act::SayEmpty => {
                rack.unknown &= !here;
                self.next(rack);
            }
            Act::SayNotSure => self.next(rack),
        }
    }

    fn next_event(&self, rack: &Rack) -> Option<Micros> {
        matches!(rack.phase, Phase::Index | Phase::RunOut).then_some(Micros(1))
    }

    fn critical_instants(&self, _: &Rack, _: &mut Instants) {}

    fn advance(&self, rack: &mut Rack, span: Micros, _: &mut impl FnMut(())) {
        if span == Micros(0) {
            return;
        }
        rack.phase = match rack.phase {
            Phase::Index => Phase::RunOut,
            Phase::RunOut if rack.loose >> rack.slot & 1 == 1 => Phase::Take,
            Phase::RunOut => Phase::Ask,
            other => other,
        };
    }

    fn write_key(&self, rack: &Rack, out: &mut KeyWriter) {
        self.code(&mut { *rack }, out);
    }

    fn read_key(&self, key: &Key) -> Rack {
        let mut rack = START;
        self.code(&mut rack, &mut KeyReader::new(key));
        rack
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::toys::{all, counts};

    /// States and transitions as SPIN 6.5.2 counts them. A transition is a state stored or matched.
    /// To be there from the start is no step here, so that it has one transition more.
    const COUNTED: &str = include_str!("../../../../tests/outside/clear-out-spin.txt");

    #[test]
    fn another_explorer_counts_the_same() {
        let lines = COUNTED.lines().filter(|line| !line.starts_with('#'));
        let mut compared = 0;
        for line in lines {
            let numbers: Vec<u64> = line
                .split(' ')
                .map(|number| number.parse().expect("a count is a number"))
                .collect();
            let world = ClearOut {
                slots: numbers[0] as u8,
            };
            let (states, steps, ..) = counts(&all(&world, START, ClearOut::flags));
            assert_eq!([states as u64, steps + 1], numbers[1..], "{line}");
            compared += 1;
        }
        assert_eq!(compared, 5);
    }

    #[test]
    fn who_says_empty_without_a_look_leaves_a_board_inside() {
        let world = ClearOut { slots: 1 };
        let found = all(&world, START, ClearOut::flags);
        assert_eq!((found.count(0), found.count(1)), (1, 1));
        let witness = found.witness(1).expect("it can be left inside");
        assert_eq!(crate::toys::deeds(&witness), [Act::PutStuck, Act::SayEmpty]);
    }
}
