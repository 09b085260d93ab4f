//! What it costs to grade an attempt of 200 intents: a kept clear-out with more looks in it.
//!
//! `cargo bench -p rackproof-attempt --bench grade`
//!
//! - `graded`: replay, rules, margins, traps, alignment; the guide's times are known already, as
//!   they are for whoever grades many attempts at one variant;
//! - `graded_alone`: the same, and the guide plays the nearest way as well;
//! - `replayed`: the world and its rules alone, for comparison;
//! - `from_file`: the bytes of the attempt read, checked, done again, compared and graded.
//!
//! The aim is 2,000 graded a second on one core. `tests/outside/scripts/grade_instructions` counts
//! what `graded` costs on any machine, however busy.
#![expect(clippy::expect_used, reason = "a benchmark stops where it fails")]

use divan::{Bencher, counter::ItemsCount};
use rackproof_attempt::{
    Attempt, Exercise, Journal, Material, PlayedAs, ProofState, Reading, Recorder, Text,
    read_attempt,
};
use rackproof_drill::{Cause, Intent};
use rackproof_files::Problems;
use rackproof_grade::{Grade, GradeInput, References};

const MACHINE: &str = include_str!("../../../assets/machines/alder-16.ron");
const DRILL: &str = include_str!("../../../scenarios/changeover/left-inside.ron");
const RULES: &str = include_str!("../../../assets/rules/changeover.ron");
const PROCEDURE: &str = include_str!("../../../assets/procedures/changeover.ron");
const JOURNAL: &str = include_str!("../../../tests/journals/left-inside/by-clear-out.ron");

/// How many intents the attempt has.
const INTENTS: usize = 200;

fn main() {
    divan::main();
}

fn material() -> Material {
    let text = |file: &str, text: &str| Text {
        file: file.to_owned(),
        text: text.to_owned(),
    };
    Material {
        machine: text("alder-16.ron", MACHINE),
        drill: text("left-inside.ron", DRILL),
        rules: text("changeover.ron", RULES),
        procedure: text("changeover.ron", PROCEDURE),
    }
}

/// The kept clear-out, with as many more looks (or the torch, where nothing can be looked at) as
/// make 200 intents.
fn attempt() -> (Exercise, usize, Attempt) {
    let problems = Problems::new();
    let exercise = material().read(&problems).expect("it has no problem");
    let report = problems.for_file("journal", JOURNAL);
    let journal = Journal::read(report, &exercise).expect("it has no problem");
    let judged = exercise.judged(journal.variant).expect("it is listed");
    let mut kept = Attempt::new(judged.clone());
    assert!(journal.run(&mut kept, report, &mut |_| true));
    let (mut longer, own) = (Attempt::new(judged), kept.done().len());
    for (number, done) in kept.done().iter().enumerate() {
        longer.wait(done.at - longer.at());
        while longer.done().len() + 1 < (number + 1) * INTENTS / own {
            let look = |intent: &&Intent| matches!(intent, Intent::Look(_));
            let offers = longer.offers();
            let lit = longer.state().world.person.torch;
            let more = offers.iter().find(look).copied();
            let more = more.map_or(vec![Intent::Torch(!lit), Intent::Torch(lit)], |look| {
                vec![look]
            });
            for intent in more {
                longer
                    .do_at_once(Cause::Did(intent))
                    .expect("it is on offer");
            }
        }
        longer.do_at_once(done.cause).expect("it was on offer");
    }
    (exercise, journal.variant, longer)
}

fn input<'i>(
    attempt: &'i Attempt,
    exercise: &'i Exercise,
    causes: &'i [(rackproof_model::Micros, Cause)],
    references: Option<&'i References>,
) -> GradeInput<'i> {
    GradeInput {
        judged: attempt.judged(),
        procedure: &exercise.procedure,
        marks: exercise.marks(),
        causes,
        after: 0,
        references,
    }
}

#[divan::bench]
fn graded(bencher: Bencher<'_, '_>) {
    let (exercise, _, attempt) = attempt();
    let causes = attempt.causes();
    assert!(
        (INTENTS..INTENTS + 5).contains(&causes.len()),
        "{}",
        causes.len()
    );
    let references = References::of(attempt.judged(), &exercise.procedure);
    bencher
        .counter(ItemsCount::new(1_usize))
        .bench(|| Grade::of(input(&attempt, &exercise, &causes, Some(&references))));
}

#[divan::bench]
fn graded_alone(bencher: Bencher<'_, '_>) {
    let (exercise, _, attempt) = attempt();
    let causes = attempt.causes();
    bencher
        .counter(ItemsCount::new(1_usize))
        .bench(|| Grade::of(input(&attempt, &exercise, &causes, None)));
}

#[divan::bench]
fn replayed(bencher: Bencher<'_, '_>) {
    let (_, _, attempt) = attempt();
    bencher.counter(ItemsCount::new(1_usize)).bench(|| {
        let mut again = Attempt::new(attempt.judged().clone());
        for done in attempt.done() {
            again.wait(done.at - again.at());
            again.do_at_once(done.cause).expect("it was on offer");
        }
        again
    });
}

#[divan::bench]
fn from_file(bencher: Bencher<'_, '_>) {
    let (exercise, variant, attempt) = attempt();
    let begun = Recorder::begin(
        Vec::new(),
        &material(),
        &exercise,
        variant,
        PlayedAs::Practice,
        &ProofState::Missing,
    );
    let mut recorder = begun.expect("memory can be written");
    recorder.catch_up(&attempt).expect("memory can be written");
    let bytes = recorder.end(&attempt).expect("memory can be written");
    bencher.counter(ItemsCount::new(1_usize)).bench(|| {
        let Reading::Whole(kept) = read_attempt(&bytes) else {
            return None;
        };
        let rebuilt = kept.rebuild(&Problems::new())?;
        Some(rebuilt.attempt.grade(&rebuilt.exercise))
    });
}
