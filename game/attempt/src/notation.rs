//! Causes as text: what journals and kept attempts write. Slots count from 1, products and boards
//! go by their names.

use rackproof_buffer::{Answer, Button, Command, Half, HalfSlot, Mode};
use rackproof_drill::{Aim, Cause, Chance, Intent, IntentKind, Stand, Tray, World};
use rackproof_files::{Bound, Kind, Problems, Report, Value, nearest, read};
use rackproof_model::Micrometres;

use crate::setting_text::{command_name, read_setting, setting_text};

const SLOT: Bound = Bound::whole("slot", "", 1, 64, "a slot, counted from 1 at the bottom");
const WIDTH: Bound = Bound::millimetres("width", 0, 2_000_000, "a width that is typed");

const HALVES: [(&str, Half); 2] = [("Infeed", Half::Infeed), ("Outfeed", Half::Outfeed)];
const CHANCES: [(&str, Chance); 6] = [
    ("UpstreamLaysBoard", Chance::UpstreamLaysBoard),
    ("UpstreamOffersBoard", Chance::UpstreamOffersBoard),
    ("DownstreamMakesRoom", Chance::DownstreamMakesRoom),
    ("UpstreamDrops", Chance::UpstreamDrops),
    ("DownstreamDrops", Chance::DownstreamDrops),
    ("UpstreamGivesTwo", Chance::UpstreamGivesTwo),
];

/// Every intent that is its name alone.
const PLAIN: &[Intent] = &[
    Intent::TestStraps,
    Intent::Look(Aim::LeanInfeed),
    Intent::Look(Aim::LeanOutfeed),
    Intent::Look(Aim::Mouth),
    Intent::OpenHatch,
    Intent::ShutHatch,
    Intent::PlugCord,
    Intent::UnplugCord,
    Intent::SetProp,
    Intent::RemoveProp,
    Intent::IsolatorOff,
    Intent::IsolatorOn,
    Intent::LockOn,
    Intent::LockOff,
    Intent::TryStart,
    Intent::HandIn,
    Intent::HandOut,
    Intent::TakeFromBelt,
    Intent::TakeFromMouth,
    Intent::PutDown(Tray::Good),
    Intent::PutDown(Tray::Quarantine),
    Intent::PutDown(Tray::Scrap),
    Intent::PressEmergency,
    Intent::ReleaseEmergency,
    Intent::KeyIn,
    Intent::KeyOut,
    Intent::Press(Button::Start),
    Intent::Press(Button::Stop),
    Intent::Press(Button::Reset),
    Intent::Press(Button::Mode(Mode::Production)),
    Intent::Press(Button::Mode(Mode::Changeover)),
    Intent::Press(Button::Mode(Mode::Manual)),
    Intent::Press(Button::Save),
    Intent::Press(Button::Load),
    Intent::Press(Button::ClearOut),
    Intent::Press(Button::Answer(Answer::Taken)),
    Intent::Press(Button::Answer(Answer::SeenEmpty)),
    Intent::Press(Button::Answer(Answer::NotSure)),
    Intent::Press(Button::HoldDeclare),
    Intent::Press(Button::LetGoDeclare),
    Intent::Press(Button::Acknowledge),
    Intent::AskUpstreamHold,
    Intent::LetUpstreamGo,
    Intent::AskDownstreamHold,
    Intent::LetDownstreamGo,
    Intent::CallLead,
    Intent::WearGloves,
    Intent::ClearScrew,
    Intent::WipeLenses,
    Intent::ClearPlug,
    Intent::WriteLog,
    Intent::Report,
];

/// How a cause is written.
#[derive(Clone, Copy)]
pub(crate) enum Form {
    /// Its name alone.
    Plain(Intent),
    /// `Name(value)`, of this kind.
    With(IntentKind),
    /// `Chose(chance)`.
    Chose,
}

/// All forms with their names.
pub(crate) fn forms() -> Vec<(&'static str, Form)> {
    let form = |&(name, kind): &(&'static str, IntentKind)| {
        let plain = PLAIN.iter().find(|intent| intent.kind() == kind);
        (
            name,
            plain.map_or(Form::With(kind), |plain| Form::Plain(*plain)),
        )
    };
    let mut forms: Vec<_> = IntentKind::ALL.iter().map(form).collect();
    forms.push(("Chose", Form::Chose));
    forms
}

/// The name of a kind of intent, as files write it.
pub fn kind_name(kind: IntentKind) -> &'static str {
    let known = IntentKind::ALL.iter().find(|(_, known)| *known == kind);
    known.map_or("", |(name, _)| name)
}

