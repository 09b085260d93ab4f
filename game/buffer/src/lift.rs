//! The lift: where it goes, what it crosses, what it cuts.

use rackproof_model::{Micrometres, Micros};

use crate::{
    AxisName, Condition, Harm, HarmKind, Hear, LiftPlace, Listener, Machine, Motion, Outcome,
    Phase, Place, Side, State,
};

/// How far from a slot's height the lift still counts as standing at it, in µm.
/// Common practice: half a millimetre.
pub(crate) const AT_SLOT_WITHIN: i32 = 500;

impl Machine {
    /// Height of a place above the reference, in µm. Between two named heights: the middle.
    #[inline]
    pub(crate) fn height(&self, place: LiftPlace) -> Micrometres {
        let slot = |slot: i32| self.parts.reference_below.0 + slot * self.parts.pitch.0;
        Micrometres(match place {
            LiftPlace::Reference => 0,
            LiftPlace::BelowFirst => self.parts.reference_below.0 / 2,
            LiftPlace::At(at) => slot(i32::from(at)),
            LiftPlace::Above(at) => slot(i32::from(at)) + self.parts.pitch.0 / 2,
        })
    }

    pub(crate) fn place_at(&self, height: Micrometres) -> LiftPlace {
        let above_first = height.0 - self.parts.reference_below.0;
        if height.0 <= AT_SLOT_WITHIN {
            return LiftPlace::Reference;
        }
        if above_first < -AT_SLOT_WITHIN {
            return LiftPlace::BelowFirst;
        }
        let last = i32::from(self.parts.slots) - 1;
        let slot = ((above_first + AT_SLOT_WITHIN) / self.parts.pitch.0).clamp(0, last);
        if above_first - slot * self.parts.pitch.0 <= AT_SLOT_WITHIN {
            LiftPlace::At(slot as u8)
        } else {
            LiftPlace::Above(slot as u8)
        }
    }

    /// Height of the lift now, in µm above its reference.
    #[inline]
    pub fn lift_height(&self, s: &State) -> Micrometres {
        let driven = s.lift_from + s.lift.covered(&self.parts.axes.lift);
        if s.faults.sink.is_none() {
            return driven;
        }
        self.sunk_height(s).unwrap_or(driven)
    }

    /// Sends the lift to a place. It is an event of its own even if the lift stands there.
    #[inline(always)] // each caller knows what sort of place it is
    pub(crate) fn send_lift(
        &self,
        s: &mut State,
        to: LiftPlace,
        hear: &mut (impl Listener + ?Sized),
    ) {
        // Mostly from slot to slot.
        if let (LiftPlace::At(from), LiftPlace::At(to)) = (s.lift_place, to) {
            s.lift_from = self.height(LiftPlace::At(from));
            let way = (i32::from(to) - i32::from(from)) * self.parts.pitch.0;
            let time = self.lift_times[from.abs_diff(to) as usize];
            s.lift = Motion::begin_known(Micrometres(way), time);
        } else {
            self.begin_lift(s, to);
        }
        if s.lift.way().0 != 0 {
            hear(Outcome::Started(AxisName::Lift));
            if s.propped {
                self.prop_struck(s, &mut |outcome| hear(outcome));
            }
        }
    }

    #[inline(never)] // keeps those small that send it from slot to slot
    fn begin_lift(&self, s: &mut State, to: LiftPlace) {
        s.lift_from = self.height(s.lift_place);
        let way = self.height(to) - s.lift_from;
        s.lift = Motion::begin(&self.parts.axes.lift, way);
    }

    #[cold]
    fn prop_struck(&self, s: &State, hear: &mut Hear) {
        hear(Outcome::Harmed(Harm {
            kind: HarmKind::PropStruck,
            board: None,
            place: None,
            number: s.lift.way().0.abs(),
            limit: 0,
        }));
    }

    /// Stops the lift as hard as it can.
    pub(crate) fn brake_lift(&self, s: &mut State) {
        if s.lift.is_run() {
            s.lift_from = self.lift_height(s);
            s.lift = s.lift.brake(&self.parts.axes.lift);
        }
    }

