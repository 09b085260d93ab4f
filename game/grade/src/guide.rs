//! The guide: it interprets the written procedure from signs only. It shows the next step in guided
//! mode and plays every variant in the proof.

use rackproof_buffer::Button;
use rackproof_drill::{Cause, Intent, IntentKind, State, World};
use rackproof_model::{Micros, Model};

use crate::{
    Doing, Judged, JudgedOutcome, JudgedState, Observation, Procedure, Watch, compile::lowest,
};

/// Most causes of one run of the guide.
pub(crate) const CAUSES_MOST: usize = 4_000;

/// The longest that a run of the guide waits without doing anything, in µs: one hour. Where
/// something comes round for ever, waiting for it is no way. The clock of an attempt stands still
/// after as long without a cause.
const WAIT_MOST: u32 = 3_600_000_000;

/// The guide on one way through a procedure. Its memory is a [`Watch`].
#[derive(Clone, Copy, Debug)]
pub struct Guide<'p> {
    procedure: &'p Procedure,
    way: usize,
    /// What it has perceived.
    pub watch: Watch,
}

impl<'p> Guide<'p> {
    /// A guide that has perceived nothing yet.
    pub fn new(procedure: &'p Procedure, way: usize) -> Guide<'p> {
        Guide {
            procedure,
            way,
            watch: Watch::default(),
        }
    }

    /// Lets it perceive an observation.
    pub fn perceive(&mut self, seen: &Observation) {
        let program = &self.procedure.program;
        if program.gaps_matter || !seen.is_quiet() {
            program.step(&mut self.watch, seen);
        }
    }

    /// Lets `span` pass from `state` on, in which nothing is done or heard. What it perceives of
    /// the moment at its end comes next: signs, or [`Observation::quiet`].
    pub fn pass(&mut self, world: &World, state: &State, span: Micros) {
        let program = &self.procedure.program;
        if program.gaps_matter {
            program.pass_quietly(&mut self.watch, span, &Observation::quiet(world, state));
        }
    }

    /// The time until a window of the procedure runs out, so that another step may be next.
    pub fn next_change(&self, world: &World, state: &State) -> Option<Micros> {
        let quiet = Observation::quiet(world, state);
        let program = &self.procedure.program;
        program.next_quiet_change(self.watch, &quiet)
    }

    /// The step that is next, as its number, and the intent to do now. No intent: wait. `None`: no
    /// step applies, or its intent cannot be done here.
    pub fn next(&self, world: &World, state: &State) -> Option<(usize, Option<Intent>)> {
        let mut watch = self.watch;
        let values = self
            .procedure
            .program
            .step(&mut watch, &Observation::now(world, state));
        let steps = self.procedure.steps.iter().enumerate();
        let (number, step) = steps
            .filter(|(_, step)| step.ways.is_empty() || step.ways.contains(&self.way))
            .find(|(_, step)| values.truth(step.root))?;
        let Doing::Intent(stand, kind) = step.doing else {
            return Some((number, None));
        };
        let mut offers = Vec::with_capacity(48);
        world.offered(state, &mut offers);
        if let Some(stand) = stand
            && stand != state.person.stand
        {
            let walk = Intent::Walk(stand);
            return offers.contains(&walk).then_some((number, Some(walk)));
        }
        let known = values.set(self.procedure.known_boards);
        let wanted = |intent: &Intent| match intent {
            Intent::Take(at) => lowest(known) == Some(*at),
            Intent::Press(Button::Choose(product)) => *product == world.drill().next,
            Intent::Torch(lit) => *lit,
            _ => true,
        };
        let intent = offers
            .into_iter()
            .find(|intent| intent.kind() == kind && wanted(intent))?;
        Some((number, Some(intent)))
    }
}

/// One cause of a run, with the time that passed before it.
pub type Timed = (Micros, Cause);

/// What a run of the guide gave.
#[derive(Clone, Debug)]
pub struct GuideRun {
    /// Every cause, with the time since the one before, as journals have them.
    pub causes: Vec<Timed>,
    /// The state at its end.
    pub end: JudgedState,
    /// Time from start to end, in µs.
    pub time: u64,
    /// Steps of the procedure that were done, by number, in their order.
    pub steps: Vec<usize>,
}

/// Why a run did not end.
#[derive(Clone, Debug)]
pub struct Stuck {
    /// What was done until then.
    pub causes: Vec<Timed>,
    /// The step that applied, if one did.
    pub step: Option<usize>,
}

/// A run in progress.
#[derive(Clone)]
struct Run<'p> {
    guide: Guide<'p>,
    state: JudgedState,
    causes: Vec<Timed>,
    steps: Vec<usize>,
    waited: Micros,
    time: u64,
}

impl GuideRun {
    /// Plays one way of a procedure to its end with the environment choosing nothing.
    ///
    /// # Errors
    /// If the guide knows no step, waits for more than an hour, or needs more than 4,000 causes.
    pub fn play(judged: &Judged, procedure: &Procedure, way: usize) -> Result<GuideRun, Stuck> {
        Run::new(judged, procedure, way).until_reported(judged)
    }

    /// Goes on from where others stopped: does what they did, then plays one way to its end with
    /// the environment choosing nothing. `before` are their causes, each with the time since the
    /// one before, and `after` is the time since the last, in µs: of more than an hour, an hour.
    /// The guide perceives all of it.
    ///
    /// # Errors
    /// If the guide knows no step from there, waits for more than an hour, or needs more than 4,000
    /// causes.
    pub fn go_on(
        judged: &Judged,
        procedure: &Procedure,
        way: usize,
        (before, after): (&[Timed], u64),
    ) -> Result<GuideRun, Stuck> {
        let mut run = Run::new(judged, procedure, way);
        for &(span, cause) in before {
            run.pass(judged, u64::from(span.0));
            run.cause(judged, cause);
        }
        run.pass(judged, after.min(u64::from(WAIT_MOST)));
        run.steps.clear();
        run.until_reported(judged)
    }

