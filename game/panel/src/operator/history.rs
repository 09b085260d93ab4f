//! What the panel remembers since it came up: from signs alone.

use rackproof_attempt::Heard;
use rackproof_buffer::{Alarm, Outcome, Question, Refusal, Task, UnitState};
use rackproof_drill::{self as drill, Sign, message::Message, message::of_sign};
use rackproof_grade::JudgedOutcome;

use super::Operator;

/// What the machine showed, with its time, newest first.
fn all(heard: &[Heard]) -> impl Iterator<Item = (u64, Sign, Outcome)> {
    heard.iter().rev().filter_map(|heard| match heard.outcome {
        JudgedOutcome::World(drill::Outcome::Sign(sign @ Sign::Machine(shown))) => {
            Some((heard.at, sign, shown.shown()))
        }
        _ => None,
    })
}

/// The same since the panel came up.
fn since_power(heard: &[Heard]) -> impl Iterator<Item = (u64, Sign, Outcome)> {
    all(heard).take_while(|(_, _, shown)| !matches!(shown, Outcome::Powered(_)))
}

/// The id of the last command that had an effect.
pub(super) fn last_command(heard: &[Heard]) -> Option<&'static str> {
    let mut signs = since_power(heard).map(|(_, _, shown)| shown).peekable();
    while let Some(shown) = signs.next() {
        // An answer brings the unit back to work as Start does.
        let by_answer = matches!(signs.peek(), Some(Outcome::Answered(..)));
        match command_of(shown) {
            Some("operator-start") if by_answer => {}
            Some(id) => return Some(id),
            None => {}
        }
    }
    None
}

fn command_of(shown: Outcome) -> Option<&'static str> {
    match shown {
        Outcome::UnitChanged(UnitState::Starting | UnitState::Unholding) => Some("operator-start"),
        Outcome::UnitChanged(UnitState::Stopping) => Some("operator-stop"),
        Outcome::UnitChanged(UnitState::Resetting) => Some("operator-reset"),
        Outcome::UnitChanged(UnitState::Clearing) => Some("operator-clear"),
        Outcome::UnitChanged(UnitState::Aborting) => Some("operator-abort"),
        Outcome::ModeChanged(_) => Some("operator-mode"),
        Outcome::ProductChosen(_) => Some("operator-choose"),
        Outcome::ProductLoaded(_) => Some("operator-load"),
        Outcome::TaskChanged(Task::ClearOut) => Some("operator-clear-out"),
        Outcome::Answered(..) | Outcome::AnsweredHalf(..) => Some("operator-answer"),
        Outcome::WidthTyped(_) => Some("operator-typed"),
        Outcome::ProductSaved(_) => Some("operator-saved"),
        Outcome::SettingChanged(_) => Some("operator-set"),
        Outcome::DeclaredEmpty => Some("operator-declare"),
        _ => None,
    }
}

/// What the machine confirmed last, in a few words.
pub(super) fn confirmed(operator: Operator<'_, '_>) -> Option<String> {
    since_power(operator.view.heard).find_map(|(_, _, shown)| confirmed_of(operator, shown))
}

fn confirmed_of(operator: Operator<'_, '_>, shown: Outcome) -> Option<String> {
    let product = |id, number| {
        let name = drill::message::product_name(operator.view.world, number);
        Some(operator.say_with(id, &[("product", name.into())]))
    };
    let powerless = operator.shown.emergency || operator.shown.hatch_open;
    match shown {
        Outcome::UnitChanged(UnitState::Aborted) if powerless => {
            Some(operator.say("operator-axes-without-power"))
        }
        Outcome::UnitChanged(unit) if unit.when_done().is_none() || unit == UnitState::Execute => {
            Some(operator.message(&drill::message::of_unit(unit)))
        }
        Outcome::Asked(Question::Answer(slot) | Question::Take(slot)) => {
            Some(operator.slot("operator-slot-in-place", slot))
        }
        Outcome::Answered(slot, _) => Some(operator.slot("operator-slot-answered", slot)),
        Outcome::ProductChosen(number) => product("operator-product-chosen", number),
        Outcome::ProductLoaded(number) => product("operator-product-loaded", number),
        Outcome::ModeChanged(mode) => Some(operator.message(&drill::message::of_mode(mode))),
        Outcome::DeclaredEmpty => Some(operator.say("operator-map-set-empty")),
        Outcome::ReferenceFound => Some(operator.say("operator-reference-found")),
        Outcome::WidthReached => Some(operator.say("operator-width-reached")),
        _ => None,
    }
}

