//! One drill being played: an attempt, its file, and what the person is about.
//!
//! It reads no clock. The window says how much real time passed; drawing decides nothing.

mod help;
mod still;

use std::{
    collections::VecDeque,
    fs::File,
    io,
    path::{Path, PathBuf},
};

use rackproof_attempt::{
    Ahead, Attempt, Exercise, Looks, Note, PlayedAs, Recorder, Sheet, line_down,
};
use rackproof_buffer::HalfSlot;
use rackproof_drill::{Aim, Cause, Intent, Stand};
use rackproof_grade::{GuideRun, Judged};
use rackproof_panel::{Doing, Way};
use rackproof_phrases::WayOnTold;

use super::next_step::NextStep;

/// What takes a person longer than this is shown faster than it happens, in µs: one second.
const SHOWN_MOST: u64 = 1_000_000;

/// Practice: how long a wait is if no event is ahead, in µs.
const WAIT: u64 = 5_000_000;

/// What the person is about. It takes effect when its time is over.
#[derive(Clone, Copy, Debug)]
struct Act {
    intent: Intent,
    takes: u64,
    left: u64,
}

/// A drill being played.
pub struct Play {
    exercise: Exercise,
    attempt: Attempt,
    recorder: Recorder<File>,
    path: PathBuf,
    way: Way,
    variant: usize,
    act: Option<Act>,
    next: VecDeque<Intent>,
    looks: Looks,
    looks_heard: usize,
    sheet: Sheet,
    next_step: NextStep,
    hinted: bool,
    gone: Option<Intent>,
    aim: Option<Aim>,
    logged: usize,
    stands_still: bool,
    reference: Option<u64>,
    notes: Vec<Note>,
    way_on: Option<WayOnTold>,
}

/// How an attempt is recorded that is played this way. What is watched is not recorded.
pub fn played_as(way: Way) -> PlayedAs {
    match way {
        Way::Watch | Way::Guided => PlayedAs::Guided,
        Way::Practice => PlayedAs::Practice,
        Way::Exam => PlayedAs::Exam,
    }
}

/// The way of an attempt that was kept as played so.
pub fn way_of(played: PlayedAs) -> Way {
    match played {
        PlayedAs::Guided => Way::Guided,
        PlayedAs::Practice => Way::Practice,
        PlayedAs::Exam => Way::Exam,
    }
}

impl Play {
    /// A drill at its start, or wherever `attempt` is. `recorder` has written its header only.
    pub fn new(
        exercise: Exercise,
        attempt: Attempt,
        recorder: Recorder<File>,
        path: PathBuf,
        (way, variant): (Way, usize),
    ) -> Play {
        let reference = reference_time(&exercise, attempt.judged());
        let mut play = Play {
            reference: reference.filter(|_| way != Way::Exam),
            exercise,
            attempt,
            recorder,
            path,
            way,
            variant,
            act: None,
            next: VecDeque::new(),
            looks: Looks::default(),
            looks_heard: 0,
            sheet: Sheet::default(),
            next_step: NextStep::default(),
            hinted: false,
            gone: None,
            aim: None,
            logged: 0,
            stands_still: false,
            notes: Vec::new(),
            way_on: None,
        };
        play.settle();
        play
    }

    /// The attempt.
    pub fn attempt(&self) -> &Attempt {
        &self.attempt
    }

    /// What it is made from.
    pub fn exercise(&self) -> &Exercise {
        &self.exercise
    }

    /// Its file.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// How it is played.
    pub fn way(&self) -> Way {
        self.way
    }

    /// Its variant, by number.
    pub fn variant(&self) -> usize {
        self.variant
    }

    /// What was looked at since looks became void.
    pub fn looks(&self) -> &Looks {
        &self.looks
    }

    /// The tick sheet.
    pub fn sheet(&self) -> &Sheet {
        &self.sheet
    }

    /// The next step, where it is shown.
    pub fn ahead(&self) -> Option<&Ahead> {
        let shown = self.way == Way::Guided || self.hinted;
        self.next_step.ahead().filter(|_| shown)
    }

    /// What came too late.
    pub fn gone(&self) -> Option<Intent> {
        self.gone
    }

    /// The aim of the last look, while the person keeps it.
    pub fn aim(&self) -> Option<Aim> {
        self.aim
    }

    /// How many doings stand in the log: all until it was written.
    pub fn logged(&self) -> usize {
        self.logged
    }

    /// The time of the quickest listed way, in µs. Never in an exam.
    pub fn reference(&self) -> Option<u64> {
        self.reference
    }

    /// How long the line stood, in µs.
    pub fn line_down(&self) -> u64 {
        line_down(&self.attempt)
    }

    /// What the person is about, and how far.
    pub fn doing(&self) -> Option<Doing> {
        self.act.map(|act| Doing {
            intent: act.intent,
            part: 1.0 - act.left as f32 / act.takes.max(1) as f32,
        })
    }

    /// Lets real time pass, in µs.
    ///
    /// # Errors
    /// If the attempt cannot be written. It is not lost: what was written before is there.
    pub fn pass(&mut self, real: u64) -> io::Result<()> {
        if self.stands_still || self.attempt.is_over() {
            return Ok(());
        }
        match self.act {
            None => self.attempt.wait(real),
            Some(mut act) => {
                // In real time, but what takes long is shown faster.
                let part = u128::from(real) * u128::from(act.takes.max(SHOWN_MOST));
                let part = u64::try_from(part / u128::from(SHOWN_MOST)).unwrap_or(u64::MAX);
                let part = part.min(act.left);
                self.attempt.wait(part);
                act.left -= part;
                self.act = Some(act);
                self.act_if_due();
            }
        }
        self.settle();
        self.write()
    }

