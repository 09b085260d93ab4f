//! What an alignment gives.

use crate::{
    Event, Label, Move, Problem, Tasks,
    facts::{Fact, Facts},
    problem::EVENTS_MOST,
    run::{Given, Run},
};

/// What became of a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Became {
    /// Done, with the event of this number.
    Done(usize),
    /// Done with the event `at`, but out of its order: it belongs right before the event `before`.
    Moved {
        /// The number of the event.
        at: usize,
        /// The number of the event that it belongs before. The number of events: after all.
        before: usize,
    },
    /// Not done. It belongs before the event of this number.
    Missing(usize),
    /// Done with this event, and not needed, or not once more.
    NotNeeded(usize),
}

/// One line of an alignment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Finding {
    /// Which step.
    pub label: Label,
    /// What became of it.
    pub became: Became,
    /// Whether in every alignment of least cost the same became of a step with this label. If not,
    /// it is possible only: another alignment is just as near.
    pub certain: bool,
    /// Whether in every one of them it did so with this very event.
    pub placed: bool,
}

/// A departure that other alignments of least cost have and this one has not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Other {
    /// A step with this label is missing there.
    Missing(Label),
    /// An event with this label is not needed there.
    NotNeeded(Label),
}

/// How well a trace fits: 1 at best, as a ratio of whole numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fitness {
    /// What of the greatest cost was not incurred.
    pub kept: u32,
    /// The greatest cost: every event not needed, every step of a shortest way missing. 0 if there
    /// is no event and nothing to do; then all is well.
    pub most: u32,
}

/// A trace beside the nearest way that a task allows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Alignment {
    /// Its cost: no other has less.
    pub cost: u32,
    /// How well the trace fits.
    pub fitness: Fitness,
    /// The moves, in their order.
    pub moves: Vec<Move>,
    /// What became of the steps, in the order of the moves. Repeats without weight are left out.
    pub findings: Vec<Finding>,
    /// What other alignments of least cost have instead, sorted.
    pub others: Vec<Other>,
}

impl Tasks {
    /// The labels of the task, sorted.
    pub fn labels(&self) -> &[Label] {
        &self.labels
    }

    /// Lays a trace beside the nearest way that the task allows. Of several nearest ways always
    /// the same one is shown: as early as possible what is done, then what is missing, then what
    /// is not needed, each in the order of the task.
    ///
    /// # Errors
    /// If the trace has more than 1,000 events, or an event weighs more than
    /// [`Event::WEIGHT_MOST`].
    pub fn align(&self, trace: &[Event]) -> Result<Alignment, Problem> {
        if trace.len() > EVENTS_MOST {
            return Err(Problem::TooManyEvents);
        }
        if trace.iter().any(|event| event.weight > Event::WEIGHT_MOST) {
            return Err(Problem::TooHeavy);
        }
        let mut labels = self.labels.clone();
        labels.extend(trace.iter().map(|event| event.label));
        labels.sort_unstable();
        labels.dedup();
        let given = Given {
            trace,
            labels: &labels,
        };
        let mut run = Run::whole(given, &self.root);
        let facts = run.facts(0, trace.len());
        let cost = run.cost(0, trace.len());
        let mut moves = Vec::with_capacity(trace.len() + self.labels.len());
        run.walk(0, trace.len(), &mut moves);
        let findings = findings(&given, &facts, &moves);
        let weights: u32 = trace.iter().map(|event| event.weight).sum();
        let most = weights + self.root.shortest;
        Ok(Alignment {
            cost,
            fitness: Fitness {
                kept: most - cost,
                most,
            },
            others: others(&given, &facts, &findings),
            moves,
            findings,
        })
    }
}

/// From moves to findings. An event that is not needed and a missing step of one label are one
/// step that was moved: the first of the ones with the first of the others.
fn findings(given: &Given<'_>, facts: &Facts, moves: &[Move]) -> Vec<Finding> {
    let mut missing: Vec<(Label, usize)> = Vec::new();
    for one in moves {
        if let Move::Missing { label, before } = *one {
            missing.push((label, before));
        }
    }
    let mut moved = vec![None; given.trace.len()];
    for one in moves {
        if let Move::NotNeeded(event) = *one {
            let label = given.trace[event].label;
            let pair = missing.iter().position(|(known, _)| *known == label);
            moved[event] = pair.map(|at| missing.remove(at).1);
        }
    }
    let mut found = Vec::with_capacity(moves.len());
    for one in moves {
        match *one {
            Move::Done(at) => found.push(event_finding(given, facts, at, Became::Done(at))),
            Move::NotNeeded(at) => {
                let became = match moved[at] {
                    Some(before) => Became::Moved { at, before },
                    None if given.trace[at].weight == 0 => continue,
                    None => Became::NotNeeded(at),
                };
                found.push(event_finding(given, facts, at, became));
            }
            Move::Missing { label, before } => {
                let Some(at) = missing.iter().position(|known| *known == (label, before)) else {
                    continue;
                };
                missing.remove(at);
                let certain = facts.every(given, Fact::Missing(given.number(label)));
                found.push(Finding {
                    label,
                    became: Became::Missing(before),
                    certain,
                    placed: certain,
                });
            }
        }
    }
    found
}

/// What became of the event of this number.
fn event_finding(given: &Given<'_>, facts: &Facts, at: usize, became: Became) -> Finding {
    let Event { label, weight } = given.trace[at];
    let number = given.number(label);
    let every = |fact| facts.every(given, fact);
    let (certain, placed) = match became {
        Became::Done(_) => (every(Fact::Done(number)), every(Fact::DoneAt(at))),
        _ => {
            let placed = every(Fact::NotNeededAt(at));
            let certain = match weight {
                0 => placed,
                _ => every(Fact::NotNeeded(number)),
            };
            (certain, placed)
        }
    };
    let gone = !matches!(became, Became::Moved { .. }) || every(Fact::Missing(number));
    Finding {
        label,
        became,
        certain: certain && gone,
        placed: placed && gone,
    }
}

fn others(given: &Given<'_>, facts: &Facts, findings: &[Finding]) -> Vec<Other> {
    let has = |label: Label, missing: bool| {
        findings.iter().any(|finding| {
            finding.label == label
                && match finding.became {
                    Became::Moved { .. } => true,
                    Became::Missing(_) => missing,
                    Became::NotNeeded(_) => !missing,
                    Became::Done(_) => false,
                }
        })
    };
    let mut found = Vec::new();
    for (number, &label) in given.labels.iter().enumerate() {
        if facts.some(given, Fact::Missing(number)) && !has(label, true) {
            found.push(Other::Missing(label));
        }
        if facts.some(given, Fact::NotNeeded(number)) && !has(label, false) {
            found.push(Other::NotNeeded(label));
        }
    }
    found.sort_unstable();
    found
}
