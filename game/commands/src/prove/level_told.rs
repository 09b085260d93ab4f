//! What a report says of its level: what was merged, and which claims it cannot show.

use std::io::{self, Write};

use rackproof_grade::Judged;
use rackproof_library::Loaded;
use rackproof_words::{Arg, Words};

use super::{claims::Proof, level::Level};
use crate::lines::wrapped;

/// Claims that an over-approximation cannot show.
const NOT_BY_UNORDERED: [&str; 11] = [
    "fair-start",
    "no-corner",
    "machine",
    "races",
    "guide",
    "congruent",
    "milestones",
    "harms",
    "needed",
    "traps",
    "offers",
];

/// How much is merged, and what that means.
pub(super) fn write_level(
    drill: &Loaded,
    level: Level,
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    let squeezes = |judged: Judged| judged.squeezed().squeezes();
    let forgets = |judged: Judged| judged.unordered().is_unordered();
    let id = match level {
        Level::Exact => "prove-level-exact",
        Level::Squeezed if drill.exercise.judged(0).is_some_and(squeezes) => "prove-level-squeezed",
        Level::Squeezed => "prove-level-faults",
        Level::Unordered if drill.exercise.judged(0).is_some_and(forgets) => {
            "prove-level-unordered"
        }
        Level::Unordered => "prove-level-ordered",
    };
    write!(out, "{}", wrapped("", 0, &words.say(id, &[])))
}

/// The claims of other levels, by name: level 6 cannot show them.
pub(super) fn not_asked(proof: &Proof) -> Vec<&'static str> {
    match proof.level {
        Level::Exact | Level::Squeezed => Vec::new(),
        Level::Unordered => NOT_BY_UNORDERED.to_vec(),
    }
}

/// Says of which claims a level shows nothing, if there are any.
pub(super) fn write_not_asked(proof: &Proof, out: &mut dyn Write, words: &Words) -> io::Result<()> {
    let claims = not_asked(proof);
    if claims.is_empty() {
        return Ok(());
    }
    let name = |claim: &&str| {
        let said = words.say(&format!("prove-claim-{claim}"), &[]);
        said.split(':').next().unwrap_or(claim).to_lowercase()
    };
    let names = claims.iter().map(name).collect::<Vec<_>>().join(", ");
    let told = words.say("prove-not-asked", &[("claims", Arg::from(names))]);
    write!(out, "{}", wrapped("", 0, &told))
}
