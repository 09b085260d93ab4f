//! What runs by itself towards an end of its own. Two that run at once are a race: which ends first
//! may decide what becomes of the boards.

use crate::{AxisName, Machine, State};
use rackproof_model::{Instants, Micros};

/// Something that ends by itself after a time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Timer {
    /// The lift moves.
    Lift,
    /// The rails move.
    Rails,
    /// The belts run.
    Belts,
    /// Machine Ready stays open before it may close again.
    ReadyOpen,
    /// Board Available stays open before it may close again.
    AvailableOpen,
    /// A board is waited for.
    Arrival,
    /// The width sensor is waited for.
    WidthSensor,
    /// The lift sinks on its brake.
    Sinking,
    /// The declare button is held: the person's own.
    Declare,
    /// The machine upstream works at its next board.
    Upstream,
    /// The machine downstream works at a board.
    Downstream,
    /// A fault comes at its time.
    Fault,
}

impl Timer {
    /// All timers with the names that files use.
    pub const ALL: [(&'static str, Timer); 12] = [
        ("Lift", Timer::Lift),
        ("Rails", Timer::Rails),
        ("Belts", Timer::Belts),
        ("ReadyOpen", Timer::ReadyOpen),
        ("AvailableOpen", Timer::AvailableOpen),
        ("Arrival", Timer::Arrival),
        ("WidthSensor", Timer::WidthSensor),
        ("Sinking", Timer::Sinking),
        ("Declare", Timer::Declare),
        ("Upstream", Timer::Upstream),
        ("Downstream", Timer::Downstream),
        ("Fault", Timer::Fault),
    ];

    /// The name that files use.
    pub fn name(self) -> &'static str {
        Timer::ALL[self as usize].0
    }

    /// Whether it is the person's: one of theirs may run beside one of the machine's.
    pub fn is_person(self) -> bool {
        self == Timer::Declare
    }
}

impl AxisName {
    /// All axes, each at the place of its number.
    pub const ALL: [AxisName; 3] = [AxisName::Lift, AxisName::Rails, AxisName::Belts];

    /// The timer that its motion is.
    pub fn timer(self) -> Timer {
        match self {
            AxisName::Lift => Timer::Lift,
            AxisName::Rails => Timer::Rails,
            AxisName::Belts => Timer::Belts,
        }
    }
}

impl Machine {
    /// The machine's own timers that run now, and the person's, in the order of [`Timer::ALL`].
    pub fn timers(&self, s: &State) -> impl Iterator<Item = Timer> + use<> {
        let runs = [
            !s.lift.is_rest(),
            !s.rails.is_rest(),
            !s.belts.is_rest(),
            s.ready_open_left.0 > 0,
            s.available_open_left.0 > 0,
            s.arrival_left.0 > 0,
            s.service.confirm_left.0 > 0,
            self.sink_next(s).is_some(),
            s.hold_left.0 > 0,
        ];
        let all = Timer::ALL.into_iter().zip(runs);
        all.filter_map(|((_, timer), runs)| runs.then_some(timer))
    }

    /// Adds the moments before the next event at which a stop of one axis comes out otherwise.
    pub fn critical_of(&self, s: &State, axis: AxisName, out: &mut Instants) {
        let Some(next) = self.next_event(s) else {
            return;
        };
        let mut found = |at: Micros| {
            if at.0 > 0 && at < next {
                out.push(at);
            }
        };
        match axis {
            AxisName::Lift => self.lift_critical(s, &mut found),
            AxisName::Rails => self.rails_critical(s, &mut found),
            AxisName::Belts => self.belts_critical(s, &mut found),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Board, Button, Half, HalfSlot, sample};

    #[test]
    fn each_timer_stands_where_its_number_says() {
        for (number, (name, timer)) in Timer::ALL.into_iter().enumerate() {
            assert_eq!((timer as usize, timer.name()), (number, name));
        }
        for (number, axis) in AxisName::ALL.into_iter().enumerate() {
            assert_eq!((axis as usize, axis.timer() as usize), (number, number));
        }
    }

    #[test]
    fn what_runs_is_listed_and_what_rests_is_not() {
        let machine = sample::machine();
        let mut s = machine.at_rest(sample::WREN);
        let quiet = &mut |_| {};
        let runs = |s: &State| machine.timers(s).collect::<Vec<_>>();
        let store = |s: &mut State, slot| {
            let half = Half::Outfeed;
            let at = HalfSlot { slot, half };
            assert!(machine.begin_stored(s, at, Board::good(sample::WREN), &mut |_| {}));
        };
        let start = |s: &mut State| {
            for button in [Button::Reset, Button::Start] {
                machine.press(s, button, &mut |_| {});
            }
        };
        assert_eq!(runs(&s), []);
        store(&mut s, 0);
        start(&mut s);
        // To the next free slot.
        assert_eq!(runs(&s), [Timer::Lift]);
        while let Some(next) = machine.next_event(&s) {
            machine.advance(&mut s, next, quiet);
        }
        assert!(s.board_available(), "it waits with its signal closed");
        machine.press(&mut s, Button::Stop, quiet);
        assert!(runs(&s).contains(&Timer::AvailableOpen));
        // A race: the signal's time is not over when the lift moves again.
        store(&mut s, 1);
        start(&mut s);
        assert_eq!(runs(&s)[0], Timer::Lift);
        assert!(runs(&s).contains(&Timer::AvailableOpen));
    }
}
