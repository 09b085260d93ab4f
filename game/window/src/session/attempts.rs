//! What was played before: the attempts in the current folder.

use std::{
    fs,
    path::{Path, PathBuf},
};

use rackproof_attempt::{Kept, Material, PlayedAs, Reading, read_attempt};
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
    /// The job was reported: the attempt was gone through to its end.
    pub reported: bool,
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
        match review_of(&path, self.drill().material.as_ref(), &self.words) {
            Ok(review) => self.show(Screen::Review(Box::new(review))),
            Err(why) => {
                let arguments = [("file", Arg::from(name_of(&path)))];
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
    Ok(Review::new(exercise, &attempt, path.to_owned(), how, words))
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
