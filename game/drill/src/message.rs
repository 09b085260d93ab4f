//! What can be said about the values of a drill: a message's id and its arguments, no language.
//!
//! The texts stand in the locale files under these ids. Whoever shows something looks them up:
//! window, terminal, report. Slots count from 1 here, as on the machine.
//!
//! - [`of_intent`], [`group_of`]: what can be done, for a menu or a journal.
//! - [`of_sign`], [`of_look`], [`of_void`], [`of_told`]: what the person perceives.
//! - [`of_unit`], [`of_mode`], [`of_task`], [`of_question`], [`of_answer`], [`of_refusal`],
//!   [`of_alarm`], [`of_alarm_state`], [`of_alarm_action`], [`of_setting`], [`of_saved`],
//!   [`of_level`], [`of_command`]: the panel.
//! - [`of_harm`], [`of_fact`], [`of_chance`]: what a debrief tells.
//! - [`of_condition`], [`of_finish_item`]: what holds at a moment, and at the end.

mod condition;
mod cue;
mod harm;
mod intent;
mod panel;
mod person;
mod service;
mod sign;

use rackproof_buffer::{Half, HalfSlot, Place, Side};
use rackproof_model::{Micrometres, Micros};

use crate::World;

pub use condition::{of_condition, of_finish_item};
pub use cue::of_cue;
pub use harm::{of_fact, of_harm};
pub use intent::{IntentGroup, group_of, of_group, of_intent};
pub use panel::{
    of_alarm, of_alarm_action, of_alarm_state, of_answer, of_mode, of_question, of_refusal,
    of_task, of_unit,
};
pub use person::{of_chance, of_stand, of_told, of_void};
pub use service::{of_command, of_level, of_saved, of_setting, of_slip};
pub use sign::{of_look, of_sign};

/// A message: which one, and the values for it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Message {
    /// The id under which its text stands.
    pub id: &'static str,
    /// Its values by name.
    pub arguments: Vec<(&'static str, Argument)>,
}

/// A value for a message.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Argument {
    /// A plain whole number. Slots count from 1.
    Number(i64),
    /// A length, in µm.
    Length(Micrometres),
    /// A span of time, in µs.
    Time(Micros),
    /// Shown as it is: the name of a board or a product of the machine file, with a capital first
    /// letter, or slots as ranges.
    Name(String),
    /// The text of a message that has no arguments.
    Id(&'static str),
    /// The text of a message with its own arguments.
    Message(Message),
}

impl Message {
    /// A message without arguments.
    pub fn plain(id: &'static str) -> Message {
        Message::with(id, [])
    }

    pub(crate) fn with<const COUNT: usize>(
        id: &'static str,
        arguments: [(&'static str, Argument); COUNT],
    ) -> Message {
        Message {
            id,
            arguments: arguments.into(),
        }
    }
}

/// A board's name as it is shown, by the number of its kind: `Wren`. Empty for an unknown kind.
pub fn board_name(world: &World, kind: u8) -> String {
    shown(&world.hall().kind_names, kind)
}

/// A product's name as it is shown, by its number. Empty if there is no such product.
pub fn product_name(world: &World, product: u8) -> String {
    shown(&world.hall().product_names, product)
}

/// Slots as ranges, counted from 1: `1-4, 7`. Bit k stands for the slot with number k + 1. Empty
/// for no slot.
pub fn slot_ranges(mask: u64) -> String {
    let is_in = |slot: u32| slot < u64::BITS && mask >> slot & 1 == 1;
    let mut ranges = Vec::new();
    let mut slot = 0;
    while slot < u64::BITS {
        let first = slot;
        while is_in(slot) {
            slot += 1;
        }
        match slot - first {
            0 => slot += 1,
            1 => ranges.push(slot.to_string()),
            _ => ranges.push(format!("{}-{slot}", first + 1)),
        }
    }
    ranges.join(", ")
}

/// The words for a half of a slot.
pub fn of_half(half: Half) -> Message {
    Message::plain(half_id(half))
}

/// The words for a place in which a board is.
pub fn of_place(place: Place) -> Message {
    match place {
        Place::Slot(at) => Message::with("place-slot", [slot(at.slot), half(at.half)]),
        Place::Belt(Side::Infeed) => Message::plain("place-infeed-belt"),
        Place::Belt(Side::Outfeed) => Message::plain("place-outfeed-belt"),
        Place::Mouth(Side::Infeed) => Message::plain("place-infeed-mouth"),
        Place::Mouth(Side::Outfeed) => Message::plain("place-outfeed-mouth"),
    }
}

fn shown(names: &[String], number: u8) -> String {
    let name = names.get(number as usize).map_or("", String::as_str);
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_ascii_uppercase().to_string() + letters.as_str()
    })
}

fn half_id(half: Half) -> &'static str {
    match half {
        Half::Infeed => "half-infeed",
        Half::Outfeed => "half-outfeed",
    }
}

fn slot(slot: u8) -> (&'static str, Argument) {
    ("slot", Argument::Number(i64::from(slot) + 1))
}

fn half(half: Half) -> (&'static str, Argument) {
    ("half", Argument::Id(half_id(half)))
}

fn at_half_slot(id: &'static str, at: HalfSlot) -> Message {
    Message::with(id, [slot(at.slot), half(at.half)])
}

fn at_slot(id: &'static str, number: u8) -> Message {
    Message::with(id, [slot(number)])
}

fn board(world: &World, kind: u8) -> (&'static str, Argument) {
    ("board", Argument::Name(board_name(world, kind)))
}

fn product(world: &World, number: u8) -> (&'static str, Argument) {
    ("product", Argument::Name(product_name(world, number)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::world_tests::sample_world;

    #[test]
    fn slots_are_written_as_ranges_counted_from_one() {
        let cases: &[(u64, &str)] = &[
            (0, ""),
            (0b1, "1"),
            (0b10, "2"),
            (0b11, "1-2"),
            (0b100_1111, "1-4, 7"),
            (1 << 63, "64"),
            (u64::MAX, "1-64"),
            (0b1010_1000_0000_0000, "12, 14, 16"),
        ];
        for (mask, expected) in cases {
            assert_eq!(slot_ranges(*mask), *expected, "{mask:b}");
        }
    }

    #[test]
    fn names_begin_with_a_capital_and_an_unknown_one_is_empty() {
        let world = sample_world();
        assert_eq!(board_name(&world, 3), "Raven");
        assert_eq!(product_name(&world, 1), "Kestrel");
        assert_eq!(product_name(&world, 9), "");
    }
}
