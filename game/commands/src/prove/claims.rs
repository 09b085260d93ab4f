//! The claims, and the searches that decide them.

use rackproof_attempt::{Deed, Exercise, end_of, replay};
use rackproof_buffer::{HarmKind, Timer};
use rackproof_grade::{Grade, GradeInput, GuideRun, Judged, Verdict};
use rackproof_prove::Progress;

use super::{
    claim_list::claims,
    facts::Counts,
    job::{Kept, judged},
    level::{Effort, Level},
    lines::{Way, deeds_of, lines_of},
    races::Races,
    spoken::spoken_of,
    survey::Survey,
    tasks::{self, Heard},
    vacuity::{self, Vacuity},
};

/// One run of the guide.
#[derive(Clone, Debug)]
pub(crate) struct Guided {
    pub(crate) variant: usize,
    pub(crate) way: usize,
    /// Time with the neighbours quiet, in µs.
    pub(crate) time: Option<u64>,
    /// Runs against everything that the neighbours could choose.
    pub(crate) runs: usize,
    /// Runs that did not end or did not pass.
    pub(crate) failed: usize,
    /// The first of these.
    pub(crate) broke: Option<Way>,
    /// What it did with the neighbours quiet; nothing if it did not finish.
    pub(crate) attempt: Vec<Deed>,
    /// The state of the world at its end.
    pub(crate) end: String,
}

/// All that was found.
#[derive(Clone, Debug)]
pub(crate) struct Proof {
    /// How much its searches with the rules kept merged.
    pub(crate) level: Level,
    pub(crate) kept: Vec<Kept>,
    pub(crate) guided: Vec<Guided>,
    /// How many runs of the guide that passed met each milestone, by number.
    pub(crate) milestones: Vec<u64>,
    /// Harms that the drill speaks of, and those reachable with the rules off: bit n, n-th kind.
    pub(crate) spoken_of: u64,
    pub(crate) reachable: u64,
    /// A way by plain steps on the smallest rack to what no machine may do.
    pub(crate) machine: Option<Way>,
    /// Which timers ran at once, and where a moment decides.
    pub(crate) races: Races,
    /// Pairs of timers that ran at once and that the drill does not name.
    pub(crate) undeclared: Vec<(Timer, Timer)>,
    /// Whether the proof says anything; only if every variant was looked at.
    pub(crate) vacuity: Option<Vacuity>,
    /// What each fact of the drill costs in states on the smallest rack, if they were counted.
    pub(crate) facts: Option<Counts>,
    /// Whether every variant was looked at: else milestones and harms may be missing for that.
    pub(crate) whole: bool,
}

/// Something that was finished, for whoever waits.
pub(crate) enum Line<'l> {
    /// A search.
    Kept(&'l Kept, &'l Exercise),
    /// A search goes on: its variants, its rack, and how far it is.
    Far(&'l [usize], u8, Progress, &'l Exercise),
}

impl Proof {
    /// Whether every claim holds, of those that its level can show.
    pub(crate) fn holds(&self) -> bool {
        claims(self).iter().all(|(_, holds)| *holds)
    }

    pub(crate) fn rules_suffice(&self) -> bool {
        self.kept.iter().all(|one| one.harm.is_none())
    }

    pub(crate) fn fair(&self) -> bool {
        let none = self.kept.iter().all(|one| one.unfair.is_none());
        // What an over-approximation finishes need not be: there the guide must have finished.
        let finished = match self.level {
            Level::Exact | Level::Squeezed => self.kept.iter().all(|one| one.finished > 0),
            Level::Unordered => self.finishes_by_guide(),
        };
        none && finished
    }

    pub(crate) fn sound(&self) -> bool {
        self.kept.iter().all(|one| one.unsound.is_none())
    }

    /// Whether the guide finishes and passes each variant by some way, on the machine as it is.
    fn finishes_by_guide(&self) -> bool {
        let finishes = |variant: &usize| {
            let of_it = |one: &&Guided| one.variant == *variant;
            let ends = |one: &Guided| one.failed == 0 && one.time.is_some();
            self.guided.iter().filter(of_it).any(ends)
        };
        let variants = self.kept.iter().flat_map(|one| &one.variants);
        let mut all = variants.peekable();
        all.peek().is_some() && all.all(finishes)
    }

    pub(crate) fn fair_start(&self) -> bool {
        self.kept.iter().all(|one| one.unfair_start.is_none())
    }

    pub(crate) fn no_corner(&self) -> bool {
        self.kept.iter().all(|one| one.corner.is_none())
    }

    pub(crate) fn machine_keeps(&self) -> bool {
        self.machine.is_none() && self.kept.iter().all(|one| one.machine.is_none())
    }

    pub(crate) fn races_declared(&self) -> bool {
        self.undeclared.is_empty()
    }

    pub(crate) fn congruent(&self) -> bool {
        let without = self.vacuity.as_ref().and_then(|one| one.incongruent);
        without.is_none() && self.kept.iter().all(|one| one.incongruent.is_none())
    }

