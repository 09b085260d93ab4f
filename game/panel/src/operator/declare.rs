//! The page on which a person declares the rack empty: key in and turned, then one button held.

use egui::{Align2, Rect, Ui, Vec2};
use rackproof_buffer::Button;
use rackproof_drill::Intent;
use rackproof_model::Micros;
use rackproof_words::Arg;

use super::write::{self, Hand};
use super::{Operator, pages};
use crate::Wish;
use crate::drill_page::wanted;
use crate::marks::{Inks, key_switch};
use crate::tokens::{self, Step, Weight};
use crate::widgets::{ButtonLook, Hold, hold_button, key_button};

const HOLD: Intent = Intent::Press(Button::HoldDeclare);
const LET_GO: Intent = Intent::Press(Button::LetGoDeclare);
const HEIGHT: f32 = 56.0;

pub(super) fn page(operator: Operator<'_, '_>, ui: &mut Ui, wishes: &mut Vec<Wish>) {
    let view = operator.view;
    pages::head(ui, &operator.say("operator-declare"));
    let slots = i64::from(view.world.machine().slots());
    let text = operator.say_with("operator-declare-text", &[("slots", slots.into())]);
    pages::paragraph(ui, &text);
    pages::paragraph(ui, &operator.say("operator-declare-after"));
    pages::rule(ui);
    key(operator, ui);
    let label = operator.say("operator-hold");
    let size = Vec2::new(ui.available_width(), HEIGHT);
    let offered = [HOLD, LET_GO].iter().any(|act| view.offers.contains(act));
    if !offered {
        key_button(ui, &label, None, ButtonLook::PanelOff, size, false);
        ui.add_space(tokens::SPACE);
        return pages::paragraph(ui, &operator.say("operator-declare-not-now"));
    }
    let whole = view.world.machine().parts().declare_hold;
    let left = view.around.hold_left;
    let done = if left == Micros(0) {
        Micros(0)
    } else {
        Micros(whole.0.saturating_sub(left.0))
    };
    let span = |micros: Micros| Arg::Micros(u64::from(micros.0));
    let tenth = Arg::Micros(u64::from(done.0)).to_string();
    let tenth = tenth.trim_end_matches(" s").to_owned();
    let counted = [("done", tenth.into()), ("whole", span(whole))];
    let said = operator.say_with("operator-held", &counted);
    let part = done.0 as f32 / whole.0.max(1) as f32;
    if !view.around.key_turned {
        // Pressed without the key it would do nothing.
        key_button(ui, &label, None, ButtonLook::PanelOff, size, false);
        ui.add_space(tokens::SPACE);
        return pages::paragraph(ui, &operator.say("operator-key-first"));
    }
    let hold = hold_button(ui, &label, part, &said, size);
    wanted::give(ui, HOLD, &hold.response);
    ask(operator, ui, &hold, wishes);
    ui.add_space(tokens::SPACE);
    let rule = if view.preferences.press_twice {
        "operator-press-twice"
    } else {
        "operator-let-go-early"
    };
    pages::paragraph(ui, &operator.say(rule));
}

fn key(operator: Operator<'_, '_>, ui: &mut Ui) {
    let turned = operator.view.around.key_turned;
    let top = ui.next_widget_position();
    let place = Rect::from_min_size(top + Vec2::new(1.0, 0.0), Vec2::splat(30.0));
    key_switch(ui.painter(), place, turned, Inks::PANEL);
    let said = operator.say(if turned {
        "operator-key-turned"
    } else {
        "operator-key-not-turned"
    });
    let bold = Hand::new(Step::Small, Weight::Bold, tokens::PANEL_INK);
    let at = place.right_center() + Vec2::new(9.0, 0.0);
    let most = ui.available_width() - 40.0;
    write::runs(ui, at, Align2::LEFT_CENTER, &[(&said, bold)], most);
    ui.allocate_rect(place, egui::Sense::hover());
    ui.add_space(tokens::GAP);
}

/// What the hand on the button asks for: the hold as it comes down, letting go as it leaves.
fn ask(operator: Operator<'_, '_>, ui: &Ui, hold: &Hold, wishes: &mut Vec<Wish>) {
    let view = operator.view;
    let id = hold.response.id.with("was down");
    let was_down = ui.data(|data| data.get_temp::<bool>(id)).unwrap_or(false);
    ui.data_mut(|data| data.insert_temp(id, hold.down));
    if view.watching.is_some() {
        return;
    }
    let held = view.around.hold_left > Micros(0);
    if view.preferences.press_twice {
        let act = if held { LET_GO } else { HOLD };
        if hold.response.clicked() && view.can(act) {
            wishes.push(Wish::Do(act));
        }
        return;
    }
    let reaching = view.doing.is_some_and(|doing| doing.intent == HOLD);
    if hold.down && !was_down && view.can(HOLD) {
        wishes.push(Wish::Do(HOLD));
    } else if !hold.down && reaching {
        wishes.push(Wish::BreakOff);
    } else if !hold.down && held && view.can(LET_GO) {
        wishes.push(Wish::Do(LET_GO));
    }
}
