//! What a drill file says of what was left behind: settings that somebody changed, a clear-out that
//! the shift before did not end.

use rackproof_buffer::{Answer, Machine, Priority, Setting};
use rackproof_files::{Fields, Report, Value};
use rackproof_model::{Micrometres, Micros};

use super::bounds;
use crate::Left;

/// Settings as the drill begins. What the machine would refuse is a problem.
pub(super) fn read_settings(
    value: &Value,
    report: Report<'_>,
    machine: &Machine,
) -> Option<Vec<Setting>> {
    let fields = Fields::of(value, "Settings", report)?;
    let count = fields.optional("slot_count", None, |value, report| {
        let count = report.integer(value, &bounds::SLOTS)?;
        Some(Some(Setting::SlotCount(count as u8)))
    });
    let length = |field, bound, make: fn(Micrometres) -> Setting| {
        fields.optional(field, None, |value, report| {
            let length = report.micrometres(value, bound)?;
            Some(Some(make(Micrometres(length))))
        })
    };
    let offset = length(
        "width_offset_mm",
        &bounds::WIDTH_OFFSET,
        Setting::WidthOffset,
    );
    let play = length("side_play_mm", &bounds::SIDE_PLAY, Setting::SidePlay);
    let flag = |field, make: fn(bool) -> Setting| {
        fields.optional(field, None, |value, report| {
            report.flag(value).map(|is| Some(make(is)))
        })
    };
    let signals = flag("signals", Setting::Signals);
    let check = flag("width_check", Setting::WidthCheck);
    let priority = fields.optional("priority", None, |value, report| {
        let choices = [
            ("Filling", Priority::Filling),
            ("Emptying", Priority::Emptying),
        ];
        let first = report.choice(value, &choices)?;
        Some(Some(Setting::Priority(first)))
    });
    let confirm = fields.optional("confirm_within_s", None, |value, report| {
        let time = report.micros(value, &bounds::CONFIRM)?;
        Some(Some(Setting::ConfirmWithin(Micros(time))))
    });
    let place = fields.place();
    fields.finish();
    let found = [
        count?, offset?, play?, signals?, priority?, check?, confirm?,
    ];
    let settings: Vec<Setting> = found.into_iter().flatten().collect();
    for setting in &settings {
        if machine.check_setting(*setting).is_err() {
            report
                .add(place, "problem-setting-refused", &[])
                .expected("expected-setting", &[("slots", &machine.slots())]);
        }
    }
    Some(settings)
}

/// A clear-out that was left half done. Slots count from 1 in files.
pub(super) fn read_left(value: &Value, report: Report<'_>, machine: &Machine) -> Option<Left> {
    let fields = Fields::of(value, "Left", report)?;
    let by = fields.text("by");
    let said = fields.each("said", |value, report| {
        let said = Fields::of(value, "Said", report)?;
        let slot = said
            .value("slot")
            .and_then(|it| slot_of(it, report, machine));
        let answer = said.choice(
            "answer",
            &[
                ("Taken", Answer::Taken),
                ("SeenEmpty", Answer::SeenEmpty),
                ("NotSure", Answer::NotSure),
            ],
        );
        said.finish();
        Some((slot?, answer?))
    });
    let asked = fields.optional("asked", None, |value, report| {
        slot_of(value, report, machine).map(Some)
    });
    let place = fields.place();
    fields.finish();
    let (said, asked) = (said?, asked?);
    let sure = |slot: u8| {
        said.iter()
            .any(|&(at, it)| at == slot && it != Answer::NotSure)
    };
    if let Some(slot) = asked.filter(|slot| sure(*slot)) {
        let number = slot + 1;
        report.add(place, "problem-asked-answered", &[("slot", &number)]);
    }
    Some(Left {
        by: by?,
        said,
        asked,
    })
}

fn slot_of(value: &Value, report: Report<'_>, machine: &Machine) -> Option<u8> {
    let slot = report.integer(value, &bounds::SLOT)?;
    if slot > i64::from(machine.slots()) {
        report
            .add(value.place, "problem-slot-beyond-rack", &[("slot", &slot)])
            .expected("expected-slot", &[("most", &machine.slots())]);
        return None;
    }
    Some(slot as u8 - 1)
}
