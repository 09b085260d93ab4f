//! The texts that an attempt rests on: machine, drill, rules, procedure. An attempt keeps them
//! whole, so that it can be graded again years later.

use rackproof_buffer::Machine;
use rackproof_drill::{
    Drill, Hall, World,
    file::{self, NoMachine},
};
use rackproof_files::Problems;
use rackproof_grade::{Definitions, Judged, Marks, Procedure, Rules};
use sha2::{Digest, Sha256};

/// One text with the name of the file that it came from.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct Text {
    /// The file's name, for messages.
    pub file: String,
    /// The whole text.
    pub text: String,
}

/// The four texts of a drill.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct Material {
    /// The machine file.
    pub machine: Text,
    /// The drill file.
    pub drill: Text,
    /// The rules file.
    pub rules: Text,
    /// The procedure file.
    pub procedure: Text,
}

/// What the texts say, ready to run.
#[derive(Clone, Debug)]
pub struct Exercise {
    /// The machine.
    pub machine: Machine,
    /// What stands around it.
    pub hall: Hall,
    /// The drill.
    pub drill: Drill,
    /// The rules.
    pub rules: Rules,
    /// The procedure.
    pub procedure: Procedure,
    marks: Marks,
}

/// The SHA-256 of a text, in 64 hexadecimal figures. Line ends count as one sign and a byte order
/// mark as none: editors and checkouts on Windows add both, and the text stays the same.
pub fn hash_of(text: &str) -> String {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    hash_of_bytes(text.replace("\r\n", "\n").as_bytes())
}

pub(crate) fn hash_of_bytes(bytes: &[u8]) -> String {
    let digest = Sha256::digest(bytes);
    digest.iter().map(|byte| format!("{byte:02x}")).collect()
}

impl Material {
    /// Reads all four texts. `None` if one has a problem; all problems of all texts are reported.
    pub fn read(&self, problems: &Problems) -> Option<Exercise> {
        let machine = file::read_machine(problems.for_file(&self.machine.file, &self.machine.text));
        let slots = machine.as_ref().map_or(16, |(machine, _)| machine.slots());
        let report = problems.for_file(&self.rules.file, &self.rules.text);
        let rules = Rules::read(report, slots);
        // Who uses the definitions of rules that have a problem is checked too, as far as these
        // could be read. What is wrong in them was told.
        let definitions = match &rules {
            Some(rules) => rules.definitions().clone(),
            None => {
                let told = Problems::new();
                Definitions::in_rules(told.for_file(&self.rules.file, &self.rules.text), slots)
            }
        };
        let report = problems.for_file(&self.procedure.file, &self.procedure.text);
        let procedure = Procedure::read(report, &definitions, slots);
        let report = problems.for_file(&self.drill.file, &self.drill.text);
        let drill = file::read_drill(report, |_| machine.as_ref().ok_or(NoMachine::Unread))?;
        let marks = Marks::of(&drill, &definitions, slots, report);
        let (rules, marks) = (rules?.in_drill(&drill, report)?, marks?);
        let (machine, hall) = machine?;
        Some(Exercise {
            machine,
            hall,
            drill,
            rules,
            procedure: procedure?,
            marks,
        })
    }
}

impl Exercise {
    /// The world of a variant with its rules, or `None` if there is no such variant.
    pub fn judged(&self, variant: usize) -> Option<Judged> {
        self.judged_by(variant, self.rules.clone())
    }

    /// The same with other rules, for a proof.
    pub fn judged_by(&self, variant: usize, rules: Rules) -> Option<Judged> {
        let world = || {
            World::new(
                self.machine.clone(),
                self.hall.clone(),
                self.drill.clone(),
                variant,
            )
        };
        (variant < self.drill.variants.len()).then(|| Judged::new(world(), rules))
    }

    /// The number of the variant with this name.
    pub fn variant(&self, name: &str) -> Option<usize> {
        self.drill
            .variants
            .iter()
            .position(|variant| variant.id == name)
    }

