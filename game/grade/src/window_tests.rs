//! Rules with windows, in the pair with the first drill.

use rackproof_drill::{Cause, Intent};
use rackproof_files::Problems;
use rackproof_model::{
    Micros, Model,
    key::{Key, KeyWriter},
};

use crate::{
    Grade, GradeInput, Judged, JudgedOutcome, JudgedState, Marks, Procedure, Program, Rules,
    Severity, judged_tests::loaded, prepared::Prepared,
};

/// Rules made of one formula.
fn rules(formula: &str) -> Rules {
    let text = format!(
        "Rules(name: \"one\", define: {{}}, rules: [\
         Rule(name: \"one\", severity: Stop, source: \"common practice\", always: {formula})])"
    );
    let problems = Problems::new();
    let rules = Rules::read(problems.for_file("rules", &text), 16);
    rules.unwrap_or_else(|| panic!("{:?}", problems.sorted()))
}

pub(crate) fn judged(formula: &str) -> Judged {
    let (variants, _) = loaded();
    Judged::new(variants[0].world().clone(), rules(formula))
}

/// Lets time pass event by event, and gives each moment at which the rule was broken, in µs.
pub(crate) fn breaches(
    judged: &Judged,
    state: &mut JudgedState,
    span: u32,
    piece: u32,
) -> Vec<u32> {
    let (mut now, mut found) = (0, Vec::new());
    while now < span {
        let left = Micros((span - now).min(piece));
        let next = judged.next_event(state);
        let part = next.map_or(left, |next| next.min(left));
        now += part.0;
        judged.advance(state, part, &mut |outcome| {
            if matches!(outcome, JudgedOutcome::Broke(_)) {
                found.push(now);
            }
        });
    }
    found
}

pub(crate) const TORCH: Cause = Cause::Did(Intent::Torch(true));

#[test]
fn a_window_that_runs_out_breaks_its_rule_at_the_exact_microsecond() {
    // (formula, when it breaks after the torch was lit; the first whole microsecond)
    let cases = [
        // It holds up to and with 5 s, and not right after.
        (
            "Implies(Is(TorchOn), Once(within_s: 5.0, of: Did(Torch)))",
            Some(5_000_001),
        ),
        // It must not have lasted 5 s.
        (
            "Not(Since(ago_s: 5.0, held: Not(Did(TestStraps)), since: Did(Torch)))",
            Some(5_000_000),
        ),
        // Off until it was lit, on from then on: at 0.3 s it has been on for all of the window.
        (
            "Not(Historically(within_s: 0.3, of: Is(TorchOn)))",
            Some(300_000),
        ),
        ("Not(Once(ago_s: 1800.0, of: Did(Torch)))", None),
        // Nested: 0.2 s after the first window ran out.
        (
            "Not(Since(ago_s: 0.2, held: True, since: \
             And([Is(TorchOn), Not(Once(within_s: 0.1, of: Did(Torch)))])))",
            Some(300_001),
        ),
    ];
    for (formula, expected) in cases {
        let judged = judged(formula);
        for piece in [u32::MAX, 100_000, 70_001] {
            let mut state = judged.start();
            assert_eq!(
                breaches(&judged, &mut state, 1_000_000, piece),
                [],
                "{formula}"
            );
            judged.act(&mut state, TORCH, &mut |_| {});
            let found = breaches(&judged, &mut state, 20_000_000, piece);
            assert_eq!(
                found,
                Vec::from_iter(expected),
                "{formula} in pieces of {piece}"
            );
        }
    }
}

#[test]
fn what_holds_again_can_be_broken_again() {
    let judged = judged("Not(Since(ago_s: 2.0, held: Not(Did(TestStraps)), since: Did(Torch)))");
    let mut state = judged.start();
    judged.act(&mut state, TORCH, &mut |_| {});
    assert_eq!(
        breaches(&judged, &mut state, 9_000_000, 500_000),
        [2_000_000]
    );
    judged.act(&mut state, Cause::Did(Intent::TestStraps), &mut |outcome| {
        assert!(!matches!(outcome, JudgedOutcome::Broke(_)));
    });
    judged.act(&mut state, Cause::Did(Intent::Torch(false)), &mut |_| {});
    assert_eq!(
        breaches(&judged, &mut state, 9_000_000, 500_000),
        [2_000_000]
    );
}

pub(crate) fn key(judged: &Judged, state: &JudgedState) -> Key {
    let mut writer = KeyWriter::new();
    judged.write_key(state, &mut writer);
    Key::from_bytes(writer.finish())
}

