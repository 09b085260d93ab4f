//! `play`: a drill as a dialog in the terminal, or a journal played to a kept attempt.

mod dialog;
mod looks;
mod menu;
mod next;
mod screen;
mod sheet;
pub(crate) mod typed;

use std::{
    fs::{File, OpenOptions},
    hash::{BuildHasher, Hasher, RandomState},
    io::{self, BufRead, Seek, SeekFrom, Write},
    path::{Path, PathBuf},
};

use clap::ValueEnum;
use rackproof_attempt::{
    Attempt, Journal, Kept, PlayedAs, Reading, Recorder, journal_drill, read_attempt,
};
use rackproof_files::Problems;
use rackproof_words::{Arg, Words};

use rackproof_library::{FIRST_DRILL, Loaded, drill, load, new_attempt, read_text, shown};
use rackproof_phrases::{exam_closed, site_words};

use crate::{
    Answer, Exit,
    lines::wrapped,
    names::{no_drill, unknown},
    problems::write_problems,
    reason::reason,
};

use dialog::Dialog;

#[derive(Debug, Default, clap::Args)]
pub(crate) struct Arguments {
    #[arg(value_name = "DRILL")]
    drill: Option<String>,
    #[arg(long, value_name = "NAME", conflicts_with_all = ["journal", "resume"])]
    variant: Option<String>,
    #[arg(long, value_name = "FILE")]
    journal: Option<PathBuf>,
    #[arg(long, value_name = "ATTEMPT", conflicts_with = "resume")]
    out: Option<PathBuf>,
    #[arg(long, value_name = "MODE", conflicts_with = "resume")]
    mode: Option<Mode>,
    #[arg(long, value_name = "ATTEMPT", conflicts_with_all = ["journal", "drill"])]
    resume: Option<PathBuf>,
    #[arg(long)]
    plain_words: bool,
}

impl Arguments {
    /// A drill by its file or name, else the first, as it is played when nothing else is said.
    pub(crate) fn of(drill: Option<String>) -> Arguments {
        Arguments {
            drill,
            ..Arguments::default()
        }
    }
}

#[derive(Clone, Copy, Debug, ValueEnum)]
enum Mode {
    Practice,
    Guided,
    Exam,
}

/// What a command says and where.
struct Ways<'w> {
    out: &'w mut dyn Write,
    words: &'w Words,
}

impl Ways<'_> {
    fn tell(&mut self, id: &str, arguments: &[(&str, Arg<'_>)]) -> io::Result<()> {
        self.row(&self.words.say(id, arguments))
    }

    fn row(&mut self, said: &str) -> io::Result<()> {
        write!(self.out, "{}", wrapped("", 0, said))
    }

    fn unread(&mut self, path: &str, error: &io::Error) -> Answer {
        let reason = reason(error);
        self.tell(
            "file-not-read",
            &[("path", Arg::from(path)), ("reason", reason)],
        )?;
        Ok(Exit::No)
    }

    fn unwritten(&mut self, path: &Path, error: &io::Error) -> Answer {
        if error.kind() == io::ErrorKind::AlreadyExists {
            self.tell("play-out-there", &[("path", Arg::from(shown(path)))])?;
            return Ok(Exit::No);
        }
        let reason = reason(error);
        self.tell(
            "file-not-written",
            &[("path", Arg::from(shown(path))), ("reason", reason)],
        )?;
        Ok(Exit::No)
    }

    fn problems(&mut self, problems: &Problems) -> Answer {
        write_problems(self.out, self.words, &problems.sorted())?;
        let count = Arg::Number(i64::try_from(problems.len()).unwrap_or(i64::MAX));
        self.tell("play-problems", &[("problems", count)])?;
        Ok(Exit::No)
    }
}

/// Plays.
pub(crate) fn run(
    arguments: &Arguments,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
    words: &Words,
) -> Answer {
    let mut ways = Ways { out, words };
    if let Some(path) = &arguments.resume {
        return resume(path, arguments.plain_words, input, &mut ways);
    }
    if let Some(path) = &arguments.journal {
        return play_journal(arguments, path, &mut ways);
    }
    let name = arguments.drill.as_deref().unwrap_or(FIRST_DRILL);
    let problems = Problems::new();
    let loaded = match drill(name, Path::new("here")) {
        Ok(text) => load(text, &problems),
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            let (id, values) = no_drill(name);
            ways.tell(id, &values)?;
            return Ok(Exit::No);
        }
        Err(error) => return ways.unread(name, &error),
    };
    let Some(loaded) = loaded else {
        return ways.problems(&problems);
    };
    let site = site_words(&loaded.exercise.hall, arguments.plain_words);
    ways.words = site.as_ref().unwrap_or(words);
    if arguments.variant.is_some() && mode(arguments) == PlayedAs::Exam {
        ways.tell("play-exam-drawn", &[])?;
        return Ok(Exit::WrongUse);
    }
    let Some(variant) = variant(arguments, &loaded, &mut ways)? else {
        return Ok(Exit::WrongUse);
    };
    let mode = mode(arguments);
    if !may_begin(mode, &loaded, &mut ways)? {
        return Ok(Exit::No);
    }
    let (path, file) = match new_attempt(arguments.out.as_deref(), &loaded.exercise.drill.id) {
        Ok(opened) => opened,
        Err((path, error)) => return ways.unwritten(&path, &error),
    };
    let (material, exercise) = (&loaded.material, &loaded.exercise);
    let begun = Recorder::begin(file, material, exercise, variant, mode, &loaded.proof);
    let (recorder, judged) = match (begun, loaded.exercise.judged(variant)) {
        (Ok(recorder), Some(judged)) => (recorder, judged),
        (Err(error), _) => return ways.unwritten(&path, &error),
        (_, None) => return Ok(Exit::WrongUse),
    };
    let attempt = Attempt::new(judged).with_neighbour();
    Dialog::new(exercise, attempt, recorder, mode, path).play(input, &mut ways)
}

