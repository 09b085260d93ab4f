//! With a rule taken out the rules do not suffice. What the search then finds is an attempt like
//! any other.

use std::{fs, path::Path};

use rackproof_attempt::{Kept as KeptAttempt, ProofState, Reading, claim_of, read_attempt};
use rackproof_buffer::Defect;
use rackproof_files::Problems;
use rackproof_grade::{JudgedState, Verdict};
use rackproof_library::{Loaded, built_in_drill, load};
use rackproof_prove::{Congruence, Settings};
use rackproof_words::Words;

use super::{write, write_shown};
use crate::prove::{
    claims::{Proof, guide},
    interrupt::explore,
    job::{self, BREACH, HARMED_KEPT, HARMS, REPORTED, flags, judged},
    level::Level,
    lines::{Way, way},
    races::Races,
    sprung::spring,
    survey::Survey,
    vacuity::Vacuity,
    written::Written,
};

/// The rack on which a harm is searched for, and of which the machine is.
const SLOTS: u8 = 2;

/// The first drill on a machine of two slots, with its first board in them, and no rule that the
/// rack is to be proved before its rails move.
fn without_the_rule() -> Loaded {
    let mut loaded = load(built_in_drill(), &Problems::new()).expect("it has no problem");
    let texts = &mut loaded.material;
    let machine = texts.machine.text.replacen("slots: 16", "slots: 2", 1);
    texts.machine.text = machine;
    let cut = |text: &str, from: &str, to: &str| {
        let start = text.find(from).expect(from);
        let end = start + text[start..].find(to).expect(to);
        format!("{}{}", &text[..start], &text[end..])
    };
    let rule = "Rule(name: \"rails-unproven\"";
    texts.rules.text = cut(
        &texts.rules.text,
        rule,
        "Rule(name: \"production-unproven\"",
    );
    // No step can be critical by a rule that is gone.
    let critical = "critical: [Rule(\"rails-unproven\")], ";
    texts.procedure.text = texts.procedure.text.replace(critical, "");
    let second = "Variant(name: \"green-middle\"";
    texts.drill.text = cut(&texts.drill.text, second, "Variant(name: \"black-low\"");
    let third = "Variant(name: \"black-high\"";
    texts.drill.text = cut(&texts.drill.text, third, "],\n    finish:");
    let problems = Problems::new();
    let exercise = texts.read(&problems);
    let found = problems.sorted();
    loaded.exercise = exercise.unwrap_or_else(|| panic!("{found:?}"));
    // The proof is of the drill as it was.
    loaded.proof = ProofState::Missing;
    loaded
}

/// A shortest way to a harm with every rule kept.
fn harm(drill: &Loaded, variant: usize) -> Way {
    let rules = drill.exercise.rules.for_proof();
    let pair = judged(&drill.exercise, variant, SLOTS, &rules).prepared();
    let settings = Settings {
        prune: HARMS | 1 << BREACH | 1 << REPORTED,
        until: 1 << HARMED_KEPT,
        states_most: 400_000,
        congruence: Congruence::Off,
        ..Settings::default()
    };
    let flags = |state: &JudgedState| flags(&pair, state);
    let found = explore(&pair, &[pair.start()], &settings, flags);
    way(&pair, &found, HARMED_KEPT).expect("without the rule harm is done")
}

/// A proof in which the rules do not suffice in one variant, on racks of these sizes.
fn proof(variant: usize, way: &Way, sizes: &[u8]) -> Proof {
    let kept = |&slots: &u8| job::Kept {
        variants: vec![variant],
        slots,
        states: 1,
        steps: 1,
        memory: 1,
        took: None,
        complete: true,
        finished: 1,
        beyond_bound: 0,
        checked: 0,
        won: 1,
        first_broken: Vec::new(),
        survey: Survey::default(),
        corner: None,
        machine: None,
        harm: Some((variant, way.clone())),
        unfair: None,
        unsound: None,
        incongruent: None,
        unfair_start: None,
    };
    Proof {
        level: Level::Exact,
        kept: sizes.iter().map(kept).collect(),
        guided: Vec::new(),
        milestones: Vec::new(),
        spoken_of: 0,
        reachable: 0,
        machine: None,
        races: Races::default(),
        undeclared: Vec::new(),
        vacuity: None,
        facts: None,
        whole: false,
    }
}

