//! Comparisons of widths, from records to operators.

use rackproof_drill::Width;
use rackproof_files::{Fields, Kind, Report, Value};
use rackproof_model::Micrometres;

use super::{Compiler, Gives};
use crate::{
    formula::Operator,
    limits::{COMPARISONS_MOST, LENGTH, Limit},
    widths::Comparison,
};

/// The operator of a formula that compares widths.
pub(super) fn comparing(value: &Value) -> Option<&'static str> {
    let Kind::Record(record) = &value.kind else {
        return None;
    };
    let names = ["AtLeast", "AtMost"];
    names
        .into_iter()
        .find(|name| record.name.as_deref() == Some(*name))
}

impl Compiler<'_> {
    pub(super) fn comparison(
        &mut self,
        operator: &'static str,
        value: &Value,
        report: Report<'_>,
    ) -> Option<Gives> {
        let fields = Fields::of(value, operator, report)?;
        let width = fields.choice("width", Width::ALL);
        let over = fields.optional("over", None, |value, report| {
            report.choice(value, Width::ALL).map(Some)
        });
        let plus = fields.micrometres("mm", &LENGTH);
        if let (Some(width), Some(Some(over))) = (width, over)
            && width == over
        {
            report
                .add(fields.place_of("over"), "problem-width-itself", &[])
                .expected("expected-width-other", &[])
                .hint("hint-width-itself", &[]);
            fields.finish();
            return None;
        }
        fields.finish();
        let comparison = Comparison {
            least: operator == "AtLeast",
            width: width?,
            over: over?,
            plus: Micrometres(plus?),
        };
        let comparisons = &mut self.program.comparisons;
        let known = comparisons.iter().position(|known| *known == comparison);
        let place = known.unwrap_or(comparisons.len());
        if place == COMPARISONS_MOST {
            self.limit(Limit::Comparisons, value, report);
            return None;
        }
        if known.is_none() {
            comparisons.push(comparison);
        }
        let at = self.push(Operator::Compares(place as u8), value, report)?;
        Some(Gives::Truth(at))
    }
}
