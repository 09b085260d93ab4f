//! The table of keys against the look, and against what can be done.

use std::collections::BTreeSet;

use egui::{Key, Modifiers};
use egui_kittest::kittest::NodeT;
use rackproof_buffer::{Answer, Button};
use rackproof_drill::{Aim, Intent, IntentKind as Kind, Stand};

use super::*;
use crate::drill_page::acts::{Entry, entries, reaches_panel};
use crate::drill_page::harness::{Page, page};
use crate::drill_page::sample::Sample;

/// Every key that the look names: each is in the table once.
const LOOK: &str = "1 2 3 4 5 L [ ] Page-Up Page-Down G T B I R D O K Y V X U Q \
    C S A N M H W P F5 F6 F7 F9 F10 F11 F12 E F8 Tab Shift-Tab Up Down Left Right Enter F1 F3 Esc";

#[test]
fn every_key_of_the_look_is_in_the_table_and_none_is_there_twice() {
    let caps: Vec<String> = TABLE.iter().map(|row| row.cap.replace(' ', "-")).collect();
    for cap in LOOK.split_whitespace() {
        assert!(caps.iter().any(|known| known == cap), "{cap}");
    }
    let different: BTreeSet<&String> = caps.iter().collect();
    assert_eq!(different.len(), caps.len());
    let keys: BTreeSet<(String, bool)> = TABLE
        .iter()
        .map(|row| (row.key.name().to_owned(), row.shift))
        .collect();
    assert_eq!(keys.len(), TABLE.len());
}

fn strike(sample: &Sample, key: Key) -> Asked {
    asked(&sample.view(), key, Modifiers::NONE)
}

fn does(intent: Intent) -> Asked {
    Asked::Wish(Wish::Do(intent))
}

#[test]
fn keys_of_the_start_ask_for_what_is_offered_there() {
    let sample = Sample::new(Way::Practice);
    let cases = [
        (Key::Num1, does(Intent::Walk(Stand::Infeed))),
        (Key::Num2, does(Intent::Walk(Stand::Hatch))),
        (Key::Num3, does(Intent::Walk(Stand::Isolator))),
        (Key::Num5, does(Intent::Walk(Stand::Outfeed))),
        // I stand there.
        (Key::Num4, Asked::Nothing),
        (Key::G, does(Intent::Torch(true))),
        (Key::F, does(Intent::TestStraps)),
        (Key::Q, does(Intent::KeyIn)),
        (Key::C, does(Intent::AskUpstreamHold)),
        (Key::S, does(Intent::AskDownstreamHold)),
        (Key::A, does(Intent::CallLead)),
        (Key::N, does(Intent::WriteLog)),
        (Key::F9, does(Intent::Press(Button::Start))),
        (Key::F10, does(Intent::Press(Button::Stop))),
        (Key::F11, does(Intent::Press(Button::Reset))),
        (Key::F12, Asked::Wish(Wish::Page(PanelPage::Product))),
        (Key::F8, Asked::Wish(Wish::Emergency)),
        (Key::M, Asked::Into(Group::Sheet)),
        (Key::P, Asked::Into(Group::Panel)),
        (Key::H, Asked::Wish(Wish::Hint)),
        (Key::F2, Asked::Wish(Wish::WayOn)),
        (Key::W, Asked::Wish(Wish::Wait)),
        (Key::F1, Asked::Wish(Wish::Over(Over::Help))),
        (Key::F3, Asked::Wish(Wish::Over(Over::Parts))),
        (Key::F4, Asked::Wish(Wish::Over(Over::Settings))),
        (Key::Escape, Asked::Wish(Wish::Over(Over::Pause))),
        (Key::PageUp, Asked::Wish(Wish::Turn(0.0, ONE_SLOT))),
        (Key::PageDown, Asked::Wish(Wish::Turn(0.0, -ONE_SLOT))),
        (Key::R, Asked::Nothing),
        // Not here: said, not done.
        (Key::D, Asked::NotHere(&[Kind::OpenHatch, Kind::ShutHatch])),
        (
            Key::O,
            Asked::NotHere(&[Kind::IsolatorOff, Kind::IsolatorOn]),
        ),
        (
            Key::L,
            Asked::NotHere(&[Kind::LookMouth, Kind::LookInfeedSide]),
        ),
        (Key::F6, Asked::NotHere(&[Kind::AnswerSeenEmpty])),
    ];
    for (key, expected) in cases {
        assert_eq!(strike(&sample, key), expected, "{key:?}");
    }
}

