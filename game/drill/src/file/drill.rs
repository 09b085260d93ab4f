//! The drill file.

use rackproof_buffer::{Board, Half, HalfSlot, HarmKind, Machine, Mode};
use rackproof_files::{Fields, Place, Report, Value, nearest, read};
use rackproof_model::Micrometres;

use super::{
    bounds,
    faults::read_faults,
    finish::read_finish,
    left::{read_left, read_settings},
    machine::one_of,
    neighbours::read_line,
    races::read_races,
    traps::read_trap,
};
use crate::{Drill, DrillFault, Hall, IntentKind, Limits, Neighbours, Page, Start, Trap, Variant};

/// Slots of the smaller rack of a proof, unless the drill names another.
const SMALL_RACK: i64 = 4;

/// Why there is no machine to check a drill against.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoMachine {
    /// There is no file of that name.
    Missing,
    /// Its file has problems of its own.
    Unread,
}

/// The drill, checked against its machine, or `None` if the file has a problem. `find` gives the
/// machine of a name. All problems are reported.
pub fn read_drill<'m>(
    report: Report<'_>,
    find: impl FnOnce(&str) -> Result<&'m (Machine, Hall), NoMachine>,
) -> Option<Drill> {
    let before = report.problems().len();
    let value = read(report)?;
    let fields = Fields::of(&value, "Drill", report)?;
    let id = fields.name("name");
    let machine_name = fields.name("machine");
    let found = match machine_name.as_deref().map(find) {
        Some(Err(NoMachine::Missing)) => {
            let name = machine_name.as_deref().unwrap_or_default();
            report_no_machine(fields.place_of("machine"), name, report);
            None
        }
        // The problems of its own file are reported there.
        Some(Err(NoMachine::Unread)) | None => None,
        Some(Ok(machine)) => Some(machine),
    };
    let (rules, procedure) = (fields.name("rules"), fields.name("procedure"));
    let traps = fields.each("traps", read_trap);
    let milestones = fields.entries("milestones");
    let finish = read_finish(&fields, report);
    let always_wrong = read_always_wrong(&fields);
    let races = read_races(&fields);
    let pages = read_pages(&fields);
    let harms = read_harms(&fields);
    let early = read_early(&fields);
    let limits = fields.record("limits", "Limits").and_then(read_limits);
    let sources = fields.each("sources", read_source);
    let known = ["line", "start", "next", "variants"].map(|field| fields.value(field));
    let faults = fields.has("faults").then(|| fields.value("faults"));
    let next_place = fields.place_of("next");
    fields.finish();
    // What speaks of boards and slots needs the machine.
    let (machine, hall) = found?;
    let traps = traps?;
    let faults = read_faults(faults.flatten(), machine, hall, report)?;
    let mut site = Site::of(machine, hall, &traps, &faults);
    let [line, start, next, variants] = known;
    let neighbours = line.and_then(|value| site.line(value, report));
    site.neighbours = neighbours;
    let start = start.and_then(|value| site.start(value, report));
    site.start_width = start.as_ref().map(|start| site.width_of(start));
    site.next = next
        .and_then(|value| site.named(report.text(value)?, &hall.product_names, next_place, report));
    let variants = variants.and_then(|value| site.variants(value, report));
    let milestones = milestones?
        .into_iter()
        .map(|(name, value)| (name.to_owned(), value.clone()));
    let drill = Drill {
        id: id?,
        machine: machine_name?,
        rules: rules?,
        procedure: procedure?,
        neighbours: neighbours?,
        start: start?,
        pages: pages?,
        next: site.next?,
        milestones: milestones.collect(),
        variants: variants?,
        finish: finish?,
        limits: limits?,
        always_wrong: always_wrong?,
        races: races?,
        harms: harms?,
        early: early?,
        sources: sources?,
        traps,
        faults,
    };
    (report.problems().len() == before).then_some(drill)
}

fn report_no_machine(place: Place, name: &str, report: Report<'_>) {
    report
        .add(place, "problem-no-machine", &[("name", &name)])
        .hint("hint-no-machine", &[("name", &name)]);
}

