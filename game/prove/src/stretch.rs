//! Ways through classes of states that do the same sooner or later: the real state may have to go
//! round some more before it can take the next step.

use std::ops::ControlFlow;

use rackproof_model::{Model, Stride, key::KeyWriter};

use crate::{
    exploration::Exploration,
    moves::{Move, Successors},
    nodes::Node,
};

/// After so many states it is given up.
const STATES_MOST: usize = 6_000;
/// So many of the last strides are repeated to go round once more.
const ROUND: usize = 3;

/// A state on a way that is stretched, how it was reached, and from which of those before it.
struct Stop<M: Model> {
    state: M::State,
    between: bool,
    reached: Option<(usize, Move<M::Cause>)>,
}

/// Moves one after the other, and the state that they lead to.
type Stretched<M> = (Vec<Move<<M as Model>::Cause>>, <M as Model>::State);

impl<M: Model> Exploration<'_, M> {
    /// The fewest moves from a state of the class of `pair[0]` into the class of `pair[1]`, by
    /// waiting for events and by strides as the last ones of the way, or the one that is due here.
    pub(crate) fn stretch(
        &self,
        successors: &mut Successors<M::Cause>,
        (state, between): (M::State, bool),
        pair: &[Node],
        strides: &[Stride<M::Cause>],
    ) -> Option<Stretched<M>> {
        let mut members = vec![self.state(pair[0])];
        self.model.alike(&self.state(pair[0]), &mut members);
        let here = members
            .iter()
            .find_map(|member| self.step_into(successors, member, between, pair[1]));
        let here = match here {
            Some((Move::Stride(stride), _)) => Some(stride),
            _ => None,
        };
        // The real state may stand elsewhere, so that it begins otherwise: the last cause counts.
        let last = |stride: &Stride<M::Cause>| stride.causes().last();
        let round = strides.iter().rev().take(ROUND);
        let lasts: Vec<_> = round.chain(&here).map(last).collect();
        let is_taken = |taken: &Move<M::Cause>, between: bool| match taken {
            Move::Stride(stride) => lasts.contains(&last(stride)),
            Move::Wait(_) => !between,
            Move::Chance(_) => false,
        };
        let mut stops: Vec<Stop<M>> = vec![Stop {
            state,
            between,
            reached: None,
        }];
        let (mut at, mut writer) = (0, KeyWriter::new());
        while at < stops.len() && stops.len() < STATES_MOST {
            let (state, between) = (stops[at].state, stops[at].between);
            let end = successors.visit(self.model, &state, between, &mut |taken, child, inside| {
                if !is_taken(taken, inside) {
                    return ControlFlow::Continue(());
                }
                writer.clear();
                self.model.write_key(child, &mut writer);
                let arrived = writer.finish() == self.nodes.entry(pair[1]).0;
                let known = |stop: &Stop<M>| stop.between == inside && stop.state == *child;
                if arrived || !stops.iter().any(known) {
                    stops.push(Stop {
                        state: *child,
                        between: inside,
                        reached: Some((at, *taken)),
                    });
                }
                if arrived {
                    ControlFlow::Break(())
                } else {
                    ControlFlow::Continue(())
                }
            });
            if end.is_break() {
                return Some(way_to_last(&stops));
            }
            at += 1;
        }
        None
    }
}

fn way_to_last<M: Model>(stops: &[Stop<M>]) -> Stretched<M> {
    let last = &stops[stops.len() - 1];
    let (mut moves, mut reached) = (Vec::new(), last.reached);
    while let Some((from, taken)) = reached {
        moves.push(taken);
        reached = stops[from].reached;
    }
    moves.reverse();
    (moves, last.state)
}
