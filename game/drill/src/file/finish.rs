//! What must hold at the end.

use rackproof_files::{Fields, Report, Value};

use crate::FinishItem;

/// A standard is an outcome. One that names steps alone, or nothing, would pass who did the steps
/// and not the job.
pub(super) fn read_finish(fields: &Fields<'_>, report: Report<'_>) -> Option<Vec<FinishItem>> {
    let item = |value: &Value, report: Report<'_>| report.choice(value, FinishItem::ALL);
    let finish = fields.each("finish", item)?;
    if !finish.iter().any(|item| item.is_outcome()) {
        let known = FinishItem::ALL.iter().filter(|(_, item)| item.is_outcome());
        let names: Vec<&str> = known.map(|(name, _)| *name).collect();
        report
            .add(fields.place_of("finish"), "problem-finish-steps-only", &[])
            .expected("expected-finish-outcome", &[("names", &names.join(", "))]);
    }
    Some(finish)
}
