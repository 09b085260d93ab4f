//! Rules that ask for evidence outside the forms of which parts can be forgotten: they cost states,
//! and whoever waits is told which they are.

use std::io::{self, Write};

use rackproof_files::Source;
use rackproof_library::Loaded;
use rackproof_phrases::named;
use rackproof_words::{Arg, Words};
use serde_json::{Value, json};

use crate::lines::paragraph;

/// So many characters of a formula are told: its place says where the rest stands.
const CHARACTERS_MOST: usize = 120;

/// One such rule.
struct Told {
    rule: String,
    /// In the rules file, from 1.
    line: u32,
    column: u32,
    formula: String,
    said: String,
}

/// Whether the rules of a drill ask for such evidence.
pub(super) fn any_outside(drill: &Loaded) -> bool {
    !drill.exercise.rules.for_proof().outside_forms().is_empty()
}

/// Says which rules do, what it costs, and what would mend it.
pub(super) fn write_outside(drill: &Loaded, out: &mut dyn Write, words: &Words) -> io::Result<()> {
    for one in told(drill, words) {
        paragraph(out, &one.said)?;
    }
    Ok(())
}

/// The same for a program.
pub(super) fn outside_json(drill: &Loaded, words: &Words) -> Vec<Value> {
    let file = &drill.material.rules.file;
    let rules = told(drill, words).into_iter();
    rules
        .map(|one| {
            json!({
                "rule": one.rule, "file": file, "line": one.line, "column": one.column,
                "formula": one.formula, "said": one.said,
            })
        })
        .collect()
}

/// A search watches no minor rule.
fn told(drill: &Loaded, words: &Words) -> Vec<Told> {
    let (rules, text) = (drill.exercise.rules.for_proof(), &drill.material.rules);
    let source = Source::new(&text.file, &text.text);
    let slots = drill.exercise.machine.slots();
    let outside = rules.outside_forms().into_iter();
    outside
        .map(|one| {
            let rule = rules.list[one.rule].name.clone();
            let (line, column) = source.line_and_column(one.place);
            let formula = in_one_line(source.at(one.place));
            let spoken = named(words, &format!("rule-{rule}"), &rule);
            let place = format!("{}:{line}:{column}", text.file);
            let arguments = [
                ("rule", Arg::from(spoken)),
                ("place", Arg::from(place)),
                ("formula", Arg::from(formula.as_str())),
                ("slots", Arg::from(i64::from(slots))),
                ("halves", Arg::from(2 * i64::from(slots))),
            ];
            let said = words.say("prove-outside-forms", &arguments);
            Told {
                rule,
                line,
                column,
                formula,
                said,
            }
        })
        .collect()
}

/// A formula in one line, its end cut off if it is long.
fn in_one_line(formula: &str) -> String {
    let words: Vec<&str> = formula.split_whitespace().collect();
    let line = words.join(" ");
    if line.chars().count() <= CHARACTERS_MOST {
        return line;
    }
    let kept: String = line.chars().take(CHARACTERS_MOST).collect();
    format!("{kept}…")
}

#[cfg(test)]
mod tests {
    use rackproof_files::Problems;
    use rackproof_library::{built_in_drill, load};

    use super::*;
    use crate::prove::{
        claims::prove,
        json::{Origin, json},
        level::Level,
        report::write_claims,
        written::Written,
    };

    /// The first drill with one rule more, of this severity.
    fn with_rule(severity: &str) -> Loaded {
        let mut loaded = load(built_in_drill(), &Problems::new()).expect("it has no problem");
        let rules = &mut loaded.material.rules.text;
        let more = format!(
            "rules: [
        Rule(name: \"no-board-left\", severity: {severity},
            source: \"common practice\",
            always: Implies(Did(Report),
                Not(Some(Once(
                    ReachedFor))))),"
        );
        *rules = rules.replacen("rules: [", &more, 1);
        let problems = Problems::new();
        let read = loaded.material.read(&problems);
        assert!(problems.is_empty(), "{:?}", problems.sorted());
        loaded.exercise = read.expect("it has no problem");
        loaded
    }

    #[test]
    fn a_rule_outside_the_forms_is_told_with_its_place_its_cost_and_what_mends_it() {
        let words = Words::english();
        let loaded = with_rule("Major");
        let effort = Level::Exact.in_full();
        let effort = crate::prove::level::Effort {
            states_most: 2_000,
            ..effort
        };
        let proof = prove(&loaded.exercise, &[0], (&[2], effort), &mut |_| {});
        let mut out = Vec::new();
        write_claims(&loaded, &proof, false, &mut out, &words).expect("it can be written");
        let said = String::from_utf8(out).expect("it is text");
        let said: Vec<&str> = said.split_whitespace().collect();
        let said = said.join(" ");
        let file = &loaded.material.rules.file;
        let line = loaded.material.rules.text.lines();
        let line = line
            .take_while(|line| !line.contains("Not(Some(Once("))
            .count()
            + 1;
        for part in [
            &format!("{file}:{line}:21 “Some(Once( ReachedFor))”"),
            "all of its 32 half-slots",
            "To mend it, ask",
            "Mend first what lies outside the forms of evidence.",
        ] {
            assert!(said.contains(part), "{part} is not in: {said}");
        }
        let written = Written::default();
        let told = json(&loaded, &proof, (Origin::Kept, &written), &words);
        let one = &told["outside_forms"][0];
        assert_eq!(one["rule"], "no-board-left");
        assert_eq!((&one["line"], &one["column"]), (&line.into(), &21.into()));
        assert_eq!(one["file"], file.as_str());
        assert_eq!(one["formula"], "Some(Once( ReachedFor))");
        assert_eq!(told["proved"], false);
    }

    #[test]
    fn neither_a_rule_within_the_forms_nor_a_minor_one_is_told() {
        let words = Words::english();
        let shipped = load(built_in_drill(), &Problems::new()).expect("it has no problem");
        for loaded in [shipped, with_rule("Minor")] {
            assert!(!any_outside(&loaded));
            assert!(outside_json(&loaded, &words).is_empty());
        }
    }

    #[test]
    fn a_long_formula_is_cut() {
        let long = "Or([SeenEmpty,\n Answered])".repeat(9);
        assert_eq!(in_one_line(&long).chars().count(), CHARACTERS_MOST + 1);
        assert_eq!(in_one_line("Some(\n  Infeed)"), "Some( Infeed)");
    }
}
