//! What makes a step critical: a stop rule or a harm that stands behind it.

use rackproof_buffer::HarmKind;
use rackproof_files::{Kind, Place, Report, Value, nearest};

use super::{Analysis, Backing};
use crate::{Rules, Severity};

/// Reads the list behind a critical step: `[Rule("declared-unseen"), Harm(Broken)]`. An empty one
/// is a problem: a step is critical for a reason.
pub(super) fn read(value: &Value, report: Report<'_>) -> Option<Vec<(Backing, Place)>> {
    let backing = report.each(value, backing)?;
    if backing.is_empty() {
        report
            .add(value.place, "problem-critical-without", &[])
            .expected("expected-backing", &[]);
        return None;
    }
    Some(backing)
}

fn backing(value: &Value, report: Report<'_>) -> Option<(Backing, Place)> {
    let found = match &value.kind {
        Kind::Tagged(word, parts) if word == "Rule" && parts.len() == 1 => {
            report.name(&parts[0]).map(Backing::Rule)
        }
        Kind::Tagged(word, parts) if word == "Harm" && parts.len() == 1 => {
            report.choice(&parts[0], HarmKind::NAMED).map(Backing::Harm)
        }
        Kind::Unreadable => None,
        _ => {
            report
                .add(value.place, "problem-no-backing", &[])
                .expected("expected-backing", &[]);
            None
        }
    };
    found.map(|backing| (backing, value.place))
}

impl Analysis {
    /// Reports each rule behind a critical step that is none of these, or that does not fail who
    /// breaks it. `report` is that of the procedure's file.
    pub fn check_critical(&self, rules: &Rules, report: Report<'_>) {
        for (name, place) in &self.named_rules {
            match rules.list.iter().find(|rule| rule.name == *name) {
                None => {
                    let names = rules.list.iter().map(|rule| rule.name.as_str());
                    report
                        .add(*place, "problem-unknown-rule", &[("name", name)])
                        .did_you_mean(nearest(name, names));
                }
                Some(rule) if rule.severity < Severity::Stop => {
                    report
                        .add(*place, "problem-critical-not-stop", &[("name", name)])
                        .expected("expected-backing", &[]);
                }
                Some(_) => {}
            }
        }
    }
}
