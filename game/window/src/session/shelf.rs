//! What is known of the attempts that lie in folders: each file is read and graded once, for all
//! drills, and again only when it changed.

use std::{
    collections::BTreeMap,
    fs,
    path::{Path, PathBuf},
    time::SystemTime,
};

use rackproof_attempt::{Kept, Material, PlayedAs, Reading, claim_of, read_attempt};
use rackproof_files::Problems;
use rackproof_grade::Verdict;
use rackproof_library::files_in;

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
    /// Somebody went through the attempt to its end and reported the job. No way that a proof found
    /// counts as that.
    pub reported: bool,
    /// A proof found it: it breaks a claim.
    pub claims: bool,
}

/// A kept attempt with the name of its drill.
type Attempt = (String, KeptAttempt);

/// What tells whether a file changed: its length in bytes, and when it was written last.
type Stamp = (u64, Option<SystemTime>);

/// The attempts that were read so far, by file. What is no attempt is remembered as that.
#[derive(Clone, Debug, Default)]
pub(super) struct Shelf {
    known: BTreeMap<PathBuf, (Stamp, Option<Attempt>)>,
}

impl Shelf {
    /// What can be looked at of a drill: its attempts in a folder, newest first, and the ways that
    /// a proof found and left beside the drill.
    pub(super) fn attempts_of(
        &mut self,
        folder: &Path,
        drill: &str,
        material: Option<&Material>,
    ) -> Vec<KeptAttempt> {
        let mut all = self.attempts_in(folder, drill);
        let beside = material.and_then(|texts| Path::new(&texts.drill.file).parent());
        let is_other = |beside: &&Path| beside.is_dir() && !is_same(beside, folder);
        if let Some(beside) = beside.filter(is_other) {
            let found = self.attempts_in(beside, drill).into_iter();
            all.extend(found.filter(|attempt| attempt.claims));
        }
        all
    }

    /// The attempts at a drill that lie in a folder, newest first.
    fn attempts_in(&mut self, folder: &Path, drill: &str) -> Vec<KeptAttempt> {
        let Ok(mut files) = files_in(folder, "attempt") else {
            return Vec::new();
        };
        files.retain(|file| file.parent().is_none_or(|parent| parent == folder));
        // The number at the end counts up.
        files.sort_by_key(|file| (file.as_os_str().len(), file.clone()));
        self.read_all(&files);
        let known = files.iter().rev().filter_map(|file| self.known.get(file));
        let attempts = known.filter_map(|(_, attempt)| attempt.as_ref());
        let of_drill = attempts.filter(|(of, _)| of == drill);
        of_drill.map(|(_, attempt)| attempt.clone()).collect()
    }

    /// Reads those files that are new or changed, side by side: to grade a thousand takes seconds.
    fn read_all(&mut self, files: &[PathBuf]) {
        let changed = |file: &&PathBuf| {
            let known = self.known.get(*file).map(|(stamp, _)| stamp);
            known != stamp_of(file).as_ref()
        };
        let new: Vec<&PathBuf> = files.iter().filter(changed).collect();
        let threads = std::thread::available_parallelism().map_or(1, usize::from);
        let share = new.len().div_ceil(threads).max(1);
        let found: Vec<_> = std::thread::scope(|scope| {
            let shares = new.chunks(share);
            let begun: Vec<_> = shares
                .map(|files| scope.spawn(|| files.iter().map(|file| look_at(file)).collect()))
                .collect();
            let done = begun.into_iter().map(|one| one.join().unwrap_or_default());
            done.collect::<Vec<Vec<_>>>()
        });
        let found = found.into_iter().flatten().flatten();
        self.known
            .extend(found.map(|(path, stamp, attempt)| (path, (stamp, attempt))));
    }
}

fn is_same(one: &Path, other: &Path) -> bool {
    let whole = |path: &Path| path.canonicalize().ok();
    whole(one) == whole(other)
}

fn stamp_of(file: &Path) -> Option<Stamp> {
    let about = fs::metadata(file).ok()?;
    Some((about.len(), about.modified().ok()))
}

/// A file as it is now. The stamp comes first: what is written meanwhile is read the next time.
fn look_at(file: &Path) -> Option<(PathBuf, Stamp, Option<Attempt>)> {
    let stamp = stamp_of(file)?;
    Some((file.to_owned(), stamp, read(file)))
}

fn read(path: &Path) -> Option<Attempt> {
    let bytes = fs::read(path).ok()?;
    let (kept, ended) = match read_attempt(&bytes) {
        Reading::Whole(kept) => (kept, true),
        Reading::CutOff(Some(kept)) => (kept, false),
        _ => return None,
    };
    let (became, reported) = if ended {
        end_of(&kept)
    } else {
        (Became::Open, false)
    };
    let claims = kept.notes.iter().any(|note| claim_of(note).is_some());
    let attempt = KeptAttempt {
        became,
        reported: reported && !claims,
        claims,
        mode: kept.header.mode,
        path: path.to_owned(),
    };
    Some((kept.header.drill, attempt))
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
