//! The same journal gives the same grade, to the last finding: in one go, in pieces of time, after
//! a restart at every cause and at every event.

use rackproof_buffer::{Answer, Button};
use rackproof_drill::{Cause, Intent};
use rackproof_files::Problems;
use rackproof_grade::{Grade, GuessKind, Missed, References};
use rackproof_model::{Micros, Model};

use crate::{
    Attempt, Exercise, Journal, Pieces, PlayedAs, ProofState, Reading, Recorder, line_down,
    read_attempt,
    sample::{exercise, material},
};

/// Passed, passed by the other way, broken and harmed, traps and guesses.
const JOURNALS: [&str; 5] = [
    include_str!("../../../tests/journals/left-inside/by-hand.ron"),
    include_str!("../../../tests/journals/left-inside/by-clear-out.ron"),
    include_str!("../../../tests/journals/left-inside/declared-unseen.ron"),
    include_str!("../../../tests/journals/left-inside/belt-forgotten.ron"),
    include_str!("../../../tests/journals/left-inside/emergency-for-stop.ron"),
];

/// Rules that time alone can break, with windows, one of them over half-slots, and with widths: so
/// that margins and breaches by nothing but time are in the grade too.
fn timed_rules(rules: &str) -> String {
    let more = "Rule(name: \"hand-long\", severity: Minor, source: \"made up\",
            always: Not(Historically(within_s: 2.0, of: Is(HandIn)))),
        Rule(name: \"look-old\", severity: Minor, source: \"made up\",
            always: Implies(Did(Start), Once(within_s: 40.0, of: Did(LookMouth)))),
        Rule(name: \"looks-old\", severity: Minor, source: \"made up\",
            always: Not(Some(Since(ago_s: 20.0, held: Not(Did(HoldDeclare)), since: SeenEmpty)))),
        Rule(name: \"narrow\", severity: Minor, source: \"made up\",
            always: Implies(Did(Start), AtLeast(width: Counted, over: NextStored, mm: 0.0))),
        ";
    rules.replacen(
        "Rule(name: \"rails-unproven\"",
        &format!("{more}Rule(name: \"rails-unproven\""),
        1,
    )
}

fn played(exercise: &Exercise, text: &str, pieces: Pieces) -> Attempt {
    let problems = Problems::new();
    let report = problems.for_file("journal", text);
    let journal = Journal::read(report, exercise).expect("it has no problem");
    let judged = exercise.judged(journal.variant).expect("it is listed");
    let mut attempt = Attempt::new(judged).in_pieces(pieces);
    assert!(journal.run(&mut attempt, report, &mut |_| true));
    attempt
}

/// Does what an attempt did, from where another stands on.
fn go_on(other: &mut Attempt, attempt: &Attempt) {
    for done in &attempt.done()[other.done().len()..] {
        other.wait(done.at - other.at());
        other.do_at_once(done.cause).expect("it was on offer");
    }
    other.wait(attempt.at() - other.at());
}

/// The moments of all events and causes.
fn moments(attempt: &Attempt) -> Vec<u64> {
    let (judged, mut at, mut moments) = (attempt.judged(), 0, Vec::new());
    let mut state = judged.start();
    for done in attempt.done() {
        while at < done.at {
            let left = Micros((done.at - at) as u32);
            let part = judged
                .next_event(&state)
                .map_or(left, |next| next.min(left));
            judged.advance(&mut state, part, &mut |_| {});
            at += u64::from(part.0);
            moments.push(at);
        }
        judged.act(&mut state, done.cause, &mut |_| {});
    }
    moments
}

/// The attempt kept and cut after each of its lines, read back, gone on with and graded.
fn restarted_at_each_cause(
    exercise: &Exercise,
    texts: &crate::Material,
    attempt: &Attempt,
) -> Vec<Grade> {
    let world = attempt.world();
    let variant = exercise.variant(&world.variant().id).expect("it is listed");
    let begun = Recorder::begin(
        Vec::new(),
        texts,
        exercise,
        variant,
        PlayedAs::Exam,
        &ProofState::Missing,
    );
    let mut recorder = begun.expect("memory can be written");
    recorder.catch_up(attempt).expect("memory can be written");
    let bytes = recorder.end(attempt).expect("memory can be written");
    let ends = bytes.iter().enumerate().filter(|(_, byte)| **byte == b'\n');
    let grades = ends.map(|(end, _)| {
        let kept = match read_attempt(&bytes[..=end]) {
            Reading::Whole(kept) | Reading::CutOff(Some(kept)) => kept,
            other => panic!("{other:?}"),
        };
        let rebuilt = kept
            .rebuild(&Problems::new())
            .expect("its texts can be read");
        assert_eq!(rebuilt.difference, None);
        let mut other = rebuilt.attempt;
        go_on(&mut other, attempt);
        other.grade(&rebuilt.exercise)
    });
    grades.collect()
}

