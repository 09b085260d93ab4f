//! The two explorers by themselves: a world whose steps cost next to nothing, explored with both in
//! one run. On the real core most of the time goes into the steps, which are the same for both.
//!
//! The world: so many dials, each of which turns by one of ten places; 10^dials states, as many
//! steps from each as there are dials. Ours keeps whole keys, the other one fingerprints.
//!
//! `cargo run --release --bin light [DIALS]`

use std::time::Instant;

use rackproof_model::{
    Instants, Micros,
    key::{Coder, Key, KeyReader, KeyWriter},
};
use rackproof_prove::{Congruence, Settings, explore};
use stateright::{Checker, Model, Property};

const PLACES: u8 = 10;
const DIALS_MOST: usize = 8;

#[derive(Clone, Copy)]
struct Dials(usize);

type Places = [u8; DIALS_MOST];

fn turned(mut places: Places, dial: usize) -> Places {
    places[dial] = (places[dial] + 1) % PLACES;
    places
}

impl rackproof_model::Model for Dials {
    type State = Places;
    type Cause = usize;
    type Outcome = ();

    fn offers(&self, _: &Places, out: &mut Vec<usize>) {
        out.extend(0..self.0);
    }

    fn chances(&self, _: &Places, _: &mut Vec<usize>) {}

    fn act(&self, state: &mut Places, dial: usize, _: &mut impl FnMut(())) {
        *state = turned(*state, dial);
    }

    fn next_event(&self, _: &Places) -> Option<Micros> {
        None
    }

    fn critical_instants(&self, _: &Places, _: &mut Instants) {}

    fn advance(&self, _: &mut Places, _: Micros, _: &mut impl FnMut(())) {}

    fn write_key(&self, state: &Places, out: &mut KeyWriter) {
        let mut copy = *state;
        copy[..self.0].iter_mut().for_each(|at| out.byte(at, 4));
    }

    fn read_key(&self, key: &Key) -> Places {
        let (mut places, mut reader) = (Places::default(), KeyReader::new(key));
        places[..self.0]
            .iter_mut()
            .for_each(|at| reader.byte(at, 4));
        places
    }
}

struct Theirs(Dials);

impl Model for Theirs {
    type State = Places;
    type Action = usize;

    fn init_states(&self) -> Vec<Places> {
        vec![Places::default()]
    }

    fn actions(&self, _: &Places, actions: &mut Vec<usize>) {
        actions.extend(0..self.0.0);
    }

    fn next_state(&self, places: &Places, dial: usize) -> Option<Places> {
        Some(turned(*places, dial))
    }

    fn properties(&self) -> Vec<Property<Self>> {
        vec![Property::always("all of it is explored", |_, _| true)]
    }
}

fn main() {
    let dials = std::env::args().nth(1).map_or(6, |dials| {
        dials.parse().expect("a number of dials, from 1 to 8")
    });
    let world = Dials(dials);
    let settings = Settings {
        congruence: Congruence::Off,
        ..Settings::default()
    };

    let begun = Instant::now();
    let ours = explore(&world, &[Places::default()], &settings, |_| 0);
    let our_time = begun.elapsed().as_secs_f64();
    let begun = Instant::now();
    let checker = Theirs(world).checker().threads(1).spawn_bfs().join();
    let their_time = begun.elapsed().as_secs_f64();

    assert_eq!(ours.states, checker.unique_state_count());
    assert_eq!(ours.states, usize::from(PLACES).pow(dials as u32));
    println!("{} states, {} steps", ours.states, ours.steps);
    for (named, time) in [
        ("ours, whole keys", our_time),
        ("stateright 0.31.0, fingerprints", their_time),
    ] {
        let states = ours.states as f64 / time;
        let of_step = time * 1e9 / ours.steps as f64;
        println!("{named}: {states:.0} states a second, {of_step:.0} ns a step");
    }
    println!("ratio {:.2}", their_time / our_time);
}
