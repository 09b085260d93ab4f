//! Views of what is open, for the pages.

use rackproof_attempt::{Done, Heard, Looks, PlayedAs, Sheet};
use rackproof_drill::{Cause, Intent, IntentKind, State, World, message::of_intent};
use rackproof_panel::{
    Around, AttemptRow, CourseDrill, CourseView, DebriefView, DrillView, Ending, Over, PartRow,
    Tried, Watching, Way,
};
use rackproof_phrases::{TaskSheet, text};
use rackproof_words::{Arg, Words};

use crate::session::{
    Became, KeptAttempt, Moment, OpenDrill, Play, Review, Session, Watch, name_of, way_of,
};

/// What the hall adds to a page.
pub(crate) struct FromHall<'h> {
    /// The name of the part under the pointer.
    pub(crate) pointed: Option<&'h str>,
    /// All parts.
    pub(crate) parts: &'h [PartRow],
    /// Real time, in s.
    pub(crate) seconds: f64,
}

/// What a drill page shows of a moment, whoever plays: the rest is as if nothing were done.
struct Shown<'s> {
    world: &'s World,
    state: &'s State,
    heard: &'s [Heard],
    looks: &'s Looks,
    sheet: &'s Sheet,
    offers: &'s [Intent],
    way: Way,
    at: u64,
    down: u64,
    reference: Option<u64>,
    log: &'s [String],
}

impl<'s> Shown<'s> {
    fn view(&self, session: &'s Session, hall: &FromHall<'s>) -> DrillView<'s> {
        DrillView {
            words: &session.words,
            world: self.world,
            way: self.way,
            at: self.at,
            down: self.down,
            in_minutes: false,
            reference: self.reference,
            panel: self.world.panel(self.state),
            person: self.state.person,
            around: Around::of(self.state),
            offers: self.offers,
            heard: self.heard,
            looks: self.looks,
            sheet: self.sheet,
            ahead: None,
            way_on: None,
            doing: None,
            gone: None,
            page: session.page,
            over: session.over,
            pointed: hall.pointed,
            parts: hall.parts,
            preferences: session.preferences,
            watching: None,
            log: self.log,
            seconds: hall.seconds,
        }
    }
}

