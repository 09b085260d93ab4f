//! Where the focus goes: Tab from part to part, arrows inside a part, and in the hall the arrows
//! turn the view.

use egui::{Event, EventFilter, Id, Key, LayerId, Pos2, Rect, Ui, Vec2};

use crate::Wish;
use crate::keys::Group;

/// How far an arrow turns the view, in degrees.
const TURN: f32 = 5.0;

/// The parts of a page, in the order of Tab. Where two lie over each other, the first has what
/// stands in it.
pub(crate) struct Groups(Vec<(Group, Rect)>);

/// A widget that can take the focus.
#[derive(Clone, Copy)]
struct Spot {
    id: Id,
    rect: Rect,
}

impl Groups {
    pub(crate) fn new(parts: Vec<(Group, Rect)>) -> Groups {
        Groups(parts)
    }

    /// Moves the focus as the keys of this frame say, or into a part.
    pub(crate) fn go(&self, ui: &Ui, into: Option<Group>, wishes: &mut Vec<Wish>) {
        let spots = spots(ui, ui.layer_id());
        let focused = hold(ui);
        let here = focused.and_then(|id| spots.iter().find(|spot| spot.id == id).copied());
        if let Some(group) = into {
            return self.enter(ui, &spots, group);
        }
        for (key, shift) in struck(ui) {
            if key == Key::Tab {
                self.tab(ui, &spots, here, shift);
            }
            let (Some(here), Some(way)) = (here, direction(key)) else {
                continue;
            };
            match self.of(here) {
                Some(Group::Hall) => wishes.push(Wish::Turn(-way.x * TURN, -way.y * TURN)),
                Some(group) => {
                    let within: Vec<Spot> = self.within(&spots, group).collect();
                    step(ui, &within, here, way);
                }
                None => {}
            }
        }
        let in_hall = here.is_some_and(|here| self.of(here) == Some(Group::Hall));
        if in_hall && struck(ui).contains(&(Key::Home, false)) {
            wishes.push(Wish::TurnBack);
        }
    }

    fn tab(&self, ui: &Ui, spots: &[Spot], here: Option<Spot>, back: bool) {
        let count = self.0.len();
        let at = here.and_then(|here| self.of(here));
        let at = at.and_then(|group| self.0.iter().position(|(other, _)| *other == group));
        let order = (1..=count).map(|step| match (at, back) {
            (Some(at), false) => (at + step) % count,
            (Some(at), true) => (at + count - step) % count,
            (None, false) => step - 1,
            (None, true) => count - step,
        });
        for number in order {
            let group = self.0[number].0;
            if self.within(spots, group).next().is_some() {
                return self.enter(ui, spots, group);
            }
        }
    }

    fn enter(&self, ui: &Ui, spots: &[Spot], group: Group) {
        if let Some(spot) = self.within(spots, group).next() {
            ui.memory_mut(|memory| memory.request_focus(spot.id));
        }
    }

    fn within<'s>(&'s self, spots: &'s [Spot], group: Group) -> impl Iterator<Item = Spot> + 's {
        let spots = spots.iter().copied();
        spots.filter(move |spot| self.of(*spot) == Some(group))
    }

    /// The part that a widget belongs to. The hall itself is as large as all that lies over it.
    fn of(&self, spot: Spot) -> Option<Group> {
        let hall = self.0.iter().find(|(group, _)| *group == Group::Hall);
        if hall.is_some_and(|(_, rect)| spot.rect.area() > rect.area() / 2.0) {
            return Some(Group::Hall);
        }
        let middle = spot.rect.center();
        let mut parts = self.0.iter();
        parts
            .find(|(_, rect)| rect.contains(middle))
            .map(|(group, _)| *group)
    }
}

