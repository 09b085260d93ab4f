//! Signs of what is abnormal, what is found, what a person must do. Colour never stands alone:
//! each has its own outline.

use egui::{Color32, Painter, Rect};
use rackproof_grade::Severity;

use super::plate::{Inks, Plate};
use crate::tokens;

/// How soon an alarm wants a person.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Priority {
    /// Act at once. Octagon, 1.
    High,
    /// Watch or step in. Triangle, 2.
    Medium,
    /// Attend in time. Diamond, 3.
    Low,
}

const GRID: f32 = 28.0;
const MIDDLE: (f32, f32) = (14.0, 14.0);
const OCTAGON: [(f32, f32); 8] = [
    (8.6, 1.0),
    (19.4, 1.0),
    (27.0, 8.6),
    (27.0, 19.4),
    (19.4, 27.0),
    (8.6, 27.0),
    (1.0, 19.4),
    (1.0, 8.6),
];
const TRIANGLE: [(f32, f32); 3] = [(14.0, 1.6), (27.2, 25.6), (0.8, 25.6)];
const DIAMOND: [(f32, f32); 4] = [(14.0, 1.4), (26.6, 14.0), (14.0, 26.6), (1.4, 14.0)];
const SIX_SIDED: [(f32, f32); 6] = [
    (1.4, 14.0),
    (7.4, 4.4),
    (20.6, 4.4),
    (26.6, 14.0),
    (20.6, 23.6),
    (7.4, 23.6),
];

/// How a high alarm is drawn. The others have one face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AlarmFace {
    /// Acknowledged; and every other half second of a new one.
    Filled,
    /// The other half seconds of a new one.
    Outlined,
    /// A new one for somebody who wants no motion: a second outline inside.
    Doubled,
}

/// An alarm with its number.
pub fn alarm(painter: &Painter, rect: Rect, priority: Priority, face: AlarmFace) {
    let plate = Plate::new(painter, rect, GRID, GRID);
    let ink = tokens::INK;
    match priority {
        Priority::High => {
            let (fill, number) = match face {
                AlarmFace::Outlined => (tokens::PAPER, tokens::RED),
                AlarmFace::Filled | AlarmFace::Doubled => (tokens::RED, tokens::PAPER),
            };
            plate.shape(&OCTAGON, fill, 2.0, tokens::RED);
            if face == AlarmFace::Doubled {
                let inside =
                    OCTAGON.map(|(x, y)| (14.0 + (x - 14.0) * 0.8, 14.0 + (y - 14.0) * 0.8));
                plate.outline(&inside, 1.5, tokens::PAPER);
            }
            plate.text(MIDDLE, "1", 17.0, number);
        }
        Priority::Medium => {
            plate.shape(&TRIANGLE, tokens::YELLOW, 2.0, ink);
            plate.text((14.0, 17.4), "2", 14.0, ink);
        }
        Priority::Low => {
            plate.shape(&DIAMOND, tokens::PAPER, 2.0, ink);
            plate.text(MIDDLE, "3", 15.0, ink);
        }
    }
}

/// A finding of the verdict: stop an octagon with a bar, major a triangle with an exclamation
/// mark, minor a ring with a bar.
pub fn finding(painter: &Painter, rect: Rect, severity: Severity) {
    let plate = Plate::new(painter, rect, GRID, GRID);
    let ink = tokens::INK;
    match severity {
        Severity::Stop => {
            plate.shape(&OCTAGON, tokens::RED, 2.0, tokens::RED);
            plate.block(7.0, 11.8, 14.0, 4.4, tokens::PAPER);
        }
        Severity::Major => {
            plate.shape(&TRIANGLE, tokens::YELLOW, 2.0, ink);
            exclamation(&plate, 9.4, ink);
        }
        Severity::Minor => {
            plate.disc(14.0, 14.0, 11.4, tokens::PAPER);
            plate.ring(MIDDLE, 11.4, 2.2, ink);
            plate.block(8.8, 12.7, 10.4, 2.6, ink);
        }
    }
}

