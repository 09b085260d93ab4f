//! Explores three toy worlds with another explorer and prints what it counted.
//!
//! The worlds are written anew here, from their descriptions in the main workspace, so that the two
//! explorers share nothing. A moment inside an interval is an action of its own, and a state says
//! whether it lies there.
//!
//! Prints one line a world: its name, the number of states, the number of steps, the greatest
//! distance from the start.

use std::hash::Hash;

use stateright::{Checker, Model, Property};

/// The counter with a button and a timer.
struct Counter {
    numbers: u32,
    span: u32,
}

#[derive(Clone, Debug, Hash, PartialEq)]
struct Count {
    count: u32,
    left: u32,
    inside: bool,
}

#[derive(Clone, Debug, PartialEq)]
enum Tick {
    Press,
    Middle,
    End,
}

impl Model for Counter {
    type State = Count;
    type Action = Tick;

    fn init_states(&self) -> Vec<Count> {
        vec![Count {
            count: 0,
            left: 0,
            inside: false,
        }]
    }

    fn actions(&self, state: &Count, actions: &mut Vec<Tick>) {
        match state {
            Count { left: 0, .. } => actions.push(Tick::Press),
            Count {
                left,
                inside: false,
                ..
            } if *left > 1 => {
                actions.extend([Tick::Middle, Tick::End]);
            }
            _ => actions.push(Tick::End),
        }
    }

    fn next_state(&self, state: &Count, action: Tick) -> Option<Count> {
        let &Count { count, left, .. } = state;
        Some(match action {
            Tick::Press => Count {
                count,
                left: self.span,
                inside: false,
            },
            Tick::Middle => Count {
                count,
                left: left - left / 2,
                inside: true,
            },
            Tick::End => Count {
                count: (count + 1) % self.numbers,
                left: 0,
                inside: false,
            },
        })
    }

    fn properties(&self) -> Vec<Property<Self>> {
        endless()
    }
}

/// The lamps and the door.
struct Lamps;

impl Model for Lamps {
    type State = [bool; 3];
    type Action = usize;

    fn init_states(&self) -> Vec<[bool; 3]> {
        vec![[false; 3]]
    }

    fn actions(&self, _: &[bool; 3], actions: &mut Vec<usize>) {
        actions.extend([0, 1, 2]);
    }

    fn next_state(&self, state: &[bool; 3], action: usize) -> Option<[bool; 3]> {
        let mut next = *state;
        next[action] = !next[action];
        Some(next)
    }

    fn properties(&self) -> Vec<Property<Self>> {
        endless()
    }
}

/// The wolf, the goat and the cabbage; nothing is tried once something was eaten, if so asked.
struct Ferry {
    stops_when_eaten: bool,
}

#[derive(Clone, Copy, Debug, Hash, PartialEq)]
struct Banks {
    man: bool,
    wolf: bool,
    goat: bool,
    cabbage: bool,
}

#[derive(Clone, Debug, PartialEq)]
enum Load {
    Nothing,
    Wolf,
    Goat,
    Cabbage,
}

impl Banks {
    fn is_eaten(&self) -> bool {
        self.goat != self.man && (self.goat == self.wolf || self.goat == self.cabbage)
    }
}

impl Model for Ferry {
    type State = Banks;
    type Action = Load;

    fn init_states(&self) -> Vec<Banks> {
        vec![Banks {
            man: false,
            wolf: false,
            goat: false,
            cabbage: false,
        }]
    }

    fn actions(&self, state: &Banks, actions: &mut Vec<Load>) {
        if self.stops_when_eaten && state.is_eaten() {
            return;
        }
        actions.extend([Load::Nothing, Load::Wolf, Load::Goat, Load::Cabbage]);
    }

    fn next_state(&self, state: &Banks, load: Load) -> Option<Banks> {
        let mut next = Banks {
            man: !state.man,
            ..*state
        };
        let taken = match load {
            Load::Nothing => return Some(next),
            Load::Wolf => &mut next.wolf,
            Load::Goat => &mut next.goat,
            Load::Cabbage => &mut next.cabbage,
        };
        // Only who stands where the man stands can be taken.
        if *taken != state.man {
            return None;
        }
        *taken = next.man;
        Some(next)
    }

    fn properties(&self) -> Vec<Property<Self>> {
        endless()
    }
}

/// A property that always holds: a search that looks for a state without it sees all states.
fn endless<M: Model>() -> Vec<Property<M>> {
    vec![Property::always("all is well", |_, _| true)]
}

/// Explores a world with one start and prints its line.
fn print_counts<M>(name: &str, world: M)
where
    M: Model + Send + Sync + 'static,
    M::State: Clone + PartialEq + Hash + Send + Sync,
    M::Action: Clone + PartialEq,
{
    let checker = world.checker().spawn_bfs().join();
    // There a start counts as a step, and its depth as 1.
    let steps = checker.state_count() - 1;
    let depth = checker.max_depth() - 1;
    println!("{name} {} {steps} {depth}", checker.unique_state_count());
}

fn main() {
    print_counts(
        "counter-5",
        Counter {
            numbers: 5,
            span: 1_000,
        },
    );
    print_counts(
        "counter-200",
        Counter {
            numbers: 200,
            span: 2,
        },
    );
    print_counts("lamps", Lamps);
    print_counts(
        "ferry",
        Ferry {
            stops_when_eaten: false,
        },
    );
    print_counts(
        "ferry-safe",
        Ferry {
            stops_when_eaten: true,
        },
    );
}
