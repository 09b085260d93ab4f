//! How a drill stands to its proof, in words.

use rackproof_attempt::{Ground, ProofState};
use rackproof_words::{Arg, Words};

use crate::named;

/// What became of a drill's proof, and what that means.
pub fn proof_told(words: &Words, state: &ProofState) -> String {
    match state {
        ProofState::Proved(_) => words.say("proof-proved", &[]),
        ProofState::Partial => words.say("proof-partial", &[]),
        ProofState::Stale(changed) => {
            let changed: Vec<String> = changed
                .iter()
                .map(|ground| words.say(ground_id(*ground), &[]))
                .collect();
            let changed = ("changed", Arg::from(changed.join(", ")));
            words.say("proof-stale", &[changed])
        }
        ProofState::Strayed(runs) => {
            let runs: Vec<String> = runs
                .iter()
                .map(|(variant, way)| {
                    let way = named(words, &format!("way-{way}"), way);
                    format!("{variant} ({way})")
                })
                .collect();
            words.say("proof-strayed", &[("runs", Arg::from(runs.join(", ")))])
        }
        ProofState::Failed(claims) => {
            let claims: Vec<String> = claims
                .iter()
                .map(|claim| claim_name(words, claim))
                .collect();
            words.say("proof-failed", &[("claims", Arg::from(claims.join(", ")))])
        }
        ProofState::Broken => words.say("proof-broken", &[]),
        ProofState::Missing => words.say("proof-missing", &[]),
    }
}

/// What a claim of a proof says, by its name.
pub fn claim_said(words: &Words, claim: &str) -> String {
    named(words, &format!("prove-claim-{claim}"), claim)
}

/// Why no exam can be taken on a drill, and how that is changed. `None` if one can. `path` is the
/// drill's file.
pub fn exam_closed(words: &Words, state: &ProofState, path: &str) -> Option<String> {
    if state.hash().is_some() {
        return None;
    }
    let told = proof_told(words, state);
    let arguments = [("state", Arg::from(told)), ("path", Arg::from(path))];
    Some(words.say("proof-exam-closed", &arguments))
}

fn ground_id(ground: Ground) -> &'static str {
    match ground {
        Ground::Machine => "proof-ground-machine",
        Ground::Drill => "proof-ground-drill",
        Ground::Rules => "proof-ground-rules",
        Ground::Procedure => "proof-ground-procedure",
        Ground::Core => "proof-ground-core",
    }
}

/// What a claim is called, by its name in proofs: the sentence that says it begins with that. The
/// name itself if nobody wrote a sentence.
pub fn claim_name(words: &Words, claim: &str) -> String {
    let said = named(words, &format!("prove-claim-{claim}"), claim);
    said.split(':').next().unwrap_or(claim).to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_state_is_told_and_all_but_one_close_the_exam() {
        let words = Words::english();
        let failed = vec!["rules-suffice".to_owned(), "of-another".to_owned()];
        let cases = [
            (
                ProofState::Proved("ab".to_owned()),
                "every claim holds",
                false,
            ),
            (
                ProofState::Stale(vec![Ground::Rules, Ground::Core]),
                "Changed since: the rules file, the program’s own core.",
                true,
            ),
            (
                ProofState::Failed(failed),
                "rules suffice, of-another",
                true,
            ),
            (
                ProofState::Strayed(vec![("green-low".to_owned(), "of-another".to_owned())]),
                "Attempts of the guide that it keeps do not come out as it says: green-low \
                 (of-another).",
                true,
            ),
            (ProofState::Partial, "of level 6", true),
            (ProofState::Broken, "was changed after", true),
            (ProofState::Missing, "No proof is kept", true),
        ];
        for (state, part, closed) in cases {
            let told = proof_told(&words, &state);
            assert!(told.contains(part), "{told}");
            let refusal = exam_closed(&words, &state, "a/b.ron");
            assert_eq!(refusal.is_some(), closed, "{state:?}");
            if let Some(refusal) = refusal {
                assert!(refusal.contains(&told), "{refusal}");
                assert!(refusal.contains("\nrackproof prove a/b.ron"), "{refusal}");
            }
        }
        assert_eq!(words.faults(), [""; 0]);
    }
}
