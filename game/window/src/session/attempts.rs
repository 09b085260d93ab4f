//! What was played before: the attempts in the current folder.

use std::{
    fs,
    path::{Path, PathBuf},
};

use rackproof_attempt::{Kept, PlayedAs, Reading, read_attempt};
use rackproof_files::Problems;
use rackproof_grade::Verdict;
use rackproof_library::files_in;

/// How many attempts are read at most, the newest by number.
const ATTEMPTS_MOST: usize = 40;

/// What became of a kept attempt.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Became {
    /// It passed.
    Passed,
    /// It failed.
    Failed,
    /// It has no end, or cannot be graded by this program.
    Open,
}

/// A kept attempt.
#[derive(Clone, Debug)]
pub struct KeptAttempt {
    /// Its file.
    pub path: PathBuf,
    /// How it was played.
    pub mode: PlayedAs,
    /// What became of it.
    pub became: Became,
    /// The job was reported: the attempt was gone through to its end.
    pub reported: bool,
}

/// The attempts at a drill that lie in a folder, newest first. What is no attempt is left out.
pub fn attempts_in(folder: &Path, drill: &str) -> Vec<KeptAttempt> {
    let Ok(mut files) = files_in(folder, "attempt") else {
        return Vec::new();
    };
    files.retain(|file| file.parent().is_none_or(|parent| parent == folder));
    // The number at the end counts up.
    files.sort_by_key(|file| (file.as_os_str().len(), file.clone()));
    files
        .into_iter()
        .rev()
        .take(ATTEMPTS_MOST)
        .filter_map(|path| read(path, drill))
        .collect()
}

fn read(path: PathBuf, drill: &str) -> Option<KeptAttempt> {
    let bytes = fs::read(&path).ok()?;
    let (kept, ended) = match read_attempt(&bytes) {
        Reading::Whole(kept) => (kept, true),
        Reading::CutOff(Some(kept)) => (kept, false),
        _ => return None,
    };
    (kept.header.drill == drill).then(|| {
        let (became, reported) = if ended {
            end_of(&kept)
        } else {
            (Became::Open, false)
        };
        KeptAttempt {
            became,
            reported,
            mode: kept.header.mode,
            path,
        }
    })
}

/// What became of an attempt that has its end, and whether the job was reported.
fn end_of(kept: &Kept) -> (Became, bool) {
    let rebuilt = kept.rebuild(&Problems::new());
    let Some(rebuilt) = rebuilt.filter(|rebuilt| rebuilt.difference.is_none()) else {
        return (Became::Open, false);
    };
    let became = match rebuilt.attempt.grade(&rebuilt.exercise).verdict {
        Verdict::Passed => Became::Passed,
        Verdict::Failed => Became::Failed,
        Verdict::NotEnded => Became::Open,
    };
    (became, rebuilt.attempt.state().world.person.reported)
}
