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
            let listed = variant.traps.contains(&number);
            let Some(armed) = self.arms(variant, trap.armed) else {
                continue;
            };
            let id = match (armed, listed) {
                (false, true) => "problem-trap-not-armed",
                (true, false) => "problem-trap-not-listed",
                _ => continue,
            };
            report.add(place, id, &[("variant", &variant.id), ("trap", &trap.id)]);
        }
    }

    /// Whether a variant arms a trap. `None` if what would tell could not be read, which was
    /// reported.
    fn arms(&self, variant: &Variant, arming: Arming) -> Option<bool> {
        let boards = &variant.boards;
        // The sweep runs with the next product loaded, and visits no slot that it does not use.
        let passed_over = |next: u8, slot: u8| !self.machine.uses(next, slot);
        let arms = match arming {
            Arming::UnseenBySweep => {
                let next = self.next?;
                boards.iter().any(|(at, board)| {
                    passed_over(next, at.slot) || !self.machine.sweep_sees(board.kind, at.half)
                })
            }
            Arming::PassedOver => {
                let next = self.next?;
                boards.iter().any(|(at, _)| passed_over(next, at.slot))
            }
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
                let downstream = variant.line.or(self.neighbours)?.downstream;
                downstream
                    .is_some_and(|one| one.works == Works::Stopped && one.ready == Ready::Jumper)
            }
        };
        Some(arms)
    }
}

#[cfg(test)]
mod tests {
    use rackproof_files::Problems;

    use crate::{
        file::{read_drill, read_machine},
        world_tests::MACHINE,
    };

    const OTHER: &str = include_str!("../../../../assets/machines/rowan-40.ron");
    const DRAINING: &str = include_str!("../../../../scenarios/production/blocked-downstream.ron");
    const ON_OTHER: &str = include_str!("../../../../scenarios/changeover/left-inside-rowan.ron");

    #[test]
    fn of_what_could_not_be_read_no_trap_is_missed() {
        let cases = [
            (
                ("blocked-downstream.ron", DRAINING, MACHINE),
                ("Upstream(boards: 2", "Upstream(boards: 0"),
            ),
            (
                ("left-inside-rowan.ron", ON_OTHER, OTHER),
                ("next: \"kestrel\"", "next: \"kestrl\""),
            ),
        ];
        for ((name, text, machine), (from, to)) in cases {
            assert!(text.contains(from), "{from}");
            let problems = Problems::new();
            let machine = read_machine(problems.for_file("machine.ron", machine));
            let machine = machine.expect("it has no problem");
            let text = text.replacen(from, to, 1);
            read_drill(problems.for_file(name, &text), |_| Ok(&machine));
            let found: Vec<_> = problems.sorted().iter().map(|one| one.found.id).collect();
            let of_traps = found.iter().filter(|id| id.contains("trap")).count();
            assert_eq!((found.len(), of_traps), (1, 0), "{to}: {found:?}");
        }
    }
}
