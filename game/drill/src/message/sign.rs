//! What a person perceives, in words.

use rackproof_buffer::{AxisName, Halves, Outcome, Scope, Setting, Side, Task};

use super::{
    Argument, Message, at_half_slot, at_slot, board, half, of_alarm, of_answer, of_cue, of_mode,
    of_question, of_refusal, of_setting, of_task, of_told, of_unit, of_void, product, slot,
    slot_ranges,
};
use crate::{Sign, World};

/// A sign in words, or `None` if others say it already: a look is said by [`of_look`] and by the
/// boards that it showed, a hand inside by the looks that it made void.
pub fn of_sign(world: &World, sign: &Sign) -> Option<Message> {
    let message = match *sign {
        Sign::Machine(sign) => return of_shown(world, sign.shown()),
        Sign::LooksVoided(cause) => of_void(cause),
        Sign::Looked { .. } | Sign::HandEntered => return None,
        Sign::Dark => Message::plain("sign-dark"),
        Sign::SawBoard { at, kind, damaged } => {
            let id = if damaged {
                "sign-saw-board-damaged"
            } else {
                "sign-saw-board"
            };
            Message::with(id, [board(world, kind), slot(at.slot), half(at.half)])
        }
        Sign::SawBelt(side, boards) => Message::plain(belt_id(side, boards > 0)),
        Sign::SawMouth(side, taken) => Message::plain(mouth_id(side, taken)),
        Sign::Took { kind, damaged } => {
            let id = if damaged {
                "sign-took-damaged"
            } else {
                "sign-took"
            };
            Message::with(id, [board(world, kind)])
        }
        Sign::NothingThere => Message::plain("sign-nothing-there"),
        Sign::NoRoom(at) => at_half_slot("sign-no-room", at),
        Sign::NothingStarted => Message::plain("sign-nothing-started"),
        Sign::Told(told) => of_told(told),
        Sign::StrapsTested => Message::plain("sign-straps-tested"),
        Sign::Crack => Message::plain("sign-crack"),
        Sign::BoardLaid => Message::plain("sign-board-laid"),
        Sign::Cue(cue) => of_cue(world, cue),
    };
    Some(message)
}

/// A look into the rack in words: which slots were seen empty, whole ones apart from halves. The
/// boards that were seen are signs of their own.
pub fn of_look(empty: Halves, boards: Halves) -> Vec<Message> {
    let whole = empty.infeed & empty.outfeed;
    let parts = [
        ("look-whole-seen-empty", whole),
        ("look-infeed-seen-empty", empty.infeed & !whole),
        ("look-outfeed-seen-empty", empty.outfeed & !whole),
    ];
    let mut messages: Vec<Message> = parts
        .into_iter()
        .filter(|&(_, mask)| mask != 0)
        .map(|(id, mask)| Message::with(id, [("slots", Argument::Name(slot_ranges(mask)))]))
        .collect();
    if messages.is_empty() && boards.is_empty() {
        messages.push(Message::plain("look-nothing-seen"));
    }
    messages
}

fn belt_id(side: Side, taken: bool) -> &'static str {
    match (side, taken) {
        (Side::Infeed, false) => "sign-infeed-belt-seen-empty",
        (Side::Infeed, true) => "sign-infeed-belt-taken",
        (Side::Outfeed, false) => "sign-outfeed-belt-seen-empty",
        (Side::Outfeed, true) => "sign-outfeed-belt-taken",
    }
}

fn mouth_id(side: Side, taken: bool) -> &'static str {
    match (side, taken) {
        (Side::Infeed, false) => "sign-infeed-mouth-seen-free",
        (Side::Infeed, true) => "sign-infeed-mouth-taken",
        (Side::Outfeed, false) => "sign-outfeed-mouth-seen-free",
        (Side::Outfeed, true) => "sign-outfeed-mouth-taken",
    }
}

