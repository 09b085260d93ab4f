//! What all shapes need: a grid to draw on, and the colours of the ground they stand on.

use egui::epaint::PathStroke;
use egui::{Color32, FontId, Galley, Painter, Pos2, Rect, Shape, Stroke, Vec2};

use crate::tokens;

/// The colours that a shape takes from the ground it stands on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Inks {
    /// What is seen or true, and words.
    pub ink: Color32,
    /// What is believed.
    pub pencil: Color32,
    /// What the hollow of a shape is filled with.
    pub ground: Color32,
}

impl Inks {
    /// In the window.
    pub const WINDOW: Self = Self {
        ink: tokens::INK,
        pencil: tokens::PENCIL,
        ground: tokens::PAPER,
    };
    /// On the operator panel.
    pub const PANEL: Self = Self {
        ink: tokens::PANEL_INK,
        pencil: tokens::PANEL_PENCIL,
        ground: tokens::PANEL_WELL,
    };
    /// In a row that is white on ink, such as the slot at the belts.
    pub const REVERSED: Self = Self {
        ink: tokens::PAPER,
        pencil: tokens::PAPER,
        ground: tokens::PANEL_INK,
    };
    /// On a plum button.
    pub const ON_PLUM: Self = Self {
        ink: tokens::PAPER,
        pencil: tokens::PAPER,
        ground: tokens::PLUM,
    };
}

/// Height of a capital letter or a figure, in ems: the same in both faces.
const CAPITAL: f32 = 0.668;

/// Draws one line of text whose capitals have their middle at the point, so that lines with and
/// without descenders stand alike.
pub fn centred_text(painter: &Painter, middle: Pos2, said: &str, font: FontId, colour: Color32) {
    let galley = painter.layout_no_wrap(said.to_owned(), font, colour);
    let corner = Pos2::new(
        middle.x - galley.size().x / 2.0,
        middle.y - capital_middle(&galley),
    );
    painter.galley(corner, galley, colour);
}

/// How far the middle of the capitals is below the top of a galley of one line, in points.
pub(crate) fn capital_middle(galley: &Galley) -> f32 {
    let size = galley
        .job
        .sections
        .first()
        .map_or(0.0, |section| section.format.font_id.size);
    let baseline = galley
        .rows
        .first()
        .and_then(|row| row.glyphs.first().map(|glyph| row.pos.y + glyph.pos.y));
    baseline.unwrap_or_default() - size * CAPITAL / 2.0
}

/// A drawing of a given size, as large as it fits in the middle of a rectangle.
pub(super) struct Plate<'a> {
    painter: &'a Painter,
    corner: Pos2,
    /// Points for one step of the drawing's own grid.
    pub(super) scale: f32,
}

impl<'a> Plate<'a> {
    pub(super) fn new(painter: &'a Painter, rect: Rect, width: f32, height: f32) -> Self {
        let scale = (rect.width() / width).min(rect.height() / height);
        let drawn = Vec2::new(width, height) * scale;
        Self {
            painter,
            corner: rect.center() - drawn / 2.0,
            scale,
        }
    }

    pub(super) fn at(&self, x: f32, y: f32) -> Pos2 {
        self.corner + Vec2::new(x, y) * self.scale
    }

    pub(super) fn stroke(&self, width: f32, colour: Color32) -> Stroke {
        Stroke::new(width * self.scale, colour)
    }

    /// Filled rectangle from its left top corner.
    pub(super) fn block(&self, x: f32, y: f32, width: f32, height: f32, colour: Color32) {
        let rect = Rect::from_two_pos(self.at(x, y), self.at(x + width, y + height));
        self.painter.rect_filled(rect, 0, colour);
    }

    pub(super) fn line(&self, points: &[(f32, f32)], width: f32, colour: Color32) {
        let stroke = self.stroke(width, colour);
        self.painter.line(self.points(points), stroke);
    }

    /// Closed, hollow, with an outline.
    pub(super) fn outline(&self, points: &[(f32, f32)], width: f32, colour: Color32) {
        let stroke = PathStroke::from(self.stroke(width, colour));
        self.painter
            .add(Shape::closed_line(self.points(points), stroke));
    }

    pub(super) fn oval(&self, middle: (f32, f32), radii: (f32, f32), colour: Color32) {
        let radii = Vec2::new(radii.0, radii.1) * self.scale;
        let middle = self.at(middle.0, middle.1);
        self.painter
            .add(Shape::ellipse_filled(middle, radii, colour));
    }

    /// Closed, filled, with an outline. The points go once round a convex shape.
    pub(super) fn shape(&self, points: &[(f32, f32)], fill: Color32, width: f32, outline: Color32) {
        let stroke = PathStroke::from(self.stroke(width, outline));
        let shape = Shape::convex_polygon(self.points(points), fill, stroke);
        self.painter.add(shape);
    }

    pub(super) fn disc(&self, x: f32, y: f32, radius: f32, colour: Color32) {
        let radius = radius * self.scale;
        self.painter.circle_filled(self.at(x, y), radius, colour);
    }

    pub(super) fn ring(&self, middle: (f32, f32), radius: f32, width: f32, colour: Color32) {
        let (x, y) = middle;
        let stroke = self.stroke(width, colour);
        self.painter
            .circle_stroke(self.at(x, y), radius * self.scale, stroke);
    }

    /// Part of a circle; degrees run clockwise from three o'clock.
    pub(super) fn arc(&self, middle: (f32, f32), radius: f32, degrees: [f32; 2], stroke: Stroke) {
        const PIECES: u16 = 24;
        let [from, to] = degrees;
        let points = (0..=PIECES)
            .map(|piece| {
                let part = f32::from(piece) / f32::from(PIECES);
                let turn = (from + (to - from) * part).to_radians();
                self.at(
                    middle.0 + radius * turn.cos(),
                    middle.1 + radius * turn.sin(),
                )
            })
            .collect();
        self.painter.line(points, stroke);
    }

    /// Text whose middle is at the point; the size is in steps of the grid.
    pub(super) fn text(&self, middle: (f32, f32), said: &str, size: f32, colour: Color32) {
        let step = tokens::Step::Text;
        let mut font = crate::fonts::text(step, tokens::Weight::ExtraBold);
        font.size = size * self.scale;
        centred_text(
            self.painter,
            self.at(middle.0, middle.1),
            said,
            font,
            colour,
        );
    }

    fn points(&self, points: &[(f32, f32)]) -> Vec<Pos2> {
        points.iter().map(|(x, y)| self.at(*x, *y)).collect()
    }
}
