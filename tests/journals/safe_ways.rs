//! Equivalent safe ways are equal: in every variant both ways of the procedure pass, and are kept,
//! read back and graded alike.

use std::fs;

use rackproof_attempt::{Attempt, Exercise, PlayedAs, ProofState, Recorder};
use rackproof_commands::Exit;
use rackproof_files::Problems;
use rackproof_grade::{GuideRun, Judged};
use serde_json::{Value, json};

use crate::{
    outcomes::material_of_drill,
    play::{grade, play_of},
};

/// Drills that can be done by hand and by clear-out.
const DRILLS: [&str; 2] = ["left-inside", "left-inside-rowan"];

fn guided(judged: &Judged, exercise: &Exercise, way: usize) -> (GuideRun, Attempt) {
    let run = GuideRun::play(judged, &exercise.procedure, way).expect("the guide finishes");
    let mut attempt = Attempt::new(judged.clone());
    for (since, cause) in &run.causes {
        attempt.wait(u64::from(since.0));
        attempt
            .do_at_once(*cause)
            .expect("the guide does what is on offer");
    }
    (run, attempt)
}

/// What of a grade may not depend on the way: all but the way itself, its steps and its time.
fn verdict(grade: &Value) -> Value {
    let steps = grade["steps"].as_array().expect("it is a list");
    assert!(steps.len() > 40, "{}: each slot has its steps", steps.len());
    let departures: Vec<&Value> = steps
        .iter()
        .filter(|step| step["state"] != "done")
        .collect();
    json!({
        "passed": grade["passed"],
        "breaches": grade["breaches"],
        "harms": grade["harms"],
        "unfinished": grade["unfinished"],
        "traps": grade["traps"],
        "departures": departures,
        "fits": grade["fitness"][0] == grade["fitness"][1],
    })
}

#[test]
fn all_ways_pass_in_every_variant_with_equal_grades() {
    for drill in DRILLS {
        all_ways_pass(drill);
    }
}

fn all_ways_pass(drill: &str) {
    let folder = tempfile::tempdir().expect("a folder can be made");
    let material = material_of_drill(drill);
    let exercise = material.read(&Problems::new()).expect("it has no problem");
    for (number, variant) in exercise.drill.variants.iter().enumerate() {
        let judged = exercise.judged(number).expect("it is listed");
        let grades: Vec<Value> = (0..exercise.procedure.ways.len())
            .map(|way| {
                let (run, attempt) = guided(&judged, &exercise, way);
                let path = folder.path().join(format!("{}-{way}.attempt", variant.id));
                let file = fs::File::create(&path).expect("it can be made");
                let begun = Recorder::begin(
                    file,
                    &material,
                    &exercise,
                    number,
                    PlayedAs::Guided,
                    &ProofState::Missing,
                );
                begun
                    .and_then(|recorder| recorder.end(&attempt))
                    .expect("it can be written");
                let (exit, grade) = grade(&path);
                assert_eq!(exit, Exit::Done, "{} {way}: {grade:#}", variant.id);
                assert_eq!(grade["time_us"], run.time, "{} {way}", variant.id);
                assert_eq!(grade["reference_us"], run.time, "{} {way}", variant.id);
                verdict(&grade)
            })
            .collect();
        assert!(grades.len() > 1 && grades.iter().all(|grade| *grade == grades[0]));
        assert_eq!(grades[0]["departures"], json!([]));
        assert_eq!(grades[0]["fits"], true);
    }
}

#[test]
fn the_written_ways_are_the_guides() {
    let folder = tempfile::tempdir().expect("a folder can be made");
    for drill in DRILLS {
        fs::create_dir(folder.path().join(drill)).expect("it can be made");
    }
    let ways = ["by-hand", "by-clear-out"];
    let both = DRILLS.iter().flat_map(|drill| ways.map(|way| (drill, way)));
    for (drill, way) in both {
        let exercise = material_of_drill(drill).read(&Problems::new());
        let exercise = exercise.expect("it has no problem");
        let journal = format!("{drill}: {way}");
        let path = play_of(drill, way, &folder.path().join(drill));
        let way = exercise.procedure.way(way).expect("it is listed");
        let bytes = fs::read(path).expect("it was written");
        let rackproof_attempt::Reading::Whole(kept) = rackproof_attempt::read_attempt(&bytes)
        else {
            panic!("{journal} is not whole");
        };
        let rebuilt = kept
            .rebuild(&Problems::new())
            .expect("its texts can be read");
        let (run, attempt) = guided(rebuilt.attempt.judged(), &exercise, way);
        assert_eq!(rebuilt.attempt.causes(), run.causes, "{journal}");
        assert_eq!(rebuilt.attempt.heard(), attempt.heard(), "{journal}");
    }
}
