//! What a report says of its level: what was merged, and which claims it cannot show.

use std::io::{self, Write};

use rackproof_grade::Judged;
use rackproof_library::Loaded;
use rackproof_words::{Arg, Words};

use super::{claim_list::not_asked, claims::Proof, forms::write_outside, level::Level};
use crate::lines::paragraph;

/// How much is merged, and what that means, and which rules keep something from being merged.
pub(super) fn write_level(
    drill: &Loaded,
    level: Level,
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    let squeezes = |judged: Judged| judged.squeezed().squeezes();
    let id = match level {
        Level::Exact => "prove-level-exact",
        Level::Squeezed if drill.exercise.judged(0).is_some_and(squeezes) => "prove-level-squeezed",
        Level::Squeezed => "prove-level-faults",
        Level::Unordered if forgets_order(drill, level) => "prove-level-unordered",
        Level::Unordered => "prove-level-ordered",
    };
    paragraph(out, &words.say(id, &[]))?;
    write_outside(drill, out, words)
}

/// Whether the order of slots is forgotten: then how many are left as not sure has no bound.
pub(super) fn forgets_order(drill: &Loaded, level: Level) -> bool {
    let forgets = |judged: Judged| judged.unordered().is_unordered();
    level == Level::Unordered && drill.exercise.judged(0).is_some_and(forgets)
}

/// Says of which claims a level shows nothing, if there are any.
pub(super) fn write_not_asked(proof: &Proof, out: &mut dyn Write, words: &Words) -> io::Result<()> {
    let claims = not_asked(proof);
    if claims.is_empty() {
        return Ok(());
    }
    let name = |id: &&str| {
        let said = words.say(id, &[]);
        said.split(':').next().unwrap_or(id).to_lowercase()
    };
    let names = claims.iter().map(name).collect::<Vec<_>>().join(", ");
    let told = words.say("prove-not-asked", &[("claims", Arg::from(names))]);
    paragraph(out, &told)
}
