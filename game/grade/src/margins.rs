//! By how much a rule was kept or missed: the least over the attempt, in time and in width.
//!
//! Each formula has a margin as it has a truth. An operator with the window `[0, b]` has b less the
//! age of its newest witness, one with `[a, ∞)` the age of its oldest less a. A comparison of
//! widths has the room to its limit. Not turns the margin round, And takes the less, Or the
//! greater; over a set each half-slot has its own. What the measure cannot turn has none, for or
//! against: time and width are two measures, and each sees the other as a plain yes or no. Under a
//! window only the truth of a formula counts. These are the measures in time and in space of signal
//! temporal logic (Donzé and Maler 2010, from memory), for past windows alone.
//!
//! They are taken where something is done or heard, where a window runs out, and right before. The
//! monitors of a proof have no need of them: only a grade keeps this memory.

use rackproof_drill::{IntentKind, Unread, Width};
use rackproof_model::Micros;

use crate::{
    Moment, Observation, Program, Watch, WidthRead,
    changes::{Changes, Signals},
    formula::{At, Values},
    known::{Known, Sort, known},
    prepared::Prepared,
};

mod degree;
mod layout;
mod track;

use degree::Measure;
use layout::Layout;
use track::{Present, Track};

/// By how much a rule was kept or missed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spare {
    /// Time to spare, in µs. Less than nought: missed by so much.
    Time(i64),
    /// The width that was read, beside the limit that was nearest.
    Width(WidthRead),
}

/// What there is to say of a breach in time or width.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Missed {
    /// By how much the rule was missed: less than nought.
    By(Spare),
    /// This width could not be read, so that no comparison with it held; and why.
    Unread(Width, Unread),
}

/// The least margin of one rule over an attempt, in one measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Margin {
    /// The number of the rule.
    pub rule: usize,
    /// By how much.
    pub spare: Spare,
    /// When it was least.
    pub moment: Moment,
}

/// Which rules have margins, worked out once for all attempts.
#[derive(Clone, Debug)]
pub(crate) struct Measured {
    /// What the margins rest on, and nothing else of the program.
    prepared: Prepared,
    layouts: Vec<Layout>,
    /// The number of each rule that has a margin, and its operator.
    roots: Vec<(usize, At)>,
    /// For each kind of intent, for signs, and for time that passes: whether no margin can be near
    /// then. No margin is carried on from one observation to another if any of them is true.
    far: Vec<bool>,
    /// What is to be remembered all the same, if something is.
    remembers: Option<Changes>,
    /// Whether that rests on widths.
    remembers_widths: bool,
}

impl Measured {
    /// The margins of a program whose rules have these roots. `None`: no rule has one.
    pub(crate) fn of(program: &Program, roots: &[At]) -> Option<Measured> {
        let measures = [Measure::Time, Measure::Width].into_iter();
        let layouts = measures.filter_map(|measure| Layout::of(program, measure));
        let layouts: Vec<Layout> = layouts.collect();
        let has = |root: At| layouts.iter().any(|layout| layout.has(root));
        let rules = roots.iter().copied().enumerate();
        let roots: Vec<(usize, At)> = rules.filter(|&(_, root)| has(root)).collect();
        if roots.is_empty() {
            return None;
        }
        let read = layouts
            .iter()
            .flat_map(|layout| layout.read.iter().copied());
        let read: Vec<At> = read.chain(roots.iter().map(|&(_, root)| root)).collect();
        let needed = program.needed_for(&read);
        let memory = (0..).zip(&program.operators).zip(&needed);
        let memory = memory.filter(|((_, operator), needed)| **needed && operator.remembers());
        let memory: Vec<At> = memory.map(|((at, _), _)| at).collect();
        let carries = memory.iter().any(|&at| has(at));
        let is_far = |sort| {
            let known = known(program, sort);
            let is_known = |at: At| matches!(known[at as usize], Known::Truth(_));
            !carries && roots.iter().all(|&(_, root)| is_known(root))
        };
        let rests_on = program.needed_for(&memory);
        let remembers = (!memory.is_empty()).then(|| Changes::of(program, &rests_on));
        let before = IntentKind::ALL.iter().map(|&(_, kind)| Sort::Before(kind));
        let sorts = before.chain([Sort::After, Sort::Quiet]);
        Some(Measured {
            far: sorts.map(is_far).collect(),
            remembers,
            remembers_widths: program.compares(&rests_on),
            prepared: Prepared::part(program.clone(), &read),
            layouts,
            roots,
        })
    }
}

impl Measured {
    /// Whether time that passes can bring a margin nearer, or change what is remembered.
    pub(crate) fn hears_time(&self) -> bool {
        let quiet = IntentKind::ALL.len() + 1;
        self.prepared.program.gaps_matter || !self.far[quiet]
    }

    fn is_far(&self, seen: &Observation) -> bool {
        let sort = match seen.intent() {
            Some(kind) => kind as usize,
            None if seen.is_quiet() => IntentKind::ALL.len() + 1,
            None => IntentKind::ALL.len(),
        };
        self.far[sort]
    }
}

/// The margins of rules along an attempt.
#[derive(Clone, Debug)]
pub(crate) struct Margins<'r> {
    measured: &'r Measured,
    watch: Watch,
    /// Half-moments since the start.
    now: u64,
    /// Whether the present is no observation, but time that passes.
    quiet: bool,
    /// The present of what is remembered.
    signals: Signals<'r>,
    /// One for each measure that the formulas have.
    tracks: Vec<Track<'r>>,
    /// For each measure and each root: its least margin so far.
    least: Vec<Vec<Option<Margin>>>,
    /// For each measure and each root: by how much it is missed now, or which width of it could not
    /// be read.
    present: Vec<Vec<Option<Result<Spare, Width>>>>,
}

