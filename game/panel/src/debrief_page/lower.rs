//! Below the hall: playing, findings to go to, taking over, and the timeline.

use egui::{Align, Layout, Sense, Ui, UiBuilder, Vec2, WidgetInfo, WidgetType, vec2};
use rackproof_words::Arg;

use super::{DebriefView, chart, clock, frame::ROW, steps};
use crate::Wish;
use crate::fonts;
use crate::marks;
use crate::tokens::{self, Step, Weight};
use crate::widgets::{ButtonLook, key_button, key_cap_size};

/// Height of a button here.
const HEIGHT: f32 = 34.0;
/// Between two buttons.
const BETWEEN: f32 = 6.0;
/// So many times as fast as it was.
const SPEEDS: [f32; 3] = [1.0, 4.0, 16.0];
/// A tenth of a second, in µs.
const TENTH: u64 = 100_000;

pub(super) fn show(
    view: &DebriefView<'_>,
    ui: &mut Ui,
    (can_take_over, two_rows): (bool, bool),
    wishes: &mut Vec<Wish>,
) {
    let all = ui.max_rect();
    let more = if two_rows { ROW } else { 0.0 };
    let height = HEIGHT + 2.0 * tokens::GAP + more;
    let (buttons, rest) = all.split_top_bottom_at_y(all.top() + height);
    let rows = buttons.shrink2(vec2(tokens::MARGIN, tokens::GAP));
    let row = rows.with_max_y(rows.top() + HEIGHT);
    let layout = Layout::left_to_right(Align::Center);
    let mut left = ui.new_child(UiBuilder::new().max_rect(row).layout(layout));
    left.spacing_mut().item_spacing.x = BETWEEN;
    playing(view, &mut left, wishes);
    let layout = Layout::right_to_left(Align::Center);
    let row = row.translate(vec2(0.0, more));
    let mut right = ui.new_child(UiBuilder::new().max_rect(row).layout(layout));
    right.spacing_mut().item_spacing.x = BETWEEN;
    let (label, look) = (view.say("debrief-take-over"), ButtonLook::Teaching);
    let size = vec2(0.0, HEIGHT);
    if key_button(&mut right, &label, Some("Enter"), look, size, can_take_over).clicked() {
        wishes.push(Wish::TakeOver);
    }
    time(view, &mut right);
    chart::show(view, ui, rest, wishes);
}

/// How wide all buttons are in one row.
pub(super) fn needs(view: &DebriefView<'_>, ui: &Ui) -> f32 {
    let painter = ui.painter();
    let width = |said: &str, font| {
        let said = painter.layout_no_wrap(said.to_owned(), font, tokens::INK);
        said.size().x.ceil()
    };
    let label = |id: &str| width(&view.say(id), fonts::text(Step::Text, Weight::SemiBold));
    let labelled = [
        (label("debrief-play").max(label("debrief-stand")), "Space"),
        (label("debrief-before"), "["),
        (label("debrief-next"), "]"),
        (label("debrief-take-over"), "Enter"),
    ];
    let gaps = 3.0 * tokens::GAP + 1.0 + BETWEEN;
    let labelled = labelled.map(|(label, key)| label + key_cap_size(painter, key).x + gaps);
    let speeds = SPEEDS.map(|speed| {
        let said = speed_said(view, speed);
        width(&said, fonts::text(Step::Text, Weight::SemiBold)) + 20.0 + BETWEEN
    });
    let time = width("00:00.0", fonts::mono(Step::Task, Weight::Bold));
    let bar = tokens::BAR_WIDTH;
    labelled.iter().chain(&speeds).sum::<f32>() + time + bar + 2.0 * tokens::MARGIN
}

fn speed_said(view: &DebriefView<'_>, speed: f32) -> String {
    view.say_with("debrief-speed", &[("times", Arg::Number(speed as i64))])
}

fn playing(view: &DebriefView<'_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let mut button = |label: &str, key, look, enabled| {
        key_button(ui, label, key, look, Vec2::new(0.0, HEIGHT), enabled).clicked()
    };
    let play = view.say(if view.plays {
        "debrief-stand"
    } else {
        "debrief-play"
    });
    if button(&play, Some("Space"), ButtonLook::Plain, true) {
        wishes.push(Wish::Play(!view.plays));
    }
    let ways = [
        ("[", "debrief-before", steps::before(view)),
        ("]", "debrief-next", steps::after(view)),
    ];
    for (key, id, finding) in ways {
        if button(
            &view.say(id),
            Some(key),
            ButtonLook::Plain,
            finding.is_some(),
        ) {
            wishes.extend(steps::go(finding));
        }
    }
    for speed in SPEEDS {
        let look = if (view.speed - speed).abs() < 0.01 {
            ButtonLook::Selected
        } else {
            ButtonLook::Plain
        };
        if button(&speed_said(view, speed), None, look, true) {
            wishes.push(Wish::Speed(speed));
        }
    }
}

/// The moment shown, to a tenth of a second.
fn time(view: &DebriefView<'_>, ui: &mut Ui) {
    let at = view.at.min(view.history.end());
    let said = format!("{}.{}", clock(at), at / TENTH % 10);
    let font = fonts::mono(Step::Task, Weight::Bold);
    let galley = ui.painter().layout_no_wrap(said.clone(), font, tokens::INK);
    let size = vec2(galley.size().x.ceil(), HEIGHT);
    let (rect, response) = ui.allocate_exact_size(size, Sense::hover());
    let font = fonts::mono(Step::Task, Weight::Bold);
    marks::centred_text(ui.painter(), rect.center(), &said, font, tokens::INK);
    response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, said.clone()));
}
