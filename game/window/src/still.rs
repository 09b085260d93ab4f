//! Moments of attempts as pictures, without a window.

use std::path::PathBuf;

use bevy::math::UVec2;
use rackproof_attempt::{Attempt, Exercise, Note, PlayedAs, Sheet};
use rackproof_panel::{Preferences, Way};
use rackproof_phrases::words_of;
use rackproof_stage::still::Still;

use crate::{
    Missing, app,
    session::{Moment, Review, Screen, Session},
};

/// Pictures of egui's pages settle after so many: sizes of texts are known only then.
const SETTLED: usize = 3;

/// What a picture is to show.
#[derive(Clone, Copy, Debug)]
pub struct Picture<'p> {
    /// What the attempt was made from.
    pub exercise: &'p Exercise,
    /// The attempt.
    pub attempt: &'p Attempt,
    /// What was noted in it.
    pub notes: &'p [Note],
    /// How it was played.
    pub mode: PlayedAs,
    /// The moment, in µs since the start.
    pub at: u64,
    /// The debrief in place of the drill.
    pub debrief: bool,
    /// Width and height in pixels.
    pub size: [u32; 2],
}

/// Draws pictures, each as the bytes of a PNG file.
///
/// # Errors
/// What is missing.
pub fn pictures(wanted: &[Picture<'_>]) -> Result<Vec<Vec<u8>>, Missing> {
    let mut drawn = Vec::with_capacity(wanted.len());
    let mut still: Option<(Still, [u32; 2])> = None;
    for picture in wanted {
        let session = session_of(picture);
        let size = UVec2::from(picture.size);
        let mut kept = match still.take() {
            // The same machine in the same size: the same hall.
            Some((still, of)) if of == picture.size => {
                let mut still = still;
                still.app().insert_resource(app::Open(session));
                still
            }
            _ => Still::new(size, |app, target| {
                app::add_trainer(app, session);
                app::add_camera(app, target);
            })
            .map_err(|_| Missing::Driver)?,
        };
        for _ in 0..SETTLED {
            kept.app().update();
        }
        let bytes = kept
            .draw()
            .and_then(|drawn| png(&drawn.bytes, picture.size));
        drawn.push(bytes.ok_or(Missing::Picture)?);
        still = Some((kept, picture.size));
    }
    Ok(drawn)
}

/// The way in which an attempt is shown that was played so.
fn way_of(mode: PlayedAs) -> Way {
    match mode {
        PlayedAs::Guided => Way::Guided,
        PlayedAs::Practice => Way::Practice,
        PlayedAs::Exam => Way::Exam,
    }
}

fn session_of(picture: &Picture<'_>) -> Session {
    let words = words_of(&picture.exercise.hall);
    let exercise = picture.exercise.clone();
    let way = way_of(picture.mode);
    let screen = if picture.debrief {
        let whole = (way, 0);
        let mut review = Review::new(
            exercise.clone(),
            picture.attempt,
            (PathBuf::new(), picture.notes),
            whole,
            &words,
        );
        review.show(picture.at);
        Screen::Review(Box::new(review))
    } else {
        let slots = exercise.machine.slots();
        let notes = picture.notes.iter().filter(|note| note.noted <= picture.at);
        let notes: Vec<Note> = notes.cloned().collect();
        let sheet = Sheet::of(&notes, slots);
        let moment = Moment::new(exercise.clone(), picture.attempt, picture.at, way, sheet);
        Screen::Moment(Box::new(moment))
    };
    // Where a screen is larger, everything is.
    let preferences = Preferences {
        scale: (picture.size[1] as f32 / 720.0).clamp(0.9, 1.25),
        // A picture has no time for a camera to move.
        less_motion: true,
        ..Preferences::default()
    };
    Session::of_screen(words, exercise, screen, preferences)
}

fn png(bytes: &[u8], size: [u32; 2]) -> Option<Vec<u8>> {
    let mut out = Vec::new();
    let mut encoder = png::Encoder::new(&mut out, size[0], size[1]);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::Balanced);
    let mut writer = encoder.write_header().ok()?;
    let pixels: Vec<u8> = bytes
        .chunks_exact(4)
        .flat_map(|pixel| pixel.iter().take(3).copied())
        .collect();
    writer.write_image_data(&pixels).ok()?;
    writer.finish().ok()?;
    Some(out)
}
