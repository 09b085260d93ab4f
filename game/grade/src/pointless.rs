//! Rules and steps that judge nothing, since nothing can turn their formulas.
//!
//! Reading takes them: an attempt that was played with such a rule is graded by it all the same. Who
//! writes a file is told.

use rackproof_files::{Place, Report};

use crate::{Procedure, Rules, decided::Decided, formula::At};

impl Rules {
    /// Reports each rule that nobody can break, and each that nobody can keep. `report` must be of
    /// the text that they were read from. That a rule is not reported says nothing: only what can be
    /// decided by the formulas alone is found.
    pub fn report_pointless(&self, report: Report<'_>) {
        let roots: Vec<At> = self.list.iter().map(|rule| rule.root).collect();
        for (rule, decided) in self.list.iter().zip(self.program.decided(&roots)) {
            let (id, hint) = match decided {
                Some(Decided::Always) => ("problem-rule-unbreakable", "hint-rule-unbreakable"),
                Some(Decided::Never | Decided::NeverAfter) => {
                    ("problem-rule-unkeepable", "hint-rule-unkeepable")
                }
                None => continue,
            };
            tell(rule.place(), (id, hint), &rule.name, report);
        }
    }
}

impl Procedure {
    /// Reports each step of the task analysis that nobody can complete. `report` must be of the text
    /// that it was read from.
    pub fn report_pointless(&self, report: Report<'_>) {
        let (steps, program) = (&self.analysis.steps, &self.analysis.prepared.program);
        let roots: Vec<At> = steps.iter().map(|step| step.root).collect();
        for (step, decided) in steps.iter().zip(program.decided(&roots)) {
            let id = match decided {
                // What holds from the start on is completed by nobody.
                Some(Decided::Always) => "problem-step-always",
                Some(Decided::Never) => "problem-step-never",
                Some(Decided::NeverAfter) | None => continue,
            };
            tell(step.when, (id, "hint-step-decided"), &step.name, report);
        }
    }
}

fn tell(place: Place, (id, hint): (&'static str, &'static str), name: &str, report: Report<'_>) {
    report.add(place, id, &[("name", &name)]).hint(hint, &[]);
}
