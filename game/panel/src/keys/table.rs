//! The table itself, in the order in which the help shows it.

use egui::Key;
use rackproof_drill::{IntentKind as Kind, Stand};

use super::{Does, Group};
use crate::Over;

/// What a key is for: the parts of the help.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum KeyPart {
    /// What hands, feet and eyes do.
    Hands,
    /// What is said and written.
    Words,
    /// The operator panel.
    Panel,
    /// The window.
    Window,
}

impl KeyPart {
    /// All parts, in the order in which they are shown.
    pub const ALL: [KeyPart; 4] = [Self::Hands, Self::Words, Self::Panel, Self::Window];
}

/// One key.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KeyRow {
    /// The key.
    pub key: Key,
    /// With Shift.
    pub shift: bool,
    /// What stands on it.
    pub cap: &'static str,
    /// The message that says what it does.
    pub says: &'static str,
    /// What it is for.
    pub part: KeyPart,
    /// What it does.
    pub does: Does,
}

const fn row(part: KeyPart, key: Key, cap: &'static str, says: &'static str, does: Does) -> KeyRow {
    KeyRow {
        key,
        shift: false,
        cap,
        says,
        part,
        does,
    }
}

const fn hands(key: Key, cap: &'static str, says: &'static str, does: Does) -> KeyRow {
    row(KeyPart::Hands, key, cap, says, does)
}

const fn words(key: Key, cap: &'static str, says: &'static str, does: Does) -> KeyRow {
    row(KeyPart::Words, key, cap, says, does)
}

const fn panel(key: Key, cap: &'static str, says: &'static str, does: Does) -> KeyRow {
    row(KeyPart::Panel, key, cap, says, does)
}

const fn window(key: Key, cap: &'static str, says: &'static str, does: Does) -> KeyRow {
    row(KeyPart::Window, key, cap, says, does)
}

