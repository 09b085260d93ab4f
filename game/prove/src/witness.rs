//! A way from a start to a state, cause by cause, and its replay.

use rackproof_model::{Micros, Model};

/// One step of a witness.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step<C> {
    /// Time passed, up to the next event at most.
    Waited(Micros),
    /// The person did this.
    Did(C),
    /// The environment chose this.
    Chose(C),
}

/// A way from a start to a state.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Witness<C> {
    /// Which of the starts it begins at, counted from 0.
    pub start: usize,
    /// What happened, in order. The causes of one stride are spelled out one by one.
    pub steps: Vec<Step<C>>,
    /// Number of the explorer's steps, a stride counted once. No way there has fewer.
    pub moves: usize,
    /// `None`: the steps are a run of the model from the start as it was given. Else the first
    /// move, counted from 0, at which no successor of the real state was of the next class; from
    /// there on the steps run from the states that the keys read back as. Only a key that merges
    /// states which do not behave alike can do that.
    pub strayed: Option<usize>,
}

/// Why a replay stopped.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Misstep<C> {
    /// The person was not offered this.
    NotOffered {
        /// Which step, counted from 0.
        step: usize,
        /// What was to be done.
        cause: C,
    },
    /// This was not among the environment's chances.
    NotAChance {
        /// Which step, counted from 0.
        step: usize,
        /// What was to be chosen.
        cause: C,
    },
    /// The wait would pass the next event, or there is none.
    TooLong {
        /// Which step, counted from 0.
        step: usize,
        /// How long the wait was to be.
        span: Micros,
        /// The time to the next event, if there is one.
        event: Option<Micros>,
    },
}

/// Runs `steps` from `start`, each of them checked against what the model allows there, and gives
/// the state at the end. Every outcome is told to `hear`.
///
/// # Errors
/// The first step that the model does not allow.
pub fn replay<M: Model>(
    model: &M,
    start: &M::State,
    steps: &[Step<M::Cause>],
    hear: &mut impl FnMut(M::Outcome),
) -> Result<M::State, Misstep<M::Cause>> {
    let mut state = *start;
    let mut allowed = Vec::new();
    for (step, &what) in steps.iter().enumerate() {
        allowed.clear();
        match what {
            Step::Did(cause) => {
                model.offers(&state, &mut allowed);
                if !allowed.contains(&cause) {
                    return Err(Misstep::NotOffered { step, cause });
                }
                model.act(&mut state, cause, hear);
            }
            Step::Chose(cause) => {
                model.chances(&state, &mut allowed);
                if !allowed.contains(&cause) {
                    return Err(Misstep::NotAChance { step, cause });
                }
                model.act(&mut state, cause, hear);
            }
            Step::Waited(span) => {
                let event = model.next_event(&state);
                if event.is_none_or(|event| span > event) {
                    return Err(Misstep::TooLong { step, span, event });
                }
                model.advance(&mut state, span, hear);
            }
        }
    }
    Ok(state)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::toys::counter::{Counter, Press};

    #[test]
    fn a_replay_goes_as_far_as_the_model_allows() {
        let world = Counter {
            numbers: 3,
            span: Micros(10),
        };
        let (did, chose) = (Step::Did(Press), Step::Chose(Press));
        let waited = |span| Step::Waited(Micros(span));
        let too_long = |step, span, event: Option<u32>| {
            Err(Misstep::TooLong {
                step,
                span: Micros(span),
                event: event.map(Micros),
            })
        };
        let cases = [
            (vec![], Ok((0, None))),
            (vec![did], Ok((0, Some(10)))),
            (vec![did, waited(4)], Ok((0, Some(6)))),
            (vec![did, waited(4), waited(6)], Ok((1, None))),
            (vec![waited(1)], too_long(0, 1, None)),
            (vec![did, waited(4), waited(7)], too_long(2, 7, Some(6))),
            (
                vec![did, did],
                Err(Misstep::NotOffered {
                    step: 1,
                    cause: Press,
                }),
            ),
            (
                vec![chose],
                Err(Misstep::NotAChance {
                    step: 0,
                    cause: Press,
                }),
            ),
        ];
        for (steps, expected) in cases {
            let end = replay(&world, &world.start(), &steps, &mut |_| ())
                .map(|end| (end.count, end.left.map(|left| left.0)));
            assert_eq!(end, expected, "{steps:?}");
        }
    }
}
