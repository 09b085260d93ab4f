//! The message area: what is asked, what is wrong, why nothing came of a command, or nothing.

use egui::{Color32, Rect, ScrollArea, Stroke, Ui, UiBuilder, Vec2, pos2};
use rackproof_buffer::{Alarm, Button, Question, UnitState};
use rackproof_drill::{
    Intent,
    message::{of_alarm, of_question, of_refusal},
};
use rackproof_grade::Severity;

use super::write::{self, Hand};
use super::{Operator, SIDE, alarms, answers, history};
use crate::marks;
use crate::tokens::{self, Step, Weight};
use crate::{PanelPage, Wish};

/// Height of the area while its text does not need more.
const HEIGHT: f32 = 110.0;
const TOP: f32 = 8.0;
/// Where text begins beside a mark.
const BESIDE_MARK: f32 = 45.0;
const TITLE: Hand = Hand::new(Step::Task, Weight::Bold, tokens::PANEL_INK);
const BODY: Hand = Hand::new(Step::Small, Weight::Regular, tokens::PANEL_INK);
/// Title and text while nothing is asked.
const QUIET: [Hand; 2] = [
    Hand::new(Step::Small, Weight::Bold, tokens::PANEL_INK),
    Hand::new(Step::Small, Weight::Regular, tokens::PANEL_INK_2),
];

/// What the area shows.
pub(super) struct Said {
    mark: Mark,
    title: String,
    body: String,
    answers: bool,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Mark {
    /// Nothing is asked, nothing is wrong.
    None,
    /// A person must act.
    Act,
    /// A high alarm.
    Alarm(Alarm),
    /// A command had no effect.
    Refused,
}

/// The alarm that the area shows, if it shows one.
pub(super) fn alarm_shown(operator: Operator<'_, '_>) -> Option<Alarm> {
    let shown = operator.shown;
    let on = |alarm: Alarm| shown.alarms.state(alarm).waits();
    match () {
        () if shown.emergency => Some(Alarm::EmergencyStop),
        () if shown.hatch_open => Some(Alarm::HatchOpened),
        () if !matches!(shown.unit, UnitState::Aborting | UnitState::Aborted) => None,
        () => [Alarm::EmergencyStop, Alarm::HatchOpened]
            .into_iter()
            .find(|alarm| on(*alarm)),
    }
}

/// What the area shows now.
pub(super) fn said(operator: Operator<'_, '_>) -> Said {
    let mut said = asked(operator);
    if let Some(refusal) = history::refusal(operator) {
        let text = operator.message(&of_refusal(operator.view.world, refusal));
        if said.mark == Mark::None {
            let (title, body) = split(&text);
            (said.mark, said.title, said.body) = (Mark::Refused, title, body);
        } else {
            said.body = text;
        }
    }
    said
}

fn asked(operator: Operator<'_, '_>) -> Said {
    let (shown, view) = (operator.shown, operator.view);
    let with = |mark, title: &str, body| Said {
        mark,
        title: title.trim_end_matches('.').to_owned(),
        body,
        answers: false,
    };
    if let Some(alarm) = alarm_shown(operator) {
        let title = operator.message(&of_alarm(alarm));
        return with(Mark::Alarm(alarm), &title, operator.say(what_now(operator)));
    }
    if let Some(question) = shown.question {
        let (title, body) = split(&operator.message(&of_question(question)));
        return Said {
            answers: matches!(question, Question::Answer(_) | Question::AnswerHalf(_)),
            ..with(Mark::Act, &title, body)
        };
    }
    let declares = [Button::HoldDeclare, Button::LetGoDeclare].map(Intent::Press);
    if view.page == PanelPage::Declare && declares.iter().any(|act| view.offers.contains(act)) {
        let title = operator.say("operator-declare-only");
        return with(Mark::Act, &title, operator.say("operator-declare-means"));
    }
    let last = match history::shown_last(operator) {
        Some(text) => operator.message(&text),
        None if !shown.referenced => operator.say("sign-reference-lost"),
        None => String::new(),
    };
    with(Mark::None, &operator.say("play-nothing-asked"), last)
}

/// What an alarm means, and what a person can do.
fn what_now(operator: Operator<'_, '_>) -> &'static str {
    match () {
        () if operator.shown.emergency => "operator-emergency-means",
        () if operator.shown.hatch_open => "operator-hatch-means",
        () => "operator-aborted-means",
    }
}

