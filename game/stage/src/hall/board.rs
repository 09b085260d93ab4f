//! Boards: a thin sheet with a few parts on it, whole, cracked or cut, in their own frame: x from
//! the trailing edge, y from the edge at the fixed rail, z from the underside.

use rackproof_buffer::{BoardKind, Condition};

use super::draft::Draft;
use super::figures::metres;
use crate::tokens::{self, Colour};

/// What a board looks like in its own frame.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Form {
    /// In one piece.
    Whole,
    /// With a crack across.
    Cracked,
    /// In two pieces.
    Cut,
}

impl Form {
    pub(crate) const ALL: [Form; 3] = [Form::Whole, Form::Cracked, Form::Cut];

    /// Overstrain shows nothing: it looks as a good board does.
    pub(crate) fn of(condition: Condition) -> Form {
        match condition {
            Condition::Broken | Condition::Collided => Form::Cracked,
            Condition::Sheared => Form::Cut,
            Condition::Good
            | Condition::Charged
            | Condition::Overstrained
            | Condition::SprungOut
            | Condition::Dropped => Form::Whole,
        }
    }
}

/// A part on a board: from and to, as shares of its length and width, and its height in mm.
type Placed = ([f32; 2], [f32; 2], f32, Colour);

/// Parts that every board carries. They keep to the edges, where no kind has its window.
const PARTS: [Placed; 5] = [
    ([0.06, 0.08], [0.20, 0.28], 3.0, tokens::BEZEL),
    ([0.84, 0.10], [0.95, 0.34], 4.5, tokens::SHEET),
    ([0.84, 0.42], [0.95, 0.62], 4.5, tokens::SHEET),
    ([0.60, 0.88], [0.68, 0.95], 1.6, tokens::STEEL),
    ([0.06, 0.66], [0.17, 0.90], 3.0, tokens::BEZEL),
];
/// The tallest part, at the far edge: as high as the board's kind says, at least this high in mm.
const TALLEST: Placed = ([0.30, 0.86], [0.52, 0.96], 2.5, tokens::BEZEL);
/// Parts in the middle of boards without a window.
const MIDDLE: [Placed; 3] = [
    ([0.36, 0.40], [0.62, 0.70], 2.0, tokens::BEZEL),
    ([0.68, 0.70], [0.74, 0.76], 1.6, tokens::STEEL),
    ([0.28, 0.22], [0.33, 0.30], 1.6, tokens::STEEL),
];

/// The shape of a board. One that came `bowed` can arch along the flow.
pub(crate) fn board(kind: &BoardKind, colour: Colour, form: Form, bowed: bool) -> Draft {
    let mut draft = Draft::new();
    let (length, width) = (metres(kind.length), metres(kind.width));
    let thick = metres(kind.thickness);
    let cut = if form == Form::Cut { 0.004 } else { 0.0 };
    for [from, to] in plates(kind) {
        // A cut board has lost a strip in the middle.
        let middle = length / 2.0;
        let pieces = if cut > 0.0 && from[0] < middle && to[0] > middle {
            vec![(from, [middle - cut, to[1]]), ([middle + cut, from[1]], to)]
        } else {
            vec![(from, to)]
        };
        for (from, to) in pieces {
            draft.board_sheet([from, to], thick, bowed, colour);
        }
    }
    let middle = kind.cutout.is_none().then_some(MIDDLE);
    for (from, to, high, colour) in PARTS.into_iter().chain(middle.into_iter().flatten()) {
        draft.quiet_block(
            [from[0] * length, from[1] * width, thick],
            [to[0] * length, to[1] * width, thick + high * 1e-3],
            colour,
        );
    }
    tallest(&mut draft, kind);
    if form == Form::Cracked {
        crack(&mut draft, length, width, thick);
    }
    draft
}

/// The tallest part above, and the deepest below, where the kind has one.
fn tallest(draft: &mut Draft, kind: &BoardKind) {
    let (from, to, least, colour) = TALLEST;
    let (length, width) = (metres(kind.length), metres(kind.width));
    let thick = metres(kind.thickness);
    let mut block = |low: f32, high: f32| {
        draft.quiet_block(
            [from[0] * length, from[1] * width, low],
            [to[0] * length, to[1] * width, high],
            colour,
        );
    };
    block(thick, thick + metres(kind.above).max(least * 1e-3));
    if kind.below.0 > 0 {
        block(-metres(kind.below), 0.0);
    }
}

/// The rectangles that make up a board round its window: from and to.
fn plates(kind: &BoardKind) -> Vec<[[f32; 2]; 2]> {
    let (length, width) = (metres(kind.length), metres(kind.width));
    let Some(window) = kind.cutout else {
        return vec![[[0.0, 0.0], [length, width]]];
    };
    let [x0, x1] = [window.along_from, window.along_to].map(metres);
    let [y0, y1] = [window.across_from, window.across_to].map(metres);
    let all = [
        [[0.0, 0.0], [length, y0]],
        [[0.0, y1], [length, width]],
        [[0.0, y0], [x0, y1]],
        [[x1, y0], [length, y1]],
    ];
    let has_room = |[from, to]: &[[f32; 2]; 2]| to[0] - from[0] > 1e-6 && to[1] - from[1] > 1e-6;
    all.into_iter().filter(has_room).collect()
}

/// A jagged line along the middle, where a pressed board breaks.
fn crack(draft: &mut Draft, length: f32, width: f32, thick: f32) {
    let steps = 9u8;
    let point = |step: u8| {
        let aside = if step.is_multiple_of(2) { 0.03 } else { -0.02 };
        let along = f32::from(step) / f32::from(steps);
        [along * length, (0.5 + aside) * width, thick + 0.0006]
    };
    for step in 0..steps {
        draft.stroke(point(step), point(step + 1), 0.003);
    }
}

#[cfg(test)]
mod tests {
    use rackproof_buffer::Cutout;
    use rackproof_model::{
        Micrometres,
        quantity::{Microstrain, Percent},
    };

    use super::*;

    fn kind(cutout: Option<Cutout>) -> BoardKind {
        let mm = Micrometres::from_millimetres;
        BoardKind {
            length: mm(180),
            width: mm(160),
            thickness: Micrometres(1_600),
            above: Micrometres(0),
            below: Micrometres(0),
            reflectance: Percent(45),
            cutout,
            strain_limit: Microstrain(1_000),
            strain_break: Microstrain(15_000),
        }
    }

    #[test]
    fn a_window_is_really_cut_out() {
        let mm = Micrometres::from_millimetres;
        let window = Cutout {
            along_from: mm(40),
            along_to: mm(140),
            across_from: mm(60),
            across_to: mm(130),
        };
        let area = |plates: &[[[f32; 2]; 2]]| -> f32 {
            plates
                .iter()
                .map(|[from, to]| (to[0] - from[0]) * (to[1] - from[1]))
                .sum()
        };
        let (whole, cut) = (plates(&kind(None)), plates(&kind(Some(window))));
        assert!((area(&whole) - area(&cut) - 0.1 * 0.07).abs() < 1e-6);
        let middle = [0.09, 0.095];
        let covers = |[from, to]: &[[f32; 2]; 2]| {
            (0..2).all(|axis| (from[axis]..to[axis]).contains(&middle[axis]))
        };
        assert!(whole.iter().any(covers) && !cut.iter().any(covers));
    }

    #[test]
    fn overstrain_looks_good() {
        assert_eq!(Form::of(Condition::Overstrained), Form::of(Condition::Good));
        assert_ne!(Form::of(Condition::Broken), Form::of(Condition::Good));
    }
}
