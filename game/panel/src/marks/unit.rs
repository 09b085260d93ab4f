//! Unit state: two upright rails and a board.

use egui::{Color32, Painter, Rect};
use rackproof_buffer::UnitState;

use super::plate::{Inks, Plate};

/// The rails, from their left edge, in a grid of 36 by 36.
const RAILS: [f32; 2] = [5.2, 27.2];
const RAIL_WIDTH: f32 = 3.6;
const TOP: f32 = 4.0;
const FOOT: f32 = 32.0;
/// Height of a board seen from its edge.
const BOARD: f32 = 7.4;
const BOARD_TOP: f32 = (TOP + FOOT - BOARD) / 2.0;
const DOT: f32 = 2.6;
const MIDDLE: (f32, f32) = (18.0, 18.0);

/// Draws the glyph of a unit state; None is "unknown". A state that is on its way to another is
/// drawn as that one with three dots below, unless it has a glyph of its own.
pub fn unit_state(painter: &Painter, rect: Rect, state: Option<UnitState>, inks: Inks) {
    let plate = Plate::new(painter, rect, 36.0, 36.0);
    let ink = inks.ink;
    let (glyph, under_way) = glyph(state);
    for rail in RAILS {
        plate.block(rail, TOP, RAIL_WIDTH, FOOT - TOP, ink);
    }
    match glyph {
        Glyph::Ledges => ledges(&plate, ink),
        Glyph::In => {
            plate.block(0.0, BOARD_TOP, 11.0, BOARD, ink);
            dots(&plate, &[13.2, 17.8, 22.4], 18.0 - DOT / 2.0, ink);
        }
        Glyph::Through => {
            plate.block(1.0, BOARD_TOP, 25.0, BOARD, ink);
            plate.shape(&[(25.0, 9.8), (34.6, 18.0), (25.0, 26.2)], ink, 0.0, ink);
        }
        Glyph::CauseInside => {
            plate.block(11.0, BOARD_TOP, 14.0, BOARD, ink);
            plate.block(16.0, TOP, 4.0, 5.4, ink);
            plate.block(16.0, FOOT - 5.4, 4.0, 5.4, ink);
        }
        Glyph::CauseOutside => {
            plate.block(0.4, 15.8, 5.0, 4.4, ink);
            plate.block(30.6, 15.8, 5.0, 4.4, ink);
            plate.block(17.2, 9.2, 1.6, 17.6, ink);
        }
        Glyph::OnFloor => {
            plate.block(11.0, BOARD_TOP, 14.0, BOARD, ink);
            plate.block(RAILS[0], FOOT - 4.4, 25.6, 4.4, ink);
        }
        Glyph::CrossedOut => {
            plate.line(&[(7.0, 6.0), (29.0, 30.0)], 3.6, ink);
            plate.line(&[(29.0, 6.0), (7.0, 30.0)], 3.6, ink);
        }
        Glyph::Out => {
            dots(&plate, &[10.6, 15.4], 18.0 - DOT / 2.0, ink);
            plate.block(20.0, BOARD_TOP, 15.6, BOARD, ink);
        }
        Glyph::Turning => turning(&plate, ink),
        Glyph::Done => {
            plate.block(30.8, BOARD_TOP, 5.2, BOARD, ink);
            plate.line(&[(11.2, 18.2), (16.2, 24.0), (24.4, 11.4)], 2.8, ink);
        }
        Glyph::NotKnown => plate.text(MIDDLE, "?", 18.0, ink),
    }
    if under_way {
        dots(&plate, &[12.1, 16.7, 21.3], 33.4, ink);
    }
}

/// What stands between the rails.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Glyph {
    Ledges,
    In,
    Through,
    CauseInside,
    CauseOutside,
    OnFloor,
    CrossedOut,
    Out,
    Turning,
    Done,
    NotKnown,
}

/// The glyph, and whether the unit is only on its way there.
fn glyph(state: Option<UnitState>) -> (Glyph, bool) {
    let Some(state) = state else {
        return (Glyph::NotKnown, false);
    };
    match state {
        UnitState::Idle => (Glyph::Ledges, false),
        UnitState::Starting => (Glyph::In, false),
        UnitState::Execute => (Glyph::Through, false),
        UnitState::Held => (Glyph::CauseInside, false),
        UnitState::Suspended => (Glyph::CauseOutside, false),
        UnitState::Stopped => (Glyph::OnFloor, false),
        UnitState::Aborted => (Glyph::CrossedOut, false),
        UnitState::Clearing => (Glyph::Out, false),
        UnitState::Resetting => (Glyph::Turning, false),
        UnitState::Complete => (Glyph::Done, false),
        UnitState::Stopping => (Glyph::OnFloor, true),
        UnitState::Aborting => (Glyph::CrossedOut, true),
        UnitState::Holding => (Glyph::CauseInside, true),
        UnitState::Suspending => (Glyph::CauseOutside, true),
        UnitState::Unholding | UnitState::Unsuspending => (Glyph::Through, true),
        UnitState::Completing => (Glyph::Done, true),
    }
}

fn ledges(plate: &Plate<'_>, ink: Color32) {
    for y in [8.8, 16.8, 24.8] {
        plate.block(RAILS[0] + RAIL_WIDTH, y, 6.0, 2.4, ink);
        plate.block(RAILS[1] - 6.0, y, 6.0, 2.4, ink);
    }
}

fn dots(plate: &Plate<'_>, lefts: &[f32], top: f32, ink: Color32) {
    for left in lefts {
        plate.block(*left, top, DOT, DOT, ink);
    }
}

fn turning(plate: &Plate<'_>, ink: Color32) {
    plate.arc(MIDDLE, 6.6, [-200.0, 95.0], plate.stroke(2.6, ink));
    plate.shape(&[(13.0, 23.4), (19.0, 20.6), (19.4, 28.6)], ink, 0.0, ink);
}

#[cfg(test)]
#[path = "unit_tests.rs"]
mod tests;
