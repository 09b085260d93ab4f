//! Rules and procedures that judge nothing.

use rackproof_commands::Exit;

use crate::{
    commands::{changed, write},
    play::{play, run},
};

/// It is told by `check`, with its line and what may help. Attempts that were played with it are
/// graded all the same.
#[test]
fn rules_and_procedures_that_judge_nothing_are_told() {
    let rules = |list: &str| format!("Rules(name: \"mine\", define: {{}},\n rules: [{list}])");
    let rule = |always: &str| {
        rules(&format!(
            "Rule(name: \"r\", severity: Stop, source: \"here\",\n always: {always})"
        ))
    };
    let procedure = |steps: &str, done: &str, critical: &str, analysis: &str| {
        let step = "Step(name: \"s\", when: True, do: Report)";
        format!(
            "Procedure(name: \"mine\", ways: [\"w\"], define: {{\"board-known\": SeenBoard}},\n \
             steps: [{}],\n done: [{}],\n analysis: {analysis})",
            steps.replace('#', step),
            done.replace(
                '#',
                &format!("Done(step: \"a\", when: Did(Report){critical})")
            ),
        )
    };
    let one = "Step(\"a\")";
    let cases = [
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
        (procedure("#", "#", "", one), "", ""),
        (
            procedure("", "#", "", one),
            "mine.ron:2:",
            "There is no step here",
        ),
        (
            procedure("#", "", "", "Sequence([])"),
            "mine.ron:3:",
            "Nothing here says when",
        ),
        (
            procedure("#", "Done(step: \"a\", when: True)", "", one),
            "mine.ron:3:",
            "Nobody can complete the step “a”: its condition always holds",
        ),
        // It names no rules, and there are none of its name.
        (
            procedure("#", "#", ", critical: [Rule(\"gone\")]", one),
            "mine.ron:3:",
            "There is no rule “gone”.",
        ),
    ];
    for (text, place, told) in cases {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let path = write(folder.path(), "mine.ron", &text);
        let (exit, said) = run(&["check", &path]);
        let expected = if told.is_empty() {
            Exit::Done
        } else {
            Exit::No
        };
        assert_eq!(exit, expected, "{text}\n{said}");
        assert!(
            said.contains(told) && said.contains(place),
            "{text}\n{said}"
        );
        if !told.is_empty() {
            assert!(said.contains("1 problem. 1 file read."), "{text}\n{said}");
        }
    }
    // Played and graded with a rule that nobody can break: only `check` finds fault with it.
    let folder = tempfile::tempdir().expect("a folder can be made");
    let idle = changed(
        "assets/rules/changeover.ron",
        &[(
            "always: Not(Did(PutIn))",
            "always: Or([Is(Moving), Not(Is(Moving))])",
        )],
    );
    let idle = write(folder.path(), "changeover.ron", &idle);
    let attempt = play("by-hand", folder.path());
    let attempt = attempt.to_string_lossy();
    assert_eq!(run(&["check", &idle]).0, Exit::No);
    let (exit, said) = run(&["grade", "--rules", &idle, &attempt]);
    assert_eq!(exit, Exit::Done, "{said}");
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("No verdict flips."), "{said}");
}