impl<'r> Margins<'r> {
    pub(crate) fn new(measured: &'r Measured) -> Margins<'r> {
        let program = &measured.prepared.program;
        let layouts = measured.layouts.iter();
        let tracks: Vec<Track<'r>> = layouts.map(|layout| Track::new(program, layout)).collect();
        let none = measured.roots.len();
        Margins {
            watch: Watch::default(),
            now: 0,
            quiet: false,
            signals: Signals::new(program),
            least: vec![vec![None; none]; tracks.len()],
            present: vec![vec![None; none]; tracks.len()],
            tracks,
            measured,
        }
    }

    /// Whether the widths of an observation are read.
    pub(crate) fn reads(&self, seen: &Observation) -> bool {
        self.measured.remembers_widths || !self.measured.is_far(seen)
    }

    /// Lets an observation pass.
    pub(crate) fn observe(&mut self, seen: &Observation, moment: Moment) {
        if self.measured.is_far(seen) {
            self.present.iter_mut().for_each(|missed| missed.fill(None));
            self.remember(seen);
            return;
        }
        // What is worked out whole is not kept for what is remembered.
        self.signals.renew();
        let values = self.measured.prepared.step(&mut self.watch, seen);
        self.quiet = seen.is_quiet();
        self.take::<false>(&values, seen, moment);
    }

    fn remember(&mut self, seen: &Observation) {
        let prepared = &self.measured.prepared;
        match &self.measured.remembers {
            Some(changes) if changes.hears_all() => {
                prepared.step(&mut self.watch, seen);
            }
            Some(changes) => {
                let present = (&mut self.signals, &mut self.watch);
                changes.step::<false>(&prepared.program, present, seen);
            }
            None => {}
        }
    }

    /// Lets a span pass in which only `quiet` is to be seen. `moment` is its end. What no gap can
    /// change was taken at the observation before.
    pub(crate) fn pass(&mut self, quiet: &Observation, span: Micros, moment: Moment) {
        let prepared = &self.measured.prepared;
        if span == Micros(0) || !prepared.program.gaps_matter {
            return;
        }
        let (begin, last) = (self.now, 2 * u64::from(span.0) - 1);
        let mut watch = self.watch;
        let mut before = None;
        self.quiet = true;
        prepared.program.pass(&mut watch, span, &mut |watch, now| {
            // What held until now, at its end.
            if let Some(values) = &before {
                self.take_at(begin, now - 1, (values, quiet), moment);
            }
            let values = prepared.quietly(watch, quiet, now);
            self.take_at(begin, now, (&values, quiet), moment);
            before = Some(values);
            values
        });
        if let Some(values) = &before {
            self.take_at(begin, last, (values, quiet), moment);
        }
        self.watch = watch;
        self.now = begin + last + 1;
    }

    fn take_at(
        &mut self,
        begin: u64,
        now: u64,
        (values, seen): (&Values<'_>, &Observation),
        moment: Moment,
    ) {
        self.now = begin + now;
        if now % 2 == 1 {
            self.take::<true>(values, seen, moment);
        } else {
            self.take::<false>(values, seen, moment);
        }
    }

    /// The least margin of each rule that has one, rule by rule, time before width.
    pub(crate) fn finish(self) -> Vec<Margin> {
        let roots = 0..self.measured.roots.len();
        let least = &self.least;
        roots
            .flat_map(|root| least.iter().filter_map(move |track| track[root]))
            .collect()
    }

    /// By how much a rule is missed now, if it is: first in width, which says more. `why` says why
    /// a width cannot be read.
    pub(crate) fn missed(
        &self,
        rule: usize,
        why: impl Fn(Width) -> Option<Unread>,
    ) -> Option<Missed> {
        let mut roots = self.measured.roots.iter();
        let root = roots.position(|&(known, _)| known == rule)?;
        match self.present.iter().rev().find_map(|track| track[root])? {
            Ok(spare) => Some(Missed::By(spare)),
            Err(width) => Some(Missed::Unread(width, why(width)?)),
        }
    }

    /// Whether the first rule is true by its margin in each measure that it has, for a test. None
    /// where no margin was worked out.
    #[cfg(test)]
    pub(crate) fn truths(&self, seen: &Observation) -> Vec<bool> {
        if self.measured.is_far(seen) {
            return Vec::new();
        }
        let root = self.measured.roots[0].1;
        let tracks = self.tracks.iter();
        tracks.filter_map(|track| track.is_true(root)).collect()
    }

    fn take<const GAP: bool>(&mut self, values: &Values<'_>, seen: &Observation, moment: Moment) {
        let present = Present {
            values,
            seen,
            now: self.now,
            quiet: self.quiet,
        };
        let kept = self.least.iter_mut().zip(&mut self.present);
        for (track, (least, missed)) in self.tracks.iter_mut().zip(kept) {
            track.take::<GAP>(present);
            for (number, &(rule, root)) in self.measured.roots.iter().enumerate() {
                missed[number] = track.missed(root);
                let Some(spare) = track.spare(root) else {
                    continue;
                };
                let less = |known: Margin| spare.amount() < known.spare.amount();
                if least[number].is_none_or(less) {
                    least[number] = Some(Margin {
                        rule,
                        spare,
                        moment,
                    });
                }
            }
        }
    }
}

impl Spare {
    /// By how much, in µs or µm. Less than nought: missed.
    pub fn amount(self) -> i64 {
        match self {
            Spare::Time(spare) => spare,
            Spare::Width(read) => i64::from(read.spare().0),
        }
    }
}