pub(super) fn name_twice<'n>(
    names: impl Iterator<Item = &'n String>,
    value: &Value,
    report: Report<'_>,
) {
    let mut seen: Vec<&String> = Vec::new();
    for name in names {
        if seen.contains(&name) {
            report.add(value.place, "problem-name-twice", &[("name", name)]);
        }
        seen.push(name);
    }
}

/// Kinds of intent that are on offer and always wrong.
fn read_always_wrong(fields: &Fields<'_>) -> Option<Vec<IntentKind>> {
    fields.optional("always_wrong", Vec::new(), |value, report| {
        report.each(value, |value, report| report.choice(value, IntentKind::ALL))
    })
}

fn read_source(value: &Value, report: Report<'_>) -> Option<String> {
    report.text(value).map(str::to_owned)
}

/// Harms that the drill speaks of.
fn read_harms(fields: &Fields<'_>) -> Option<Vec<HarmKind>> {
    fields.optional("harms", Vec::new(), |value, report| {
        report.each(value, |value, report| report.choice(value, HarmKind::NAMED))
    })
}

/// Rules that no harm comes of breaking in this drill.
fn read_early(fields: &Fields<'_>) -> Option<Vec<(String, Place)>> {
    fields.optional("early", Vec::new(), |value, report| {
        let names = report.each(value, |value, report| {
            Some((report.text(value)?.to_owned(), value.place))
        })?;
        name_twice(names.iter().map(|(name, _)| name), value, report);
        Some(names)
    })
}

/// Pages of the panel that the drill opens.
fn read_pages(fields: &Fields<'_>) -> Option<Vec<Page>> {
    fields.optional("panel", Vec::new(), |value, report| {
        report.each(value, |page, report| report.choice(page, &Page::ALL))
    })
}

fn read_limits(fields: Fields<'_>) -> Option<Limits> {
    let minutes = fields.integer("minutes", &bounds::MINUTES);
    let majors = fields.integer("majors", &bounds::MAJORS);
    let not_sure = fields.integer("not_sure", &bounds::NOT_SURE);
    let small_rack = fields.optional("small_rack", SMALL_RACK, |value, report| {
        report.integer(value, &bounds::SLOTS)
    });
    fields.finish();
    Some(Limits {
        minutes: minutes? as u32,
        majors: majors? as u32,
        not_sure: not_sure? as u32,
        small_rack: small_rack? as u8,
    })
}

/// What the drill stands on.
pub(super) struct Site<'s> {
    pub(super) machine: &'s Machine,
    pub(super) hall: &'s Hall,
    pub(super) traps: &'s [Trap],
    pub(super) faults: &'s [DrillFault],
    /// Width between the rails at the start.
    pub(super) start_width: Option<Micrometres>,
    /// The product that is asked for.
    pub(super) next: Option<u8>,
    /// The neighbours of the drill.
    pub(super) neighbours: Option<Neighbours>,
}

