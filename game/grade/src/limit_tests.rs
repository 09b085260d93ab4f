//! What can be wrong in formulas with windows, and how large formulas may be.

use rackproof_files::{Problems, render_plain};

use crate::Rules;

/// Text of a formula, and the problem that it gives.
const WRONG: &[(&str, &str)] = &[
    ("Once(within_s: 0.25, of: True)", "problem-window-grid"),
    (
        "Once(within_s: 1.0, ago_s: 2.0, of: True)",
        "problem-window-two",
    ),
    ("Once(within_s: 0.0, of: True)", "problem-out-of-bounds"),
    ("Once(within_s: 1800.1, of: True)", "problem-out-of-bounds"),
    ("Once(of: True)", "problem-window-none"),
    ("Once(within_s: 1.0)", "problem-missing-field"),
    (
        "Since(within_s: 1.0, held: True, of: True)",
        "problem-unknown-field",
    ),
    (
        "Once(within_s: 1.0, of: SeenEmpty, since: True)",
        "problem-unknown-field",
    ),
    ("Never(within_s: 1.0, of: True)", "problem-unknown-operator"),
    ("Previously(WholeSlots(SeenEmpty))", "problem-formula-kind"),
    ("AtLeast(width: Counted)", "problem-missing-field"),
    ("AtMost(mm: 1.0)", "problem-missing-field"),
    (
        "AtLeast(width: True_width, mm: 1.0)",
        "problem-unknown-choice",
    ),
    (
        "AtLeast(width: Counted, over: Counted, mm: 1.0)",
        "problem-width-itself",
    ),
    (
        "AtLeast(width: Counted, mm: 0.0001)",
        "problem-too-many-decimals",
    ),
    (
        "AtMost(width: Counted, mm: 2000.001)",
        "problem-out-of-bounds",
    ),
    (
        "AtMost(width: Counted, mm: 1.0, um: 1)",
        "problem-unknown-field",
    ),
    ("Seen", "problem-unknown-operator"),
    ("Not(True, True)", "problem-operator-form"),
    ("Implies(if: True, then: True)", "problem-operator-form"),
    ("And(True, True)", "problem-operator-form"),
    ("AtBelts", "problem-operator-form"),
    (
        "Previously(within_s: 1.0, of: True)",
        "problem-operator-form",
    ),
];

/// Whatever is wrong with it, nobody is told that an operator which there is was not known, or that
/// it is perhaps meant.
#[test]
fn an_operator_that_is_known_is_never_said_to_be_unknown() {
    let names = crate::compile::operator_names();
    let names: Vec<&str> = names.split(", ").collect();
    assert!(names.len() > 25 && names.contains(&"Implies"));
    for name in names {
        for arguments in ["", "(True, True, True, True)", "(of: True)", "(1)", "([])"] {
            let found = problems(&format!("{name}{arguments}"));
            let says = |id: &str| found.iter().any(|one| one.contains(id));
            assert!(
                !says("problem-unknown-operator") && !says("meant"),
                "{name}{arguments}: {found:?}"
            );
            assert!(found.len() < 5, "{name}{arguments}: {found:?}");
        }
    }
}

/// What is lost with brackets that stand too deep is told once.
#[test]
fn brackets_too_deep_are_one_problem() {
    let deep = |word: &str| format!("{}True{}", word.repeat(70), ")".repeat(70));
    for word in ["Not(", "Once(", "Every("] {
        let found = problems(&deep(word));
        assert_eq!(found.len(), 1, "{word}: {found:?}");
    }
}

#[test]
fn what_is_wrong_with_a_window_is_said_and_all_at_once() {
    for (formula, expected) in WRONG {
        let found = problems(formula);
        assert!(
            found.iter().any(|id| id.contains(expected)),
            "{formula}: {found:?}"
        );
    }
    let all = "Or([
        Once(within_s: 0.25, of: AtLeast(width: Wide, mm: 0.0001)),
        Since(ago_s: 0.01, held: Oh, since: True),
    ])";
    assert_eq!(problems(all).len(), 5, "{:?}", problems(all));
}

