//! Who can still get where: a game of the person against the environment, on the steps that a
//! search has kept.
//!
//! A state is *won* if the goal can be reached from it whatever the environment chooses: it is of
//! the goal, or some step of the person or of time leads to a won state, and so does every choice
//! of the environment. It is the least such set: who goes round for ever has not won. (Attractor
//! of a reachability game; Grädel, Thomas and Wilke, "Automata, Logics, and Infinite Games", 2002,
//! chapter 2, from memory.)

use rackproof_model::Model;

use crate::{exploration::Exploration, nodes::Node};

/// The steps between the nodes, in the order in which the nodes were expanded.
#[derive(Default)]
pub(crate) struct Graph {
    /// The number of the node that a step leads to.
    targets: Vec<u32>,
    /// A bit a step: whether the environment chose it.
    chosen: Vec<u64>,
    /// For each expanded node: where its steps end in `targets`.
    ends: Vec<usize>,
    /// For each node: its flags.
    flags: Vec<u64>,
}

/// The states from which the goal cannot be reached for sure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Corners {
    /// How many there are.
    pub count: usize,
    /// The first of them: none is fewer steps away from a start.
    pub first: Option<Node>,
    /// From how many states the goal can be reached for sure.
    pub won: usize,
}

impl Graph {
    /// What was kept so far are the starts: to be there is no step.
    pub(crate) fn forget_starts(&mut self) {
        self.targets.clear();
        self.chosen.clear();
    }

    /// Keeps the flags of the node that was found now.
    pub(crate) fn found(&mut self, flags: u64) {
        self.flags.push(flags);
    }

    /// Keeps a step of the node that is expanded now.
    pub(crate) fn step_to(&mut self, node: Node, chosen: bool) {
        let at = self.targets.len();
        if at.is_multiple_of(64) {
            self.chosen.push(0);
        }
        self.chosen[at / 64] |= u64::from(chosen) << (at % 64);
        self.targets.push(node.number());
    }

    /// The steps of one more node are complete.
    pub(crate) fn expanded(&mut self) {
        self.ends.push(self.targets.len());
    }

    /// Bytes in use.
    pub(crate) fn memory(&self) -> usize {
        let words = self.chosen.len() + self.ends.len() + self.flags.len();
        self.targets.len() * size_of::<u32>() + words * 8
    }

    /// Every step, as places of nodes in their order: from, to, and whether it was chosen.
    fn steps<'g>(&'g self, order: &'g Order) -> impl Iterator<Item = (usize, usize, bool)> + 'g {
        let starts = std::iter::once(0).chain(self.ends.iter().copied());
        let spans = starts.zip(self.ends.iter().copied()).enumerate();
        spans.flat_map(move |(from, (start, end))| {
            (start..end).filter_map(move |at| {
                let to = order.place(self.targets[at])?;
                Some((from, to, self.chosen[at / 64] >> (at % 64) & 1 == 1))
            })
        })
    }
}

/// At which place in the order of finding the node with a number stands: a bit for each number, and
/// how many nodes stand before each word of them.
struct Order {
    words: Vec<u64>,
    before: Vec<u32>,
}

impl Order {
    /// `numbers` rise.
    fn new(numbers: &[u32]) -> Order {
        let most = numbers.last().map_or(0, |&number| number as usize);
        let mut words = vec![0; most / 64 + 1];
        for &number in numbers {
            words[number as usize / 64] |= 1_u64 << (number % 64);
        }
        let mut sum = 0;
        let count = |word: &u64| {
            let before = sum;
            sum += word.count_ones();
            before
        };
        let before = words.iter().map(count).collect();
        Order { words, before }
    }

    fn place(&self, number: u32) -> Option<usize> {
        let word = self.words.get(number as usize / 64)?;
        let bit = 1_u64 << (number % 64);
        let within = (word & (bit - 1)).count_ones();
        (word & bit != 0).then(|| (self.before[number as usize / 64] + within) as usize)
    }
}

/// The game while it is played backwards from the goal.
struct Game {
    won: Vec<bool>,
    /// Whether a step of the person's, or of time, leads to a won state.
    leads: Vec<bool>,
    /// How many choices of the environment do not lead to a won state yet.
    open: Vec<u32>,
    /// Steps by their ends: where those of a node begin, and where they come from. The last bit of
    /// an entry says whether the environment chose it.
    begins: Vec<usize>,
    sources: Vec<u32>,
}

