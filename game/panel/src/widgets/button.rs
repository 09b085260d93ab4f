//! Buttons with the key that does the same.

use std::sync::Arc;

use egui::{
    Color32, CornerRadius, Galley, Rect, Response, Sense, Stroke, StrokeKind, Ui, Vec2, WidgetInfo,
    WidgetType,
};

use super::focus::focus_ring;
use super::keycap::{key_cap_size, paint_key_cap};
use crate::fonts;
use crate::marks::{capital_middle, centred_text, dotted_rect};
use crate::tokens::{self, Step, Weight};

/// Size of an action: as wide as its words need.
pub const ACTION: Vec2 = Vec2::new(0.0, tokens::ACTION_HEIGHT);
/// Size of an operator's button: as wide as its words need.
pub const OPERATOR: Vec2 = Vec2::new(0.0, tokens::OPERATOR_HEIGHT);

/// What a button looks like while it is available.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ButtonLook {
    /// An action: paper with an ink edge.
    Plain,
    /// The one main act of a page: ink.
    Primary,
    /// Any button of the operator panel.
    Panel,
    /// Start: white.
    PanelStart,
    /// Stop: black.
    PanelStop,
    /// Reset or Clear: blue.
    PanelBlue,
    /// A button of the operator panel that is not available. Never enabled.
    PanelOff,
    /// A way into teaching: plum.
    Teaching,
    /// An action of the teaching layer on a card: paper with a plum edge.
    TeachingQuiet,
    /// The chosen one of several: paper with a bar.
    Selected,
}

/// A button with all that can be said about it.
#[derive(Clone, Copy, Debug)]
pub struct KeyButton<'a> {
    /// Its act. Also the accessible name.
    pub label: &'a str,
    /// The key that does the same.
    pub key: Option<&'a str>,
    /// What it looks like.
    pub look: ButtonLook,
    /// Width and height in points. Width 0 is as wide as the words need.
    pub size: Vec2,
    /// Whether it can be pressed.
    pub enabled: bool,
    /// A word on plum at its right end, such as "next" in guided mode.
    pub flag: Option<&'a str>,
}

/// A button without a flag.
pub fn key_button(
    ui: &mut Ui,
    label: &str,
    key: Option<&str>,
    look: ButtonLook,
    size: Vec2,
    enabled: bool,
) -> Response {
    let button = KeyButton {
        label,
        key,
        look,
        size,
        enabled,
        flag: None,
    };
    button.show(ui)
}

impl KeyButton<'_> {
    /// Draws it; `clicked()` of the answer says that it was pressed, with whatever.
    pub fn show(self, ui: &mut Ui) -> Response {
        let enabled = self.enabled && self.look != ButtonLook::PanelOff;
        ui.add_enabled_ui(enabled, |ui| self.show_here(ui)).inner
    }

    fn show_here(self, ui: &mut Ui) -> Response {
        let paint = Paint::of(self.look, ui.is_enabled());
        let words = Words::of(&self, ui, paint);
        let width = self.size.x.max(words.width(self.on_panel()).ceil());
        let size = Vec2::new(width, self.size.y);
        let (rect, response) = ui.allocate_exact_size(size, Sense::click());
        let enabled = ui.is_enabled();
        response.widget_info(|| match self.look {
            ButtonLook::Selected => {
                WidgetInfo::selected(WidgetType::Button, enabled, true, self.label)
            }
            _ => WidgetInfo::labeled(WidgetType::Button, enabled, self.label),
        });
        if let Some(key) = self.key {
            ui.ctx()
                .accesskit_node_builder(response.id, |node| node.set_keyboard_shortcut(key));
        }
        if ui.is_rect_visible(rect.expand(tokens::GAP)) {
            self.paint(ui, &response, paint, &words);
        }
        response
    }

    fn paint(&self, ui: &Ui, response: &Response, paint: Paint, words: &Words) {
        let painter = ui.painter();
        let rect = response.rect;
        let down = response.is_pointer_button_down_on();
        paint.ground(ui, rect, response.hovered(), down);
        if self.look == ButtonLook::Selected {
            let bar = rect.with_max_x(rect.left() + tokens::BAR_WIDTH);
            painter.rect_filled(bar, 0, paint.edge);
        }
        let mut inner = rect;
        if let (Some(flag), Some(said)) = (&words.flag, self.flag) {
            let place = rect.with_min_x(rect.right() - flag_width(flag));
            painter.rect_filled(place, tokens::CORNER, tokens::PLUM);
            painter.rect_stroke(
                rect,
                tokens::CORNER,
                Stroke::new(2.0, tokens::PLUM),
                StrokeKind::Inside,
            );
            let font = fonts::text(Step::Note, Weight::Bold);
            centred_text(painter, place.center(), said, font, tokens::PAPER);
            inner = rect.with_max_x(place.left());
        }
        match self.key {
            Some(key) if self.on_panel() => {
                let foot = if down { 0.0 } else { paint.foot() / 2.0 };
                let middle = inner.center() - Vec2::new(0.0, foot);
                let font = paint.font();
                let above = middle - Vec2::new(0.0, 7.5);
                centred_text(painter, above, self.label, font, paint.text);
                let font = fonts::mono(Step::Least, Weight::Regular);
                centred_text(
                    painter,
                    middle + Vec2::new(0.0, 10.0),
                    key,
                    font,
                    paint.text,
                );
            }
            Some(key) => {
                let left = rect.left() + tokens::GAP + paint.bar();
                let cap = key_cap_size(painter, key);
                let corner = egui::pos2(left, (inner.center().y - cap.y / 2.0).round());
                let (ink, ground) = paint.cap();
                paint_key_cap(painter, corner, key, ink, ground);
                let x = left + cap.x + tokens::GAP;
                let y = inner.center().y - capital_middle(&words.label);
                painter.galley(egui::pos2(x, y), Arc::clone(&words.label), paint.text);
            }
            None => {
                let middle = inner.center() + Vec2::new(paint.bar() / 2.0, 0.0);
                centred_text(painter, middle, self.label, paint.font(), paint.text);
            }
        }
        focus_ring(ui, response, paint.corner);
    }

    fn on_panel(&self) -> bool {
        matches!(
            self.look,
            ButtonLook::Panel
                | ButtonLook::PanelStart
                | ButtonLook::PanelStop
                | ButtonLook::PanelBlue
                | ButtonLook::PanelOff
        )
    }
}

