//! Before it is sent, the board of a slot runs a little past the outfeed mouth, is seen by a beam
//! there, and is drawn back. Normal: whoever stops the machine for it leaves the board across the
//! mouth.

use rackproof_model::Micrometres;

use crate::{
    Hear, Machine, Motion, Outcome, Phase, State,
    runners::{Purpose, RUNNERS_MOST},
};

impl Machine {
    /// Runs the slot's board a little past the mouth.
    pub(crate) fn run_past(&self, s: &mut State, hear: &mut Hear) {
        s.phase = Phase::RunningPast;
        self.run_belts(s, Purpose::RunPast, None, hear);
    }

    /// The board is as far past the mouth as it comes: the belts turn.
    pub(crate) fn turn_back(&self, s: &mut State, hear: &mut Hear) {
        s.phase = if self.seen_past_mouth(s) {
            hear(Outcome::BoardRanPast(s.slot));
            Phase::DrawingBack
        } else {
            Phase::NothingPast
        };
        let leads = self.leads(s);
        s.runners.turn_back(leads);
        let way = Micrometres(-s.belts.way().0);
        s.belts = Motion::begin(&self.parts.axes.belts, way);
    }

    /// Leading edges on belts that ran back and brought boards so far. What jams stays where it is.
    pub(crate) fn leads_drawn_back(&self, s: &State, covered: i32) -> [i32; RUNNERS_MOST] {
        let mut leads = [i32::MAX; RUNNERS_MOST];
        for (lead, runner) in leads.iter_mut().zip(s.runners.list()) {
            let jams = self.jams(runner.board.kind);
            *lead = runner.start + if jams { 0 } else { covered };
        }
        leads
    }

    /// Whether the beam behind the mouth sees a board: its leading edge is past the rack's end, its
    /// tail is not, and it throws back enough light.
    fn seen_past_mouth(&self, s: &State) -> bool {
        let Some(back) = self.parts.storing.draw_back else {
            return false;
        };
        let end = self.parts.rack_length.0;
        let mut across = s.runners.list().iter().zip(self.leads(s));
        across.any(|(runner, lead)| {
            let kind = &self.parts.kinds[runner.board.kind as usize];
            lead > end && lead - kind.length.0 <= end && kind.reflectance >= back.reflectance
        })
    }
}
