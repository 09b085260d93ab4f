//! Random small worlds: the search must find just what a search of the plainest kind finds.

use std::collections::{BTreeMap, BTreeSet};

use proptest::prelude::*;
use rackproof_model::{
    Instants, Micros, Model,
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

/// A graph of places.
#[derive(Clone, Debug)]
struct Graph(Vec<Place>);

/// Which list, which edge.
type Cause = (bool, u8);

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct At {
    place: u8,
    left: Option<Micros>,
}

impl Graph {
    fn place(&self, at: At) -> &Place {
        &self.0[at.place as usize]
    }

    fn enter(&self, place: u8) -> At {
        At {
            place,
            left: self.0[place as usize].timer.map(|(span, _)| Micros(span)),
        }
    }
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

/// Every state with its distance, and the number of steps.
fn plainly(graph: &Graph, persons: bool, stop: u8) -> (BTreeMap<(At, bool), usize>, usize) {
    let start = (graph.enter(0), false);
    let mut found = BTreeMap::from([(start, 0)]);
    let mut level = BTreeSet::from([start]);
    let mut steps = 0;
    for depth in 1.. {
        let mut children = Vec::new();
        for &(at, between) in level.iter().filter(|(at, _)| at.place != stop) {
            let mut causes = Vec::new();
            if persons {
                graph.offers(&at, &mut causes);
            }
            graph.chances(&at, &mut causes);
            for cause in causes {
                let mut child = at;
                graph.act(&mut child, cause, &mut |()| ());
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
    (found, steps)
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
        prop::collection::vec(place, places as usize).prop_map(Graph)
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
        let (plain, steps) = plainly(&graph, persons, stop);
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
    }
}
