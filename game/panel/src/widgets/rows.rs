//! A label with its value, and the box of what is not known.

use std::sync::Arc;

use egui::{Align2, Color32, Response, Sense, Stroke, Ui, Vec2, WidgetInfo, WidgetType};

use crate::fonts;
use crate::marks::{centred_text, dotted_rect};
use crate::tokens::{self, Step, Weight};

/// Which face a value is set in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// Words.
    Words,
    /// Figures that change or stand in a column.
    Figures,
    /// What nobody knows: words in a dotted box.
    NotKnown,
}

/// How a row of label and value looks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RowLook {
    /// Height, in points.
    pub height: f32,
    /// Size of both.
    pub step: Step,
    /// Colour of the label.
    pub label: Color32,
    /// Colour of the value.
    pub value: Color32,
}

impl RowLook {
    /// On a card of the window.
    pub const WINDOW: Self = Self {
        height: 17.0,
        step: Step::Small,
        label: tokens::INK_2,
        value: tokens::INK,
    };
    /// On the operator panel.
    pub const PANEL: Self = Self {
        height: 17.0,
        step: Step::Small,
        label: tokens::PANEL_INK,
        value: tokens::PANEL_INK,
    };
}

/// A label at the left and its value at the right, over the whole width. One accessible name
/// holds both.
pub fn label_value_row(
    ui: &mut Ui,
    label: &str,
    value: &str,
    face: Face,
    look: RowLook,
) -> Response {
    let size = Vec2::new(ui.available_width(), look.height);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    let painter = ui.painter();
    let font = fonts::text(look.step, Weight::Regular);
    painter.text(
        rect.left_center(),
        Align2::LEFT_CENTER,
        label,
        font,
        look.label,
    );
    let font = match face {
        Face::Words | Face::NotKnown => fonts::text(look.step, Weight::SemiBold),
        Face::Figures => fonts::mono(look.step, Weight::Bold),
    };
    let galley = painter.layout_no_wrap(value.to_owned(), font, look.value);
    let inset = if face == Face::NotKnown { 6.0 } else { 0.0 };
    let corner = Align2::RIGHT_CENTER
        .anchor_size(rect.right_center() - Vec2::new(inset, 0.0), galley.size())
        .min;
    if face == Face::NotKnown {
        let frame = egui::Rect::from_min_size(corner, galley.size()).expand2(Vec2::new(6.0, 0.0));
        let frame = frame.intersect(rect.expand2(Vec2::new(0.0, 1.0)));
        dotted_rect(painter, frame, Stroke::new(1.2, look.value));
    }
    painter.galley(corner, Arc::clone(&galley), look.value);
    let enabled = ui.is_enabled();
    response.widget_info(|| {
        WidgetInfo::labeled(WidgetType::Label, enabled, format!("{label} {value}"))
    });
    response
}

/// A word in a dotted box: nobody knows this.
pub fn dotted_box(ui: &mut Ui, word: &str, step: Step, colour: Color32) -> Response {
    let font = fonts::text(step, Weight::SemiBold);
    let painter = ui.painter();
    let galley = painter.layout_no_wrap(word.to_owned(), font.clone(), colour);
    let size = galley.size() + Vec2::new(12.0, 0.0);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    dotted_rect(ui.painter(), rect, Stroke::new(1.2, colour));
    centred_text(ui.painter(), rect.center(), word, font, colour);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, ui.is_enabled(), word));
    response
}
