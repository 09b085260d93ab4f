//! Sets of half-slots, and what is said of them.
//!
//! | to say | formula |
//! | --- | --- |
//! | for each half-slot; for some | `Every(a)`; `Some(a)` |
//! | for each slot: both halves; for some slot | `Every(a)`; `Some(WholeSlots(a))` |
//! | for each slot: one half at least | `Every(PartSlots(a))` |
//! | for each half-slot of the infeed side | `Every(Or([Not(Infeed), a]))` |
//! | for some half-slot of the outfeed side | `Some(And([Outfeed, a]))` |
//! | for each side: one half-slot at least | `Every(PartSides(a))` |
//! | for some side: all of it | `Some(WholeSides(a))` |
//! | for the slot at the belts | `AtBelts(a)` |
//!
//! `Since`, `Once` and `Historically` over sets are one for each half-slot, with and without a
//! window: `Every(Since(Not(Sign(LooksVoided)), SeenEmpty))`, or
//! `Every(Once(within_s: 60.0, of: SeenEmpty))`.

use rackproof_buffer::Half;
use rackproof_files::{Report, Value};

use super::{Compiler, Gives, no_operator};
use crate::formula::{At, Operator, SetAtom, Wider};

impl Compiler<'_> {
    pub(super) fn set_atom(
        &mut self,
        name: &str,
        value: &Value,
        report: Report<'_>,
    ) -> Option<Gives> {
        let made = match name {
            "SeenEmpty" => Operator::Set(SetAtom::SeenEmpty),
            "SeenBoard" => Operator::Set(SetAtom::SeenBoard),
            "Answered" => Operator::Set(SetAtom::Answered),
            "ReachedFor" => Operator::Set(SetAtom::ReachedFor),
            "Infeed" => Operator::Side(Half::Infeed),
            "Outfeed" => Operator::Side(Half::Outfeed),
            _ => {
                no_operator(value, name, report);
                return None;
            }
        };
        Some(Gives::Set(self.push(made, value, report)?))
    }

    /// An operator over one set.
    pub(super) fn of_set(
        &mut self,
        operator: &str,
        a: &Value,
        value: &Value,
        report: Report<'_>,
    ) -> Option<Gives> {
        let make: fn(At) -> Operator = match operator {
            "Every" => Operator::Every,
            "Some" => Operator::Some,
            "AtBelts" => Operator::AtBelts,
            "WholeSlots" => |a| Operator::Wider(Wider::WholeSlots, a),
            "PartSlots" => |a| Operator::Wider(Wider::PartSlots, a),
            "WholeSides" => |a| Operator::Wider(Wider::WholeSides, a),
            "PartSides" => |a| Operator::Wider(Wider::PartSides, a),
            _ => {
                no_operator(value, operator, report);
                return None;
            }
        };
        let a = self.set(a, report)?;
        let made = make(a);
        let at = self.push(made, value, report)?;
        Some(if made.is_set() {
            Gives::Set(at)
        } else {
            Gives::Truth(at)
        })
    }
}
