//! The neighbours' fields in a key.

use rackproof_model::{Micros, key::Coder};

use crate::{
    Available, State, World,
    neighbours::{Lapse, NextDoor, RailsWidth},
};

impl World {
    /// The neighbours' fields: none where they do nothing by themselves, and of each quirk only
    /// where the drill has it.
    pub(crate) fn code_neighbours(&self, s: &mut State, coder: &mut impl Coder) {
        let (old, mut next) = (s.next_door, NextDoor::default());
        let mut lapses = [(Lapse::Never, RailsWidth::Changed); 2];
        if let Some(upstream) = self.upstream() {
            lapses[0] = (upstream.drops, upstream.rails);
            next.stock = old.stock;
            coder.byte(&mut next.stock, 6);
            next.at_exit = old.at_exit;
            coder.flag(&mut next.at_exit);
            if upstream.works.by_clock() {
                next.exit_left = old.exit_left;
                coder.word(&mut next.exit_left.0, 32);
            }
            if upstream.available == Available::ByHand {
                next.presses = old.presses;
                coder.flag(&mut next.presses);
            }
            if upstream.two_at_once != Lapse::Never {
                (next.pushes, next.pushed) = (old.pushes, old.pushed);
                coder.flag(&mut next.pushes);
                coder.flag(&mut next.pushed);
            }
        }
        if let Some(downstream) = self.downstream() {
            lapses[1] = (downstream.drops, downstream.rails);
            next.busy = old.busy;
            coder.flag(&mut next.busy);
            if downstream.mends {
                (next.looked, next.runs) = (old.looked, old.runs);
                coder.flag(&mut next.looked);
                coder.flag(&mut next.runs);
            }
            if downstream.works.by_clock() {
                next.room_left = old.room_left;
                coder.word(&mut next.room_left.0, 32);
            }
            if downstream.opens_late.0 > 0 {
                next.arriving = old.arriving;
                coder.flag(&mut next.arriving);
            }
            if matches!(downstream.drops, Lapse::Board(..)) {
                next.came = old.came;
                coder.byte(&mut next.came, 6);
            }
        }
        for (at, (drops, rails)) in lapses.into_iter().enumerate() {
            if drops != Lapse::Never {
                (next.dropped[at], next.has_dropped[at]) = (old.dropped[at], old.has_dropped[at]);
                coder.flag(&mut next.dropped[at]);
                coder.flag(&mut next.has_dropped[at]);
            }
            if matches!(drops, Lapse::Board(..)) {
                code_running(&mut next.drop_left[at], old.drop_left[at], coder);
            }
            if rails == RailsWidth::Old {
                next.changed[at] = old.changed[at];
                coder.flag(&mut next.changed[at]);
            }
        }
        s.next_door = next;
    }
}

/// A clock that mostly stands: one bit then.
fn code_running(left: &mut Micros, old: Micros, coder: &mut impl Coder) {
    let mut runs = old.0 > 0;
    coder.flag(&mut runs);
    *left = old;
    if runs {
        coder.word(&mut left.0, 32);
    } else {
        *left = Micros(0);
    }
}