fn mode(arguments: &Arguments) -> PlayedAs {
    match arguments.mode {
        None | Some(Mode::Practice) => PlayedAs::Practice,
        Some(Mode::Guided) => PlayedAs::Guided,
        Some(Mode::Exam) => PlayedAs::Exam,
    }
}

/// Whether a drill may be played so: an exam rests on a proof. If not, it is told.
fn may_begin(mode: PlayedAs, drill: &Loaded, ways: &mut Ways<'_>) -> io::Result<bool> {
    if mode != PlayedAs::Exam {
        return Ok(true);
    }
    let closed = exam_closed(ways.words, &drill.proof, &drill.material.drill.file);
    if let Some(told) = &closed {
        ways.row(told)?;
    }
    Ok(closed.is_none())
}

/// Any number below `count`, which is more than nought: which variant an exam becomes. What was
/// drawn is kept in the attempt, so that nothing rests on how it was drawn.
fn drawn(count: usize) -> usize {
    let number = RandomState::new().build_hasher().finish();
    usize::try_from(number % count.max(1) as u64).unwrap_or(0)
}

/// The number of the variant that was asked for. If none was, the first; in an exam any: whoever
/// knows the first one shows nothing by it. `None` if there is no such variant, which is told.
fn variant(
    arguments: &Arguments,
    loaded: &Loaded,
    ways: &mut Ways<'_>,
) -> io::Result<Option<usize>> {
    let Some(name) = &arguments.variant else {
        return Ok(Some(match mode(arguments) {
            PlayedAs::Exam => drawn(loaded.exercise.drill.variants.len()),
            PlayedAs::Practice | PlayedAs::Guided => 0,
        }));
    };
    let found = loaded.exercise.variant(name);
    if found.is_none() {
        let variants = &loaded.exercise.drill.variants;
        let names = variants.iter().map(|variant| variant.id.as_str());
        let ids = ["play-no-variant", "play-no-variant-near"];
        ways.row(&unknown(ways.words, ids, name, names))?;
    }
    Ok(found)
}

