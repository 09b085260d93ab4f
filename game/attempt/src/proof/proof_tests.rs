//! The file of a proof: written, read back, found stale, found broken.

use rackproof_files::Problems;

use super::{
    Broken, Choice, Decisive, Deed, Ground, Proof, ProofState, Race, RuleNeed, Search, Time,
    TrapSprung, core_hash,
};
use crate::{
    Hashes, Material, hash_of,
    sample::{exercise, material},
};

/// A run of the guide, with what it did.
fn guided() -> Time {
    Time {
        variant: "green-low".to_owned(),
        way: "by-hand".to_owned(),
        time: Some(550_000_000),
        runs: 9,
        failed: 0,
        attempt: [(1_500_000, "TestStraps"), (0, "Take(5, Outfeed)")]
            .map(|(after, cause)| Deed {
                after,
                cause: cause.to_owned(),
            })
            .to_vec(),
        end: "0123".to_owned(),
    }
}

/// A proof of the drill as shipped, with something in every field.
fn proof() -> Proof {
    let name = |text: &str| text.to_owned();
    let search = |slots| Search {
        variants: vec![name("green-low")],
        slots,
        states: 84_000,
        steps: 1_000_000,
        memory: u64::from(u32::MAX) + 1,
        complete: true,
        finished: 12,
        beyond_bound: 3,
        checked: 1_000,
        won: 84_000,
        broken: Vec::new(),
    };
    Proof {
        older: false,
        drill: name("left-inside"),
        program: name("0.1.0"),
        texts: Hashes::of(&material()),
        core: core_hash().to_owned(),
        not_sure: 1,
        merged: vec![name("one-stride")],
        sizes: vec![4, 16],
        variants: vec![name("green-low")],
        claims: vec![(name("fair"), true), (name("rules-suffice"), true)],
        searches: vec![search(4), search(16)],
        milestones: vec![(name("declared-empty"), 12)],
        harms: vec![(name("sheared"), true)],
        times: vec![guided(), Time::default()],
        rules: vec![RuleNeed {
            rule: name("rails-unproven"),
            sourced: false,
            early: false,
            first_broken: 9,
            tested: true,
            harm_without: Some(name("green-low")),
            corner_without: None,
        }],
        traps: vec![TrapSprung {
            trap: name("half-a-look"),
            armed: vec![name("green-low")],
            sprung: Some(name("green-low")),
            slots: 16,
            way: vec![name("At(0.000000, Press(\"kestrel\"))")],
        }],
        always_wrong: vec![name("Scrap")],
        choices: vec![Choice {
            chance: name("FaultComes(\"sun\")"),
            arises: vec![name("green-low")],
            never: Vec::new(),
        }],
        machine: Vec::new(),
        races: vec![Race {
            one: name("Lift"),
            other: name("ReadyOpen"),
            states: 12,
        }],
        decisive: vec![Decisive {
            source: name("belts"),
            states: 40,
            most: 3,
            by: vec![name("Stop")],
        }],
        facts: vec![(name("states"), 12_000), (name("alarms"), 9_000)],
    }
}

/// The proof, and the ids of all problems.
fn read(text: &str) -> (Option<Proof>, Vec<&'static str>) {
    let problems = Problems::new();
    let proof = Proof::read(problems.for_file("a.proof.ron", text));
    let sorted = problems.sorted();
    (proof, sorted.iter().map(|one| one.found.id).collect())
}

#[test]
fn what_is_written_reads_back_the_same() {
    let mut failed = proof();
    failed.times.pop();
    failed.claims[0].1 = false;
    failed.searches[1].broken = vec![Broken {
        claim: "fair".to_owned(),
        variant: "green-low".to_owned(),
        way: vec!["At(1.000000, Stop)".to_owned()],
    }];
    failed.machine = vec!["KeyIn".to_owned()];
    let mut holds = proof();
    holds.times.pop();
    for proof in [holds, failed] {
        let text = proof.text();
        let lines: Vec<&str> = text.split_inclusive('\n').collect();
        assert_eq!(
            read(&lines.join("\r\n").replace("\n\r\n", "\r\n")).1,
            [""; 0]
        );
        assert_eq!(read(&text), (Some(proof), vec![]), "{text}");
    }
}

#[test]
fn a_proof_is_stale_when_any_text_or_the_core_changed() {
    type Change = fn(&mut Material, &mut Proof);
    let cases: [(Change, Option<Ground>); 6] = [
        (|_, _| {}, None),
        (
            |texts, _| texts.machine.text.push(' '),
            Some(Ground::Machine),
        ),
        (|texts, _| texts.drill.text.push(' '), Some(Ground::Drill)),
        (|texts, _| texts.rules.text.push(' '), Some(Ground::Rules)),
        (
            |texts, _| texts.procedure.text.push(' '),
            Some(Ground::Procedure),
        ),
        (|_, proof| proof.core = hash_of("other"), Some(Ground::Core)),
    ];
    let exercise = exercise();
    for (change, ground) in cases {
        let (mut texts, mut proof) = (material(), proof());
        proof.times.clear();
        change(&mut texts, &mut proof);
        let expected = match ground {
            None => ProofState::Proved(hash_of("file")),
            Some(ground) => ProofState::Stale(vec![ground]),
        };
        assert_eq!(proof.state(&texts, &exercise, "file"), expected);
        // What fails is said only of what it was shown for.
        proof.claims[1].1 = false;
        let expected = match ground {
            None => ProofState::Failed(vec!["rules-suffice".to_owned()]),
            Some(ground) => ProofState::Stale(vec![ground]),
        };
        assert_eq!(proof.state(&texts, &exercise, "file"), expected);
        assert_eq!(expected.hash(), None);
    }
    assert_eq!(core_hash().len(), 64);
}

