//! What monitors see of one moment: an intent that is about to be done, or signs that came.

use rackproof_buffer::{Answer, Halves};
use rackproof_drill::{
    Condition, Conditions, Intent, IntentKind, Outcome, Sign, SignKind, State, Width, Widths, World,
};
use rackproof_model::Micrometres;

/// One observation. An act gives two: the intent with what was known before it, then the signs with
/// what is known after it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Observation {
    intent: Option<IntentKind>,
    signs: u64,
    conditions: Conditions,
    seen_empty: Halves,
    seen_board: Halves,
    answered: Halves,
    reached_for: Halves,
    at_belts: Halves,
    widths: Widths,
    quiet: bool,
}

impl Observation {
    /// What is known when the person is about to do `intent`.
    pub fn before(world: &World, state: &State, intent: Intent) -> Observation {
        let known = world.conditions(state, Some(intent));
        let mut observation = Observation::before_with(known, state, intent);
        observation.widths = world.widths(state);
        observation
    }

    /// The same with what is known already worked out.
    pub(crate) fn before_with(
        conditions: Conditions,
        state: &State,
        intent: Intent,
    ) -> Observation {
        let reached_for = match intent {
            Intent::Take(at) | Intent::PutIn(at) => Halves::one(at),
            _ => Halves::NONE,
        };
        Observation {
            intent: Some(intent.kind()),
            reached_for,
            conditions,
            at_belts: at_belts(state),
            ..Observation::default()
        }
    }

    /// What is known now, with no sign yet. Add signs with [`Observation::hear`].
    pub fn now(world: &World, state: &State) -> Observation {
        let mut observation = Observation::default();
        observation.settle(world, state);
        observation
    }

    /// What is known while time passes and nothing is done or heard: between two observations.
    pub fn quiet(world: &World, state: &State) -> Observation {
        Observation {
            quiet: true,
            ..Observation::now(world, state)
        }
    }

    /// The same for formulas that read no width.
    pub(crate) fn quiet_without_widths(world: &World, state: &State) -> Observation {
        let mut observation = Observation {
            quiet: true,
            ..Observation::default()
        };
        observation.settle_without_widths(world, state);
        observation
    }

    /// Takes up an outcome, if it is a sign. `true` if it was.
    pub fn hear(&mut self, outcome: &Outcome) -> bool {
        let Outcome::Sign(sign) = outcome else {
            return false;
        };
        sign.kinds(&mut |kind| self.signs |= 1 << kind as u8);
        match sign {
            Sign::Looked { empty, boards } => {
                self.seen_empty = self.seen_empty.union(*empty);
                self.seen_board = self.seen_board.union(*boards);
            }
            Sign::Machine(sign) => {
                if let rackproof_buffer::Outcome::Answered(slot, answer) = sign.shown()
                    && answer != Answer::NotSure
                {
                    self.answered = self.answered.union(Halves::slot(slot));
                }
            }
            _ => {}
        }
        true
    }

    /// Fills in what is known after the signs.
    pub fn settle(&mut self, world: &World, state: &State) {
        self.settle_without_widths(world, state);
        self.widths = world.widths(state);
    }

    /// The same for formulas that read no width. Gives what is known.
    pub(crate) fn settle_without_widths(&mut self, world: &World, state: &State) -> Conditions {
        self.conditions = world.conditions(state, None);
        self.at_belts = at_belts(state);
        self.conditions
    }

    /// Takes up the widths that can be read, if there is a need of them.
    pub(crate) fn read(&mut self, widths: Option<Widths>) {
        if let Some(widths) = widths {
            self.widths = widths;
        }
    }

    /// Whether any sign came.
    pub fn has_signs(&self) -> bool {
        self.signs != 0
    }

    /// Whether it brings one of these signs, or a set.
    pub(crate) fn says(&self, signs: u64) -> bool {
        let sets = [self.seen_empty, self.seen_board, self.answered];
        self.signs & signs != 0 || sets.iter().any(|set| !set.is_empty())
    }

    /// The signs as a mask.
    pub(crate) fn signs(&self) -> u64 {
        self.signs
    }

    /// What is known, as a mask.
    pub(crate) fn conditions(&self) -> u64 {
        self.conditions.0
    }

    /// Whether something was seen, answered or reached for.
    pub(crate) fn has_sets(&self) -> bool {
        let seen = self.seen_empty.union(self.seen_board);
        let reached = self.answered.union(self.reached_for);
        !seen.union(reached).is_empty()
    }

    pub(crate) fn is_quiet(&self) -> bool {
        self.quiet
    }

    pub(crate) fn intent(&self) -> Option<IntentKind> {
        self.intent
    }

    pub(crate) fn did(&self, kind: IntentKind) -> bool {
        self.intent == Some(kind)
    }

    pub(crate) fn sign(&self, kind: SignKind) -> bool {
        self.signs >> kind as u8 & 1 == 1
    }

    pub(crate) fn is(&self, condition: Condition) -> bool {
        self.conditions.has(condition)
    }

    pub(crate) fn set(&self, set: crate::formula::SetAtom) -> Halves {
        use crate::formula::SetAtom;
        match set {
            SetAtom::SeenEmpty => self.seen_empty,
            SetAtom::SeenBoard => self.seen_board,
            SetAtom::Answered => self.answered,
            SetAtom::ReachedFor => self.reached_for,
        }
    }

    pub(crate) fn at_belts(&self) -> Halves {
        self.at_belts
    }

    /// What is read of a width now.
    pub(crate) fn width(&self, width: Width) -> Option<Micrometres> {
        self.widths.of(width)
    }
}

#[cfg(test)]
impl Observation {
    /// The same with the widths that can be read.
    pub(crate) fn reading(self, widths: Widths) -> Observation {
        Observation { widths, ..self }
    }

    /// What is to be seen after it while nothing comes.
    pub(crate) fn as_quiet(self) -> Observation {
        Observation {
            quiet: true,
            conditions: self.conditions,
            at_belts: self.at_belts,
            widths: self.widths,
            ..Observation::default()
        }
    }

    /// An observation made up for a test.
    pub(crate) fn sample(
        intent: Option<IntentKind>,
        signs: u64,
        conditions: u64,
        seen_empty: Halves,
        at_belts: Halves,
    ) -> Observation {
        Observation {
            quiet: false,
            intent,
            signs,
            conditions: Conditions(conditions),
            seen_empty,
            at_belts,
            ..Observation::default()
        }
    }
}

fn at_belts(state: &State) -> Halves {
    state
        .machine
        .slot_at_belts()
        .map_or(Halves::NONE, Halves::slot)
}
