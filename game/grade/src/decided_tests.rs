//! Rules and steps that judge nothing, and those that do.

use proptest::prelude::*;
use rackproof_files::{Place, Problems};

use crate::{
    Definitions, Procedure, Rules,
    decided::Decided,
    definition::{laid_out, truth_of},
    formula_tests::{compiled, histories, truths},
};

const BREAKABLE: &str = "";
const UNBREAKABLE: &str = "problem-rule-unbreakable";
const UNKEEPABLE: &str = "problem-rule-unkeepable";

/// Formulas, and what is said of a rule that asks for them always.
const CASES: &[(&str, &str)] = &[
    // Plain.
    ("True", UNBREAKABLE),
    ("False", UNKEEPABLE),
    ("And([])", UNBREAKABLE),
    ("Or([])", UNKEEPABLE),
    ("Is(Moving)", BREAKABLE),
    ("Or([Is(Moving), Not(Is(Moving))])", UNBREAKABLE),
    ("And([Is(Moving), Not(Is(Moving))])", UNKEEPABLE),
    (
        "Implies(And([Is(LockOn), Is(Moving)]), Is(LockOn))",
        UNBREAKABLE,
    ),
    (
        "Implies(Is(LockOn), And([Is(LockOn), Is(Moving)]))",
        BREAKABLE,
    ),
    (
        "Or([And([Is(LockOn), Is(Moving)]), Not(Is(LockOn)), Not(Is(Moving))])",
        UNBREAKABLE,
    ),
    // One intent at a moment, and no sign with it.
    ("Did(Start)", UNKEEPABLE),
    ("Not(Did(Start))", BREAKABLE),
    (
        "Implies(And([Did(Start), Did(Stop)]), Is(Moving))",
        UNBREAKABLE,
    ),
    (
        "Implies(And([Did(Start), Sign(Took)]), Is(Moving))",
        UNBREAKABLE,
    ),
    (
        "Implies(And([Did(Start), Once(Sign(Took))]), Is(Moving))",
        BREAKABLE,
    ),
    (
        "Implies(Or([Did(Start), Did(Stop)]), Is(Moving))",
        BREAKABLE,
    ),
    ("Not(And([Sign(Took), Sign(Crack)]))", BREAKABLE),
    ("Implies(Did(Start), Is(LockOn))", BREAKABLE),
    ("Implies(Did(Start), Did(Start))", UNBREAKABLE),
    // Only a hand in the rack reaches under the lift, and only that is known of an intent.
    (
        "Implies(And([Did(Stop), Some(ReachedFor)]), Is(Moving))",
        UNBREAKABLE,
    ),
    (
        "Implies(And([Did(Take), Some(ReachedFor)]), Is(Moving))",
        BREAKABLE,
    ),
    // Memory: nothing that can never come is remembered.
    ("Implies(Is(Moving), Once(Is(Moving)))", UNBREAKABLE),
    ("Implies(Once(Is(Moving)), Is(Moving))", BREAKABLE),
    ("Not(Once(And([Did(Start), Did(Stop)])))", UNBREAKABLE),
    (
        "Not(Once(Previously(And([Did(Start), Sign(Took)]))))",
        UNBREAKABLE,
    ),
    ("Not(Once(Previously(Did(Start))))", BREAKABLE),
    ("Implies(Historically(Is(LockOn)), Is(LockOn))", UNBREAKABLE),
    ("Implies(Is(LockOn), Historically(Is(LockOn)))", BREAKABLE),
    (
        "Historically(Or([Is(LockOn), Not(Is(LockOn))]))",
        UNBREAKABLE,
    ),
    (
        "Implies(Since(Is(LockOn), Is(Moving)), Or([Is(LockOn), Is(Moving)]))",
        UNBREAKABLE,
    ),
    (
        "Implies(Since(Is(LockOn), Is(Moving)), Is(LockOn))",
        BREAKABLE,
    ),
    ("Not(Since(True, False))", UNBREAKABLE),
    ("Not(Previously(False))", UNBREAKABLE),
    // Windows.
    (
        "Implies(Sign(Took), Once(within_s: 5.0, of: Sign(Took)))",
        UNBREAKABLE,
    ),
    (
        "Implies(Sign(Took), Once(ago_s: 5.0, of: Sign(Took)))",
        BREAKABLE,
    ),
    (
        "Implies(Is(Moving), Historically(within_s: 5.0, of: Is(Moving)))",
        BREAKABLE,
    ),
    (
        "Implies(Since(ago_s: 2.0, held: Is(LockOn), since: Did(TryStart)), Is(LockOn))",
        UNBREAKABLE,
    ),
    (
        "Implies(Since(within_s: 2.0, held: Is(LockOn), since: Did(TryStart)), Is(LockOn))",
        BREAKABLE,
    ),
    (
        "Not(Once(within_s: 2.0, of: And([Did(Start), Did(Stop)])))",
        UNBREAKABLE,
    ),
    // Sets: of each half-slot.
    ("Every(Or([SeenEmpty, Not(SeenEmpty)]))", UNBREAKABLE),
    ("Some(And([SeenEmpty, Not(SeenEmpty)]))", UNKEEPABLE),
    ("Every(SeenEmpty)", BREAKABLE),
    ("Not(Every(And([Infeed, Outfeed])))", UNBREAKABLE),
    ("Every(Or([Infeed, Outfeed]))", UNBREAKABLE),
    ("Every(Infeed)", BREAKABLE),
    (
        "Every(Or([Not(WholeSlots(SeenEmpty)), SeenEmpty]))",
        UNBREAKABLE,
    ),
    (
        "Every(Or([Not(PartSlots(SeenEmpty)), SeenEmpty]))",
        BREAKABLE,
    ),
    (
        "Every(Or([Not(SeenEmpty), PartSides(SeenEmpty)]))",
        UNBREAKABLE,
    ),
    ("Implies(Did(Start), Some(SeenEmpty))", BREAKABLE),
    ("Implies(Is(Moving), Every(Once(Is(Moving))))", UNBREAKABLE),
    (
        "Every(Or([Not(SeenEmpty), Since(Not(Sign(LooksVoided)), SeenEmpty)]))",
        UNBREAKABLE,
    ),
    (
        "Every(Or([Not(SeenEmpty), Once(within_s: 60.0, of: SeenEmpty)]))",
        UNBREAKABLE,
    ),
    (
        "Every(Or([SeenEmpty, Once(within_s: 60.0, of: SeenEmpty)]))",
        BREAKABLE,
    ),
    ("AtBelts(Or([SeenEmpty, Not(SeenEmpty)]))", BREAKABLE),
    (
        "Not(AtBelts(And([SeenEmpty, Not(SeenEmpty)])))",
        UNBREAKABLE,
    ),
    // Widths: in whole micrometres, and perhaps not to be read.
    (
        "Implies(AtLeast(width: Counted, mm: 60.0), AtLeast(width: Counted, mm: 50.0))",
        UNBREAKABLE,
    ),
    (
        "Implies(AtLeast(width: Counted, mm: 50.0), AtLeast(width: Counted, mm: 60.0))",
        BREAKABLE,
    ),
    (
        "Not(And([AtLeast(width: Counted, mm: 50.001), AtMost(width: Counted, mm: 50.0)]))",
        UNBREAKABLE,
    ),
    (
        "Not(And([AtLeast(width: Counted, mm: 50.0), AtMost(width: Counted, mm: 50.0)]))",
        BREAKABLE,
    ),
    (
        "Or([AtLeast(width: Counted, mm: 50.0), AtMost(width: Counted, mm: 60.0)])",
        BREAKABLE,
    ),
    (
        "Not(And([AtLeast(width: Counted, mm: 60.0), AtMost(width: Wanted, mm: 50.0)]))",
        BREAKABLE,
    ),
];

