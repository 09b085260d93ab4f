//! What the findings of kept journals are.

use rackproof_drill::{Unread, Width};
use rackproof_grade::Missed;

use super::*;
use crate::sample::played;

/// The findings of a journal.
fn findings(journal: &str) -> (Grade, Findings) {
    findings_of(journal, |_| {})
}

/// The same with something else in the grade.
fn findings_of(journal: &str, change: impl Fn(&mut Grade)) -> (Grade, Findings) {
    let (attempt, exercise) = played(journal);
    let mut grade = attempt.grade(&exercise);
    change(&mut grade);
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

const BY_HAND: &str = include_str!("../../../../tests/journals/left-inside/by-hand.ron");

/// The drill's line gives 45 minutes.
#[test]
fn longer_than_the_guide_or_than_the_line_gives_is_told() {
    let minute = 60_000_000_u64;
    let line = "Finding: that is 01:00 longer than the 45 minutes that the line gives.";
    let cases = [
        (
            10 * minute,
            Some(10 * minute),
            "10:00, reference time 10:00",
            false,
        ),
        (
            9 * minute,
            Some(10 * minute),
            "09:00, reference time 10:00",
            false,
        ),
        (
            12 * minute,
            Some(10 * minute),
            "12:00, 02:00 longer than the reference time 10:00",
            false,
        ),
        (45 * minute, None, "45:00, no reference time", false),
        (46 * minute, None, "46:00, no reference time", true),
        (
            46 * minute,
            Some(10 * minute),
            "46:00, 36:00 longer than the reference",
            true,
        ),
    ];
    for (time, reference, said, over) in cases {
        let (_, findings) = findings_of(BY_HAND, |grade| {
            (grade.time, grade.reference) = (time, reference);
        });
        let told = &findings.questions.time_said;
        assert!(told.starts_with(said), "{told}");
        assert_eq!(told.contains(line), over, "{told}");
        assert_eq!(findings.verdict, Verdict::Passed, "it fails nobody");
    }
}

#[test]
fn too_many_steps_to_be_laid_beside_a_way_are_said_so() {
    let (_, whole) = findings(BY_HAND);
    let (_, findings) = findings_of(BY_HAND, |grade| {
        grade.fitness = None;
        grade.steps.clear();
    });
    let told = &findings.questions.procedure_said;
    assert!(
        told.contains("more than 1,000 steps") && told.contains("certain or possible"),
        "{told}"
    );
    assert!(!whole.questions.procedure_said.contains("1,000"));
}

/// Harm fails an attempt whose ever it is. That every rule was kept before it is said.
#[test]
fn harm_that_no_broken_rule_explains_is_said_to_be_so() {
    let journal = include_str!("../../../../tests/journals/left-inside/declared-unseen.ron");
    let (whole, _) = findings(journal);
    let harm = whole.harms[0].0.at;
    let later = |grade: &mut Grade| grade.breaches[0].moment.at = harm + 1;
    let nothing = |_: &mut Grade| {};
    let none = |grade: &mut Grade| grade.breaches.clear();
    let changes: [&dyn Fn(&mut Grade); 3] = [&nothing, &later, &none];
    let cases = [
        ("broken before", true),
        ("broken after", false),
        ("kept", false),
    ];
    for ((name, explained), change) in cases.into_iter().zip(changes) {
        let (_, findings) = findings_of(journal, change);
        let told = |part: &str| findings.because.iter().any(|said| said.starts_with(part));
        assert!(told("Harm was done"), "{name}: {:?}", findings.because);
        assert_eq!(
            told("Harm was done, and no stop rule"),
            !explained,
            "{name}"
        );
    }
}

/// A rule over a width that nobody can read says which one, and why.
#[test]
fn a_width_that_could_not_be_read_is_told_with_its_reason() {
    let journal = include_str!("../../../../tests/journals/left-inside/declared-unseen.ron");
    let cases = [
        (
            Width::Measured,
            Unread::NoSensor,
            "the width by the width sensor could not be read: this machine has no width sensor.",
        ),
        (
            Width::Counted,
            Unread::CountUnknown,
            "the width by step count could not be read: the step count was lost,",
        ),
        (
            Width::Wanted,
            Unread::PanelDark,
            "the width that the rails are sent to could not be read: the panel was dark.",
        ),
        (
            Width::Counted,
            Unread::RailsMove,
            "the width by step count could not be read: the rails moved.",
        ),
        (
            Width::Typed,
            Unread::NothingTyped,
            "the width on the page could not be read: nothing was typed there.",
        ),
        (
            Width::LoadedStored,
            Unread::PanelDark,
            "the stored width of the loaded product could not be read",
        ),
        (
            Width::NextStored,
            Unread::PanelDark,
            "the stored width of the next product could not be read",
        ),
    ];
    for (width, why, part) in cases {
        let (_, findings) = findings_of(journal, |grade| {
            grade.breaches[0].missed = Some(Missed::Unread(width, why));
        });
        let (_, breach) = findings.breaches().next().expect("it is broken");
        let said = &breach.missed;
        assert!(
            said.starts_with("Not kept, because") && said.contains(part),
            "{said}"
        );
    }
}

/// The finish is reached when the job is reported done, and not before.
#[test]
fn a_finish_that_nobody_reported_is_not_said_to_be_reached() {
    const BY_HAND: &str = include_str!("../../../../tests/journals/left-inside/by-hand.ron");
    let unreported = BY_HAND.replacen(", Report,", ",", 1);
    assert_ne!(unreported, BY_HAND);
    let said = |journal: &str| findings(journal).1.questions.result_said;
    assert_eq!(said(BY_HAND), "finish reached, no harm");
    assert_eq!(
        said(&unreported),
        "nothing open, but the job was not reported done, no harm"
    );
    let only = "Journal(drill: \"left-inside\", variant: \"green-low\", causes: [Report])";
    let (_, findings) = findings(only);
    let said = findings.questions.procedure_said;
    assert!(said.contains(": 1 step done, "), "{said}");
}
