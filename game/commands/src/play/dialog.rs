//! The dialog: a picture in words, a numbered list, one line to type.

mod help;

use std::{
    fs,
    fs::File,
    io::{self, BufRead},
    path::PathBuf,
};

use rackproof_attempt::{
    Attempt, Exercise, Note, PlayedAs, Reading, Recorder, Refused, Sheet, read_attempt,
};
use rackproof_drill::{
    Intent, IntentKind,
    message::{IntentGroup, of_intent},
};
use rackproof_library::shown;
use rackproof_phrases::text;
use rackproof_words::{Arg, Words};

use super::{
    Ways,
    menu::{Entry, entries, half_slot, menu, slot_question},
    next::acts,
    screen::Screen,
    sheet::sheet_text,
    typed::{ask, read_line, readable},
};
use crate::{Answer, Exit, grade, lines::wrapped};

/// How long `w` waits if nothing is ahead, in µs: 5 s.
const WAIT: u64 = 5_000_000;

/// The longest wait for rest, in µs: 10 min.
const REST_MOST: u64 = 600_000_000;

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
        let begin = match self.mode {
            PlayedAs::Exam => "play-begin-exam",
            PlayedAs::Guided => "play-begin-guided",
            PlayedAs::Practice => "play-begin",
        };
        ways.tell(begin, &[])?;
        writeln!(ways.out)
    }

    /// What is perceived now.
    fn screen(&self, words: &Words) -> String {
        let new = self.attempt.heard().get(self.shown..).unwrap_or_default();
        let screen = Screen {
            attempt: &self.attempt,
            new,
            mode: self.mode,
            words,
        };
        screen.text()
    }

    fn picture(&mut self, ways: &mut Ways<'_>) -> io::Result<()> {
        writeln!(ways.out, "{}", self.screen(ways.words))?;
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
            "" => ways.tell("play-empty-line", &[]).map(|()| Turn::Stay),
            "?" => {
                let id = if self.mode == PlayedAs::Exam {
                    "play-help-exam"
                } else {
                    "play-help"
                };
                let places = Arg::from(ways.words.say("play-help-places", &[]));
                ways.tell(id, &[("places", places)]).map(|()| Turn::Stay)
            }
            "q" => Ok(Turn::Leave),
            "w" => self.wait(rest, ways),
            "r" => self.rest(ways),
            "t" => self.tick(rest, ways),
            "h" => self.hint(ways),
            "o" => self.way_on(ways),
            "s" => Ok(Turn::Again),
            number => {
                let entry = number
                    .parse::<usize>()
                    .ok()
                    .and_then(|at| at.checked_sub(1));
                let most = Arg::Number(i64::try_from(entries.len()).unwrap_or(i64::MAX));
                let typed = ("typed", Arg::from(readable(line)));
                match entry.and_then(|at| entries.get(at)) {
                    // Whoever types “5 i” here means a slot, and not the fifth offer.
                    Some((_, Entry::Do(_))) if !rest.trim().is_empty() => {
                        ways.tell("play-number-alone", &[typed, ("most", most)])?;
                        Ok(Turn::Stay)
                    }
                    Some((_, entry)) => self.choose(*entry, rest, input, ways),
                    None => {
                        ways.tell("play-not-a-number", &[typed, ("most", most)])?;
                        Ok(Turn::Stay)
                    }
                }
            }
        }
    }

    /// The intent behind an offer, when all that it still needs was asked for.
    fn meant(
        &self,
        entry: Entry,
        rest: &str,
        input: &mut dyn BufRead,
        ways: &mut Ways<'_>,
    ) -> io::Result<Result<Intent, Turn>> {
        Ok(Ok(match entry {
            Entry::Do(Intent::Report) => {
                let question = ways.words.say("play-report-sure", &[]);
                let Some(typed) = ask(&question, input, ways)? else {
                    return Ok(Err(Turn::Leave));
                };
                if typed.to_lowercase() != ways.words.say("play-yes", &[]) {
                    ways.tell("play-not-reported", &[])?;
                    return Ok(Err(Turn::Stay));
                }
                Intent::Report
            }
            Entry::Do(intent) => intent,
            Entry::AtSlot(kind) => {
                let slots = self.exercise.machine.slots();
                let mut typed = rest.trim().to_owned();
                if typed.is_empty() {
                    let question = slot_question(slots, ways.words);
                    let Some(line) = ask(&question, input, ways)? else {
                        return Ok(Err(Turn::Leave));
                    };
                    typed = line;
                }
                if typed.is_empty() {
                    ways.tell("play-empty-line", &[])?;
                    return Ok(Err(Turn::Stay));
                }
                let Some(at) = half_slot(&typed, slots, ways.words) else {
                    let most = ("slots", Arg::Number(i64::from(slots)));
                    let typed = ("typed", Arg::from(readable(&typed)));
                    ways.tell("play-no-slot", &[typed, most])?;
                    return Ok(Err(Turn::Stay));
                };
                match kind {
                    IntentKind::Take => Intent::Take(at),
                    _ => Intent::PutIn(at),
                }
            }
        }))
    }

    fn choose(
        &mut self,
        entry: Entry,
        rest: &str,
        input: &mut dyn BufRead,
        ways: &mut Ways<'_>,
    ) -> io::Result<Turn> {
        let intent = match self.meant(entry, rest, input, ways)? {
            Ok(intent) => intent,
            Err(turn) => return Ok(turn),
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
                    &[("typed", Arg::from(readable(rest))), ("most", most)],
                )?;
                Ok(Turn::Stay)
            }
        }
    }

    /// Waits until nothing moves and no button is held: who stands there perceives that.
    fn rest(&mut self, ways: &mut Ways<'_>) -> io::Result<Turn> {
        let start = self.attempt.at();
        while acts(&self.attempt)
            && self.attempt.at() - start < REST_MOST
            && self.attempt.wait_for_event()
        {}
        if self.attempt.at() == start {
            ways.tell("play-rests-already", &[])?;
            return Ok(Turn::Stay);
        }
        Ok(Turn::Again)
    }

    fn tick(&mut self, rest: &str, ways: &mut Ways<'_>) -> io::Result<Turn> {
        let rest = rest.trim();
        if !rest.is_empty() {
            let Some(at) = half_slot(rest, self.exercise.machine.slots(), ways.words) else {
                let slots = Arg::Number(i64::from(self.exercise.machine.slots()));
                let typed = ("typed", Arg::from(readable(rest)));
                ways.tell("play-no-slot", &[typed, ("slots", slots)])?;
                return Ok(Turn::Stay);
            };
            let note = self.sheet.toggle(at);
            self.note(note)?;
        }
        write!(ways.out, "{}", sheet_text(&self.sheet, ways.words))?;
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

    fn finish(self, ways: &mut Ways<'_>) -> Answer {
        // A picture of the last moment: what was perceived before it was over.
        write!(ways.out, "{}", self.screen(ways.words))?;
        if let Err(error) = self.recorder.end(&self.attempt) {
            return ways.unwritten(&self.path, &error);
        }
        // As `grade` will say it of the file, help that was asked for included.
        let written = fs::read(&self.path).unwrap_or_default();
        if let Reading::Whole(kept) = read_attempt(&written) {
            writeln!(ways.out)?;
            ways.row(&grade::head(&kept, ways.words))?;
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
}