fn said(drill: &Loaded, proof: &Proof, folder: &Path) -> String {
    let words = Words::english();
    let mut out = Vec::new();
    write(
        drill,
        proof,
        folder,
        (&mut out, &mut Written::default()),
        &words,
    )
    .expect("memory can be written");
    assert_eq!(words.faults(), [""; 0]);
    let said = String::from_utf8(out).expect("it says text");
    said.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn kept(path: &Path) -> KeptAttempt {
    let bytes = fs::read(path).expect("it was written");
    match read_attempt(&bytes) {
        Reading::Whole(kept) => *kept,
        other => panic!("{other:?}"),
    }
}

/// A path as it is told on any system.
fn shown(path: &Path) -> String {
    path.to_string_lossy().replace('\\', "/")
}

#[test]
fn a_way_that_breaks_a_claim_is_an_attempt_that_does_harm() {
    let drill = without_the_rule();
    let variant = drill.exercise.variant("black-low").expect("it is there");
    let way = harm(&drill, variant);
    let folder = tempfile::tempdir().expect("a folder can be made");
    let ways = folder.path().join("deep/ways");
    let told = said(&drill, &proof(variant, &way, &[SLOTS]), &ways);
    let path = ways.join("left-inside-rules-suffice-black-low-1.attempt");
    assert!(told.contains(&shown(&path)), "{told}");
    assert!(told.contains("Rules suffice: no attempt"), "{told}");
    let kept = kept(&path);
    assert!(!kept.header.proved);
    let rebuilt = kept.rebuild(&Problems::new()).expect("it can be read");
    assert_eq!(rebuilt.difference, None);
    let grade = rebuilt.attempt.grade(&rebuilt.exercise);
    assert!(!grade.harms.is_empty() && grade.breaches.is_empty());
    assert_ne!(grade.verdict, Verdict::Passed);
    // Where it broke is where it ends.
    let at = rebuilt.attempt.at();
    assert_eq!(
        grade.harms.iter().map(|(moment, _)| moment.at).max(),
        Some(at)
    );
    assert_eq!((kept.notes.len(), kept.notes[0].noted), (1, at));
    let words = Words::english();
    let line = ["rackproof", "grade", &*path.to_string_lossy()].map(Into::into);
    let mut out = Vec::new();
    crate::run(line, &mut &b""[..], &mut out, None);
    let graded = String::from_utf8(out).expect("it says text");
    assert!(graded.contains("A proof found this way."), "{graded}");
    let claim = rackproof_phrases::claim_said(&words, "rules-suffice");
    let row = graded.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(row.contains(&claim), "{graded}");
    // A second time nothing is written over.
    let before = fs::read(&path).expect("it is there");
    said(&drill, &proof(variant, &way, &[SLOTS]), &ways);
    assert!(fs::read(&path).expect("it is there") == before);
    assert_eq!(fs::read_dir(&ways).expect("it is there").count(), 2);
}

/// On a machine whose lock cuts nothing the guide fails: what it did then is an attempt on that
/// machine, and no longer one on the machine as it is.
#[test]
fn what_the_guide_does_on_a_wrong_machine_is_an_attempt() {
    let mut drill = load(built_in_drill(), &Problems::new()).expect("it has no problem");
    let right = drill.exercise.clone();
    drill.exercise.machine = right.machine.clone().with_defect(Defect::LockCutsNothing);
    let variant = right.variant("black-low").expect("it is there");
    let mut milestones = vec![0; right.drill.milestones.len()];
    let failed = guide(&drill.exercise, variant, 0, &mut milestones);
    assert!(failed.failed > 0 && failed.broke.is_some());
    assert_eq!(guide(&right, variant, 0, &mut milestones).broke, None);
    let folder = tempfile::tempdir().expect("a folder can be made");
    let mut found = proof(variant, &Vec::new(), &[]);
    found.guided = vec![failed.clone(), failed];
    let told = said(&drill, &found, folder.path());
    let path = folder.path().join("left-inside-guide-black-low-1.attempt");
    assert!(told.contains(&shown(&path)), "{told}");
    assert!(told.contains("Guide: it knows signs only"), "{told}");
    assert_eq!(fs::read_dir(folder.path()).expect("it is there").count(), 1);
    let kept = kept(&path);
    assert_eq!(
        claim_of(&kept.notes[0]).map(|(_, claim)| claim),
        Some("guide")
    );
    let rebuilt = kept
        .rebuild_of(&drill.exercise)
        .expect("it has the variant");
    assert_eq!(rebuilt.difference, None);
    let grade = rebuilt.attempt.grade(&rebuilt.exercise);
    assert_ne!(grade.verdict, Verdict::Passed);
    let today = kept
        .rebuild(&Problems::new())
        .expect("its texts can be read");
    assert!(
        today.difference.is_some(),
        "the machine as it is does otherwise"
    );
}

/// Where a folder is named, attempts show how each trap springs and how the guide goes on.
#[test]
fn traps_that_spring_and_the_guide_are_attempts_on_the_whole_machine() {
    let drill = load(built_in_drill(), &Problems::new()).expect("it has no problem");
    let exercise = &drill.exercise;
    let variant = exercise.variant("belt-and-black").expect("it is there");
    let traps: Vec<_> = (0..exercise.drill.traps.len())
        .map(|trap| spring(exercise, &[variant], trap))
        .collect();
    let whole = exercise.machine.slots();
    assert!(
        traps
            .iter()
            .all(|one| one.slots == whole && one.way.is_some())
    );
    let mut found = proof(variant, &Vec::new(), &[]);
    let ways = 0..exercise.procedure.ways.len();
    let mut milestones = vec![0; exercise.drill.milestones.len()];
    found.guided = ways
        .map(|way| guide(exercise, variant, way, &mut milestones))
        .collect();
    let (count, runs) = (traps.len(), found.guided.len());
    found.vacuity = Some(Vacuity {
        needs: Vec::new(),
        incongruent: None,
        traps,
        always_wrong: Vec::new(),
        unlisted: Vec::new(),
        choices: Vec::new(),
    });
    let folder = tempfile::tempdir().expect("a folder can be made");
    let (mut out, mut written) = (Vec::new(), Written::default());
    let words = Words::english();
    write_shown(
        &drill,
        &found,
        folder.path(),
        (&mut out, &mut written),
        &words,
    )
    .expect("memory can be written");
    assert_eq!(
        (written.attempts.len(), words.faults()),
        (count + runs, vec![])
    );
    for (number, path) in written.attempts.iter().enumerate() {
        let kept = kept(Path::new(path));
        let rebuilt = kept.rebuild(&Problems::new()).expect("it can be read");
        assert_eq!((rebuilt.difference, kept.notes.len()), (None, 0), "{path}");
        let grade = rebuilt.attempt.grade(&rebuilt.exercise);
        if number < count {
            let sprung: Vec<usize> = grade.sprung.iter().map(|(_, trap)| *trap).collect();
            assert!(sprung.contains(&number), "{path}: {sprung:?}");
        } else {
            assert_eq!(grade.verdict, Verdict::Passed, "{path}");
            let time = found.guided[number - count].time;
            assert_eq!(Some(rebuilt.attempt.at()), time, "{path}");
        }
    }
}

/// Found on a smaller rack alone, and the same on the whole machine.
#[test]
fn a_way_of_a_smaller_rack_that_does_the_same_on_the_whole_machine_is_an_attempt() {
    let drill = without_the_rule();
    let variant = drill.exercise.variant("black-low").expect("it is there");
    let way = harm(&drill, variant);
    let folder = tempfile::tempdir().expect("a folder can be made");
    // Of two racks the whole one comes first, and one attempt is enough.
    for sizes in [&[1][..], &[1, SLOTS]] {
        said(&drill, &proof(variant, &way, sizes), folder.path());
    }
    assert_eq!(fs::read_dir(folder.path()).expect("it is there").count(), 2);
    let path = folder
        .path()
        .join("left-inside-rules-suffice-black-low-1.attempt");
    let rebuilt = kept(&path)
        .rebuild(&Problems::new())
        .expect("it can be read");
    assert!(!rebuilt.attempt.grade(&rebuilt.exercise).harms.is_empty());
}

#[test]
fn what_is_not_of_the_whole_machine_or_cannot_be_played_is_said_and_not_kept() {
    let drill = without_the_rule();
    let folder = tempfile::tempdir().expect("a folder can be made");
    let way = vec!["At(0.000000, Report)".to_owned()];
    let variant = drill.exercise.variant("black-low").expect("it is there");
    let told = said(&drill, &proof(variant, &way, &[1]), folder.path());
    assert!(
        told.starts_with("1 slots, black-low: this way is no attempt. An attempt has the whole"),
        "{told}"
    );
    let way = vec!["At(0.000000, HandIn)".to_owned()];
    let told = said(&drill, &proof(0, &way, &[SLOTS]), folder.path());
    assert!(
        told.contains("cannot be played on the real machine"),
        "{told}"
    );
    assert_eq!(fs::read_dir(folder.path()).expect("it is there").count(), 0);
    assert_eq!(drill.proof, ProofState::Missing);
}
