//! The trait that a world implements.

use std::fmt::Debug;

use crate::{
    Instants, Micros,
    key::{Key, KeyWriter},
};

/// How many causes one stride may join.
pub(crate) const STRIDE_MOST: usize = 10;

/// Causes that the explorer takes as one step because nothing can come between them that matters:
/// walk and act, or look at everything that can be seen from here.
///
/// The model declares them; replay and the congruence check test the claim.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stride<C> {
    causes: [Option<C>; STRIDE_MOST],
    len: u8,
}

impl<C: Copy> Stride<C> {
    /// A stride of one cause.
    pub fn one(cause: C) -> Stride<C> {
        Stride::none().then(cause)
    }

    /// A stride of no cause, to be lengthened with [`Stride::then`].
    pub fn none() -> Stride<C> {
        Stride {
            causes: [None; STRIDE_MOST],
            len: 0,
        }
    }

    /// The same stride with one more cause at its end. A stride of more than ten
    /// causes is a bug of the model: it stops with an assertion.
    #[must_use]
    pub fn then(mut self, cause: C) -> Stride<C> {
        assert!(
            (self.len as usize) < STRIDE_MOST,
            "a stride joins too many causes"
        );
        self.causes[self.len as usize] = Some(cause);
        self.len += 1;
        self
    }

    /// With how many equal causes this stride and another begin.
    pub fn shared(&self, other: &Stride<C>) -> usize
    where
        C: PartialEq,
    {
        let pairs = self.causes().zip(other.causes());
        pairs.take_while(|(one, other)| one == other).count()
    }

    /// The causes in their order.
    pub fn causes(&self) -> impl Iterator<Item = C> + '_ {
        self.causes[..self.len as usize].iter().copied().flatten()
    }
}

/// A world that can be run and explored. `self` holds the constants: machine, products, drill,
/// tables of sight, rules. Everything that changes is in [`Model::State`].
///
/// What an implementation must keep:
/// - a state is plain data: no heap, no log, no absolute time, no growing number;
/// - the same state and cause give the same next state and the same outcomes, always;
/// - `advance` is never asked to pass `next_event`;
/// - causes are listed in one fixed order.
pub trait Model {
    /// All that changes.
    type State: Copy + PartialEq;
    /// Something done by the person, or chosen by the environment.
    type Cause: Copy + Eq + Debug;
    /// A fact in the past tense that the world publishes.
    type Outcome: Copy;

    /// Adds everything that the person could do now.
    fn offers(&self, state: &Self::State, out: &mut Vec<Self::Cause>);

    /// Adds everything that the environment could choose now: neighbours, a second person, faults.
    fn chances(&self, state: &Self::State, out: &mut Vec<Self::Cause>);

    /// Adds the person's steps as the explorer takes them, at one instant each. Every offer must be
    /// reachable through some stride. As it stands: each offer alone.
    fn strides(&self, state: &Self::State, out: &mut Vec<Stride<Self::Cause>>) {
        let mut offers = Vec::new();
        self.offers(state, &mut offers);
        out.extend(offers.into_iter().map(Stride::one));
    }

    /// Does `cause`. It must be on offer, or among the chances, in `state`.
    fn act(
        &self,
        state: &mut Self::State,
        cause: Self::Cause,
        hear: &mut impl FnMut(Self::Outcome),
    );

    /// Does causes one after the other, no time between them: as [`Model::act`] does each. For who
    /// works out at the end of an act what is asked again at the beginning of the next.
    fn act_in_turn(
        &self,
        state: &mut Self::State,
        causes: impl Iterator<Item = Self::Cause>,
        hear: &mut impl FnMut(Self::Outcome),
    ) {
        causes.for_each(|cause| self.act(state, cause, hear));
    }

    /// The time to the next event, or `None` if nothing will happen by itself.
    fn next_event(&self, state: &Self::State) -> Option<Micros>;

    /// Adds each moment before the next event at which an act comes out otherwise than just before
    /// it: the last moment at which a stop still ends short of a limit, and the like. The explorer
    /// tries both sides.
    fn critical_instants(&self, state: &Self::State, out: &mut Instants);

    /// Whether the same is ahead of both states for sure: the same next event and the same critical
    /// instants. `false` says nothing. It saves the explorer to work them out once more.
    fn same_ahead(&self, _one: &Self::State, _other: &Self::State) -> bool {
        false
    }

    /// Lets `span` pass. It is never more than [`Model::next_event`]; at the event itself all that
    /// is due is done.
    fn advance(&self, state: &mut Self::State, span: Micros, hear: &mut impl FnMut(Self::Outcome));

    /// Adds states of the same class that are to be gone on from as well: what follows the class is
    /// what follows any of them. As it stands: none, one state stands for its class.
    fn alike(&self, _state: &Self::State, _out: &mut Vec<Self::State>) {}

    /// Whether a step of a state may stay in its class where the one that stands for the class has
    /// gone on: the class is of states that do the same sooner or later. As it stands: no, each
    /// step of one is a step of all.
    fn stutters(&self) -> bool {
        false
    }

    /// Writes the exact key of the state's class: two states with the same key behave alike in all
    /// that the loaded drill asks.
    fn write_key(&self, state: &Self::State, out: &mut KeyWriter);

    /// Writes the same key, and may leave another state of the class in the place of this one: for
    /// who needs it no more.
    fn write_last_key(&self, state: &mut Self::State, out: &mut KeyWriter) {
        self.write_key(state, out);
    }

    /// Whether two states have the same key for sure, seen at a glance. `false` says nothing. It
    /// saves the explorer to write the key of what changes nothing.
    fn same_class(&self, _one: &Self::State, _other: &Self::State) -> bool {
        false
    }

    /// A state of the class that `key` names. `write_key` of it gives `key` again.
    fn read_key(&self, key: &Key) -> Self::State;
}
