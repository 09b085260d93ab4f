//! Explores the first drill on the real core with another explorer and with ours, in one run:
//! equal counts, and states a second side by side. The other one is asked twice: with the model
//! written as its documentation writes one, and written so that it runs fastest.
//!
//! What follows a state is listed here anew, from the description of `rackproof_prove::explore`,
//! so that the two share the model alone. Ours keeps whole keys; the other one keeps fingerprints.
//!
//! Both may have more than one thread. What that costs beyond the work itself is in the ratio too.
//!
//! `cargo run --release --bin core [VARIANT [SLOTS [THREADS]]]`

use std::{ops::ControlFlow, sync::Mutex, time::Instant};

use rackproof_attempt::Exercise;
use rackproof_buffer::Machine;
use rackproof_drill::{Cause, World};
use rackproof_files::Problems;
use rackproof_grade::{Judged, JudgedState};
use rackproof_library::{built_in_drill, load};
use rackproof_model::{
    Instants, Micros, Model as _, Stride,
    key::{Key, KeyWriter},
};
use rackproof_prove::{Congruence, Hands, Settings, explore_by};
use stateright::{Checker, Model, Property};

/// A class: its key, and whether it lies between two events.
type Class = (Vec<u8>, bool);

struct Core(Judged);

impl Core {
    fn class(&self, mut state: JudgedState, between: bool) -> Class {
        let mut writer = KeyWriter::new();
        self.0.write_last_key(&mut state, &mut writer);
        (writer.finish().to_vec(), between)
    }

    fn instants(&self, state: &JudgedState) -> Vec<Micros> {
        let mut instants = Instants::new();
        if self.0.next_event(state).is_some() {
            self.0.critical_instants(state, &mut instants);
        }
        instants.as_slice().to_vec()
    }

    /// Whether an act at a moment between two events begins something, so that the interval is cut
    /// up anew.
    fn begins(&self, before: &JudgedState, after: &JudgedState) -> bool {
        let known = self.instants(before);
        self.0.next_event(before) != self.0.next_event(after)
            || self.instants(after).iter().any(|at| !known.contains(at))
    }

    fn is_over(&self, state: &JudgedState) -> bool {
        !self.0.kept(state) || state.world.harms() != 0 || state.world.person.reported
    }
}

/// So many threads for one search.
struct Threads(usize);

impl Hands for Threads {
    fn count(&self) -> usize {
        self.0
    }

    fn each<P: Send>(
        &self,
        parts: &mut [P],
        work: impl Fn(&mut P) + Sync,
        meanwhile: impl FnOnce(),
    ) {
        let left = Mutex::new(parts.iter_mut());
        let all = || {
            while let Some(part) = { left.lock().expect("no panic").next() } {
                work(part);
            }
        };
        std::thread::scope(|scope| {
            for _ in 1..self.0 {
                scope.spawn(all);
            }
            meanwhile();
            all();
        });
    }
}

/// Seconds of processor and on the wall.
struct Clock {
    processor: f64,
    wall: Instant,
}

impl Clock {
    fn now() -> Clock {
        Clock {
            processor: processor(),
            wall: Instant::now(),
        }
    }

    /// Those since.
    fn elapsed(&self) -> (f64, f64) {
        let wall = self.wall.elapsed().as_secs_f64();
        (processor() - self.processor, wall)
    }
}

/// Seconds that all threads of this program have had a processor, in hundredths: see proc(5).
fn processor() -> f64 {
    let stat = std::fs::read_to_string("/proc/self/stat").expect("Linux tells it");
    let (_, rest) = stat.rsplit_once(')').expect("the name stands in brackets");
    let ticks = rest.split_whitespace().skip(11).take(2);
    let ticks: u64 = ticks.map(|n| n.parse::<u64>().expect("a number")).sum();
    ticks as f64 / 100.0
}

