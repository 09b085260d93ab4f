//! The one list of what a proof claims, and what is known of each claim.

use super::{claims::Proof, keep::claim_name, level::Level};

/// A claim: the id of its message, that of what to mend where it fails, whether an
/// over-approximation can show it, what it rests on, and whether nothing was found that speaks
/// against it; `None` where the searches did not ask for it.
struct Claim {
    id: &'static str,
    mend: &'static str,
    by_unordered: bool,
    rests: Rests,
    holds: fn(&Proof) -> Option<bool>,
}

/// What must have come to its end before a claim is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Rests {
    /// The guide's runs, which come first and are always done.
    Guide,
    /// The searches with the rules kept.
    Kept,
    /// All searches.
    All,
    /// Searches that have bounds of their own: only their being ended leaves it open.
    Own,
}

/// What is known of a claim.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Verdict {
    /// It holds, within the bounds.
    Holds,
    /// It does not.
    Fails,
    /// What would tell was not searched to its end, or the level cannot tell.
    Open,
}

/// In the order in which a report tells of them.
const CLAIMS: [Claim; 15] = [
    Claim {
        id: "prove-claim-rules-suffice",
        mend: "prove-mend-rules-suffice",
        by_unordered: true,
        rests: Rests::Kept,
        holds: |proof| Some(proof.rules_suffice()),
    },
    Claim {
        id: "prove-claim-fair",
        mend: "prove-mend-fair",
        by_unordered: true,
        rests: Rests::Kept,
        holds: |proof| Some(proof.fair()),
    },
    exact(
        "prove-claim-sound",
        "prove-mend-sound",
        Rests::Kept,
        |proof| Some(proof.sound()),
    ),
    exact(
        "prove-claim-fair-start",
        "prove-mend-fair-start",
        Rests::Kept,
        |proof| Some(proof.fair_start()),
    ),
    exact(
        "prove-claim-no-corner",
        "prove-mend-no-corner",
        Rests::Kept,
        |proof| Some(proof.no_corner()),
    ),
    exact(
        "prove-claim-machine",
        "prove-mend-machine",
        Rests::All,
        |proof| Some(proof.machine_keeps()),
    ),
    exact(
        "prove-claim-races",
        "prove-mend-races",
        Rests::All,
        |proof| Some(proof.races_declared()),
    ),
    exact(
        "prove-claim-guide",
        "prove-mend-guide",
        Rests::Guide,
        |proof| Some(proof.guide_finishes()),
    ),
    exact(
        "prove-claim-congruent",
        "prove-mend-congruent",
        Rests::All,
        |proof| Some(proof.congruent()),
    ),
    exact(
        "prove-claim-milestones",
        "prove-mend-milestones",
        Rests::Guide,
        |proof| proof.whole.then(|| proof.milestones_met()),
    ),
    exact(
        "prove-claim-harms",
        "prove-mend-harms",
        Rests::Own,
        |proof| proof.whole.then(|| proof.harms_reached()),
    ),
    exact(
        "prove-claim-needed",
        "prove-mend-needed",
        Rests::All,
        |proof| proof.vacuity.as_ref().map(|one| one.rules_count()),
    ),
    exact(
        "prove-claim-traps",
        "prove-mend-traps",
        Rests::Own,
        |proof| proof.vacuity.as_ref().map(|one| one.traps_live()),
    ),
    exact(
        "prove-claim-offers",
        "prove-mend-offers",
        Rests::All,
        |proof| proof.vacuity.as_ref().map(|one| one.offers_allowed()),
    ),
    exact(
        "prove-claim-choices",
        "prove-mend-choices",
        Rests::Kept,
        |proof| proof.vacuity.as_ref().map(|one| one.choices_come_up()),
    ),
];

/// A claim that an over-approximation cannot show.
const fn exact(
    id: &'static str,
    mend: &'static str,
    rests: Rests,
    holds: fn(&Proof) -> Option<bool>,
) -> Claim {
    Claim {
        id,
        mend,
        by_unordered: false,
        rests,
        holds,
    }
}

impl Claim {
    /// What is known of it. `ended`: the searches were ended before their time.
    fn verdict(&self, proof: &Proof, ended: bool) -> Option<Verdict> {
        let holds = (self.holds)(proof)?;
        let searched = match self.rests {
            Rests::Guide => true,
            Rests::Kept => proof.complete(),
            Rests::All => proof.complete() && !ended,
            Rests::Own => !ended,
        };
        // What speaks against these is itself what was found, wherever the search ended.
        let by_found = ["prove-claim-races", "prove-claim-congruent"].contains(&self.id);
        let refuted = by_found || proof.breaks(claim_name(self.id));
        Some(match (holds, searched) {
            (true, true) => Verdict::Holds,
            (false, _) if refuted => Verdict::Fails,
            (false, true) if proof.level != Level::Unordered => Verdict::Fails,
            _ => Verdict::Open,
        })
    }
}

/// What is known of each claim that this proof makes, by the ids of their messages. `ended`: the
/// searches were ended before their time.
pub(super) fn verdicts(proof: &Proof, ended: bool) -> Vec<(&'static str, Verdict)> {
    let asked = |claim: &&Claim| proof.level != Level::Unordered || claim.by_unordered;
    let verdict = |claim: &Claim| Some((claim.id, claim.verdict(proof, ended)?));
    CLAIMS.iter().filter(asked).filter_map(verdict).collect()
}

/// The id of what to mend where the claim with this id fails.
pub(super) fn mend_of(id: &str) -> Option<&'static str> {
    CLAIMS
        .iter()
        .find(|claim| claim.id == id)
        .map(|claim| claim.mend)
}

/// The claims that this proof makes, by the ids of their messages, and whether each holds.
pub(super) fn claims(proof: &Proof) -> Vec<(&'static str, bool)> {
    let verdicts = verdicts(proof, false).into_iter();
    verdicts
        .map(|(id, verdict)| (id, verdict == Verdict::Holds))
        .collect()
}

/// The claims that the level of this proof cannot show, by the ids of their messages.
pub(super) fn not_asked(proof: &Proof) -> Vec<&'static str> {
    let hidden = |claim: &&Claim| proof.level == Level::Unordered && !claim.by_unordered;
    CLAIMS.iter().filter(hidden).map(|claim| claim.id).collect()
}

#[cfg(test)]
#[path = "claim_tests.rs"]
mod tests;
