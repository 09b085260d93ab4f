//! An attempt done again, with all that perceives: monitors, traps, margins, the course.

use rackproof_drill::{Cause, Intent, Outcome, State};
use rackproof_model::{Micros, Model};

use crate::{
    Breach, Grade, GradeInput, JudgedOutcome, JudgedState, Looked, Missed, Moment, Observation,
    Outturn, References, Severity, Verdict,
    analysis::Course,
    guesses::Guesses,
    listener::{Listener, Told},
    margins::{Margins, Measured},
    outturn::Counting,
};

/// One replay.
pub(crate) struct Replay<'g> {
    input: GradeInput<'g>,
    state: JudgedState,
    marks: Listener<'g>,
    /// Whether somebody listens to time that passes.
    hears_time: bool,
    /// Whether somebody other than the margins compares widths.
    compares: bool,
    heard: Vec<JudgedOutcome>,
    margins: Option<Margins<'g>>,
    course: Course<'g>,
    guesses: Guesses,
    outturn: Counting,
    looked: Looked,
    now: Moment,
    grade: Grade,
    /// The first breach of which the margins have yet to see by how much it was one.
    unmeasured: usize,
}

impl<'g> Replay<'g> {
    /// At the start of an attempt.
    pub(crate) fn new(input: GradeInput<'g>) -> Replay<'g> {
        let state = input.judged.start();
        let world = input.judged.world();
        let measured = input.judged.rules().measured.as_ref();
        let course = Course::new(&input.procedure.analysis, world, &state.world);
        let marks = Listener::new(&input.marks.prepared);
        let listeners = [&marks, course.listener()];
        Replay {
            state,
            hears_time: listeners.iter().any(|one| one.hears_time())
                || measured.is_some_and(Measured::hears_time),
            compares: listeners.iter().any(|one| one.compares()),
            marks,
            heard: Vec::new(),
            margins: measured.map(Margins::new),
            course,
            now: Moment { at: 0, cause: None },
            grade: Grade {
                verdict: Verdict::NotEnded,
                breaches: Vec::new(),
                harms: Vec::new(),
                unfinished: Vec::new(),
                reported: false,
                sprung: Vec::new(),
                milestones: Vec::new(),
                way: 0,
                steps: Vec::new(),
                fitness: None,
                margins: Vec::new(),
                guesses: Vec::new(),
                outturn: Outturn::default(),
                time: 0,
                reference: None,
            },
            guesses: Guesses::default(),
            outturn: Counting::default(),
            looked: Looked::default(),
            unmeasured: 0,
            input,
        }
    }

    /// Lets time pass, in µs.
    pub(crate) fn wait(&mut self, span: u64) {
        let mut left = span;
        while left > 0 {
            let (judged, quiet) = (self.input.judged, self.quiet());
            let next = self.next_event(quiet.as_ref());
            let part = next.map_or(left, |next| u64::from(next.0));
            let part = part.min(left).min(1_000_000_000);
            self.now.at += part;
            left -= part;
            let before = self.state;
            self.outturn.pass(&before.world, part);
            if let Some(quiet) = &quiet {
                self.pass(quiet, Micros(part as u32));
            }
            let mut heard = std::mem::take(&mut self.heard);
            judged.advance(&mut self.state, Micros(part as u32), &mut |outcome| {
                heard.push(outcome)
            });
            let after = self.take(heard, None, &before, Micros(part as u32));
            if after.has_signs() {
                self.settle(after);
            } else if let Some(quiet) = self.quiet() {
                self.observe(&quiet);
            }
        }
    }

    /// What is to be seen while nothing is done or heard, if somebody listens to that.
    fn quiet(&self) -> Option<Observation> {
        let world = self.input.judged.world();
        self.hears_time
            .then(|| Observation::quiet(world, &self.state.world))
    }

    /// Lets all that perceives see what is known after signs.
    fn settle(&mut self, mut after: Observation) {
        let (world, state) = (self.input.judged.world(), &self.state.world);
        after.settle_without_widths(world, state);
        if self.reads_widths(&after) {
            after.read(Some(world.widths(state)));
        }
        self.observe(&after);
    }

    fn reads_widths(&self, seen: &Observation) -> bool {
        let margins = self.margins.as_ref();
        self.compares || margins.is_some_and(|margins| margins.reads(seen))
    }

    /// The next event of the pair, or the next at which a window of a trap or milestone runs out.
    fn next_event(&self, quiet: Option<&Observation>) -> Option<Micros> {
        let own = quiet.and_then(|quiet| self.marks.next_change(quiet));
        let events = [self.input.judged.next_event(&self.state), own];
        events.into_iter().flatten().min()
    }

    /// Lets a span pass for all that perceives, up to the moment at its end.
    fn pass(&mut self, quiet: &Observation, span: Micros) {
        self.course.pass(quiet, span);
        if let Some(margins) = &mut self.margins {
            margins.pass(quiet, span, self.now);
        }
        if let Some(told) = self.marks.pass(quiet, span) {
            note_marks(&mut self.grade, &self.input, &told, self.now);
        }
    }

    /// Does the next cause.
    pub(crate) fn cause(&mut self, cause: Cause) {
        let judged = self.input.judged;
        self.now.cause = Some(self.now.cause.map_or(0, |number| number + 1));
        let (before, mut intent) = (self.state, None);
        if let Cause::Did(did) = cause {
            intent = Some(did);
            self.guesses.about_to(did, self.now, &before);
            self.about_to(did);
        }
        let mut heard = std::mem::take(&mut self.heard);
        judged.act(&mut self.state, cause, &mut |outcome| heard.push(outcome));
        let after = self.take(heard, intent, &before, Micros(0));
        if intent.is_some() || after.has_signs() {
            self.settle(after);
        }
    }

    /// Lets all that perceives see an intent, with what is known before it.
    fn about_to(&mut self, intent: Intent) {
        let (world, state) = (self.input.judged.world(), &self.state.world);
        let known = world.conditions(state, Some(intent));
        let mut before = Observation::before_with(known, state, intent);
        if self.reads_widths(&before) {
            before.read(Some(world.widths(state)));
        }
        self.observe(&before);
    }

    /// Takes up what was heard: the signs among it, with nothing known beside them yet. `before` is
    /// the state before the span after which it was.
    fn take(
        &mut self,
        mut heard: Vec<JudgedOutcome>,
        intent: Option<Intent>,
        before: &JudgedState,
        span: Micros,
    ) -> Observation {
        let mut after = Observation::default();
        let looked = self.looked;
        let mut by_signs = false;
        let states = (&before.world, &self.state.world);
        self.outturn
            .take(self.input.judged.world(), intent, &heard, states);
        for outcome in &heard {
            match outcome {
                JudgedOutcome::Broke(rule) => {
                    let rule = usize::from(*rule);
                    // The margins have not seen yet what signs broke.
                    let missed = (!by_signs).then(|| self.missed(rule, &before.world));
                    self.grade.breaches.push(Breach {
                        moment: self.now,
                        rule,
                        intent,
                        state: self.right_before(before, span),
                        looked,
                        missed: missed.flatten(),
                    });
                    if !by_signs {
                        self.unmeasured = self.grade.breaches.len();
                    }
                }
                JudgedOutcome::World(outcome) => {
                    by_signs = true;
                    after.hear(outcome);
                    match outcome {
                        Outcome::Harm(harm) => self.grade.harms.push((self.now, *harm)),
                        Outcome::Sign(sign) => {
                            self.guesses.hear(sign, self.now.at);
                            self.looked.hear(sign);
                        }
                        Outcome::Fact(_) => {}
                    }
                }
            }
        }
        heard.clear();
        self.heard = heard;
        after
    }

    /// The state right before the end of a span that began in this one: what moves has gone on
    /// until then, and what comes at the end has not come yet.
    fn right_before(&self, from: &JudgedState, span: Micros) -> JudgedState {
        let mut state = *from;
        if span > Micros(1) {
            let until = Micros(span.0 - 1);
            self.input.judged.advance(&mut state, until, &mut |_| {});
        }
        state
    }

    fn observe(&mut self, seen: &Observation) {
        self.course.perceive(seen, self.now);
        if let Some(margins) = &mut self.margins {
            margins.observe(seen, self.now);
        }
        self.note_missed();
        if let Some(told) = self.marks.observe(seen) {
            note_marks(&mut self.grade, &self.input, &told, self.now);
        }
    }

    /// By how much a rule was missed at the last observation, which was of this state.
    fn missed(&self, rule: usize, seen: &State) -> Option<Missed> {
        let why = |width| self.input.judged.world().unread(seen, width);
        self.margins.as_ref()?.missed(rule, why)
    }

    /// What signs broke was told before the margins saw them.
    fn note_missed(&mut self) {
        let told = self.grade.breaches.len();
        for at in std::mem::replace(&mut self.unmeasured, told)..told {
            let missed = self.missed(self.grade.breaches[at].rule, &self.state.world);
            self.grade.breaches[at].missed = missed;
        }
    }

    /// The grade, when all was done.
    pub(crate) fn finish(mut self) -> Grade {
        let judged = self.input.judged;
        self.grade.time = self.now.at;
        self.grade.guesses = std::mem::take(&mut self.guesses.found);
        self.grade.outturn = self.outturn.finish(judged.world(), &self.state.world);
        self.grade.margins = self.margins.take().map_or(Vec::new(), Margins::finish);
        self.grade.reported = self.state.world.person.reported;
        self.grade.unfinished = judged.world().unfinished(&self.state.world).collect();
        self.grade.verdict = self.verdict();
        if let Some(aligned) = self.course.align() {
            self.grade.way = aligned.way;
            self.grade.steps = aligned.steps;
            self.grade.fitness = Some(aligned.fitness);
        }
        self.grade.reference = match self.input.references {
            Some(known) => known.of_way(self.grade.way),
            None => References::play(judged, self.input.procedure, self.grade.way),
        };
        self.grade
    }

    /// A stop breach or a harm decides whether or not the attempt ended.
    fn verdict(&self) -> Verdict {
        let (judged, state) = (self.input.judged, &self.state);
        let majors = self.grade.count(judged, Severity::Major) as u32;
        let stops = self.grade.count(judged, Severity::Stop);
        if judged.passes(state, majors) {
            Verdict::Passed
        } else if state.world.person.reported || stops > 0 || state.world.harms() != 0 {
            Verdict::Failed
        } else {
            Verdict::NotEnded
        }
    }
}

/// Notes the traps that are sprung now, and the milestones that are met, each the first time.
fn note_marks(grade: &mut Grade, input: &GradeInput<'_>, told: &Told<'_, '_>, now: Moment) {
    let traps = input.judged.world().drill().traps.len();
    let roots = input.marks.roots.iter().enumerate();
    let met = roots.filter(|(_, root)| told.concerns(**root) && told.values.truth(**root));
    for (number, _) in met {
        let (list, number) = if number < traps {
            (&mut grade.sprung, number)
        } else {
            (&mut grade.milestones, number - traps)
        };
        if list.iter().all(|(_, known)| *known != number) {
            list.push((now, number));
        }
    }
}
