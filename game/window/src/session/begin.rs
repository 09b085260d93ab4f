//! How a drill is begun: anew, again, or from a moment of an attempt.

use std::hash::{BuildHasher, Hasher, RandomState};

use rackproof_attempt::{Attempt, Exercise, Recorder};
use rackproof_library::new_attempt;
use rackproof_panel::Way;

use super::{OpenDrill, Play, Screen, Session, Watch, played_as};

impl Session {
    pub(super) fn begin(&mut self, way: Way, variant: Option<usize>) {
        if way == Way::Exam
            && let Some(closed) = self.exam_closed()
        {
            self.trouble = Some(closed);
            return;
        }
        let count = self.exercise().drill.variants.len();
        let chosen = variant.filter(|_| way != Way::Exam);
        let variant = chosen.unwrap_or_else(|| drawn(count));
        if way == Way::Watch {
            match Watch::new(self.exercise().clone(), variant) {
                Some(watch) => self.show(Screen::Watch(Box::new(watch))),
                None => self.trouble = Some(self.words.say("window-nothing-to-watch", &[])),
            }
            return;
        }
        let Some(judged) = self.exercise().judged(variant) else {
            return;
        };
        let attempt = Attempt::new(judged).with_neighbour();
        self.play(attempt, self.exercise().clone(), way, variant);
    }

    pub(super) fn play(&mut self, attempt: Attempt, exercise: Exercise, way: Way, variant: usize) {
        let OpenDrill {
            material: Some(material),
            proof,
            ..
        } = self.drill()
        else {
            return;
        };
        let name = self.folder.join(&exercise.drill.id);
        let begun =
            new_attempt(None, &name.to_string_lossy()).and_then(
                |(path, file)| match Recorder::begin(
                    file,
                    material,
                    &exercise,
                    variant,
                    played_as(way),
                    proof,
                ) {
                    Ok(recorder) => Ok((path, recorder)),
                    Err(error) => Err((path, error)),
                },
            );
        match begun {
            Ok((path, recorder)) => {
                let begins_at = attempt.at();
                let mut play = Play::new(exercise, attempt, recorder, path, (way, variant));
                let noted = match begins_at {
                    0 => Ok(()),
                    at => play.note(format!("TakenOver({at})")),
                };
                self.show(Screen::Play(Box::new(play)));
                self.tell(noted);
            }
            Err((path, error)) => self.unwritten(&path, &error),
        }
    }

    pub(super) fn again(&mut self) {
        let (way, variant) = match &self.screen {
            Screen::Course | Screen::Moment(_) => return,
            Screen::Play(play) => (play.way(), play.variant()),
            Screen::Watch(watch) => (Way::Watch, watch.variant()),
            Screen::Review(review) => (review.way(), review.variant()),
        };
        // Again is the same variant: no exam is that.
        let way = if way == Way::Exam { Way::Practice } else { way };
        self.begin(way, Some(variant));
    }

    pub(super) fn take_over(&mut self) {
        let Screen::Review(review) = &self.screen else {
            return;
        };
        let attempt = review.history().take_over(review.at());
        if attempt.is_over() {
            self.trouble = Some(self.words.say("window-nothing-left-to-do", &[]));
            return;
        }
        let (variant, exercise) = (review.variant(), review.exercise().clone());
        self.play(attempt, exercise, Way::Practice, variant);
    }
}

/// Any number below `count`, which is more than nought: which variant it becomes. What was drawn
/// is kept in the attempt, so that nothing rests on how it was drawn.
fn drawn(count: usize) -> usize {
    let number = RandomState::new().build_hasher().finish();
    usize::try_from(number % count.max(1) as u64).unwrap_or(0)
}
