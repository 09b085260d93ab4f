//! What an attempt left behind: boards, and a line that stood.
//!
//! This is truth, like the finish: what the person knew of it counts for nothing.

use rackproof_buffer::{Board, Condition, Mode, Outcome as Shown, UnitState};
use rackproof_drill::{Fact, Intent, Outcome, Sign, State, Tray, World};

use crate::JudgedOutcome;

/// The result of an attempt in boards and time.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Outturn {
    /// Boards that are good no more, wherever they are: an overstrained one too. A board that was
    /// harmed twice is one.
    pub lost: u32,
    /// Boards that were put with the good ones, into quarantine, and into the scrap bin.
    pub put_down: [u32; 3],
    /// Boards put with the good ones that are good no more: nobody can find them again.
    pub untraced: u32,
    /// Boards that somebody put into the rack by hand: the controller does not know when they came,
    /// so that the order of boards is lost.
    pub put_in: u32,
    /// Boards at the end that lie in the rack, on belts, across mouths, or are still in hand.
    pub left: u32,
    /// How long the line stood, in µs: all time in which the unit was not in Execute in mode
    /// Production. A changeover stops the line by itself, so that its own time counts too.
    pub line_stood: u64,
}

/// Counts along an attempt.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Counting {
    outturn: Outturn,
}

fn runs(s: &State) -> bool {
    s.machine.unit() == UnitState::Execute && s.machine.mode() == Mode::Production
}

/// The boards that are anywhere in the drill: in the rack, on and between the belts, in hand.
fn boards(world: &World, s: &State) -> impl Iterator<Item = Board> {
    let rack: Vec<Board> = s.machine.rack.iter().map(|(_, board)| board).collect();
    let lying: Vec<Board> = world
        .machine()
        .lying(&s.machine)
        .map(|one| one.board)
        .collect();
    rack.into_iter().chain(lying).chain(s.person.board)
}

fn harmed(world: &World, s: &State) -> u32 {
    boards(world, s)
        .filter(|board| board.condition != Condition::Good)
        .count() as u32
}

impl Counting {
    /// Lets a span pass that began in this state and in which nothing happens before its end.
    pub(crate) fn pass(&mut self, s: &State, span: u64) {
        if !runs(s) {
            self.outturn.line_stood += span;
        }
    }

    /// Takes up what was heard of an intent, or of time, between two states.
    pub(crate) fn take(
        &mut self,
        world: &World,
        intent: Option<Intent>,
        heard: &[JudgedOutcome],
        (before, after): (&State, &State),
    ) {
        for outcome in heard {
            match outcome {
                JudgedOutcome::World(Outcome::Fact(fact)) => self.fact(*fact, intent),
                JudgedOutcome::World(Outcome::Sign(sign)) if is_sent(sign) => {
                    // A harmed board that left for the machine downstream is seen no more.
                    let gone = harmed(world, before).saturating_sub(harmed(world, after));
                    self.outturn.lost += gone;
                }
                _ => {}
            }
        }
    }

    fn fact(&mut self, fact: Fact, intent: Option<Intent>) {
        match (fact, intent) {
            (Fact::BoardPutIn(..), _) => self.outturn.put_in += 1,
            (Fact::BoardPutDown { good, .. }, Some(Intent::PutDown(tray))) => {
                self.outturn.put_down[tray as usize] += 1;
                self.outturn.lost += u32::from(!good);
                self.outturn.untraced += u32::from(!good && tray == Tray::Good);
            }
            _ => {}
        }
    }

    /// The result, at the end.
    pub(crate) fn finish(mut self, world: &World, s: &State) -> Outturn {
        self.outturn.lost += harmed(world, s);
        self.outturn.left = boards(world, s).count() as u32;
        self.outturn
    }
}

fn is_sent(sign: &Sign) -> bool {
    matches!(sign, Sign::Machine(sign)
        if matches!(sign.shown(), Shown::BoardSent(_) | Shown::BoardPassed(_)))
}
