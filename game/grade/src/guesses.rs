//! Signs that something was guessed: answers that came too fast for a look, and words given without
//! one.
//!
//! From intents and signs alone, like the rules. They explain an attempt; no verdict rests on them.

use rackproof_buffer::{Answer, Button, Half, Outcome, Question};
use rackproof_drill::{Intent, Sign, VoidCause};
use rackproof_model::Micros;

use crate::{JudgedState, Looked, Moment};

/// An answer that comes sooner after its question counts as given at once: nobody reads, looks and
/// presses in less. Our own figure, not measured.
pub const AT_ONCE: Micros = Micros(1_000_000);

/// What looks like a guess.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GuessKind {
    /// The panel's question was answered after this time, less than [`AT_ONCE`]. The answer “not
    /// sure” is none: it claims nothing.
    AnsweredAtOnce(Micros),
    /// The rack was declared empty without one look into it since something moved last.
    DeclaredUnlooked,
}

/// A sign that something was guessed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Guess {
    /// When.
    pub moment: Moment,
    /// What was done.
    pub intent: Intent,
    /// What is odd about it.
    pub kind: GuessKind,
    /// The state at that moment, before it was done.
    pub state: JudgedState,
}

/// Listens for guesses.
#[derive(Clone, Debug, Default)]
pub(crate) struct Guesses {
    /// The open question, and when it was asked.
    asked: Option<(u64, Question)>,
    /// Whether somebody looked into the rack since something moved.
    looked: bool,
    pub(crate) found: Vec<Guess>,
}

impl Guesses {
    /// Hears of an intent right before it is done.
    pub(crate) fn about_to(&mut self, intent: Intent, moment: Moment, state: &JudgedState) {
        let mut found = |kind| {
            self.found.push(Guess {
                moment,
                intent,
                kind,
                state: *state,
            });
        };
        if intent == Intent::Press(Button::HoldDeclare) && !self.looked {
            found(GuessKind::DeclaredUnlooked);
        }
        let Some((at, question)) = self.asked else {
            return;
        };
        let claims = match intent {
            Intent::Press(Button::Answer(answer)) => {
                asks_first(question).then_some(answer != Answer::NotSure)
            }
            Intent::Press(Button::Start) => (question == Question::Rails).then_some(true),
            _ => None,
        };
        let Some(claims) = claims else {
            return;
        };
        self.asked = None;
        let after = moment.at - at;
        if claims && after < u64::from(AT_ONCE.0) {
            found(GuessKind::AnsweredAtOnce(Micros(after as u32)));
        }
    }

    /// Hears a sign.
    pub(crate) fn hear(&mut self, sign: &Sign, at: u64) {
        match sign {
            Sign::Looked { .. } => self.looked = true,
            Sign::LooksVoided(VoidCause::Moved(_)) => self.looked = false,
            Sign::Machine(sign) => {
                if let Outcome::Asked(question) = sign.shown() {
                    self.asked = Some((at, question));
                }
            }
            _ => {}
        }
    }
}

/// Whether a question of the clear-out is the first about its slot. The second half is asked in
/// the instant in which the first is answered: one look covers both.
fn asks_first(question: Question) -> bool {
    match question {
        Question::Answer(_) => true,
        Question::AnswerHalf(at) => at.half == Half::Infeed,
        _ => false,
    }
}

impl Looked {
    /// Takes up a sign: looks add up until they are void.
    pub(crate) fn hear(&mut self, sign: &Sign) {
        match sign {
            Sign::Looked { empty, boards } => {
                self.empty = self.empty.union(*empty);
                self.boards = self.boards.union(*boards);
            }
            Sign::LooksVoided(_) => *self = Looked::default(),
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use rackproof_buffer::{AxisName, HalfSlot, Halves};
    use rackproof_drill::MachineSign;

    use super::*;
    use crate::judged_tests::loaded;

    fn asked(question: Question) -> Sign {
        Sign::Machine(MachineSign::of(Outcome::Asked(question)).expect("it is on the panel"))
    }

    fn kinds(doings: &[(u64, Result<Sign, Intent>)]) -> Vec<GuessKind> {
        let (mut guesses, state) = (Guesses::default(), loaded().0[0].start());
        for (at, doing) in doings {
            let moment = Moment {
                at: *at,
                cause: Some(0),
            };
            match doing {
                Ok(sign) => guesses.hear(sign, *at),
                Err(intent) => guesses.about_to(*intent, moment, &state),
            }
        }
        guesses.found.iter().map(|guess| guess.kind).collect()
    }

    #[test]
    fn an_answer_is_a_guess_only_under_the_bound_and_only_once() {
        let answer = |answer| Intent::Press(Button::Answer(answer));
        let start = Intent::Press(Button::Start);
        let most = u64::from(AT_ONCE.0);
        let half = |half| Question::AnswerHalf(HalfSlot { slot: 3, half });
        let at_once = |after: u64| vec![GuessKind::AnsweredAtOnce(Micros(after as u32))];
        let cases = [
            (
                Question::Answer(3),
                answer(Answer::SeenEmpty),
                most - 1,
                at_once(most - 1),
            ),
            (Question::Answer(3), answer(Answer::SeenEmpty), most, vec![]),
            (Question::Answer(3), answer(Answer::Taken), 0, at_once(0)),
            (Question::Answer(3), answer(Answer::NotSure), 0, vec![]),
            (Question::Answer(3), start, 0, vec![]),
            (half(Half::Infeed), answer(Answer::SeenEmpty), 1, at_once(1)),
            (half(Half::Outfeed), answer(Answer::SeenEmpty), 1, vec![]),
            (Question::Rails, start, 1, at_once(1)),
            (Question::Seen(3), start, 1, vec![]),
        ];
        for (question, intent, after, expected) in cases {
            let doings = [
                (5, Ok(asked(question))),
                (5 + after, Err(intent)),
                (5 + after, Err(intent)),
            ];
            assert_eq!(kinds(&doings), expected, "{question:?} {intent:?} {after}");
        }
    }

    #[test]
    fn who_declares_without_one_look_since_motion_guesses() {
        let declare = Err(Intent::Press(Button::HoldDeclare));
        let look = Ok(Sign::Looked {
            empty: Halves::NONE,
            boards: Halves::NONE,
        });
        let moved = Ok(Sign::LooksVoided(VoidCause::Moved(AxisName::Lift)));
        // A hand is no motion: whoever looked before it has looked.
        let hand = Ok(Sign::LooksVoided(VoidCause::HandEntered));
        let unlooked = [GuessKind::DeclaredUnlooked];
        assert_eq!(kinds(&[(0, declare)]), unlooked);
        assert_eq!(kinds(&[(0, look), (1, declare)]), []);
        assert_eq!(kinds(&[(0, look), (1, moved), (2, declare)]), unlooked);
        assert_eq!(kinds(&[(0, look), (1, hand), (2, declare)]), []);
    }
}
