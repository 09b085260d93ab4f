//! States with one of their facts made the same everywhere: what a proof would have to explore if
//! nobody could ask for that fact.

use rackproof_model::Micrometres;

use crate::{Alarms, Board, Condition, Machine, Motion, State};

/// A fact that a state carries.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum StateFact {
    /// Of which kind each board is.
    Kinds,
    /// What became of each board.
    Conditions,
    /// How far the rails stand apart, and how they move.
    Widths,
    /// Which products are chosen and loaded.
    Products,
    /// Which alarms there are.
    Alarms,
}

impl StateFact {
    /// All facts with their names.
    pub const ALL: [(&'static str, StateFact); 5] = [
        ("kinds", StateFact::Kinds),
        ("conditions", StateFact::Conditions),
        ("widths", StateFact::Widths),
        ("products", StateFact::Products),
        ("alarms", StateFact::Alarms),
    ];
}

impl Machine {
    /// The state with one fact made the same as in all others. It counts, and is never run.
    pub fn without_fact(&self, s: &State, fact: StateFact) -> State {
        let mut s = *s;
        match fact {
            StateFact::Kinds => each_board(&mut s, |board| board.kind = 0),
            StateFact::Conditions => each_board(&mut s, |board| board.condition = Condition::Good),
            StateFact::Widths => {
                s.width_from = Micrometres(0);
                s.rails = Motion::default();
                s.width_known = false;
            }
            StateFact::Products => {
                (s.chosen, s.loaded) = (0, 0);
                self.load_figures(&mut s);
            }
            StateFact::Alarms => s.alarms = Alarms::default(),
        }
        s
    }
}

fn each_board(s: &mut State, change: impl Fn(&mut Board)) {
    let lying: Vec<_> = s.rack.iter().collect();
    for (at, mut board) in lying {
        change(&mut board);
        s.rack.set(at, board);
    }
    let belts = s
        .infeed_belt
        .iter_mut()
        .chain(s.mouths.iter_mut().flatten());
    let belts = belts.chain(s.outfeed_belt.iter_mut().flatten());
    belts.chain(&mut s.upstream_board).for_each(&change);
    let running = s.runners.list_mut().iter_mut();
    running.for_each(|runner| change(&mut runner.board));
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Alarm, Half, HalfSlot, sample};

    #[test]
    fn states_that_differ_in_one_fact_are_the_same_without_it() {
        let machine = sample::machine();
        let mut plain = machine.at_rest(sample::WREN);
        let at = HalfSlot {
            slot: 0,
            half: Half::Infeed,
        };
        plain.rack.set(at, Board::good(sample::WREN));
        type Change = fn(&Machine, &mut State, HalfSlot);
        let changes: [(StateFact, Change); 5] = [
            (StateFact::Kinds, |_, s, at| {
                s.rack.set(at, Board::good(sample::RAVEN))
            }),
            (StateFact::Conditions, |_, s, at| {
                let mut board = Board::good(sample::WREN);
                board.worsen(Condition::Overstrained);
                s.rack.set(at, board);
            }),
            (StateFact::Widths, |_, s, _| s.width_from.0 += 1_000),
            (StateFact::Products, |_, s, _| s.chosen = 1),
            (StateFact::Alarms, |machine, s, _| {
                machine.raise(s, Alarm::LiftDrive);
            }),
        ];
        for (fact, change) in changes {
            let mut other = plain;
            change(&machine, &mut other, at);
            assert_ne!(other, plain, "{fact:?}");
            for (_, one) in StateFact::ALL {
                let same = machine.without_fact(&other, one) == machine.without_fact(&plain, one);
                assert_eq!(same, one == fact, "{fact:?} without {one:?}");
            }
        }
    }
}
