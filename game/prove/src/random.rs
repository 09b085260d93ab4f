//! Random small worlds: the search must find just what a search of the plainest kind finds.

use std::collections::{BTreeMap, BTreeSet};

use proptest::prelude::*;
use rackproof_model::{
    Instants, Micros, Model, Stride,
    key::{Coder, Key, KeyReader, KeyWriter},
};

use crate::{End, Settings, explore, replay, toys::code_timer};

/// An act: where it leads, and whether a timer that runs keeps running.
#[derive(Clone, Copy, Debug)]
struct Edge {
    to: u8,
    keeps: bool,
}

#[derive(Clone, Debug)]
struct Place {
    persons: Vec<Edge>,
    chances: Vec<Edge>,
    /// The timer that starts here, and where it leads.
    timer: Option<(u32, u8)>,
    /// Critical while the timer of this place has so much left.
    critical: Vec<u32>,
}

/// A graph of places, and how many acts of the person one stride joins at most.
#[derive(Clone, Debug)]
struct Graph {
    places: Vec<Place>,
    joined: usize,
}

/// Which list, which edge.
type Cause = (bool, u8);

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct At {
    place: u8,
    left: Option<Micros>,
}

impl Graph {
    fn place(&self, at: At) -> &Place {
        &self.places[at.place as usize]
    }

    fn enter(&self, place: u8) -> At {
        At {
            place,
            left: self.places[place as usize]
                .timer
                .map(|(span, _)| Micros(span)),
        }
    }
}

/// Every row of acts from here, up to so many.
fn rows(graph: &Graph, at: At, joined: usize) -> Vec<Vec<Cause>> {
    let mut offers = Vec::new();
    graph.offers(&at, &mut offers);
    let mut found = Vec::new();
    for cause in offers {
        found.push(vec![cause]);
        let mut child = at;
        graph.act(&mut child, cause, &mut |()| ());
        if joined > 1 {
            let rest = rows(graph, child, joined - 1).into_iter();
            found.extend(rest.map(|rest| [vec![cause], rest].concat()));
        }
    }
    found
}

impl Model for Graph {
    type State = At;
    type Cause = Cause;
    type Outcome = ();

    fn offers(&self, at: &At, out: &mut Vec<Cause>) {
        out.extend((0..self.place(*at).persons.len()).map(|n| (true, n as u8)));
    }

    fn chances(&self, at: &At, out: &mut Vec<Cause>) {
        out.extend((0..self.place(*at).chances.len()).map(|n| (false, n as u8)));
    }

    fn strides(&self, at: &At, out: &mut Vec<Stride<Cause>>) {
        let rows = rows(self, *at, self.joined).into_iter();
        out.extend(rows.map(|row| row.into_iter().fold(Stride::none(), Stride::then)));
    }

    fn act(&self, at: &mut At, (person, n): Cause, _: &mut impl FnMut(())) {
        let place = self.place(*at);
        let edge = if person {
            place.persons[n as usize]
        } else {
            place.chances[n as usize]
        };
        let entered = self.enter(edge.to);
        // A timer can be kept only where one can run.
        let kept = at.left.filter(|_| edge.keeps && entered.left.is_some());
        *at = At {
            place: edge.to,
            left: kept.or(entered.left),
        };
    }

    fn next_event(&self, at: &At) -> Option<Micros> {
        at.left
    }

    fn critical_instants(&self, at: &At, out: &mut Instants) {
        let left = at.left.map_or(0, |left| left.0);
        let after = self
            .place(*at)
            .critical
            .iter()
            .filter_map(|&still| left.checked_sub(still));
        after.for_each(|after| out.push(Micros(after)));
    }

    fn advance(&self, at: &mut At, span: Micros, _: &mut impl FnMut(())) {
        let Some((_, to)) = self.place(*at).timer else {
            return;
        };
        let left = at.left.map_or(0, |left| left.0 - span.0);
        *at = if left == 0 {
            self.enter(to)
        } else {
            At {
                left: Some(Micros(left)),
                ..*at
            }
        };
    }

    fn write_key(&self, at: &At, out: &mut KeyWriter) {
        out.byte(&mut { at.place }, 8);
        code_timer(out, &mut { at.left }, 16);
    }

    fn read_key(&self, key: &Key) -> At {
        let mut reader = KeyReader::new(key);
        let mut at = At {
            place: 0,
            left: None,
        };
        reader.byte(&mut at.place, 8);
        code_timer(&mut reader, &mut at.left, 16);
        at
    }
}

