//! A proof that was kept and read back says the same as on the day that it was made.

use rackproof_attempt::{Exercise, ORDERED, Proof as Kept, ProofState, UNORDERED};
use rackproof_buffer::Timer;
use rackproof_drill::{IntentKind, Page};
use rackproof_files::Problems;
use rackproof_library::{Loaded, built_in_drill, keep_proof, load, read_text};
use rackproof_words::Words;

use super::to_keep;
use crate::{
    Exit,
    prove::{
        Arguments,
        choices::Choice,
        claims::{Guided, Proof, guide},
        job,
        json::{self, Origin},
        kept::from_kept,
        level::Level,
        races::{Moments, Races},
        report, run,
        sprung::Sprung,
        survey::Survey,
        vacuity::{Need, Vacuity, unlisted},
        written::Written,
    },
};

#[path = "told_tests.rs"]
mod told;

fn loaded() -> Loaded {
    load(built_in_drill(), &Problems::new()).expect("it has no problem")
}

/// A race table; `broken` it has a pair that no drill names.
fn races(broken: bool) -> Races {
    let mut races = Races::default();
    if broken {
        races.pairs.insert((Timer::Rails, Timer::Belts), 4);
    }
    races.moments[2] = Moments {
        states: 40,
        most: 3,
        by: 1 << IntentKind::Stop as u8,
    };
    races
}

fn way(is_there: bool) -> Option<Vec<String>> {
    is_there.then(|| vec!["At(1.500000, Press(\"kestrel\"))".to_owned()])
}

fn vacuity(exercise: &Exercise, broken: bool) -> Vacuity {
    let needs = exercise.rules.list.iter().map(|rule| Need {
        rule: rule.name.clone(),
        sourced: rule.source != "common practice",
        first_broken: 7,
        tested: true,
        early: rule.early,
        turned: (!broken).then_some(2),
        cornered: None,
    });
    let traps = (0..exercise.drill.traps.len()).map(|trap| Sprung {
        trap,
        variants: vec![0, 3],
        way: way(!broken).map(|way| (3, way)),
        slots: if broken { 0 } else { 16 },
    });
    Vacuity {
        needs: needs.collect(),
        incongruent: None,
        traps: traps.collect(),
        always_wrong: vec!["PutIn"],
        unlisted: unlisted(exercise, &["PutIn"]),
        choices: vec![Choice {
            chance: "UpstreamLaysBoard".to_owned(),
            arises: vec![0, 2],
            never: if broken { vec![1] } else { Vec::new() },
        }],
    }
}

/// Some proof with something in every field; `broken` claims have a way.
fn proof(drill: &Loaded, broken: bool) -> Proof {
    let exercise = &drill.exercise;
    let variants = 0..exercise.drill.variants.len();
    let from = |broken: bool, variant: usize| way(broken).map(|way| (variant, way));
    let kept = |slots: u8, variant: usize| job::Kept {
        variants: vec![variant],
        slots,
        states: 1_000 + variant as u64,
        steps: 20_000,
        memory: 4_000_000,
        took: None,
        complete: true,
        finished: 3,
        beyond_bound: 2,
        checked: 20,
        won: 1_000,
        first_broken: Vec::new(),
        survey: Survey::default(),
        corner: from(broken && variant == 1, variant),
        machine: from(broken && variant == 2, variant),
        harm: from(broken && variant == 3, variant),
        unfair: from(broken && variant == 4, variant),
        unsound: from(broken && variant == 7, variant),
        incongruent: from(broken && variant == 5, variant),
        unfair_start: from(broken && variant == 6, variant),
    };
    let races = races(broken);
    let mut met = vec![0; exercise.drill.milestones.len()];
    let guided = guide(exercise, 1, 0, &mut met);
    Proof {
        level: Level::Exact,
        kept: [4, 16]
            .into_iter()
            .flat_map(|slots| variants.clone().map(move |variant| (slots, variant)))
            .map(|(slots, variant)| kept(slots, variant))
            .collect(),
        guided: vec![Guided {
            variant: 1,
            way: 0,
            time: guided.time.filter(|_| !broken),
            runs: 8,
            failed: usize::from(broken),
            broke: None,
            attempt: if broken { Vec::new() } else { guided.attempt },
            end: if broken { String::new() } else { guided.end },
        }],
        milestones: vec![u64::from(!broken) * 12; exercise.drill.milestones.len()],
        spoken_of: 0b101_0110,
        reachable: if broken { 0b100_0010 } else { 0b101_0110 },
        machine: way(broken),
        undeclared: races.undeclared(&exercise.drill).collect(),
        races,
        vacuity: Some(vacuity(exercise, broken)),
        facts: Some((12_000, vec![1, 2, 3, 4, 5])),
        whole: true,
    }
}

