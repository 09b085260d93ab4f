//! What a proof leaves on the disk: itself beside its drill, and attempts.

use std::{
    io::{self, Write},
    path::{Path, PathBuf},
};

use rackproof_library::{Loaded, keep_proof, shown};
use rackproof_words::{Arg, Words};

use super::{Arguments, claims::Proof, keep::to_keep, ways, written::Written};
use crate::lines::paragraph;

/// Why no proof is kept.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum WhyNot {
    /// Somebody ended the searches before their time.
    Ended,
    /// A search stopped at a bound that somebody asked for.
    Bounded,
    /// Not the whole drill was searched.
    Part,
}

/// Keeps what is to be kept, and says where; gives what was written. Attempts that break a claim go
/// to the folder that was asked for, else beside a drill that was proved whole.
pub(super) fn leave(
    (drill, proof): (&Loaded, &Proof),
    why_not: Option<WhyNot>,
    arguments: &Arguments,
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<Written> {
    let mut written = Written::default();
    match why_not {
        // It is said at the end of the claims that nothing is kept.
        Some(WhyNot::Ended) => {}
        Some(WhyNot::Bounded) => paragraph(out, &words.say("prove-not-written-bounded", &[]))?,
        Some(WhyNot::Part) => paragraph(out, &words.say("prove-not-written", &[]))?,
        None => keep((drill, proof), (out, &mut written), words)?,
    }
    let beside = PathBuf::from(&drill.material.drill.file);
    let is_whole = proof.whole && !arguments.small;
    let beside = beside.parent().map(Path::to_owned).filter(|_| is_whole);
    if let Some(folder) = arguments.ways.clone().or(beside) {
        ways::write(drill, proof, &folder, (out, &mut written), words)?;
    }
    if let Some(folder) = &arguments.ways {
        ways::write_shown(drill, proof, folder, (out, &mut written), words)?;
    }
    Ok(written)
}

/// Keeps a proof beside its drill, and says where.
pub(super) fn keep(
    (drill, proof): (&Loaded, &Proof),
    (out, written): (&mut dyn Write, &mut Written),
    words: &Words,
) -> io::Result<()> {
    let path = Path::new(&drill.material.drill.file);
    let told = match keep_proof(path, &to_keep(drill, proof)) {
        Ok(path) => {
            let path = shown(&path);
            written.proof = Some(path.clone());
            let id = if proof.holds() {
                "prove-written"
            } else {
                "prove-written-failed"
            };
            words.say(id, &[("path", Arg::from(path))])
        }
        Err((path, error)) => written.fail(&path, &error, words),
    };
    paragraph(out, &told)
}
