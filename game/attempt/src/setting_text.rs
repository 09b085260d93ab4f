//! Machine settings and commands of the standard as text: `SlotCount(12)`, `WidthOffset(-0.5)`.

use rackproof_buffer::{Command, Priority, Setting};
use rackproof_files::{Bound, Report, Value};
use rackproof_model::{Micrometres, Micros};

const COUNT: Bound = Bound::whole("slot_count", "slots", 0, 64, "slots that are counted");
const LENGTH: Bound = Bound::millimetres("length", -2_000_000, 2_000_000, "a length that is typed");
const TIME: Bound = Bound::seconds("time", 0, 3_600_000_000, "a time that is typed");
const PRIORITIES: [(&str, Priority); 2] = [
    ("Filling", Priority::Filling),
    ("Emptying", Priority::Emptying),
];

/// Which setting it is.
#[derive(Clone, Copy)]
enum Form {
    SlotCount,
    WidthOffset,
    SidePlay,
    Signals,
    Priority,
    WidthCheck,
    ConfirmWithin,
}

const FORMS: [(&str, Form); 7] = [
    ("SlotCount", Form::SlotCount),
    ("WidthOffset", Form::WidthOffset),
    ("SidePlay", Form::SidePlay),
    ("Signals", Form::Signals),
    ("Priority", Form::Priority),
    ("WidthCheck", Form::WidthCheck),
    ("ConfirmWithin", Form::ConfirmWithin),
];

/// A setting as files write it.
pub(crate) fn setting_text(setting: Setting) -> String {
    let length = |name: &str, length: Micrometres| {
        format!("{name}({})", LENGTH.written(i64::from(length.0)))
    };
    match setting {
        Setting::SlotCount(count) => format!("SlotCount({count})"),
        Setting::WidthOffset(offset) => length("WidthOffset", offset),
        Setting::SidePlay(play) => length("SidePlay", play),
        Setting::Signals(read) => format!("Signals({read})"),
        Setting::Priority(first) => format!("Priority({first:?})"),
        Setting::WidthCheck(waits) => format!("WidthCheck({waits})"),
        Setting::ConfirmWithin(time) => {
            format!("ConfirmWithin({})", TIME.written(i64::from(time.0)))
        }
    }
}

/// The setting that a value says.
pub(crate) fn read_setting(value: &Value, report: Report<'_>) -> Option<Setting> {
    let form = report.variant(value, &FORMS)?;
    let [one] = report.values::<1>(value)?;
    let length = || report.micrometres(one, &LENGTH).map(Micrometres);
    match form {
        Form::SlotCount => {
            let count = report.integer(one, &COUNT)?;
            Some(Setting::SlotCount(u8::try_from(count).ok()?))
        }
        Form::WidthOffset => length().map(Setting::WidthOffset),
        Form::SidePlay => length().map(Setting::SidePlay),
        Form::Signals => report.flag(one).map(Setting::Signals),
        Form::Priority => report.choice(one, &PRIORITIES).map(Setting::Priority),
        Form::WidthCheck => report.flag(one).map(Setting::WidthCheck),
        Form::ConfirmWithin => {
            let time = report.micros(one, &TIME)?;
            Some(Setting::ConfirmWithin(Micros(time)))
        }
    }
}

/// A command's name as files write it.
pub(crate) fn command_name(command: Command) -> &'static str {
    match command {
        Command::Reset => "Reset",
        Command::Start => "Start",
        Command::Stop => "Stop",
        Command::Hold => "Hold",
        Command::Unhold => "Unhold",
        Command::Suspend => "Suspend",
        Command::Unsuspend => "Unsuspend",
        Command::Abort => "Abort",
        Command::Clear => "Clear",
        Command::Complete => "Complete",
    }
}

#[cfg(test)]
mod tests {
    use rackproof_buffer::Button;
    use rackproof_drill::{Cause, Intent};

    use super::*;
    use crate::notation::{cause_text, parse_cause};
    use crate::sample;

    #[test]
    fn every_setting_and_command_is_written_and_read_back() {
        let exercise = sample::exercise();
        let judged = exercise.judged(0).expect("it has variants");
        let settings = [
            (Setting::SlotCount(12), "Set(SlotCount(12))"),
            (
                Setting::WidthOffset(Micrometres(-500)),
                "Set(WidthOffset(-0.5))",
            ),
            (Setting::SidePlay(Micrometres(1_200)), "Set(SidePlay(1.2))"),
            (Setting::Signals(false), "Set(Signals(false))"),
            (
                Setting::Priority(Priority::Emptying),
                "Set(Priority(Emptying))",
            ),
            (Setting::WidthCheck(true), "Set(WidthCheck(true))"),
            (
                Setting::ConfirmWithin(Micros::from_seconds(30)),
                "Set(ConfirmWithin(30))",
            ),
        ];
        let settings = settings.map(|(setting, text)| (Button::Set(setting), text.to_owned()));
        let commands = Command::ALL.map(|command| {
            (
                Button::Order(command),
                format!("Order({})", command_name(command)),
            )
        });
        for (button, text) in settings.into_iter().chain(commands) {
            let cause = Cause::Did(Intent::Press(button));
            assert_eq!(cause_text(judged.world(), cause), text);
            assert_eq!(parse_cause(judged.world(), &text), Some(cause), "{text}");
        }
    }
}
