//! The faces have what our texts need.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use super::*;

/// The characters of all texts that no face has, with the face.
fn missing(texts: &str) -> Vec<String> {
    let ctx = Context::default();
    let mut missing = Vec::new();
    for _ in 0..2 {
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            if !ready(ui.ctx()) {
                return;
            }
            for (name, _) in FACES {
                let family = FontFamily::Name(name.into());
                let there: BTreeSet<char> = ui.ctx().fonts_mut(|fonts| {
                    let mut font = fonts.fonts.font(&family);
                    font.characters().keys().copied().collect()
                });
                let letters = texts.chars().filter(|letter| !letter.is_control());
                let gone = letters.filter(|letter| !there.contains(letter));
                missing.extend(gone.map(|letter| format!("{name}: {letter:?}")));
            }
        });
        output.textures_delta.clear();
    }
    missing.sort();
    missing.dedup();
    missing
}

#[test]
fn each_face_has_every_character_of_our_texts() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../assets/locales/en");
    let mut texts = String::new();
    for entry in fs::read_dir(&folder).unwrap() {
        texts.push_str(&fs::read_to_string(entry.unwrap().path()).unwrap());
    }
    assert!(texts.len() > 1000, "no texts in {}", folder.display());
    assert_eq!(missing(&texts), [""; 0]);
}

#[test]
fn a_missing_character_is_found() {
    let mut all: Vec<String> = FACES
        .iter()
        .map(|(name, _)| format!("{name}: '\u{2714}'"))
        .collect();
    all.sort();
    assert_eq!(missing("Slot 7 \u{2714}"), all);
}

#[test]
fn the_faces_can_be_used_from_the_second_pass_on() {
    let ctx = Context::default();
    let mut answers = Vec::new();
    for _ in 0..3 {
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            answers.push(ready(ui.ctx()));
        });
        output.textures_delta.clear();
    }
    assert_eq!(answers, [false, true, true]);
}

#[test]
fn figures_of_the_mono_face_are_equally_wide() {
    let ctx = Context::default();
    let mut widths = Vec::new();
    for _ in 0..2 {
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            if !ready(ui.ctx()) {
                return;
            }
            for said in ["11:11", "08:46"] {
                let font = mono(Step::Text, Weight::Bold);
                let galley = ui
                    .painter()
                    .layout_no_wrap(said.to_owned(), font, tokens::INK);
                widths.push(galley.size().x);
            }
        });
        output.textures_delta.clear();
    }
    assert!(
        matches!(widths[..], [one, other] if (one - other).abs() < 0.01),
        "{widths:?}"
    );
}

/// What is drawn for the first time is in the changes of the texture: no figure of a clock is.
#[test]
fn no_figure_of_a_clock_is_drawn_late() {
    let changes = |ctx: &Context, said: &str, scale: f32| {
        let input = || {
            let mut input = egui::RawInput::default();
            let root = input.viewports.get_mut(&egui::ViewportId::ROOT);
            root.expect("it has one").native_pixels_per_point = Some(scale);
            input
        };
        let mut output = ctx.run_ui(input(), |ui| {
            if !ready(ui.ctx()) {
                return;
            }
            for step in Step::ALL {
                for weight in [Weight::Regular, Weight::Bold] {
                    ui.label(figures(said, step, weight, tokens::INK));
                }
            }
        });
        let changed = !output.textures_delta.set.is_empty();
        output.textures_delta.clear();
        changed
    };
    for scale in [1.0, 1.25, 2.0] {
        let ctx = Context::default();
        // The faces, the first page, and what follows from its size.
        for _ in 0..3 {
            changes(&ctx, "0", scale);
        }
        for said in ["00:01", "23:45", "67:89 / 10:00", "160.8", "12:34:56"] {
            assert!(!changes(&ctx, said, scale), "{said} at {scale}");
        }
        // The check sees what is drawn late.
        assert!(changes(&ctx, "mm", scale));
    }
    // The scale changes: all at once again.
    let ctx = Context::default();
    for scale in [1.0, 1.0, 1.5, 1.5] {
        changes(&ctx, "0", scale);
    }
    assert!(!changes(&ctx, "12:34", 1.5));
}
