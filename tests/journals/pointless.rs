//! Rules and procedures that judge nothing.

use rackproof_commands::Exit;

use crate::{
    commands::{changed, write},
    play::{in_a_row, play, run},
};

/// A text, the place that is named, and what is told of it. Nothing: nothing is wrong.
type Case = (String, &'static str, &'static str);

fn rules(list: &str) -> String {
    format!("Rules(name: \"mine\", define: {{}},\n rules: [{list}])")
}

/// Rules with one that asks for this always.
fn rule(always: &str) -> String {
    rules(&format!(
        "Rule(name: \"r\", severity: Stop, source: \"here\",\n always: {always})"
    ))
}

const STEP: &str = "Step(name: \"s\", when: True, do: Report)";
const DONE: &str = "Done(step: \"a\", when: Did(Report))";

fn procedure(steps: &str, done: &str, analysis: &str) -> String {
    format!(
        "Procedure(name: \"mine\", ways: [\"w\"], define: {{\"board-known\": SeenBoard}},\n \
         steps: [{steps}],\n done: [{done}],\n analysis: {analysis})",
    )
}

fn cases() -> Vec<Case> {
    let one = "Step(\"a\")";
    let critical = "Done(step: \"a\", when: Did(Report), critical: [Rule(\"gone\")])";
    vec![
        (rules(""), "mine.ron:2:", "There is no rule here."),
        (rule("Is(Moving)"), "", ""),
        (
            rule("Implies(And([Did(Start), Sign(Took)]), Is(LockOn))"),
            "mine.ron:3:",
            "Nobody can break the rule “r”",
        ),
        (
            rule("Did(Start)"),
            "mine.ron:3:",
            "Nobody can keep the rule “r”",
        ),
        (procedure(STEP, DONE, one), "", ""),
        (
            procedure("", DONE, one),
            "mine.ron:2:",
            "There is no step here",
        ),
        (
            procedure(STEP, "", "Sequence([])"),
            "mine.ron:3:",
            "Nothing here says when",
        ),
        (
            procedure(STEP, "Done(step: \"a\", when: True)", one),
            "mine.ron:3:",
            "Nobody can complete the step “a”: its condition always holds",
        ),
        // It names no rules, and there are none of its name.
        (
            procedure(STEP, critical, one),
            "mine.ron:3:",
            "There is no rule “gone”.",
        ),
    ]
}

/// It is told by `check`, with its line and what may help.
#[test]
fn rules_and_procedures_that_judge_nothing_are_told() {
    for (text, place, told) in cases() {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let path = write(folder.path(), "mine.ron", &text);
        let (exit, said) = run(&["check", &path]);
        let (expected, end) = match told {
            "" => (Exit::Done, "1 file read. Nothing is wrong."),
            _ => (Exit::No, "1 problem. 1 file read."),
        };
        assert_eq!(exit, expected, "{text}\n{said}");
        for part in [told, place, end] {
            assert!(said.contains(part), "{text}\n{said}");
        }
    }
}

/// Attempts are graded with a rule that nobody can break all the same: only `check` finds fault
/// with it.
#[test]
fn a_rule_that_nobody_can_break_grades_all_the_same() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let idle = (
        "always: Not(Did(PutIn))",
        "always: Or([Is(Moving), Not(Is(Moving))])",
    );
    let idle = changed("assets/rules/changeover.ron", &[idle]);
    let idle = write(folder.path(), "changeover.ron", &idle);
    let attempt = play("by-hand", folder.path());
    let attempt = attempt.to_string_lossy();
    assert_eq!(run(&["check", &idle]).0, Exit::No);
    let (exit, said) = run(&["grade", "--rules", &idle, &attempt]);
    assert_eq!(exit, Exit::Done, "{said}");
    let said = in_a_row(&said);
    assert!(said.contains("No verdict flips."), "{said}");
}
