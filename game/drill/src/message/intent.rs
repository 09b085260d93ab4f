//! What can be done, in words for a menu and a journal.

use rackproof_buffer::{Answer, Button, Mode, Question, UnitState};

use super::{
    Argument, Message, at_half_slot, at_slot, of_command, of_setting, product, product_name,
};
use crate::{Aim, Intent, Stand, State, Tray, World};

/// What an intent is for: the parts of a menu, in the order in which they are shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum IntentGroup {
    /// Going somewhere else.
    Walk,
    /// Looking, and light to look with.
    Look,
    /// What hands do: boards, straps, cord.
    Hands,
    /// Hatch, prop, isolator, lock, emergency stop.
    Machine,
    /// What the panel takes, its key included.
    Panel,
    /// Speaking to somebody.
    People,
    /// Closing the job: log and report.
    End,
}

impl IntentGroup {
    /// All groups, in the order in which they are shown.
    pub const ALL: [IntentGroup; 7] = [
        IntentGroup::Walk,
        IntentGroup::Look,
        IntentGroup::Hands,
        IntentGroup::Machine,
        IntentGroup::Panel,
        IntentGroup::People,
        IntentGroup::End,
    ];
}

/// The heading of a group.
pub fn of_group(group: IntentGroup) -> Message {
    Message::plain(match group {
        IntentGroup::Walk => "group-walk",
        IntentGroup::Look => "group-look",
        IntentGroup::Hands => "group-hands",
        IntentGroup::Machine => "group-machine",
        IntentGroup::Panel => "group-panel",
        IntentGroup::People => "group-people",
        IntentGroup::End => "group-end",
    })
}

/// What an intent is for.
pub fn group_of(intent: Intent) -> IntentGroup {
    match intent {
        Intent::Walk(_) => IntentGroup::Walk,
        Intent::Torch(_) | Intent::Look(_) => IntentGroup::Look,
        Intent::TestStraps
        | Intent::PlugCord
        | Intent::UnplugCord
        | Intent::HandIn
        | Intent::HandOut
        | Intent::Take(_)
        | Intent::PutIn(_)
        | Intent::TakeFromBelt
        | Intent::TakeFromMouth
        | Intent::PutDown(_)
        | Intent::WearGloves
        | Intent::ClearScrew
        | Intent::WipeLenses
        | Intent::ClearPlug => IntentGroup::Hands,
        Intent::OpenHatch
        | Intent::ShutHatch
        | Intent::SetProp
        | Intent::RemoveProp
        | Intent::IsolatorOff
        | Intent::IsolatorOn
        | Intent::LockOn
        | Intent::LockOff
        | Intent::PressEmergency
        | Intent::ReleaseEmergency => IntentGroup::Machine,
        Intent::TryStart | Intent::KeyIn | Intent::KeyOut | Intent::Press(_) => IntentGroup::Panel,
        Intent::AskUpstreamHold
        | Intent::LetUpstreamGo
        | Intent::AskDownstreamHold
        | Intent::LetDownstreamGo
        | Intent::CallLead => IntentGroup::People,
        Intent::WriteLog | Intent::Report => IntentGroup::End,
    }
}

