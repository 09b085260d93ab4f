//! Cards that are more than their place: they are cut so that no head stands there without its
//! body, and it is said that there is more.

use egui::{Align2, Id, Rect, Stroke, StrokeKind, Ui, vec2};

use crate::tokens::{self, Step, Weight};
use crate::{DrillView, fonts};

/// So much of a card is seen, or nothing: its name, its head and a line.
const LEAST: f32 = 72.0;
/// Height of what says that there is more.
const MORE: f32 = 18.0;

/// How the cards of a pass stood in what is scrolled, in points.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Fit {
    offset: f32,
    whole: f32,
    cards: Vec<[f32; 2]>,
}

fn slot(ui: &Ui) -> Id {
    ui.id().with("fit")
}

impl Fit {
    pub(super) fn of(offset: f32, whole: f32, cards: &[[f32; 2]]) -> Fit {
        Fit {
            offset,
            whole,
            cards: cards.to_vec(),
        }
    }

    /// As the cards stood in the pass before.
    pub(super) fn kept(ui: &Ui) -> Fit {
        let id = slot(ui);
        ui.data(|data| data.get_temp(id)).unwrap_or_default()
    }

    /// Keeps it. If they are to be cut elsewhere, that is done before anybody sees it.
    pub(super) fn keep(self, ui: &Ui, is_cut_anew: bool) {
        let id = slot(ui);
        ui.data_mut(|data| data.insert_temp(id, self));
        if is_cut_anew {
            ui.ctx().request_discard("the cards are cut elsewhere");
            ui.ctx().request_repaint();
        }
    }

    /// How much of a place so high shows cards.
    pub(super) fn shown(&self, height: f32) -> f32 {
        if !self.is_more(height) {
            return height;
        }
        let height = height - MORE;
        let end = self.offset + height;
        let stub = self.cards.iter().find(|[top, bottom]| {
            let seen = end - top;
            seen > 0.0 && seen < LEAST && *bottom > end
        });
        // The first card is seen in any case.
        match stub {
            Some([top, _]) if *top > self.offset => top - self.offset - tokens::SPACE,
            _ => height,
        }
    }

    /// Whether there is more below a place so high.
    pub(super) fn is_more(&self, height: f32) -> bool {
        self.whole > self.offset + height + tokens::GAP
    }
}

/// Says at the foot of the place that there is more.
pub(super) fn more_below(view: &DrillView<'_>, ui: &mut Ui, place: Rect) {
    let said = view.words.say("card-more-below", &[]);
    let font = fonts::text(Step::Least, Weight::SemiBold);
    let galley = ui.painter().layout_no_wrap(said.clone(), font, tokens::INK);
    let size = vec2(galley.size().x + 2.0 * tokens::GAP, MORE);
    let at = Align2::LEFT_BOTTOM.anchor_size(place.left_bottom(), size);
    let edge = Stroke::new(tokens::RULE_WIDTH, tokens::INK);
    ui.painter()
        .rect(at, 0, tokens::PAPER, edge, StrokeKind::Inside);
    let corner = at.center() - galley.size() / 2.0;
    ui.painter().galley(corner, galley, tokens::INK);
    let response = ui.interact(at, ui.id().with("more below"), egui::Sense::hover());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::WidgetType::Label, true, &said));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_head_stands_without_its_body() {
        let cards = [[0.0, 200.0], [208.0, 400.0], [408.0, 600.0]];
        let fit = |offset| Fit::of(offset, 600.0, &cards);
        let cases = [
            // Offset, height, shown.
            (0.0, 600.0, 600.0),
            // Cut inside a body.
            (0.0, 500.0, 482.0),
            // The head of the third would stand alone.
            (0.0, 450.0, 404.0),
            (100.0, 350.0, 304.0),
            // At the end all is shown.
            (150.0, 450.0, 450.0),
            // The first is seen in any case.
            (0.0, 80.0, 62.0),
        ];
        for (offset, height, shown) in cases {
            let found = fit(offset).shown(height);
            assert!((found - shown).abs() < 0.01, "{offset} {height}: {found}");
        }
    }
}