/// Inside one thing, such as what lies over the page: Tab goes from widget to widget, round and
/// round, and arrows to the nearest.
pub(crate) fn inside(ui: &Ui, layer: LayerId) {
    let spots = spots(ui, layer);
    let focused = hold(ui);
    let here = focused.and_then(|id| spots.iter().position(|spot| spot.id == id));
    for (key, shift) in struck(ui) {
        let count = spots.len();
        if count == 0 {
            return;
        }
        if key == Key::Tab {
            let next = match (here, shift) {
                (Some(at), false) => (at + 1) % count,
                (Some(at), true) => (at + count - 1) % count,
                (None, false) => 0,
                (None, true) => count - 1,
            };
            ui.memory_mut(|memory| memory.request_focus(spots[next].id));
        } else if let (Some(at), Some(way)) = (here, direction(key)) {
            step(ui, &spots, spots[at], way);
        }
    }
}

/// Keeps Tab, arrows and Esc from what has the focus: they are ours.
fn hold(ui: &Ui) -> Option<Id> {
    // What has got the focus in this very frame got it from Tab, for want of another.
    let focused = ui.memory(|memory| {
        let focused = memory.focused();
        focused.filter(|id| memory.had_focus_last_frame(*id))
    });
    if let Some(id) = focused {
        let filter = EventFilter {
            tab: true,
            horizontal_arrows: true,
            vertical_arrows: true,
            escape: true,
        };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(id, filter));
    }
    focused
}

/// Goes to the nearest widget on this way, if there is one.
fn step(ui: &Ui, spots: &[Spot], here: Spot, way: Vec2) {
    let from = here.rect.center();
    let far = |spot: &Spot| distance(from, spot.rect.center(), way);
    let nearest = spots
        .iter()
        .filter(|spot| spot.id != here.id)
        .filter_map(|spot| far(spot).map(|far| (far, spot.id)))
        .min_by(|(one, _), (other, _)| one.total_cmp(other));
    if let Some((_, id)) = nearest {
        ui.memory_mut(|memory| memory.request_focus(id));
    }
}

/// How far a point lies on a way. What lies aside counts three times. `None`: not on this way.
fn distance(from: Pos2, to: Pos2, way: Vec2) -> Option<f32> {
    let between = to - from;
    let along = between.dot(way);
    let aside = (between - way * along).length();
    (along > 1.0).then_some(along + 3.0 * aside)
}

/// Where an arrow points to. Down is positive.
fn direction(key: Key) -> Option<Vec2> {
    match key {
        Key::ArrowUp => Some(Vec2::UP),
        Key::ArrowDown => Some(Vec2::DOWN),
        Key::ArrowLeft => Some(Vec2::LEFT),
        Key::ArrowRight => Some(Vec2::RIGHT),
        _ => None,
    }
}

/// The keys of this frame that move the focus, with whether Shift was down.
fn struck(ui: &Ui) -> Vec<(Key, bool)> {
    ui.input(|input| {
        let keys = input.events.iter().filter_map(|event| match event {
            Event::Key {
                key,
                pressed: true,
                modifiers,
                ..
            } if !modifiers.ctrl && !modifiers.alt => Some((*key, modifiers.shift)),
            _ => None,
        });
        keys.collect()
    })
}

/// All widgets of the last pass that can take the focus, in the order in which they were made.
fn spots(ui: &Ui, layer: LayerId) -> Vec<Spot> {
    ui.ctx().viewport(|viewport| {
        let all = &viewport.prev_pass.widgets;
        let spots = all
            .get_layer(layer)
            .filter(|widget| widget.sense.is_focusable() && widget.enabled);
        spots
            .map(|widget| Spot {
                id: widget.id,
                rect: widget.rect,
            })
            .collect()
    })
}

/// Scrolls to what has just got the focus.
pub(crate) fn reveal(ui: &Ui) {
    let Some(id) = ui.memory(|memory| memory.focused()) else {
        return;
    };
    let last = ui.id().with("focused last");
    let known = ui.data(|data| data.get_temp::<Id>(last));
    let rect = ui.ctx().viewport(|viewport| {
        let widgets = &viewport.prev_pass.widgets;
        widgets.get(id).map(|widget| widget.rect)
    });
    let Some(rect) = rect.filter(|_| known != Some(id)) else {
        return;
    };
    ui.data_mut(|data| data.insert_temp(last, id));
    if ui.min_rect().contains_rect(rect) && !ui.clip_rect().contains_rect(rect) {
        ui.scroll_to_rect(rect, None);
    }
}