/// Every key of the drill page.
pub const TABLE: &[KeyRow] = &[
    hands(
        Key::Num1,
        "1",
        "intent-walk-infeed",
        Does::Walk(Stand::Infeed),
    ),
    hands(
        Key::Num2,
        "2",
        "intent-walk-hatch",
        Does::Walk(Stand::Hatch),
    ),
    hands(
        Key::Num3,
        "3",
        "intent-walk-isolator",
        Does::Walk(Stand::Isolator),
    ),
    hands(
        Key::Num4,
        "4",
        "intent-walk-panel",
        Does::Walk(Stand::Panel),
    ),
    hands(
        Key::Num5,
        "5",
        "intent-walk-outfeed",
        Does::Walk(Stand::Outfeed),
    ),
    hands(
        Key::L,
        "L",
        "key-look",
        Does::Act(&[Kind::LookMouth, Kind::LookInfeedSide]),
    ),
    hands(
        Key::OpenBracket,
        "[",
        "key-lean-infeed",
        Does::Act(&[Kind::LookInfeedSide]),
    ),
    hands(
        Key::CloseBracket,
        "]",
        "key-lean-outfeed",
        Does::Act(&[Kind::LookOutfeedSide]),
    ),
    hands(Key::PageUp, "Page Up", "key-torch-up", Does::Torch(1.0)),
    hands(
        Key::PageDown,
        "Page Down",
        "key-torch-down",
        Does::Torch(-1.0),
    ),
    hands(Key::G, "G", "key-torch", Does::Act(&[Kind::Torch])),
    hands(
        Key::Z,
        "Z",
        "key-hand",
        Does::Act(&[Kind::HandOut, Kind::HandIn]),
    ),
    hands(
        Key::T,
        "T",
        "key-take",
        Does::Act(&[Kind::Take, Kind::TakeFromBelt]),
    ),
    hands(
        Key::J,
        "J",
        "key-work-free",
        Does::Act(&[Kind::TakeFromMouth]),
    ),
    hands(
        Key::B,
        "B",
        "key-put-down",
        Does::Act(&[
            Kind::PutDownGood,
            Kind::PutDownQuarantine,
            Kind::PutDownScrap,
        ]),
    ),
    hands(Key::I, "I", "key-put-in", Does::Act(&[Kind::PutIn])),
    hands(Key::R, "R", "key-try-board", Does::Nothing),
    hands(
        Key::D,
        "D",
        "key-hatch",
        Does::Act(&[Kind::OpenHatch, Kind::ShutHatch]),
    ),
    hands(
        Key::O,
        "O",
        "key-isolator",
        Does::Act(&[Kind::IsolatorOff, Kind::IsolatorOn]),
    ),
    hands(
        Key::K,
        "K",
        "key-lock",
        Does::Act(&[Kind::LockOn, Kind::LockOff]),
    ),
    hands(
        Key::Y,
        "Y",
        "intent-try-start",
        Does::Act(&[Kind::TryStart]),
    ),
    hands(
        Key::V,
        "V",
        "key-prop",
        Does::Act(&[Kind::SetProp, Kind::RemoveProp]),
    ),
    hands(
        Key::X,
        "X",
        "key-cord",
        Does::Act(&[Kind::PlugCord, Kind::UnplugCord]),
    ),
    hands(
        Key::U,
        "U",
        "intent-release-emergency",
        Does::Act(&[Kind::ReleaseEmergency]),
    ),
    hands(
        Key::Q,
        "Q",
        "key-key",
        Does::Act(&[Kind::KeyIn, Kind::KeyOut]),
    ),
    hands(
        Key::F,
        "F",
        "intent-test-straps",
        Does::Act(&[Kind::TestStraps]),
    ),
    hands(Key::F8, "F8", "key-emergency", Does::Emergency),
    words(
        Key::C,
        "C",
        "key-upstream",
        Does::Act(&[Kind::AskUpstreamHold, Kind::LetUpstreamGo]),
    ),
    words(
        Key::S,
        "S",
        "key-downstream",
        Does::Act(&[Kind::AskDownstreamHold, Kind::LetDownstreamGo]),
    ),
    words(
        Key::A,
        "A",
        "intent-call-lead",
        Does::Act(&[Kind::CallLead]),
    ),
    words(
        Key::N,
        "N",
        "intent-write-log",
        Does::Act(&[Kind::WriteLog]),
    ),
    words(Key::M, "M", "key-sheet", Does::Into(Group::Sheet)),
    words(Key::H, "H", "key-hint", Does::Hint),
    words(Key::F2, "F2", "key-way-on", Does::WayOn),
    words(Key::W, "W", "key-wait", Does::Wait),
    panel(Key::P, "P", "key-panel", Does::Into(Group::Panel)),
    panel(
        Key::F5,
        "F5",
        "key-answer-taken",
        Does::Act(&[Kind::AnswerTaken]),
    ),
    panel(
        Key::F6,
        "F6",
        "key-answer-seen-empty",
        Does::Act(&[Kind::AnswerSeenEmpty]),
    ),
    panel(
        Key::F7,
        "F7",
        "key-answer-not-sure",
        Does::Act(&[Kind::AnswerNotSure]),
    ),
    panel(Key::F9, "F9", "intent-start", Does::Act(&[Kind::Start])),
    panel(Key::F10, "F10", "intent-stop", Does::Act(&[Kind::Stop])),
    panel(Key::F11, "F11", "key-reset", Does::Act(&[Kind::Reset])),
    panel(Key::F12, "F12", "key-pages", Does::Pages),
    panel(
        Key::E,
        "E",
        "intent-acknowledge",
        Does::Act(&[Kind::Acknowledge]),
    ),
    window(Key::Tab, "Tab", "key-next-group", Does::Focus),
    KeyRow {
        shift: true,
        ..window(Key::Tab, "Shift Tab", "key-group-before", Does::Focus)
    },
    window(Key::ArrowUp, "Up", "key-arrows", Does::Focus),
    window(Key::ArrowDown, "Down", "key-arrows", Does::Focus),
    window(Key::ArrowLeft, "Left", "key-arrows", Does::Focus),
    window(Key::ArrowRight, "Right", "key-arrows", Does::Focus),
    window(Key::Home, "Home", "key-turn-back", Does::Focus),
    window(Key::Enter, "Enter", "key-enter", Does::Focus),
    window(Key::Space, "Space", "key-space", Does::Play),
    window(Key::F1, "F1", "key-help", Does::Over(Over::Help)),
    window(Key::F3, "F3", "key-parts", Does::Over(Over::Parts)),
    window(Key::F4, "F4", "key-settings", Does::Over(Over::Settings)),
    window(Key::Escape, "Esc", "key-back", Does::Back),
];
