//! The keys of the drill page: one table, from a key to what it asks for.
//!
//! A key asks for nothing that is not on offer. Where it is pressed for an act that is possible
//! elsewhere, the page says where.

mod table;

use egui::{Event, Key, Modifiers, Ui};
use rackproof_drill::{Intent, IntentKind, Stand};

pub use table::{KeyPart, KeyRow, TABLE};

use crate::drill_page::acts::reaches_panel;
use crate::{DrillView, Over, PanelPage, Way, Wish};

/// What a key does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Does {
    /// Walk there.
    Walk(Stand),
    /// The first of these that is on offer.
    Act(&'static [IntentKind]),
    /// The emergency stop, from anywhere.
    Emergency,
    /// Turn the view up or down by one slot: the torch goes with it.
    Torch(f32),
    /// Wait for the next event. Not in an exam: nobody jumps to an event that they cannot know of.
    Wait,
    /// Show the next step. In practice alone.
    Hint,
    /// Show a safe way on from here. In practice alone.
    WayOn,
    /// Into a part of the page.
    Into(Group),
    /// The next page of the operator panel.
    Pages,
    /// Lay something over the page, or take it away again.
    Over(Over),
    /// Close, break off, or pause: whatever is nearest.
    Back,
    /// Watch: play or stand still.
    Play,
    /// The focus moves, or what has it acts: done where the focus is, see `focus`.
    Focus,
    /// This drill has nothing for it.
    Nothing,
}

/// The parts of the page between which Tab moves, in their order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// The top bar.
    Top,
    /// The cards at the left.
    Cards,
    /// The hall.
    Hall,
    /// Tick sheet or notes.
    Sheet,
    /// The operator panel.
    Panel,
    /// The person bar.
    Person,
}

/// What came of a key.
#[derive(Clone, Debug, PartialEq)]
pub enum Asked {
    /// This is wished for.
    Wish(Wish),
    /// The focus goes there.
    Into(Group),
    /// None of these is on offer: the page says where they are.
    NotHere(&'static [IntentKind]),
    /// Nothing.
    Nothing,
}

/// How far the view turns for one slot, in degrees.
pub(crate) const ONE_SLOT: f32 = 4.0;

/// Kinds of which the page asks something more before they are done.
pub(crate) fn wish_for(intent: Intent) -> Wish {
    match intent {
        Intent::Take(_) | Intent::PutIn(_) => Wish::Over(Over::Slots(intent.kind())),
        Intent::PutDown(_) => Wish::Over(Over::Trays),
        Intent::Report => Wish::Over(Over::Report),
        _ => Wish::Do(intent),
    }
}

/// What this key asks for now.
pub fn asked(view: &DrillView<'_>, key: Key, modifiers: Modifiers) -> Asked {
    let shift = modifiers.shift;
    let other = modifiers.ctrl || modifiers.alt || modifiers.command;
    let row = TABLE
        .iter()
        .find(|row| row.key == key && row.shift == shift && !other);
    row.map_or(Asked::Nothing, |row| row.asked(view))
}

impl KeyRow {
    /// Whether it is one character, which can be typed or spoken by accident.
    pub fn is_character(&self) -> bool {
        self.cap.chars().count() == 1
    }

    /// Whether it is one of the four arrows.
    pub fn is_arrow(&self) -> bool {
        let arrows = [
            Key::ArrowUp,
            Key::ArrowDown,
            Key::ArrowLeft,
            Key::ArrowRight,
        ];
        arrows.contains(&self.key)
    }