/// An intent as it reads in state `s`, before it is done: an act, such as "Press Start".
pub fn of_intent(world: &World, s: &State, intent: Intent) -> Message {
    // Belt and mouth are those where the person stands.
    let here = |infeed, outfeed| match s.person.stand {
        Stand::Infeed => infeed,
        _ => outfeed,
    };
    Message::plain(match intent {
        Intent::Take(at) => return at_half_slot("intent-take", at),
        Intent::PutIn(at) => return at_half_slot("intent-put-in", at),
        Intent::Press(button) => return of_button(world, s, button),
        Intent::Walk(stand) => walk_id(stand),
        Intent::Look(Aim::Mouth) => here("intent-look-infeed-mouth", "intent-look-outfeed-mouth"),
        Intent::TakeFromBelt => here(
            "intent-take-from-infeed-belt",
            "intent-take-from-outfeed-belt",
        ),
        Intent::TakeFromMouth => here(
            "intent-take-from-infeed-mouth",
            "intent-take-from-outfeed-mouth",
        ),
        Intent::TestStraps => "intent-test-straps",
        Intent::Torch(true) => "intent-torch-on",
        Intent::Torch(false) => "intent-torch-off",
        Intent::Look(Aim::LeanInfeed) => "intent-look-infeed-side",
        Intent::Look(Aim::LeanOutfeed) => "intent-look-outfeed-side",
        Intent::OpenHatch => "intent-open-hatch",
        Intent::ShutHatch => "intent-shut-hatch",
        Intent::PlugCord => "intent-plug-cord",
        Intent::UnplugCord => "intent-unplug-cord",
        Intent::SetProp => "intent-set-prop",
        Intent::RemoveProp => "intent-remove-prop",
        Intent::IsolatorOff => "intent-isolator-off",
        Intent::IsolatorOn => "intent-isolator-on",
        Intent::LockOn => "intent-lock-on",
        Intent::LockOff => "intent-lock-off",
        Intent::TryStart => "intent-try-start",
        Intent::HandIn => "intent-hand-in",
        Intent::HandOut => "intent-hand-out",
        Intent::PutDown(Tray::Good) => "intent-put-down-good",
        Intent::PutDown(Tray::Quarantine) => "intent-put-down-quarantine",
        Intent::PutDown(Tray::Scrap) => "intent-put-down-scrap",
        Intent::PressEmergency => "intent-press-emergency",
        Intent::ReleaseEmergency => "intent-release-emergency",
        Intent::KeyIn => "intent-key-in",
        Intent::KeyOut => "intent-key-out",
        Intent::AskUpstreamHold => "intent-ask-upstream-hold",
        Intent::LetUpstreamGo => "intent-let-upstream-go",
        Intent::AskDownstreamHold => "intent-ask-downstream-hold",
        Intent::LetDownstreamGo => "intent-let-downstream-go",
        Intent::CallLead => "intent-call-lead",
        Intent::WearGloves => "intent-wear-gloves",
        Intent::ClearScrew => "intent-clear-screw",
        Intent::WipeLenses => here("intent-wipe-infeed-lenses", "intent-wipe-outfeed-lenses"),
        Intent::ClearPlug => here("intent-clear-upstream-plug", "intent-clear-downstream-plug"),
        Intent::WriteLog => "intent-write-log",
        Intent::Report => "intent-report",
    })
}

fn walk_id(stand: Stand) -> &'static str {
    match stand {
        Stand::Panel => "intent-walk-panel",
        Stand::Infeed => "intent-walk-infeed",
        Stand::Outfeed => "intent-walk-outfeed",
        Stand::Hatch => "intent-walk-hatch",
        Stand::Isolator => "intent-walk-isolator",
    }
}

fn of_button(world: &World, s: &State, button: Button) -> Message {
    let chosen = || product(world, s.machine.chosen());
    match button {
        Button::Start => Message::plain("intent-start"),
        Button::Stop => Message::plain("intent-stop"),
        Button::Reset if s.machine.unit() == UnitState::Aborted => Message::plain("intent-clear"),
        Button::Reset => Message::plain("intent-reset"),
        Button::Mode(Mode::Production) => Message::plain("intent-mode-production"),
        Button::Mode(Mode::Changeover) => Message::plain("intent-mode-changeover"),
        Button::Mode(Mode::Manual) => Message::plain("intent-mode-manual"),
        Button::Choose(number) => Message::with("intent-choose", [product(world, number)]),
        Button::EditWidth(width) => {
            let width = ("width", Argument::Length(width));
            Message::with("intent-edit-width", [chosen(), width])
        }
        Button::Save => Message::with("intent-save", [chosen()]),
        Button::Load => Message::with("intent-load", [chosen()]),
        Button::ClearOut => Message::plain("intent-clear-out"),
        Button::Answer(answer) => of_answering(s, answer),
        Button::HoldDeclare => {
            let time = Argument::Time(world.machine().parts().declare_hold);
            Message::with("intent-hold-declare", [("time", time)])
        }
        Button::LetGoDeclare => Message::plain("intent-let-go-declare"),
        Button::Acknowledge => Message::plain("intent-acknowledge"),
        Button::SaveOver(number) => {
            let other = ("other", Argument::Name(product_name(world, number)));
            Message::with("intent-save-over", [chosen(), other])
        }
        Button::Set(setting) => {
            let setting = ("setting", Argument::Message(of_setting(setting)));
            Message::with("intent-set", [setting])
        }
        Button::Order(command) => {
            let command = ("command", Argument::Id(of_command(command).id));
            Message::with("intent-order", [command])
        }
    }
}

