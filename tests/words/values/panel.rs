//! What the panel can be asked to say of alarms, refusals, settings and products.

use rackproof_buffer::{
    Alarm, AlarmState, Command, Level, Priority, Refusal, Saved, Setting, UnitState,
};
use rackproof_drill::WidthSlip;
use rackproof_model::{Micrometres, Micros};

pub(crate) fn alarms() -> [Alarm; 7] {
    every!(
        Alarm: EmergencyStop, HatchOpened, BoardSeen, NoArrival, RailsNoZero, LiftDrive,
        NoConfirmation,
    )
}

pub(crate) fn refusals() -> Vec<Refusal> {
    no_other!(
        Refusal: State, Button, EmergencyLatched, HatchOpen, NoTask, NoProduct, MapNotEmpty,
        MapUnknown, BoardSeen, Mode, Question, Reference, Key, WidthBeyondTravel, WidthNotReached,
        Order, BoardOnItsWay, ModeAlready, Manual, SetterOnly, SettingBeyondBounds, NotFitted,
        BoardTooLong,
    );
    let mut refusals = vec![
        Refusal::EmergencyLatched,
        Refusal::HatchOpen,
        Refusal::NoTask,
        Refusal::NoProduct,
        Refusal::MapNotEmpty,
        Refusal::MapUnknown,
        Refusal::BoardSeen,
        Refusal::Mode,
        Refusal::Question,
        Refusal::Reference,
        Refusal::Key,
        Refusal::WidthBeyondTravel,
        Refusal::WidthNotReached,
        Refusal::BoardOnItsWay,
        Refusal::ModeAlready,
        Refusal::Manual,
        Refusal::SetterOnly,
        Refusal::NotFitted,
        Refusal::BoardTooLong,
    ];
    let orders = Command::ALL.map(|command| Refusal::Order(command, UnitState::Idle));
    refusals.extend(orders);
    let buttons = [Command::Start, Command::Stop, Command::Reset];
    refusals.extend(buttons.map(|command| Refusal::Button(command, UnitState::Idle)));
    refusals.extend(UnitState::ALL.map(Refusal::State));
    refusals.extend(settings().into_iter().map(Refusal::SettingBeyondBounds));
    refusals
}

/// Each setting, with every value that reads otherwise.
pub(crate) fn settings() -> Vec<Setting> {
    no_other!(
        Setting: SlotCount, WidthOffset, SidePlay, Signals, Priority, WidthCheck, ConfirmWithin,
    );
    let mut settings = vec![
        Setting::SlotCount(1),
        Setting::SlotCount(12),
        Setting::WidthOffset(Micrometres(-500)),
        Setting::SidePlay(Micrometres(800)),
        Setting::ConfirmWithin(Micros(0)),
        Setting::ConfirmWithin(Micros(30_000_000)),
    ];
    let priorities = every!(Priority: Filling, Emptying);
    settings.extend(priorities.map(Setting::Priority));
    settings.extend([true, false].map(Setting::Signals));
    settings.extend([true, false].map(Setting::WidthCheck));
    settings
}

pub(crate) fn alarm_states() -> [AlarmState; 6] {
    every!(
        AlarmState: Normal, Unacknowledged, Acknowledged, Returned, LatchedUnacknowledged,
        LatchedAcknowledged,
    )
}

pub(crate) fn saved() -> Vec<Option<Saved>> {
    let saved = every!(Level: Operator, Setter).map(|by| Some(Saved { by, order: 2 }));
    saved.into_iter().chain([None]).collect()
}

pub(crate) fn slips() -> [WidthSlip; 5] {
    no_other!(WidthSlip: DecimalPoint, Tenths, Inch, Digits, Neighbour);
    [
        WidthSlip::DecimalPoint,
        WidthSlip::Tenths,
        WidthSlip::Inch,
        WidthSlip::Digits,
        WidthSlip::Neighbour(0),
    ]
}