impl Game {
    fn new(graph: &Graph, numbers: &[u32]) -> Game {
        let (count, order) = (numbers.len(), Order::new(numbers));
        assert!(count < 1 << 31, "a step back has 31 bits for its node");
        let mut game = Game {
            won: vec![false; count],
            leads: vec![false; count],
            open: vec![0; count],
            begins: vec![0; count + 1],
            sources: vec![0; graph.targets.len()],
        };
        for (from, to, chosen) in graph.steps(&order) {
            game.begins[to + 1] += 1;
            game.open[from] += u32::from(chosen);
        }
        for at in 0..count {
            game.begins[at + 1] += game.begins[at];
        }
        let mut next = game.begins.clone();
        for (from, to, chosen) in graph.steps(&order) {
            game.sources[next[to]] = (from as u32) << 1 | u32::from(chosen);
            next[to] += 1;
        }
        game
    }

    /// Plays it backwards from the nodes of `goal`.
    fn play(&mut self, goal: Vec<usize>) {
        let mut queue = goal;
        for &node in &queue {
            self.won[node] = true;
        }
        while let Some(node) = queue.pop() {
            for at in self.begins[node]..self.begins[node + 1] {
                let (from, chosen) = (self.sources[at] >> 1, self.sources[at] & 1 == 1);
                let from = from as usize;
                if chosen {
                    self.open[from] -= 1;
                } else {
                    self.leads[from] = true;
                }
                if !self.won[from] && self.leads[from] && self.open[from] == 0 {
                    self.won[from] = true;
                    queue.push(from);
                }
            }
        }
    }
}

