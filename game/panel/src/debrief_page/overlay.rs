//! What lies over the debrief: the rules that were cited with their sources, the ways on from a
//! moment, and the keys.

use egui::accesskit::Role;
use egui::{Frame, Rect, ScrollArea, Stroke, Ui, UiBuilder, vec2};
use rackproof_phrases::named;

use super::{DebriefView, ways};
use crate::tokens::{self, Step, Weight};
use crate::widgets::{ACTION, ButtonLook, head, key_button, key_row, paragraph, say};
use crate::{Over, Wish, over};

/// The keys of the debrief, with what they do.
const KEYS: [(&str, &str); 12] = [
    ("Space", "debrief-key-play"),
    ("[ ]", "debrief-key-finding"),
    ("Left, Right", "debrief-key-second"),
    ("Shift+Left, Right", "debrief-key-event"),
    ("Home, End", "debrief-key-ends"),
    ("Enter", "debrief-key-take-over"),
    ("A", "debrief-key-again"),
    ("R", "debrief-key-rules"),
    ("W", "debrief-key-ways"),
    ("F1", "debrief-key-help"),
    ("Tab", "debrief-key-focus"),
    ("Esc", "debrief-key-close"),
];

pub(super) fn show(view: &DebriefView<'_>, ui: &mut Ui, page: Rect, wishes: &mut Vec<Wish>) {
    let wide = match view.over {
        Some(Over::WaysOn) => 960.0,
        _ => 640.0,
    };
    let size = vec2(wide, 560.0).min(page.size() - vec2(80.0, 80.0));
    let card = Rect::from_center_size(page.center(), size);
    ui.painter().rect_filled(card, 0, tokens::SHEET);
    let edge = Stroke::new(tokens::EDGE_WIDTH, tokens::INK);
    let inside = egui::StrokeKind::Inside;
    ui.painter().rect_stroke(card, 0, edge, inside);
    let mut inner = ui.new_child(UiBuilder::new().max_rect(card.shrink(16.0)));
    let name = view.say(match view.over {
        Some(Over::Rules) => "debrief-rules",
        Some(Over::WaysOn) => "debrief-ways",
        _ => "debrief-keys",
    });
    inner
        .ctx()
        .accesskit_node_builder(inner.unique_id(), |node| {
            node.set_role(Role::Dialog);
            node.set_label(name.as_str());
        });
    let opens = opens(&inner, &name);
    over::heading(&mut inner, &name, opens);
    inner.add_space(tokens::GAP);
    let height = inner.available_height() - ACTION.y - tokens::MARGIN;
    ScrollArea::vertical()
        .id_salt("overlay")
        .max_height(height)
        .auto_shrink(false)
        .show(&mut inner, |ui| match view.over {
            Some(Over::Rules) => cited(view, ui),
            Some(Over::WaysOn) => ways::show(view, ui),
            _ => keys(view, ui),
        });
    inner.add_space(tokens::MARGIN - inner.spacing().item_spacing.y);
    let close = key_button(
        &mut inner,
        &view.say("debrief-close"),
        Some("Esc"),
        ButtonLook::Plain,
        ACTION,
        true,
    );
    if close.clicked() {
        wishes.push(Wish::CloseOver);
    }
}

/// Whether this opens now: it was not shown in the pass before. Its head takes the focus then.
fn opens(ui: &Ui, name: &str) -> bool {
    let id = ui.id().with(("shown last", name));
    let pass = ui.ctx().cumulative_pass_nr();
    let last = ui.data(|data| data.get_temp::<u64>(id));
    ui.data_mut(|data| data.insert_temp(id, pass));
    last.is_none_or(|last| last + 1 < pass)
}

/// Every rule that was broken, once, in the order of the rules file, and the drill's own sources.
fn cited(view: &DebriefView<'_>, ui: &mut Ui) {
    let judged = view.history.judged();
    let is_cited = |number: usize| {
        view.findings
            .breaches()
            .any(|(_, told)| told.rule == number)
    };
    let rules = judged.rules().list.iter().enumerate();
    let mut any = false;
    for (_, rule) in rules.filter(|(number, _)| is_cited(*number)) {
        any = true;
        let told = |part: &str| {
            let id = format!("rule-{}{part}", rule.name);
            named(view.words, &id, &rule.name)
        };
        Frame::NONE.show(ui, |ui| {
            head(ui, &told(""));
            say(
                ui,
                &told("-reason"),
                Step::Small,
                Weight::Regular,
                tokens::INK_2,
            );
            source(view, ui, &rule.source);
        });
        ui.add_space(tokens::MARGIN);
    }
    if !any {
        let none = view.say("debrief-no-rule");
        say(ui, &none, Step::Text, Weight::Regular, tokens::INK);
        ui.add_space(tokens::MARGIN);
    }
    head(ui, &view.say("debrief-drill-sources"));
    for source in &view.exercise.drill.sources {
        say(ui, source, Step::Small, Weight::Regular, tokens::INK);
    }
}

fn source(view: &DebriefView<'_>, ui: &mut Ui, source: &str) {
    let label = format!("{} ", view.say("debrief-source"));
    let runs = [
        (label.as_str(), Weight::SemiBold),
        (source, Weight::Regular),
    ];
    paragraph(ui, &runs, Step::Small, tokens::INK);
}

fn keys(view: &DebriefView<'_>, ui: &mut Ui) {
    for (key, id) in KEYS {
        key_row(ui, 180.0, key, &view.say(id), Step::Text);
    }
}
