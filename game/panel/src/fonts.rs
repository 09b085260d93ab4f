//! The two faces, and the style of the whole window.
//!
//! Figures that change or stand in a column are set in the mono face: the figures of the text
//! face have different widths.

mod warm;

use std::sync::Arc;

use egui::epaint::Shadow;
use egui::style::{ScrollStyle, WidgetVisuals};
use egui::{
    Color32, Context, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, Id, RichText,
    Stroke, TextFormat, TextStyle, Theme, Vec2, Visuals,
};

use crate::tokens::{self, Step, Weight};

/// Names of the faces as egui knows them, with the files.
const FACES: [(&str, &[u8]); 6] = [
    (
        REGULAR,
        include_bytes!("../../../assets/fonts/AtkinsonHyperlegibleNext_400Regular.ttf"),
    ),
    (
        SEMI_BOLD,
        include_bytes!("../../../assets/fonts/AtkinsonHyperlegibleNext_600SemiBold.ttf"),
    ),
    (
        BOLD,
        include_bytes!("../../../assets/fonts/AtkinsonHyperlegibleNext_700Bold.ttf"),
    ),
    (
        EXTRA_BOLD,
        include_bytes!("../../../assets/fonts/AtkinsonHyperlegibleNext_800ExtraBold.ttf"),
    ),
    (
        MONO,
        include_bytes!("../../../assets/fonts/AtkinsonHyperlegibleMono_400Regular.ttf"),
    ),
    (
        MONO_BOLD,
        include_bytes!("../../../assets/fonts/AtkinsonHyperlegibleMono_700Bold.ttf"),
    ),
];
const REGULAR: &str = "text";
const SEMI_BOLD: &str = "text semibold";
const BOLD: &str = "text bold";
const EXTRA_BOLD: &str = "text extra bold";
const MONO: &str = "mono";
const MONO_BOLD: &str = "mono bold";

/// Gives the context our faces and our style, from the next pass on. See [`ready`].
pub fn install(ctx: &Context) {
    ctx.set_fonts(definitions());
    ctx.set_theme(Theme::Light);
    ctx.all_styles_mut(|style| {
        style.text_styles = [
            (TextStyle::Heading, text(Step::Section, Weight::Bold)),
            (TextStyle::Body, text(Step::Text, Weight::Regular)),
            (TextStyle::Button, text(Step::Text, Weight::SemiBold)),
            (TextStyle::Small, text(Step::Note, Weight::Regular)),
            (TextStyle::Monospace, mono(Step::Text, Weight::Regular)),
        ]
        .into();
        let spacing = &mut style.spacing;
        spacing.item_spacing = Vec2::new(tokens::GAP, tokens::SPACE);
        spacing.button_padding = Vec2::new(tokens::GAP, tokens::SPACE);
        spacing.interact_size = Vec2::new(tokens::LEAST_HEIGHT, tokens::LEAST_HEIGHT);
        spacing.window_margin = egui::Margin::same(12);
        spacing.menu_margin = egui::Margin::same(8);
        spacing.scroll = bars();
        style.animation_time = 0.0;
        style.interaction.selectable_labels = false;
        style.scroll_animation = egui::style::ScrollAnimation::none();
        style.visuals = visuals();
    });
}

/// Whether our faces can be used in this pass. The first call gives them to the context and says
/// no: nothing may be drawn until the next pass, for egui takes new faces only at its start.
#[must_use]
pub fn ready(ctx: &Context) -> bool {
    let id = Id::new("faces since pass");
    let now = ctx.cumulative_pass_nr();
    let since = ctx.data(|data| data.get_temp::<u64>(id));
    if since.is_none() {
        install(ctx);
        ctx.data_mut(|data| data.insert_temp(id, now));
        ctx.request_repaint();
    }
    let ready = since.is_some_and(|since| now > since);
    if ready {
        warm::figures(ctx);
    }
    ready
}

/// The face of the text in this step and weight.
#[must_use]
pub fn text(step: Step, weight: Weight) -> FontId {
    let name = match weight {
        Weight::Regular => REGULAR,
        Weight::SemiBold => SEMI_BOLD,
        Weight::Bold => BOLD,
        Weight::ExtraBold => EXTRA_BOLD,
    };
    FontId::new(step.size(), FontFamily::Name(name.into()))
}

/// The face of figures and of words that are typed, in this step. Every weight above regular is
/// bold here.
#[must_use]
pub fn mono(step: Step, weight: Weight) -> FontId {
    let name = match weight {
        Weight::Regular => MONO,
        Weight::SemiBold | Weight::Bold | Weight::ExtraBold => MONO_BOLD,
    };
    FontId::new(step.size(), FontFamily::Name(name.into()))
}