impl<'s> Site<'s> {
    fn of(
        machine: &'s Machine,
        hall: &'s Hall,
        traps: &'s [Trap],
        faults: &'s [DrillFault],
    ) -> Site<'s> {
        Site {
            machine,
            hall,
            traps,
            faults,
            start_width: None,
            next: None,
            neighbours: None,
        }
    }

    fn named(&self, name: &str, names: &[String], place: Place, report: Report<'_>) -> Option<u8> {
        let found = names.iter().position(|known| known == name);
        if found.is_none() {
            report
                .add(place, "problem-unknown-name", &[("name", &name)])
                .expected("expected-one-of", &[("names", &names.join(", "))])
                .did_you_mean(nearest(name, names.iter().map(String::as_str)));
        }
        found.map(|number| number as u8)
    }

    fn line(&self, value: &Value, report: Report<'_>) -> Option<Neighbours> {
        let kind = |value: &Value, report: Report<'_>| self.kind(value, report);
        read_line(value, report, &kind, self.hall.plugs.failed_board)
    }

    fn kind(&self, value: &Value, report: Report<'_>) -> Option<u8> {
        self.named(
            report.text(value)?,
            &self.hall.kind_names,
            value.place,
            report,
        )
    }

    /// Where the rails truly stand as the drill begins.
    fn width_of(&self, start: &Start) -> Micrometres {
        let mut state = self.machine.at_rest(start.product);
        self.machine.begin_with(&mut state, &start.settings);
        state.width(self.machine)
    }

    fn start(&self, value: &Value, report: Report<'_>) -> Option<Start> {
        let fields = Fields::of(value, "Start", report)?;
        let product = one_of(&fields, "product", &self.hall.product_names);
        let mode = fields.choice(
            "mode",
            &[
                ("Production", Mode::Production),
                ("Changeover", Mode::Changeover),
            ],
        );
        let settings = fields.optional("settings", Vec::new(), |value, report| {
            read_settings(value, report, self.machine)
        });
        let left = fields.optional("left", None, |value, report| {
            read_left(value, report, self.machine).map(Some)
        });
        fields.finish();
        Some(Start {
            product: product?,
            mode: mode?,
            settings: settings?,
            left: left?,
        })
    }

    /// All variants; too many, too few, or a name twice is a problem.
    fn variants(&self, value: &Value, report: Report<'_>) -> Option<Vec<Variant>> {
        let about = report.about("variants");
        let variants = about.each(value, |value, report| self.variant(value, report))?;
        about.within(value.place, variants.len() as i64, &bounds::VARIANTS);
        name_twice(variants.iter().map(|variant| &variant.id), value, report);
        Some(variants)
    }

    fn variant(&self, value: &Value, report: Report<'_>) -> Option<Variant> {
        let fields = Fields::of(value, "Variant", report)?;
        let id = fields.name("name");
        let lying = |value, report| self.lying(value, report);
        let boards = fields.optional("boards", Vec::new(), |value, report| {
            report.each(value, lying)
        });
        let stored = fields.optional("stored", Vec::new(), |value, report| {
            report.each(value, lying)
        });
        let infeed_belt = fields.optional("infeed_belt", None, |value, report| {
            self.kind(value, report).map(|kind| Some(Board::good(kind)))
        });
        let line = fields.optional("line", None, |value, report| {
            self.line(value, report).map(Some)
        });
        let names: Vec<String> = self.traps.iter().map(|trap| trap.id.clone()).collect();
        let traps = fields.each("traps", |value, report| {
            self.named(report.text(value)?, &names, value.place, report)
                .map(usize::from)
        });
        let every = (0..self.faults.len()).collect();
        let faults = fields.optional("faults", every, |value, report| {
            report.each(value, |value, report| self.fault(value, report))
        });
        let place = fields.place();
        fields.finish();
        let variant = Variant {
            id: id?,
            boards: boards?,
            stored: stored?,
            infeed_belt: infeed_belt?,
            line: line?,
            traps: traps?,
            faults: faults?,
        };
        self.check_traps(&variant, place, report);
        self.check_places(&variant, place, report);
        Some(variant)
    }

    fn fault(&self, value: &Value, report: Report<'_>) -> Option<usize> {
        let names: Vec<String> = self.faults.iter().map(|fault| fault.id.clone()).collect();
        self.named(report.text(value)?, &names, value.place, report)
            .map(usize::from)
    }

    /// A board in a slot: slots count from 1 in files, from 0 in the core.
    fn lying(&self, value: &Value, report: Report<'_>) -> Option<(HalfSlot, Board)> {
        let fields = Fields::of(value, "Lying", report)?;
        let slot = fields.integer("slot", &bounds::SLOT);
        let half = fields.choice(
            "half",
            &[("Infeed", Half::Infeed), ("Outfeed", Half::Outfeed)],
        );
        let kind = one_of(&fields, "board", &self.hall.kind_names);
        let place = fields.place_of("slot");
        fields.finish();
        let slot = slot?;
        if slot > i64::from(self.machine.slots()) {
            report
                .add(place, "problem-slot-beyond-rack", &[("slot", &slot)])
                .expected("expected-slot", &[("most", &self.machine.slots())]);
            return None;
        }
        Some((
            HalfSlot {
                slot: slot as u8 - 1,
                half: half?,
            },
            Board::good(kind?),
        ))
    }
}