    pub(crate) fn complete(&self) -> bool {
        self.kept.iter().all(|one| one.complete)
    }

    /// Whether a search stopped at its most states, or was ended.
    pub(crate) fn stopped_at_bound(&self) -> bool {
        let stopped = |one: &Kept| !one.complete && one.incongruent.is_none();
        self.kept.iter().any(stopped)
    }

    pub(crate) fn guide_finishes(&self) -> bool {
        self.guided
            .iter()
            .all(|one| one.failed == 0 && one.time.is_some())
    }

    pub(crate) fn milestones_met(&self) -> bool {
        self.milestones.iter().all(|&visits| visits > 0)
    }

    pub(crate) fn harms_reached(&self) -> bool {
        self.reachable == self.spoken_of
    }
}

/// Decides all claims for the chosen variants on racks of these sizes.
pub(crate) fn prove(
    exercise: &Exercise,
    chosen: &[usize],
    (sizes, effort): (&[u8], Effort),
    tell: &mut dyn FnMut(&Line<'_>),
) -> Proof {
    let mut milestones = vec![0; exercise.drill.milestones.len()];
    let mut guided = Vec::new();
    for &variant in chosen {
        for way in 0..exercise.procedure.ways.len() {
            guided.push(guide(exercise, variant, way, &mut milestones));
        }
    }
    let whole = chosen.len() == exercise.drill.variants.len();
    let level = effort.level;
    let found = tasks::search(
        exercise,
        chosen,
        (sizes, effort),
        whole,
        &mut |heard| match heard {
            Heard::Far(variants, slots, far) => tell(&Line::Far(variants, *slots, *far, exercise)),
            Heard::Kept(kept) => tell(&Line::Kept(kept, exercise)),
        },
    );
    let (kept, plain) = (found.kept, found.plain);
    let mut survey = Survey::default();
    let surveys = kept.iter().map(|one| &one.survey);
    for one in surveys.chain(plain.iter().map(|one| &one.survey)) {
        survey.join(one);
    }
    let asked = whole && level != Level::Unordered;
    let vacuity =
        asked.then(|| vacuity::check(exercise, &kept, &survey, (found.without, found.traps)));
    Proof {
        level,
        undeclared: survey.races.undeclared(&exercise.drill).collect(),
        races: survey.races,
        kept,
        guided,
        milestones,
        spoken_of: match level {
            Level::Exact | Level::Squeezed => spoken_of(exercise),
            Level::Unordered => 0,
        },
        reachable: found.reachable,
        facts: found.facts,
        machine: plain.into_iter().find_map(|one| one.machine),
        vacuity,
        whole,
    }
}

/// The guide on one way of one variant, alone and against all that the neighbours could choose.
pub(super) fn guide(
    exercise: &Exercise,
    variant: usize,
    way: usize,
    milestones: &mut [u64],
) -> Guided {
    let slots = exercise.machine.slots();
    let judged = judged(exercise, variant, slots, &exercise.rules);
    let (mut runs, mut failed, mut broke) = (0, 0, None);
    let quiet = GuideRun::play(&judged, &exercise.procedure, way);
    let time = quiet.as_ref().ok().map(|run| run.time);
    let attempt = quiet.map_or(Vec::new(), |run| deeds_of(&judged, &run.causes));
    let all = GuideRun::play_all(&judged, &exercise.procedure, way, &mut |run| {
        runs += 1;
        if !judged.kept(&run.end) || !judged.passes(&run.end, 0) {
            failed += 1;
            broke.get_or_insert_with(|| lines_of(&judged, &run.causes));
        }
        note_milestones(exercise, &judged, &run, milestones);
    });
    if let Err(stuck) = all {
        failed += 1;
        broke.get_or_insert_with(|| lines_of(&judged, &stuck.causes));
    }
    // What is kept is what was played: as an attempt it must come out as it did here.
    let played = time.and_then(|_| replay(exercise, variant, &attempt));
    if time.is_some() && played.is_none() {
        failed += 1;
    }
    Guided {
        variant,
        way,
        time,
        runs,
        failed,
        broke,
        attempt,
        end: played.as_ref().map(end_of).unwrap_or_default(),
    }
}

fn note_milestones(exercise: &Exercise, judged: &Judged, run: &GuideRun, milestones: &mut [u64]) {
    let grade = Grade::of(GradeInput {
        judged,
        procedure: &exercise.procedure,
        marks: exercise.marks(),
        causes: &run.causes,
        after: 0,
        references: None,
    });
    if grade.verdict == Verdict::Passed {
        for (_, number) in grade.milestones {
            milestones[number] += 1;
        }
    }
}

/// The kinds of harm in a mask.
pub(crate) fn kinds(mask: u64) -> impl Iterator<Item = HarmKind> {
    HarmKind::ALL
        .into_iter()
        .filter(move |&kind| mask >> kind as u8 & 1 == 1)
}
