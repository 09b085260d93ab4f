//! A kept proof is told in place of one that would be made.

use std::io::{self, Write};

use rackproof_attempt::{Proof as Kept, Text};
use rackproof_files::Problems;
use rackproof_library::Loaded;
use rackproof_words::{Arg, Words};

use super::{
    Arguments,
    head::write_scope,
    json::{Origin, json, nothing},
    kept::from_kept,
    level::Level,
    report::write_claims,
    ways::write_shown,
    written::Written,
};
use crate::{Exit, lines::paragraph};

/// Says what a kept proof said, if it is one of this program. It is not replaced by one that shows
/// less, though it was asked for again.
pub(super) fn tell(
    drill: &Loaded,
    kept: Option<&Text>,
    (arguments, level): (&Arguments, Level),
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<Option<Exit>> {
    let problems = Problems::new();
    let read = |text: &Text| Kept::read(problems.for_file(&text.file, &text.text));
    let proof = kept
        .and_then(read)
        .and_then(|kept| from_kept(drill, &kept))
        // What merged more than is asked for now shows less.
        .filter(|proof| proof.level <= level);
    let (Some(proof), Some(kept)) = (proof, kept) else {
        return Ok(None);
    };
    let number = |level: Level| Arg::from(i64::from(level.number()));
    let path = ("path", Arg::from(kept.file.as_str()));
    if arguments.again {
        if proof.level == level {
            return Ok(None);
        }
        let told = [
            ("level", number(level)),
            ("kept", number(proof.level)),
            path,
        ];
        let said = words.say("prove-kept-more", &told);
        if arguments.json {
            let name = drill.exercise.drill.id.as_str();
            writeln!(out, "{}", nothing(name, &said))?;
        } else {
            paragraph(out, &said)?;
        }
        return Ok(Some(Exit::WrongUse));
    }
    let (mut nowhere, mut written) = (io::sink(), Written::default());
    if !arguments.json {
        let told = [("drill", Arg::from(drill.exercise.drill.id.as_str())), path];
        paragraph(out, &words.say("prove-kept", &told))?;
        let mut sizes: Vec<u8> = proof.kept.iter().map(|one| one.slots).collect();
        sizes.dedup();
        let all: Vec<usize> = (0..drill.exercise.drill.variants.len()).collect();
        write_scope(drill, (&sizes, proof.level), &all, out, words)?;
        write_claims(drill, &proof, false, out, words)?;
    }
    if let Some(folder) = &arguments.ways {
        let beside: &mut dyn Write = if arguments.json { &mut nowhere } else { out };
        write_shown(drill, &proof, folder, (beside, &mut written), words)?;
    }
    if arguments.json {
        let told = json(drill, &proof, (Origin::Kept, &written), words);
        writeln!(out, "{told}")?;
    }
    let all = written.failed.is_empty();
    Ok(Some(if all { Exit::Done } else { Exit::No }))
}
