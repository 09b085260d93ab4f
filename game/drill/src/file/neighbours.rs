//! The neighbours of a drill file.

use rackproof_files::{Fields, Report, Value};
use rackproof_model::Micros;

use super::bounds;
use crate::{Available, Downstream, Neighbours, Ready, Upstream, Works};

/// The line: what is on both sides of the machine. `kind` reads the name of a kind of board. All
/// problems are reported.
pub(super) fn read_line(
    value: &Value,
    report: Report<'_>,
    kind: &dyn Fn(&Value, Report<'_>) -> Option<u8>,
) -> Option<Neighbours> {
    let fields = Fields::of(value, "Line", report)?;
    let leftover = fields.optional("leftover", None, |value, report| {
        kind(value, report).map(Some)
    });
    let lays = fields.flag("lays_by_hand");
    let upstream = fields.optional("upstream", None, |value, report| {
        read_upstream(value, report).map(Some)
    });
    let downstream = fields.optional("downstream", None, |value, report| {
        read_downstream(value, report).map(Some)
    });
    let ready = read_ready(&fields, report);
    if fields.has("upstream") && !fields.has("leftover") {
        let place = fields.place_of("upstream");
        report
            .add(place, "problem-upstream-no-board", &[])
            .expected("expected-upstream-board", &[]);
    }
    fields.finish();
    Some(Neighbours {
        leftover: leftover?,
        lays_by_hand: lays?,
        downstream_ready: ready?,
        upstream: upstream?,
        downstream: downstream?,
    })
}

/// Whether downstream's signal is closed. Where downstream is described, that says it.
fn read_ready(fields: &Fields<'_>, report: Report<'_>) -> Option<bool> {
    if !fields.has("downstream") {
        return fields.flag("downstream_ready");
    }
    if fields.has("downstream_ready") {
        let place = fields.place_of("downstream_ready");
        report
            .add(place, "problem-ready-twice", &[])
            .hint("hint-ready-twice", &[]);
    }
    Some(false)
}

/// How a neighbour works, by the name that stands first.
const WORKS: [(&str, Option<Works>); 3] = [
    ("Every", None),
    ("Chance", Some(Works::Chance)),
    ("Stopped", Some(Works::Stopped)),
];

fn works(value: &Value, report: Report<'_>) -> Option<Works> {
    if report.variant(value, &WORKS)?.is_some() {
        return report.choice(value, &WORKS).flatten();
    }
    let fields = Fields::of(value, "Every", report)?;
    let cycle = fields.micros("cycle_s", &bounds::CYCLE);
    let first = fields.optional("first_s", 0, |value, report| {
        report.micros(value, &bounds::FIRST)
    });
    fields.finish();
    Some(Works::Every {
        cycle: Micros(cycle?),
        first: Micros(first?),
    })
}

/// The machine upstream. All problems are reported.
fn read_upstream(value: &Value, report: Report<'_>) -> Option<Upstream> {
    let fields = Fields::of(value, "Upstream", report)?;
    let boards = fields.integer("boards", &bounds::UPSTREAM_BOARDS);
    let works = fields
        .value("works")
        .and_then(|value| works(value, report.about("works")));
    let available = fields.optional("available", Available::AtExit, |value, report| {
        let choices = [
            ("AtExit", Available::AtExit),
            ("WhenReady", Available::WhenReady),
            ("Jumper", Available::Jumper),
        ];
        report.choice(value, &choices)
    });
    fields.finish();
    Some(Upstream {
        boards: boards? as u8,
        works: works?,
        available: available?,
    })
}

/// The machine downstream. All problems are reported.
fn read_downstream(value: &Value, report: Report<'_>) -> Option<Downstream> {
    let fields = Fields::of(value, "Downstream", report)?;
    let works = fields
        .value("works")
        .and_then(|value| works(value, report.about("works")));
    let ready = fields.optional("ready", Ready::Room, |value, report| {
        let choices = [
            ("Room", Ready::Room),
            ("OnOffer", Ready::OnOffer),
            ("Jumper", Ready::Jumper),
            ("Design", Ready::Design),
        ];
        report.choice(value, &choices)
    });
    let mends = fields.optional("asked", false, |value, report| {
        report.choice(value, &[("Mends", true), ("Nothing", false)])
    });
    fields.finish();
    Some(Downstream {
        works: works?,
        ready: ready?,
        mends: mends?,
    })
}
