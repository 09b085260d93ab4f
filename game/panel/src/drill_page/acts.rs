//! What can be done here, in the words of a button.

use rackproof_buffer::{Button, Question, UnitState};
use rackproof_drill::message::{IntentGroup, group_of, of_half, of_intent, product_name};
use rackproof_drill::{Intent, IntentKind as Kind, Stand};
use rackproof_phrases::text;
use rackproof_words::Arg;

use crate::keys::{self, Does, Group, wish_for};
use crate::{DrillView, Wish};

/// One button of what can be done here.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Entry {
    /// An act on offer. Which slot or which tray is asked for afterwards.
    Act(Intent),
    /// Go to the panel with the hands: it is in reach.
    Panel,
    /// Wait for the next event.
    Wait,
}

/// All that can be done here, the panel apart, in the order of the menu.
pub(crate) fn entries(view: &DrillView<'_>) -> Vec<Entry> {
    let mut entries: Vec<Entry> = Vec::new();
    let mut kinds = Vec::new();
    let mut offers: Vec<Intent> = view.offers.to_vec();
    offers.sort_by_key(|intent| place(*intent));
    for intent in offers {
        let elsewhere = matches!(
            intent,
            Intent::Walk(_) | Intent::Press(_) | Intent::PressEmergency
        );
        let asked = wish_for(intent);
        if elsewhere || kinds.contains(&asked) {
            continue;
        }
        kinds.push(asked);
        entries.push(Entry::Act(intent));
    }
    if reaches_panel(view) && view.panel.is_some() {
        let people = |entry: &Entry| match entry {
            Entry::Act(intent) => group_of(*intent) >= IntentGroup::People,
            _ => false,
        };
        let at = entries.iter().position(people).unwrap_or(entries.len());
        entries.insert(at, Entry::Panel);
    }
    if keys::can_wait(view) {
        entries.push(Entry::Wait);
    }
    entries
}

/// Whether the panel can be pressed from where I stand.
pub(crate) fn reaches_panel(view: &DrillView<'_>) -> bool {
    view.world.hall().panel_reach.contains(&view.person.stand)
}

/// Where a button stands among the others. What belongs to this place comes before what can be
/// done everywhere.
fn place(intent: Intent) -> (u8, IntentGroup) {
    let everywhere = match intent {
        Intent::Report => 3,
        Intent::AskUpstreamHold
        | Intent::LetUpstreamGo
        | Intent::AskDownstreamHold
        | Intent::LetDownstreamGo
        | Intent::CallLead => 2,
        Intent::Torch(_) | Intent::WearGloves => 1,
        _ => 0,
    };
    (everywhere, group_of(intent))
}

impl Entry {
    /// What it asks for; going to the panel is a matter of the focus.
    pub(crate) fn wish(self) -> Option<Wish> {
        match self {
            Entry::Act(intent) => Some(wish_for(intent)),
            Entry::Panel => None,
            Entry::Wait => Some(Wish::Wait),
        }
    }

    /// The words on it.
    pub(crate) fn label(self, view: &DrillView<'_>) -> String {
        match self {
            Entry::Act(Intent::Torch(true)) => view.words.say("act-torch-on", &[]),
            Entry::Act(Intent::Torch(false)) => view.words.say("act-torch-off", &[]),
            Entry::Act(intent) => view.words.say(short(intent.kind()), &[]),
            Entry::Panel => view.words.say("act-use-panel", &[]),
            Entry::Wait => view.words.say("act-wait", &[]),
        }
    }

    /// The key that does the same.
    pub(crate) fn cap(self) -> Option<&'static str> {
        match self {
            Entry::Act(intent) => keys::cap_of(intent.kind()),
            Entry::Panel => keys::cap_for(Does::Into(Group::Panel)),
            Entry::Wait => keys::cap_for(Does::Wait),
        }
    }

    /// Whether the next step of the guide is done with this button.
    pub(crate) fn is_next(self, view: &DrillView<'_>) -> bool {
        let Some(ahead) = view.ahead else {
            return false;
        };
        match (self, ahead.intent) {
            (Entry::Act(intent), Some(next)) => wish_for(intent) == wish_for(next),
            (Entry::Panel, Some(Intent::Press(_))) | (Entry::Wait, None) => true,
            _ => false,
        }
    }
}

/// The short words for a kind of act.
pub(crate) fn short(kind: Kind) -> &'static str {
    match kind {
        Kind::Walk => "act-walk",
        Kind::TestStraps => "act-test-straps",
        Kind::Torch => "key-torch",
        Kind::LookInfeedSide => "act-look-infeed-side",
        Kind::LookOutfeedSide => "act-look-outfeed-side",
        Kind::LookMouth => "act-look-mouth",
        Kind::OpenHatch => "act-open-hatch",
        Kind::ShutHatch => "act-shut-hatch",
        Kind::PlugCord => "act-plug-cord",
        Kind::UnplugCord => "act-unplug-cord",
        Kind::SetProp => "act-set-prop",
        Kind::RemoveProp => "act-remove-prop",
        Kind::IsolatorOff => "act-isolator-off",
        Kind::IsolatorOn => "act-isolator-on",
        Kind::LockOn => "act-lock-on",
        Kind::LockOff => "act-lock-off",
        Kind::TryStart => "act-try-start",
        Kind::HandIn => "act-hand-in",
        Kind::HandOut => "act-hand-out",
        Kind::Take => "act-take",
        Kind::PutIn => "act-put-in",
        Kind::TakeFromBelt => "act-take-from-belt",
        Kind::TakeFromMouth => "act-take-from-mouth",
        Kind::PutDownGood | Kind::PutDownQuarantine | Kind::PutDownScrap => "act-put-down",
        Kind::KeyIn => "act-key-in",
        Kind::KeyOut => "act-key-out",
        Kind::AskUpstreamHold => "act-ask-upstream",
        Kind::LetUpstreamGo => "act-let-upstream-go",
        Kind::AskDownstreamHold => "act-ask-downstream",
        Kind::LetDownstreamGo => "act-let-downstream-go",
        Kind::CallLead => "act-call-lead",
        Kind::WearGloves => "act-wear-gloves",
        Kind::ClearScrew => "act-clear-screw",
        Kind::WipeLenses => "act-wipe-lenses",
        Kind::ClearPlug => "act-clear-plug",
        Kind::WriteLog => "act-write-log",
        Kind::Report => "act-report",
        other => pressed(other),
    }
}

