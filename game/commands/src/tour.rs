//! `tour`: the main job shown without a window. Kept journals are played, graded, and drawn at the
//! moments that decide.

use std::{
    fs::{self, OpenOptions},
    io::{self, Write},
    path::{Path, PathBuf},
};

use rackproof_attempt::{Attempt, Journal, PlayedAs, Recorder};
use rackproof_drill::{Outcome, Sign};
use rackproof_files::Problems;
use rackproof_grade::{Grade, JudgedOutcome, Verdict};
use rackproof_library::{Loaded, built_in_drill, load, shown};
use rackproof_phrases::site_words;
use rackproof_words::{Arg, Words};

use crate::{
    Answer, Exit,
    display::{Display, Page, Picture},
    grade::write_grade,
    lines::wrapped,
    open::tell_missing,
    picture::write_new,
    reason::reason,
};

/// The journals that are played: a name, and the text as kept with the tests.
const JOURNALS: &[(&str, &str)] = &[
    (
        "by-hand",
        include_str!("../../../tests/journals/left-inside/by-hand.ron"),
    ),
    (
        "by-clear-out",
        include_str!("../../../tests/journals/left-inside/by-clear-out.ron"),
    ),
    (
        "declared-unseen",
        include_str!("../../../tests/journals/left-inside/declared-unseen.ron"),
    ),
    (
        "sweep-believed",
        include_str!("../../../tests/journals/left-inside/sweep-believed.ron"),
    ),
];

/// Most pictures of one attempt.
const PICTURES_MOST: usize = 5;

/// Width and height of a picture, in pixels.
const SIZE: [u32; 2] = [1280, 720];

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[arg(long, value_name = "FOLDER")]
    out: Option<PathBuf>,
}

/// A journal, played.
struct Played {
    name: &'static str,
    attempt: Attempt,
    grade: Grade,
    moments: Vec<(u64, Page)>,
}

/// Gives the tour. The answer is no if something of it could not be made.
pub(crate) fn run(
    arguments: &Arguments,
    display: Option<&dyn Display>,
    out: &mut dyn Write,
    words: &Words,
) -> Answer {
    let Some(loaded) = load(built_in_drill(), &Problems::new()) else {
        return Ok(Exit::No);
    };
    let folder = match folder(arguments.out.as_deref()) {
        Ok(folder) => folder,
        Err((path, error)) => return unwritten(&path, &error, out, words),
    };
    let site = site_words(&loaded.exercise.hall, false);
    let words = site.as_ref().unwrap_or(words);
    let name = ("folder", Arg::from(shown(&folder)));
    write!(
        out,
        "{}",
        wrapped(
            "",
            0,
            &words.say("tour-begins", std::slice::from_ref(&name))
        )
    )?;
    let mut played = Vec::new();
    for (name, text) in JOURNALS {
        if let Some(one) = play(name, text, &loaded) {
            let path = folder.join(format!("{name}.attempt"));
            if let Err(error) = keep(&one, &loaded, &path) {
                return unwritten(&path, &error, out, words);
            }
            tell(&one, &loaded, &folder, out, words)?;
            played.push(one);
        }
    }
    let exit = draw(&played, &loaded, display, &folder, out, words)?;
    let ended = match exit {
        Exit::Done => "tour-ended",
        Exit::No | Exit::WrongUse => "tour-ended-undrawn",
    };
    write!(out, "\n{}", wrapped("", 0, &words.say(ended, &[name])))?;
    Ok(exit)
}

/// The folder that was asked for, else the first free `rackproof-tour-N`. It must not be there.
fn folder(out: Option<&Path>) -> Result<PathBuf, (PathBuf, io::Error)> {
    if let Some(path) = out {
        return match fs::create_dir(path) {
            Ok(()) => Ok(path.to_owned()),
            Err(error) => Err((path.to_owned(), error)),
        };
    }
    let mut number: u32 = 1;
    loop {
        let path = PathBuf::from(format!("rackproof-tour-{number}"));
        match fs::create_dir(&path) {
            Ok(()) => return Ok(path),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists && number < u32::MAX => {
                number += 1;
            }
            Err(error) => return Err((path, error)),
        }
    }
}

fn unwritten(path: &Path, error: &io::Error, out: &mut dyn Write, words: &Words) -> Answer {
    let reason = ("reason", reason(error));
    let told = words.say(
        "file-not-written",
        &[("path", Arg::from(shown(path))), reason],
    );
    write!(out, "{}", wrapped("", 0, &told))?;
    Ok(Exit::No)
}

fn play(name: &'static str, text: &str, loaded: &Loaded) -> Option<Played> {
    let problems = Problems::new();
    let report = problems.for_file(name, text);
    let journal = Journal::read(report, &loaded.exercise)?;
    let mut attempt = Attempt::new(loaded.exercise.judged(journal.variant)?);
    journal.run(&mut attempt, report, &mut |_| true);
    let grade = attempt.grade(&loaded.exercise);
    let moments = moments(&attempt, &grade);
    Some(Played {
        name,
        attempt,
        grade,
        moments,
    })
}