impl<M: Model> Exploration<'_, M> {
    /// The corners: states from which no state with a flag of `goal` can be reached for sure,
    /// though the environment choose against it; those with a flag of `over` are not counted.
    /// `None` if the search kept no steps or is not complete.
    pub fn corners(&self, goal: u64, over: u64) -> Option<Corners> {
        let graph = self.graph.as_ref()?;
        if self.end != crate::End::Complete {
            return None;
        }
        let numbers: Vec<u32> = self.nodes().map(Node::number).collect();
        let seen = &graph.flags;
        let mut game = Game::new(graph, &numbers);
        let of_goal = (0..numbers.len()).filter(|&at| seen[at] & goal != 0);
        game.play(of_goal.collect());
        let lost = |at: &usize| !game.won[*at] && seen[*at] & over == 0;
        let first = (0..numbers.len()).find(lost);
        Some(Corners {
            count: (0..numbers.len()).filter(lost).count(),
            first: first.map(|at| Node::from_number(numbers[at])),
            won: game.won.iter().filter(|&&won| won).count(),
        })
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use rackproof_model::{
        Instants, Micros,
        key::{Coder, Key, KeyReader, KeyWriter},
    };

    use super::*;
    use crate::{Settings, explore};

    #[test]
    fn a_number_has_its_place_among_those_that_rise() {
        let numbers = [0, 3, 63, 64, 65, 500, 511, 512, 1_000];
        let order = Order::new(&numbers);
        for number in 0..1_100 {
            assert_eq!(
                order.place(number),
                numbers.binary_search(&number).ok(),
                "{number}"
            );
        }
    }

    /// A world that is a table of steps: from, to.
    #[derive(Debug)]
    struct Table {
        did: Vec<(u8, u8)>,
        chose: Vec<(u8, u8)>,
    }

    /// To this state.
    #[derive(Clone, Copy, Debug, PartialEq, Eq)]
    struct To(u8);

    fn list(steps: &[(u8, u8)], state: u8, out: &mut Vec<To>) {
        let here = steps.iter().filter(|(from, _)| *from == state);
        out.extend(here.map(|&(_, to)| To(to)));
    }

    impl Model for Table {
        type State = u8;
        type Cause = To;
        type Outcome = ();

        fn offers(&self, state: &u8, out: &mut Vec<To>) {
            list(&self.did, *state, out);
        }

        fn chances(&self, state: &u8, out: &mut Vec<To>) {
            list(&self.chose, *state, out);
        }

        fn act(&self, state: &mut u8, cause: To, _: &mut impl FnMut(())) {
            *state = cause.0;
        }

        fn next_event(&self, _: &u8) -> Option<Micros> {
            None
        }

        fn critical_instants(&self, _: &u8, _: &mut Instants) {}

        fn advance(&self, _: &mut u8, _: Micros, _: &mut impl FnMut(())) {}

        fn write_key(&self, state: &u8, out: &mut KeyWriter) {
            out.byte(&mut { *state }, 4);
        }

        fn read_key(&self, key: &Key) -> u8 {
            KeyReader::new(key).bits(0, 4) as u8
        }
    }

    const GOAL: u64 = 1;
    const OVER: u64 = 2;

    /// State 9 is the goal, state 8 is over.
    fn flags(state: &u8) -> u64 {
        u64::from(*state == 9) | u64::from(*state == 8) << 1
    }

    /// Steps as a table has them.
    type Steps = &'static [(u8, u8)];

    /// The corners as the search finds them: how many, which first, how many won.
    fn corners(world: &Table) -> (usize, Option<u8>, usize) {
        let settings = Settings {
            steps_kept: true,
            prune: GOAL | OVER,
            ..Settings::default()
        };
        let found = explore(world, &[0], &settings, flags);
        let corners = found.corners(GOAL, OVER).expect("it kept its steps");
        let first = corners.first.map(|node| found.state(node));
        (corners.count, first, corners.won)
    }

    #[test]
    fn a_state_is_a_corner_if_the_environment_can_keep_one_there() {
        // By hand. Steps of the person, choices of the environment, corners, first, won.
        let cases: [(Steps, Steps, _); 7] = [
            (&[(0, 9)], &[], (0, None, 2)),
            // A dead end beside the way.
            (&[(0, 9), (0, 1)], &[], (1, Some(1), 2)),
            // To go round is not to arrive.
            (&[(0, 1), (1, 0)], &[], (2, Some(0), 0)),
            (&[(0, 1), (1, 0), (1, 9)], &[], (0, None, 3)),
            // The environment may push into the dead end: then even the start is lost.
            (&[(0, 9), (1, 1)], &[(0, 1)], (2, Some(0), 1)),
            // It may push, and one comes back.
            (&[(0, 9), (1, 9)], &[(0, 1)], (0, None, 3)),
            // Over is no corner. The environment alone wins nothing for the person.
            (&[(0, 8), (0, 1)], &[(1, 9)], (2, Some(0), 1)),
        ];
        for (did, chose, expected) in cases {
            let world = Table {
                did: did.to_vec(),
                chose: chose.to_vec(),
            };
            assert_eq!(corners(&world), expected, "{world:?}");
        }
    }

    #[test]
    fn without_its_steps_a_search_knows_no_corners() {
        let world = Table {
            did: vec![(0, 9)],
            chose: vec![],
        };
        let found = explore(&world, &[0], &Settings::default(), flags);
        assert_eq!(found.corners(GOAL, OVER), None);
    }

    /// The same by going over all reached states until nothing changes.
    fn by_rounds(world: &Table) -> (usize, usize) {
        let ended = |state: u8| state == 9 || state == 8;
        let steps = |list: &[(u8, u8)], from: u8| -> Vec<u8> {
            let here = list.iter().filter(|step| step.0 == from && !ended(from));
            here.map(|step| step.1).collect()
        };
        let (mut reached, mut won) = ([false; 10], [false; 10]);
        reached[0] = true;
        won[9] = true;
        for _ in 0..100 {
            for state in 0..10 {
                let (did, chose) = (steps(&world.did, state), steps(&world.chose, state));
                if reached[state as usize] {
                    did.iter()
                        .chain(&chose)
                        .for_each(|&to| reached[to as usize] = true);
                }
                won[state as usize] |= did.iter().any(|&to| won[to as usize])
                    && chose.iter().all(|&to| won[to as usize]);
            }
        }
        let count =
            |of: &dyn Fn(usize) -> bool| (0..10).filter(|&at| reached[at] && of(at)).count();
        (count(&|at| !won[at] && at != 8), count(&|at| won[at]))
    }

    proptest! {
        #[test]
        fn it_is_the_same_as_going_over_all_states_in_rounds(
            did in prop::collection::vec((0_u8..10, 0_u8..10), 0..14),
            chose in prop::collection::vec((0_u8..10, 0_u8..10), 0..5),
        ) {
            let world = Table { did, chose };
            let (count, _, won) = corners(&world);
            prop_assert_eq!((count, won), by_rounds(&world));
        }
    }
}
