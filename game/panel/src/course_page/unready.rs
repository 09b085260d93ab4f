//! The course page without a drill to choose: none there, one that cannot be read, one on its way.

use egui::accesskit::{Live, Role};
use egui::{Frame, Key, Margin, Rect, ScrollArea, Sense, Stroke, Ui, pos2, vec2};
use rackproof_words::{Arg, Words};

use crate::marks::{self, AlarmFace, Inks, Pencil, Priority};
use crate::tokens::{self, Step, Weight};
use crate::widgets::{ACTION, ButtonLook, head, key_button, say};
use crate::wish::Wish;

/// Why there is no drill to choose.
#[derive(Clone, Copy, Debug)]
pub enum Unready<'v> {
    /// No drill is there.
    Empty,
    /// A drill cannot be read: its name, and every problem with file, line and what was expected.
    Unreadable(&'v str, &'v [String]),
    /// A drill is being read: its name, and for how long, in s. Shown from 0.3 s on.
    Loading(&'v str, f64),
}

/// After so long it is said that something is being read, in s.
const SHOWN_AFTER: f64 = 0.3;

/// Shows why there is no drill to choose, and what can be done.
pub fn unready_page(words: &Words, why: Unready<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let room = ui.available_rect_before_wrap();
    ui.painter().rect_filled(room, 0, tokens::HALL);
    if ui.input(|input| input.key_pressed(Key::Escape)) {
        wishes.push(Wish::Quit);
    }
    if matches!(why, Unready::Loading(_, since) if since < SHOWN_AFTER) {
        return;
    }
    let width = 560.0_f32.min(room.width() - 2.0 * tokens::PAGE_MARGIN);
    let corner = pos2(
        room.center().x - width / 2.0,
        room.top() + room.height() * 0.2,
    );
    let place = Rect::from_min_max(corner, pos2(corner.x + width, room.bottom() - 12.0));
    let mut card = ui.new_child(egui::UiBuilder::new().max_rect(place));
    Frame::NONE
        .fill(tokens::PAPER)
        .stroke(Stroke::new(tokens::RULE_WIDTH, tokens::INK))
        .inner_margin(Margin::same(16))
        .show(&mut card, |ui| {
            ui.set_width(width - 32.0);
            ui.ctx().accesskit_node_builder(ui.unique_id(), |node| {
                node.set_role(Role::Group);
                node.set_live(Live::Polite);
            });
            contents(words, why, ui);
            ui.add_space(tokens::MARGIN);
            let leave = words.say("course-leave", &[]);
            if key_button(ui, &leave, Some("Esc"), ButtonLook::Plain, ACTION, true).clicked() {
                wishes.push(Wish::Quit);
            }
        });
}

fn contents(words: &Words, why: Unready<'_>, ui: &mut Ui) {
    let (title, text) = match why {
        Unready::Empty => (words.say("course-empty", &[]), "course-empty-text"),
        Unready::Unreadable(drill, _) => (
            words.say("course-unreadable", &[("drill", Arg::from(drill))]),
            "course-unreadable-text",
        ),
        Unready::Loading(drill, _) => (
            words.say("course-loading", &[("drill", Arg::from(drill))]),
            "course-loading-text",
        ),
    };
    ui.horizontal(|ui| {
        let (rect, _) = ui.allocate_exact_size(vec2(34.0, 30.0), Sense::hover());
        match why {
            Unready::Unreadable(..) => {
                marks::alarm(ui.painter(), rect, Priority::Medium, AlarmFace::Filled);
            }
            _ => rack_glyph(ui, rect),
        }
        head(ui, &title);
    });
    say(
        ui,
        &words.say(text, &[]),
        Step::Text,
        Weight::Regular,
        tokens::INK,
    );
    if let Unready::Unreadable(_, problems) = why {
        ui.add_space(tokens::GAP);
        let most = (ui.available_height() - 80.0).max(80.0);
        ScrollArea::vertical().max_height(most).show(ui, |ui| {
            for problem in problems {
                say(ui, problem, Step::Small, Weight::SemiBold, tokens::INK);
            }
        });
    }
}

/// Two uprights, and the next slot dashed: what is still to come.
fn rack_glyph(ui: &Ui, rect: Rect) {
    let painter = ui.painter();
    let stroke = Stroke::new(2.5, tokens::INK);
    for x in [rect.left() + 4.0, rect.right() - 4.0] {
        painter.vline(x, rect.y_range(), stroke);
    }
    let slot = Rect::from_center_size(rect.center(), vec2(rect.width() - 14.0, 10.0));
    marks::pencil_slot(painter, slot, Pencil::Empty, Inks::WINDOW);
}