/// The moments that decide: the first look that showed a board, as it was seen; every breach and
/// every harm, as it was true; and the end.
fn moments(attempt: &Attempt, grade: &Grade) -> Vec<(u64, Page)> {
    let saw = |outcome: &JudgedOutcome| {
        matches!(
            outcome,
            JudgedOutcome::World(Outcome::Sign(Sign::SawBoard { .. }))
        )
    };
    let looked = attempt.heard().iter().find(|heard| saw(&heard.outcome));
    let mut moments: Vec<(u64, Page)> = looked
        .map(|heard| (heard.at, Page::Seen))
        .into_iter()
        .collect();
    let breaches = grade.breaches.iter().map(|breach| breach.moment.at);
    let harms = grade.harms.iter().map(|(moment, _)| moment.at);
    moments.extend(breaches.chain(harms).map(|at| (at, Page::Debrief)));
    moments.sort_by_key(|(at, page)| (*at, *page == Page::Debrief));
    // What comes in the same second is one picture.
    moments.dedup_by_key(|(at, page)| (*at / 1_000_000, *page == Page::Debrief));
    moments.truncate(PICTURES_MOST - 1);
    moments.push((attempt.at(), Page::Debrief));
    moments.dedup_by_key(|(at, page)| (*at / 1_000_000, *page == Page::Debrief));
    moments
}

fn keep(played: &Played, loaded: &Loaded, path: &Path) -> io::Result<()> {
    let file = OpenOptions::new()
        .append(true)
        .create_new(true)
        .open(path)?;
    let variant = loaded
        .exercise
        .variant(&played.attempt.world().variant().id);
    let (material, exercise) = (&loaded.material, &loaded.exercise);
    let variant = variant.unwrap_or_default();
    let mode = PlayedAs::Practice;
    let recorder = Recorder::begin(file, material, exercise, variant, mode, &loaded.proof)?;
    recorder.end(&played.attempt).map(|_| ())
}

fn tell(
    played: &Played,
    loaded: &Loaded,
    folder: &Path,
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    let verdict = match played.grade.verdict {
        Verdict::Passed => "verdict-passed",
        Verdict::Failed => "verdict-failed",
        Verdict::NotEnded => "verdict-not-ended",
    };
    let arguments = [
        ("name", Arg::from(played.name)),
        ("verdict", Arg::from(words.say(verdict, &[]))),
        ("time", Arg::Clock(played.attempt.at())),
    ];
    write!(
        out,
        "{}",
        wrapped("", 2, &words.say("tour-attempt", &arguments))
    )?;
    let mut text = Vec::new();
    let judged = played.attempt.judged();
    write_grade(judged, &loaded.exercise, &played.grade, &mut text, words)?;
    write_new(&folder.join(format!("{}.txt", played.name)), &text)
}

/// Draws all moments, and says where the pictures are or what is missing.
fn draw(
    played: &[Played],
    loaded: &Loaded,
    display: Option<&dyn Display>,
    folder: &Path,
    out: &mut dyn Write,
    words: &Words,
) -> Answer {
    let Some(display) = display else {
        write!(
            out,
            "{}",
            wrapped("", 0, &words.say("picture-no-window", &[]))
        )?;
        return Ok(Exit::No);
    };
    let wanted: Vec<(&Played, (u64, Page))> = played
        .iter()
        .flat_map(|one| one.moments.iter().map(move |moment| (one, *moment)))
        .collect();
    let pictures: Vec<Picture<'_>> = wanted
        .iter()
        .map(|(one, (at, page))| Picture {
            exercise: &loaded.exercise,
            attempt: &one.attempt,
            notes: &[],
            mode: PlayedAs::Practice,
            at: *at,
            page: *page,
            size: SIZE,
        })
        .collect();
    let drawn = match display.pictures(&pictures) {
        Ok(drawn) => drawn,
        Err(missing) => {
            tell_missing(&missing, out, words)?;
            return Ok(Exit::No);
        }
    };
    for ((one, (at, page)), bytes) in wanted.iter().zip(&drawn) {
        let clock = Arg::Clock(*at).to_string().replace(':', "-");
        let page = match page {
            Page::Seen => "seen",
            Page::Debrief => "debrief",
        };
        let path = folder.join(format!("{}-{clock}-{page}.png", one.name));
        if let Err(error) = write_new(&path, bytes) {
            return unwritten(&path, &error, out, words);
        }
        let path = ("path", Arg::from(shown(&path)));
        write!(
            out,
            "{}",
            wrapped("", 2, &words.say("tour-picture", &[path]))
        )?;
    }
    Ok(Exit::Done)
}
