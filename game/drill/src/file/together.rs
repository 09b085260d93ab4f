//! Whether the boards of a variant go together.

use std::fmt::Display;

use rackproof_buffer::{Board, HalfSlot};
use rackproof_files::{Place, Report};

use super::{drill::Site, machine::millimetres};
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
        self.check_parts(variant, &lying, place, report);
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
                    .expected("expected-board-fits", &[("width", &millimetres(width.0))]);
            }
        }
    }

    /// No board lies at the start where its parts would meet those of another.
    fn check_parts(
        &self,
        variant: &Variant,
        lying: &[(HalfSlot, Board)],
        place: Place,
        report: Report<'_>,
    ) {
        for (number, &(at, board)) in lying.iter().enumerate() {
            let meets = |&&(other, one): &&(HalfSlot, Board)| {
                self.machine.parts_meet((at, board.kind), (other, one.kind))
            };
            if let Some((other, _)) = lying[..number].iter().find(meets) {
                let told: [(&'static str, &dyn Display); 3] = [
                    ("variant", &variant.id),
                    ("slot", &(at.slot + 1)),
                    ("other", &(other.slot + 1)),
                ];
                let problem = report.add(place, "problem-parts-meet", &told);
                problem.expected("expected-parts-free", &[]);
            }
        }
    }
}