fn rules(always: &str) -> String {
    format!(
        "Rules(name: \"one\", define: {{}}, rules: [Rule(name: \"one\", severity: Stop, \
         source: \"here\", always: {always})])"
    )
}

#[test]
fn a_rule_that_nobody_can_break_or_keep_is_told_with_its_place() {
    for (always, expected) in CASES {
        for slots in [1, 16, 40] {
            let (text, problems) = (rules(always), Problems::new());
            let report = problems.for_file("rules", &text);
            let read = Rules::read(report, slots).unwrap_or_else(|| panic!("{always}"));
            read.report_pointless(Place::default(), report);
            let told = problems.sorted();
            let ids: Vec<&str> = told.iter().map(|one| one.found.id).collect();
            let expected: Vec<&str> = Some(*expected)
                .filter(|id| !id.is_empty())
                .into_iter()
                .collect();
            assert_eq!(ids, expected, "{always}, {slots} slots");
            for one in &told {
                let column = text.find("always: ").expect("it is there") + "always: ".len() + 1;
                assert_eq!((one.line, one.column), (1, column as u32), "{always}");
                assert!(one.hint.is_some(), "{always}");
            }
        }
    }
}

/// What needs more nodes than are worked out is not decided, and that takes no time to find out.
#[test]
fn what_takes_too_long_is_not_decided() {
    let signs = rackproof_drill::SignKind::ALL;
    let half = signs.len() / 2;
    let pair = |at: usize| format!("And([Sign({}), Sign({})])", signs[at].0, signs[at + half].0);
    let firsts: Vec<String> = (0..half)
        .map(|at| format!("Sign({})", signs[at].0))
        .collect();
    let pairs: Vec<String> = (0..half).map(pair).collect();
    let firsts = format!("And([{}])", firsts.join(", "));
    // It always holds.
    let always = format!("Or([{firsts}, Or([{}]), Not({firsts})])", pairs.join(", "));
    let (text, problems) = (rules(&always), Problems::new());
    let report = problems.for_file("rules", &text);
    let read = Rules::read(report, 16).expect("it has no problem");
    read.report_pointless(Place::default(), report);
    assert!(problems.is_empty(), "half of {} signs", signs.len());
}

