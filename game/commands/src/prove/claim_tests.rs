//! What is said of a claim: it holds, it fails, or it is open.

use rackproof_buffer::Timer;
use rackproof_words::Words;

use super::{Proof, Verdict, mend_of, verdicts};
use crate::prove::{
    choices::Choice, claims::Guided, job::Kept, level::Level, lines::WayFrom, races::Races,
    sprung::Sprung, vacuity::Vacuity,
};

/// A proof in which nothing speaks against any claim.
fn proof() -> Proof {
    Proof {
        level: Level::Exact,
        kept: vec![Kept {
            variants: vec![0],
            complete: true,
            finished: 1,
            ..Kept::default()
        }],
        guided: vec![Guided {
            variant: 0,
            way: 0,
            time: Some(1),
            runs: 1,
            failed: 0,
            broke: None,
            attempt: Vec::new(),
            end: String::new(),
        }],
        milestones: vec![1],
        spoken_of: 1,
        reachable: 1,
        machine: None,
        races: Races::default(),
        undeclared: Vec::new(),
        vacuity: Some(Vacuity {
            needs: Vec::new(),
            incongruent: None,
            traps: vec![sprung(true)],
            always_wrong: Vec::new(),
            unlisted: Vec::new(),
            choices: vec![choice(true)],
        }),
        facts: None,
        whole: true,
    }
}

fn choice(arises: bool) -> Choice {
    let (arises, never) = if arises {
        (vec![0], vec![])
    } else {
        (vec![], vec![0])
    };
    Choice {
        chance: "UpstreamDrops".to_owned(),
        arises,
        never,
    }
}

fn sprung(springs: bool) -> Sprung {
    Sprung {
        trap: 0,
        variants: vec![0],
        slots: 16,
        way: springs.then(|| (0, vec!["At(0.000000, Reset)".to_owned()])),
    }
}

fn way() -> Option<WayFrom> {
    Some((0, vec!["At(0.000000, Reset)".to_owned()]))
}

/// The claims that are not known to hold, with what is known of them.
fn not_held(proof: &Proof, ended: bool) -> String {
    let all = verdicts(proof, ended).into_iter();
    let left = all.filter(|(_, verdict)| *verdict != Verdict::Holds);
    let told = left.map(|(id, verdict)| {
        let name = id.trim_start_matches("prove-claim-");
        format!("{name} {}", format!("{verdict:?}").to_lowercase())
    });
    told.collect::<Vec<_>>().join(", ")
}

/// What all searches tell together, and the choices that come up in those with the rules kept.
const OF_ALL: &str =
    "machine open, races open, congruent open, needed open, offers open, choices open";
/// What the searches with the rules kept tell.
const OF_KEPT: &str = "rules-suffice open, fair open, sound open, fair-start open, no-corner open";

/// What a proof is made to say.
type Change = fn(&mut Proof);

/// Changes, whether the search was ended, and what is not known to hold then.
fn come_out(cases: &[(&[Change], bool, String)]) {
    for (number, (changes, ended, expected)) in cases.iter().enumerate() {
        let mut proof = proof();
        changes.iter().for_each(|change| change(&mut proof));
        assert_eq!(not_held(&proof, *ended), *expected, "{number}");
        if !*ended {
            assert_eq!(proof.holds(), expected.is_empty(), "{number}");
        }
    }
}

#[test]
fn a_search_that_stopped_leaves_open_what_it_did_not_break() {
    let stopped: Change = |proof| proof.kept[0].complete = false;
    come_out(&[
        (&[], false, String::new()),
        // At its bound: what rests on other searches is known.
        (&[stopped], false, format!("{OF_KEPT}, {OF_ALL}")),
        // Ended when the searches with the rules kept were done: what rests on them is known.
        (
            &[],
            true,
            "machine open, races open, congruent open, harms open, needed open, traps open, \
             offers open"
                .to_owned(),
        ),
        // What was found by then is known in any case.
        (
            &[stopped, |proof| proof.kept[0].harm = way()],
            true,
            "rules-suffice fails, fair open, sound open, fair-start open, no-corner open, \
             machine open, races open, congruent open, harms open, needed open, traps open, \
             offers open, choices open"
                .to_owned(),
        ),
        (
            &[stopped, |proof| {
                proof.undeclared = vec![(Timer::Rails, Timer::Belts)]
            }],
            false,
            format!("{OF_KEPT}, {}", OF_ALL.replace("races open", "races fails")),
        ),
        (
            &[stopped, |proof| proof.kept[0].incongruent = way()],
            false,
            format!(
                "{OF_KEPT}, {}",
                OF_ALL.replace("congruent open", "congruent fails")
            ),
        ),
        // The guide runs before all searches.
        (
            &[
                |proof| proof.milestones[0] = 0,
                |proof| proof.guided[0].failed = 1,
            ],
            true,
            "machine open, races open, guide fails, congruent open, milestones fails, \
             harms open, needed open, traps open, offers open"
                .to_owned(),
        ),
    ]);
}

#[test]
fn what_was_searched_to_its_end_fails_where_it_broke() {
    come_out(&[
        // Nobody finished, and all was searched.
        (
            &[|proof| proof.kept[0].finished = 0],
            false,
            "fair fails".to_owned(),
        ),
        (
            &[|proof| proof.kept[0].unsound = way()],
            false,
            "sound fails".to_owned(),
        ),
        (
            &[|proof| proof.reachable = 0],
            false,
            "harms fails".to_owned(),
        ),
        (
            &[|proof| {
                if let Some(one) = &mut proof.vacuity {
                    one.traps[0] = sprung(false);
                    one.unlisted = vec!["PutIn"];
                    one.choices = vec![choice(false)];
                }
            }],
            false,
            "traps fails, offers fails, choices fails".to_owned(),
        ),
        // Level 6 tells what holds. Of what does not, only a way that was played tells.
        (
            &[|proof| proof.level = Level::Unordered],
            false,
            String::new(),
        ),
        (
            &[
                |proof| proof.level = Level::Unordered,
                |proof| proof.kept[0].harm = Some((0, Vec::new())),
                |proof| proof.kept[0].unfair = way(),
            ],
            false,
            "rules-suffice open, fair fails".to_owned(),
        ),
    ]);
}

#[test]
fn each_claim_says_what_to_mend() {
    let words = Words::english();
    for (id, _) in verdicts(&proof(), false) {
        let mend = mend_of(id).expect("it has one");
        assert!(words.say(mend, &[]).starts_with("To mend: "), "{mend}");
    }
    assert_eq!(words.faults(), [""; 0]);
}