#[test]
fn all_that_is_wrong_in_a_proof_is_told_at_once() {
    let mut good = proof();
    good.times.pop();
    let good = good.text();
    let seal = "problem-proof-seal";
    let cases: &[(&str, &str, &[&str])] = &[
        ("states: 84000", "states: 84001", &[seal]),
        ("Changed by hand", "Changed by foot", &[seal]),
        (
            "holds: true",
            "holds: false",
            &["problem-proof-verdict", seal],
        ),
        (
            "\"fair\": true",
            "\"fair\": false",
            &["problem-proof-verdict", seal],
        ),
        (
            "sizes: [4, 16]",
            "sizes: [4, 8, 16]",
            &["problem-proof-not-searched", seal],
        ),
        ("form: 6", "form: 7", &["problem-out-of-bounds"]),
        ("core: \"", "core: \"g", &["problem-proof-hash"]),
        ("seal: \"", "seal: \"é", &["problem-proof-hash"]),
        ("[550000000]", "[1, 2]", &["problem-proof-more-than-one"]),
        ("attempt: [1, 0]", "attempt: [0, 1]", &[seal]),
        ("After(1500000,", "After(1400000,", &[seal]),
        (
            "attempt: [1, 0]",
            "attempt: [1, 2]",
            &["problem-proof-no-deed"],
        ),
    ];
    for (from, to, expected) in cases {
        assert!(good.contains(from), "{from}");
        let (proof, found) = read(&good.replacen(from, to, 1));
        assert_eq!((proof, &found[..]), (None, *expected), "{to}");
    }
    let many = good
        .replacen("steps: 1000000", "steps: -1", 1)
        .replacen("complete: true", "complete: yes", 1)
        .replacen("    always_wrong: [\n        \"Scrap\",\n    ],\n", "", 1);
    assert_eq!(read(&many).1.len(), 3, "{:?}", read(&many).1);
    for text in ["", "Proof()", "Drill(name: \"x\")", &good[..good.len() / 2]] {
        assert!(!read(text).1.is_empty(), "{text}");
    }
}

/// A text under a new seal.
fn sealed(text: &str) -> String {
    let body = &text[..text.rfind("\n    seal: ").expect("it is sealed")];
    format!("{body}\n    seal: \"{}\",\n)\n", hash_of(body))
}

/// The text of a proof as it was written before choices were told and attempts kept.
fn before_attempts(old: &Proof) -> String {
    let text = old.text().replacen("form: 6", "form: 5", 1);
    let (before, after) = text.split_once("    choices: [\n").expect("it has some");
    let (_, after) = after.split_once("\n    ],\n").expect("they end");
    let text = format!("{before}{after}").replace(", attempt: [1, 0], end: \"0123\"", "");
    let (before, after) = text.split_once("    deeds: [\n").expect("it has some");
    let (_, after) = after.split_once("\n    ],\n").expect("they end");
    assert!(!text.contains("attempt:"), "{text}");
    format!("{before}{after}")
}

/// One that was written when each variant had a search of its own, or before attempts were kept, is
/// read, and stale.
#[test]
fn a_proof_in_an_older_form_is_stale_whatever_else_is_the_same() {
    let mut old = proof();
    old.times.pop();
    let last = before_attempts(&old);
    let text = last.replacen("form: 5", "form: 3", 1);
    let text = text.replace(
        "Search(variants: [\"green-low\"]",
        "Search(variant: \"green-low\"",
    );
    let text = text.replace("broken: []", "ways: {}");
    let text = text.replace("\"declared-empty\": 12", "\"declared-empty\": true");
    assert!(text.contains("Search(variant: ") && text.contains("ways: {}"));
    for text in [last, text] {
        let text = sealed(&text);
        let (proof, problems) = read(&text);
        assert_eq!(problems, [""; 0], "{text}");
        let proof = proof.expect("it has no problem");
        let state = proof.state(&material(), &exercise(), &text);
        assert_eq!(state, ProofState::Stale(vec![Ground::Core]));
    }
}

#[test]
fn a_proof_that_claims_nothing_is_none() {
    let mut nothing = proof();
    nothing.times.pop();
    nothing.claims.clear();
    assert_eq!(read(&nothing.text()).1, ["problem-proof-claims-nothing"]);
}
