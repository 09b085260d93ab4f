//! How far runners can come, and where they are now: places of their leading edges along the flow,
//! in µm from the rack's infeed end.

use crate::{
    Machine, State,
    runners::{Purpose, RUNNERS_MOST, Runner},
};

/// No stop in the way.
const NO_STOP: i32 = i32::MAX / 2;

impl Machine {
    /// How far each runner can come: its own stop, or the tail of the one ahead.
    pub(crate) fn stops(&self, s: &State) -> [i32; RUNNERS_MOST] {
        self.each_with_stop(s, |_, stop| stop)
    }

    /// Something of each runner and how far it can come.
    #[inline(always)]
    fn each_with_stop(&self, s: &State, of: impl Fn(&Runner, i32) -> i32) -> [i32; RUNNERS_MOST] {
        let mut each = [NO_STOP; RUNNERS_MOST];
        let Some((first, behind)) = s.runners.list().split_first() else {
            return each;
        };
        let mut stop = self.jammed(first, self.first_stop(s));
        each[0] = of(first, stop);
        // Mostly one runs alone.
        if behind.is_empty() {
            return each;
        }
        // The second board of a slot comes to rest at the mouth when the first has left.
        let mouth = self.rest_leads()[1].0;
        let stays = s.runners.purpose == Purpose::Send && self.stores_pairs(s);
        let mut ahead = first;
        for (runner, each) in behind.iter().zip(&mut each[1..]) {
            stop = if stop == NO_STOP {
                self.outfeed_end()
            } else {
                stop - self.length(ahead.board)
            };
            if stays && runner.start <= mouth {
                stop = stop.min(mouth);
            }
            stop = self.jammed(runner, stop);
            *each = of(runner, stop);
            ahead = runner;
        }
        each
    }

    #[inline]
    fn jammed(&self, runner: &Runner, stop: i32) -> i32 {
        self.jam_stop(*runner).map_or(stop, |jam| stop.min(jam))
    }

    /// How far the first runner can come if nothing is ahead of it.
    #[inline]
    fn first_stop(&self, s: &State) -> i32 {
        match s.runners.purpose {
            Purpose::TakeIn => self.rest_leads()[1].0,
            Purpose::RunOut | Purpose::RunPast | Purpose::DrawBack => {
                let lying = s.outfeed_belt[0].map_or(0, |board| self.length(board));
                self.outfeed_end() - lying
            }
            Purpose::Send | Purpose::Through if s.faults.blocked => self.outfeed_end(),
            Purpose::Send | Purpose::Through => NO_STOP,
        }
    }

    /// The motion that begins now, or the rest that comes, begins where the runners are. The
    /// leading edge of the first one, if one runs.
    #[inline]
    pub(crate) fn begin_where_they_are(&self, s: &mut State) -> Option<i32> {
        // Mostly one runs alone, and the way that the belts came.
        let lone = s.runners.len == 1 && s.runners.purpose != Purpose::DrawBack;
        let first = s.runners.first().filter(|_| lone);
        let Some(runner) = first else {
            return self.begin_all_where_they_are(s);
        };
        let covered = self.board_way(s, s.belts.covered(&self.parts.axes.belts).0);
        let stop = self.jammed(&runner, self.first_stop(s));
        let lead = stop.min(runner.start + covered).max(runner.start);
        s.runners.begin_lone_at(lead);
        Some(lead)
    }

    #[inline(never)] // mostly one runs alone
    fn begin_all_where_they_are(&self, s: &mut State) -> Option<i32> {
        let leads = self.leads(s);
        s.runners.begin_at(leads);
        s.runners.first().map(|_| leads[0])
    }

    /// Leading edges now.
    pub(crate) fn leads(&self, s: &State) -> [i32; RUNNERS_MOST] {
        let covered = self.board_way(s, s.belts.covered(&self.parts.axes.belts).0);
        if s.runners.purpose == Purpose::DrawBack {
            return self.leads_drawn_back(s, covered);
        }
        self.each_with_stop(s, |runner, stop| {
            stop.min(runner.start + covered).max(runner.start)
        })
    }
}
