//! What a program asks of observations, so that those which tell it nothing can be passed by.

use rackproof_drill::{Condition, IntentKind, SignKind, Width};

use crate::{
    Observation, Program,
    formula::{At, Operator, SetAtom},
    widths::Comparison,
};

/// What a program asks of an observation: intents, signs and conditions as masks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Asks {
    pub(crate) intents: u64,
    pub(crate) signs: u64,
    pub(crate) conditions: u64,
    reaches: bool,
    /// Every observation: it counts them.
    all: bool,
}

impl Asks {
    /// Whether an observation before an intent can tell the program anything. What is known then
    /// was known after the observation before.
    pub(crate) fn before(&self, kind: IntentKind) -> bool {
        let reach = matches!(kind, IntentKind::Take | IntentKind::PutIn);
        self.all || self.intents >> kind as u8 & 1 == 1 || (self.reaches && reach)
    }

    /// Whether it asks for which half-slot a hand reaches.
    pub(crate) fn reaches(self) -> bool {
        self.reaches
    }

    /// Whether it asks for every observation.
    pub(crate) fn all(self) -> bool {
        self.all
    }

    /// Whether an observation after signs can tell the program anything, if `changed` are the
    /// conditions that changed. Of widths it knows nothing.
    pub(crate) fn after(&self, seen: &Observation, changed: u64) -> bool {
        self.all || seen.says(self.signs) || self.conditions & changed != 0
    }
}

impl Program {
    /// Whether an observation without an intent and without signs, and with the same conditions as
    /// the one before, can change the memory. Only Previously counts observations.
    fn counts(&self) -> bool {
        let previously = |operator: &Operator| matches!(operator, Operator::Previously(..));
        self.operators.iter().any(previously)
    }

    /// Whether it asks which product is loaded, but for whether the rails are known to stand at its
    /// width.
    pub(crate) fn asks_for_loaded(&self) -> bool {
        let of_loaded = |width| matches!(width, Width::Wanted | Width::LoadedStored);
        self.operators.iter().any(|operator| match *operator {
            Operator::Is(condition) => {
                matches!(condition, Condition::NextLoaded | Condition::NextChosen)
            }
            Operator::Compares(number) => {
                let Comparison { width, over, .. } = self.comparisons[usize::from(number)];
                of_loaded(width) || over.is_some_and(of_loaded)
            }
            _ => false,
        })
    }

    /// Whether one of these of its operators compares widths.
    pub(crate) fn compares(&self, among: &[bool]) -> bool {
        let mut operators = self.operators.iter().zip(among);
        operators.any(|(operator, among)| *among && matches!(operator, Operator::Compares(_)))
    }

    /// Whether this operator rests on what a look showed, of slots, belts or mouths.
    pub(crate) fn asks_looks(&self, at: At) -> bool {
        let seen = |operator: &Operator| match operator {
            Operator::Set(atom) => matches!(atom, SetAtom::SeenEmpty | SetAtom::SeenBoard),
            Operator::Sign(kind) => matches!(
                kind,
                SignKind::InfeedBeltSeenEmpty
                    | SignKind::InfeedBeltSeenTaken
                    | SignKind::OutfeedBeltSeenEmpty
                    | SignKind::OutfeedBeltSeenTaken
                    | SignKind::InfeedMouthSeenFree
                    | SignKind::InfeedMouthSeenTaken
                    | SignKind::OutfeedMouthSeenFree
                    | SignKind::OutfeedMouthSeenTaken
            ),
            _ => false,
        };
        let needed = self.needed_for(&[at]);
        let mut operators = self.operators.iter().zip(needed);
        operators.any(|(operator, needed)| needed && seen(operator))
    }

    /// What the program asks of an observation.
    pub(crate) fn asks(&self) -> Asks {
        self.asks_of(&vec![true; self.operators.len()])
    }

    /// The same for who needs these of its operators alone.
    pub(crate) fn asks_of(&self, needed: &[bool]) -> Asks {
        let mut asks = Asks {
            all: self.counts(),
            ..Asks::default()
        };
        let operators = self.operators.iter().zip(needed);
        for (operator, _) in operators.filter(|(_, needed)| **needed) {
            match *operator {
                Operator::Did(kind) => asks.intents |= 1 << kind as u8,
                Operator::Sign(kind) => asks.signs |= 1 << kind as u8,
                Operator::Is(condition) => asks.conditions |= 1 << condition as u8,
                Operator::Set(SetAtom::ReachedFor) => asks.reaches = true,
                _ => {}
            }
        }
        asks
    }
}
