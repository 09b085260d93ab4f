//! One go at one variant of a drill, in real time.

use rackproof_drill::{Cause, Chance, Intent, World};
use rackproof_grade::{Grade, GradeInput, Judged, JudgedOutcome, JudgedState, References};
use rackproof_model::{Micros, Model, key::KeyWriter};

use crate::{Exercise, material::hash_of_bytes, neighbour::Neighbour};

/// After so long without a cause the drill's clock stands still, in µs: one hour. The span between
/// two causes is kept in 32 bits.
pub const GAP_MOST: u64 = 3_600_000_000;

/// How finely time passes. It changes nothing: what happens is computed, not stepped.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Pieces {
    /// From event to event.
    #[default]
    Events,
    /// In pieces of at most this span, which is more than nought.
    Of(Micros),
}

/// An outcome with its time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Heard {
    /// Time since the start, in µs.
    pub at: u64,
    /// What was published.
    pub outcome: JudgedOutcome,
}

/// A cause with its time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Done {
    /// Time since the start, in µs.
    pub at: u64,
    /// Time since the cause before, or since the start. At most [`GAP_MOST`].
    pub since: Micros,
    /// What was done.
    pub cause: Cause,
    /// How many outcomes had been heard when it was done, its own among them.
    pub heard: usize,
}

/// Why an intent was not done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refused {
    /// It was not on offer. No time has passed.
    NotOnOffer,
    /// It was on offer, but no longer when the person came to it. Time has passed.
    Gone,
}

/// An attempt in progress. Its causes and their times are its journal; all else follows from them.
#[derive(Clone, Debug)]
pub struct Attempt {
    judged: Judged,
    state: JudgedState,
    at: u64,
    done: Vec<Done>,
    heard: Vec<Heard>,
    pieces: Pieces,
    pub(crate) neighbour: Neighbour,
}

impl Attempt {
    /// An attempt at its start. The environment chooses nothing by itself.
    pub fn new(judged: Judged) -> Attempt {
        let state = judged.start();
        let (done, heard) = (Vec::new(), Vec::new());
        let pieces = Pieces::default();
        Attempt {
            judged,
            state,
            at: 0,
            done,
            heard,
            pieces,
            neighbour: Neighbour::default(),
        }
    }

    /// The same, but time passes in these pieces.
    #[must_use]
    pub fn in_pieces(mut self, pieces: Pieces) -> Attempt {
        self.pieces = pieces;
        self
    }

    /// From now on the neighbours choose by themselves, see [`crate::UPSTREAM_LAYS_AFTER`] and
    /// [`crate::NEIGHBOUR_WORKS_AFTER`].
    #[must_use]
    pub fn with_neighbour(mut self) -> Attempt {
        self.neighbour.acts = true;
        self
    }

    /// The world and its rules.
    pub fn judged(&self) -> &Judged {
        &self.judged
    }

    /// The world.
    pub fn world(&self) -> &World {
        self.judged.world()
    }

    /// The state now.
    pub fn state(&self) -> &JudgedState {
        &self.state
    }

    /// Time since the start, in µs.
    pub fn at(&self) -> u64 {
        self.at
    }

    /// What was done, in its order.
    pub fn done(&self) -> &[Done] {
        &self.done
    }

    /// What was heard, in its order.
    pub fn heard(&self) -> &[Heard] {
        &self.heard
    }

    /// Whether nothing can be done any more: the job was reported, or the person was hurt.
    pub fn is_over(&self) -> bool {
        self.offers().is_empty()
    }

    /// What the person could do now.
    pub fn offers(&self) -> Vec<Intent> {
        let mut offers = Vec::with_capacity(48);
        self.world().offered(&self.state.world, &mut offers);
        offers
    }

    /// Whether an intent can be done now: it is on offer, or the same but for the figure that is
    /// typed.
    pub fn takes(&self, intent: Intent) -> bool {
        self.world().is_offered(&self.offers(), intent)
    }

    /// What the environment could choose now.
    pub fn chances(&self) -> Vec<Chance> {
        let mut chances = Vec::new();
        self.world().chosen(&self.state.world, &mut chances);
        chances
    }

    /// Does an intent at the person's pace: time passes first, then it takes effect.
    ///
    /// # Errors
    /// If it was not on offer, or no longer when it should have taken effect.
    pub fn do_intent(&mut self, intent: Intent) -> Result<(), Refused> {
        if !self.takes(intent) {
            return Err(Refused::NotOnOffer);
        }
        let stand = self.state.world.person.stand;
        let takes = self.world().hall().pace.of(intent, stand);
        self.wait(u64::from(takes.0));
        self.do_at_once(Cause::Did(intent))
            .map_err(|_| Refused::Gone)
    }