#[test]
fn keys_of_other_places_ask_for_what_is_offered_there() {
    let over = |over| Asked::Wish(Wish::Over(over));
    let answer = |answer| does(Intent::Press(Button::Answer(answer)));
    let hatch = Sample::at_the_hatch(Way::Practice);
    let inside = Sample::hand_in(Way::Practice);
    let holding = Sample::board_in_hand(Way::Practice);
    let put_in = Sample::board_in_hand(Way::Practice).then(&[Intent::HandIn]);
    let mouth = Sample::clear_out(Way::Practice);
    let isolator = Sample::dark(Way::Practice).at(Stand::Isolator);
    let emergency = Sample::emergency(Way::Practice);
    let dark = Sample::dark(Way::Practice);
    let cases = [
        (&hatch, Key::L, does(Intent::Look(Aim::LeanInfeed))),
        (
            &hatch,
            Key::OpenBracket,
            does(Intent::Look(Aim::LeanInfeed)),
        ),
        (
            &hatch,
            Key::CloseBracket,
            does(Intent::Look(Aim::LeanOutfeed)),
        ),
        (&hatch, Key::X, does(Intent::UnplugCord)),
        (&hatch, Key::V, does(Intent::SetProp)),
        (&hatch, Key::Z, does(Intent::HandIn)),
        (&hatch, Key::G, does(Intent::Torch(false))),
        (&hatch, Key::Num1, Asked::NotHere(&[Kind::Walk])),
        (&inside, Key::T, over(Over::Slots(Kind::Take))),
        (&inside, Key::Z, does(Intent::HandOut)),
        (&holding, Key::B, over(Over::Trays)),
        (&put_in, Key::I, over(Over::Slots(Kind::PutIn))),
        (&mouth, Key::L, does(Intent::Look(Aim::Mouth))),
        (&mouth, Key::T, does(Intent::TakeFromBelt)),
        (&mouth, Key::J, does(Intent::TakeFromMouth)),
        (&mouth, Key::C, does(Intent::LetUpstreamGo)),
        (&mouth, Key::F5, answer(Answer::Taken)),
        (&mouth, Key::F6, answer(Answer::SeenEmpty)),
        (&mouth, Key::F7, answer(Answer::NotSure)),
        (&isolator, Key::K, does(Intent::LockOff)),
        (&emergency, Key::U, does(Intent::ReleaseEmergency)),
        (&emergency, Key::E, does(Intent::Press(Button::Acknowledge))),
        (&emergency, Key::F8, Asked::Nothing),
        (&dark, Key::Y, does(Intent::TryStart)),
        (&dark, Key::F12, Asked::Nothing),
    ];
    for (number, (sample, key, expected)) in cases.into_iter().enumerate() {
        assert_eq!(strike(sample, key), expected, "{number}: {key:?}");
    }
}

#[test]
fn escape_closes_then_breaks_off_then_pauses() {
    let mut sample = Sample::new(Way::Practice).under(Over::Help);
    assert_eq!(strike(&sample, Key::Escape), Asked::Wish(Wish::CloseOver));
    assert_eq!(strike(&sample, Key::F1), Asked::Wish(Wish::CloseOver));
    // Behind it nothing can be done, but for the emergency stop.
    assert_eq!(strike(&sample, Key::G), Asked::Nothing);
    assert_eq!(strike(&sample, Key::F9), Asked::Nothing);
    assert_eq!(strike(&sample, Key::F8), Asked::Wish(Wish::Emergency));
    sample.over = None;
    let (intent, part) = (Intent::Walk(Stand::Hatch), 0.5);
    sample.doing = Some(crate::Doing { intent, part });
    assert_eq!(strike(&sample, Key::Escape), Asked::Wish(Wish::BreakOff));
    assert_eq!(strike(&sample, Key::G), Asked::Nothing);
    assert_eq!(strike(&sample, Key::F8), Asked::Wish(Wish::Emergency));
}