/// The first sentence as the title, and the rest.
fn split(text: &str) -> (String, String) {
    match text.split_once(". ") {
        Some((title, body)) => (title.to_owned(), body.to_owned()),
        None => (text.trim_end_matches('.').to_owned(), String::new()),
    }
}

impl Said {
    fn hands(&self) -> [Hand; 2] {
        if self.mark == Mark::None {
            QUIET
        } else {
            [TITLE, BODY]
        }
    }

    fn left(&self) -> f32 {
        if self.mark == Mark::None {
            SIDE
        } else {
            BESIDE_MARK
        }
    }

    fn text_height(&self, ui: &Ui, width: f32) -> f32 {
        let room = width - self.left() - SIDE;
        let [title, body] = self.hands();
        write::height(ui, room, &self.title, title)
            + write::height(ui, room, &self.body, body)
            + tokens::SPACE
    }
}

/// How high the area must be.
pub(super) fn height(ui: &Ui, said: &Said, width: f32) -> f32 {
    let answers = if said.answers {
        tokens::OPERATOR_HEIGHT + tokens::GAP
    } else {
        0.0
    };
    let needed = TOP + said.text_height(ui, width) + answers + tokens::GAP;
    needed.max(HEIGHT).ceil()
}

pub(super) fn show(
    operator: Operator<'_, '_>,
    said: &Said,
    ui: &mut Ui,
    rect: Rect,
    wishes: &mut Vec<Wish>,
) {
    if said.mark != Mark::None {
        ui.painter().rect_filled(rect, 0, tokens::PANEL_MESSAGE);
    }
    let mut room = rect;
    if said.answers {
        let foot = rect.bottom() - tokens::GAP - 2.0;
        let top = foot - tokens::OPERATOR_HEIGHT;
        let place = rect
            .shrink2(Vec2::new(SIDE, 0.0))
            .with_min_y(top)
            .with_max_y(foot);
        room = rect.with_max_y(top - 2.0);
        // Words first: what is asked is read before the answers.
        text(operator, said, ui, room);
        answers::show(operator, ui, place, wishes);
    } else {
        text(operator, said, ui, room);
    }
}

fn text(operator: Operator<'_, '_>, said: &Said, ui: &mut Ui, room: Rect) {
    mark(operator, said, ui, room);
    let width = room.width() - said.left() - SIDE;
    let builder = UiBuilder::new().max_rect(room.with_max_x(room.right() - 1.0));
    ui.scope_builder(builder, |ui| {
        ScrollArea::vertical().id_salt("message").show(ui, |ui| {
            let [title, body] = said.hands();
            let at = pos2(room.left() + said.left(), ui.next_widget_position().y + TOP);
            let first = write::block(ui, at, width, &[(&said.title, title)]);
            write::live(ui, first.1, &said.title);
            if !said.body.is_empty() {
                let at = pos2(at.x, first.0.bottom() + 1.0);
                let (_, id) = write::block(ui, at, width, &[(&said.body, body)]);
                write::live(ui, id, &said.body);
            }
        });
    });
}

fn mark(operator: Operator<'_, '_>, said: &Said, ui: &Ui, room: Rect) {
    let middle = pos2(room.left() + 23.0, room.top() + 22.0);
    let place = |size| Rect::from_center_size(middle, Vec2::splat(size));
    match said.mark {
        Mark::None => {}
        Mark::Act => marks::must_act(ui.painter(), place(26.0)),
        Mark::Alarm(alarm) => alarms::mark(operator, ui, place(28.0), alarm),
        Mark::Refused => marks::finding(ui.painter(), place(26.0), Severity::Minor),
    }
}

/// The line above the area: as heavy as what it says.
pub(super) fn edge(ui: &Ui, said: &Said, rect: Rect) {
    let (width, colour): (f32, Color32) = match said.mark {
        Mark::None => (tokens::RULE_WIDTH, tokens::PANEL_LINE),
        Mark::Act => (3.0, tokens::BLUE),
        Mark::Alarm(_) => (3.0, tokens::RED),
        Mark::Refused => (3.0, tokens::PANEL_INK),
    };
    ui.painter()
        .hline(rect.x_range(), rect.top(), Stroke::new(width, colour));
}
