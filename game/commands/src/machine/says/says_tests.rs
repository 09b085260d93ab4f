use std::collections::BTreeSet;

use rackproof_library::machines;
use rackproof_words::Words;

use super::*;
use crate::machine::questions::questions;

/// All questions to all machines that are compiled in.
fn all() -> Vec<Question> {
    let texts = machines();
    assert!(!texts.is_empty());
    texts
        .iter()
        .flat_map(|text| questions(&text.text))
        .collect()
}

/// Heads of ids that are made from the names of fields.
const HEADS: [&str; 6] = [
    "ask-what-",
    "ask-has-",
    "ask-measure-",
    "ask-why-",
    "ask-choice-",
    "ask-part-",
];

#[test]
fn every_question_says_how_its_figure_is_found() {
    let words = Words::english();
    let lacking = |head: &str, question: &Question| {
        let last = question.fields().pop().unwrap_or_default();
        let id = format!("{head}-{last}");
        own_id(&words, head, question)
            .is_none()
            .then(|| format!("add a line {id} to machine-questions.ftl"))
    };
    let mut missing: BTreeSet<String> = BTreeSet::new();
    for question in all() {
        if question.is_part() {
            missing.extend(lacking("ask-has", &question));
            missing.extend(lacking("ask-measure-has", &question));
        } else {
            missing.extend(lacking("ask-measure", &question));
        }
        let has_bound = matches!(question.what, What::Number(_) | What::Items(_));
        if !has_bound && !question.is_part() {
            missing.extend(lacking("ask-what", &question));
        }
        assert!(!why(&words, &question).is_empty());
        assert!(!range(&words, &question.what).is_empty());
    }
    assert_eq!(missing, BTreeSet::new());
    assert_eq!(words.faults(), [""; 0]);
}

#[test]
fn no_text_about_a_figure_is_left_over() {
    let words = Words::english();
    let mut used: BTreeSet<String> = BTreeSet::new();
    for question in all() {
        let heads = if question.is_part() {
            ["ask-has", "ask-measure-has", "ask-why"]
        } else {
            ["ask-what", "ask-measure", "ask-why"]
        };
        for head in heads {
            used.extend(own_id(&words, head, &question));
        }
        let part = question.section().replace('_', "-");
        used.extend([format!("ask-why-{part}"), format!("ask-part-{part}")]);
        let field = question.fields().pop().unwrap_or_default();
        let choices = choices(&words, &question);
        used.extend(
            choices
                .iter()
                .map(|(name, _)| format!("ask-choice-{field}-{}", kebab(bare(name)))),
        );
    }
    let of_no_field = [
        "ask-has-any",
        "ask-measure-any",
        "ask-measure-any-length",
        "ask-measure-any-time",
        "ask-measure-any-choice",
        "ask-why-any",
        "ask-choice-yes",
        "ask-choice-no",
    ];
    let left: Vec<&str> = words
        .ids()
        .into_iter()
        .filter(|id| HEADS.iter().any(|head| id.starts_with(head)))
        .filter(|id| !used.contains(*id) && !of_no_field.contains(id))
        .collect();
    assert_eq!(left, [""; 0]);
}

#[test]
fn a_figure_that_nobody_described_is_told_by_its_bound() {
    use crate::machine::questions::Step;
    use rackproof_files::{Bound, Place};
    let words = Words::english();
    let new = |what| Question {
        place: Place::default(),
        what,
        path: vec![
            Step::Field("tandem".to_owned()),
            Step::Field("stop_mm".to_owned()),
        ],
        left_out: None,
        items: Vec::new(),
    };
    let stop = Bound::millimetres("stop_mm", 1_000, 2_500, "from the stop to the beam");
    let figure = new(What::Number(stop));
    assert_eq!(what(&words, &figure), "from the stop to the beam");
    assert_eq!(section(&words, &figure), "tandem");
    assert!(measure(&words, &figure).contains("locked"));
    assert!(range(&words, &figure.what).starts_with("1 to 2.5 mm"));
    let choice = new(What::Choice(vec!["OneByOne", "Both"]));
    let names: Vec<String> = choices(&words, &choice)
        .into_iter()
        .map(|(_, said)| said)
        .collect();
    assert_eq!(names, ["OneByOne", "Both"]);
    assert_eq!(words.faults(), [""; 0]);
}

#[test]
fn names_of_choices_become_ids() {
    for (name, id) in [
        ("FromThereUp", "from-there-up"),
        ("All", "all"),
        ("true", "true"),
    ] {
        assert_eq!(kebab(name), id);
    }
}
