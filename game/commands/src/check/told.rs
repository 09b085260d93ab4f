//! What `check` says.

use std::io;

use rackproof_attempt::ProofState;
use rackproof_files::Problem;
use rackproof_phrases::{problem_json, proof_told};
use rackproof_words::{Arg, Words};

use super::{Checked, Drill};
use crate::{lines::wrapped, problems::write_problems, reason::reason};

/// A path, and why it cannot be read.
pub(super) type Unread = (String, io::Error);

/// Says it to a person.
pub(super) fn write_text(
    checked: &[Checked],
    (problems, drills): (&[Problem], &[Drill]),
    unread: &[Unread],
    out: &mut dyn io::Write,
    words: &Words,
) -> io::Result<()> {
    write_problems(out, words, problems)?;
    for (path, error) in unread {
        let arguments = [
            ("path", Arg::from(path.as_str())),
            ("reason", reason(error)),
        ];
        let said = words.say("file-not-read", &arguments);
        write!(out, "{}", wrapped("", 0, &said))?;
    }
    let count = |list: usize| Arg::Number(i64::try_from(list).unwrap_or(i64::MAX));
    for one in checked.iter().filter(|one| !one.kind.is_empty()) {
        let id = match one.site_words {
            0 => format!("check-read-{}", one.kind.to_lowercase()),
            _ => "check-read-machine-words".to_owned(),
        };
        let arguments = [
            ("path", Arg::from(one.file.as_str())),
            ("words", count(one.site_words)),
        ];
        write!(out, "{}", wrapped("", 0, &words.say(&id, &arguments)))?;
    }
    for drill in drills {
        let id = match drill.proof {
            ProofState::Proved(_) => "check-proof",
            _ => "check-proof-renew",
        };
        let arguments = [
            ("path", Arg::from(drill.file.as_str())),
            ("state", Arg::from(proof_told(words, &drill.proof))),
        ];
        write!(out, "{}", wrapped("", 0, &words.say(id, &arguments)))?;
    }
    let files = ("files", count(checked.len()));
    let wrong = problems.len() + unread.len();
    let summary = match (checked.len(), wrong) {
        (0, 0) => words.say("check-no-file", &[]),
        (_, 0) => words.say("check-nothing-wrong", &[files]),
        _ => words.say("check-problems", &[files, ("problems", count(wrong))]),
    };
    writeln!(out, "{summary}")
}

/// Says it to a program.
pub(super) fn write_json(
    checked: &[Checked],
    (problems, drills): (&[Problem], &[Drill]),
    unread: &[Unread],
    good: bool,
    out: &mut dyn io::Write,
    words: &Words,
) -> io::Result<()> {
    let files: Vec<_> = checked
        .iter()
        .map(|one| {
            let kind = one.kind.to_lowercase();
            serde_json::json!({ "file": one.file, "kind": kind, "site_words": one.site_words })
        })
        .collect();
    let problems: Vec<_> = problems
        .iter()
        .map(|one| problem_json(words, one))
        .collect();
    let unread: Vec<_> = unread
        .iter()
        .map(|(file, error)| serde_json::json!({ "file": file, "reason": error.to_string() }))
        .collect();
    let proofs: Vec<_> = drills
        .iter()
        .map(|one| {
            serde_json::json!({
                "file": one.file, "state": state_name(&one.proof),
                "told": proof_told(words, &one.proof),
            })
        })
        .collect();
    let answer = serde_json::json!({
        "good": good, "files": files, "problems": problems, "unread": unread, "proofs": proofs,
    });
    writeln!(out, "{answer:#}")
}

fn state_name(state: &ProofState) -> &'static str {
    match state {
        ProofState::Proved(_) => "proved",
        ProofState::Partial => "partial",
        ProofState::Stale(_) | ProofState::Strayed(_) => "stale",
        ProofState::Failed(_) => "failed",
        ProofState::Broken => "broken",
        ProofState::Missing => "missing",
    }
}