    /// Begins to do something. What takes a person's hands or feet takes its time; a button that
    /// is pressed is pressed.
    ///
    /// # Errors
    /// If the attempt cannot be written.
    pub fn begin(&mut self, intent: Intent) -> io::Result<()> {
        if self.act.is_some() || !self.attempt.takes(intent) {
            return Ok(());
        }
        let pace = &self.attempt.world().hall().pace;
        let takes = pace.of(intent, self.attempt.state().world.person.stand);
        // The hand that pressed it here took that time already.
        let takes = if takes > pace.press { takes.0 } else { 0 };
        let takes = u64::from(takes);
        self.gone = None;
        self.act = Some(Act {
            intent,
            takes,
            left: takes,
        });
        self.act_if_due();
        self.settle();
        self.write()
    }

    /// Stops doing what the person is about. Its time has passed.
    pub fn break_off(&mut self) {
        self.act = None;
        self.next.clear();
    }

    /// To the nearest emergency stop, and presses it. Whatever else the person is about is left.
    ///
    /// # Errors
    /// If the attempt cannot be written.
    pub fn emergency(&mut self) -> io::Result<()> {
        self.break_off();
        if self.attempt.state().world.machine.emergency() {
            return Ok(());
        }
        let here = self.attempt.state().world.person.stand;
        let hall = self.attempt.world().hall();
        let walk = |stand: &&Stand| hall.pace.of(Intent::Walk(**stand), here);
        let nearest = hall.emergency_stops.iter().min_by_key(walk).copied();
        if let Some(nearest) = nearest.filter(|nearest| *nearest != here) {
            self.next.push_back(Intent::PressEmergency);
            return self.begin(Intent::Walk(nearest));
        }
        self.begin(Intent::PressEmergency)
    }

    /// Practice: is done with what the person is about, else waits for the next event.
    ///
    /// # Errors
    /// If the attempt cannot be written.
    pub fn wait(&mut self) -> io::Result<()> {
        if self.way == Way::Exam || self.attempt.is_over() {
            return Ok(());
        }
        if let Some(act) = &mut self.act {
            let left = std::mem::take(&mut act.left);
            self.attempt.wait(left);
            self.act_if_due();
        } else if !self.attempt.wait_for_event() {
            self.attempt.wait(WAIT);
        }
        self.settle();
        self.write()
    }

    /// Makes a mark on the tick sheet, or takes it away.
    ///
    /// # Errors
    /// If the attempt cannot be written.
    pub fn tick(&mut self, at: HalfSlot) -> io::Result<()> {
        let note = self.sheet.toggle(at);
        self.note(note)
    }

    /// Writes the last line of the attempt's file. Gives the attempt with its notes.
    ///
    /// # Errors
    /// If it cannot be written.
    pub fn end(self) -> io::Result<(Exercise, Attempt, Vec<Note>)> {
        self.recorder.end(&self.attempt)?;
        Ok((self.exercise, self.attempt, self.notes))
    }

    /// Writes down something that changes nothing in the drill.
    ///
    /// # Errors
    /// If the attempt cannot be written.
    pub fn note(&mut self, note: String) -> io::Result<()> {
        // What was done before stands before it.
        self.write()?;
        let note = Note {
            noted: self.attempt.at(),
            note,
        };
        self.recorder.note(&note)?;
        self.notes.push(note);
        Ok(())
    }

    fn write(&mut self) -> io::Result<()> {
        self.recorder.catch_up(&self.attempt)
    }

    fn act_if_due(&mut self) {
        let Some(act) = self.act.take_if(|act| act.left == 0) else {
            return;
        };
        if self.attempt.do_at_once(Cause::Did(act.intent)).is_err() {
            self.gone = Some(act.intent);
            self.next.clear();
            return;
        }
        self.hinted = false;
        self.did(act.intent);
        if let Some(next) = self.next.pop_front() {
            // Not on offer any more: then it is not begun.
            if self.attempt.offers().contains(&next) {
                let left = 0;
                self.act = Some(Act {
                    intent: next,
                    takes: 0,
                    left,
                });
                self.act_if_due();
            }
        }
    }

    fn did(&mut self, intent: Intent) {
        match intent {
            Intent::Look(aim) => self.aim = Some(aim),
            Intent::Walk(_) | Intent::ShutHatch => self.aim = None,
            Intent::WriteLog => self.logged = self.attempt.done().len(),
            _ => {}
        }
    }

    /// What follows from what was done and heard, and from the time that passed.
    fn settle(&mut self) {
        let heard = self.attempt.heard();
        self.looks.hear(&heard[self.looks_heard..]);
        self.looks_heard = heard.len();
        if self.way == Way::Guided {
            self.next_step.keep_up(&self.attempt, &self.exercise);
        }
    }
}

/// The guide's time by the quickest way of the procedure, in µs.
pub(super) fn reference_time(exercise: &Exercise, judged: &Judged) -> Option<u64> {
    let ways = 0..exercise.procedure.ways.len();
    ways.filter_map(|way| GuideRun::play(judged, &exercise.procedure, way).ok())
        .map(|run| run.time)
        .min()
}
