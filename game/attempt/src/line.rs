//! How long the line stood.

use rackproof_buffer::{self as buffer, Mode, UnitState};
use rackproof_drill::{Outcome, Sign};
use rackproof_grade::JudgedOutcome;

use crate::Attempt;

/// How long the line stood so far: all time in which the unit was not at work in Production, in µs.
pub fn line_down(attempt: &Attempt) -> u64 {
    let (mut unit, mut mode) = {
        let start = attempt.judged().start().world.machine;
        (start.unit(), start.mode())
    };
    let (mut down, mut since) = (0, 0);
    let runs = |unit, mode| unit == UnitState::Execute && mode == Mode::Production;
    for heard in attempt.heard() {
        let JudgedOutcome::World(Outcome::Sign(Sign::Machine(sign))) = &heard.outcome else {
            continue;
        };
        if !runs(unit, mode) {
            down += heard.at - since;
        }
        since = heard.at;
        match sign.shown() {
            buffer::Outcome::UnitChanged(changed) => unit = changed,
            buffer::Outcome::ModeChanged(changed) => mode = changed,
            _ => {}
        }
    }
    if runs(unit, mode) {
        down
    } else {
        down + (attempt.at() - since)
    }
}