/// Why the last command had no effect, while nothing was shown since and the cause still holds.
pub(super) fn refusal(operator: Operator<'_, '_>) -> Option<Refusal> {
    let last = since_power(operator.view.heard)
        .map(|(_, _, shown)| shown)
        .find(|shown| !beside_the_point(*shown))?;
    let Outcome::Refused(refusal) = last else {
        return None;
    };
    let holds = match refusal {
        Refusal::EmergencyLatched => operator.shown.emergency,
        Refusal::HatchOpen => operator.shown.hatch_open,
        Refusal::Key | Refusal::SetterOnly => !operator.view.around.key_turned,
        _ => true,
    };
    holds.then_some(refusal)
}

/// What goes on whatever was pressed.
fn beside_the_point(shown: Outcome) -> bool {
    matches!(
        shown,
        Outcome::Started(_)
            | Outcome::Stopped(_)
            | Outcome::MachineReady(_)
            | Outcome::BoardAvailable(_)
    )
}

/// The text that was shown last and stands nowhere else.
pub(super) fn shown_last(operator: Operator<'_, '_>) -> Option<Message> {
    since_power(operator.view.heard)
        .filter(|(_, _, shown)| tells(*shown))
        .find_map(|(_, sign, _)| of_sign(operator.view.world, &sign))
}

/// Whether it stands nowhere else on the panel.
fn tells(shown: Outcome) -> bool {
    matches!(
        shown,
        Outcome::SweepSaw(_)
            | Outcome::SweepSawNothing
            | Outcome::Answered(..)
            | Outcome::ClearedOut
            | Outcome::DeclaredEmpty
            | Outcome::ProductChosen(_)
            | Outcome::ProductLoaded(_)
            | Outcome::ReferenceFound
            | Outcome::ReferenceLost
            | Outcome::WidthReached
            | Outcome::BoardStored(_)
            | Outcome::BoardSent(_)
            | Outcome::BoardPassed(_)
            | Outcome::BoardRanPast(_)
            | Outcome::BoardReachedEnd(_)
            | Outcome::AnsweredHalf(..)
            | Outcome::WidthTyped(_)
            | Outcome::ProductSaved(_)
            | Outcome::SettingChanged(_)
            | Outcome::WaitsForWidth
    )
}

/// When an alarm came last, in µs.
pub(super) fn came(heard: &[Heard], alarm: Alarm) -> Option<u64> {
    all(heard).find_map(|(at, _, shown)| (shown == Outcome::Alarmed(alarm)).then_some(at))
}

/// What the last sweep saw: its text, and the slot if it saw a board.
pub(super) fn sweep(operator: Operator<'_, '_>) -> Option<(Message, Option<u8>)> {
    since_power(operator.view.heard).find_map(|(_, sign, shown)| {
        let slot = match shown {
            Outcome::SweepSaw(slot) => Some(slot),
            Outcome::SweepSawNothing => None,
            _ => return None,
        };
        of_sign(operator.view.world, &sign).map(|text| (text, slot))
    })
}

/// The slot whose board reached the outfeed beam last.
pub(super) fn reached_end(heard: &[Heard]) -> Option<u8> {
    since_power(heard).find_map(|(_, _, shown)| match shown {
        Outcome::BoardReachedEnd(slot) => Some(slot),
        _ => None,
    })
}