/// A person must act: a blue disc.
pub fn must_act(painter: &Painter, rect: Rect) {
    let plate = Plate::new(painter, rect, GRID, GRID);
    plate.disc(14.0, 14.0, 13.2, tokens::BLUE);
    exclamation(&plate, 6.8, tokens::PAPER);
}

/// In order: a ticked square.
pub fn in_order(painter: &Painter, rect: Rect, inks: Inks) {
    let plate = Plate::new(painter, rect, GRID, GRID);
    let frame = [(2.4, 2.4), (25.6, 2.4), (25.6, 25.6), (2.4, 25.6)];
    plate.shape(&frame, inks.ground, 2.2, inks.ink);
    plate.line(&[(7.6, 14.0), (12.2, 19.4), (20.8, 8.6)], 3.0, inks.ink);
}

/// True and believed differ: a six-sided sign.
pub fn differs(painter: &Painter, rect: Rect) {
    let plate = Plate::new(painter, rect, GRID, GRID);
    let ink = tokens::INK;
    plate.shape(&SIX_SIDED, tokens::PAPER, 2.0, ink);
    plate.block(8.6, 10.6, 10.8, 2.0, ink);
    plate.block(8.6, 15.4, 10.8, 2.0, ink);
    plate.line(&[(10.4, 20.2), (17.6, 7.8)], 2.0, ink);
}

/// Harm done: a black square with a bowed board.
pub fn harm(painter: &Painter, rect: Rect) {
    let plate = Plate::new(painter, rect, GRID, GRID);
    let paper = tokens::PAPER;
    plate.block(1.0, 1.0, 26.0, 26.0, tokens::INK);
    plate.arc((14.0, 20.4), 9.6, [-166.0, -14.0], plate.stroke(3.2, paper));
    plate.block(2.6, 10.4, 2.4, 10.4, paper);
    plate.block(23.0, 10.4, 2.4, 10.4, paper);
}

/// A speech mark: a person said so.
pub fn speech(painter: &Painter, rect: Rect, inks: Inks) {
    let plate = Plate::new(painter, rect, 13.0, 10.0);
    let outline = [
        (0.8, 0.8),
        (12.2, 0.8),
        (12.2, 6.8),
        (5.6, 6.8),
        (2.8, 9.6),
        (2.8, 6.8),
        (0.8, 6.8),
    ];
    plate.outline(&outline, 1.4, inks.ink);
}

/// A tick with straight strokes, for a thing that is so.
pub fn tick(painter: &Painter, rect: Rect, colour: Color32) {
    let plate = Plate::new(painter, rect, 20.0, 16.0);
    plate.line(&[(3.0, 8.0), (8.0, 13.4), (17.0, 2.4)], 2.8, colour);
}

/// A tick made by hand: bent, thin at its end, a little out of line.
pub fn hand_tick(painter: &Painter, rect: Rect, colour: Color32) {
    let plate = Plate::new(painter, rect, 24.0, 14.0);
    plate.line(&[(3.4, 6.8), (5.6, 7.8), (9.2, 11.6)], 2.2, colour);
    plate.line(
        &[(9.2, 11.6), (13.0, 7.4), (16.6, 4.2), (21.0, 1.8)],
        1.9,
        colour,
    );
    plate.disc(9.2, 11.6, 1.1, colour);
}

/// A solid arrowhead that points right, such as at the slot at the belts.
pub fn arrowhead(painter: &Painter, rect: Rect, colour: Color32) {
    let plate = Plate::new(painter, rect, 10.0, 12.0);
    let points = [(0.4, 0.4), (9.8, 6.0), (0.4, 11.6)];
    plate.shape(&points, colour, 0.0, tokens::CLEAR);
}

/// The stroke and the dot of an exclamation mark, from its top.
fn exclamation(plate: &Plate<'_>, top: f32, colour: Color32) {
    plate.block(12.4, top, 3.2, 8.4, colour);
    plate.block(12.4, top + 10.4, 3.2, 3.2, colour);
}
