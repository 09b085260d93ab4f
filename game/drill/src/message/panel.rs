//! What the panel shows, in words.

use rackproof_buffer::{Alarm, Answer, Mode, Question, Refusal, Task, UnitState};

use super::{Argument, Message, at_slot};
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
        Refusal::State => "refusal-state",
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
    })
}