    /// The ways from here at which something happens: the next slot of a sweep, and the limits of
    /// a board across a mouth.
    fn lift_marks(&self, s: &State) -> impl Iterator<Item = Micrometres> + use<> {
        let passes = s.phase == Phase::Sweeping && s.slot < self.highest_used(s);
        let sweep = passes.then(|| self.height(LiftPlace::At(s.slot)) - s.lift_from);
        let sign = if s.lift.way().0 < 0 { -1 } else { 1 };
        let begun = self.height(s.lift_place).0;
        let limit = |travel: Micrometres| Micrometres(begun + sign * travel.0 - s.lift_from.0);
        let worst = s.mouths.iter().flatten().map(|board| board.condition).min();
        let bent = worst
            .filter(|&at| at < Condition::Overstrained)
            .map(|_| limit(self.parts.mouth_bent_after));
        let sheared = worst
            .filter(|&at| at < Condition::Sheared)
            .map(|_| limit(self.parts.mouth_sheared_after));
        [sweep, bent, sheared].into_iter().flatten()
    }

    /// Time to the lift's next event.
    pub(crate) fn lift_next(&self, s: &State) -> Option<Micros> {
        if s.lift.is_rest() {
            return None;
        }
        let axis = &self.parts.axes.lift;
        let mut next = s.lift.left();
        if s.phase != Phase::Sweeping && s.mouths == [None; 2] {
            return Some(next);
        }
        for at in self
            .lift_marks(s)
            .filter_map(|way| s.lift.time_to(axis, way))
        {
            next = next.min(at);
        }
        Some(next)
    }

    /// Moments before the next event up to which a stop still ends short of a mark.
    pub(crate) fn lift_critical(&self, s: &State, found: &mut dyn FnMut(Micros)) {
        if s.lift.is_run() {
            let axis = &self.parts.axes.lift;
            for mark in self.lift_marks(s) {
                crate::time::last_stop_before(&s.lift, axis, mark, found);
            }
        }
    }

    /// Does what is due for a lift that moves. True if something was.
    #[inline]
    pub(crate) fn lift_due(&self, s: &mut State, hear: &mut Hear) -> bool {
        let over = s.lift.left() == Micros(0);
        // Mostly there is nothing to meet on its way.
        if s.phase == Phase::Sweeping || s.mouths != [None; 2] {
            return self.lift_met(s, over, hear);
        }
        if over {
            self.lift_ends(s, hear);
        }
        over
    }

    /// Does what is due where the lift passes slots of a sweep or bends what lies across a mouth.
    #[cold]
    #[inline(never)] // keeps the frame of `settle` small
    fn lift_met(&self, s: &mut State, over: bool, hear: &mut Hear) -> bool {
        if s.mouths != [None; 2] {
            let travel = (self.lift_height(s) - self.height(s.lift_place)).0.abs();
            self.cut_at_mouths(s, travel, hear);
        }
        if s.phase == Phase::Sweeping {
            // The last slot counts when the lift rests at it: the last µm are reached before that.
            let is_seen = s.slot < self.highest_used(s) || over;
            if is_seen && self.lift_height(s) >= self.height(LiftPlace::At(s.slot)) {
                self.sweep_passed(s, hear);
                return true;
            }
        }
        if over {
            self.lift_ends(s, hear);
        }
        over
    }

    /// The lift has come to the end of its motion.
    #[inline(never)] // keeps the frame of `settle` small
    fn lift_ends(&self, s: &mut State, hear: &mut Hear) {
        let height = self.lift_height(s);
        let moved = s.lift.way().0 != 0 || self.height(s.lift_place) != height;
        // Mostly it has come to the slot that it was sent to.
        let at = LiftPlace::At(s.slot);
        if self.height(at) == height {
            debug_assert_eq!(self.place_at(height), at, "two places at one height");
            (s.lift_place, s.lift_from) = (at, height);
        } else {
            s.lift_place = self.place_at(height);
            s.lift_from = self.height(s.lift_place);
        }
        s.lift = Motion::default();
        if moved {
            hear(Outcome::Stopped(AxisName::Lift));
        }
        self.lift_arrived(s, hear);
    }

    /// What a travel of the lift does to boards across the mouths.
    pub(crate) fn cut_at_mouths(&self, s: &mut State, travel: i32, hear: &mut Hear) {
        let stages = [
            (
                self.parts.mouth_bent_after,
                Condition::Overstrained,
                HarmKind::Overstrained,
            ),
            (
                self.parts.mouth_sheared_after,
                Condition::Sheared,
                HarmKind::Sheared,
            ),
        ];
        for (mouth, side) in s.mouths.iter_mut().zip([Side::Infeed, Side::Outfeed]) {
            let Some(board) = mouth else { continue };
            for (limit, condition, kind) in stages {
                if travel >= limit.0 && board.condition < condition {
                    board.worsen(condition);
                    hear(Outcome::Harmed(Harm {
                        kind,
                        board: Some(board.kind),
                        place: Some(Place::Mouth(side)),
                        number: travel,
                        limit: limit.0,
                    }));
                }
            }
        }
    }
}
