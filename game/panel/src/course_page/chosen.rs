//! The chosen drill: its task, its limits, its variants, and the four ways.

use egui::{Rect, ScrollArea, Stroke, StrokeKind, Ui, vec2};
use rackproof_words::Arg;

use super::{
    CourseView,
    frame::{Frame, column},
};
use crate::{
    drill_page::focus,
    marks,
    tokens::{self, Step, Weight},
    widgets::{ButtonLook, Face, RowLook, head, key_button, label_value_row, note, say, title},
    wish::{Way, Wish},
};

/// Room beside and over the texts.
const MARGIN: egui::Vec2 = vec2(18.0, 12.0);
/// Width of a button that begins a drill, with its key.
const WAY: f32 = 102.0;
/// Size of the button of a start.
const START: egui::Vec2 = vec2(54.0, tokens::LEAST_HEIGHT + 4.0);
/// Height of the buttons that begin a drill.
const BEGIN: f32 = 44.0;

/// Shows it. The answer is how high the texts would be without scrolling.
pub(super) fn chosen(
    view: &CourseView<'_>,
    ui: &mut Ui,
    frame: &Frame,
    wishes: &mut Vec<Wish>,
) -> f32 {
    let card = frame.chosen;
    let below = card.with_min_y(frame.picture.bottom() + 1.0);
    let painter = ui.painter();
    painter.rect_filled(below, 0, tokens::SHEET);
    let edge = Stroke::new(tokens::RULE_WIDTH, tokens::INK);
    painter.rect_stroke(card, 0, edge, StrokeKind::Inside);
    painter.hline(card.x_range(), below.top() - 0.5, edge);
    let place = below.shrink2(MARGIN);
    // The bar of texts that are more than their place stands in the margin.
    let with_bar = place.with_max_x(below.right() - tokens::SPACE);
    let output = column(ui, with_bar, |ui| {
        ScrollArea::vertical()
            .auto_shrink([false, false])
            .show(ui, |ui| {
                ui.set_max_width(place.width());
                ui.spacing_mut().item_spacing.y = 6.0;
                texts(view, ui);
                ways(view, ui, wishes);
                variants(view, ui, wishes);
                trouble(view, ui);
                focus::reveal(ui);
            })
    });
    output.content_size.y + 2.0 * MARGIN.y + 1.0
}

fn texts(view: &CourseView<'_>, ui: &mut Ui) {
    let words = view.words;
    let name = view.chosen().name;
    let place = i64::try_from(view.drill + 1).unwrap_or(i64::MAX);
    let arguments = [("drill", Arg::from(name)), ("place", Arg::Number(place))];
    note(ui, &words.say("course-drill-place", &arguments));
    title(ui, &words.say(&format!("drill-{name}"), &[]));
    say(
        ui,
        &words.say(&format!("drill-{name}-task"), &[]),
        Step::Small,
        Weight::Regular,
        tokens::INK,
    );
    let mut row = |id: &str, value: String| {
        let face = Face::Figures;
        label_value_row(ui, &words.say(id, &[]), &value, face, RowLook::WINDOW);
    };
    row("course-allowed", Arg::Clock(view.allowed).to_string());
    if let Some(reference) = view.reference {
        row("course-reference", Arg::Clock(reference).to_string());
    }
}

fn ways(view: &CourseView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let words = view.words;
    let ways = [
        (Way::Watch, "W", "way-watch"),
        (Way::Guided, "G", "way-guided"),
        (Way::Practice, "P", "way-practice"),
        (Way::Exam, "X", "way-exam"),
    ];
    ui.add_space(4.0);
    let room = ui.available_width();
    let a_row = if room >= 4.0 * WAY + 3.0 * tokens::GAP {
        4
    } else {
        2
    };
    let width = (room - (a_row - 1) as f32 * tokens::GAP) / a_row as f32;
    for row in ways.chunks(a_row) {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = tokens::GAP;
            for (way, key, id) in row {
                let look = if *way == Way::Exam {
                    ButtonLook::Primary
                } else {
                    ButtonLook::Teaching
                };
                let size = vec2(width.floor(), BEGIN);
                let open = *way != Way::Exam || view.exam_open;
                if key_button(ui, &words.say(id, &[]), Some(key), look, size, open).clicked() {
                    wishes.push(Wish::Begin(*way));
                }
            }
        });
    }
    note(ui, view.proof);
    note(ui, &words.say("course-ways", &[]));
}

/// The starts by number: a name would say what lies where.
fn variants(view: &CourseView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let words = view.words;
    head(ui, &words.say("course-variant", &[]));
    let starts: Vec<Option<usize>> = std::iter::once(None)
        .chain((0..view.variants.len()).map(Some))
        .collect();
    let pitch = START.x + tokens::SPACE;
    let a_row = ((ui.available_width() + tokens::SPACE) / pitch)
        .floor()
        .max(1.0) as usize;
    for row in starts.chunks(a_row) {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = tokens::SPACE;
            for start in row {
                if start_button(view, ui, *start) {
                    wishes.push(Wish::ChooseVariant(*start));
                }
            }
        });
    }
}

fn start_button(view: &CourseView<'_>, ui: &mut Ui, start: Option<usize>) -> bool {
    let words = view.words;
    let count = |number: usize| Arg::Number(i64::try_from(number).unwrap_or(i64::MAX));
    let (label, name) = match start {
        None => (
            words.say("course-any", &[]),
            words.say("course-any-start", &[]),
        ),
        Some(number) => {
            let arguments = [
                ("number", count(number + 1)),
                ("count", count(view.variants.len())),
            ];
            let name = words.say("course-start", &arguments);
            ((number + 1).to_string(), name)
        }
    };
    let look = if view.variant == start {
        ButtonLook::Selected
    } else {
        ButtonLook::Plain
    };
    let response = key_button(ui, &label, None, look, START, true);
    ui.ctx()
        .accesskit_node_builder(response.id, |node| node.set_label(name));
    response.clicked()
}

fn trouble(view: &CourseView<'_>, ui: &mut Ui) {
    let Some(told) = view.trouble else { return };
    ui.horizontal_wrapped(|ui| {
        let (rect, _) = ui.allocate_exact_size(vec2(22.0, 22.0), egui::Sense::hover());
        marks::alarm(
            ui.painter(),
            Rect::from_center_size(rect.center(), vec2(20.0, 20.0)),
            marks::Priority::Medium,
            marks::AlarmFace::Filled,
        );
        say(ui, told, Step::Text, Weight::SemiBold, tokens::INK);
    });
}
