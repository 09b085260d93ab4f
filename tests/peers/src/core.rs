//! Explores the first drill on the real core with another explorer and with ours, in one run:
//! equal counts, and states a second side by side.
//!
//! What follows a state is listed here anew, from the description of `rackproof_prove::explore`,
//! so that the two share the model alone. Ours keeps whole keys; the other one keeps fingerprints.
//!
//! `cargo run --release --bin core [VARIANT [SLOTS]]`

use std::time::Instant;

use rackproof_attempt::Exercise;
use rackproof_buffer::Machine;
use rackproof_drill::World;
use rackproof_files::Problems;
use rackproof_grade::{Judged, JudgedState};
use rackproof_library::{built_in_drill, load};
use rackproof_model::{
    Instants, Micros, Model as _,
    key::{Key, KeyWriter},
};
use rackproof_prove::{Congruence, Settings, explore};
use stateright::{Checker, Model, Property};

/// A class: its key, and whether it lies between two events.
type Class = (Vec<u8>, bool);

struct Core(Judged);

impl Core {
    fn class(&self, state: &JudgedState, between: bool) -> Class {
        let mut writer = KeyWriter::new();
        self.0.write_key(state, &mut writer);
        (writer.finish().to_vec(), between)
    }

    /// Calls `step` with each class that follows a state, and does no more than to work it out.
    fn follow(&self, (key, between): (&[u8], bool), step: &mut dyn FnMut(&[u8], bool)) {
        let mut writer = KeyWriter::new();
        let mut landed = |mut child: JudgedState, between: bool| {
            writer.clear();
            self.0.write_last_key(&mut child, &mut writer);
            step(writer.finish(), between);
        };
        let state = self.0.read_key(&Key::from_bytes(key));
        if self.is_over(&state) {
            return;
        }
        let (mut strides, mut chances) = (Vec::new(), Vec::new());
        self.0.strides(&state, &mut strides);
        self.0.chances(&state, &mut chances);
        let mut acted = |causes: &mut dyn Iterator<Item = rackproof_drill::Cause>| {
            let mut child = state;
            self.0.act_in_turn(&mut child, causes, &mut |_| {});
            let stays = between && !self.begins(&state, &child);
            landed(child, stays);
        };
        for stride in strides {
            acted(&mut stride.causes());
        }
        for chance in chances {
            acted(&mut std::iter::once(chance));
        }
        let Some(event) = self.0.next_event(&state) else {
            return;
        };
        let mut waits = if between {
            Vec::new()
        } else {
            moments(self.instants(&state), event)
        };
        waits.push(event);
        for span in waits {
            let mut child = state;
            self.0.advance(&mut child, span, &mut |_| {});
            landed(child, span < event);
        }
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

impl Model for Core {
    type State = Class;
    type Action = Class;

    fn init_states(&self) -> Vec<Class> {
        vec![self.class(&self.0.start(), false)]
    }

    fn actions(&self, (key, between): &Class, actions: &mut Vec<Class>) {
        self.follow((key, *between), &mut |key, between| {
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
    let found = explore(&ours, &[ours.start()], &settings, |s| u64::from(over(s)));
    let our_time = begun.elapsed();

    let begun = Clock::now();
    let checker = Core(make()).checker().threads(1).spawn_bfs().join();
    let their_time = begun.elapsed();
    let theirs = checker.unique_state_count();

    let (core, mut bytes) = (Core(make()), 0);
    let begun = Clock::now();
    for node in found.nodes() {
        let entry = (found.key(node), found.is_between(node));
        core.follow((entry.0.as_bytes(), entry.1), &mut |key, _| {
            bytes += key.len();
        });
    }
    let alone = begun.elapsed();

    println!(
        "{name}, {slots} slots: ours {} states, theirs {theirs}",
        found.states
    );
    assert_eq!(found.states, theirs, "the counts must be equal");
    println!(
        "{} steps, {:.1} to a state; {bytes} bytes of keys",
        found.steps,
        found.steps as f64 / theirs as f64
    );
    let counts = [found.states, theirs];
    // Other programs take their share of a processor, so that the time on the wall says less.
    type Time = fn(&(f64, f64)) -> f64;
    let sorts: [(&str, Time); 2] = [
        ("of processor", |(processor, _)| *processor),
        ("on the wall", |(_, wall)| *wall),
    ];
    for (named, time) in sorts {
        let times = [&our_time, &their_time, &alone].map(time);
        let [ours, theirs] = [0, 1].map(|at| counts[at] as f64 / times[at]);
        let of_step = times.map(|time| time * 1e9 / found.steps as f64);
        println!("by seconds {named}:");
        println!("  ours {ours:.0} states a second with whole keys");
        println!("  stateright 0.31.0 {theirs:.0} states a second with fingerprints");
        println!("  ratio {:.2}", ours / theirs);
        println!(
            "  nanoseconds a step: ours {:.0}, stateright {:.0}; the model alone {:.0}, each stride \
             from its beginning: who only listed its steps so would have a ratio of {:.2}",
            of_step[0],
            of_step[1],
            of_step[2],
            times[1] / times[2]
        );
    }
}
