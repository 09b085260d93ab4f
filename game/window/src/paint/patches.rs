//! Which parts of a picture are painted anew: squares of a grid, put together to larger patches.

use rackproof_stage::frame::Area;

use super::covers::Cover;

/// Side of a square in pixels. Smaller ones leave more out, larger ones are fewer to paint.
const SIDE: u32 = 32;

/// Which squares of a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Squares {
    /// What differs from the picture before: painted straight into what is shown, since it will
    /// mostly differ again.
    Changed,
    /// What differed in the picture before and does so no more: painted on the canvas.
    Settled,
    /// All but what differs: the canvas has it.
    Kept,
}

/// What differs from picture to picture.
#[derive(Default)]
pub(super) struct Patches {
    size: [u32; 2],
    columns: usize,
    /// For each square, row by row, whether it differs.
    marked: Vec<bool>,
    /// The same of the picture before.
    before: Vec<bool>,
}

impl Patches {
    /// The next picture of this size in pixels, of which nothing differs yet.
    pub(super) fn turn_to(&mut self, size: [u32; 2]) {
        let [columns, rows] = size.map(|length| length.div_ceil(SIDE) as usize);
        self.size = size;
        self.columns = columns;
        std::mem::swap(&mut self.before, &mut self.marked);
        for squares in [&mut self.before, &mut self.marked] {
            squares.resize(columns * rows, false);
        }
        self.marked.fill(false);
    }

    /// All of it is painted anew.
    pub(super) fn mark_all(&mut self) {
        self.marked.fill(true);
    }

    /// What touches this part is painted anew.
    pub(super) fn mark(&mut self, part: &Area) {
        self.mark_beside(part, &[]);
    }

    /// The same, but for squares that lie wholly in hidden parts.
    pub(super) fn mark_beside(&mut self, part: &Area, hidden: &[Area]) {
        let part = part.overlap(&self.whole());
        if part.is_empty() {
            return;
        }
        let [right, bottom] = part.end();
        for row in part.y / SIDE..bottom.div_ceil(SIDE) {
            for column in part.x / SIDE..right.div_ceil(SIDE) {
                let square = self.square(column, row);
                let is_hidden = hidden.iter().any(|hidden| hidden.holds(&square));
                let at = row as usize * self.columns + column as usize;
                self.marked[at] |= !is_hidden;
            }
        }
    }

    /// Patches of the squares that a cover hides.
    pub(super) fn hidden(&self, covers: &[Cover]) -> Vec<Area> {
        let squares = (0..self.marked.len()).map(|at| {
            let square = self.square((at % self.columns) as u32, (at / self.columns) as u32);
            covers.iter().any(|cover| cover.hides(&square))
        });
        self.put_together(squares.collect())
    }

    /// Patches of such squares. They do not overlap, and hold no others.
    pub(super) fn of(&self, which: Squares) -> Vec<Area> {
        let squares = self.marked.iter().zip(&self.before);
        let squares = squares.map(|(marked, before)| match which {
            Squares::Changed => *marked,
            Squares::Settled => *before && !*marked,
            Squares::Kept => !*marked,
        });
        self.put_together(squares.collect())
    }

    fn put_together(&self, mut left: Vec<bool>) -> Vec<Area> {
        let mut patches = Vec::new();
        while let Some(first) = left.iter().position(|marked| *marked) {
            let (row, column) = (first / self.columns, first % self.columns);
            let rest = &left[first..(row + 1) * self.columns];
            let width = rest.iter().take_while(|marked| **marked).count();
            let height = left[first..]
                .chunks(self.columns)
                .take_while(|squares| squares.len() >= width && squares[..width].iter().all(|m| *m))
                .count();
            for number in row..row + height {
                let start = number * self.columns + column;
                left[start..start + width].fill(false);
            }
            let patch = Area {
                x: column as u32 * SIDE,
                y: row as u32 * SIDE,
                width: width as u32 * SIDE,
                height: height as u32 * SIDE,
            };
            patches.push(patch.overlap(&self.whole()));
        }
        patches
    }

