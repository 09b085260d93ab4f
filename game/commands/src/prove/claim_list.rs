//! The one list of what a proof claims.

use super::{claims::Proof, level::Level};

/// A claim: the id of its message, whether an over-approximation can show it, and whether it holds;
/// `None` where the searches did not ask for it.
struct Claim {
    id: &'static str,
    by_unordered: bool,
    holds: fn(&Proof) -> Option<bool>,
}

/// In the order in which a report tells of them.
const CLAIMS: [Claim; 13] = [
    Claim {
        id: "prove-claim-rules-suffice",
        by_unordered: true,
        holds: |proof| Some(proof.rules_suffice() && proof.complete()),
    },
    Claim {
        id: "prove-claim-fair",
        by_unordered: true,
        holds: |proof| Some(proof.fair() && proof.complete()),
    },
    exact("prove-claim-fair-start", |proof| Some(proof.fair_start())),
    exact("prove-claim-no-corner", |proof| {
        Some(proof.no_corner() && proof.complete())
    }),
    exact("prove-claim-machine", |proof| Some(proof.machine_keeps())),
    exact("prove-claim-races", |proof| Some(proof.races_declared())),
    exact("prove-claim-guide", |proof| Some(proof.guide_finishes())),
    exact("prove-claim-congruent", |proof| Some(proof.congruent())),
    exact("prove-claim-milestones", |proof| {
        proof.whole.then(|| proof.milestones_met())
    }),
    exact("prove-claim-harms", |proof| {
        proof.whole.then(|| proof.harms_reached())
    }),
    exact("prove-claim-needed", |proof| {
        proof.vacuity.as_ref().map(|one| one.rules_count())
    }),
    exact("prove-claim-traps", |proof| {
        proof.vacuity.as_ref().map(|one| one.traps_live())
    }),
    exact("prove-claim-offers", |proof| {
        proof.vacuity.as_ref().map(|one| one.offers_allowed())
    }),
];

/// A claim that an over-approximation cannot show.
const fn exact(id: &'static str, holds: fn(&Proof) -> Option<bool>) -> Claim {
    Claim {
        id,
        by_unordered: false,
        holds,
    }
}

/// The claims that this proof makes, by the ids of their messages, with their verdicts.
pub(super) fn claims(proof: &Proof) -> Vec<(&'static str, bool)> {
    let asked = |claim: &&Claim| proof.level != Level::Unordered || claim.by_unordered;
    let verdict = |claim: &Claim| Some((claim.id, (claim.holds)(proof)?));
    CLAIMS.iter().filter(asked).filter_map(verdict).collect()
}

/// The claims that the level of this proof cannot show, by the ids of their messages.
pub(super) fn not_asked(proof: &Proof) -> Vec<&'static str> {
    let hidden = |claim: &&Claim| proof.level == Level::Unordered && !claim.by_unordered;
    CLAIMS.iter().filter(hidden).map(|claim| claim.id).collect()
}
