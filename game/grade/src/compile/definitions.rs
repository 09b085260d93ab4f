//! Formulas with a name.

use std::collections::BTreeSet;

use rackproof_files::{Fields, Report, Value, read};

use super::Compiler;
use crate::Severity;

/// Named formulas that other formulas may use, and what else a procedure may name of its rules.
#[derive(Clone, Debug, Default)]
pub struct Definitions {
    /// Name and formula, in the order of the files.
    pub(crate) list: Vec<(String, Value)>,
    /// Those that have a problem, which was reported: who uses them says nothing more of it.
    pub(super) failed: BTreeSet<String>,
    /// Whether there may be others, which could not be read: then none is missed.
    pub(super) others_lost: bool,
    /// The rules beside them, by name. `None` if they could not be read: then none is missed.
    pub(crate) rules: Option<Vec<(String, Severity)>>,
}

impl Definitions {
    /// Adds those of a field `define`. A name twice is a problem.
    pub(crate) fn add(&mut self, entries: Vec<(&str, &Value)>, report: Report<'_>) {
        for (name, value) in entries {
            if self.list.iter().any(|(known, _)| known == name) {
                report.add(value.place, "problem-name-twice", &[("name", &name)]);
            }
            self.list.push((name.to_owned(), value.clone()));
        }
    }

    /// Checks each from the one with this number on, used or not, and reports each problem once.
    pub(crate) fn check(&mut self, from: usize, slots: u8, report: Report<'_>) {
        for at in from..self.list.len() {
            let (name, formula) = &self.list[at];
            if self.failed.contains(name) {
                continue;
            }
            let name = name.clone();
            // What it leaves behind is not kept.
            let mut probe = Compiler::new(slots, self);
            let whole = probe.formula(formula, report).is_some();
            let mut failed = probe.failed;
            if !whole {
                failed.insert(name);
            }
            self.failed = failed;
        }
    }

    /// Those of no rules at all: whatever is used of them is missed.
    pub fn none() -> Definitions {
        Definitions {
            rules: Some(Vec::new()),
            ..Definitions::default()
        }
    }

    /// Those of rules that could not be found or read at all: whatever is used of them, nothing is
    /// said of it.
    pub fn lost() -> Definitions {
        Definitions {
            others_lost: true,
            ..Definitions::default()
        }
    }

    /// Those of a rules file that may have problems: for who uses them. Those of rules are reported
    /// by [`Rules::read`](crate::Rules::read), so that `report` is one that nobody reads.
    pub fn in_rules(report: Report<'_>, slots: u8) -> Definitions {
        let mut definitions = Definitions::lost();
        let value = read(report);
        let fields = value
            .as_ref()
            .and_then(|value| Fields::of(value, "Rules", report));
        if let Some(entries) = fields.and_then(|fields| fields.entries("define")) {
            definitions.others_lost = false;
            definitions.add(entries, report);
            definitions.check(0, slots, report);
        }
        definitions
    }
}