/// The rule for moments, in other words than the search has it: a moment is tried if it is
/// critical, one behind a critical one, or the middle between two neighbours of these.
fn moments(graph: &Graph, at: At, event: u32) -> Vec<u32> {
    let mut instants = Instants::new();
    graph.critical_instants(&at, &mut instants);
    let is_critical = |t: u32| instants.as_slice().contains(&Micros(t));
    let is_cut = |t: u32| t == 0 || t == event || is_critical(t) || (t >= 2 && is_critical(t - 1));
    let is_middle = |t: u32| {
        let from = (0..t).rev().find(|&t| is_cut(t)).unwrap_or(0);
        let to = (t..=event).find(|&t| is_cut(t)).unwrap_or(event);
        !is_cut(t) && t == from.midpoint(to)
    };
    (1..event).filter(|&t| is_cut(t) || is_middle(t)).collect()
}

/// Every state with its distance, the number of steps, and that of states that nothing follows.
fn plainly(graph: &Graph, persons: bool, stop: u8) -> (BTreeMap<(At, bool), usize>, [usize; 2]) {
    let start = (graph.enter(0), false);
    let mut found = BTreeMap::from([(start, 0)]);
    let mut level = BTreeSet::from([start]);
    let (mut steps, mut dead_ends) = (0, 0);
    for depth in 1.. {
        let mut children = Vec::new();
        for &(at, between) in level.iter().filter(|(at, _)| at.place != stop) {
            let before = children.len();
            let mut chances = Vec::new();
            graph.chances(&at, &mut chances);
            let chances = chances.into_iter().map(|cause| vec![cause]);
            let persons = persons.then(|| rows(graph, at, graph.joined));
            for row in persons.into_iter().flatten().chain(chances) {
                let mut child = at;
                for cause in row {
                    graph.act(&mut child, cause, &mut |()| ());
                }
                let critical = |at: At| -> BTreeSet<u32> {
                    let (mut instants, runs) = (Instants::new(), at.left.is_some());
                    graph.critical_instants(&at, &mut instants);
                    instants
                        .as_slice()
                        .iter()
                        .filter(|_| runs)
                        .map(|i| i.0)
                        .collect()
                };
                let same = child.left == at.left && critical(child).is_subset(&critical(at));
                children.push((child, between && same));
            }
            if let Some(event) = at.left {
                let inside = if between {
                    Vec::new()
                } else {
                    moments(graph, at, event.0)
                };
                for span in inside.into_iter().chain([event.0]) {
                    let mut child = at;
                    graph.advance(&mut child, Micros(span), &mut |()| ());
                    children.push((child, span < event.0));
                }
            }
            dead_ends += usize::from(children.len() == before);
        }
        steps += children.len();
        level = children
            .into_iter()
            .filter(|child| !found.contains_key(child))
            .collect();
        found.extend(level.iter().map(|&child| (child, depth)));
        if level.is_empty() {
            break;
        }
    }
    (found, [steps, dead_ends])
}

fn graphs() -> impl Strategy<Value = Graph> {
    (1..9_u8).prop_flat_map(|places| {
        let edge = (0..places, any::<bool>()).prop_map(|(to, keeps)| Edge { to, keeps });
        let edges = prop::collection::vec(edge, 0..3);
        let timer = prop::option::of((1..40_u32, 0..places));
        let critical = prop::collection::vec(1..40_u32, 0..4);
        let place = (edges.clone(), edges, timer, critical).prop_map(
            |(persons, chances, timer, critical)| Place {
                persons,
                chances,
                timer,
                critical,
            },
        );
        let places = prop::collection::vec(place, places as usize);
        (places, 1..4_usize).prop_map(|(places, joined)| Graph { places, joined })
    })
}

proptest! {
    #[test]
    fn a_plain_search_finds_the_same(graph in graphs(), persons in any::<bool>(), stop in 0..9_u8) {
        let flags = |at: &At| u64::from(at.place == stop);
        let settings = Settings { persons, prune: 1, ..Settings::default() };
        let start = graph.enter(0);
        let found = explore(&graph, &[start], &settings, flags);
        prop_assert_eq!(found.incongruence.as_ref(), None);
        prop_assert_eq!(found.end, End::Complete);
        let (plain, [steps, dead_ends]) = plainly(&graph, persons, stop);
        let mut distances = BTreeMap::new();
        for (node, at) in found.states() {
            let witness = found.witness_to(node);
            prop_assert_eq!(replay(&graph, &start, &witness.steps, &mut |()| ()), Ok(at));
            distances.insert((at, found.is_between(node)), witness.moves);
        }
        prop_assert_eq!(found.states, distances.len());
        prop_assert_eq!(found.depth, plain.values().copied().max().unwrap_or(0));
        prop_assert_eq!(found.count(0), plain.keys().filter(|(at, _)| at.place == stop).count());
        prop_assert_eq!(distances, plain);
        prop_assert_eq!(found.steps, steps as u64);
        prop_assert_eq!(found.dead_ends, dead_ends);
    }
}