fn play_journal(arguments: &Arguments, path: &Path, ways: &mut Ways<'_>) -> Answer {
    let mode = mode(arguments);
    if mode == PlayedAs::Exam {
        ways.tell("play-exam-no-journal", &[])?;
        return Ok(Exit::WrongUse);
    }
    let text = match read_text(path) {
        Ok(text) => text,
        Err(error) => return ways.unread(&shown(path), &error),
    };
    let problems = Problems::new();
    let report = problems.for_file(&text.file, &text.text);
    let scratch = Problems::new();
    let named = journal_drill(scratch.for_file(&text.file, &text.text));
    let Some(name) = arguments.drill.clone().or(named) else {
        journal_drill(report);
        return ways.problems(&problems);
    };
    let loaded = match drill(&name, path) {
        Ok(text) => load(text, &problems),
        Err(error) => return ways.unread(&name, &error),
    };
    let journal = loaded
        .as_ref()
        .and_then(|loaded| Journal::read(report, &loaded.exercise));
    let (Some(loaded), Some(journal)) = (loaded, journal) else {
        return ways.problems(&problems);
    };
    let Some(judged) = loaded.exercise.judged(journal.variant) else {
        return Ok(Exit::WrongUse);
    };
    let (out, file) = match new_attempt(arguments.out.as_deref(), &loaded.exercise.drill.id) {
        Ok(opened) => opened,
        Err((path, error)) => return ways.unwritten(&path, &error),
    };
    let (exercise, material) = (&loaded.exercise, &loaded.material);
    let (variant, proof) = (journal.variant, &loaded.proof);
    let begun = Recorder::begin(file, material, exercise, variant, mode, proof);
    let mut attempt = Attempt::new(judged);
    let written = begun.and_then(|mut recorder| {
        let mut failed = None;
        let whole = journal.run(&mut attempt, report, &mut |attempt| {
            failed = recorder.catch_up(attempt).err();
            failed.is_none()
        });
        match failed {
            Some(error) => Err(error),
            None if whole => recorder.end(&attempt).map(|_| ()),
            None => Ok(()),
        }
    });
    if let Err(error) = written {
        return ways.unwritten(&out, &error);
    }
    if !problems.is_empty() {
        return ways.problems(&problems);
    }
    let arguments = [
        ("path", Arg::from(shown(&out))),
        (
            "causes",
            Arg::Number(i64::try_from(attempt.done().len()).unwrap_or(i64::MAX)),
        ),
        ("time", Arg::Clock(attempt.at())),
    ];
    ways.tell("play-journal-done", &arguments)?;
    Ok(Exit::Done)
}

/// Goes on with an attempt that was cut off.
fn resume(path: &Path, plain: bool, input: &mut dyn BufRead, ways: &mut Ways<'_>) -> Answer {
    let bytes = match std::fs::read(path) {
        Ok(bytes) => bytes,
        Err(error) => return ways.unread(&shown(path), &error),
    };
    let kept = match read_attempt(&bytes) {
        Reading::CutOff(Some(kept)) if !kept.has_end() => kept,
        other => {
            let id = match other {
                Reading::Whole(_) | Reading::CutOff(Some(_)) => "resume-whole",
                Reading::CutOff(None) => "resume-nothing",
                Reading::Edited(_) => "resume-edited",
                Reading::Foreign(_) => "resume-foreign",
            };
            ways.tell(id, &[("path", Arg::from(shown(path)))])?;
            return Ok(Exit::No);
        }
    };
    let problems = Problems::new();
    let Some(rebuilt) = kept.rebuild(&problems) else {
        return ways.problems(&problems);
    };
    if rebuilt.difference.is_some() {
        ways.tell("resume-differs", &[("path", Arg::from(shown(path)))])?;
        return Ok(Exit::No);
    }
    let recorder = match reopen(path, &kept, &rebuilt.attempt) {
        Ok(recorder) => recorder,
        Err(error) => return ways.unwritten(path, &error),
    };
    let site = site_words(&rebuilt.exercise.hall, plain);
    let words = site.as_ref().unwrap_or(ways.words);
    let mut ways = Ways {
        out: ways.out,
        words,
    };
    let attempt = rebuilt.attempt.with_neighbour();
    let mode = kept.header.mode;
    let dialog = Dialog::new(&rebuilt.exercise, attempt, recorder, mode, path.to_owned());
    dialog.with_notes(&kept.notes).play(input, &mut ways)
}

fn reopen(path: &Path, kept: &Kept, attempt: &Attempt) -> io::Result<Recorder<File>> {
    let mut file = OpenOptions::new().write(true).open(path)?;
    let whole = u64::try_from(kept.whole_bytes()).unwrap_or(u64::MAX);
    file.set_len(whole)?;
    file.seek(SeekFrom::End(0))?;
    Recorder::go_on(file, kept, attempt)
}