fn problems(formula: &str) -> Vec<String> {
    let text = format!(
        "Rules(name: \"one\", define: {{\"d\": {formula}}}, rules: [\
         Rule(name: \"one\", severity: Stop, source: \"here\", always: True)])"
    );
    problems_of(&text)
}

fn problems_of(text: &str) -> Vec<String> {
    let problems = Problems::new();
    Rules::read(problems.for_file("rules", text), 16);
    let plain = |problem| render_plain(problem, &|id, arguments| format!("{id} {arguments:?}"));
    problems.sorted().iter().map(plain).collect()
}

/// So many formulas of a pattern, joined. `#` stands for their numbers.
fn many(count: usize, pattern: impl Fn(usize) -> String) -> String {
    format!(
        "And([{}])",
        (0..count).map(pattern).collect::<Vec<_>>().join(", ")
    )
}

#[test]
fn each_limit_says_what_it_is_and_is_told_once() {
    let time = |at: usize| format!("{}.{}", at / 10 + 1, at % 10);
    let signs = rackproof_drill::SignKind::ALL;
    let pair = |at: usize| {
        let (a, b) = (signs[at % signs.len()].0, signs[at / signs.len()].0);
        format!("Since(Sign({a}), Not(Sign({b})))")
    };
    let deep = |depth: usize| format!("{}True{}", "Not(".repeat(depth), ")".repeat(depth));
    let set = |at: usize| format!("Some(Since(Sign({}), SeenEmpty))", signs[at].0);
    let clock = |at: usize| format!("Once(within_s: {}, of: Did(Start))", time(at));
    let set_window = |at: usize| format!("Some(Once(within_s: {}, of: SeenEmpty))", time(at));
    let slots = |at: usize| format!("Some(Once(ago_s: {}, of: PartSlots(SeenBoard)))", time(at));
    let sides = |at: usize| format!("Some(Once(ago_s: {}, of: WholeSides(SeenBoard)))", time(at));
    let width = |at: usize| format!("AtLeast(width: Counted, mm: {at}.5)");
    let fits = [
        many(16, clock),
        many(6, set),
        many(100, pair),
        deep(50),
        set_window(0),
        many(2, slots),
        many(7, sides),
        many(32, width),
    ];
    for formula in fits {
        assert_eq!(problems(&formula), [""; 0], "{formula}");
    }
    let cases = [
        (many(17, clock), "problem-windows-many"),
        (many(7, set), "problem-sets-many"),
        (many(2, set_window), "problem-set-windows-many"),
        (many(3, slots), "problem-set-windows-many"),
        (many(33, width), "problem-comparisons-many"),
        (many(130, pair), "problem-bits-many"),
        (
            many(16, |at| {
                format!("Once(within_s: 17{at:02}.0, of: Did(Start))")
            })
            .replace("])", &format!(", {}])", many(6, set))),
            "problem-memory-large",
        ),
    ];
    for (formula, expected) in cases {
        let found = problems(&formula);
        assert!(
            found.len() == 1 && found[0].contains(expected),
            "{expected}: {found:?}"
        );
        assert!(found[0].contains("hint-"), "{found:?}");
    }
}

