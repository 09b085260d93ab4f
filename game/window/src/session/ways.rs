//! Ways on: in practice from here, by what can be known; in the debrief from the moment shown, the
//! guide's and the shortest.
//!
//! The shortest is searched beside the window, which draws on meanwhile. Nothing that is decided in
//! an attempt rests on it.

use std::{
    ops::ControlFlow,
    sync::{
        Arc, Mutex, PoisonError,
        atomic::{AtomicBool, Ordering},
    },
    thread,
};

use rackproof_attempt::{SearchShortest, Shortest, WhatIf, right_before};
use rackproof_panel::{Over, Way};
use rackproof_phrases::{OtherTold, WaysTold};

use super::{Review, Screen, Session};

/// Both ways on from a moment.
pub(super) struct Ways {
    told: WaysTold,
    found: Arc<Mutex<Option<Shortest>>>,
    given_up: Arc<AtomicBool>,
}

impl Drop for Ways {
    fn drop(&mut self) {
        self.given_up.store(true, Ordering::Relaxed);
    }
}

impl Review {
    /// What is told of the ways on.
    pub fn ways_told(&self) -> Option<&WaysTold> {
        self.ways().map(|ways| &ways.told)
    }
}

impl Session {
    /// Practice: tells a safe way on from here.
    pub(super) fn way_on(&mut self) {
        let Screen::Play(play) = &mut self.screen else {
            return;
        };
        if play.way() != Way::Practice {
            return;
        }
        let done = play.ask_way_on(&self.words);
        self.lay_over(Some(Over::WayOn));
        self.tell(done);
    }

    /// Debrief: tells the ways on from right before the chosen finding, else from the moment shown.
    pub(super) fn ways_on(&mut self) {
        let Screen::Review(review) = &mut self.screen else {
            return;
        };
        review.play(false);
        let (history, grade) = (review.history(), review.grade());
        let attempt = history.take_over(history.end());
        let exercise = review.exercise();
        let moment = review.chosen().and_then(|number| {
            let finding = review.findings().list.get(number)?;
            finding.moment
        });
        let (guide, start) = match moment {
            Some(moment) => (
                WhatIf::before(&attempt, exercise, grade, moment),
                right_before(&attempt, moment),
            ),
            None => (
                WhatIf::at(&attempt, exercise, grade, review.at()),
                (review.at(), history.done_until(review.at()).len()),
            ),
        };
        // Both from the same moment, though it lies before the one that was asked for.
        let start = guide.as_ref().map_or(start, |way| (way.from.at, way.same));
        let told = WaysTold {
            at: start.0,
            guide: OtherTold::of_guide(&self.words, guide.as_ref(), grade),
            shortest: None,
        };
        let ways = Ways {
            told,
            found: Arc::default(),
            given_up: Arc::default(),
        };
        if let Some(search) = self.search {
            let about = (attempt, exercise.clone(), grade.clone());
            begin(search, about, start, (&ways.found, &ways.given_up));
        }
        review.set_ways(ways);
        self.over = Some(Over::WaysOn);
    }

    /// Takes up what the search found, once it has.
    pub(super) fn hear_search(&mut self) {
        let Screen::Review(review) = &mut self.screen else {
            return;
        };
        review.take_found(&self.words);
    }
}

/// Searches in a thread of its own, until it is done or nobody wants to know any more.
fn begin(
    search: SearchShortest,
    (attempt, exercise, grade): (
        rackproof_attempt::Attempt,
        rackproof_attempt::Exercise,
        rackproof_grade::Grade,
    ),
    start: (u64, usize),
    (found, given_up): (&Arc<Mutex<Option<Shortest>>>, &Arc<AtomicBool>),
) {
    let (found, given_up) = (found.clone(), given_up.clone());
    thread::spawn(move || {
        let mut watch = |_| match given_up.load(Ordering::Relaxed) {
            true => ControlFlow::Break(()),
            false => ControlFlow::Continue(()),
        };
        let answer = search((&attempt, &exercise, &grade), start, &mut watch);
        *found.lock().unwrap_or_else(PoisonError::into_inner) = Some(answer);
    });
}

impl Ways {
    /// What the search answered since, if it did.
    pub(super) fn answer(&self) -> Option<Shortest> {
        let mut found = self.found.lock().unwrap_or_else(PoisonError::into_inner);
        found.take()
    }

    /// Takes up what the search answered.
    pub(super) fn hear(&mut self, told: OtherTold) {
        self.told.shortest = Some(told);
    }
}
