//! Whether the parts of a variant go together: its traps are armed, its boards fit.

use rackproof_buffer::{Board, HalfSlot};
use rackproof_files::{Place, Report};

use super::drill::Site;
use crate::{Arming, Ready, Variant, Works};

impl Site<'_> {
    /// A variant lists exactly the traps that its geometry arms, and at least one.
    pub(super) fn check_traps(&self, variant: &Variant, place: Place, report: Report<'_>) {
        if variant.traps.is_empty() {
            report
                .add(place, "problem-no-trap", &[("variant", &variant.id)])
                .expected("expected-trap", &[]);
        }
        for (number, trap) in self.traps.iter().enumerate() {
            let (armed, listed) = (
                self.arms(variant, trap.armed),
                variant.traps.contains(&number),
            );
            let id = match (armed, listed) {
                (false, true) => "problem-trap-not-armed",
                (true, false) => "problem-trap-not-listed",
                _ => continue,
            };
            report.add(place, id, &[("variant", &variant.id), ("trap", &trap.id)]);
        }
    }

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

    /// Whether the next product does not use a slot: the sweep, which runs with that product
    /// loaded, does not visit it.
    fn passed_over(&self, slot: u8) -> bool {
        self.next.is_some_and(|next| !self.machine.uses(next, slot))
    }

    fn arms(&self, variant: &Variant, arming: Arming) -> bool {
        let boards = &variant.boards;
        match arming {
            Arming::UnseenBySweep => boards.iter().any(|(at, board)| {
                self.passed_over(at.slot) || !self.machine.sweep_sees(board.kind, at.half)
            }),
            Arming::PassedOver => boards.iter().any(|(at, _)| self.passed_over(at.slot)),
            Arming::OneHalf => boards.iter().any(|(at, _)| {
                let other = HalfSlot {
                    half: at.half.other(),
                    ..*at
                };
                boards.iter().all(|(place, _)| *place != other)
            }),
            Arming::OnInfeedBelt => variant.infeed_belt.is_some(),
            Arming::Stored => !variant.stored.is_empty(),
            Arming::DownstreamLies => {
                let line = variant.line.or(self.neighbours);
                let downstream = line.and_then(|line| line.downstream);
                downstream
                    .is_some_and(|one| one.works == Works::Stopped && one.ready == Ready::Jumper)
            }
        }
    }
}