/// All that is said of a proof.
fn said(drill: &Loaded, proof: &Proof) -> String {
    let words = Words::english();
    let mut out = Vec::new();
    report::write_claims(drill, proof, false, &mut out, &words).expect("memory can be written");
    let mut said = String::from_utf8(out).expect("it says text");
    said.push_str(
        &json::json(drill, proof, (Origin::Kept, &Written::default()), &words).to_string(),
    );
    assert_eq!(words.faults(), [""; 0]);
    said
}

#[test]
fn what_was_kept_says_what_was_proved() {
    let drill = loaded();
    for broken in [false, true] {
        let mut proof = proof(&drill, broken);
        if broken {
            proof.level = Level::Squeezed;
        }
        assert_eq!(proof.holds(), !broken);
        let text = to_keep(&drill, &proof).text();
        let problems = Problems::new();
        let kept = Kept::read(problems.for_file("a.proof.ron", &text)).expect("it is whole");
        assert_eq!(kept.holds(), !broken);
        let back = from_kept(&drill, &kept).expect("it is of this drill");
        assert_eq!(said(&drill, &back), said(&drill, &proof));
    }
}

/// A file that fits its texts and claims something else is of another program: it is proved anew.
#[test]
fn a_proof_of_other_claims_or_names_is_not_taken_for_this_one() {
    let drill = loaded();
    let good = to_keep(&drill, &proof(&drill, false));
    assert!(from_kept(&drill, &good).is_some());
    type Change = fn(&mut Kept);
    let changes: [Change; 8] = [
        |kept| kept.merged.push("half-of-it".to_owned()),
        |kept| kept.claims.truncate(10),
        |kept| kept.claims.push(("more".to_owned(), true)),
        |kept| kept.claims.swap(0, 1),
        |kept| kept.searches[3].complete = false,
        |kept| kept.searches[0].variants[0] = "another".to_owned(),
        |kept| kept.milestones.truncate(1),
        |kept| kept.always_wrong.push("Fly".to_owned()),
    ];
    for (number, change) in changes.into_iter().enumerate() {
        let mut kept = good.clone();
        change(&mut kept);
        assert!(from_kept(&drill, &kept).is_none(), "{number}");
    }
}

/// Level 6 claims two things. What it found and nobody could play breaks neither and shows neither.
#[test]
fn a_proof_of_level_6_says_just_what_it_can_show() {
    let drill = loaded();
    let line = || vec!["At(1.500000, Press(\"kestrel\"))".to_owned()];
    let cases = [
        (None, "holds", true),
        (Some(Vec::new()), "not proved by level 6", false),
        (Some(line()), "fails", false),
    ];
    for (way, verdict, holds) in cases {
        let mut proof = proof(&drill, false);
        proof.level = Level::Unordered;
        (proof.vacuity, proof.spoken_of, proof.reachable) = (None, 0, 0);
        let mut met = vec![0; drill.exercise.drill.milestones.len()];
        let variants = 0..drill.exercise.drill.variants.len();
        let guided = variants.map(|variant| guide(&drill.exercise, variant, 0, &mut met));
        proof.guided = guided.collect();
        proof.kept[3].harm = way.map(|way| (3, way));
        assert_eq!(proof.holds(), holds);
        // Fair is not shown by ends that are found: the guide must come to one in each variant.
        let mut unguided = proof.clone();
        unguided.guided.pop();
        assert!(!unguided.fair() && !unguided.holds());
        let text = to_keep(&drill, &proof).text();
        let problems = Problems::new();
        let kept = Kept::read(problems.for_file("a.proof.ron", &text)).expect("it is whole");
        assert_eq!((kept.holds(), kept.claims.len()), (holds, 2));
        // It closes the exam even if both hold.
        let state = kept.state(&drill.material, &drill.exercise, &text);
        assert_eq!((state.hash(), state.shows_something()), (None, holds));
        let back = from_kept(&drill, &kept).expect("it is of this drill");
        assert_eq!(back.level, Level::Unordered);
        let said = said(&drill, &back);
        assert_eq!(said, self::said(&drill, &proof));
        let of_claim = format!("{verdict:<10} Rules suffice");
        assert!(said.contains(&of_claim), "{said}");
        assert_eq!(
            said.contains("not proved by level 6"),
            verdict.starts_with("not")
        );
        assert!(
            said.contains("\"level\":6") && said.contains("Level 6"),
            "{said}"
        );
        assert!(said.contains("Not shown at level 6"), "{said}");
        for other in ["No corner", "Congruent", "Live traps", "Fair start"] {
            assert!(!said.contains(&format!("holds      {other}")), "{said}");
        }
    }
}

