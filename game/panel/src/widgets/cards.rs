//! Cards: of the teaching layer in plum, of the exam in ink.

use egui::accesskit::Role;
use egui::epaint::PathStroke;
use egui::{
    Color32, Frame, InnerResponse, Margin, Rect, Response, Sense, Shape, Stroke, StrokeKind, Ui,
    Vec2, WidgetInfo, WidgetType, pos2,
};

use crate::fonts;
use crate::marks::centred_text;
use crate::tokens::{self, Step, Weight};

/// A card of the teaching layer: plum bar at the left, folded corner. As wide as there is room.
/// Never on the drill screen of an exam.
pub fn teaching_card<R>(
    ui: &mut Ui,
    name: &str,
    contents: impl FnOnce(&mut Ui) -> R,
) -> InnerResponse<R> {
    let margin = Margin {
        left: 18,
        right: 12,
        top: 10,
        bottom: 12,
    };
    card(ui, name, tokens::PLUM, margin, paint_teaching, contents)
}

/// A card of the exam: ink only, no bar, no fold.
pub fn exam_card<R>(
    ui: &mut Ui,
    name: &str,
    contents: impl FnOnce(&mut Ui) -> R,
) -> InnerResponse<R> {
    let margin = Margin {
        left: 12,
        right: 12,
        top: 10,
        bottom: 12,
    };
    card(ui, name, tokens::INK, margin, paint_exam, contents)
}

/// The mode of an attempt in a frame: plum for teaching, ink for the exam.
pub fn mode_tag(ui: &mut Ui, word: &str, exam: bool) -> Response {
    let colour = if exam { tokens::INK } else { tokens::PLUM };
    let font = fonts::text(Step::Small, Weight::Bold);
    let painter = ui.painter();
    let galley = painter.layout_no_wrap(word.to_owned(), font.clone(), colour);
    let size = Vec2::new((galley.size().x + 20.0).ceil(), tokens::LEAST_HEIGHT);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    let stroke = Stroke::new(tokens::EDGE_WIDTH, colour);
    ui.painter()
        .rect(rect, 0, tokens::PAPER, stroke, StrokeKind::Inside);
    centred_text(ui.painter(), rect.center(), word, font, colour);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, ui.is_enabled(), word));
    response
}

fn card<R>(
    ui: &mut Ui,
    name: &str,
    colour: Color32,
    margin: Margin,
    paint: fn(Rect) -> Shape,
    contents: impl FnOnce(&mut Ui) -> R,
) -> InnerResponse<R> {
    let ground = ui.painter().add(Shape::Noop);
    let answer = Frame::NONE.inner_margin(margin).show(ui, |ui| {
        ui.set_min_width(ui.available_width());
        ui.ctx().accesskit_node_builder(ui.unique_id(), |node| {
            node.set_role(Role::Group);
            node.set_label(name);
        });
        super::say(ui, name, Step::Note, Weight::Bold, colour);
        contents(ui)
    });
    ui.painter().set(ground, paint(answer.response.rect));
    answer
}

fn paint_teaching(rect: Rect) -> Shape {
    let fold = tokens::FOLD;
    let cut = pos2(rect.right() - fold, rect.top());
    let below = pos2(rect.right(), rect.top() + fold);
    let outline = vec![
        rect.left_top(),
        cut,
        below,
        rect.right_bottom(),
        rect.left_bottom(),
    ];
    let edge = PathStroke::new(tokens::EDGE_WIDTH, tokens::PLUM).inside();
    let bar = rect.with_max_x(rect.left() + tokens::BAR_WIDTH);
    let folded = vec![cut, below, pos2(cut.x, below.y)];
    Shape::Vec(vec![
        Shape::convex_polygon(outline, tokens::SHEET, edge),
        Shape::rect_filled(bar, 0, tokens::PLUM),
        Shape::convex_polygon(folded, tokens::PLUM, PathStroke::NONE),
    ])
}

fn paint_exam(rect: Rect) -> Shape {
    let stroke = Stroke::new(tokens::EDGE_WIDTH, tokens::INK);
    Shape::Vec(vec![
        Shape::rect_filled(rect, 0, tokens::SHEET),
        Shape::rect_stroke(rect, 0, stroke, StrokeKind::Inside),
    ])
}
