//! Slots: in pencil as believed, in ink by half as seen or true, and the boxes of the tick sheet.

use egui::{Painter, Rect, Stroke, StrokeKind, Vec2};

use super::lines::{dashed_rect, dotted_rect, hatch};
use super::plate::{Inks, centred_text};
use super::signs::{hand_tick, speech};
use crate::fonts;
use crate::tokens::{self, Step, Weight};

/// What the controller believes of a slot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pencil {
    /// Nothing in it.
    Empty,
    /// A board in it.
    Full,
    /// Two boards, one in each half.
    Tandem,
    /// Nobody knows.
    Unknown,
    /// A person said that nothing is, or no longer is, in it ("said empty", "said taken").
    Said,
    /// Left out by the interval of the product.
    NotUsed,
}

/// What is seen, or true, of half a slot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SeenHalf {
    /// Nobody has looked.
    NotLookedAt,
    /// Seen, and nothing there.
    Empty,
    /// A board, or part of one.
    Board,
    /// Seen once; something has moved since.
    Voided,
}

/// Thickness of dashes and dots.
const PENCIL_WIDTH: f32 = 1.5;
/// Between the strokes of a hatch, along its foot.
const HATCH_SPACING: f32 = 5.5;
/// Between the halves of a slot in ink.
const HALVES_GAP: f32 = 1.0;

/// A slot as the controller believes it. Drawn 50 by 13 on the panel.
pub fn pencil_slot(painter: &Painter, rect: Rect, believed: Pencil, inks: Inks) {
    let stroke = Stroke::new(PENCIL_WIDTH, inks.pencil);
    let inner = rect.shrink(3.0);
    match believed {
        Pencil::Empty => dashed_rect(painter, rect, stroke),
        Pencil::Full => {
            dashed_rect(painter, rect, stroke);
            hatch(painter, inner, inks.pencil, 1.0, HATCH_SPACING);
        }
        Pencil::Tandem => {
            dashed_rect(painter, rect, stroke);
            for half in halves(inner, 4.0) {
                hatch(painter, half, inks.pencil, 1.0, HATCH_SPACING);
            }
        }
        Pencil::Unknown => {
            dotted_rect(painter, rect, stroke);
            let mut font = fonts::text(Step::Note, Weight::ExtraBold);
            font.size = (rect.height() * 0.86).min(font.size);
            centred_text(painter, rect.center(), "?", font, inks.ink);
        }
        Pencil::Said => {
            dashed_rect(painter, rect, stroke);
            let height = (rect.height() - 5.0).min(11.0);
            let size = Vec2::new(height * 1.3, height);
            speech(painter, Rect::from_center_size(rect.center(), size), inks);
        }
        Pencil::NotUsed => {
            let middle = rect.center();
            painter.hline(rect.x_range().shrink(6.0), middle.y, stroke);
            let reach = Vec2::splat((rect.height() * 0.3).min(4.0));
            painter.line_segment([middle - reach, middle + reach], stroke);
        }
    }
}

/// A slot as seen or true: infeed half left, outfeed half right.
pub fn ink_slot(painter: &Painter, rect: Rect, seen: [SeenHalf; 2], inks: Inks) {
    for (half, seen) in halves(rect, HALVES_GAP).into_iter().zip(seen) {
        ink_half(painter, half, seen, inks);
    }
}

/// Half a slot as seen or true.
pub fn ink_half(painter: &Painter, rect: Rect, seen: SeenHalf, inks: Inks) {
    let frame = Stroke::new(1.8, inks.ink);
    match seen {
        SeenHalf::NotLookedAt => {
            let y = rect.bottom() - 0.5;
            painter.hline(rect.x_range(), y, Stroke::new(1.2, inks.pencil));
        }
        SeenHalf::Empty => {
            painter.rect_stroke(rect, 0, frame, StrokeKind::Inside);
            let radius = (rect.height() * 0.2).min(3.4);
            painter.circle_stroke(rect.center(), radius, Stroke::new(1.6, inks.ink));
        }
        SeenHalf::Board => {
            painter.rect_stroke(rect, 0, frame, StrokeKind::Inside);
            let bar = Vec2::new(rect.width() - 7.0, (rect.height() * 0.34).max(3.0));
            let bar = Rect::from_center_size(rect.center(), bar);
            painter.rect_filled(bar, 0, inks.ink);
        }
        SeenHalf::Voided => {
            dotted_rect(painter, rect, Stroke::new(1.3, inks.pencil));
            let reach = Vec2::new(rect.height() * 0.36, -rect.height() * 0.36);
            let points = [rect.center() - reach, rect.center() + reach];
            painter.line_segment(points, Stroke::new(1.8, inks.ink));
        }
    }
}

/// A box of the tick sheet, ticked by hand or not.
pub fn tick_box(painter: &Painter, rect: Rect, ticked: bool) {
    let edge = Stroke::new(tokens::EDGE_WIDTH, tokens::EDGE);
    painter.rect(rect, 0, tokens::PAPER, edge, StrokeKind::Inside);
    if ticked {
        hand_tick(painter, rect.shrink(1.0), tokens::INK);
    }
}

fn halves(rect: Rect, gap: f32) -> [Rect; 2] {
    let (left, right) = rect.split_left_right_at_fraction(0.5);
    [
        left.with_max_x(left.right() - gap / 2.0),
        right.with_min_x(right.left() + gap / 2.0),
    ]
}