/// An answer with the slot that the panel asks about; while it asks nothing, the bare answer.
fn of_answering(s: &State, answer: Answer) -> Message {
    let slot = match s.machine.question() {
        Some(Question::Answer(slot)) => slot,
        Some(Question::AnswerHalf(at)) => {
            let id = match answer {
                Answer::Taken => "intent-answer-half-taken",
                Answer::SeenEmpty => "intent-answer-half-seen-empty",
                Answer::NotSure => "intent-answer-half-not-sure",
            };
            return at_half_slot(id, at);
        }
        _ => return super::of_answer(answer),
    };
    let id = match answer {
        Answer::Taken => "intent-answer-taken",
        Answer::SeenEmpty => "intent-answer-seen-empty",
        Answer::NotSure => "intent-answer-not-sure",
    };
    at_slot(id, slot)
}

#[cfg(test)]
mod tests {
    use rackproof_buffer::{Half, HalfSlot};
    use rackproof_model::{Micros, Model};

    use super::*;
    use crate::{Cause, world_tests::sample_world};

    #[test]
    fn a_half_slot_is_named_as_on_the_machine() {
        let world = sample_world();
        let at = HalfSlot {
            slot: 4,
            half: Half::Infeed,
        };
        let message = of_intent(&world, &world.start(), Intent::Take(at));
        let expected = [
            ("slot", Argument::Number(5)),
            ("half", Argument::Id("half-infeed")),
        ];
        assert_eq!(
            (message.id, &message.arguments[..]),
            ("intent-take", &expected[..])
        );
    }

    #[test]
    fn reset_reads_clear_while_aborted() {
        let world = sample_world();
        let mut state = world.start();
        let reset = Intent::Press(Button::Reset);
        assert_eq!(of_intent(&world, &state, reset).id, "intent-reset");
        world.act(&mut state, Cause::Did(Intent::PressEmergency), &mut |_| {});
        while let Some(next) = world.next_event(&state) {
            world.advance(&mut state, next, &mut |_| {});
        }
        assert_eq!(state.machine.unit(), UnitState::Aborted);
        assert_eq!(of_intent(&world, &state, reset).id, "intent-clear");
    }

    #[test]
    fn belts_and_mouths_are_those_of_the_standing_place() {
        let world = sample_world();
        let mut state = world.start();
        let id = |state: &State, intent| of_intent(&world, state, intent).id;
        state.person.stand = Stand::Infeed;
        let infeed = id(&state, Intent::TakeFromBelt);
        let look = id(&state, Intent::Look(Aim::Mouth));
        assert_eq!(
            (infeed, look),
            ("intent-take-from-infeed-belt", "intent-look-infeed-mouth")
        );
        state.person.stand = Stand::Outfeed;
        assert_eq!(
            id(&state, Intent::TakeFromMouth),
            "intent-take-from-outfeed-mouth"
        );
    }

    #[test]
    fn the_hold_is_the_machines() {
        let world = sample_world();
        let message = of_intent(&world, &world.start(), Intent::Press(Button::HoldDeclare));
        let expected = [("time", Argument::Time(Micros::from_seconds(2)))];
        assert_eq!(message.arguments, expected);
    }
}
