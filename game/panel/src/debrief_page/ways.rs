//! The ways on from a moment, side by side: the guide's, by what could be known, and the shortest,
//! with the truth known.

use std::time::Duration;

use egui::{Ui, vec2};
use rackproof_phrases::OtherTold;

use super::DebriefView;
use crate::over::way_on::one;
use crate::tokens::{self, Step, Weight};
use crate::widgets::say;

/// While a search goes on the page asks for the next picture after so long.
const LOOK_AGAIN: Duration = Duration::from_millis(500);

pub(super) fn show(view: &DebriefView<'_>, ui: &mut Ui) {
    let Some(ways) = view.ways else {
        return;
    };
    let searched = view.say("ways-shortest-searched");
    let told = [Some(&ways.guide), ways.shortest.as_ref()];
    ui.columns(told.len(), |columns| {
        for (ui, told) in columns.iter_mut().zip(told) {
            // Columns spread the words of a line over their width.
            ui.vertical(|ui| column(ui, told, &searched));
        }
    });
    if ways.shortest.is_none() {
        ui.ctx().request_repaint_after(LOOK_AGAIN);
    }
}

fn column(ui: &mut Ui, told: Option<&OtherTold>, searched: &str) {
    ui.spacing_mut().item_spacing = vec2(tokens::GAP, tokens::SPACE);
    let Some(told) = told else {
        say(ui, searched, Step::Text, Weight::Regular, tokens::INK);
        return;
    };
    say(ui, &told.head, Step::Text, Weight::Regular, tokens::INK);
    if let Some(ends) = &told.ends {
        say(ui, ends, Step::Text, Weight::SemiBold, tokens::INK);
    }
    for (number, step) in told.steps.iter().enumerate() {
        ui.push_id(number, |ui| one(ui, step));
    }
}