/// What the machine shows. Hidden facts and harms never come here: a sign cannot hold them.
fn of_shown(world: &World, shown: Outcome) -> Option<Message> {
    let named = |id, name, words: Message| Message::with(id, [(name, Argument::Id(words.id))]);
    let message = match shown {
        Outcome::UnitChanged(unit) => named("sign-unit", "unit", of_unit(unit)),
        Outcome::ModeChanged(mode) => named("sign-mode", "mode", of_mode(mode)),
        Outcome::TaskChanged(Task::None) => Message::plain("sign-no-task"),
        Outcome::TaskChanged(task) => named("sign-task", "task", of_task(task)),
        Outcome::Started(axis) => Message::plain(started_id(axis)),
        Outcome::Stopped(axis) => Message::plain(stopped_id(axis)),
        Outcome::Asked(question) => of_question(question),
        Outcome::Refused(refusal) => of_refusal(world, refusal),
        Outcome::Alarmed(alarm) => of_alarm(alarm),
        Outcome::SweepSaw(number) => at_slot("sign-sweep-saw", number),
        Outcome::SweepSawNothing => Message::plain("sign-sweep-saw-nothing"),
        Outcome::Answered(number, answer) => {
            let answer = Argument::Id(of_answer(answer).id);
            Message::with("sign-answered", [slot(number), ("answer", answer)])
        }
        Outcome::ClearedOut => Message::plain("sign-cleared-out"),
        Outcome::DeclaredEmpty => Message::plain("sign-declared-empty"),
        Outcome::ProductChosen(number) => {
            Message::with("sign-product-chosen", [product(world, number)])
        }
        Outcome::ProductLoaded(number) => {
            Message::with("sign-product-loaded", [product(world, number)])
        }
        Outcome::ProductSaved(number) => {
            Message::with("sign-product-saved", [product(world, number)])
        }
        Outcome::AnsweredHalf(at, answer) => {
            let answer = ("answer", Argument::Id(of_answer(answer).id));
            Message::with("sign-answered-half", [slot(at.slot), half(at.half), answer])
        }
        Outcome::WidthTyped(width) => {
            Message::with("sign-width-typed", [("width", Argument::Length(width))])
        }
        Outcome::SettingChanged(setting) => {
            let scope = world.machine().parts().service.side_play_scope;
            let of_product = scope == Scope::Product && matches!(setting, Setting::SidePlay(_));
            let setting = ("setting", Argument::Message(of_setting(setting)));
            let id = ["sign-setting-changed", "sign-setting-of-product"][usize::from(of_product)];
            Message::with(id, [setting])
        }
        Outcome::WaitsForWidth => Message::plain("sign-waits-for-width"),
        Outcome::ReferenceFound => Message::plain("sign-reference-found"),
        Outcome::ReferenceLost => Message::plain("sign-reference-lost"),
        Outcome::Powered(true) => Message::plain("sign-powered"),
        Outcome::Powered(false) => Message::plain("sign-unpowered"),
        Outcome::WidthReached => Message::plain("sign-width-reached"),
        Outcome::MachineReady(true) => Message::plain("sign-machine-ready-closed"),
        Outcome::MachineReady(false) => Message::plain("sign-machine-ready-open"),
        Outcome::BoardAvailable(true) => Message::plain("sign-board-available-closed"),
        Outcome::BoardAvailable(false) => Message::plain("sign-board-available-open"),
        Outcome::BoardStored(number) => at_slot("sign-board-stored", number),
        Outcome::BoardSent(number) => at_slot("sign-board-sent", number),
        Outcome::BoardPassed(number) => at_slot("sign-board-passed", number),
        Outcome::BoardRanPast(number) => at_slot("sign-board-ran-past", number),
        Outcome::BoardReachedEnd(number) => at_slot("sign-board-reached-end", number),
        Outcome::MotorHummed => Message::plain("cue-motor-hums"),
        Outcome::BrakeTicked => Message::plain("cue-brake-ticks"),
        Outcome::BoardEntered | Outcome::LiftSank | Outcome::Harmed(_) => return None,
    };
    Some(message)
}

fn started_id(axis: AxisName) -> &'static str {
    match axis {
        AxisName::Lift => "sign-lift-started",
        AxisName::Rails => "sign-rails-started",
        AxisName::Belts => "sign-belts-started",
    }
}

fn stopped_id(axis: AxisName) -> &'static str {
    match axis {
        AxisName::Lift => "sign-lift-stopped",
        AxisName::Rails => "sign-rails-stopped",
        AxisName::Belts => "sign-belts-stopped",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_look_names_whole_slots_apart_from_halves() {
        let empty = Halves {
            infeed: 0b0111,
            outfeed: 0b1101,
        };
        let slots =
            |id, text: &str| Message::with(id, [("slots", Argument::Name(String::from(text)))]);
        let expected = [
            slots("look-whole-seen-empty", "1, 3"),
            slots("look-infeed-seen-empty", "2"),
            slots("look-outfeed-seen-empty", "4"),
        ];
        assert_eq!(of_look(empty, Halves::NONE), expected);
        assert_eq!(of_look(Halves::NONE, Halves::slot(2)), []);
        let nothing = [Message::plain("look-nothing-seen")];
        assert_eq!(of_look(Halves::NONE, Halves::NONE), nothing);
    }
}