#[test]
fn an_exam_has_no_hint_and_no_jump_and_letters_can_be_off() {
    let mut sample = Sample::new(Way::Exam);
    assert_eq!(strike(&sample, Key::H), Asked::Nothing);
    assert_eq!(strike(&sample, Key::F2), Asked::Nothing);
    assert_eq!(strike(&sample, Key::W), Asked::Nothing);
    assert_eq!(strike(&sample, Key::M), Asked::Into(Group::Sheet));
    sample.preferences.no_letters = true;
    for row in TABLE.iter().filter(|row| row.is_character()) {
        assert_eq!(row.asked(&sample.view()), Asked::Nothing, "{}", row.cap);
    }
    assert_eq!(strike(&sample, Key::F8), Asked::Wish(Wish::Emergency));
    let held = asked(&Sample::new(Way::Exam).view(), Key::C, Modifiers::CTRL);
    assert_eq!(held, Asked::Nothing);
}

#[test]
fn watching_only_plays() {
    let mut sample = Sample::new(Way::Watch);
    sample.watching = Some(crate::Watching {
        plays: true,
        speed: 1.0,
        whole: 1,
        ended: None,
    });
    assert_eq!(strike(&sample, Key::Space), Asked::Wish(Wish::Play(false)));
    for key in [Key::Num1, Key::G, Key::F8, Key::W, Key::H, Key::F2, Key::F9] {
        assert_eq!(strike(&sample, key), Asked::Nothing, "{key:?}");
    }
}

/// Whatever is offered in situations all over the drill: a button of the person bar or a key asks
/// for it, or it is the panel's own.
#[test]
fn whatever_is_offered_is_reached_by_a_key_or_a_button() {
    let mut met: BTreeSet<Kind> = BTreeSet::new();
    for sample in all_over_the_drill() {
        let view = sample.view();
        let buttons = entries(&view);
        for intent in view.offers {
            met.insert(intent.kind());
            let wish = wish_for(*intent);
            let by_button = buttons
                .iter()
                .any(|entry| entry.wish() == Some(wish.clone()));
            let by_key = TABLE
                .iter()
                .any(|row| row.asked(&view) == Asked::Wish(wish.clone()));
            let by_panel = matches!(intent, Intent::Press(_)) && buttons.contains(&Entry::Panel);
            let by_f8 = *intent == Intent::PressEmergency;
            assert!(by_button || by_key || by_panel || by_f8, "{intent:?}");
        }
    }
    // The situations are enough to meet all that this drill offers.
    let unmet: Vec<&str> = Kind::ALL
        .iter()
        .filter(|(_, kind)| !met.contains(kind))
        .map(|(name, _)| *name)
        .collect();
    // Pages that only other drills open have the rest; the hold of the declare button is let go
    // there where it is held: on the panel.
    let on_pages = [
        "EditWidth",
        "Save",
        "SaveOver",
        "Set",
        "Order",
        "ModeManual",
    ];
    // Only drills with faults offer what mends them, or keeps them from harm; a neighbour's plug
    // only those with neighbours.
    let with_faults = ["WearGloves", "ClearScrew", "WipeLenses", "ClearPlug"];
    let others: Vec<&str> = unmet
        .into_iter()
        .filter(|name| !on_pages.contains(name) && !with_faults.contains(name))
        .collect();
    assert_eq!(others, ["LetGoDeclare"]);
}

fn all_over_the_drill() -> Vec<Sample> {
    all_over_the_drill_in(Way::Practice)
}

fn all_over_the_drill_in(way: Way) -> Vec<Sample> {
    let locked = Sample::dark(way).at(Stand::Isolator);
    let unlocked = Sample::dark(way)
        .at(Stand::Isolator)
        .then(&[Intent::LockOff]);
    let at_work = Sample::new(way).at(Stand::Isolator);
    let changeover = Sample::new(way).then(&[
        Intent::Press(Button::Mode(rackproof_buffer::Mode::Changeover)),
        Intent::Press(Button::Reset),
        Intent::KeyIn,
        Intent::AskDownstreamHold,
    ]);
    let reset =
        Sample::emergency(way).then(&[Intent::ReleaseEmergency, Intent::Press(Button::Reset)]);
    let untied = Sample::at_the_hatch(way).then(&[Intent::SetProp, Intent::UnplugCord]);
    vec![
        Sample::new(way),
        Sample::new(way).at(Stand::Hatch),
        Sample::new(way).at(Stand::Infeed),
        Sample::at_the_hatch(way),
        Sample::hand_in(way),
        Sample::board_in_hand(way),
        Sample::board_in_hand(way).then(&[Intent::HandIn]),
        Sample::clear_out(way),
        Sample::emergency(way),
        Sample::dark(way),
        locked,
        unlocked,
        at_work,
        changeover,
        reset,
        untied,
    ]
}