fn name_in<T: PartialEq>(list: &[(&'static str, T)], wanted: &T) -> &'static str {
    let found = list.iter().find(|(_, known)| known == wanted);
    found.map_or("", |(name, _)| name)
}

/// `5, Outfeed`.
pub(crate) fn half_slot_text(at: HalfSlot) -> String {
    format!("{}, {}", u32::from(at.slot) + 1, name_in(&HALVES, &at.half))
}

/// An intent as files write it: `Take(5, Outfeed)`.
pub fn intent_text(world: &World, intent: Intent) -> String {
    let name = kind_name(intent.kind());
    match intent {
        Intent::Walk(stand) => format!("{name}({})", name_in(&Stand::ALL, &stand)),
        Intent::Torch(lit) => format!("{name}({lit})"),
        Intent::Take(at) | Intent::PutIn(at) => format!("{name}({})", half_slot_text(at)),
        Intent::Press(Button::Choose(product)) => {
            let names = &world.hall().product_names;
            let product = names.get(usize::from(product)).map_or("", String::as_str);
            format!("{name}(\"{product}\")")
        }
        Intent::Press(Button::EditWidth(width)) => {
            format!("{name}({})", WIDTH.written(i64::from(width.0)))
        }
        Intent::Press(Button::SaveOver(product)) => {
            let names = &world.hall().product_names;
            let product = names.get(usize::from(product)).map_or("", String::as_str);
            format!("{name}(\"{product}\")")
        }
        Intent::Press(Button::Set(setting)) => format!("{name}({})", setting_text(setting)),
        Intent::Press(Button::Order(command)) => format!("{name}({command:?})"),
        _ => name.to_owned(),
    }
}

/// A cause as files write it: an intent, `Chose(UpstreamLaysBoard)`, or a fault that came by its
/// name: `Chose(FaultComes("strip"))`.
pub fn cause_text(world: &World, cause: Cause) -> String {
    match cause {
        Cause::Did(intent) => intent_text(world, intent),
        Cause::Chose(chance) => format!("Chose({})", chance_text(world, chance)),
    }
}

/// What the environment chose, as files write it: `UpstreamDrops`, `FaultComes("strip")`.
pub fn chance_text(world: &World, chance: Chance) -> String {
    match chance {
        Chance::FaultComes(number) => {
            let fault = world.faults().nth(usize::from(number));
            let name = fault.map_or("", |fault| fault.id.as_str());
            fault_comes_text(name)
        }
        chance => name_in(&CHANCES, &chance).to_owned(),
    }
}

/// That a fault comes by chance, by the fault's name.
pub fn fault_comes_text(name: &str) -> String {
    format!("FaultComes(\"{name}\")")
}

/// The cause that a text says, or `None` if it says none.
pub fn parse_cause(world: &World, text: &str) -> Option<Cause> {
    let problems = Problems::new();
    let report = problems.for_file("", text);
    let cause = read_cause(&read(report)?, report, world)?;
    problems.is_empty().then_some(cause)
}

/// The cause that a value of a file says. What does not fit is reported.
pub fn read_cause(value: &Value, report: Report<'_>, world: &World) -> Option<Cause> {
    let forms = forms();
    let form = report.variant(value, &forms)?;
    match form {
        Form::Plain(intent) => {
            let name = kind_name(intent.kind());
            report.choice(value, &[(name, Cause::Did(intent))])
        }
        Form::With(kind) => read_with(value, kind, report, world).map(Cause::Did),
        Form::Chose => {
            let [chance] = report.values::<1>(value)?;
            read_chance(chance, report, world).map(Cause::Chose)
        }
    }
}

fn read_chance(value: &Value, report: Report<'_>, world: &World) -> Option<Chance> {
    let chances = CHANCES.map(|(name, chance)| (name, Some(chance)));
    let mut chances = chances.to_vec();
    chances.push(("FaultComes", None));
    if report.variant(value, &chances)?.is_some() {
        return report.choice(value, &CHANCES);
    }
    let [name] = report.values::<1>(value)?;
    let text = report.text(name)?;
    let names: Vec<&str> = world.faults().map(|fault| fault.id.as_str()).collect();
    let found = names.iter().position(|known| *known == text);
    if found.is_none() {
        report
            .add(name.place, "problem-unknown-name", &[("name", &text)])
            .expected("expected-one-of", &[("names", &names.join(", "))])
            .did_you_mean(nearest(text, names));
    }
    found.map(|number| Chance::FaultComes(number as u8))
}

fn read_with(value: &Value, kind: IntentKind, report: Report<'_>, world: &World) -> Option<Intent> {
    if let IntentKind::Take | IntentKind::PutIn = kind {
        let [slot, half] = report.values::<2>(value)?;
        let (slot, half) = (report.integer(slot, &SLOT), report.choice(half, &HALVES));
        let at = HalfSlot {
            slot: u8::try_from(slot? - 1).ok()?,
            half: half?,
        };
        let take = kind == IntentKind::Take;
        return Some(if take {
            Intent::Take(at)
        } else {
            Intent::PutIn(at)
        });
    }
    let [one] = report.values::<1>(value)?;
    match kind {
        IntentKind::Walk => report.choice(one, &Stand::ALL).map(Intent::Walk),
        IntentKind::Torch => report.flag(one).map(Intent::Torch),
        IntentKind::EditWidth => {
            let width = report.micrometres(one, &WIDTH)?;
            Some(Intent::Press(Button::EditWidth(Micrometres(width))))
        }
        IntentKind::SaveOver => {
            product(one, report, world).map(|it| Intent::Press(Button::SaveOver(it)))
        }
        IntentKind::Set => read_setting(one, report).map(|it| Intent::Press(Button::Set(it))),
        IntentKind::Order => {
            let commands = Command::ALL.map(|command| (command_name(command), command));
            let command = report.choice(one, &commands)?;
            Some(Intent::Press(Button::Order(command)))
        }
        _ => product(one, report, world).map(|it| Intent::Press(Button::Choose(it))),
    }
}

fn product(value: &Value, report: Report<'_>, world: &World) -> Option<u8> {
    let names = &world.hall().product_names;
    let Kind::Text(text) = &value.kind else {
        // Says what a text looks like, with the hint about quotes.
        report.text(value);
        return None;
    };
    let found = names.iter().position(|name| name == text);
    if found.is_none() {
        report
            .add(value.place, "problem-unknown-name", &[("name", text)])
            .expected("expected-one-of", &[("names", &names.join(", "))])
            .did_you_mean(nearest(text, names.iter().map(String::as_str)));
    }
    found.and_then(|number| u8::try_from(number).ok())
}

#[cfg(test)]
mod tests {
    use rackproof_buffer::Setting;

    use super::*;
    use crate::sample;

    #[test]
    fn every_intent_is_written_and_read_back() {
        let exercise = sample::exercise();
        let judged = exercise.judged(0).expect("it has variants");
        let world = judged.world();
        let at = HalfSlot {
            slot: 4,
            half: Half::Outfeed,
        };
        let with = [
            (Intent::Walk(Stand::Outfeed), "Walk(Outfeed)"),
            (Intent::Torch(true), "Torch(true)"),
            (Intent::Take(at), "Take(5, Outfeed)"),
            (Intent::PutIn(at), "PutIn(5, Outfeed)"),
            (Intent::Press(Button::Choose(1)), "Choose(\"kestrel\")"),
            (
                Intent::Press(Button::EditWidth(Micrometres(170_850))),
                "EditWidth(170.85)",
            ),
            (Intent::Press(Button::SaveOver(1)), "SaveOver(\"kestrel\")"),
            (Intent::Press(Button::Order(Command::Hold)), "Order(Hold)"),
            (
                Intent::Press(Button::Set(Setting::SlotCount(12))),
                "Set(SlotCount(12))",
            ),
        ];
        let plain = PLAIN
            .iter()
            .map(|&intent| (intent, kind_name(intent.kind())));
        let mut kinds = Vec::new();
        for (intent, text) in with.into_iter().chain(plain) {
            let cause = Cause::Did(intent);
            assert_eq!(cause_text(world, cause), text);
            assert_eq!(parse_cause(world, text), Some(cause), "{text}");
            kinds.push(intent.kind());
        }
        let unwritten = IntentKind::ALL
            .iter()
            .filter(|(_, kind)| !kinds.contains(kind));
        assert_eq!(unwritten.count(), 0);
        for (name, chance) in CHANCES {
            let text = format!("Chose({name})");
            assert_eq!(parse_cause(world, &text), Some(Cause::Chose(chance)));
            assert_eq!(cause_text(world, Cause::Chose(chance)), text);
        }
    }

    #[test]
    fn what_says_no_cause_is_refused() {
        let exercise = sample::exercise();
        let judged = exercise.judged(0).expect("it has variants");
        let texts = [
            "",
            "Start(1)",
            "Walk",
            "Walk(Roof)",
            "Take(0, Infeed)",
            "Take(65, Infeed)",
            "Take(1)",
            "Choose(kestrel)",
            "Choose(\"wren2\")",
            "Torch(yes)",
            "start",
            "Start Start",
            "Chose()",
            "EditWidth(99999999999999)",
            "[Start]",
            "(",
        ];
        for text in texts {
            assert_eq!(parse_cause(judged.world(), text), None, "{text}");
        }
    }
}