/// Text with the face, the line height and the colour.
#[must_use]
pub fn rich(said: &str, step: Step, weight: Weight, colour: Color32) -> RichText {
    RichText::new(said)
        .font(text(step, weight))
        .line_height(Some(step.line()))
        .color(colour)
}

/// Figures with the face, the line height and the colour.
#[must_use]
pub fn figures(said: &str, step: Step, weight: Weight, colour: Color32) -> RichText {
    RichText::new(said)
        .font(mono(step, weight))
        .line_height(Some(step.line()))
        .color(colour)
}

/// The same for a run of text in a layout job.
#[must_use]
pub fn format(step: Step, weight: Weight, colour: Color32) -> TextFormat {
    TextFormat {
        line_height: Some(step.line()),
        ..TextFormat::simple(text(step, weight), colour)
    }
}

/// Bars that are always there where something is cut off, over the edge of what they scroll: they
/// take no room from it.
fn bars() -> ScrollStyle {
    ScrollStyle {
        bar_width: tokens::SCROLL_BAR,
        floating_width: tokens::SCROLL_BAR,
        dormant_background_opacity: 1.0,
        active_background_opacity: 1.0,
        interact_background_opacity: 1.0,
        dormant_handle_opacity: 1.0,
        active_handle_opacity: 1.0,
        interact_handle_opacity: 1.0,
        ..ScrollStyle::floating()
    }
}

fn definitions() -> FontDefinitions {
    let mut definitions = FontDefinitions::empty();
    for (name, bytes) in FACES {
        let data = Arc::new(FontData::from_static(bytes));
        definitions.font_data.insert(name.to_owned(), data);
        let family = FontFamily::Name(name.into());
        definitions.families.insert(family, vec![name.to_owned()]);
    }
    for (family, name) in [
        (FontFamily::Proportional, REGULAR),
        (FontFamily::Monospace, MONO),
    ] {
        definitions.families.insert(family, vec![name.to_owned()]);
    }
    definitions
}

/// Square corners, no shadows, no gradients, nothing faded: what is off looks off by its edge.
fn visuals() -> Visuals {
    let corner = CornerRadius::same(tokens::CORNER);
    let edge = Stroke::new(tokens::EDGE_WIDTH, tokens::INK);
    let ink = Stroke::new(tokens::EDGE_WIDTH, tokens::INK);
    let calm = WidgetVisuals {
        bg_fill: tokens::PAPER,
        weak_bg_fill: tokens::PAPER,
        bg_stroke: edge,
        corner_radius: corner,
        fg_stroke: ink,
        expansion: 0.0,
    };
    let pointed = WidgetVisuals {
        bg_fill: tokens::HALL,
        weak_bg_fill: tokens::HALL,
        ..calm
    };
    let ring = WidgetVisuals {
        bg_stroke: Stroke::new(tokens::RING_WIDTH, tokens::INK),
        ..calm
    };
    let mut visuals = Visuals::light();
    visuals.widgets.noninteractive = WidgetVisuals {
        bg_fill: tokens::SHEET,
        weak_bg_fill: tokens::SHEET,
        bg_stroke: Stroke::new(tokens::RULE_WIDTH, tokens::HAIR),
        ..calm
    };
    visuals.widgets.inactive = calm;
    visuals.widgets.hovered = pointed;
    visuals.widgets.active = ring;
    visuals.widgets.open = pointed;
    visuals.selection.bg_fill = tokens::YELLOW_TINT;
    visuals.selection.stroke = ring.bg_stroke;
    visuals.hyperlink_color = tokens::BLUE;
    visuals.faint_bg_color = tokens::SHEET;
    visuals.extreme_bg_color = tokens::PAPER;
    visuals.code_bg_color = tokens::PAPER;
    visuals.warn_fg_color = tokens::INK;
    visuals.error_fg_color = tokens::RED;
    visuals.window_corner_radius = corner;
    visuals.menu_corner_radius = corner;
    visuals.window_shadow = Shadow::NONE;
    visuals.popup_shadow = Shadow::NONE;
    visuals.window_fill = tokens::SHEET;
    visuals.window_stroke = edge;
    visuals.panel_fill = tokens::SHEET;
    visuals.text_cursor.stroke = Stroke::new(2.0, tokens::INK);
    visuals.disabled_alpha = 1.0;
    visuals.image_loading_spinners = false;
    visuals
}

#[cfg(test)]
#[path = "fonts/font_tests.rs"]
mod font_tests;