/// The button that has this key on it: whether it can be pressed. The page is asked, not the table.
fn button_of(page: &Page<'_>, cap: &str) -> Option<(bool, String)> {
    let nodes = page.harness.root().children_recursive();
    let mut nodes = nodes.map(|node| node.accesskit_node());
    let node = nodes.find(|node| node.data().keyboard_shortcut() == Some(cap))?;
    Some((!node.is_disabled(), node.label().unwrap_or_default()))
}

/// The page as it is, and the same while something is done and with each page of the panel.
fn more_situations() -> Vec<Sample> {
    let mut all = Vec::new();
    for way in [Way::Guided, Way::Practice, Way::Exam, Way::Watch] {
        if matches!(way, Way::Practice | Way::Exam) {
            all.extend(all_over_the_drill_in(way));
        }
        all.push(Sample::new(way));
        let mut walking = Sample::new(way);
        let (intent, part) = (Intent::Walk(Stand::Hatch), 0.5);
        walking.doing = Some(crate::Doing { intent, part });
        all.push(walking);
        for page in [PanelPage::Product, PanelPage::Declare] {
            let mut turned = Sample::new(way).at(Stand::Isolator);
            turned.page = page;
            all.push(turned);
        }
    }
    all
}

#[test]
fn no_key_does_what_its_button_would_refuse() {
    let (mut asked, mut refused) = (BTreeSet::new(), BTreeSet::new());
    for (number, sample) in more_situations().into_iter().enumerate() {
        let told = (number, sample.way);
        let mut page = page(sample);
        for row in TABLE {
            let on_page = button_of(&page, row.cap);
            let wish = row.asked(&page.sample.borrow().view());
            let Some((enabled, name)) = on_page else {
                continue;
            };
            if !enabled {
                refused.insert(row.cap);
                let silent = matches!(wish, Asked::Nothing | Asked::NotHere(_));
                assert!(silent, "{told:?} {name} {}: {wish:?}", row.cap);
                continue;
            }
            if let Asked::Wish(wish) = wish {
                asked.insert(row.cap);
                // While something is done Esc means the button that breaks it off.
                let breaks_off = wish == Wish::BreakOff;
                let name = if breaks_off { "Break off" } else { &name };
                page.focus(name);
                // An answer never comes by Enter.
                let by_button = match row.cap {
                    "F5" | "F6" | "F7" => page.click(name),
                    _ => page.strike(Key::Enter),
                };
                assert_eq!(by_button, [wish], "{told:?} {name}");
            }
        }
    }
    for cap in ["F9", "F10", "F11", "F12"] {
        assert!(asked.contains(cap) && refused.contains(cap), "{cap}");
    }
    assert!(asked.len() > 25, "{asked:?}");
}

/// Keys without a button of their own do nothing that is not on offer either.
#[test]
fn no_key_asks_for_what_cannot_be_done() {
    for sample in more_situations() {
        let view = sample.view();
        let waits = entries(&view).contains(&Entry::Wait) && view.doing.is_none();
        for row in TABLE {
            match row.asked(&view) {
                Asked::Wish(Wish::Do(intent)) => assert!(view.can(intent), "{}", row.cap),
                Asked::Wish(Wish::Wait) => assert!(waits, "{:?}", sample.way),
                Asked::Wish(Wish::Page(_)) => assert!(pages_turn(&view)),
                Asked::Into(Group::Panel) => assert!(reaches_panel(&view)),
                Asked::Into(Group::Sheet) => assert!(has_sheet(view.way)),
                _ => {}
            }
        }
    }
}

#[test]
fn each_key_says_what_it_does() {
    let words = rackproof_words::Words::english();
    for row in TABLE {
        assert!(words.has(row.says), "{}", row.says);
    }
}
