//! The guide's times: what an attempt is held against. They depend on the variant and the procedure
//! alone.

use crate::{GuideRun, Judged, Procedure};

/// How long the guide takes in one variant, for each way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct References(Vec<Option<u64>>);

impl References {
    /// Plays every way with the environment choosing nothing.
    pub fn of(judged: &Judged, procedure: &Procedure) -> References {
        let ways = 0..procedure.ways.len();
        References(
            ways.map(|way| References::play(judged, procedure, way))
                .collect(),
        )
    }

    /// The guide's time on a way, in µs. `None` if it does not finish, or if there is no such way.
    pub fn of_way(&self, way: usize) -> Option<u64> {
        self.0.get(way).copied().flatten()
    }

    /// The longest of them, in µs.
    pub fn longest(&self) -> Option<u64> {
        self.0.iter().copied().flatten().max()
    }

    pub(crate) fn play(judged: &Judged, procedure: &Procedure, way: usize) -> Option<u64> {
        let run = GuideRun::play(judged, procedure, way);
        run.ok().map(|run| run.time)
    }
}
