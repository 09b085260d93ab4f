//! The forms of evidence: what a rule may ask of half-slots so that a search need not tell one from
//! the next.
//!
//! Evidence is a set of half-slots that fills since something: seen empty since the rack moved,
//! answered since the clear-out began. Where rules ask of it only whether it is whole (`Every`) or
//! what it says of the slot at the belts (`AtBelts`), parts of it that cannot count any more are
//! forgotten, see `Judged::forget_parts`. A rule that asks for more, or that gathers anything but
//! what comes at a moment, has the set kept half-slot by half-slot: the search has more states, and
//! its claims mean the same.

use rackproof_files::{Place, Problems};

use crate::{Rules, compile::Compiler, formula::Operator};

/// A rule that asks for evidence outside the forms of which parts can be forgotten.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OutsideForms {
    /// The rule, by its number.
    pub rule: usize,
    /// Where it does so, in the rules file: the formula, its own or that of a definition that it
    /// names.
    pub place: Place,
}

impl Rules {
    /// The rules that ask for evidence outside the forms, in their order, each with the first place
    /// at which it does. What rules share is spoiled for all by the one that asks for more: only
    /// that one is named.
    pub fn outside_forms(&self) -> Vec<OutsideForms> {
        let place = |rule: usize| Some((rule, self.outside_forms_at(rule)?));
        let found = (0..self.list.len()).filter_map(place);
        found
            .map(|(rule, place)| OutsideForms { rule, place })
            .collect()
    }

    fn outside_forms_at(&self, rule: usize) -> Option<Place> {
        let problems = Problems::new();
        let mut compiler = Compiler::new(self.slots(), &self.definitions);
        compiler.truth(&self.list[rule].always, problems.for_file("", ""))?;
        let places = compiler.places().to_vec();
        let program = compiler.finish();
        let outside = |at: usize| match program.operators[at] {
            Operator::InSetWindow(_) => Some(at),
            Operator::SetSince(..) => {
                let parts = program.reads_parts_of(at);
                parts.or_else(|| program.gathered(at).is_none().then_some(at))
            }
            _ => None,
        };
        let first = (0..program.operators.len()).find_map(outside)?;
        places.get(first).copied()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rules that ask this, and under each the words at which it lies outside the forms.
    const CASES: [(&str, Option<&str>); 9] = [
        ("Every(Since(Not(Sign(LooksVoided)), SeenEmpty))", None),
        ("Implies(Is(Execute), AtBelts(Once(Answered)))", None),
        ("Every(SeenEmpty)", None),
        ("Some(And([Infeed, SeenBoard]))", None),
        ("Not(Some(Once(SeenBoard)))", Some("Some(Once(SeenBoard))")),
        (
            "Every(PartSlots(Once(SeenEmpty)))",
            Some("PartSlots(Once(SeenEmpty))"),
        ),
        (
            "Every(Once(And([SeenEmpty, Infeed])))",
            Some("Once(And([SeenEmpty, Infeed]))"),
        ),
        (
            "Every(Once(within_s: 60.0, of: SeenEmpty))",
            Some("Once(within_s: 60.0, of: SeenEmpty)"),
        ),
        ("Named(\"parts\")", Some("Some(Once(ReachedFor))")),
    ];

    fn rules(formulas: &[&str]) -> (String, Rules) {
        let rule = |(number, formula): (usize, &&str)| {
            format!(
                "Rule(name: \"r{number}\", severity: Stop, source: \"common practice\", \
                 always: {formula})"
            )
        };
        let rules: Vec<String> = formulas.iter().enumerate().map(rule).collect();
        let text = format!(
            "Rules(name: \"forms\", define: {{\"parts\": Not(Some(Once(ReachedFor)))}}, \
             rules: [{}])",
            rules.join(", ")
        );
        let problems = Problems::new();
        let read = Rules::read(problems.for_file("rules", &text), 4);
        assert!(problems.is_empty(), "{:?}", problems.sorted());
        (text.clone(), read.expect("it has no problem"))
    }

    #[test]
    fn a_rule_outside_the_forms_is_named_with_its_place() {
        for (formula, words) in CASES {
            let (text, rules) = rules(&[formula]);
            let found: Vec<&str> = rules
                .outside_forms()
                .iter()
                .map(|one| &text[one.place.start as usize..one.place.end as usize])
                .collect();
            assert_eq!(found, words.into_iter().collect::<Vec<_>>(), "{formula}");
            // What is named is what the monitors keep half-slot by half-slot.
            let kept = usize::from(rules.program.sets) + rules.program.set_clocks.len();
            let whole = rules.program.whole_sets().len();
            assert_eq!(whole < kept, words.is_some(), "{formula}");
        }
    }

    #[test]
    fn of_rules_that_share_their_evidence_the_one_that_asks_for_more_is_named() {
        let asks = ["Every(Once(SeenEmpty))", "Some(Once(SeenEmpty))"];
        let (_, rules) = rules(&asks);
        let named: Vec<usize> = rules.outside_forms().iter().map(|one| one.rule).collect();
        assert_eq!(named, [1]);
        assert!(rules.program.whole_sets().is_empty());
    }
}
