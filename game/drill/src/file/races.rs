//! Which of the machine's timers may run at once.

use rackproof_buffer::Timer;
use rackproof_files::{Fields, Kind, Report, Value};

/// The pairs, each with the timer first that stands first in their list. None is named: there are
/// none.
pub(super) fn read_races(fields: &Fields<'_>) -> Option<Vec<(Timer, Timer)>> {
    fields.optional("races", Vec::new(), |value, report| {
        report.each(value, read_race)
    })
}

/// `Both(Lift, ReadyOpen)`.
fn read_race(value: &Value, report: Report<'_>) -> Option<(Timer, Timer)> {
    let pair = match &value.kind {
        Kind::Tagged(name, pair) if name == "Both" && pair.len() == 2 => pair,
        _ => {
            report
                .add(value.place, "problem-race", &[])
                .expected("expected-race", &[]);
            return None;
        }
    };
    let [one, other] = [0, 1].map(|at| report.choice(&pair[at], &Timer::ALL));
    let (one, other) = (one?, other?);
    if one == other || one.is_person() || other.is_person() {
        report
            .add(value.place, "problem-race-none", &[])
            .hint("hint-race-none", &[]);
        return None;
    }
    Some((one.min(other), one.max(other)))
}