/// The moments inside an interval: both sides of each instant, the middle of each part.
fn moments(mut instants: Vec<Micros>, event: Micros) -> Vec<Micros> {
    instants.retain(|at| Micros(0) < *at && *at < event);
    instants.sort();
    instants.dedup();
    let mut edges = vec![(Micros(0), false)];
    for at in instants {
        edges.push((at, true));
        if at + Micros(1) < event {
            edges.push((at + Micros(1), true));
        }
    }
    edges.push((event, false));
    edges.dedup();
    let mut found: Vec<Micros> = Vec::new();
    for pair in edges.windows(2) {
        let [(from, counts), (to, _)] = [pair[0], pair[1]];
        if counts {
            found.push(from);
        }
        // Between the two sides of an instant there is nothing.
        if to.0 - from.0 >= 2 {
            found.push(Micros(from.0 + (to.0 - from.0) / 2));
        }
    }
    found.dedup();
    found
}

/// One thing that can happen to a state.
#[derive(Clone, Debug, PartialEq)]
enum Doing {
    Stride(Stride<Cause>),
    Chance(Cause),
    /// Time passes, up to the next event or to a moment between.
    Wait {
        span: Micros,
        between: bool,
    },
}

impl Core {
    fn doings(&self, state: &JudgedState, between: bool) -> Vec<Doing> {
        if self.is_over(state) {
            return Vec::new();
        }
        let (mut strides, mut chances) = (Vec::new(), Vec::new());
        self.0.strides(state, &mut strides);
        self.0.chances(state, &mut chances);
        let mut doings: Vec<Doing> = strides.into_iter().map(Doing::Stride).collect();
        doings.extend(chances.into_iter().map(Doing::Chance));
        let Some(event) = self.0.next_event(state) else {
            return doings;
        };
        let mut waits = if between {
            Vec::new()
        } else {
            moments(self.instants(state), event)
        };
        waits.push(event);
        doings.extend(waits.into_iter().map(|span| Doing::Wait {
            span,
            between: span < event,
        }));
        doings
    }

    /// What comes of it, and whether that lies between two events.
    fn child(&self, state: &JudgedState, between: bool, doing: &Doing) -> (JudgedState, bool) {
        let mut child = *state;
        match doing {
            Doing::Stride(stride) => self.0.act_in_turn(&mut child, stride.causes(), &mut |_| {}),
            Doing::Chance(cause) => self.0.act(&mut child, *cause, &mut |_| {}),
            Doing::Wait { span, between } => {
                self.0.advance(&mut child, *span, &mut |_| {});
                return (child, *between);
            }
        }
        let stays = between && !self.begins(state, &child);
        (child, stays)
    }

    /// Calls `step` with each class that follows one, and does no more than to work it out.
    fn follow(&self, (key, between): (&[u8], bool), step: &mut dyn FnMut(&[u8], bool)) {
        let state = self.0.read_key(&Key::from_bytes(key));
        let mut writer = KeyWriter::new();
        for doing in self.doings(&state, between) {
            let (mut child, between) = self.child(&state, between, &doing);
            writer.clear();
            self.0.write_last_key(&mut child, &mut writer);
            step(writer.finish(), between);
        }
    }

    fn read(&self, class: &Class) -> JudgedState {
        self.0.read_key(&Key::from_bytes(&class.0))
    }

    fn begin(&self) -> Vec<Class> {
        vec![self.class(self.0.start(), false)]
    }
}

/// As stateright's documentation writes a model: `actions` says what can happen, `next_state` does
/// it.
struct Customary(Core);

impl Model for Customary {
    type State = Class;
    type Action = Doing;

    fn init_states(&self) -> Vec<Class> {
        self.0.begin()
    }

    fn actions(&self, class: &Class, actions: &mut Vec<Doing>) {
        actions.extend(self.0.doings(&self.0.read(class), class.1));
    }

    fn next_state(&self, class: &Class, doing: Doing) -> Option<Class> {
        let (child, between) = self.0.child(&self.0.read(class), class.1, &doing);
        Some(self.0.class(child, between))
    }

    fn properties(&self) -> Vec<Property<Self>> {
        vec![Property::always("all of it is explored", |_, _| true)]
    }
}

/// As it runs fastest: a class is read once, and an action is already what comes of it.
struct Lean(Core);

impl Model for Lean {
    type State = Class;
    type Action = Class;

    fn init_states(&self) -> Vec<Class> {
        self.0.begin()
    }