fn flag_width(flag: &Galley) -> f32 {
    flag.size().x + 2.0 * tokens::SPACE + 4.0
}

/// The words of a button, laid out.
struct Words {
    label: Arc<Galley>,
    key: Option<f32>,
    flag: Option<Arc<Galley>>,
    bar: f32,
}

impl Words {
    fn of(button: &KeyButton<'_>, ui: &Ui, paint: Paint) -> Self {
        let painter = ui.painter();
        let label = painter.layout_no_wrap(button.label.to_owned(), paint.font(), paint.text);
        let flag = button.flag.map(|flag| {
            let font = fonts::text(Step::Note, Weight::Bold);
            painter.layout_no_wrap(flag.to_owned(), font, tokens::PAPER)
        });
        Self {
            label,
            key: button.key.map(|key| key_cap_size(painter, key).x),
            flag,
            bar: paint.bar(),
        }
    }

    fn width(&self, on_panel: bool) -> f32 {
        let label = self.label.size().x;
        let flag = self.flag.as_ref().map_or(0.0, |flag| flag_width(flag));
        match self.key {
            Some(key) if on_panel => label.max(key) + 2.0 * tokens::PADDING,
            Some(key) => self.bar + key + label + flag + 3.0 * tokens::GAP + 1.0,
            None => self.bar + label + flag + 2.0 * 10.0,
        }
    }
}

/// The colours of a look.
#[derive(Clone, Copy)]
struct Paint {
    fill: Color32,
    edge: Color32,
    text: Color32,
    corner: u8,
    off: bool,
    look: ButtonLook,
}

impl Paint {
    fn of(look: ButtonLook, enabled: bool) -> Self {
        use ButtonLook as Look;
        let on_panel = [tokens::PANEL, tokens::PANEL_INK, tokens::PANEL_INK_2];
        let on_window = [tokens::HALL, tokens::INK, tokens::INK_2];
        let (set, fill, edge, text) = match look {
            Look::Plain | Look::Selected => (on_window, tokens::PAPER, tokens::INK, tokens::INK),
            Look::Primary => (on_window, tokens::INK, tokens::INK, tokens::PAPER),
            Look::Teaching => (on_window, tokens::PLUM, tokens::PLUM, tokens::PAPER),
            Look::TeachingQuiet => (on_window, tokens::PAPER, tokens::PLUM, tokens::INK),
            Look::Panel | Look::PanelOff => {
                let ink = tokens::PANEL_INK;
                (on_panel, tokens::PANEL_WELL, ink, ink)
            }
            Look::PanelStart => {
                let ink = tokens::PANEL_INK;
                (on_panel, tokens::PAPER, ink, ink)
            }
            Look::PanelStop => {
                let ink = tokens::PANEL_INK;
                (on_panel, ink, ink, tokens::PAPER)
            }
            Look::PanelBlue => (on_panel, tokens::BLUE, tokens::PANEL_INK, tokens::PAPER),
        };
        let corner = if set == on_panel {
            tokens::PANEL_CORNER
        } else {
            tokens::CORNER
        };
        let off = !enabled;
        let [ground, ink, quiet] = set;
        Self {
            fill: if off { ground } else { fill },
            edge: if off { ink } else { edge },
            text: if off { quiet } else { text },
            corner,
            off,
            look,
        }
    }

    fn ground(self, ui: &Ui, rect: Rect, hovered: bool, down: bool) {
        let painter = ui.painter();
        if self.off {
            painter.rect_filled(rect, 0, self.fill);
            dotted_rect(painter, rect, Stroke::new(1.2, self.edge));
            return;
        }
        let corner = CornerRadius::same(self.corner);
        painter.rect_filled(rect, corner, self.edge);
        let edge = if hovered { 2.5 } else { tokens::EDGE_WIDTH };
        let foot = if down { 0.0 } else { self.foot() };
        let face = Rect::from_min_max(
            rect.min + Vec2::splat(edge),
            rect.max - Vec2::new(edge, edge + foot),
        );
        let corner = CornerRadius::same(self.corner.saturating_sub(1));
        painter.rect_filled(face, corner, self.fill);
    }

    /// The heavy foot of a button of the operator panel.
    fn foot(self) -> f32 {
        if self.corner == tokens::PANEL_CORNER && !self.off {
            2.0
        } else {
            0.0
        }
    }

    fn bar(self) -> f32 {
        if self.look == ButtonLook::Selected {
            tokens::BAR_WIDTH
        } else {
            0.0
        }
    }

    fn font(self) -> egui::FontId {
        let weight = if self.corner != tokens::PANEL_CORNER {
            Weight::SemiBold
        } else if self.off {
            Weight::Regular
        } else {
            Weight::Bold
        };
        fonts::text(Step::Text, weight)
    }

    fn cap(self) -> (Color32, Color32) {
        if self.text == tokens::PAPER {
            (tokens::PAPER, self.fill)
        } else {
            (tokens::INK, tokens::PAPER)
        }
    }
}
