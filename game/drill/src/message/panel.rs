//! What the panel shows, in words.

use rackproof_buffer::{Alarm, AlarmState, Answer, Mode, Question, Refusal, Task, UnitState};

use super::{
    Argument, Message, at_half_slot, at_slot,
    service::{beyond_bounds, refused_button, refused_order},
};
use crate::World;

/// A unit state, by its name in the standard.
pub fn of_unit(unit: UnitState) -> Message {
    Message::plain(match unit {
        UnitState::Clearing => "unit-clearing",
        UnitState::Stopped => "unit-stopped",
        UnitState::Starting => "unit-starting",
        UnitState::Idle => "unit-idle",
        UnitState::Suspended => "unit-suspended",
        UnitState::Execute => "unit-execute",
        UnitState::Stopping => "unit-stopping",
        UnitState::Aborting => "unit-aborting",
        UnitState::Aborted => "unit-aborted",
        UnitState::Holding => "unit-holding",
        UnitState::Held => "unit-held",
        UnitState::Unholding => "unit-unholding",
        UnitState::Suspending => "unit-suspending",
        UnitState::Unsuspending => "unit-unsuspending",
        UnitState::Resetting => "unit-resetting",
        UnitState::Completing => "unit-completing",
        UnitState::Complete => "unit-complete",
    })
}

/// A mode.
pub fn of_mode(mode: Mode) -> Message {
    Message::plain(match mode {
        Mode::Production => "mode-production",
        Mode::Changeover => "mode-changeover",
        Mode::Manual => "mode-manual",
    })
}

/// A task.
pub fn of_task(task: Task) -> Message {
    Message::plain(match task {
        Task::None => "task-none",
        Task::Changeover => "task-changeover",
        Task::ClearOut => "task-clear-out",
    })
}

/// What the panel asks.
pub fn of_question(question: Question) -> Message {
    match question {
        Question::Rails => Message::plain("question-rails"),
        Question::Seen(slot) => at_slot("question-seen", slot),
        Question::Take(slot) => at_slot("question-take", slot),
        Question::Answer(slot) => at_slot("question-answer", slot),
        Question::Arrival(slot) => at_slot("question-arrival", slot),
        Question::AnswerHalf(at) => at_half_slot("question-answer-half", at),
        Question::Confirmation => Message::plain("question-confirmation"),
    }
}

/// A person's answer for a slot.
pub fn of_answer(answer: Answer) -> Message {
    Message::plain(match answer {
        Answer::Taken => "answer-taken",
        Answer::SeenEmpty => "answer-seen-empty",
        Answer::NotSure => "answer-not-sure",
    })
}

/// Why a command had no effect.
pub fn of_refusal(world: &World, refusal: Refusal) -> Message {
    Message::plain(match refusal {
        Refusal::State(unit) => {
            let unit = Argument::Id(of_unit(unit).id);
            return Message::with("refusal-state", [("unit", unit)]);
        }
        Refusal::Button(command, unit) => return refused_button(command, unit),
        Refusal::EmergencyLatched => "refusal-emergency-latched",
        Refusal::HatchOpen => "refusal-hatch-open",
        Refusal::NoTask => "refusal-no-task",
        Refusal::NoProduct => "refusal-no-product",
        Refusal::MapNotEmpty => "refusal-map-not-empty",
        Refusal::MapUnknown => "refusal-map-unknown",
        Refusal::BoardSeen => "refusal-board-seen",
        Refusal::Mode => "refusal-mode",
        Refusal::Question => "refusal-question",
        Refusal::Reference => "refusal-reference",
        Refusal::Key => "refusal-key",
        Refusal::WidthBeyondTravel => {
            let parts = world.machine().parts();
            let bounds = [
                (
                    "least",
                    Argument::Length(parts.width_least - parts.side_play),
                ),
                ("most", Argument::Length(parts.width_most - parts.side_play)),
            ];
            return Message::with("refusal-width-beyond-travel", bounds);
        }
        Refusal::Order(command, unit) => return refused_order(world, command, unit),
        Refusal::BoardOnItsWay => "refusal-board-on-its-way",
        Refusal::ModeAlready => "refusal-mode-already",
        Refusal::Manual => "refusal-manual",
        Refusal::SetterOnly => "refusal-setter-only",
        Refusal::SettingBeyondBounds(setting) => return beyond_bounds(world, setting),
        Refusal::NotFitted => "refusal-not-fitted",
        Refusal::BoardTooLong => {
            let most = Argument::Length(world.machine().longest_board());
            return Message::with("refusal-board-too-long", [("most", most)]);
        }
        Refusal::WidthNotReached => "refusal-width-not-reached",
    })
}

/// An alarm.
pub fn of_alarm(alarm: Alarm) -> Message {
    Message::plain(match alarm {
        Alarm::EmergencyStop => "alarm-emergency-stop",
        Alarm::HatchOpened => "alarm-hatch-opened",
        Alarm::BoardSeen => "alarm-board-seen",
        Alarm::NoArrival => "alarm-no-arrival",
        Alarm::RailsNoZero => "alarm-rails-no-zero",
        Alarm::LiftDrive => "alarm-lift-drive",
        Alarm::NoConfirmation => "alarm-no-confirmation",
    })
}

/// What an alarm means, and what to do.
pub fn of_alarm_action(alarm: Alarm) -> Message {
    Message::plain(match alarm {
        Alarm::EmergencyStop => "alarm-action-emergency-stop",
        Alarm::HatchOpened => "alarm-action-hatch-opened",
        Alarm::BoardSeen => "alarm-action-board-seen",
        Alarm::NoArrival => "alarm-action-no-arrival",
        Alarm::RailsNoZero => "alarm-action-rails-no-zero",
        Alarm::LiftDrive => "alarm-action-lift-drive",
        Alarm::NoConfirmation => "alarm-action-no-confirmation",
    })
}

/// The state of an alarm.
pub fn of_alarm_state(state: AlarmState) -> Message {
    Message::plain(match state {
        AlarmState::Normal => "alarm-state-normal",
        AlarmState::Unacknowledged => "alarm-state-unacknowledged",
        AlarmState::Acknowledged => "alarm-state-acknowledged",
        AlarmState::Returned => "alarm-state-returned",
        AlarmState::LatchedUnacknowledged => "alarm-state-latched-unacknowledged",
        AlarmState::LatchedAcknowledged => "alarm-state-latched-acknowledged",
    })
}
