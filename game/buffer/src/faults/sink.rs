//! A lift whose brake does not hold it. The drives hold it while they are on; the brake alone while
//! they are off: power off, emergency stop, hatch, and until Clear.

use rackproof_model::{Micrometres, Micros};

use super::{Fault, state::Sink};
use crate::{
    Harm, HarmKind, Hear, LiftPlace, Machine, Outcome, State, UnitState, lift::AT_SLOT_WITHIN,
};

/// Twice the standard acceleration of fall, in µm/s². Source: ISO 80000-3, 9.806 65 m/s².
const TWICE_FALL: u64 = 2 * 9_806_650;

/// Speed after a free fall from a height, in µm/s: v = √(2·g·h).
pub fn impact_speed(height: Micrometres) -> u32 {
    (TWICE_FALL * height.0.max(0) as u64).isqrt() as u32
}

/// Speed, and how far in all, of a lift that sinks.
type Sinking = (u32, i32);

fn sunk(speed: u32, elapsed: Micros) -> i32 {
    (u64::from(speed) * u64::from(elapsed.0) / 1_000_000).min(i32::MAX as u64) as i32
}

/// The first microsecond at which it has sunk so far.
fn time_to_sink(speed: u32, way: i32) -> Micros {
    let time = (way as u64 * 1_000_000).div_ceil(u64::from(speed.max(1)));
    Micros(time.min(u64::from(u32::MAX)) as u32)
}

impl Machine {
    fn drives_are_off(s: &State) -> bool {
        let aborted = matches!(s.unit, UnitState::Aborting | UnitState::Aborted);
        !s.powered || s.emergency || s.hatch_open || aborted
    }

    /// The drives let go of the lift when all axes have run down.
    fn hangs_on_its_brake(s: &State) -> bool {
        Machine::drives_are_off(s) && !s.moves() && !s.propped
    }

    fn worn_brake(&self, s: &State) -> Option<Sinking> {
        self.present(s).find_map(|fault| match fault {
            Fault::LiftSinks { speed, by } => Some((speed.0, by.0)),
            _ => None,
        })
    }

    /// How far this sinking goes in all, in µm.
    fn sinks_by(sink: Sink, (_, by): Sinking) -> i32 {
        by.min(sink.from.0)
    }

    /// How far it has sunk.
    fn sunk_now(sink: Sink, sinking: Sinking) -> i32 {
        sunk(sinking.0, sink.elapsed).min(Machine::sinks_by(sink, sinking))
    }

    /// Height of a lift that sinks or has sunk, in µm above its reference.
    #[inline]
    pub(crate) fn sunk_height(&self, s: &State) -> Option<Micrometres> {
        let (sink, sinking) = (s.faults.sink?, self.worn_brake(s)?);
        Some(sink.from - Micrometres(Machine::sunk_now(sink, sinking)))
    }

    /// Speed at which the lift sinks now, in µm/s; nought if it does not.
    pub fn sinking_speed(&self, s: &State) -> u32 {
        let Some((sink, sinking)) = s.faults.sink.zip(self.worn_brake(s)) else {
            return 0;
        };
        let ended = Machine::sunk_now(sink, sinking) == Machine::sinks_by(sink, sinking);
        if ended { 0 } else { sinking.0 }
    }

    /// Ways of this sinking, in µm, at which something happens: the lift leaves its class, a board
    /// across a mouth reaches a limit, the brake grips.
    fn sink_marks(&self, s: &State, sink: Sink, sinking: Sinking) -> [i32; 4] {
        let next_class = match s.lift_place {
            LiftPlace::At(_) => self.height(s.lift_place).0 - AT_SLOT_WITHIN - 1,
            LiftPlace::Above(slot) => self.height(LiftPlace::At(slot)).0 + AT_SLOT_WITHIN,
            LiftPlace::BelowFirst => AT_SLOT_WITHIN,
            LiftPlace::Reference => 0,
        };
        [
            sink.from.0 - next_class,
            self.parts.mouth_bent_after.0,
            self.parts.mouth_sheared_after.0,
            Machine::sinks_by(sink, sinking),
        ]
    }

    /// Time to the next event of a sinking lift.
    pub(crate) fn sink_next(&self, s: &State) -> Option<Micros> {
        let (sink, sinking) = (s.faults.sink?, self.worn_brake(s)?);
        let (now, end) = (
            Machine::sunk_now(sink, sinking),
            Machine::sinks_by(sink, sinking),
        );
        let marks = self.sink_marks(s, sink, sinking).into_iter();
        marks
            .filter(|&way| way > now && way <= end)
            .map(|way| time_to_sink(sinking.0, way) - sink.elapsed)
            .min()
    }

    /// Lets a sinking lift sink on.
    pub(crate) fn sink_on(&self, s: &mut State, span: Micros) {
        let Some(worn) = s.faults.sink.and_then(|_| self.worn_brake(s)) else {
            return;
        };
        if let Some(sink) = &mut s.faults.sink {
            // Once the brake grips, time does not count any more.
            let whole = time_to_sink(worn.0, Machine::sinks_by(*sink, worn));
            sink.elapsed = Micros(sink.elapsed.0.saturating_add(span.0)).min(whole);
        }
    }

    /// Begins, follows or ends what a bad brake lets the lift do. True if something changed.
    #[cold]
    #[inline(never)] // keeps the frame of `settle` small
    pub(crate) fn brake_due(&self, s: &mut State, hear: &mut Hear) -> bool {
        let hangs = Machine::hangs_on_its_brake(s);
        if hangs && self.present(s).any(|fault| fault == Fault::BrakeFails) {
            return self.fall(s, hear);
        }
        let Some(sinking) = self.worn_brake(s).filter(|_| hangs) else {
            return s.faults.sink.take().is_some();
        };
        let Some(sink) = s.faults.sink else {
            let from = self.height(s.lift_place);
            let elapsed = Micros(0);
            s.faults.sink = (from.0 > 0).then_some(Sink { from, elapsed });
            if from.0 > 0 {
                hear(Outcome::BrakeTicked);
            }
            return from.0 > 0;
        };
        let way = Machine::sunk_now(sink, sinking);
        self.cut_at_mouths(s, way, hear);
        let place = self.place_at(sink.from - Micrometres(way));
        if place == s.lift_place {
            return false;
        }
        s.lift_place = place;
        s.lift_from = self.height(place);
        hear(Outcome::LiftSank);
        true
    }

    /// The lift falls to its lowest place.
    fn fall(&self, s: &mut State, hear: &mut Hear) -> bool {
        s.faults.sink = None;
        let height = self.height(s.lift_place);
        if height.0 == 0 {
            return false;
        }
        self.cut_at_mouths(s, height.0, hear);
        s.lift_place = LiftPlace::Reference;
        s.lift_from = Micrometres(0);
        hear(Outcome::LiftSank);
        hear(Outcome::Harmed(Harm {
            kind: HarmKind::LiftFell,
            board: None,
            place: None,
            number: impact_speed(height) as i32,
            limit: 0,
        }));
        true
    }
}
