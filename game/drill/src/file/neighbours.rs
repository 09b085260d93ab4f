//! The neighbours of a drill file.

use rackproof_files::{Fields, Report, Value};
use rackproof_model::Micros;

use super::{bounds, time_grid::on_grid};
use crate::{
    Available, Downstream, FailedLine, Lapse, Neighbours, RailsWidth, Ready, Upstream, Works,
};

/// The line: what is on both sides of the machine. `kind` reads the name of a kind of board, and
/// `failed_line` is the machine's: a drill may say otherwise. All problems are reported.
pub(super) fn read_line(
    value: &Value,
    report: Report<'_>,
    kind: &dyn Fn(&Value, Report<'_>) -> Option<u8>,
    failed_line: FailedLine,
) -> Option<Neighbours> {
    let fields = Fields::of(value, "Line", report)?;
    let leftover = fields.optional("leftover", None, |value, report| {
        kind(value, report).map(Some)
    });
    let lays = fields.flag("lays_by_hand");
    let upstream = fields.optional("upstream", None, |value, report| {
        read_upstream(value, report, failed_line).map(Some)
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
    let cycle = on_grid(cycle, fields.place_of("cycle_s"), report);
    let first = fields.optional("first_s", 0, |value, report| {
        on_grid(report.micros(value, &bounds::FIRST), value.place, report)
    });
    fields.finish();
    Some(Works::Every {
        cycle: Micros(cycle?),
        first: Micros(first?),
    })
}

/// The machine upstream. All problems are reported.
fn read_upstream(value: &Value, report: Report<'_>, line: FailedLine) -> Option<Upstream> {
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
            ("TestBox", Available::TestBox),
            ("ByHand", Available::ByHand),
        ];
        report.choice(value, &choices)
    });
    let rails = rails(&fields);
    let failed = fields.optional("failed", (0, line), |value, report| {
        failed(value, report, line)
    });
    let drops = fields.optional("drops", Lapse::Never, drops);
    let two_at_once = fields.optional("two_at_once", Lapse::Never, two_at_once);
    fields.finish();
    let (failed, failed_line) = failed?;
    Some(Upstream {
        boards: boards? as u8,
        works: works?,
        available: available?,
        rails: rails?,
        failed,
        failed_line,
        drops: drops?,
        two_at_once: two_at_once?,
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
            ("TestBox", Ready::TestBox),
        ];
        report.choice(value, &choices)
    });
    let mends = fields.optional("asked", false, |value, report| {
        report.choice(value, &[("Mends", true), ("Nothing", false)])
    });
    let rails = rails(&fields);
    let late = fields.optional("opens_late_s", 0, |value, report| {
        let late = report.micros(value, &bounds::OPENS_LATE);
        on_grid(late, value.place, report)
    });
    let chatters = fields.optional("chatters", false, |value, report| report.flag(value));
    let drops = fields.optional("drops", Lapse::Never, drops);
    let place = fields.place_of("opens_late_s");
    fields.finish();
    let (works, late) = (works?, Micros(late?));
    let cycle = match works {
        Works::Every { cycle, .. } => cycle,
        Works::Chance | Works::Stopped => Micros(0),
    };
    if late > cycle {
        report
            .add(place, "problem-opens-too-late", &[])
            .expected("expected-opens-late", &[]);
        return None;
    }
    Some(Downstream {
        works,
        ready: ready?,
        mends: mends?,
        rails: rails?,
        opens_late: late,
        chatters: chatters?,
        drops: drops?,
    })
}

fn rails(fields: &Fields<'_>) -> Option<RailsWidth> {
    fields.optional("rails", RailsWidth::Changed, |value, report| {
        let choices = [("Changed", RailsWidth::Changed), ("Old", RailsWidth::Old)];
        report.choice(value, &choices)
    })
}

/// Which boards failed, and by which signals upstream says so: by those of the machine file, where
/// the drill says nothing.
fn failed(value: &Value, report: Report<'_>, line: FailedLine) -> Option<(u64, FailedLine)> {
    let fields = Fields::of(value, "Failed", report)?;
    let boards = fields.each("boards", |value, report| {
        report.integer(value, &bounds::BOARD_NUMBER)
    });
    let line = fields.optional("line", line, |value, report| {
        report.choice(value, &FailedLine::ALL)
    });
    fields.finish();
    let boards = boards?.into_iter();
    let mask = boards.fold(0, |mask, number| mask | 1 << (number - 1));
    Some((mask, line?))
}

/// When something happens that should not, by the name that stands first.
const LAPSES: [(&str, Option<Lapse>); 3] = [
    ("Board", None),
    ("Chance", Some(Lapse::Chance)),
    ("Never", Some(Lapse::Never)),
];

/// A hand-over that is dropped: at a board, so long after it began, or when it likes.
fn drops(value: &Value, report: Report<'_>) -> Option<Lapse> {
    if report.variant(value, &LAPSES)?.is_some() {
        return report.choice(value, &LAPSES).flatten();
    }
    let fields = Fields::of(value, "Board", report)?;
    let number = fields.integer("number", &bounds::BOARD_NUMBER);
    let after = fields.micros("after_s", &bounds::DROPS_AFTER);
    let after = on_grid(after, fields.place_of("after_s"), report);
    fields.finish();
    Some(Lapse::Board(number? as u8, Micros(after?)))
}

/// Two boards on one closing: this one and the next, or when it likes.
fn two_at_once(value: &Value, report: Report<'_>) -> Option<Lapse> {
    if report.variant(value, &LAPSES)?.is_some() {
        return report.choice(value, &LAPSES).flatten();
    }
    let [number] = report.values::<1>(value)?;
    let number = report.integer(number, &bounds::BOARD_NUMBER)?;
    Some(Lapse::Board(number as u8, Micros(0)))
}