    fn actions(&self, class: &Class, actions: &mut Vec<Class>) {
        self.0.follow((&class.0, class.1), &mut |key, between| {
            actions.push((key.to_vec(), between));
        });
    }

    fn next_state(&self, _: &Class, action: Class) -> Option<Class> {
        Some(action)
    }

    fn properties(&self) -> Vec<Property<Self>> {
        vec![Property::always("all of it is explored", |_, _| true)]
    }
}

fn judged(exercise: &Exercise, variant: usize, slots: u8) -> Judged {
    let mut parts = exercise.machine.parts().clone();
    let mut drill = exercise.drill.clone();
    parts.slots = slots;
    let boards = &mut drill.variants[variant].boards;
    let highest = boards.iter().map(|(at, _)| at.slot).max().unwrap_or(0);
    for (at, _) in boards {
        at.slot = at.slot.saturating_sub(highest.saturating_sub(slots - 1));
    }
    let rules = exercise.rules.for_proof().for_slots(slots);
    let world = World::new(Machine::new(parts), exercise.hall.clone(), drill, variant);
    Judged::new(world, rules).prepared()
}

fn main() {
    let mut arguments = std::env::args().skip(1);
    let name = arguments.next().unwrap_or_else(|| "black-low".to_owned());
    let slots = arguments
        .next()
        .map_or(2, |slots| slots.parse().expect("a number of slots"));
    let threads = arguments
        .next()
        .map_or(1, |threads| threads.parse().expect("a number of threads"));
    let loaded = load(built_in_drill(), &Problems::new()).expect("it has no problem");
    let variant = loaded
        .exercise
        .variant(&name)
        .expect("a variant of the drill");
    let make = || judged(&loaded.exercise, variant, slots);

    let ours = make();
    let over = |state: &JudgedState| {
        !ours.kept(state) || state.world.harms() != 0 || state.world.person.reported
    };
    let settings = Settings {
        prune: 1,
        congruence: Congruence::Off,
        ..Settings::default()
    };
    let begun = Clock::now();
    let found = explore_by(
        &Threads(threads),
        (&ours, &[ours.start()]),
        &settings,
        |s| u64::from(over(s)),
        |_| ControlFlow::Continue(()),
    );
    let our_time = begun.elapsed();

    report(
        &format!("ours, {name}, {slots} slots, {threads} threads, whole keys"),
        found.states,
        our_time,
    );
    let customary = count(Customary(Core(make())), threads);
    let lean = count(Lean(Core(make())), threads);
    for (written, (states, time)) in [("as documented", customary), ("lean", lean)] {
        report(
            &format!("stateright 0.31.0, {written}, fingerprints"),
            states,
            time,
        );
        assert_eq!(found.states, states, "the counts must be equal");
        // Other programs take their share of a processor, so that the time on the wall says less.
        println!(
            "  ratio {:.2} by processor, {:.2} on the wall",
            time.0 / our_time.0,
            time.1 / our_time.1
        );
    }
    let core = Core(make());
    let begun = Clock::now();
    let mut bytes = 0;
    for node in found.nodes() {
        let (key, between) = (found.key(node), found.is_between(node));
        core.follow((key.as_bytes(), between), &mut |key, _| bytes += key.len());
    }
    let alone = begun.elapsed();
    report("the steps alone, nothing kept", found.states, alone);
    println!(
        "  {} steps, {bytes} bytes of keys; a search that costs nothing more would have a ratio of \
         {:.2} as documented, {:.2} lean",
        found.steps,
        customary.1.0 / alone.0,
        lean.1.0 / alone.0
    );
}

/// How many states the other explorer finds, and in which time.
fn count<M>(model: M, threads: usize) -> (usize, (f64, f64))
where
    M: Model<State = Class> + Send + Sync + 'static,
    M::Action: Clone + PartialEq,
{
    let begun = Clock::now();
    let checker = model.checker().threads(threads).spawn_bfs().join();
    (checker.unique_state_count(), begun.elapsed())
}

fn report(named: &str, states: usize, (processor, wall): (f64, f64)) {
    let states_f = states as f64;
    println!(
        "{named}: {states} states, {:.0} a second of processor, {:.0} on the wall",
        states_f / processor,
        states_f / wall
    );
}
