//! Whether the boards of a variant go together.

use rackproof_buffer::{Board, HalfSlot};
use rackproof_files::{Place, Report};

use super::drill::Site;
use crate::Variant;

impl Site<'_> {
    /// No half-slot twice, and every board fits between the rails of the start.
    pub(super) fn check_places(&self, variant: &Variant, place: Place, report: Report<'_>) {
        let lying: Vec<(HalfSlot, Board)> = variant
            .boards
            .iter()
            .chain(&variant.stored)
            .copied()
            .collect();
        for (number, (at, _)) in lying.iter().enumerate() {
            if lying[..number].iter().any(|(other, _)| other == at) {
                report.add(
                    place,
                    "problem-place-taken",
                    &[("variant", &variant.id), ("slot", &(at.slot + 1))],
                );
            }
        }
        let Some(width) = self.start_width else {
            return;
        };
        let boards = lying.iter().map(|(_, board)| *board);
        for board in boards.chain(variant.infeed_belt) {
            let kind = &self.machine.kinds()[board.kind as usize];
            let falls = self.machine.press_limits(board.kind).dropped_over;
            if kind.width > width || width > falls {
                let name = &self.hall.kind_names[board.kind as usize];
                report
                    .add(
                        place,
                        "problem-board-does-not-fit",
                        &[("variant", &variant.id), ("board", name)],
                    )
                    .expected("expected-board-fits", &[("width", &(width.0 / 1_000))]);
            }
        }
    }
}