/// Shows a drill that is played to `page`.
pub(crate) fn with_play<R>(
    session: &Session,
    play: &Play,
    hall: &FromHall<'_>,
    page: impl FnOnce(&DrillView<'_>) -> R,
) -> R {
    let attempt = play.attempt();
    let done = attempt.done().get(..play.logged()).unwrap_or_default();
    let shown = Shown {
        world: attempt.world(),
        state: &attempt.state().world,
        heard: attempt.heard(),
        looks: play.looks(),
        sheet: play.sheet(),
        offers: &attempt.offers(),
        way: play.way(),
        at: attempt.at(),
        down: play.line_down(),
        reference: play.reference(),
        log: &log_of(attempt.world(), done, &session.words),
    };
    page(&DrillView {
        ahead: play.ahead(),
        way_on: play.way_on(),
        doing: play.doing(),
        gone: play.gone(),
        in_minutes: true,
        ..shown.view(session, hall)
    })
}

/// Shows an attempt that plays to `page`. Nothing can be done in it.
pub(crate) fn with_watch<R>(
    session: &Session,
    watch: &Watch,
    hall: &FromHall<'_>,
    page: impl FnOnce(&DrillView<'_>) -> R,
) -> R {
    let history = watch.history();
    let world = history.judged().world();
    let done = history.done_until(watch.at());
    let written = |done: &Done| done.cause == Cause::Did(Intent::WriteLog);
    let logged = done.iter().position(written).map_or(0, |at| at + 1);
    let shown = Shown {
        world,
        state: &watch.state().world,
        heard: history.heard_until(watch.at()),
        looks: &watch.looks(),
        sheet: &Sheet::default(),
        offers: &[],
        way: Way::Watch,
        at: watch.at(),
        down: watch.line_down(),
        reference: Some(history.end()),
        log: &log_of(world, &done[..logged], &session.words),
    };
    page(&DrillView {
        ahead: watch.ahead(),
        watching: Some(Watching {
            plays: watch.plays(),
            speed: watch.speed(),
            whole: history.end(),
            ended: watch.ended(),
        }),
        ..shown.view(session, hall)
    })
}

/// Shows one moment of an attempt to `page`. What could be done is shown, and nothing can be.
pub(crate) fn with_moment<R>(
    session: &Session,
    moment: &Moment,
    hall: &FromHall<'_>,
    page: impl FnOnce(&DrillView<'_>) -> R,
) -> R {
    let history = moment.history();
    let world = history.judged().world();
    let state = moment.state().world;
    let mut offers = Vec::new();
    world.offered(&state, &mut offers);
    let shown = Shown {
        world,
        state: &state,
        heard: history.heard_until(moment.at()),
        looks: moment.looks(),
        sheet: moment.sheet(),
        offers: &offers,
        way: moment.way(),
        at: moment.at(),
        down: moment.line_down(),
        reference: moment.reference(),
        log: &[],
    };
    page(&shown.view(session, hall))
}

/// What a person wrote into the log: what they did to machine and boards, with its time.
fn log_of(world: &World, done: &[Done], words: &Words) -> Vec<String> {
    let counts = |intent: &Intent| {
        !matches!(
            intent.kind(),
            IntentKind::Walk | IntentKind::Torch | IntentKind::TestStraps
        )
    };
    let start = world.start();
    done.iter()
        .filter_map(|done| match done.cause {
            Cause::Did(intent) if counts(&intent) => {
                let told = text(words, &of_intent(world, &start, intent));
                let arguments = [("time", Arg::Clock(done.at)), ("done", Arg::from(told))];
                Some(words.say("window-log-line", &arguments))
            }
            _ => None,
        })
        .collect()
}

/// How many attempts are listed at most.
const LISTED_MOST: usize = 100;

/// Shows the course to `page`.
pub(crate) fn with_course<R>(session: &Session, page: impl FnOnce(&CourseView<'_>) -> R) -> R {
    let drill = &session.exercise().drill;
    let variants: Vec<String> = drill.variants.iter().map(|one| one.id.clone()).collect();
    let sheet = (session.over == Some(Over::Sheet))
        .then(|| TaskSheet::of(session.exercise(), &session.words));
    let drills: Vec<CourseDrill<'_>> = session.drills().iter().map(drill_of).collect();
    let newest = session.attempts().iter().take(LISTED_MOST);
    page(&CourseView {
        words: &session.words,
        drills: &drills,
        drill: session.chosen(),
        variants: &variants,
        variant: session.variant,
        allowed: u64::from(drill.limits.minutes) * 60_000_000,
        reference: session.reference,
        proof: &session.proof_told(),
        exam_open: session.exam_closed().is_none(),
        sheet: sheet.as_ref(),
        attempts: &newest.map(row_of).collect::<Vec<_>>(),
        attempts_kept: session.attempts().len(),
        trouble: session.trouble.as_deref(),
        over: session.over,
        preferences: session.preferences,
    })
}

fn drill_of(open: &OpenDrill) -> CourseDrill<'_> {
    CourseDrill {
        name: &open.exercise.drill.id,
        tried: tried(&open.attempts),
    }
}

fn row_of(kept: &KeptAttempt) -> AttemptRow {
    AttemptRow {
        file: name_of(&kept.path),
        way: way_of(kept.mode),
        ending: match kept.became {
            Became::Passed => Ending::Passed,
            Became::Failed => Ending::Failed,
            Became::Open => Ending::Open,
        },
    }
}

/// What counts of the attempts: exams that have a verdict, and practice that ended with a report.
/// What was left on the way counts for nothing.
pub(crate) fn tried(attempts: &[KeptAttempt]) -> Tried {
    let mut tried = Tried::default();
    for attempt in attempts {
        match (attempt.mode, attempt.became) {
            (PlayedAs::Exam, Became::Passed) => tried.passed += 1,
            (PlayedAs::Exam, Became::Failed) => tried.failed += 1,
            (PlayedAs::Exam, Became::Open) => {}
            (PlayedAs::Guided | PlayedAs::Practice, _) => {
                tried.practised += usize::from(attempt.reported);
            }
        }
    }
    tried
}

/// Shows the debrief of an attempt to `page`.
pub(crate) fn with_review<R>(
    session: &Session,
    review: &Review,
    page: impl FnOnce(&DebriefView<'_>) -> R,
) -> R {
    page(&DebriefView {
        words: &session.words,
        exercise: review.exercise(),
        history: review.history(),
        findings: review.findings(),
        timeline: review.timeline(),
        way: review.way(),
        badge: None,
        attempt: &name_of(review.path()),
        helped: review.helped(),
        claim: review.claim(),
        ways: review.ways_told(),
        at: review.at(),
        plays: review.plays(),
        speed: review.speed(),
        chosen: review.chosen(),
        over: session.over,
        preferences: session.preferences,
    })
}
