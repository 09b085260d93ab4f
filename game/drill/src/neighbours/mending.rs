//! What the people downstream do when they are asked in so many words: they look at their own
//! machine. Asked to hold, they take out a jumper that was left in their plug; told to go on, they
//! clear what stopped them and run again: from then on they take a board whenever one is offered.
//! They answer at once, as all neighbours do: the talk is in
//! the person's pace.
//!
//! Source: common practice.

use rackproof_model::Micros;

use super::Mark;
use crate::{Downstream, Intent, Ready, State, Told, Works, World};

impl World {
    /// Downstream as it works now, after what its people have mended.
    pub(crate) fn downstream_now(&self, s: &State) -> Option<Downstream> {
        let mut downstream = self.downstream()?;
        if s.next_door.has(Mark::Looked) && downstream.ready == Ready::Jumper {
            downstream.ready = Ready::OnOffer;
        }
        if s.next_door.has(Mark::Runs) {
            let at_once = Micros(0);
            downstream.works = Works::Every {
                cycle: at_once,
                first: at_once,
            };
        }
        Some(downstream)
    }

    /// The people downstream are talked to: what they do, and what more they say.
    pub(crate) fn mend_downstream(&self, s: &mut State, intent: Intent) -> Option<Told> {
        let downstream = self.downstream()?;
        if !downstream.mends {
            return None;
        }
        let next = &mut s.next_door;
        match intent {
            Intent::AskDownstreamHold if !next.has(Mark::Looked) => {
                next.set(Mark::Looked, true);
                let jumper = downstream.ready == Ready::Jumper;
                Some(if jumper {
                    Told::DownstreamMends
                } else {
                    Told::DownstreamStands
                })
            }
            Intent::LetDownstreamGo if next.has(Mark::Looked) && !next.has(Mark::Runs) => {
                next.set(Mark::Runs, true);
                next.set(Mark::Busy, false);
                None
            }
            _ => None,
        }
    }
}
