//! Figures are drawn ahead, all at once: a letter that is drawn for the first time may reach the
//! screen a picture later, and a clock must never miss a figure.

use egui::{Context, Id};

use crate::tokens::{self, Step, Weight};

/// What clocks and measures are made of.
const FIGURES: &str = "0123456789:.-/ ";

/// So many places has the longest row of figures. A figure between two pixels has a drawing of its
/// own for each quarter of a pixel, so that each is drawn at each place.
const PLACES: usize = 16;

/// Draws all figures in all sizes, where they are not drawn yet in this scale.
pub(super) fn figures(ctx: &Context) {
    let id = Id::new("scale of the figures");
    let scale = ctx.pixels_per_point();
    if ctx.data(|data| data.get_temp::<f32>(id)) == Some(scale) {
        return;
    }
    ctx.data_mut(|data| data.insert_temp(id, scale));
    ctx.fonts_mut(|fonts| {
        for step in Step::ALL {
            for weight in [Weight::Regular, Weight::Bold] {
                for figure in FIGURES.chars() {
                    let row = String::from(figure).repeat(PLACES);
                    let _drawn = fonts.layout_no_wrap(row, super::mono(step, weight), tokens::INK);
                }
            }
        }
    });
}
