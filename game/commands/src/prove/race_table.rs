//! The race table, as a trainer reads it.

use std::io::{self, Write};

use rackproof_library::Loaded;
use rackproof_words::{Arg, Words};

use super::{claims::Proof, keep::kinds_of, races::SOURCES};
use crate::lines::wrapped;

/// How each source of decisive moments is called.
const NAMES: [&str; SOURCES.len()] = [
    "prove-decisive-lift",
    "prove-decisive-rails",
    "prove-decisive-belts",
    "prove-decisive-upstream",
];

/// Which timers ran at once, and where a moment decides. `open`: the searches were ended before
/// their time, and only what was met by then is known.
pub(super) fn write(
    (drill, proof, open): (&Loaded, &Proof, bool),
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    let races = &proof.races;
    if open && races.pairs.is_empty() {
        return Ok(());
    }
    writeln!(out)?;
    writeln!(out, "{}", words.say("prove-races", &[]))?;
    for (&(one, other), &states) in &races.pairs {
        let arguments = [
            ("one", Arg::from(one.name())),
            ("other", Arg::from(other.name())),
            ("states", Arg::from(states as i64)),
        ];
        let declared = drill.exercise.drill.races.contains(&(one, other));
        let id = if declared {
            "prove-race"
        } else {
            "prove-race-undeclared"
        };
        write!(out, "{}", wrapped("  ", 4, &words.say(id, &arguments)))?;
    }
    if open {
        return Ok(());
    }
    if races.pairs.is_empty() {
        write!(
            out,
            "{}",
            wrapped("  ", 4, &words.say("prove-race-none", &[]))
        )?;
    }
    for pair in &drill.exercise.drill.races {
        if !races.pairs.contains_key(pair) {
            let arguments = [
                ("one", Arg::from(pair.0.name())),
                ("other", Arg::from(pair.1.name())),
            ];
            write!(
                out,
                "{}",
                wrapped("  ", 4, &words.say("prove-race-unmet", &arguments))
            )?;
        }
    }
    writeln!(out)?;
    writeln!(out, "{}", words.say("prove-decisive", &[]))?;
    for (source, moments) in NAMES.iter().zip(&races.moments) {
        let kinds: Vec<&str> = kinds_of(moments.by).collect();
        let source = words.say(source, &[]);
        let arguments = [
            ("source", Arg::from(source)),
            ("states", Arg::from(moments.states as i64)),
            ("most", Arg::from(moments.most as i64)),
            ("list", Arg::from(kinds.join(", "))),
        ];
        let id = match (moments.states, kinds.is_empty()) {
            (0, _) => "prove-decisive-none",
            (_, true) => "prove-decisive-chance",
            _ => "prove-decisive-line",
        };
        write!(out, "{}", wrapped("  ", 4, &words.say(id, &arguments)))?;
    }
    Ok(())
}
