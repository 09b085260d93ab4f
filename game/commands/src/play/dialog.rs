//! The dialog: a picture in words, a numbered list, one line to type.

use std::{
    fs::File,
    io::{self, BufRead},
    path::PathBuf,
};

use rackproof_attempt::{Attempt, Exercise, Note, PlayedAs, Recorder, Refused};
use rackproof_drill::{
    Intent, IntentKind,
    message::{IntentGroup, of_intent},
};
use rackproof_words::Arg;

use super::{
    Ways,
    ahead::ahead,
    menu::{Entry, entries, half_slot, menu, slot_question},
    screen::{INDENT, Screen},
    sheet::Sheet,
};
use crate::{
    Answer, Exit, grade,
    library::shown,
    phrases::{named, text, wrapped},
};

/// How long `w` waits if nothing is ahead, in µs: 5 s.
const WAIT: u64 = 5_000_000;

/// The longest wait that can be typed, in seconds.
const WAIT_MOST: u64 = 3_600;

/// A dialog in progress.
pub(super) struct Dialog<'d> {
    exercise: &'d Exercise,
    attempt: Attempt,
    recorder: Recorder<File>,
    mode: PlayedAs,
    path: PathBuf,
    sheet: Sheet,
    /// How many outcomes were shown.
    shown: usize,
}

/// What became of one typed line.
enum Turn {
    /// Something changed: show the picture again.
    Again,
    /// Nothing changed: ask for the next line.
    Stay,
    /// The person leaves.
    Leave,
}

