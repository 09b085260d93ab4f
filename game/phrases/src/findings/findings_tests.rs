//! What the findings of kept journals are.

use rackproof_attempt::{Attempt, Journal, Material, Text};
use rackproof_files::Problems;

use super::*;

fn material() -> Material {
    let text = |file: &str, text: &str| Text {
        file: file.to_owned(),
        text: text.to_owned(),
    };
    Material {
        machine: text(
            "alder-16.ron",
            include_str!("../../../../assets/machines/alder-16.ron"),
        ),
        drill: text(
            "left-inside.ron",
            include_str!("../../../../scenarios/changeover/left-inside.ron"),
        ),
        rules: text(
            "changeover.ron",
            include_str!("../../../../assets/rules/changeover.ron"),
        ),
        procedure: text(
            "changeover.ron",
            include_str!("../../../../assets/procedures/changeover.ron"),
        ),
    }
}

/// The findings of a journal.
fn findings(journal: &str) -> (Grade, Findings) {
    let problems = Problems::new();
    let exercise = material().read(&problems).expect("it has no problem");
    let report = problems.for_file("journal", journal);
    let journal = Journal::read(report, &exercise).expect("it has no problem");
    let judged = exercise
        .judged(journal.variant)
        .expect("it has this variant");
    let mut attempt = Attempt::new(judged);
    assert!(journal.run(&mut attempt, report, &mut |_| true));
    let grade = attempt.grade(&exercise);
    let words = Words::english();
    let findings = Findings::of(attempt.judged(), &exercise, &grade, &words);
    assert_eq!(words.faults(), [""; 0]);
    (grade, findings)
}

/// One letter for each finding that is not a step: rule, harm, trap, open.
fn letters(findings: &Findings) -> String {
    let letter = |finding: &Finding| match &finding.told {
        Told::Breach(_) => Some('r'),
        Told::Harm(_) => Some('h'),
        Told::Trap(_) => Some('t'),
        Told::Open(..) => Some('o'),
        Told::Step(..) => None,
    };
    findings.list.iter().filter_map(letter).collect()
}

#[test]
fn one_list_in_the_order_of_time() {
    let cases = [
        (
            include_str!("../../../../tests/journals/left-inside/by-hand.ron"),
            "",
        ),
        // The strain on the way to breaking is left out; what is open at the end stands last.
        (
            include_str!("../../../../tests/journals/left-inside/declared-unseen.ron"),
            "rtho",
        ),
        (
            include_str!("../../../../tests/journals/left-inside/belt-forgotten.ron"),
            "rrrthho",
        ),
    ];
    for (journal, expected) in cases {
        let (grade, findings) = findings(journal);
        assert_eq!(letters(&findings), expected, "{journal}");
        let at: Vec<u64> = findings
            .list
            .iter()
            .map(|finding| finding.moment.map_or(u64::MAX, |moment| moment.at))
            .collect();
        assert!(at.is_sorted(), "{at:?}");
        let questions = &findings.questions;
        assert_eq!(
            questions.stops + questions.majors + questions.minors,
            grade.breaches.len()
        );
        assert_eq!(questions.harms, findings.harms().count());
        assert_eq!(questions.open, findings.open().count());
        assert_eq!(questions.done, findings.steps(StepTold::Done).count());
        assert_eq!(questions.missing, findings.steps(StepTold::Missing).count());
        assert_eq!(findings.verdict, grade.verdict);
    }
}

#[test]
fn a_harm_says_which_board_where_and_how_far() {
    let journal = include_str!("../../../../tests/journals/left-inside/declared-unseen.ron");
    let (grade, findings) = findings(journal);
    let (moment, harm) = findings.harms().next().expect("a board breaks");
    assert_eq!(grade.harms.len(), 2, "a strain, then the break");
    assert_eq!(grade.harms[1], (moment, harm.harm));
    assert_eq!(harm.board.as_deref(), Some("Raven"));
    assert_eq!(harm.place.as_deref(), Some("slot 12, outfeed half"));
    for part in ["Raven", "slot 12", "4000 microstrain"] {
        assert!(harm.said.contains(part), "{}", harm.said);
    }
}