#[test]
fn however_it_is_come_by_the_grade_is_the_same() {
    let mut texts = material();
    texts.rules.text = timed_rules(&texts.rules.text);
    let timed = texts.read(&Problems::new()).expect("it has no problem");
    let plain = exercise();
    let (mut compared, mut by_time, mut guesses) = (0, 0, 0);
    let mut missed = Vec::new();
    // Without its one look it is declared blindly.
    let blind = JOURNALS[2].replacen("LookInfeedSide,", "", 1);
    let journals: Vec<&str> = JOURNALS.into_iter().chain([blind.as_str()]).collect();
    for (exercise, texts) in [(&plain, material()), (&timed, texts)] {
        for text in &journals {
            let attempt = played(exercise, text, Pieces::Events);
            let grade = attempt.grade(exercise);
            assert_eq!(grade.outturn.line_stood, line_down(&attempt));
            by_time += grade
                .breaches
                .iter()
                .filter(|one| one.intent.is_none())
                .count();
            guesses += grade.guesses.len();
            missed.extend(grade.breaches.iter().filter_map(|one| one.missed));
            let references = References::of(attempt.judged(), &exercise.procedure);
            assert_eq!(grade.reference, references.of_way(grade.way));
            let mut same = |other: Grade, how: &str| {
                assert_eq!(other, grade, "{how}");
                assert_eq!(format!("{other:?}"), format!("{grade:?}"), "{how}");
                compared += 1;
            };
            for piece in [100_000, 777_777] {
                let other = played(exercise, text, Pieces::Of(Micros(piece)));
                same(other.grade(exercise), &format!("in pieces of {piece}"));
            }
            for other in restarted_at_each_cause(exercise, &texts, &attempt) {
                same(other, "after a restart at a cause");
            }
            for at in moments(&attempt) {
                let mut other = Attempt::new(attempt.judged().clone());
                for done in attempt.done().iter().take_while(|done| done.at < at) {
                    other.wait(done.at - other.at());
                    other.do_at_once(done.cause).expect("it was on offer");
                }
                other.wait(at - other.at());
                go_on(&mut other, &attempt);
                same(other.grade(exercise), &format!("after a restart at {at}"));
            }
        }
    }
    assert!(compared > 1_000, "{compared}");
    assert!(by_time > 0, "none was broken by time alone");
    assert!(guesses > 0, "nobody guessed");
    let by = |one: &Missed| matches!(one, Missed::By(spare) if spare.amount() == -60_000 + 800);
    let narrow = missed.iter().any(by);
    assert!(narrow, "none was missed by a width: {missed:?}");
}

/// Up to a question of the clear-out, then its answer so much later.
#[test]
fn an_answer_at_once_is_found() {
    let exercise = exercise();
    let slow = played(&exercise, JOURNALS[1], Pieces::Events);
    let seen_empty = Cause::Did(Intent::Press(Button::Answer(Answer::SeenEmpty)));
    let first = slow.done().iter().position(|done| done.cause == seen_empty);
    let first = first.expect("it answers") + 1;
    let at_once = GuessKind::AnsweredAtOnce(Micros(400_000));
    for (after, expected) in [(400_000, vec![at_once]), (1_000_000, vec![])] {
        let mut quick = Attempt::new(slow.judged().clone());
        for done in &slow.done()[..first] {
            quick.wait(done.at - quick.at());
            quick.do_at_once(done.cause).expect("it was on offer");
        }
        assert!(quick.wait_for_rest());
        quick.wait(after);
        quick.do_at_once(seen_empty).expect("the panel asks");
        let kinds: Vec<GuessKind> = quick
            .grade(&exercise)
            .guesses
            .iter()
            .map(|one| one.kind)
            .collect();
        assert_eq!(kinds, expected, "{after}");
    }
}

/// Nobody can wait for a rule: what a person waits for, and how long, is the machine's alone.
#[test]
fn a_wait_is_as_long_whatever_times_the_rules_have() {
    let mut texts = material();
    texts.rules.text = timed_rules(&texts.rules.text);
    let timed = texts.read(&Problems::new()).expect("it has no problem");
    let times = |exercise: &Exercise, text| -> Vec<u64> {
        let attempt = played(exercise, text, Pieces::Events);
        attempt.done().iter().map(|done| done.at).collect()
    };
    for text in JOURNALS {
        assert_eq!(times(&timed, text), times(&exercise(), text), "{text}");
    }
}

/// What was true at a breach is what was true right before it, also of what moved, and though
/// nothing was done for a while.
#[test]
fn what_was_true_at_a_breach_was_true_at_its_moment() {
    let mut texts = material();
    let long = "Rule(name: \"moves-long\", severity: Minor, source: \"made up\",
        always: Not(Historically(within_s: 1.5, of: Is(Moving)))),
        Rule(name: \"rests\", severity: Minor, source: \"made up\",
        always: Not(Sign(WidthReached))), Rule(name: \"rails-unproven\"";
    let rules = timed_rules(&texts.rules.text);
    texts.rules.text = rules.replacen("Rule(name: \"rails-unproven\"", long, 1);
    let exercise = texts.read(&Problems::new()).expect("it has no problem");
    let (mut moving, mut compared) = (0, 0);
    for text in JOURNALS {
        let attempt = played(&exercise, text, Pieces::Events);
        for breach in attempt.grade(&exercise).breaches {
            let done = breach.moment.cause.map_or(0, |cause| cause + 1);
            let common = done - usize::from(breach.intent.is_some());
            let mut other = Attempt::new(attempt.judged().clone());
            for done in &attempt.done()[..common] {
                other.wait(done.at - other.at());
                other.do_at_once(done.cause).expect("it was on offer");
            }
            let at = breach.moment.at - u64::from(breach.intent.is_none());
            other.wait(at.saturating_sub(other.at()));
            assert_eq!(other.state().world, breach.state.world, "{breach:?}");
            let moved = breach.intent.is_none() && breach.state.world.machine.moves();
            moving += usize::from(moved);
            compared += 1;
        }
    }
    assert!(moving > 3 && compared > 20, "{moving} of {compared}");
}