    /// The traps' and milestones' formulas, compiled.
    pub fn marks(&self) -> &Marks {
        &self.marks
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use rackproof_model::Model;

    use super::*;

    /// The hash of "abc" and a line end, by `sha256sum` of GNU coreutils 9.1.
    #[test]
    fn a_text_has_the_same_hash_on_every_system() {
        let hash = "edeaaff3f1774ad2888673770c6d64097e391bc362d7d6fb34982ddf0efd18cb";
        for text in ["abc\n", "abc\r\n", "\u{feff}abc\n", "\u{feff}abc\r\n"] {
            assert_eq!(hash_of(text), hash, "{text:?}");
        }
        for other in ["abc", "abc\r", "abc\n\n", "abc\n\r\n", "abd\n"] {
            assert_ne!(hash_of(other), hash, "{other:?}");
        }
    }

    /// Puts `piece` in place of some characters of a text.
    fn changed(text: &str, at: usize, length: usize, piece: &str) -> String {
        let characters: Vec<char> = text.chars().collect();
        let from = at % characters.len();
        let to = (from + length).min(characters.len());
        let before = characters[..from].iter();
        let after = characters[to..].iter();
        let piece: Vec<char> = piece.chars().collect();
        before.chain(&piece).chain(after).collect()
    }

    /// A drill says of a rule that no harm comes of breaking it there: it must be one of its rules.
    #[test]
    fn a_rule_that_only_names_a_mistake_early_is_one_of_the_drills_rules() {
        let mut material = crate::sample::material();
        let early = |material: &Material| {
            let problems = Problems::new();
            let exercise = material.read(&problems);
            let found = exercise.map(|exercise| {
                let rules = exercise.rules.list.into_iter();
                let early = rules.filter(|rule| rule.early).map(|rule| rule.name);
                early.collect::<Vec<_>>()
            });
            (found, problems)
        };
        let (before, _) = early(&material);
        let before = before.expect("it has no problem");
        assert!(!before.contains(&"belts-unseen".to_owned()));
        let plain = material.drill.text.clone();
        let named =
            |name: &str| plain.replacen("sources:", &format!("early: [\"{name}\"], sources:"), 1);
        material.drill.text = named("belts-unseen");
        let (after, _) = early(&material);
        let added: Vec<String> = after.expect("it has no problem");
        assert_eq!(added.len(), before.len() + 1);
        assert!(added.contains(&"belts-unseen".to_owned()));
        material.drill.text = named("belts-unsen");
        let (none, problems) = early(&material);
        assert!(none.is_none());
        let said = format!("{:?}", problems.sorted());
        assert!(
            said.contains("problem-unknown-rule") && said.contains("belts-unseen"),
            "{said}"
        );
    }

    /// What is wrong in a drill's own formulas is told though its rules have a problem too.
    #[test]
    fn a_problem_of_the_rules_hides_none_of_the_drill_or_the_procedure() {
        let told = |changes: &[(usize, &str, &str)]| {
            let mut material = crate::sample::material();
            for (which, from, to) in changes {
                let text = match which {
                    1 => &mut material.drill,
                    2 => &mut material.rules,
                    _ => &mut material.procedure,
                };
                assert!(text.text.contains(from), "{from}");
                text.text = text.text.replacen(from, to, 1);
            }
            let problems = Problems::new();
            assert!(material.read(&problems).is_none());
            crate::sample::plain(&problems)
        };
        let (rules, trap) = (
            (2, "severity: Stop", "severity: Grave"),
            (1, "Is(AskedRails)", "Is(Ask)"),
        );
        let critical = (3, "Rule(\"belts-unseen\")", "Rule(\"belts\")");
        let step = (3, "Is(KeyTurned)", "Is(KeyTurn)");
        for (changes, expected) in [
            (vec![rules, trap], 2),
            (vec![rules, trap, step], 3),
            // Of rules with a problem it is not known which there are.
            (vec![rules, critical], 1),
            (vec![critical, step], 2),
        ] {
            let found = told(&changes);
            assert_eq!(found.len(), expected, "{found:#?}");
        }
        // Rules of which nothing can be read: that is the one problem.
        let found = told(&[(2, "Rules(", "Ruhles(")]);
        assert_eq!(found.len(), 1, "{found:#?}");
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(300))]

        /// Whatever is changed in a file: problems or a drill that runs, never a panic.
        #[test]
        fn a_changed_text_gives_problems_or_a_drill_that_runs(
            which in 0_usize..4, at in 0_usize..20_000, length in 0_usize..6,
            piece in prop::sample::select(vec![
                "", "0", "1", "9", "40", "-1", "99999999999999999999", "(", ")", "[", "]", ",",
                "\"", "Not(", "wren", "Infeed", "true", "None", "0.001", "//", "é",
            ]),
        ) {
            let mut material = crate::sample::material();
            let text = match which {
                0 => &mut material.machine,
                1 => &mut material.drill,
                2 => &mut material.rules,
                _ => &mut material.procedure,
            };
            text.text = changed(&text.text, at, length, piece);
            let problems = Problems::new();
            match material.read(&problems) {
                None => prop_assert!(!problems.is_empty(), "no drill, and no problem"),
                Some(exercise) => {
                    let judged = exercise.judged(0).expect("a drill has a variant");
                    let mut state = judged.start();
                    for _ in 0..40 {
                        let mut offers = Vec::new();
                        judged.offers(&state, &mut offers);
                        let Some(&cause) = offers.get(at % offers.len().max(1)) else { break };
                        judged.act(&mut state, cause, &mut |_| {});
                        if let Some(next) = judged.next_event(&state) {
                            judged.advance(&mut state, next, &mut |_| {});
                        }
                    }
                }
            }
        }
    }
}