/// Where the order of slots was kept after all, a proof of level 6 says so, and shows no more.
#[test]
fn a_proof_of_level_6_says_whether_the_order_was_forgotten() {
    for (page, named) in [(None, UNORDERED), (Some(Page::Settings), ORDERED)] {
        let mut drill = loaded();
        drill.exercise.drill.pages.extend(page);
        let mut proof = proof(&drill, false);
        proof.level = Level::Unordered;
        (proof.vacuity, proof.spoken_of, proof.reachable) = (None, 0, 0);
        let kept = to_keep(&drill, &proof);
        let last = kept.merged.last().map(String::as_str);
        assert_eq!(last, Some(named));
        let back = from_kept(&drill, &kept).expect("it is of this drill");
        assert_eq!(back.level, Level::Unordered);
        let open = kept.claims.iter().all(|(_, holds)| *holds);
        let state = kept.state(&drill.material, &drill.exercise, &kept.text());
        assert_eq!(matches!(state, ProofState::Partial), open, "{state:?}");
    }
}

/// What shows more is not written over by what shows less.
#[test]
fn a_kept_proof_is_not_replaced_by_one_of_a_level_that_shows_less() {
    let folder = tempfile::tempdir().expect("there is room");
    let path = folder.path().join("left-inside.ron");
    std::fs::write(&path, &built_in_drill().text).expect("it can be written");
    let read = || {
        let text = read_text(&path).expect("it is there");
        load(text, &Problems::new()).expect("it has no problem")
    };
    let drill = read();
    let file = keep_proof(&path, &to_keep(&drill, &proof(&drill, false))).expect("there is room");
    let before = std::fs::read(&file).expect("it is there");
    let words = Words::english();
    // The quick one first: so a fault shows soon.
    for (level, exit) in [(6, Exit::WrongUse), (5, Exit::WrongUse)] {
        let arguments = Arguments {
            paths: vec![path.clone()],
            json: false,
            small: false,
            variant: None,
            slots: Vec::new(),
            level: level.to_string(),
            states: "1000".to_owned(),
            again: true,
            ways: None,
        };
        let mut out = Vec::new();
        let found = run(&arguments, &mut out, &words).expect("memory can be written");
        assert_eq!(found, exit);
        let said = String::from_utf8(out).expect("it says text");
        assert!(
            said.contains("level 4") && said.contains("the kept"),
            "{said}"
        );
        assert_eq!(std::fs::read(&file).expect("it is there"), before);
    }
}

/// What merged more than is asked for now shows less.
#[test]
fn a_level_stands_for_itself_and_those_that_merge_more() {
    let numbers = [4, 5, 6].map(|number| Level::numbered(number).expect("it is one"));
    assert!(numbers.windows(2).all(|pair| pair[0] < pair[1]));
    assert_eq!(numbers.map(Level::number), [4, 5, 6]);
    assert_eq!([3, 7].map(Level::numbered), [None, None]);
}
