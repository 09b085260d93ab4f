//! Settings, commands of the standard, products and slips in words.

use rackproof_buffer::{
    CONFIRM_MOST, Command, Level, Priority, SIDE_PLAY, Saved, Setting, UnitState, WIDTH_OFFSET_MOST,
};
use rackproof_model::{Micrometres, Micros};

use super::{Argument, Message, of_unit, product};
use crate::{WidthSlip, World};

/// A command, by its name in the standard.
pub fn of_command(command: Command) -> Message {
    Message::plain(match command {
        Command::Reset => "command-reset",
        Command::Start => "command-start",
        Command::Stop => "command-stop",
        Command::Hold => "command-hold",
        Command::Unhold => "command-unhold",
        Command::Suspend => "command-suspend",
        Command::Unsuspend => "command-unsuspend",
        Command::Abort => "command-abort",
        Command::Clear => "command-clear",
        Command::Complete => "command-complete",
    })
}

/// Why one of the three buttons had no effect. In Held, Start goes on, and in Aborted, Reset
/// clears: so their states are those of no edition.
pub(super) fn refused_button(command: Command, unit: UnitState) -> Message {
    let id = match command {
        Command::Start => "refusal-button-start",
        Command::Stop => "refusal-button-stop",
        _ => "refusal-button-reset",
    };
    let command = ("command", Argument::Id(of_command(command).id));
    Message::with(id, [command, ("unit", Argument::Id(of_unit(unit).id))])
}

/// Why a command had no effect: the states that take it, by the edition that the machine keeps.
pub(super) fn refused_order(world: &World, command: Command, unit: UnitState) -> Message {
    let command_words = ("command", Argument::Id(of_command(command).id));
    let unit_words = ("unit", Argument::Id(of_unit(unit).id));
    let edition = world.machine().parts().service.unit_states;
    let states = UnitState::that_take(command, edition);
    let list = states.fold(None, |list: Option<Message>, state| {
        let own = of_unit(state);
        Some(match list {
            None => own,
            Some(before) => Message::with(
                "command-states",
                [
                    ("before", Argument::Message(before)),
                    ("unit", Argument::Id(own.id)),
                ],
            ),
        })
    });
    match list {
        Some(list) => Message::with(
            "refusal-order",
            [
                command_words,
                unit_words,
                ("states", Argument::Message(list)),
            ],
        ),
        None => Message::with("refusal-order-never", [command_words, unit_words]),
    }
}

/// A setting with its value: for a menu, a sign, a row of the panel.
pub fn of_setting(setting: Setting) -> Message {
    let length = |id, width| Message::with(id, [("width", Argument::Length(width))]);
    match setting {
        Setting::SlotCount(count) => {
            let count = Argument::Number(i64::from(count));
            Message::with("setting-slot-count", [("count", count)])
        }
        Setting::WidthOffset(offset) => length("setting-width-offset", offset),
        Setting::SidePlay(play) => length("setting-side-play", play),
        Setting::Signals(true) => Message::plain("setting-signals-on"),
        Setting::Signals(false) => Message::plain("setting-signals-off"),
        Setting::Priority(Priority::Filling) => Message::plain("setting-priority-infeed"),
        Setting::Priority(Priority::Emptying) => Message::plain("setting-priority-outfeed"),
        Setting::WidthCheck(true) => Message::plain("setting-width-check-on"),
        Setting::WidthCheck(false) => Message::plain("setting-width-check-off"),
        Setting::ConfirmWithin(Micros(0)) => Message::plain("setting-confirm-for-ever"),
        Setting::ConfirmWithin(time) => {
            Message::with("setting-confirm-within", [("time", Argument::Time(time))])
        }
    }
}

/// Why a setting was refused: the bounds that it has.
pub(super) fn beyond_bounds(world: &World, setting: Setting) -> Message {
    let um = |number| Argument::Length(Micrometres(number));
    let count = |number: u8| Argument::Number(i64::from(number));
    match setting {
        Setting::SlotCount(_) => {
            let most = count(world.machine().slots());
            bounded("refusal-slot-count", count(2), most)
        }
        Setting::WidthOffset(_) => {
            let most = WIDTH_OFFSET_MOST;
            bounded("refusal-width-offset", um(-most), um(most))
        }
        Setting::SidePlay(_) => bounded("refusal-side-play", um(SIDE_PLAY[0]), um(SIDE_PLAY[1])),
        Setting::ConfirmWithin(_) => {
            let [least, most] = [Micros(0), CONFIRM_MOST].map(Argument::Time);
            bounded("refusal-confirm-within", least, most)
        }
        // These have no bounds: the machine never refuses them so.
        Setting::Signals(_) | Setting::Priority(_) | Setting::WidthCheck(_) => {
            Message::plain("refusal-setting")
        }
    }
}

fn bounded(id: &'static str, least: Argument, most: Argument) -> Message {
    Message::with(id, [("least", least), ("most", most)])
}

/// At which level the panel is used.
pub fn of_level(level: Level) -> Message {
    Message::plain(match level {
        Level::Operator => "level-operator",
        Level::Setter => "level-setter",
    })
}

/// Who saved a product, and when.
pub fn of_saved(saved: Option<Saved>) -> Message {
    let Some(Saved { by, order }) = saved else {
        return Message::plain("saved-never");
    };
    let order = Argument::Number(i64::from(order));
    Message::with(
        "saved-by",
        [("level", Argument::Id(of_level(by).id)), ("order", order)],
    )
}

/// How a width was typed wrong.
pub fn of_slip(world: &World, slip: WidthSlip) -> Message {
    match slip {
        WidthSlip::DecimalPoint => Message::plain("slip-decimal-point"),
        WidthSlip::Tenths => Message::plain("slip-tenths"),
        WidthSlip::Inch => Message::plain("slip-inch"),
        WidthSlip::Digits => Message::plain("slip-digits"),
        WidthSlip::Neighbour(number) => Message::with("slip-neighbour", [product(world, number)]),
    }
}