#[test]
fn definitions_that_double_and_circles_end() {
    let mut define = "\"d0\": Sign(Took)".to_owned();
    for at in 1..20 {
        define += &format!(
            ", \"d{at}\": Not(And([Named(\"d{0}\"), Named(\"d{0}\"), Named(\"d{0}\")]))",
            at - 1
        );
    }
    let rules = |define: &str, name: &str| {
        format!(
            "Rules(name: \"one\", define: {{{define}}}, rules: [Rule(name: \"one\", \
             severity: Stop, source: \"here\", always: Named(\"{name}\"))])"
        )
    };
    assert_eq!(
        problems_of(&rules(&define, "d15")).len(),
        0,
        "compiled once each"
    );
    let found = problems_of(&rules(
        &define
            .replace("Not(And", "Not(Not(And")
            .replace("])", "]))"),
        "d15",
    ));
    assert!(
        found.iter().any(|one| one.contains("problem-nesting-deep")),
        "{found:?}"
    );
    let circle = "\"a\": Not(Named(\"b\")), \"b\": Not(Named(\"a\"))";
    let found = problems_of(&rules(circle, "a"));
    assert!(
        found
            .iter()
            .all(|one| one.contains("problem-definition-circle")),
        "{found:?}"
    );
}

/// The ids of all problems, in the order of their places.
fn ids(read: impl Fn(rackproof_files::Report<'_>), text: &str) -> Vec<&'static str> {
    let problems = Problems::new();
    read(problems.for_file("file", text));
    let sorted = problems.sorted();
    sorted.iter().map(|problem| problem.found.id).collect()
}

/// Form, names, definitions and formulas in one run, each problem once: also the formula of a rule
/// of which something else is wrong, and a definition that two rules use.
#[test]
fn all_problems_of_rules_are_told_at_once() {
    let text = r#"Rules(
        name: "wrong",
        define: {
            "lost": Since(Not(Sign(LooksVoidd)), SeenEmpty),
            "uses": Every(Named("lost")),
        },
        rules: [
            Rule(name: "a", severity: Stop, source: "x", always: Named("uses")),
            Rule(name: "b", severity: Grave, source: "x",
                always: Implies(Did(Strat), Named("lost"))),
            Rule(name: "a", severity: Stop, source: "x", always: Is(Idle)),
            Rule(name: "c", severity: Stop, always: SeenEmpty),
            Rule(name: "d", severity: Stop, source: "x",
                always: Once(within_s: 0.15, of: Named("gone"))),
            Rule(name: "e", severity: Stop, source: " ", always: Is(Idle)),
        ],
    )"#;
    let expected = [
        "problem-unknown-choice", // LooksVoidd
        "problem-unknown-choice", // Grave
        "problem-unknown-choice", // Strat
        "problem-name-twice",
        "problem-missing-field", // the source of c
        "problem-formula-kind",
        "problem-window-grid",
        "problem-unknown-definition",
        "problem-no-source",
    ];
    let found = ids(|report| assert!(Rules::read(report, 16).is_none()), text);
    assert_eq!(found, expected);
}

/// The same for a procedure: steps, what is done, and the task, whatever else is wrong.
#[test]
fn all_problems_of_a_procedure_are_told_at_once() {
    let text = r#"Procedure(
        name: "wrong",
        ways: ["by-hand"],
        define: {"board-known": SeenBord, "unused": Is(Idel)},
        steps: [
            Step(name: "one", when: Is(Mooving), do: Jump),
            Step(name: "two", ways: ["by-foot"], when: Is(Moving), do: Stop),
        ],
        done: [
            Done(step: "a", when: Is(LockOnn)),
            Done(when: Is(HatchOpenn)),
            Done(step: "b", when: Some(Named("board-known")), again: Sometimes,
                critical: [Harm(Brokn), Rule("lock"), Rule("walk"), Rule("lok")]),
        ],
        analysis: Sequence([Step("a"), Hop("b"), When(Is(Idlee), Step("b"))]),
    )"#;
    let expected = [
        "problem-unknown-operator", // SeenBord
        "problem-unknown-choice",   // Idel
        "problem-unknown-choice",   // Mooving
        "problem-unknown-choice",   // Jump
        "problem-unknown-way",
        "problem-unknown-choice", // LockOnn
        "problem-missing-field",  // the name of a step
        "problem-unknown-choice", // Sometimes
        "problem-unknown-choice", // Brokn
        "problem-critical-not-stop",
        "problem-unknown-rule", // lok
        "problem-no-part",
        "problem-unknown-choice", // Idlee
    ];
    let rules = r#"Rules(name: "r", define: {}, rules: [
        Rule(name: "lock", severity: Stop, source: "x", always: Is(LockOn)),
        Rule(name: "walk", severity: Minor, source: "x", always: Is(Idle)),
    ])"#;
    let problems = Problems::new();
    let rules = Rules::read(problems.for_file("", rules), 16).expect("it has no problem");
    let read = |report: rackproof_files::Report<'_>| {
        assert!(crate::Procedure::read(report, rules.definitions(), 16).is_none());
    };
    assert_eq!(ids(read, text), expected);
}

