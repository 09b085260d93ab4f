//! The faults of a drill file.

use rackproof_buffer::{
    BeamFault, BeamName, BoardFault, BoardPlace, Contact, FAULTS_MOST, Fault, Half, HalfSlot,
    KINDS_MOST, Machine,
};
use rackproof_files::{Fields, Report, Value};
use rackproof_model::{Micrometres, Micros, quantity::MicrometresPerSecond};

use super::{bounds, drill::name_twice, machine::one_of, time_grid::on_grid};
use crate::{Comes, DrillFault, Hall, IntentKind, SignKind};

/// What the faults of a file are checked against.
struct FaultSite<'s> {
    machine: &'s Machine,
    hall: &'s Hall,
}

/// The faults of a file, none if it lists none. All problems are reported.
pub(super) fn read_faults(
    value: Option<&Value>,
    machine: &Machine,
    hall: &Hall,
    report: Report<'_>,
) -> Option<Vec<DrillFault>> {
    let Some(value) = value else {
        return Some(Vec::new());
    };
    let faults = FaultSite { machine, hall }.faults(value, report)?;
    name_twice(faults.iter().map(|fault| &fault.id), value, report);
    Some(faults)
}

/// When a fault comes, by the name that stands first.
#[derive(Clone, Copy)]
enum When {
    Plain(Comes),
    After,
    Sign,
    Intent,
}

const WHEN: [(&str, When); 5] = [
    ("Start", When::Plain(Comes::Start)),
    ("Chance", When::Plain(Comes::Chance)),
    ("After", When::After),
    ("OnSign", When::Sign),
    ("OnIntent", When::Intent),
];

/// What is wrong, by the name that stands first.
#[derive(Clone, Copy)]
enum What {
    StepsLost,
    Debris,
    BeltsSlip,
    Beam,
    LiftSinks,
    BrakeFails,
    ReferenceLost,
    Contact,
    Warm,
    Bowed,
    Askew,
    Turned,
}

const WHAT: [(&str, What); 12] = [
    ("StepsLost", What::StepsLost),
    ("Debris", What::Debris),
    ("BeltsSlip", What::BeltsSlip),
    ("Beam", What::Beam),
    ("LiftSinks", What::LiftSinks),
    ("BrakeFails", What::BrakeFails),
    ("ReferenceLost", What::ReferenceLost),
    ("Contact", What::Contact),
    ("Warm", What::Warm),
    ("Bowed", What::Bowed),
    ("Askew", What::Askew),
    ("Turned", What::Turned),
];

