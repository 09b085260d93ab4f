//! Level 6: the order of slots is forgotten, the lowest kept apart.

use rackproof_buffer::Machine;
use rackproof_drill::{Page, World};

use super::{Judged, JudgedState};
use crate::{Program, formula::Operator};

impl Judged {
    /// The same pair, explored by prepared steps, with the order of slots forgotten: an
    /// over-approximation, for racks with many boards. What hangs on a slot's place keeps it as it
    /// is: see [`Judged::is_unordered`].
    #[must_use]
    pub fn unordered(self) -> Judged {
        let alike = self.world.machine().has_alike_slots() && asks_for_no_slot(&self.world);
        Judged {
            unordered: alike && !self.clocks_run_beside() && self.rules.program.asks_for_no_place(),
            ..self.prepared()
        }
    }

    /// Whether the order of slots is forgotten. It is not where a rule reads more of a set than
    /// whether it is whole, nor where something is wrong with a slot, a product uses but some of
    /// them, two boards lie in one, or parts meet those of the next, nor where a clock of the rules
    /// runs beside the lift, nor where neighbours do something by themselves, so that the machine
    /// chooses slots, nor where a command may hold a clear-out and go on.
    pub fn is_unordered(&self) -> bool {
        self.unordered
    }

    /// Puts the member that stands for its class in the place of a state.
    pub(super) fn put_in_order(&self, state: &mut JudgedState) {
        self.forget_unasked(state);
        let machine = self.world.machine();
        let (columns, count) = self.columns(state);
        let of_machine = &mut state.world.machine;
        let shuffle = machine.put_in_order(of_machine, self.apart(), &columns[..count]);
        if let Some(shuffle) = shuffle {
            self.move_columns(state, &|mask| shuffle.mask(mask));
        }
    }

    /// Adds the members of a class that have to be gone on from besides the one that stands for it.
    pub(super) fn in_other_orders(&self, state: &JudgedState, out: &mut Vec<JudgedState>) {
        let machine: &Machine = self.world.machine();
        let (columns, count) = self.columns(state);
        let of_slots = (self.apart(), &columns[..count]);
        machine.in_other_orders(&state.world.machine, of_slots, &mut |member, shuffle| {
            let mut other = *state;
            other.world.machine = member;
            if let Some(shuffle) = shuffle {
                self.move_columns(&mut other, &|mask| shuffle.mask(mask));
            }
            out.push(other);
        });
    }

    /// Slots below this one are kept apart.
    fn apart(&self) -> u8 {
        let slots = self.world.machine().slots();
        self.world.hall().reached_from_under.clamp(1, slots - 1)
    }
}

/// Whether neither a fault nor a page nor a setting of the drill is about some slot, no neighbour
/// does anything by itself, and the rack is seen through an open hatch only.
fn asks_for_no_slot(world: &World) -> bool {
    let drill = world.drill();
    !world.has_faults()
        && drill.neighbours.upstream.is_none()
        && drill.neighbours.downstream.is_none()
        && drill.start.settings.is_empty()
        && !drill.pages.contains(&Page::Settings)
        && !drill.pages.contains(&Page::Orders)
        && world.hall().sight.clear_glass.is_none()
}

impl Program {
    /// Whether the rules ask of each set of half-slots only whether it is whole, or what it says of
    /// the slot at the belts, and gather it since something that concerns all slots.
    fn asks_for_no_place(&self) -> bool {
        let gathers = |operator: &Operator| match *operator {
            Operator::Side(_)
            | Operator::SetNot(_)
            | Operator::SetAnd(..)
            | Operator::SetOr(..)
            | Operator::InSetWindow(_)
            | Operator::Wider(..)
            | Operator::Some(_) => false,
            Operator::SetSince(held, ..) => {
                matches!(self.operators[usize::from(held)], Operator::Spread(_))
            }
            Operator::Every(set) | Operator::AtBelts(set) => {
                matches!(self.operators[usize::from(set)], Operator::SetSince(..))
            }
            _ => true,
        };
        self.operators.iter().all(gathers) && self.whole_sets().len() == usize::from(self.sets)
    }
}
