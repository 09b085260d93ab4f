//! Analyses that are wrong, and what is said of them.

use rackproof_alignment::Tasks;
use rackproof_files::{Fields, Problems, read};

use super::{Analysis, Held, Written};
use crate::Definitions;

/// The two fields of a procedure, read and compiled for a rack of four slots: the ids of all
/// problems, in their order.
fn problems(done: &str, analysis: &str) -> Vec<&'static str> {
    let (_, problems) = compiled(done, analysis);
    problems
}

fn compiled(done: &str, analysis: &str) -> (Option<Analysis>, Vec<&'static str>) {
    compiled_for(4, done, analysis)
}

/// The same for a rack of so many slots.
fn compiled_for(slots: u8, done: &str, analysis: &str) -> (Option<Analysis>, Vec<&'static str>) {
    let text = format!("P(done: [{done}], analysis: {analysis})");
    let problems = Problems::new();
    let report = problems.for_file("", &text);
    let value = read(report).expect("it is a value");
    let fields = Fields::of(&value, "P", report).expect("it is a record");
    let ways = [String::from("by-hand")];
    let written = Written::read(&fields, Some(&ways));
    let analysis = written.compile(&Definitions::default(), slots, report);
    let ids = problems
        .sorted()
        .iter()
        .map(|problem| problem.found.id)
        .collect();
    (analysis, ids)
}

const DONE: &str = r#"
    Done(step: "a", when: Is(LockOn)),
    Done(step: "b", when: Is(HatchOpen), again: Harmless),
    Done(step: "s", when: SeenEmpty),
"#;

#[test]
fn wrong_analyses_are_told() {
    let cases: &[(&str, &[&str])] = &[
        (
            r#"Sequence([Step("a"), Step("b"), ForEach(Slot, Step("s"))])"#,
            &[],
        ),
        (
            r#"Sequence([Step("c"), Hop("a"), Way("by-foot", Step("b")), OneOf([])])"#,
            &[
                "problem-unknown-step",
                "problem-no-part",
                "problem-unknown-way",
                "problem-one-of-none",
            ],
        ),
        (
            r#"Sequence([Step("a"), ForEach(Slot, Step("s"))])"#,
            &["problem-step-unused"],
        ),
        // Whether it would stand for each slot is not known, and its formula is right for that.
        (
            r#"Sequence([Step("a"), Step("b")])"#,
            &["problem-step-unused"],
        ),
        // Words that there are, written otherwise: said just so.
        (
            r#"Sequence([Step("a", "b"), Step, Sequence(Step("b")), Repeat([Step("s")], 2)])"#,
            &[
                "problem-part-form",
                "problem-part-form",
                "problem-wrong-kind",
                "problem-part-form",
            ],
        ),
        (
            r#"Sequence([Step(name: "a"), Hop(name: "b"), "s"])"#,
            &["problem-part-form", "problem-no-part", "problem-no-part"],
        ),
        (
            r#"Sequence([Step("a"), Step("b"), ForEach(Slot, ForEach(Slot, Step("s")))])"#,
            &["problem-each-in-each"],
        ),
        // A set where a yes or no is wanted.
        (
            r#"Sequence([Step("a"), Step("b"), Step("s")])"#,
            &["problem-formula-kind"],
        ),
        (
            r#"Sequence([Step("b"), Step("s"), Step("a"), ForEach(Slot, Step("s"))])"#,
            &["problem-step-for-some"],
        ),
        (
            r#"AnyOrder([Step("b"), ForEach(Slot, Step("s")), Sequence([Step("a"), Step("b")])])"#,
            &["problem-step-shared"],
        ),
    ];
    for (analysis, expected) in cases {
        assert_eq!(problems(DONE, analysis), *expected, "{analysis}");
    }
    let twice = format!(r#"{DONE}, Done(step: "a", when: Is(Leap)),"#).replace(",\n,", ",");
    let all = r#"Sequence([Step("a"), Step("b"), ForEach(Slot, Step("s"))])"#;
    assert_eq!(
        problems(&twice, all),
        ["problem-name-twice", "problem-unknown-choice"]
    );
}

/// What was seen of slots, belts or mouths, however deep in the condition; not what an axis did,
/// and not an answer that was typed.
#[test]
fn a_step_by_looks_is_known_by_its_condition() {
    let cases = [
        ("Is(HatchOpen)", false),
        ("Did(Start)", false),
        ("Sign(Took)", false),
        ("Sign(Answered)", false),
        ("And([Did(Start), Sign(InfeedBeltSeenEmpty)])", true),
        (
            "Since(Not(Sign(Started)), Sign(OutfeedMouthSeenTaken))",
            true,
        ),
        ("Every(SeenEmpty)", true),
        ("Some(Since(Not(Sign(LiftStarted)), SeenBoard))", true),
        ("Some(Answered)", false),
    ];
    for (when, expected) in cases {
        let done = format!("Done(step: \"one\", when: {when}), Done(step: \"s\", when: SeenEmpty)");
        let analysis = r#"Sequence([Step("one"), ForEach(Slot, Step("s"))])"#;
        let (analysis, problems) = compiled(&done, analysis);
        assert_eq!(problems, [""; 0], "{when}");
        let steps = analysis.expect("it has no problem").steps;
        assert_eq!(steps[0].by_looks, expected, "{when}");
        assert!(steps[1].by_looks, "a set counts as well");
    }
}

/// Whatever conditions held for which slots, what could be read can be laid beside an attempt.
#[test]
fn conditions_that_part_the_slots_leave_a_task_that_can_be_aligned() {
    // Of each slot another set of four conditions held.
    let parted = |analysis: &Analysis| {
        let held = |condition: usize| Held {
            at_all: true,
            slots: (0..40)
                .filter(|slot| slot >> condition & 1 == 1)
                .fold(0, |mask, slot| mask | 1 << slot),
        };
        let held: Vec<Held> = (0..analysis.conditions.len()).map(held).collect();
        Tasks::new(&analysis.task(&held)).map(|_| ())
    };
    let done: Vec<String> = (0..6)
        .map(|at| format!("Done(step: \"s{at}\", when: SeenEmpty)"))
        .collect();
    let done = done.join(", ");
    let body = |inner: &str| {
        let whens: Vec<String> = (0..4)
            .map(|at| format!("When(SeenBoard, Step(\"s{at}\"))"))
            .collect();
        format!("ForEach(Slot, Sequence([{}, {inner}]))", whens.join(", "))
    };
    let cases = [
        ("Sequence([Step(\"s4\"), Step(\"s5\")])", true),
        ("AnyOrder([Step(\"s4\"), Step(\"s5\")])", false),
    ];
    for (inner, fits) in cases {
        let (analysis, problems) = compiled_for(40, &done, &body(inner));
        if fits {
            assert_eq!(problems, [""; 0], "{inner}");
            let analysis = analysis.expect("it has no problem");
            assert_eq!(parted(&analysis), Ok(()), "{inner}");
        } else {
            assert_eq!(problems, ["problem-analysis-blocks"], "{inner}");
        }
    }
}