    /// Plays one way against everything that the environment could choose, at every moment between
    /// two doings of the guide. Gives each run to `found`.
    ///
    /// # Errors
    /// The first run that does not end.
    pub fn play_all(
        judged: &Judged,
        procedure: &Procedure,
        way: usize,
        found: &mut dyn FnMut(GuideRun),
    ) -> Result<(), Stuck> {
        let mut open = vec![Run::new(judged, procedure, way)];
        while let Some(mut run) = open.pop() {
            loop {
                let mut chances = Vec::new();
                judged.chances(&run.state, &mut chances);
                for chance in chances {
                    let mut branch = run.clone();
                    branch.cause(judged, chance);
                    open.push(branch);
                }
                if run.state.world.person.reported {
                    break;
                }
                run.step(judged)?;
            }
            found(run.finish());
        }
        Ok(())
    }
}

impl<'p> Run<'p> {
    fn new(judged: &Judged, procedure: &'p Procedure, way: usize) -> Run<'p> {
        let guide = Guide::new(procedure, way);
        let (causes, steps) = (Vec::new(), Vec::new());
        Run {
            guide,
            state: judged.start(),
            causes,
            steps,
            waited: Micros(0),
            time: 0,
        }
    }

    fn until_reported(mut self, judged: &Judged) -> Result<GuideRun, Stuck> {
        while !self.state.world.person.reported {
            self.step(judged)?;
        }
        Ok(self.finish())
    }

    fn finish(self) -> GuideRun {
        GuideRun {
            causes: self.causes,
            end: self.state,
            time: self.time,
            steps: self.steps,
        }
    }

    /// One doing of the guide.
    fn step(&mut self, judged: &Judged) -> Result<(), Stuck> {
        let stuck = |run: &Run<'_>, step| Stuck {
            causes: run.causes.clone(),
            step,
        };
        if self.causes.len() >= CAUSES_MOST {
            return Err(stuck(self, None));
        }
        let world = judged.world();
        match self.guide.next(world, &self.state.world) {
            None => Err(stuck(self, None)),
            Some((step, None)) => {
                let next = self
                    .next_event(judged)
                    .filter(|next| *next <= self.room())
                    .ok_or_else(|| stuck(self, Some(step)))?;
                self.wait(judged, next);
                Ok(())
            }
            Some((step, Some(intent))) => {
                let from = self.state.world.person.stand;
                let mut left = world.hall().pace.of(intent, from).min(self.room());
                while let Some(next) = self.next_event(judged)
                    && next <= left
                {
                    self.wait(judged, next);
                    left -= next;
                }
                self.wait(judged, left);
                // What happened meanwhile may have made something else the next step.
                let mut offers = Vec::with_capacity(48);
                world.offered(&self.state.world, &mut offers);
                if offers.contains(&intent) {
                    if intent.kind() != IntentKind::Walk {
                        self.steps.push(step);
                    }
                    self.cause(judged, Cause::Did(intent));
                } else if self.room() == Micros(0) {
                    // Each time the person came to it, it was gone.
                    return Err(stuck(self, Some(step)));
                }
                Ok(())
            }
        }
    }

    /// How long it may wait on until it does something.
    fn room(&self) -> Micros {
        Micros(WAIT_MOST.saturating_sub(self.waited.0))
    }

    /// Lets time pass from event to event, in µs.
    fn pass(&mut self, judged: &Judged, span: u64) {
        let mut left = span;
        while left > 0 {
            let next = self
                .next_event(judged)
                .map_or(left, |next| u64::from(next.0));
            let part = next.min(left).min(1_000_000_000);
            self.wait(judged, Micros(part as u32));
            left -= part;
        }
    }

    /// The next event of the pair, or the next at which a window of the procedure runs out.
    fn next_event(&self, judged: &Judged) -> Option<Micros> {
        let state = &self.state.world;
        let own = self.guide.next_change(judged.world(), state);
        let events = [judged.next_event(&self.state), own];
        events.into_iter().flatten().min()
    }

    fn cause(&mut self, judged: &Judged, cause: Cause) {
        if let Cause::Did(intent) = cause {
            let before = Observation::before(judged.world(), &self.state.world, intent);
            self.guide.perceive(&before);
        }
        let mut after = Observation::default();
        judged.act(&mut self.state, cause, &mut |outcome| {
            hear(&mut after, outcome)
        });
        self.perceive(judged, after, true);
        self.causes.push((self.waited, cause));
        self.waited = Micros(0);
    }

    fn wait(&mut self, judged: &Judged, span: Micros) {
        let mut after = Observation::default();
        let state = self.state.world;
        self.guide.pass(judged.world(), &state, span);
        judged.advance(&mut self.state, span, &mut |outcome| {
            hear(&mut after, outcome)
        });
        self.perceive(judged, after, false);
        self.waited += span;
        self.time += u64::from(span.0);
    }

    fn perceive(&mut self, judged: &Judged, mut after: Observation, always: bool) {
        if always || after.has_signs() {
            after.settle(judged.world(), &self.state.world);
            self.guide.perceive(&after);
        } else {
            let quiet = Observation::quiet(judged.world(), &self.state.world);
            self.guide.perceive(&quiet);
        }
    }
}

fn hear(observation: &mut Observation, outcome: JudgedOutcome) {
    if let JudgedOutcome::World(outcome) = outcome {
        observation.hear(&outcome);
    }
}
