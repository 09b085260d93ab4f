//! The guide's runs in the file of a proof.

use rackproof_files::{Bound, Fields, Report, Value};

use super::{COUNT, at_most_one, count, if_there, text_of, unsigned};
use crate::proof::{Deed, Time};

const TIME: Bound = Bound::whole("time", "µs", 0, 86_400_000_000, "a time since the start");

/// The guide's runs, with what it did by its numbers in one list. Older forms lack that.
pub(super) fn guided(fields: &Fields<'_>) -> Option<Vec<Time>> {
    let deeds = if_there(fields, "deeds", deed);
    let known = deeds.as_deref();
    fields.each("times", |value, report| time(value, known, report))
}

fn deed<'v>(value: &'v Value, report: Report<'v>) -> Option<Deed> {
    report.variant(value, &[("After", ())])?;
    let [after, cause] = report.values::<2>(value)?;
    let after = report.integer(after, &TIME).and_then(unsigned);
    let cause = text_of(cause, report);
    Some(Deed {
        after: after?,
        cause: cause?,
    })
}

/// What was done, by its number in the list of all that was done. Of a list that has a problem
/// nothing is missed.
fn done<'v>(value: &'v Value, deeds: Option<&[Deed]>, report: Report<'v>) -> Option<Deed> {
    let number = report.integer(value, &COUNT)?;
    let deeds = deeds?;
    let found = usize::try_from(number).ok().and_then(|at| deeds.get(at));
    if found.is_none() {
        let (count, id) = (deeds.len(), "problem-proof-no-deed");
        report.add(value.place, id, &[("number", &number), ("count", &count)]);
    }
    found.cloned()
}

fn time<'v>(value: &'v Value, deeds: Option<&[Deed]>, report: Report<'v>) -> Option<Time> {
    let fields = Fields::of(value, "Time", report)?;
    let (variant, way) = (fields.name("variant"), fields.name("way"));
    let time = at_most_one(&fields, "time_us", |one, report| {
        report.integer(one, &TIME).and_then(unsigned)
    });
    let (runs, failed) = (count(&fields, "runs"), count(&fields, "failed"));
    let attempt = if_there(&fields, "attempt", |value, report| {
        done(value, deeds, report)
    });
    let end = if fields.has("end") {
        fields.text("end")
    } else {
        Some(String::new())
    };
    fields.finish();
    Some(Time {
        variant: variant?,
        way: way?,
        time: time?,
        runs: runs?,
        failed: failed?,
        attempt: attempt?,
        end: end?,
    })
}
