//! Watch: a good attempt plays, and stops before each thing that is done, for talk.

use rackproof_attempt::{Ahead, Attempt, Exercise, History, Looks, ahead, line_down};
use rackproof_drill::Aim;
use rackproof_grade::{GuideRun, JudgedState, Verdict};

/// How many times as fast it plays at first.
const SPEED: f32 = 4.0;

/// An attempt that plays.
pub struct Watch {
    exercise: Exercise,
    history: History,
    verdict: Verdict,
    variant: usize,
    at: u64,
    plays: bool,
    speed: f32,
    ahead: Option<Ahead>,
    /// Before which doing it stops next, by number.
    stop: usize,
    /// It stopped there, and that doing is talked about.
    talks: bool,
}

impl Watch {
    /// The guide's attempt at a variant, by the first way of the procedure. `None` if the guide
    /// does not finish it, or if there is no such variant.
    pub fn new(exercise: Exercise, variant: usize) -> Option<Watch> {
        let judged = exercise.judged(variant)?;
        let run = GuideRun::play(&judged, &exercise.procedure, 0).ok()?;
        let mut attempt = Attempt::new(judged);
        for (since, cause) in run.causes {
            attempt.wait(u64::from(since.0));
            attempt.do_at_once(cause).ok()?;
        }
        let history = History::of(&attempt);
        let mut watch = Watch {
            verdict: attempt.grade(&exercise).verdict,
            exercise,
            history,
            variant,
            at: 0,
            plays: false,
            speed: SPEED,
            ahead: None,
            stop: 0,
            talks: true,
        };
        watch.look_ahead();
        Some(watch)
    }

    /// What it is made from.
    pub fn exercise(&self) -> &Exercise {
        &self.exercise
    }

    /// All its moments.
    pub fn history(&self) -> &History {
        &self.history
    }

    /// The variant, by number.
    pub fn variant(&self) -> usize {
        self.variant
    }

    /// The moment that is shown, in µs.
    pub fn at(&self) -> u64 {
        self.at
    }

    /// The state at that moment.
    pub fn state(&self) -> JudgedState {
        self.history.state_at(self.at)
    }

    /// Whether it plays.
    pub fn plays(&self) -> bool {
        self.plays
    }

    /// How many times as fast.
    pub fn speed(&self) -> f32 {
        self.speed
    }

    /// Plays this many times as fast, 1 to 16.
    pub fn set_speed(&mut self, speed: f32) {
        self.speed = speed.clamp(1.0, 16.0);
    }

    /// At its end: what became of it.
    pub fn ended(&self) -> Option<Verdict> {
        (self.at >= self.history.end()).then_some(self.verdict)
    }

    /// The step that is talked about.
    pub fn ahead(&self) -> Option<&Ahead> {
        self.ahead.as_ref()
    }

    /// How long the line stood until now, in µs.
    pub fn line_down(&self) -> u64 {
        line_down(&self.history.take_over(self.at))
    }

    /// What was looked at until now.
    pub fn looks(&self) -> Looks {
        Looks::of(self.history.heard_until(self.at))
    }

    /// The aim that the person keeps.
    pub fn aim(&self) -> Option<Aim> {
        super::moment::aim_at(&self.history, self.at)
    }

    /// Plays or stands still. At the end it begins again.
    pub fn play(&mut self, plays: bool) {
        if plays && self.at >= self.history.end() {
            (self.at, self.stop, self.talks) = (0, 0, true);
        }
        self.plays = plays;
        if plays && self.talks {
            self.stop += 1;
            self.talks = false;
        }
    }

    /// Lets real time pass, in µs. It stops before the next doing, and at the end.
    pub fn pass(&mut self, real: u64) {
        if !self.plays {
            return;
        }
        let span = (real as f64 * f64::from(self.speed)) as u64;
        let to = (self.at + span).min(self.history.end());
        let all = self.history.done_until(self.history.end());
        match all.get(self.stop).map(|done| done.at) {
            Some(stop) if to >= stop => {
                // Just before it is done.
                self.at = stop.saturating_sub(1).max(self.at);
                (self.plays, self.talks) = (false, true);
                self.look_ahead();
            }
            _ => {
                self.at = to;
                self.plays = to < self.history.end();
            }
        }
    }

    /// The step that comes next at the moment shown.
    fn look_ahead(&mut self) {
        let attempt = self.history.take_over(self.at);
        self.ahead = ahead(&attempt, &self.exercise);
    }
}

#[cfg(test)]
mod tests {
    use rackproof_files::Problems;
    use rackproof_library::{built_in_drill, load};

    use super::*;

    #[test]
    fn it_stops_before_each_doing_and_comes_to_the_end() {
        let loaded = load(built_in_drill(), &Problems::new()).expect("it has no problem");
        let mut watch = Watch::new(loaded.exercise, 0).expect("the guide finishes");
        let doings = watch.history().done_until(u64::MAX).len();
        let mut stops = 0;
        while watch.at() < watch.history().end() {
            watch.play(true);
            let mut pictures = 0;
            while watch.plays() {
                watch.pass(40_000);
                pictures += 1;
                assert!(pictures < 100_000, "it never stops");
            }
            stops += 1;
            let is_over = watch.at() >= watch.history().end();
            assert_eq!(watch.ended(), is_over.then_some(Verdict::Passed));
            assert!(
                stops <= doings + 1,
                "it stops more often than something is done"
            );
        }
        assert!(stops >= doings / 2, "{stops} stops for {doings} doings");
        // Again from the start.
        watch.play(true);
        assert_eq!((watch.at(), watch.ended()), (0, None));
    }
}
