//! Slips against numbers worked out by hand, and the classes of the domain against the rails.

use std::collections::BTreeSet;

use rackproof_buffer::{Condition, Machine};

use super::*;
use crate::world_tests::{alder, sample_world, world_of};

const WREN: u8 = 0;
const KESTREL: u8 = 1;

#[test]
fn each_slip_has_its_name() {
    let world = sample_world();
    // 160.0 mm: ten times and a tenth; 160/25.4 = 6.299, 160·25.4 = 4064; 1600 with two digits
    // swapped is 6100, 1060, and 0160 begins with a nought.
    let cases = [
        (220_000, Some(WidthSlip::Neighbour(KESTREL))),
        (1_600_000, Some(WidthSlip::Tenths)),
        (16_000, Some(WidthSlip::DecimalPoint)),
        (6_300, Some(WidthSlip::Inch)),
        (4_064_000, Some(WidthSlip::Inch)),
        (610_000, Some(WidthSlip::Digits)),
        (106_000, Some(WidthSlip::Digits)),
        (160_000, None),
        (161_000, None),
    ];
    for (typed, slip) in cases {
        assert_eq!(world.slip_of(WREN, Micrometres(typed)), slip, "{typed}");
        let named = slip.is_some() || typed == 160_000;
        let tried = world.typed_widths(WREN).contains(&Micrometres(typed));
        assert_eq!(tried, named, "{typed}");
    }
    // 220 mm: the swap of equal digits is no slip.
    assert_eq!(
        world.slip_of(KESTREL, Micrometres(202_000)),
        Some(WidthSlip::Digits)
    );
    assert_eq!(world.slip_of(KESTREL, Micrometres(220_000)), None);
}

/// What rails at a width do to a good board of each kind that lies there.
fn class(machine: &Machine, width: Micrometres) -> Vec<Option<Condition>> {
    (0..machine.kinds().len() as u8)
        .map(|kind| {
            let press = machine.press_limits(kind);
            let fits = machine.kinds()[kind as usize].width <= width;
            let condition = if width <= press.gone_at {
                press.gone
            } else if width <= press.overstrained_at {
                Condition::Overstrained
            } else if width > press.dropped_over {
                Condition::Dropped
            } else {
                Condition::Good
            };
            (fits || condition != Condition::Good).then_some(condition)
        })
        .collect()
}

#[test]
fn one_width_of_each_class_is_tried() {
    let (machine, _) = alder();
    let world = sample_world();
    let play = machine.parts().side_play;
    let text = |width: Micrometres| format!("{:?}", class(&machine, width));
    let tried: BTreeSet<String> = world
        .typed_widths(WREN)
        .into_iter()
        .map(|typed| typed + play)
        .filter(|width| (50_000..=300_000).contains(&width.0))
        .map(text)
        .collect();
    let all: BTreeSet<String> = (50_000..=300_000)
        .step_by(10)
        .map(|width| text(Micrometres(width)))
        .collect();
    assert!(all.len() > 8, "{all:?}");
    assert!(tried.is_superset(&all), "{:?}", all.difference(&tried));
}

fn offers(world: &World, s: &State) -> Vec<Intent> {
    let mut offers = Vec::new();
    world.offered(s, &mut offers);
    offers
}

fn after(world: &World, buttons: &[Button]) -> State {
    let mut s = world.start();
    for button in buttons {
        let cause = Cause::Did(Intent::Press(*button));
        rackproof_model::Model::act(world, &mut s, cause, &mut |_| {});
    }
    s
}

const IDLE: [Button; 2] = [Button::Mode(Mode::Changeover), Button::Reset];

#[test]
fn pages_that_a_drill_does_not_open_offer_nothing() {
    let shut = sample_world();
    let open = world_of("panel: [Edit, Settings, Orders], next:");
    let of_pages = |world: &World| {
        let offers = offers(world, &after(world, &IDLE));
        let count = |wanted: fn(&Button) -> bool| {
            let buttons = offers.iter().filter_map(|intent| match intent {
                Intent::Press(button) => Some(button),
                _ => None,
            });
            buttons.filter(|button| wanted(button)).count()
        };
        [
            count(|button| matches!(button, Button::EditWidth(_))),
            count(|button| matches!(button, Button::SaveOver(_))),
            count(|button| matches!(button, Button::Set(_))),
            count(|button| matches!(button, Button::Order(_))),
        ]
    };
    assert_eq!(of_pages(&shut), [0; 4]);
    let widths = open.typed_widths(WREN).len();
    // Of 19 settings 7 stand so already.
    assert_eq!(of_pages(&open), [widths, 1, 12, 6]);
}

#[test]
fn any_number_can_be_typed_where_one_can() {
    let world = world_of("panel: [Edit, Settings], next:");
    let idle = after(&world, &IDLE);
    let typed = Intent::Press(Button::EditWidth(Micrometres(123_456)));
    let counted = Intent::Press(Button::Set(Setting::SlotCount(11)));
    for intent in [typed, counted] {
        assert!(world.is_offered(&offers(&world, &idle), intent));
        assert!(!world.is_offered(&offers(&world, &world.start()), typed));
        assert!(!sample_world().is_offered(&offers(&sample_world(), &idle), intent));
    }
}

#[test]
fn a_drill_begins_as_it_was_left() {
    let world = world_of(
        "panel: [], start: Start(product: \"wren\", mode: Changeover,
            settings: Settings(slot_count: 14, width_offset_mm: 1.5, signals: false),
            left: Left(by: \"17\", asked: 3, said: [
                Said(slot: 1, answer: SeenEmpty), Said(slot: 2, answer: Taken)])), next:",
    );
    let s = world.start();
    let panel = world.panel(&s).expect("it has power");
    assert_eq!(panel.service.settings.slot_count, 14);
    assert_eq!(panel.service.said_before, 0b11);
    // 160 mm, 0.8 mm of play, 1.5 mm of offset: the figures show nothing of it.
    assert_eq!(s.machine.width(world.machine()).0, 162_300);
    assert_eq!(panel.width_by_count, Some(Micrometres(160_800)));
    assert_eq!(panel.question, Some(rackproof_buffer::Question::Answer(2)));
    assert_eq!(panel.map.unknown, 0b11_1111_1111_1100);
}

#[test]
fn the_explorer_types_saves_and_sets_within_its_strides() {
    let world = world_of("panel: [Edit, Settings, Orders], next:");
    let s = after(&world, &IDLE);
    let mut strides = Vec::new();
    let mergers = (crate::Mergers::Prepared, crate::Reaches::Each);
    world.strides_by(mergers, &s, &mut strides);
    let has = |wanted: fn(&Intent) -> bool| {
        strides.iter().any(|stride| {
            let causes: Vec<Cause> = stride.causes().collect();
            causes
                .iter()
                .any(|cause| matches!(cause, Cause::Did(intent) if wanted(intent)))
        })
    };
    assert!(has(|it| matches!(it, Intent::Press(Button::Save))));
    assert!(has(|it| matches!(it, Intent::Press(Button::Set(_)))));
    assert!(has(|it| matches!(it, Intent::Press(Button::Order(_)))));
}
