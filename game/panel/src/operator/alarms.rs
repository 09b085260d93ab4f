//! Alarms: the row below the message, and their page. A new high alarm alternates between filled
//! and outlined until it is acknowledged.

use std::time::Duration;

use egui::{Align2, Rect, Ui, Vec2, pos2};
use rackproof_buffer::{Alarm, AlarmState, Button};
use rackproof_drill::{
    Intent,
    message::{of_alarm, of_alarm_action, of_alarm_state},
};
use rackproof_words::Arg;

use super::write::{self, Hand};
use super::{Operator, SIDE, history, message, pages};
use crate::Wish;
use crate::marks::{self, AlarmFace, Inks, Priority};
use crate::tokens::{self, Step, Weight};
use crate::widgets::ButtonLook;

/// Half of the slow alternation of a new high alarm: filled so long, outlined so long.
const HALF: Duration = Duration::from_millis(500);
const WORD: Hand = Hand::new(Step::Small, Weight::SemiBold, tokens::PANEL_INK);
const PLAIN: Hand = Hand::new(Step::Small, Weight::Regular, tokens::PANEL_INK);

/// How soon it wants a person.
fn priority(alarm: Alarm) -> Priority {
    match alarm {
        Alarm::EmergencyStop | Alarm::HatchOpened => Priority::High,
        Alarm::LiftDrive
        | Alarm::RailsNoZero
        | Alarm::BoardSeen
        | Alarm::NoArrival
        | Alarm::NoConfirmation => Priority::Medium,
    }
}

fn on(operator: Operator<'_, '_>) -> impl Iterator<Item = Alarm> {
    let alarms = operator.shown.alarms;
    // In the order of urgency.
    let all = Alarm::ALL.into_iter().map(|(_, alarm)| alarm);
    all.filter(move |alarm| alarms.state(*alarm).waits())
}

/// Whether the outlined half of the alternation is shown at this time, in s.
pub(super) fn outlined(seconds: f64) -> bool {
    seconds.rem_euclid(1.0) >= HALF.as_secs_f64()
}

/// The mark of an alarm. While a high one is not acknowledged it alternates, or has a double
/// outline where a person asked for less motion.
pub(super) fn mark(operator: Operator<'_, '_>, ui: &Ui, place: Rect, alarm: Alarm) {
    let new = operator.shown.alarms.state(alarm).waits();
    let priority = priority(alarm);
    let alternates = new && priority == Priority::High;
    let still = operator.view.preferences.less_motion;
    let face = match () {
        () if alternates && still => AlarmFace::Doubled,
        () if alternates && outlined(operator.view.seconds) => AlarmFace::Outlined,
        () => AlarmFace::Filled,
    };
    marks::alarm(ui.painter(), place, priority, face);
    if alternates && !still {
        ui.ctx().request_repaint_after(HALF);
    }
}

/// The row: the most urgent alarm that the message area does not show, or that all is in order.
pub(super) fn row(operator: Operator<'_, '_>, ui: &mut Ui, rect: Rect) {
    let place =
        Rect::from_center_size(pos2(rect.left() + 22.0, rect.center().y), Vec2::splat(24.0));
    let left = rect.left() + 43.0;
    let most = rect.right() - SIDE - left;
    let shown = message::alarm_shown(operator);
    let beside = on(operator).find(|alarm| Some(*alarm) != shown);
    let Some(alarm) = beside.or_else(|| on(operator).next()) else {
        return in_order(operator, ui, place, left, most);
    };
    mark(operator, ui, place, alarm);
    let word = operator.message(&of_alarm(alarm));
    let word = word.trim_end_matches('.');
    let middle = rect.center().y;
    write::runs(
        ui,
        pos2(left, middle - 8.5),
        Align2::LEFT_CENTER,
        &[(word, WORD)],
        most,
    );
    let count = on(operator).count();
    let since = if count > 1 {
        let count = i64::try_from(count).unwrap_or(i64::MAX);
        operator.say_with(
            "operator-alarms-not-acknowledged",
            &[("count", count.into())],
        )
    } else {
        since(operator, alarm)
    };
    write::runs(
        ui,
        pos2(left, middle + 8.5),
        Align2::LEFT_CENTER,
        &[(&since, PLAIN)],
        most,
    );
}

fn in_order(operator: Operator<'_, '_>, ui: &mut Ui, place: Rect, left: f32, most: f32) {
    let shown = operator.shown;
    let said = match message::alarm_shown(operator) {
        Some(alarm) => {
            mark(operator, ui, place, alarm);
            operator.say(if shown.emergency {
                "operator-emergency-acknowledged"
            } else {
                "operator-hatch-acknowledged"
            })
        }
        None => {
            let place = Rect::from_center_size(place.center(), Vec2::splat(20.0));
            marks::in_order(ui.painter(), place, Inks::PANEL);
            operator.say("operator-no-alarms")
        }
    };
    let at = pos2(left - 3.0, place.center().y);
    write::runs(ui, at, Align2::LEFT_CENTER, &[(&said, PLAIN)], most);
}

fn since(operator: Operator<'_, '_>, alarm: Alarm) -> String {
    let at = history::came(operator.view.heard, alarm).unwrap_or_default();
    operator.say_with("operator-alarm-since", &[("time", Arg::Clock(at))])
}

/// The page: every alarm that is not normal, in the order in which they came, with its state, the
/// first one marked, what each means and what to do; and acknowledging them.
pub(super) fn page(operator: Operator<'_, '_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    pages::head(ui, &operator.say("operator-alarms"));
    let alarms = operator.shown.alarms;
    if alarms.list().next().is_none() {
        pages::paragraph(ui, &operator.say("operator-no-alarm-here"));
    }
    for (alarm, state) in alarms.list() {
        let top = ui.next_widget_position();
        let place = Rect::from_min_size(top + Vec2::new(0.0, 2.0), Vec2::splat(24.0));
        mark(operator, ui, place, alarm);
        let at = top + Vec2::new(32.0, 0.0);
        let wide = ui.available_width() - 32.0;
        let word = operator.message(&of_alarm(alarm));
        let word = word.trim_end_matches('.');
        let (first, _) = write::block(ui, at, wide, &[(word, WORD)]);
        let said = stated(operator, alarm, state);
        let (second, _) = write::block(ui, first.left_bottom(), wide, &[(&said, PLAIN)]);
        let mut below = second.left_bottom();
        if alarms.first_up() == Some(alarm) {
            let said = operator.say("operator-alarm-first");
            let (third, _) = write::block(ui, below, wide, &[(&said, WORD)]);
            below = third.left_bottom();
        }
        let action = operator.message(&of_alarm_action(alarm));
        write::block(ui, below, wide, &[(&action, PLAIN)]);
        ui.add_space(tokens::GAP);
    }
    ui.add_space(tokens::SPACE);
    let act = Intent::Press(Button::Acknowledge);
    let label = operator.say("operator-acknowledge");
    pages::button(
        operator,
        ui,
        (&label, Some("E"), ButtonLook::Panel),
        act,
        wishes,
    );
}

/// Since when, and its state in words.
fn stated(operator: Operator<'_, '_>, alarm: Alarm, state: AlarmState) -> String {
    if state == AlarmState::Unacknowledged {
        return since(operator, alarm);
    }
    let words = operator.message(&of_alarm_state(state));
    let at = history::came(operator.view.heard, alarm).unwrap_or_default();
    let arguments = [("time", Arg::Clock(at)), ("state", words.into())];
    operator.say_with("operator-alarm-stated", &arguments)
}
