//! What makes a step critical: a stop rule or a harm that stands behind it.

use rackproof_buffer::HarmKind;
use rackproof_files::{Kind, Place, Report, Value, nearest};

use super::Backing;
use crate::{Definitions, Severity};

/// Reads the list behind a critical step: `[Rule("declared-unseen"), Harm(Broken)]`. An empty one
/// is a problem: a step is critical for a reason. Of one with problems the rest is given.
pub(super) fn read(value: &Value, report: Report<'_>) -> Option<Vec<(Backing, Place)>> {
    let values = report.list(value)?;
    if values.is_empty() {
        report
            .add(value.place, "problem-critical-without", &[])
            .expected("expected-backing", &[]);
        return None;
    }
    let read = values.into_iter().filter_map(|one| backing(one, report));
    Some(read.collect())
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

/// Reports a rule behind a critical step that is none of the rules, or that does not fail who
/// breaks it. Nothing is said of rules that could not be read.
pub(super) fn check(name: &str, place: Place, definitions: &Definitions, report: Report<'_>) {
    let Some(rules) = &definitions.rules else {
        return;
    };
    match rules.iter().find(|(known, _)| known == name) {
        None => {
            let names = rules.iter().map(|(known, _)| known.as_str());
            report
                .add(place, "problem-unknown-rule", &[("name", &name)])
                .did_you_mean(nearest(name, names));
        }
        Some((_, severity)) if *severity < Severity::Stop => {
            report
                .add(place, "problem-critical-not-stop", &[("name", &name)])
                .expected("expected-backing", &[]);
        }
        Some(_) => {}
    }
}
