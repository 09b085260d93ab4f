//! Where the focus goes: Tab from part to part, arrows inside a part, and in the hall the arrows
//! turn the view.

mod kept;

use egui::{Event, EventFilter, Id, Key, LayerId, Rangef, Rect, Ui, Vec2};

use crate::Wish;
use crate::keys::Group;
use kept::Kept;

/// How far an arrow turns the view, in degrees.
const TURN: f32 = 5.0;

/// The parts of a page, in the order of Tab, and which widgets were made in which part.
pub(crate) struct Groups {
    order: [Group; 6],
    hall: Rect,
    made: Vec<(Group, Id)>,
}

/// A widget that can take the focus.
#[derive(Clone, Copy)]
struct Spot {
    id: Id,
    rect: Rect,
}

impl Groups {
    pub(crate) fn new(order: [Group; 6], hall: Rect) -> Groups {
        let made = Vec::new();
        Groups { order, hall, made }
    }

    /// Shows a part: what it makes belongs to it, wherever it is scrolled to.
    pub(crate) fn show<R>(
        &mut self,
        ui: &mut Ui,
        group: Group,
        add: impl FnOnce(&mut Ui) -> R,
    ) -> R {
        let before = spots(ui, ui.layer_id()).len();
        let answer = add(ui);
        let made = spots(ui, ui.layer_id()).into_iter().skip(before);
        self.made.extend(made.map(|spot| (group, spot.id)));
        answer
    }

    /// Moves the focus as the keys of this frame say, or into a part.
    pub(crate) fn go(&self, ui: &Ui, into: Option<Group>, wishes: &mut Vec<Wish>) {
        let spots = spots(ui, ui.layer_id());
        let focused = hold(ui);
        let mut here = focused.and_then(|id| spots.iter().find(|spot| spot.id == id).copied());
        if let Some(group) = into {
            here = self.first(&spots, group);
            give_to(ui, here);
            return self.keep(ui, here);
        }
        for (key, shift) in struck(ui) {
            if key == Key::Tab {
                // A part where all is off just now is still where the focus was.
                let at = here.and_then(|here| self.of(here));
                let at = at.or_else(|| kept::last(ui).map(|kept| kept.group));
                here = self.tab(&spots, at, shift).or(here);
                give_to(ui, here);
            }
            let (Some(from), Some(way)) = (here, direction(key)) else {
                continue;
            };
            match self.of(from) {
                Some(Group::Hall) => wishes.push(Wish::Turn(-way.x * TURN, -way.y * TURN)),
                Some(group) => {
                    let within: Vec<Spot> = self.within(&spots, group).collect();
                    here = nearest(&within, from, way).or(here);
                    give_to(ui, here);
                }
                None => {}
            }
        }
        let in_hall = here.is_some_and(|here| self.of(here) == Some(Group::Hall));
        if in_hall && struck(ui).contains(&(Key::Home, false)) {
            wishes.push(Wish::TurnBack);
        }
        self.keep(ui, here);
    }

    /// What had the focus and is gone or off leaves it to what now stands nearest to it in its
    /// part.
    pub(crate) fn mend(&self, ui: &Ui) {
        let spots = spots(ui, ui.layer_id());
        let focused = ui.memory(|memory| memory.focused());
        let lost = focused.is_none_or(|id| {
            ui.ctx().viewport(|viewport| {
                let widget = viewport.this_pass.widgets.get(id);
                widget.is_none_or(|widget| !widget.enabled)
            })
        });
        let pressed = ui.input(|input| input.pointer.any_pressed());
        let kept = kept::last(ui).filter(|_| lost && !pressed);
        let Some(Kept { group, rect, .. }) = kept else {
            return;
        };
        let far = |spot: &Spot| spot.rect.center().distance_sq(rect.center());
        let nearest = self
            .within(&spots, group)
            .min_by(|one, other| far(one).total_cmp(&far(other)));
        give_to(ui, nearest);
    }

    /// The page is shown, but nothing moves the focus: what had it is not forgotten.
    pub(crate) fn stay(ui: &Ui) {
        if let Some(kept) = kept::last(ui) {
            kept::keep(ui, kept.group, kept.rect);
        }
    }

    fn keep(&self, ui: &Ui, here: Option<Spot>) {
        match here.and_then(|here| self.of(here).map(|group| (group, here.rect))) {
            Some((group, rect)) => kept::keep(ui, group, rect),
            None => Groups::stay(ui),
        }
    }