    /// Does a cause at this moment.
    ///
    /// # Errors
    /// If it is neither on offer nor among the chances.
    pub fn do_at_once(&mut self, cause: Cause) -> Result<(), Refused> {
        let possible = match cause {
            Cause::Did(intent) => self.takes(intent),
            Cause::Chose(chance) => self.chances().contains(&chance),
        };
        if !possible {
            return Err(Refused::NotOnOffer);
        }
        let (at, heard) = (self.at, &mut self.heard);
        self.judged.act(&mut self.state, cause, &mut |outcome| {
            heard.push(Heard { at, outcome });
        });
        let since = self.since();
        let heard = self.heard.len();
        self.done.push(Done {
            at,
            since,
            cause,
            heard,
        });
        Ok(())
    }

    /// Lets time pass, in µs. See [`GAP_MOST`].
    pub fn wait(&mut self, span: u64) {
        let mut left = span;
        self.neighbour_acts();
        while left > 0 {
            let room = GAP_MOST - u64::from(self.since().0);
            let part = left.min(room).min(self.part());
            if part == 0 {
                break;
            }
            let span = Micros(u32::try_from(part).unwrap_or(u32::MAX));
            self.at += part;
            left -= part;
            let (at, heard) = (self.at, &mut self.heard);
            self.judged.advance(&mut self.state, span, &mut |outcome| {
                heard.push(Heard { at, outcome });
            });
            self.neighbour_acts();
        }
    }

    /// Lets time pass to the next event of the world. `false` if none is ahead. That the time of a
    /// rule runs out is nothing that a person could wait for.
    pub fn wait_for_event(&mut self) -> bool {
        let next = self.world().next_event(&self.state.world);
        if let Some(next) = next {
            self.wait(u64::from(next.0));
        }
        next.is_some()
    }

    /// Lets time pass until no event of the world is ahead. `false` if that does not come within
    /// [`GAP_MOST`].
    pub fn wait_for_rest(&mut self) -> bool {
        let start = self.at;
        while self.at - start < GAP_MOST && u64::from(self.since().0) < GAP_MOST {
            if !self.wait_for_event() {
                return true;
            }
        }
        false
    }

    /// The journal as `grade` takes it: each cause with the time since the one before.
    pub fn causes(&self) -> Vec<(Micros, Cause)> {
        self.done
            .iter()
            .map(|done| (done.since, done.cause))
            .collect()
    }

    /// Grades what was done so far. `exercise` must be the one that the attempt was made from.
    pub fn grade(&self, exercise: &Exercise) -> Grade {
        self.grade_against(exercise, None)
    }

    /// The same with the guide's times in this variant already known.
    pub fn grade_against(&self, exercise: &Exercise, references: Option<&References>) -> Grade {
        Grade::of(GradeInput {
            judged: &self.judged,
            procedure: &exercise.procedure,
            marks: exercise.marks(),
            causes: &self.causes(),
            after: u64::from(self.since().0),
            references,
        })
    }

    /// The SHA-256 of the key of the world's state, in 64 hexadecimal figures.
    pub fn key_hash(&self) -> String {
        let mut writer = KeyWriter::new();
        self.world().write_key(&self.state.world, &mut writer);
        hash_of_bytes(writer.finish())
    }

    /// Time since the last cause.
    pub fn since(&self) -> Micros {
        let last = self.done.last().map_or(0, |done| done.at);
        Micros(u32::try_from(self.at - last).unwrap_or(u32::MAX))
    }

    /// How much time may pass at once, in µs.
    fn part(&self) -> u64 {
        let part = self.until_event().unwrap_or(u64::MAX);
        match self.pieces {
            Pieces::Of(piece) => part.min(u64::from(piece.0.max(1))),
            _ => part,
        }
    }

    /// How long nothing happens by itself, in µs: neither in the machine, nor with a rule's time,
    /// nor by a neighbour's choice. `None`: nothing is ahead.
    pub fn until_event(&self) -> Option<u64> {
        let event = self.judged.next_event(&self.state);
        let neighbour = Some(self.neighbour_part()).filter(|&part| part < u64::MAX);
        [event.map(|next| u64::from(next.0)), neighbour]
            .into_iter()
            .flatten()
            .min()
    }
}
