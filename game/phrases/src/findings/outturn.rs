//! What an attempt left behind, and what looks like a guess, in words.

use rackproof_drill::message::of_intent;
use rackproof_grade::{AT_ONCE, Guess, GuessKind};
use rackproof_words::Arg;

use super::{GuessTold, teller::Teller};
use crate::text;

fn count(number: u32) -> Arg<'static> {
    Arg::Number(i64::from(number))
}

impl Teller<'_> {
    pub(super) fn guesses(&self) -> Vec<GuessTold> {
        let guesses = self.grade.guesses.iter();
        guesses.map(|guess| self.guess(guess)).collect()
    }

    fn guess(&self, guess: &Guess) -> GuessTold {
        let (world, state) = (self.judged.world(), &guess.state.world);
        let done = text(self.words, &of_intent(world, state, guess.intent));
        let done = ("done", Arg::from(done));
        let said = match guess.kind {
            GuessKind::AnsweredAtOnce(after) => {
                let after = ("after", Arg::Micros(u64::from(after.0)));
                let least = ("least", Arg::Micros(u64::from(AT_ONCE.0)));
                self.words
                    .say("guess-answered-at-once", &[done, after, least])
            }
            GuessKind::DeclaredUnlooked => self.words.say("guess-declared-unlooked", &[done]),
        };
        GuessTold {
            moment: guess.moment,
            said,
        }
    }

    /// The result in boards and time, a line each.
    pub(super) fn outturn(&self) -> Vec<String> {
        let outturn = &self.grade.outturn;
        let [good, quarantine, scrap] = outturn.put_down.map(count);
        let boards = [
            ("lost", count(outturn.lost)),
            ("left", count(outturn.left)),
            ("quarantine", quarantine),
            ("good", good),
            ("scrap", scrap),
        ];
        let traced = [
            ("untraced", count(outturn.untraced)),
            ("put-in", count(outturn.put_in)),
        ];
        let stood = [("stood", Arg::Clock(outturn.line_stood))];
        vec![
            self.words.say("outturn-boards", &boards),
            self.words.say("outturn-traced", &traced),
            self.words.say("outturn-line", &stood),
        ]
    }
}
