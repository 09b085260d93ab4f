//! What mends a neighbour.
//!
//! The trainee takes out of its plug what does not belong there: a jumper, or a test box. Its
//! people were asked to hold before, and no belt runs: a contact that opens in the middle of a
//! hand-over leaves a board between two machines. From then on the contact says what is so.
//!
//! The people downstream, asked in so many words, look at their own machine. Asked to hold, they
//! take out a jumper that was left in their plug; told to go on, they clear what stopped them and
//! run again: from then on they take a board whenever one is offered. They answer at once, as all
//! neighbours do: the talk is in the person's pace.
//!
//! Source: common practice.

use rackproof_buffer::Side;
use rackproof_model::Micros;

use super::Mark;
use crate::{
    Available, Cue, Downstream, Intent, Outcome, Ready, Sign, State, Told, Upstream, Works, World,
    act::Hear,
};

impl World {
    /// Upstream as it works now, after what was mended there.
    pub(crate) fn upstream_now(&self, s: &State) -> Option<Upstream> {
        let mut upstream = self.upstream()?;
        if s.next_door.has(Mark::PlugClear(Side::Infeed)) {
            // Without its box nobody is there: Board Available stays open, and no board comes.
            if upstream.available == Available::TestBox {
                upstream.works = Works::Stopped;
            }
            upstream.available = Available::AtExit;
        }
        Some(upstream)
    }

    /// Whether the people at a side were asked to hold and no belt runs: their plug may be touched
    /// then.
    pub(crate) fn may_touch_plug(&self, s: &State, side: Side) -> bool {
        let [_, _, belts] = s.machine.motions();
        let holds = match side {
            Side::Infeed => self.upstream().is_some() && s.upstream_held,
            Side::Outfeed => self.downstream().is_some() && s.downstream_held,
        };
        holds && belts.is_rest()
    }

    /// What is in a neighbour's plug that does not belong there: the cue of taking it out.
    pub(crate) fn wrong_in_plug(&self, s: &State, side: Side) -> Option<Cue> {
        let (jumper, test_box) = match side {
            Side::Infeed => {
                let available = self.upstream_now(s)?.available;
                (
                    available == Available::Jumper,
                    available == Available::TestBox,
                )
            }
            Side::Outfeed => {
                let ready = self.downstream_now(s)?.ready;
                (ready == Ready::Jumper, ready == Ready::TestBox)
            }
        };
        let cue = jumper.then_some(Cue::JumperOut(side));
        cue.or(test_box.then_some(Cue::TestBoxOff(side)))
    }

    /// A hand looks over a neighbour's plug, and takes out what does not belong there.
    pub(crate) fn clear_plug(&self, s: &mut State, side: Side, hear: &mut Hear) {
        let found = self.wrong_in_plug(s, side);
        if found.is_some() {
            s.next_door.set(Mark::PlugClear(side), true);
        }
        let cue = found.unwrap_or(Cue::PlugInOrder(side));
        hear(Outcome::Sign(Sign::Cue(cue)));
    }

    /// Downstream as it works now, after what was mended there.
    pub(crate) fn downstream_now(&self, s: &State) -> Option<Downstream> {
        let mut downstream = self.downstream()?;
        if s.next_door.has(Mark::PlugClear(Side::Outfeed)) {
            // Without its box nobody is there: Machine Ready stays open.
            if downstream.ready == Ready::TestBox {
                downstream.works = Works::Stopped;
            }
            downstream.ready = Ready::Room;
        }
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