/// The short words for what is pressed.
fn pressed(kind: Kind) -> &'static str {
    match kind {
        Kind::PressEmergency => "intent-press-emergency",
        Kind::ReleaseEmergency => "act-release-emergency",
        Kind::Start => "intent-start",
        Kind::Stop => "intent-stop",
        Kind::Reset => "intent-reset",
        Kind::ModeProduction => "intent-mode-production",
        Kind::ModeChangeover => "intent-mode-changeover",
        Kind::ClearOut => "intent-clear-out",
        Kind::AnswerTaken | Kind::AnswerSeenEmpty | Kind::AnswerNotSure => "act-answer",
        Kind::Acknowledge => "intent-acknowledge",
        Kind::HoldDeclare | Kind::LetGoDeclare => "act-declare",
        _ => "act-use-panel",
    }
}

/// An intent in its full words, as the dialog and the journal have it.
pub(crate) fn sentence(view: &DrillView<'_>, intent: Intent) -> String {
    let words = view.words;
    if let (Intent::Press(button), Some(panel)) = (intent, &view.panel) {
        let chosen = Arg::from(product_name(view.world, panel.chosen));
        match (button, panel.question) {
            (Button::Reset, _) if panel.unit == UnitState::Aborted => {
                return words.say("intent-clear", &[]);
            }
            (Button::Load, _) => return words.say("intent-load", &[("product", chosen)]),
            (Button::Answer(answer), Some(Question::AnswerHalf(at))) => {
                use rackproof_buffer::Answer;
                let id = match answer {
                    Answer::Taken => "intent-answer-half-taken",
                    Answer::SeenEmpty => "intent-answer-half-seen-empty",
                    Answer::NotSure => "intent-answer-half-not-sure",
                };
                let half = text(words, &of_half(at.half));
                let slot = Arg::Number(i64::from(at.slot) + 1);
                return words.say(id, &[("slot", slot), ("half", half.into())]);
            }
            (Button::Answer(answer), Some(Question::Answer(slot))) => {
                use rackproof_buffer::Answer;
                let id = match answer {
                    Answer::Taken => "intent-answer-taken",
                    Answer::SeenEmpty => "intent-answer-seen-empty",
                    Answer::NotSure => "intent-answer-not-sure",
                };
                return words.say(id, &[("slot", Arg::Number(i64::from(slot) + 1))]);
            }
            _ => {}
        }
    }
    // Only the person's place is read of it: belts and mouths are those where they stand.
    let mut state = view.world.start();
    state.person = view.person;
    text(words, &of_intent(view.world, &state, intent))
}

/// The standing places in the order of their numbers, along the machine.
pub(crate) const PLACES: [Stand; 5] = [
    Stand::Infeed,
    Stand::Hatch,
    Stand::Isolator,
    Stand::Panel,
    Stand::Outfeed,
];

/// The number of a standing place, from 1.
pub(crate) fn number_of(stand: Stand) -> u8 {
    let at = PLACES.iter().position(|place| *place == stand);
    u8::try_from(at.unwrap_or(0)).unwrap_or(0) + 1
}

/// Where acts of this kind are done. Empty: anywhere.
pub(crate) fn done_at(view: &DrillView<'_>, kind: Kind) -> Vec<Stand> {
    let hall = view.world.hall();
    match kind {
        Kind::OpenHatch
        | Kind::ShutHatch
        | Kind::LookInfeedSide
        | Kind::LookOutfeedSide
        | Kind::PlugCord
        | Kind::UnplugCord
        | Kind::SetProp
        | Kind::RemoveProp
        | Kind::HandIn
        | Kind::HandOut
        | Kind::Take
        | Kind::PutIn => vec![Stand::Hatch],
        Kind::IsolatorOff | Kind::IsolatorOn | Kind::LockOn | Kind::LockOff => {
            vec![Stand::Isolator]
        }
        Kind::KeyIn | Kind::KeyOut | Kind::WriteLog => vec![Stand::Panel],
        Kind::LookMouth | Kind::TakeFromBelt | Kind::TakeFromMouth => {
            vec![Stand::Infeed, Stand::Outfeed]
        }
        Kind::PressEmergency | Kind::ReleaseEmergency => hall.emergency_stops.clone(),
        Kind::Walk
        | Kind::TestStraps
        | Kind::Torch
        | Kind::PutDownGood
        | Kind::PutDownQuarantine
        | Kind::PutDownScrap
        | Kind::AskUpstreamHold
        | Kind::LetUpstreamGo
        | Kind::AskDownstreamHold
        | Kind::LetDownstreamGo
        | Kind::CallLead
        | Kind::Report => Vec::new(),
        _ => hall.panel_reach.clone(),
    }
}