impl FaultSite<'_> {
    /// All faults; too many of them, or of odd boards, is a problem.
    fn faults(&self, value: &Value, report: Report<'_>) -> Option<Vec<DrillFault>> {
        let about = report.about("faults");
        let faults = about.each(value, |value, report| self.fault(value, report))?;
        about.within(value.place, faults.len() as i64, &bounds::FAULTS);
        let boards = |fault: &&DrillFault| matches!(fault.what, Fault::Board { .. });
        let kinds = self.machine.kinds().len() + faults.iter().filter(boards).count();
        if kinds > KINDS_MOST {
            let room = KINDS_MOST - self.machine.kinds().len();
            report
                .add(value.place, "problem-odd-boards", &[("kinds", &kinds)])
                .expected("expected-odd-boards", &[("most", &room)]);
        }
        let fits = kinds <= KINDS_MOST && faults.len() <= FAULTS_MOST;
        fits.then_some(faults)
    }

    fn fault(&self, value: &Value, report: Report<'_>) -> Option<DrillFault> {
        let fields = Fields::of(value, "Fault", report)?;
        let id = fields.name("name");
        let what = fields
            .value("what")
            .and_then(|value| self.what(value, report));
        let comes = fields.value("comes").and_then(|value| comes(value, report));
        fields.finish();
        Some(DrillFault {
            id: id?,
            what: what?,
            comes: comes?,
        })
    }

    fn what(&self, value: &Value, report: Report<'_>) -> Option<Fault> {
        let length =
            |fields: &Fields<'_>, field, bound| fields.micrometres(field, bound).map(Micrometres);
        match report.variant(value, &WHAT)? {
            What::BrakeFails => report.choice(value, &[("BrakeFails", Fault::BrakeFails)]),
            What::ReferenceLost => report.choice(value, &[("ReferenceLost", Fault::ReferenceLost)]),
            What::StepsLost => {
                let fields = Fields::of(value, "StepsLost", report)?;
                let lost = length(&fields, "lost_mm", &bounds::STEPS_LOST);
                fields.finish();
                Some(Fault::StepsLost(lost?))
            }
            What::Debris => self.debris(value, report),
            What::BeltsSlip => {
                let fields = Fields::of(value, "BeltsSlip", report)?;
                let slip = fields.integer("percent", &bounds::SLIP);
                fields.finish();
                Some(Fault::BeltsSlip(slip? as u8))
            }
            What::Beam => beam(value, report),
            What::LiftSinks => {
                let fields = Fields::of(value, "LiftSinks", report)?;
                let speed = fields.integer("speed_mm_s", &bounds::SINK_SPEED);
                let by = length(&fields, "by_mm", &bounds::SINK_BY);
                fields.finish();
                let speed = MicrometresPerSecond(speed? as u32 * 1_000);
                Some(Fault::LiftSinks { speed, by: by? })
            }
            What::Contact => contact(value, report),
            What::Warm | What::Bowed | What::Askew | What::Turned => self.board(value, report),
        }
    }

    /// A strip lies within the travel of the rails.
    fn debris(&self, value: &Value, report: Report<'_>) -> Option<Fault> {
        let fields = Fields::of(value, "Debris", report)?;
        let from = fields.micrometres("at_mm", &bounds::WIDTH);
        let wide = fields.micrometres("wide_mm", &bounds::STRIP_WIDE);
        let place = fields.place_of("at_mm");
        fields.finish();
        let (from, parts) = (Micrometres(from?), self.machine.parts());
        let to = from + Micrometres(wide?);
        if from <= parts.width_least || to >= parts.width_most {
            let [least, most] = [parts.width_least, parts.width_most].map(|width| width.0 / 1_000);
            report
                .add(place, "problem-strip-beyond-travel", &[])
                .expected("expected-strip", &[("least", &least), ("most", &most)]);
            return None;
        }
        Some(Fault::Debris { from, to })
    }

    fn board(&self, value: &Value, report: Report<'_>) -> Option<Fault> {
        let names = ["Warm", "Bowed", "Askew", "Turned"].map(|name| (name, name));
        let name = report.variant(value, &names)?;
        let fields = Fields::of(value, name, report)?;
        let kind = one_of(&fields, "board", &self.hall.kind_names);
        let place = fields
            .value("place")
            .and_then(|value| self.place(value, report));
        let length = |field, bound| fields.micrometres(field, bound).map(Micrometres);
        let odd = match name {
            "Warm" => {
                let degrees = fields.integer("degrees", &bounds::BOARD_DEGREES);
                let grown = length("grown_mm", &bounds::BOARD_GROWN);
                degrees.zip(grown).map(|(degrees, grown)| BoardFault::Warm {
                    degrees: degrees as u8,
                    grown,
                })
            }
            "Turned" => Some(BoardFault::Turned),
            "Bowed" => length("bow_mm", &bounds::BOARD_BOW).map(BoardFault::Bowed),
            _ => length("more_mm", &bounds::BOARD_ASKEW).map(BoardFault::Askew),
        };
        fields.finish();
        Some(Fault::Board {
            place: place?,
            kind: kind?,
            odd: odd?,
        })
    }

    fn place(&self, value: &Value, report: Report<'_>) -> Option<BoardPlace> {
        let names = [
            ("InfeedBelt", Some(BoardPlace::InfeedBelt)),
            ("Upstream", Some(BoardPlace::Upstream)),
            ("Slot", None),
        ];
        if report.variant(value, &names)?.is_some() {
            return report.choice(value, &names).flatten();
        }
        let fields = Fields::of(value, "Slot", report)?;
        let slot = fields.integer("slot", &bounds::SLOT);
        let half = fields.choice(
            "half",
            &[("Infeed", Half::Infeed), ("Outfeed", Half::Outfeed)],
        );
        let place = fields.place_of("slot");
        fields.finish();
        let (slot, most) = (slot?, self.machine.slots());
        if slot > i64::from(most) {
            report
                .add(place, "problem-slot-beyond-rack", &[("slot", &slot)])
                .expected("expected-slot", &[("most", &most)]);
            return None;
        }
        let slot = slot as u8 - 1;
        half.map(|half| BoardPlace::Slot(HalfSlot { slot, half }))
    }
}

fn comes(value: &Value, report: Report<'_>) -> Option<Comes> {
    match report.variant(value, &WHEN)? {
        When::Plain(_) => {
            let names = WHEN.map(|(name, when)| (name, when));
            match report.choice(value, &names)? {
                When::Plain(comes) => Some(comes),
                _ => None,
            }
        }
        When::After => {
            let [time] = report.values::<1>(value)?;
            let after = report.micros(time, &bounds::FAULT_AFTER);
            let time = on_grid(after, time.place, report)?;
            Some(Comes::After(Micros(time)))
        }
        When::Sign => {
            let [sign] = report.values::<1>(value)?;
            report.choice(sign, SignKind::ALL).map(Comes::OnSign)
        }
        When::Intent => {
            let [intent] = report.values::<1>(value)?;
            report.choice(intent, IntentKind::ALL).map(Comes::OnIntent)
        }
    }
}

fn beam(value: &Value, report: Report<'_>) -> Option<Fault> {
    let fields = Fields::of(value, "Beam", report)?;
    let name = fields.choice("beam", &BeamName::ALL);
    let sees = fields.value("sees").and_then(|value| {
        let names = [
            ("Nothing", Some(BeamFault::Nothing)),
            ("Always", Some(BeamFault::Always)),
            ("Elsewhere", None),
        ];
        if report.variant(value, &names)?.is_some() {
            return report.choice(value, &names).flatten();
        }
        let off = Fields::of(value, "Elsewhere", report)?;
        let along = off.micrometres("along_mm", &bounds::BEAM_OFF);
        let across = off.micrometres("across_mm", &bounds::BEAM_OFF);
        off.finish();
        let (along, across) = (Micrometres(along?), Micrometres(across?));
        Some(BeamFault::Elsewhere { along, across })
    });
    fields.finish();
    Some(Fault::Beam(name?, sees?))
}

fn contact(value: &Value, report: Report<'_>) -> Option<Fault> {
    let fields = Fields::of(value, "Contact", report)?;
    let contact = fields.choice("contact", &Contact::ALL);
    let closed = fields.choice("stays", &[("Closed", true), ("Open", false)]);
    fields.finish();
    Some(Fault::Contact {
        contact: contact?,
        closed: closed?,
    })
}