impl<'d> Dialog<'d> {
    pub(super) fn new(
        exercise: &'d Exercise,
        attempt: Attempt,
        recorder: Recorder<File>,
        mode: PlayedAs,
        path: PathBuf,
    ) -> Dialog<'d> {
        let sheet = Sheet::default();
        let shown = attempt.heard().len();
        Dialog {
            exercise,
            attempt,
            recorder,
            mode,
            path,
            sheet,
            shown,
        }
    }

    /// The same with what was noted before.
    pub(super) fn with_notes(mut self, notes: &[Note]) -> Dialog<'d> {
        self.sheet = Sheet::of(notes, self.exercise.machine.slots());
        self
    }

    /// Plays until the job is reported, the person leaves, or the input ends.
    pub(super) fn play(mut self, input: &mut dyn BufRead, ways: &mut Ways<'_>) -> Answer {
        self.introduce(ways)?;
        while !self.attempt.is_over() {
            self.picture(ways)?;
            let entries = entries(&self.attempt.offers());
            write!(ways.out, "{}", menu(&self.attempt, &entries, ways.words))?;
            loop {
                write!(ways.out, "\n{} ", ways.words.say("play-prompt", &[]))?;
                ways.out.flush()?;
                let line = read_line(input)?;
                // Typed into a pipe, a line ends nowhere else.
                writeln!(ways.out)?;
                let turn = match line {
                    Some(line) => self.turn(line.trim(), &entries, input, ways)?,
                    None => Turn::Leave,
                };
                if let Err(error) = self.recorder.catch_up(&self.attempt) {
                    return ways.unwritten(&self.path, &error);
                }
                match turn {
                    Turn::Again => break,
                    Turn::Stay => {}
                    Turn::Leave => {
                        let path = Arg::from(shown(&self.path));
                        ways.tell("play-left", &[("path", path)])?;
                        return Ok(Exit::Done);
                    }
                }
            }
        }
        self.finish(ways)
    }

    fn introduce(&self, ways: &mut Ways<'_>) -> io::Result<()> {
        let drill = &self.exercise.drill.id;
        for part in ["", "-task", "-cautions"] {
            let id = format!("drill-{drill}{part}");
            if ways.words.has(&id) {
                writeln!(ways.out, "{}", wrapped("", 0, &ways.words.say(&id, &[])))?;
            }
        }
        let path = Arg::from(shown(&self.path));
        write!(
            ways.out,
            "{}",
            wrapped("", 0, &ways.words.say("play-kept-in", &[("path", path)]))
        )?;
        ways.tell("play-begin", &[])?;
        writeln!(ways.out)
    }

    fn picture(&mut self, ways: &mut Ways<'_>) -> io::Result<()> {
        let new = self.attempt.heard().get(self.shown..).unwrap_or_default();
        let screen = Screen {
            attempt: &self.attempt,
            new,
            mode: self.mode,
            words: ways.words,
        };
        writeln!(ways.out, "{}", screen.text())?;
        self.shown = self.attempt.heard().len();
        if self.mode == PlayedAs::Guided {
            self.next_step(ways)?;
            writeln!(ways.out)?;
        }
        Ok(())
    }

    fn turn(
        &mut self,
        line: &str,
        entries: &[(IntentGroup, Entry)],
        input: &mut dyn BufRead,
        ways: &mut Ways<'_>,
    ) -> io::Result<Turn> {
        let (word, rest) = line.split_once(' ').unwrap_or((line, ""));
        match word.to_lowercase().as_str() {
            // Enter alone never does anything.
            "" => Ok(Turn::Stay),
            "?" => {
                let id = if self.mode == PlayedAs::Exam {
                    "play-help-exam"
                } else {
                    "play-help"
                };
                ways.tell(id, &[]).map(|()| Turn::Stay)
            }
            "q" => Ok(Turn::Leave),
            "w" => self.wait(rest, ways),
            "t" => self.tick(rest, ways),
            "h" => self.hint(ways),
            "s" => Ok(Turn::Again),
            number => {
                let entry = number
                    .parse::<usize>()
                    .ok()
                    .and_then(|at| at.checked_sub(1));
                match entry.and_then(|at| entries.get(at)) {
                    Some((_, entry)) => self.choose(*entry, rest, input, ways),
                    None => {
                        let most = Arg::Number(i64::try_from(entries.len()).unwrap_or(i64::MAX));
                        let typed = ("typed", Arg::from(line));
                        ways.tell("play-not-a-number", &[typed, ("most", most)])?;
                        Ok(Turn::Stay)
                    }
                }
            }
        }
    }

    fn choose(
        &mut self,
        entry: Entry,
        rest: &str,
        input: &mut dyn BufRead,
        ways: &mut Ways<'_>,
    ) -> io::Result<Turn> {
        let intent = match entry {
            Entry::Do(intent) => intent,
            Entry::AtSlot(kind) => {
                let slots = self.exercise.machine.slots();
                let mut typed = rest.trim().to_owned();
                if typed.is_empty() {
                    write!(ways.out, "{} ", slot_question(slots, ways.words))?;
                    ways.out.flush()?;
                    let line = read_line(input)?;
                    writeln!(ways.out)?;
                    let Some(line) = line else {
                        return Ok(Turn::Leave);
                    };
                    typed = line.trim().to_owned();
                }
                let Some(at) = half_slot(&typed, slots, ways.words) else {
                    ways.tell("play-no-slot", &[("typed", Arg::from(typed))])?;
                    return Ok(Turn::Stay);
                };
                match kind {
                    IntentKind::Take => Intent::Take(at),
                    _ => Intent::PutIn(at),
                }
            }
        };
        let state = self.attempt.state().world;
        let told = text(ways.words, &of_intent(self.attempt.world(), &state, intent));
        let done = self.attempt.do_intent(intent);
        let id = match done {
            Ok(()) => "play-did",
            Err(Refused::Gone) => "play-gone",
            Err(Refused::NotOnOffer) => "play-not-on-offer",
        };
        ways.tell(id, &[("done", Arg::from(told))])?;
        writeln!(ways.out)?;
        Ok(Turn::Again)
    }

    fn wait(&mut self, rest: &str, ways: &mut Ways<'_>) -> io::Result<Turn> {
        let rest = rest.trim();
        if rest.is_empty() {
            // In an exam nobody jumps to an event that they cannot know of.
            if self.mode == PlayedAs::Exam || !self.attempt.wait_for_event() {
                self.attempt.wait(WAIT);
            }
            return Ok(Turn::Again);
        }
        match rest.parse::<u64>() {
            Ok(seconds) if seconds <= WAIT_MOST => {
                self.attempt.wait(seconds * 1_000_000);
                Ok(Turn::Again)
            }
            _ => {
                let most = Arg::Number(i64::try_from(WAIT_MOST).unwrap_or(i64::MAX));
                ways.tell(
                    "play-no-time",
                    &[("typed", Arg::from(rest)), ("most", most)],
                )?;
                Ok(Turn::Stay)
            }
        }
    }

    fn tick(&mut self, rest: &str, ways: &mut Ways<'_>) -> io::Result<Turn> {
        let rest = rest.trim();
        if !rest.is_empty() {
            let Some(at) = half_slot(rest, self.exercise.machine.slots(), ways.words) else {
                ways.tell("play-no-slot", &[("typed", Arg::from(rest))])?;
                return Ok(Turn::Stay);
            };
            let note = self.sheet.toggle(at);
            self.note(note)?;
        }
        write!(ways.out, "{}", self.sheet.text(ways.words))?;
        Ok(Turn::Stay)
    }

    fn note(&mut self, note: String) -> io::Result<()> {
        // What was done before stands before it.
        self.recorder.catch_up(&self.attempt)?;
        self.recorder.note(&Note {
            noted: self.attempt.at(),
            note,
        })
    }

    fn hint(&mut self, ways: &mut Ways<'_>) -> io::Result<Turn> {
        if self.mode == PlayedAs::Exam {
            ways.tell("play-no-hint-in-exam", &[])?;
            return Ok(Turn::Stay);
        }
        if let Some(step) = self.next_step(ways)? {
            self.note(format!("Hint({step})"))?;
        }
        Ok(Turn::Stay)
    }

    /// Shows the next step, and why. Its name, if there is one.
    fn next_step(&self, ways: &mut Ways<'_>) -> io::Result<Option<String>> {
        let words = ways.words;
        let Some(ahead) = ahead(&self.attempt, self.exercise) else {
            ways.tell("play-no-step", &[])?;
            return Ok(None);
        };
        let step = named(words, &format!("step-{}", ahead.step), &ahead.step);
        let why = format!("step-{}-why", ahead.step);
        let why = if words.has(&why) {
            words.say(&why, &[])
        } else {
            String::new()
        };
        let state = &self.attempt.state().world;
        let now = match ahead.intent {
            Some(intent) => text(words, &of_intent(self.attempt.world(), state, intent)),
            None => words.say("play-now-wait", &[]),
        };
        for (id, row) in [("play-next", &step), ("play-why", &why), ("play-now", &now)] {
            write!(ways.out, "{}", wrapped(&words.say(id, &[]), INDENT, row))?;
        }
        Ok(Some(ahead.step))
    }

    fn finish(mut self, ways: &mut Ways<'_>) -> Answer {
        // A picture of the last moment: what was perceived before it was over.
        self.picture_of_end(ways)?;
        if let Err(error) = self.recorder.end(&self.attempt) {
            return ways.unwritten(&self.path, &error);
        }
        let grade = self.attempt.grade(self.exercise);
        let judged = self.attempt.judged();
        grade::write_grade(judged, self.exercise, &grade, ways.out, ways.words)?;
        writeln!(ways.out)?;
        ways.tell("play-ended", &[("path", Arg::from(shown(&self.path)))])?;
        Ok(if grade::passed(&grade) {
            Exit::Done
        } else {
            Exit::No
        })
    }

    fn picture_of_end(&mut self, ways: &mut Ways<'_>) -> io::Result<()> {
        let new = self.attempt.heard().get(self.shown..).unwrap_or_default();
        let screen = Screen {
            attempt: &self.attempt,
            new,
            mode: self.mode,
            words: ways.words,
        };
        write!(ways.out, "{}", screen.text())
    }
}

/// One line, or `None` at the end of the input. What is no text is read as well as it can be.
fn read_line(input: &mut dyn BufRead) -> io::Result<Option<String>> {
    let mut bytes = Vec::new();
    let count = input.read_until(b'\n', &mut bytes)?;
    Ok((count > 0).then(|| String::from_utf8_lossy(&bytes).into_owned()))
}