    fn tab(&self, spots: &[Spot], at: Option<Group>, back: bool) -> Option<Spot> {
        let count = self.order.len();
        let at = at.and_then(|group| self.order.iter().position(|other| *other == group));
        let mut order = (1..=count).map(|step| match (at, back) {
            (Some(at), false) => (at + step) % count,
            (Some(at), true) => (at + count - step) % count,
            (None, false) => step - 1,
            (None, true) => count - step,
        });
        order.find_map(|number| self.first(spots, self.order[number]))
    }

    fn first(&self, spots: &[Spot], group: Group) -> Option<Spot> {
        self.within(spots, group).next()
    }

    fn within<'s>(&'s self, spots: &'s [Spot], group: Group) -> impl Iterator<Item = Spot> + 's {
        let spots = spots.iter().copied();
        spots.filter(move |spot| self.of(*spot) == Some(group))
    }

    /// The part that a widget belongs to: the one that made it. The window makes the hall before
    /// all parts, as large as all that lies over it.
    fn of(&self, spot: Spot) -> Option<Group> {
        let mut made = self.made.iter();
        let maker = made.find(|(_, id)| *id == spot.id).map(|(group, _)| *group);
        maker.or_else(|| {
            let is_hall = spot.rect.area() > self.hall.area() / 2.0;
            is_hall.then_some(Group::Hall)
        })
    }
}

/// Gives the focus away. The pass is run once more: only a widget that had the focus in the pass
/// before keeps its keys from egui, which has another order.
pub(crate) fn give(ui: &Ui, id: Id) {
    ui.memory_mut(|memory| memory.request_focus(id));
    ui.ctx().request_discard("the focus moved");
}

fn give_to(ui: &Ui, spot: Option<Spot>) {
    if let Some(spot) = spot {
        give(ui, spot.id);
    }
}

/// Inside one thing, such as what lies over the page: Tab goes from widget to widget, round and
/// round, and arrows to the nearest.
pub(crate) fn inside(ui: &Ui, layer: LayerId) {
    let spots = spots(ui, layer);
    let focused = hold(ui);
    let mut here = focused.and_then(|id| spots.iter().position(|spot| spot.id == id));
    for (key, shift) in struck(ui) {
        let count = spots.len();
        if count == 0 {
            return;
        }
        let next = match (key, here, direction(key)) {
            (Key::Tab, Some(at), _) if shift => (at + count - 1) % count,
            (Key::Tab, Some(at), _) => (at + 1) % count,
            (Key::Tab, None, _) if shift => count - 1,
            (Key::Tab, None, _) => 0,
            (_, Some(at), Some(way)) => {
                let nearest = nearest(&spots, spots[at], way).map(|spot| spot.id);
                let found = spots.iter().position(|spot| Some(spot.id) == nearest);
                found.unwrap_or(at)
            }
            _ => continue,
        };
        here = Some(next);
        give(ui, spots[next].id);
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

/// The nearest widget on this way, if there is one.
fn nearest(spots: &[Spot], here: Spot, way: Vec2) -> Option<Spot> {
    let far = |spot: &Spot| distance(here.rect, spot.rect, way);
    spots
        .iter()
        .filter(|spot| spot.id != here.id)
        .filter_map(|spot| far(spot).map(|far| (far, *spot)))
        .min_by(|(one, _), (other, _)| one.total_cmp(other))
        .map(|(_, spot)| spot)
}

/// How far a widget lies on a way. What does not lie beside it, as far as half of the smaller one,
/// counts three times; what is more in the middle comes first. `None`: not on this way.
fn distance(from: Rect, to: Rect, way: Vec2) -> Option<f32> {
    let between = to.center() - from.center();
    if between.dot(way) <= 1.0 {
        return None;
    }
    let ranges = |rect: Rect| match way.x == 0.0 {
        true => (rect.y_range(), rect.x_range()),
        false => (rect.x_range(), rect.y_range()),
    };
    let ((along, across), (to_along, to_across)) = (ranges(from), ranges(to));
    let common = |one: Rangef, other: Rangef| one.max.min(other.max) - one.min.max(other.min);
    let gap = (-common(along, to_along)).max(0.0);
    let smaller = across.span().min(to_across.span());
    let off = (smaller / 2.0 - common(across, to_across)).max(0.0);
    let aside = (across.center() - to_across.center()).abs();
    Some(gap + 3.0 * off + 0.1 * aside)
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

/// All widgets of this pass that can take the focus, in the order in which they were made.
fn spots(ui: &Ui, layer: LayerId) -> Vec<Spot> {
    ui.ctx().viewport(|viewport| {
        let all = &viewport.this_pass.widgets;
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
