//! What judges nothing: no rule or step at all, and those whose formulas nothing can turn.
//!
//! Reading takes them: an attempt that was played with such a rule is graded by it all the same.
//! Who writes a file is told.

use rackproof_files::{Place, Report};

use crate::{Procedure, Rules, decided::Decided, formula::At};

impl Rules {
    /// Reports that there is no rule, each that nobody can break, and each that nobody can keep.
    /// `place` is that of the list of rules, and `report` must be of the text that they were read
    /// from. That a rule is not reported says nothing: only what can be decided by the formulas
    /// alone is found.
    pub fn report_pointless(&self, place: Place, report: Report<'_>) {
        if self.list.is_empty() {
            report
                .add(place, "problem-rules-none", &[])
                .hint("hint-rules-none", &[]);
        }
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
    /// Reports that there is no step to be guided by, or none to be laid beside, and each step of
    /// the task analysis that nobody can complete. `places` are those of the lists of steps and of
    /// what is done, and `report` must be of the text that it was read from.
    pub fn report_pointless(&self, places: [Place; 2], report: Report<'_>) {
        let lists = [
            (self.steps.is_empty(), "problem-no-steps", "hint-no-steps"),
            (
                self.analysis.steps.is_empty(),
                "problem-no-done",
                "hint-no-done",
            ),
        ];
        for (place, (is_empty, id, hint)) in places.into_iter().zip(lists) {
            if is_empty {
                report.add(place, id, &[]).hint(hint, &[]);
            }
        }
        let (steps, program) = (&self.analysis.steps, &self.analysis.prepared.program);
        let roots: Vec<At> = steps.iter().map(|step| step.root).collect();
        for (step, decided) in steps.iter().zip(program.decided(&roots)) {
            let told = match decided {
                // What holds from the start on is completed by nobody.
                Some(Decided::Always) => ("problem-step-always", "hint-step-always"),
                Some(Decided::Never) => ("problem-step-never", "hint-step-never"),
                Some(Decided::NeverAfter) | None => continue,
            };
            tell(step.when, told, &step.name, report);
        }
    }
}

fn tell(place: Place, (id, hint): (&'static str, &'static str), name: &str, report: Report<'_>) {
    report.add(place, id, &[("name", &name)]).hint(hint, &[]);
}
