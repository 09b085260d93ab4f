//! `picture ATTEMPT --at TIME --out PNG`: one moment of an attempt as a picture, without a window.

use std::{
    fs::{self, OpenOptions},
    io::{self, Write},
    path::{Path, PathBuf},
};

use rackproof_attempt::{Kept, Reading, Rebuilt, read_attempt};
use rackproof_files::Problems;
use rackproof_library::shown;
use rackproof_words::{Arg, Words};

use crate::{
    Answer, Exit,
    display::{Display, Page, Picture},
    lines::wrapped,
    open::tell_missing,
    reason::reason,
};

/// Least and most width and height of a picture, in pixels.
const SIZES: [u32; 2] = [640, 4_096];

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[arg(value_name = "ATTEMPT")]
    attempt: PathBuf,
    #[arg(long, value_name = "TIME")]
    at: Option<String>,
    #[arg(long, value_name = "PNG")]
    out: PathBuf,
    #[arg(long)]
    debrief: bool,
    #[arg(long, value_name = "SIZE", default_value = "1280x720")]
    size: String,
}

/// What a picture cannot be made for: the id of what is said, and its values.
type Refused = (&'static str, Vec<(&'static str, Arg<'static>)>, Exit);

/// Draws it. The answer is no if the attempt cannot be read or the picture cannot be made.
pub(crate) fn run(
    arguments: &Arguments,
    display: Option<&dyn Display>,
    out: &mut dyn Write,
    words: &Words,
) -> Answer {
    let Some(display) = display else {
        return tell(("picture-no-window", Vec::new(), Exit::No), out, words);
    };
    let (kept, rebuilt, at, size) = match asked(arguments) {
        Ok(asked) => asked,
        Err(refused) => return tell(refused, out, words),
    };
    let page = if arguments.debrief {
        Page::Debrief
    } else {
        Page::Seen
    };
    let wanted = Picture {
        exercise: &rebuilt.exercise,
        attempt: &rebuilt.attempt,
        notes: &kept.notes,
        mode: kept.header.mode,
        at,
        page,
        size,
    };
    let drawn = match display.pictures(&[wanted]) {
        Ok(drawn) => drawn,
        Err(missing) => {
            tell_missing(&missing, out, words)?;
            return Ok(Exit::No);
        }
    };
    let bytes = drawn.first().map(Vec::as_slice).unwrap_or_default();
    let path = ("path", Arg::from(shown(&arguments.out)));
    let told = match write_new(&arguments.out, bytes) {
        Ok(()) => ("picture-made", vec![path], Exit::Done),
        Err(error) => {
            let reason = ("reason", reason(&error));
            ("file-not-written", vec![path, reason], Exit::No)
        }
    };
    tell(told, out, words)
}

fn tell((id, arguments, exit): Refused, out: &mut dyn Write, words: &Words) -> Answer {
    write!(out, "{}", wrapped("", 0, &words.say(id, &arguments)))?;
    Ok(exit)
}

/// The attempt, the moment and the size that were asked for.
fn asked(arguments: &Arguments) -> Result<(Kept, Rebuilt, u64, [u32; 2]), Refused> {
    let typed = |text: &str| ("typed", Arg::from(text.to_owned()));
    let size = size(&arguments.size).ok_or_else(|| {
        let least = ("least", Arg::from(SIZES[0].to_string()));
        let most = ("most", Arg::from(SIZES[1].to_string()));
        let values = vec![typed(&arguments.size), least, most];
        ("picture-no-size", values, Exit::WrongUse)
    })?;
    let at = match arguments.at.as_deref() {
        None => None,
        Some(text) => {
            let wrong = || ("picture-no-time", vec![typed(text)], Exit::WrongUse);
            Some(moment(text).ok_or_else(wrong)?)
        }
    };
    let path = || ("path", Arg::from(shown(&arguments.attempt)));
    let (kept, rebuilt) = rebuilt(&arguments.attempt)
        .map_err(|error| {
            let reason = ("reason", reason(&error));
            ("file-not-read", vec![path(), reason], Exit::No)
        })?
        .ok_or_else(|| ("picture-unread", vec![path()], Exit::No))?;
    let end = rebuilt.attempt.at();
    if let Some(at) = at.filter(|at| *at > end) {
        let times = vec![("at", Arg::Clock(at)), ("end", Arg::Clock(end))];
        return Err(("picture-after-end", times, Exit::WrongUse));
    }
    Ok((kept, rebuilt, at.unwrap_or(end), size))
}

/// Writes a file that must not be there yet.
pub(crate) fn write_new(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
    file.write_all(bytes)
}

/// An attempt read and done again, up to where it was cut off. `None` if it cannot be.
fn rebuilt(path: &Path) -> io::Result<Option<(Kept, Rebuilt)>> {
    let kept = match read_attempt(&fs::read(path)?) {
        Reading::Whole(kept) | Reading::CutOff(Some(kept)) => kept,
        _ => return Ok(None),
    };
    let rebuilt = kept.rebuild(&Problems::new());
    Ok(rebuilt
        .filter(|rebuilt| rebuilt.difference.is_none())
        .map(|rebuilt| (*kept, rebuilt)))
}

/// A time as it is shown: `mm:ss`, `h:mm:ss`, with parts of a second after a point; or seconds.
pub(crate) fn moment(typed: &str) -> Option<u64> {
    let (whole, part) = typed.split_once('.').unwrap_or((typed, ""));
    let figures = |text: &str| text.chars().all(|it| it.is_ascii_digit());
    let mut seconds: u64 = 0;
    let fields: Vec<&str> = whole.split(':').collect();
    for (number, field) in fields.iter().enumerate() {
        if field.is_empty() || !figures(field) || fields.len() > 3 {
            return None;
        }
        let value: u64 = field.parse().ok()?;
        if number > 0 && value > 59 {
            return None;
        }
        seconds = seconds.checked_mul(60)?.checked_add(value)?;
    }
    if !figures(part) || part.len() > 6 || typed.ends_with('.') {
        return None;
    }
    let micros: u64 = format!("{part:0<6}").parse().ok()?;
    seconds.checked_mul(1_000_000)?.checked_add(micros)
}

fn size(typed: &str) -> Option<[u32; 2]> {
    let (width, height) = typed.split_once('x')?;
    let side = |text: &str| {
        let side: u32 = text.parse().ok()?;
        (SIZES[0]..=SIZES[1]).contains(&side).then_some(side)
    };
    Some([side(width)?, side(height)?])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_read_as_they_are_shown() {
        let cases = [
            ("0", Some(0)),
            ("00:07", Some(7_000_000)),
            ("03:49.5", Some(229_500_000)),
            ("1:00:00", Some(3_600_000_000)),
            ("90", Some(90_000_000)),
            ("0.000001", Some(1)),
            ("", None),
            ("1:60", None),
            ("1:2:3:4", None),
            ("-1", None),
            ("1.", None),
            ("1.0000001", None),
            ("99999999999999999999", None),
            ("+5", None),
        ];
        for (typed, expected) in cases {
            assert_eq!(moment(typed), expected, "{typed}");
        }
    }

    #[test]
    fn sizes_have_bounds() {
        let cases = [
            ("1280x720", Some([1280, 720])),
            ("640x640", Some([640, 640])),
            ("639x720", None),
            ("1280x4097", None),
            ("1280", None),
            ("axb", None),
        ];
        for (typed, expected) in cases {
            assert_eq!(size(typed), expected, "{typed}");
        }
    }
}
