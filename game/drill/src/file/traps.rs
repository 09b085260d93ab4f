//! Traps of a drill, and which of them a variant arms.

use rackproof_buffer::HalfSlot;
use rackproof_files::{Fields, Place, Report, Value};

use super::drill::Site;
use crate::{Arming, Ready, Trap, Variant, Works};

pub(super) fn read_trap(value: &Value, report: Report<'_>) -> Option<Trap> {
    let fields = Fields::of(value, "Trap", report)?;
    let id = fields.name("name");
    let armed = fields.choice("armed", &Arming::ALL);
    let sprung = fields.value("sprung").cloned();
    fields.finish();
    Some(Trap {
        id: id?,
        armed: armed?,
        sprung: sprung?,
    })
}

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
