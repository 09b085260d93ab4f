//! What was played before: the attempts in the current folder.

use std::{
    fs,
    path::{Path, PathBuf},
};

use rackproof_attempt::{Kept, Material, PlayedAs, Reading, claim_of, read_attempt};
use rackproof_files::Problems;
use rackproof_grade::Verdict;
use rackproof_library::files_in;
use rackproof_words::{Arg, Words};

use super::{Review, Screen, Session, way_of};

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
    /// Somebody went through the attempt to its end and reported the job. No way that a proof found
    /// counts as that.
    pub reported: bool,
    /// A proof found it: it breaks a claim.
    pub claims: bool,
}

/// The name of an attempt's file.
pub fn name_of(path: &Path) -> String {
    path.file_name()
        .unwrap_or_default()
        .to_string_lossy()
        .into_owned()
}

impl Session {
    /// What was played of the chosen drill before, newest first.
    pub fn attempts(&self) -> &[KeptAttempt] {
        &self.drill().attempts
    }

    /// Shows the debrief of a kept attempt of the chosen drill. One that this program cannot play
    /// again, or that was played with other files, is not shown: hall and words would be those of
    /// today.
    pub(super) fn open_attempt(&mut self, number: usize) {
        let on_course = matches!(self.screen, Screen::Course);
        let Some(kept) = self.attempts().get(number).filter(|_| on_course) else {
            return;
        };
        let path = kept.path.clone();
        self.debrief(&path);
    }

    /// Shows the debrief of an attempt at the chosen drill, or says why there is none.
    pub fn debrief(&mut self, path: &Path) {
        match review_of(path, self.drill().material.as_ref(), &self.words) {
            Ok(review) => self.show(Screen::Review(Box::new(review))),
            Err(why) => {
                let arguments = [("file", Arg::from(name_of(path)))];
                self.trouble = Some(self.words.say(why, &arguments));
                self.over = None;
            }
        }
    }
}

/// The debrief of an attempt, or the id of why there is none.
fn review_of(path: &Path, now: Option<&Material>, words: &Words) -> Result<Review, &'static str> {
    let unread = "course-attempt-unread";
    let kept = match fs::read(path).map(|bytes| read_attempt(&bytes)) {
        Ok(Reading::Whole(kept) | Reading::CutOff(Some(kept))) => kept,
        _ => return Err(unread),
    };
    let texts = |of: &Material| {
        let Material {
            machine,
            drill,
            rules,
            procedure,
        } = of.clone();
        [machine, drill, rules, procedure].map(|text| text.text)
    };
    if now.map(texts) != Some(texts(&kept.header.material)) {
        return Err("course-attempt-other");
    }
    let rebuilt = kept.rebuild(&Problems::new());
    let rebuilt = rebuilt.filter(|rebuilt| rebuilt.difference.is_none());
    let rebuilt = rebuilt.ok_or(unread)?;
    let how = (way_of(kept.header.mode), kept.header.number);
    let (exercise, attempt) = (rebuilt.exercise, rebuilt.attempt);
    let file = (path.to_owned(), kept.notes.as_slice());
    Ok(Review::new(exercise, &attempt, file, how, words))
}

/// What can be looked at of a drill: its attempts in a folder, newest first, and the ways that a
/// proof found and left beside the drill.
pub(super) fn attempts_of(
    folder: &Path,
    drill: &str,
    material: Option<&Material>,
) -> Vec<KeptAttempt> {
    let mut all = attempts_in(folder, drill);
    let beside = material.and_then(|texts| Path::new(&texts.drill.file).parent());
    let is_other = |beside: &&Path| beside.is_dir() && !is_same(beside, folder);
    if let Some(beside) = beside.filter(is_other) {
        let found = attempts_in(beside, drill).into_iter();
        all.extend(found.filter(|attempt| attempt.claims));
    }
    all
}

fn is_same(one: &Path, other: &Path) -> bool {
    let whole = |path: &Path| path.canonicalize().ok();
    whole(one) == whole(other)
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
        let claims = kept.notes.iter().any(|note| claim_of(note).is_some());
        KeptAttempt {
            became,
            reported: reported && !claims,
            claims,
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