    /// What it asks for now.
    pub fn asked(&self, view: &DrillView<'_>) -> Asked {
        if self.is_character() && view.preferences.no_letters {
            return Asked::Nothing;
        }
        let behind = view.over.is_some();
        match self.does {
            Does::Emergency if view.way != Way::Watch && !view.around.emergency => {
                Asked::Wish(Wish::Emergency)
            }
            Does::Back => Asked::Wish(back(view)),
            Does::Over(over) if view.over == Some(over) => Asked::Wish(Wish::CloseOver),
            _ if behind => Asked::Nothing,
            Does::Over(over) => Asked::Wish(Wish::Over(over)),
            Does::Into(Group::Sheet) if !has_sheet(view.way) => Asked::Nothing,
            Does::Into(Group::Panel) if !reaches_panel(view) => match view.way {
                Way::Watch => Asked::Nothing,
                _ => Asked::NotHere(&[IntentKind::Load]),
            },
            Does::Into(group) => Asked::Into(group),
            Does::Play => view.watching.map_or(Asked::Nothing, |watching| {
                Asked::Wish(Wish::Play(!watching.plays))
            }),
            Does::Torch(slots) => Asked::Wish(Wish::Turn(0.0, slots * ONE_SLOT)),
            Does::Hint if view.way == Way::Practice => Asked::Wish(Wish::Hint),
            Does::WayOn if view.way == Way::Practice => Asked::Wish(Wish::WayOn),
            _ if view.doing.is_some() || view.way == Way::Watch => Asked::Nothing,
            Does::Walk(stand) => walk(view, stand),
            Does::Act(kinds) => act(view, kinds),
            Does::Pages if pages_turn(view) => Asked::Wish(Wish::Page(next_page(view.page))),
            Does::Wait if can_wait(view) => Asked::Wish(Wish::Wait),
            Does::Emergency
            | Does::Wait
            | Does::Hint
            | Does::WayOn
            | Does::Pages
            | Does::Focus
            | Does::Nothing => Asked::Nothing,
        }
    }
}

fn back(view: &DrillView<'_>) -> Wish {
    if view.over.is_some() {
        Wish::CloseOver
    } else if view.doing.is_some() {
        Wish::BreakOff
    } else {
        Wish::Over(Over::Pause)
    }
}

fn walk(view: &DrillView<'_>, stand: Stand) -> Asked {
    if view.person.stand == stand {
        return Asked::Nothing;
    }
    let walk = Intent::Walk(stand);
    if view.can(walk) {
        Asked::Wish(Wish::Do(walk))
    } else {
        Asked::NotHere(&[IntentKind::Walk])
    }
}

fn act(view: &DrillView<'_>, kinds: &'static [IntentKind]) -> Asked {
    let offered = kinds.iter().find_map(|kind| {
        let mut offers = view.offers.iter();
        offers.find(|offer| offer.kind() == *kind)
    });
    match offered {
        Some(&intent) if view.can(intent) => Asked::Wish(wish_for(intent)),
        _ => Asked::NotHere(kinds),
    }
}

/// Waiting is on offer while anything is, but not in an exam: nobody jumps to an event that they
/// cannot know of.
pub(crate) fn can_wait(view: &DrillView<'_>) -> bool {
    matches!(view.way, Way::Guided | Way::Practice) && !view.offers.is_empty()
}

/// Pages of the panel turn where it is in reach and no hand is held on a button.
pub(crate) fn pages_turn(view: &DrillView<'_>) -> bool {
    view.panel.is_some()
        && view.over.is_none()
        && view.around.hold_left.0 == 0
        && view
            .offers
            .iter()
            .any(|act| matches!(act, Intent::Press(_)))
}

/// The page after this one, round and round.
pub(crate) fn next_page(page: PanelPage) -> PanelPage {
    let all = PanelPage::ALL;
    let at = all.iter().position(|other| *other == page).unwrap_or(0);
    all[(at + 1) % all.len()]
}

/// Whether the trainee keeps a tick sheet: where the program keeps no notes for them.
pub(crate) fn has_sheet(way: Way) -> bool {
    matches!(way, Way::Practice | Way::Exam)
}

/// The cap of the first key that does one of these kinds.
pub fn cap_of(kind: IntentKind) -> Option<&'static str> {
    let does = |row: &&KeyRow| matches!(row.does, Does::Act(kinds) if kinds.contains(&kind));
    TABLE.iter().find(does).map(|row| row.cap)
}

/// The cap of the key that does this.
pub fn cap_for(does: Does) -> Option<&'static str> {
    let mut rows = TABLE.iter();
    rows.find(|row| row.does == does).map(|row| row.cap)
}

/// Reads the keys of this frame. Wishes are appended; the rest is told.
pub(crate) fn read(view: &DrillView<'_>, ui: &Ui, wishes: &mut Vec<Wish>) -> Vec<Asked> {
    let typing = ui.ctx().text_edit_focused();
    let holds = ui.memory(|memory| memory.focused().is_some());
    let mut rest = Vec::new();
    for event in ui.input(|input| input.events.clone()) {
        let Event::Key {
            key,
            pressed: true,
            repeat: false,
            modifiers,
            ..
        } = event
        else {
            continue;
        };
        // While something is typed no key but the function keys is ours; Space is the focus's.
        if typing && key.name().len() == 1 || holds && key == Key::Space {
            continue;
        }
        match asked(view, key, modifiers) {
            Asked::Wish(wish) => wishes.push(wish),
            other => rest.push(other),
        }
    }
    rest
}

#[cfg(test)]
#[path = "keys/key_tests.rs"]
mod key_tests;