#[test]
fn a_key_keeps_clocks_up_to_their_ceiling() {
    let judged = judged("Implies(Did(Walk), Once(within_s: 5.0, of: Did(Torch)))");
    let mut state = judged.start();
    judged.act(&mut state, TORCH, &mut |_| {});
    let mut keys = Vec::new();
    for _ in 0..3 {
        keys.push(key(&judged, &state));
        let back = judged.read_key(keys.last().expect("it is there"));
        assert_eq!(key(&judged, &back), *keys.last().expect("it is there"));
        assert_eq!(back.watch, state.watch);
        breaches(&judged, &mut state, 4_000_000, u32::MAX);
    }
    assert_ne!(keys[0], keys[1], "1 s is left of it");
    breaches(&judged, &mut state, 4_000_000, u32::MAX);
    assert_eq!(
        keys[2],
        key(&judged, &state),
        "once over, time says nothing more"
    );
}

#[test]
fn the_shipped_rules_and_the_shipped_procedure_let_time_pass_unwatched() {
    let (variants, procedure) = loaded();
    let rules = variants[0].rules();
    assert!(rules.program.clocks.is_empty() && !rules.program.gaps_matter);
    assert!(!procedure.program.gaps_matter);
    let start = variants[0].start();
    assert_eq!(
        variants[0].next_event(&start),
        variants[0].world().next_event(&start.world)
    );
}

/// A procedure that waits three seconds by a window of its own, though nothing happens.
#[test]
fn the_guide_waits_for_a_window() {
    let text = "Procedure(name: \"wait\", ways: [\"one\"], define: {\"board-known\": SeenBoard},
        steps: [
            Step(name: \"light\", when: Not(Is(TorchOn)), do: Torch),
            Step(name: \"wait\", when: Not(Once(ago_s: 3.0, of: Did(Torch))), do: Wait),
            Step(name: \"report\", when: True, do: Report),
        ],
        done: [Done(step: \"report\", when: Did(Report))],
        analysis: Way(\"one\", Step(\"report\")))";
    let (variants, _) = loaded();
    let problems = Problems::new();
    let report = problems.for_file("procedure", text);
    let procedure = Procedure::read(report, variants[0].rules().definitions(), 16);
    let procedure = procedure.unwrap_or_else(|| panic!("{:?}", problems.sorted()));
    let run = crate::GuideRun::play(&variants[0], &procedure, 0).expect("it ends");
    let [_, (waited, report)] = run.causes[..] else {
        panic!("{:?}", run.causes)
    };
    assert_eq!(report, Cause::Did(Intent::Report));
    let pace = variants[0].world().hall().pace;
    let stand = variants[0].start().world.person.stand;
    assert_eq!(
        waited,
        Micros::from_seconds(3) + pace.of(Intent::Report, stand)
    );
}

fn margins(formula: &str, causes: &[(u32, Cause)], after: u64) -> Vec<(i64, u64)> {
    let (judged, grade) = graded(formula, causes, after);
    let broke = grade.count(&judged, Severity::Stop) > 0;
    assert_eq!(
        broke,
        grade.margins.iter().any(|margin| margin.spare.amount() < 0),
        "{formula}"
    );
    let list = grade.margins.iter();
    list.map(|margin| (margin.spare.amount(), margin.moment.at))
        .collect()
}

/// The grade of a few causes by one rule.
pub(crate) fn graded(formula: &str, causes: &[(u32, Cause)], after: u64) -> (Judged, Grade) {
    let judged = judged(formula);
    let (_, procedure) = loaded();
    let marks = Marks {
        prepared: Prepared::new(Program::default(), &[]),
        roots: Vec::new(),
    };
    let causes: Vec<_> = causes
        .iter()
        .map(|&(span, cause)| (Micros(span), cause))
        .collect();
    let grade = Grade::of(GradeInput {
        judged: &judged,
        procedure: &procedure,
        marks: &marks,
        causes: &causes,
        after,
        references: None,
    });
    (judged, grade)
}

#[test]
fn a_grade_says_how_near_it_was() {
    let straps = Cause::Did(Intent::TestStraps);
    let within = "Implies(Did(TestStraps), Once(within_s: 5.0, of: Did(Torch)))";
    let wait = "Implies(Did(TestStraps), Once(ago_s: 2.0, of: Did(Torch)))";
    let deadline = "Not(Since(ago_s: 5.0, held: Not(Did(TestStraps)), since: Did(Torch)))";
    // (formula, time between the two, time to spare and when)
    let cases = [
        (within, 4_600_000, vec![(400_000, 5_600_000)]),
        (within, 5_700_000, vec![(-700_000, 6_700_000)]),
        (wait, 2_300_000, vec![(300_000, 3_300_000)]),
        (wait, 1_999_999, vec![(-1, 2_999_999)]),
        (deadline, 4_600_000, vec![(400_000, 5_600_000)]),
        (deadline, 6_500_000, vec![(-1_500_000, 7_500_000)]),
    ];
    for (formula, span, expected) in cases {
        let causes = [(1_000_000, TORCH), (span, straps)];
        assert_eq!(
            margins(formula, &causes, 9_000_000),
            expected,
            "{formula} {span}"
        );
    }
    // Not put to the test: nothing to say. Broken by no time at all: the same.
    assert_eq!(margins(within, &[(1_000_000, TORCH)], 9_000_000), []);
}