/// A procedure with one step.
fn procedure(ways: &str, when: &str, critical: &str) -> String {
    format!(
        r#"Procedure(
            name: "p", ways: {ways}, define: {{"board-known": Named("known")}},
            steps: [Step(name: "report", when: Named("late"), do: Report)],
            done: [Done(step: "report", {when} {critical})],
            analysis: Step("report"),
        )"#
    )
}

/// What rules that could not be read would have said is not missed: their own problem is told.
#[test]
fn of_rules_that_cannot_be_read_nothing_is_missed() {
    let text = procedure(
        "[\"a\"]",
        "when: Did(Report),",
        "critical: [Rule(\"gone\")]",
    );
    let cases = [
        ("", 0),
        ("Drill()", 0),
        ("Rules(name: \"r\")", 0),
        ("Rules(define: {\"late\": True, \"known\": SeenBoard})", 0),
        // These could be read, and do not have it.
        ("Rules(define: {\"late\": True})", 1),
    ];
    for (rules, expected) in cases {
        let problems = Problems::new();
        let definitions = crate::Definitions::in_rules(problems.for_file("", rules), 16);
        let read = |report: rackproof_files::Report<'_>| {
            crate::Procedure::read(report, &definitions, 16);
        };
        assert_eq!(ids(read, &text).len(), expected, "{rules}");
    }
}

#[test]
fn a_procedure_has_a_way_and_each_of_another_name() {
    let lost = crate::Definitions::lost();
    let cases: [(&str, &[&str]); 4] = [
        ("[\"a\"]", &[]),
        ("[\"a\", \"b\"]", &[]),
        ("[]", &["problem-no-way"]),
        ("[\"a\", \"b\", \"a\"]", &["problem-name-twice"]),
    ];
    for (ways, expected) in cases {
        let read = |report: rackproof_files::Report<'_>| {
            crate::Procedure::read(report, &lost, 16);
        };
        let found = ids(read, &procedure(ways, "when: Did(Report),", ""));
        assert_eq!(found, expected, "{ways}");
    }
}

/// A step of which nothing is said, in a procedure with no other: told, and no panic.
#[test]
fn a_step_that_nothing_completes_is_told() {
    let read = |report: rackproof_files::Report<'_>| {
        crate::Procedure::read(report, &crate::Definitions::lost(), 16);
    };
    let found = ids(read, &procedure("[\"a\"]", "", ""));
    assert_eq!(found, ["problem-missing-field"]);
}

#[test]
fn so_many_rules_and_no_more() {
    let rules = |count: usize| {
        let rule = |at: usize| {
            format!("Rule(name: \"r{at}\", severity: Stop, source: \"here\", always: Is(Idle))")
        };
        let list: Vec<String> = (0..count).map(rule).collect();
        format!(
            "Rules(name: \"one\", define: {{}}, rules: [{}])",
            list.join(", ")
        )
    };
    assert_eq!(problems_of(&rules(64)).len(), 0);
    let found = problems_of(&rules(65));
    assert!(
        found.len() == 1 && found[0].contains("problem-rules-many"),
        "{found:?}"
    );
}