    fn square(&self, column: u32, row: u32) -> Area {
        let square = Area {
            x: column * SIDE,
            y: row * SIDE,
            width: SIDE,
            height: SIDE,
        };
        square.overlap(&self.whole())
    }

    fn whole(&self) -> Area {
        let [width, height] = self.size;
        Area {
            width,
            height,
            ..Area::default()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area([x, y, width, height]: [u32; 4]) -> Area {
        Area {
            x,
            y,
            width,
            height,
        }
    }

    /// What is changed, what is hidden, and the patches of a picture of 200 by 100 px.
    #[test]
    fn patches_are_the_squares_that_are_touched_and_not_hidden() {
        type Case<'c> = (&'c [[u32; 4]], &'c [[u32; 4]], &'c [[u32; 4]]);
        let cases: [Case<'_>; 9] = [
            (&[], &[], &[]),
            (&[[5, 5, 1, 1]], &[], &[[0, 0, 32, 32]]),
            (&[[31, 31, 2, 2]], &[], &[[0, 0, 64, 64]]),
            (&[[0, 0, 0, 9]], &[], &[]),
            // The last squares end with the picture.
            (&[[190, 90, 500, 500]], &[], &[[160, 64, 40, 36]]),
            (&[[300, 0, 5, 5]], &[], &[]),
            // Two that make no rectangle.
            (
                &[[0, 0, 64, 32], [32, 32, 32, 32]],
                &[],
                &[[0, 0, 64, 32], [32, 32, 32, 32]],
            ),
            // What hides a part of a square hides nothing of it.
            (
                &[[0, 0, 128, 32]],
                &[[20, 0, 60, 40]],
                &[[0, 0, 32, 32], [64, 0, 64, 32]],
            ),
            (&[[180, 90, 5, 5]], &[[160, 64, 40, 36]], &[]),
        ];
        for (changed, hidden, expected) in cases {
            let [hidden, expected] =
                [hidden, expected].map(|parts| parts.iter().copied().map(area).collect::<Vec<_>>());
            let mut patches = Patches::default();
            patches.turn_to([200, 100]);
            for part in changed {
                patches.mark_beside(&area(*part), &hidden);
            }
            assert_eq!(patches.of(Squares::Changed), expected, "{changed:?}");
        }
    }

    #[test]
    fn hidden_are_the_squares_of_which_a_cover_hides_all() {
        let covers = [[0, 0, 70, 40], [150, 60, 50, 40]].map(|edges| Cover::upright(area(edges)));
        let mut patches = Patches::default();
        patches.turn_to([200, 100]);
        let hidden = [[0, 0, 64, 32], [160, 64, 40, 36]].map(area);
        assert_eq!(patches.hidden(&covers), hidden);
        assert!(patches.hidden(&[]).is_empty());
    }

    #[test]
    fn what_differs_no_more_is_settled_and_the_rest_is_kept() {
        let [all, left, right] = [[0, 0, 64, 32], [0, 0, 32, 32], [32, 0, 32, 32]].map(area);
        // What differs in each picture, what has settled then, and what is kept.
        let steps: [(&[Area], &[Area], &[Area]); 5] = [
            (&[all], &[], &[]),
            (&[left], &[right], &[right]),
            (&[right], &[left], &[left]),
            (&[], &[right], &[all]),
            (&[], &[], &[all]),
        ];
        let mut patches = Patches::default();
        for (number, (changed, settled, kept)) in steps.into_iter().enumerate() {
            patches.turn_to([64, 32]);
            if number == 0 {
                patches.mark_all();
            }
            changed.iter().for_each(|part| patches.mark(part));
            let found = [Squares::Changed, Squares::Settled, Squares::Kept];
            assert_eq!(
                found.map(|which| patches.of(which)),
                [changed, settled, kept]
            );
        }
        patches.turn_to([0, 0]);
        patches.mark_all();
        assert!(patches.of(Squares::Changed).is_empty());
    }
}