#[test]
fn a_step_that_nobody_can_complete_is_told() {
    let cases: &[(&str, &str)] = &[
        ("Did(Start)", ""),
        ("Sign(Took)", ""),
        ("And([Sign(Took), Once(Did(Start))])", ""),
        ("True", "problem-step-always"),
        ("And([Sign(Took), Did(Start)])", "problem-step-never"),
        (
            "Every(And([SeenEmpty, SeenEmpty, Not(SeenEmpty)]))",
            "problem-step-never",
        ),
    ];
    for (when, expected) in cases {
        let text = format!(
            r#"Procedure(name: "p", ways: ["a"], define: {{"board-known": SeenBoard}},
                steps: [Step(name: "report", when: True, do: Report)],
                done: [Done(step: "one", when: {when}), Done(step: "each", when: {each})],
                analysis: Sequence([Step("one"), ForEach(Slot, Step("each"))]))"#,
            each = if expected.is_empty() {
                "SeenEmpty"
            } else {
                "And([SeenEmpty, Did(Start)])"
            },
        );
        let problems = Problems::new();
        let report = problems.for_file("p", &text);
        let read = Procedure::read(report, &Definitions::default(), 16);
        let read = read.expect("it has no problem");
        read.report_pointless([Place::default(); 2], report);
        let ids: Vec<&str> = problems.sorted().iter().map(|one| one.found.id).collect();
        let expected: &[&str] = match *expected {
            "" => &[],
            one => &[one, "problem-step-never"],
        };
        assert_eq!(ids, expected, "{when}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10_000))]

    /// Whatever is said to be decided is so in every history, by the definition: at each moment,
    /// and in each gap.
    #[test]
    fn what_is_decided_is_so(text in truths(), history in histories()) {
        let Some((value, program, root)) = compiled(&text) else { return Ok(()) };
        let all = laid_out(&history);
        let found = truth_of(&value, &all);
        let moments = found.iter().zip(&all.seen);
        match program.decided(&[root])[0] {
            None => {}
            Some(Decided::Always) => prop_assert!(found.iter().all(|truth| *truth), "{}", text),
            Some(Decided::Never) => prop_assert!(!found.contains(&true), "{}", text),
            Some(Decided::NeverAfter) => {
                let mut after = moments.filter(|(_, seen)| seen.intent().is_none());
                prop_assert!(after.all(|(truth, _)| !truth), "{}", text);
            }
        }
    }
}
