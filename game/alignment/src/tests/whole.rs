//! The plain way: every word that a task allows, every alignment of each word with the trace.

use std::collections::BTreeSet;

use crate::{Alignment, Became, Event, Label, Move, Other, Task};

type Word = Vec<Label>;

/// All words of a task of at most so many steps.
pub(super) fn words(task: &Task, instance: Option<u16>, most: usize) -> BTreeSet<Word> {
    match task {
        Task::Step(step) => {
            let step = *step;
            let word = vec![Label { step, instance }];
            BTreeSet::from([word])
                .into_iter()
                .filter(|word| word.len() <= most)
                .collect()
        }
        Task::Sequence(parts) => {
            let parts = parts.iter().map(|part| words(part, instance, most));
            parts.fold(nothing(), |all, part| joined(&all, &part, most))
        }
        Task::AnyOrder(parts) => {
            let parts = parts.iter().map(|part| words(part, instance, most));
            parts.fold(nothing(), |all, part| shuffled(&all, &part, most))
        }
        Task::Choice(parts) => {
            let parts = parts.iter();
            parts.flat_map(|part| words(part, instance, most)).collect()
        }
        Task::Optional(part) => {
            let mut all = words(part, instance, most);
            all.insert(Vec::new());
            all
        }
        Task::Repeat { body, between } => {
            let body = words(body, instance, most);
            let between = match between {
                Some(between) => words(between, instance, most),
                None => nothing(),
            };
            let once_more = joined(&between, &body, most);
            let mut all = body;
            loop {
                let size = all.len();
                all.extend(joined(&all, &once_more, most));
                if all.len() == size {
                    return all;
                }
            }
        }
        Task::ForEach { instances, body } => {
            let parts = instances.iter().map(|one| words(body, Some(*one), most));
            parts.fold(nothing(), |all, part| shuffled(&all, &part, most))
        }
    }
}

fn nothing() -> BTreeSet<Word> {
    BTreeSet::from([Vec::new()])
}

fn joined(one: &BTreeSet<Word>, other: &BTreeSet<Word>, most: usize) -> BTreeSet<Word> {
    let pairs = one
        .iter()
        .flat_map(|one| other.iter().map(move |other| (one, other)));
    pairs
        .filter(|(one, other)| one.len() + other.len() <= most)
        .map(|(one, other)| [one.as_slice(), other].concat())
        .collect()
}

fn shuffled(one: &BTreeSet<Word>, other: &BTreeSet<Word>, most: usize) -> BTreeSet<Word> {
    let mut all = BTreeSet::new();
    for one in one {
        for other in other {
            if one.len() + other.len() <= most {
                shuffle(one, other, &mut Vec::new(), &mut all);
            }
        }
    }
    all
}

fn shuffle(one: &[Label], other: &[Label], begun: &mut Word, all: &mut BTreeSet<Word>) {
    if one.is_empty() || other.is_empty() {
        all.insert([begun.as_slice(), one, other].concat());
        return;
    }
    for (taken, one, other) in [(one[0], &one[1..], other), (other[0], one, &other[1..])] {
        begun.push(taken);
        shuffle(one, other, begun, all);
        begun.pop();
    }
}

/// What the alignments of least cost have.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Has {
    #[default]
    Nothing,
    Done(Label),
    Missing(Label),
    NotNeeded(Label),
    DoneAt(usize),
    NotNeededAt(usize),
}

/// The least cost, what every alignment of that cost has, and what some has.
#[derive(Debug)]
pub(super) struct Whole {
    pub(super) cost: u32,
    every: BTreeSet<Has>,
    some: BTreeSet<Has>,
    words: BTreeSet<Word>,
}

/// The cost of the best alignment of a word with a trace, by the table for editing distances.
fn distance(word: &[Label], trace: &[Event]) -> u32 {
    let mut row: Vec<u32> = (0..=word.len() as u32).collect();
    for event in trace {
        let mut diagonal = row[0];
        row[0] += event.weight;
        for at in 1..row.len() {
            let mut best = (row[at] + event.weight).min(row[at - 1] + 1);
            if word[at - 1] == event.label {
                best = best.min(diagonal);
            }
            diagonal = row[at];
            row[at] = best;
        }
    }
    row[word.len()]
}

impl Whole {
    pub(super) fn of(task: &Task, trace: &[Event]) -> Whole {
        let least = |most: usize| {
            let words = words(task, None, most);
            words.iter().map(|word| distance(word, trace)).min()
        };
        // A word of a nearest way has at most as many steps as there are events, and those missing.
        let first = (0..).find_map(|most| least(most).filter(|_| most > 2));
        let most = trace.len() + first.expect("a task allows some word") as usize;
        let words = words(task, None, most);
        let costs = words.iter().map(|word| distance(word, trace));
        let cost = costs.min().expect("a task allows some word");
        let (mut every, mut some) = (None, BTreeSet::new());
        for word in &words {
            if distance(word, trace) == cost {
                all_alignments(word, trace, 0, cost, &mut Vec::new(), &mut |found| {
                    some.extend(found.iter().cloned());
                    let every: &mut BTreeSet<Has> = every.get_or_insert_with(|| found.clone());
                    every.retain(|has| found.contains(has));
                });
            }
        }
        Whole {
            cost,
            every: every.unwrap_or_default(),
            some,
            words,
        }
    }

    /// Compares with what the program found.
    pub(super) fn check(&self, trace: &[Event], found: &Alignment) {
        assert_eq!(found.cost, self.cost, "cost: {found:#?}");
        self.check_moves(trace, found);
        let mut departures = BTreeSet::new();
        for finding in &found.findings {
            let label = finding.label;
            let every = |has: &[Has]| has.iter().all(|has| self.every.contains(has));
            let (certain, placed) = match finding.became {
                Became::Done(at) => (every(&[Has::Done(label)]), every(&[Has::DoneAt(at)])),
                Became::Missing(_) => {
                    departures.insert(Other::Missing(label));
                    let missing = every(&[Has::Missing(label)]);
                    (missing, missing)
                }
                Became::NotNeeded(at) => {
                    departures.insert(Other::NotNeeded(label));
                    (
                        every(&[Has::NotNeeded(label)]),
                        every(&[Has::NotNeededAt(at)]),
                    )
                }
                Became::Moved { at, .. } => {
                    departures.insert(Other::NotNeeded(label));
                    departures.insert(Other::Missing(label));
                    let placed = every(&[Has::NotNeededAt(at), Has::Missing(label)]);
                    let certain = every(&[Has::NotNeeded(label), Has::Missing(label)]);
                    let weightless = trace[at].weight == 0;
                    (if weightless { placed } else { certain }, placed)
                }
            };
            assert_eq!(
                (finding.certain, finding.placed),
                (certain, placed),
                "{finding:?}"
            );
        }
        let others = self.some.iter().filter_map(|has| match has {
            Has::Missing(label) => Some(Other::Missing(*label)),
            Has::NotNeeded(label) => Some(Other::NotNeeded(*label)),
            _ => None,
        });
        let others: BTreeSet<Other> = others.filter(|other| !departures.contains(other)).collect();
        assert_eq!(found.others, others.into_iter().collect::<Vec<_>>());
    }

    /// The moves are the trace, they are a word of the task, and they cost what is said. Each
    /// departure is told once.
    fn check_moves(&self, trace: &[Event], found: &Alignment) {
        let (mut done, mut word, mut cost, mut told) = (Vec::new(), Vec::new(), 0, 0);
        for one in &found.moves {
            match *one {
                Move::Done(event) => {
                    done.push(event);
                    word.push(trace[event].label);
                    told += 1;
                }
                Move::NotNeeded(event) => {
                    done.push(event);
                    cost += trace[event].weight;
                    told += usize::from(trace[event].weight > 0);
                }
                Move::Missing { label, .. } => {
                    word.push(label);
                    cost += 1;
                    told += 1;
                }
            }
        }
        assert_eq!(done, (0..trace.len()).collect::<Vec<_>>(), "{found:#?}");
        assert_eq!(cost, self.cost);
        assert!(self.words.contains(&word), "{word:?} is not allowed");
        let findings = found.findings.iter().map(|finding| match finding.became {
            Became::Moved { at, .. } => 1 + usize::from(trace[at].weight > 0),
            _ => 1,
        });
        assert_eq!(findings.sum::<usize>(), told, "{found:#?}");
    }
}

/// Every alignment of a word with a trace that costs at most `left`.
fn all_alignments(
    word: &[Label],
    trace: &[Event],
    at: usize,
    left: u32,
    begun: &mut Vec<Has>,
    found: &mut dyn FnMut(&BTreeSet<Has>),
) {
    if word.is_empty() && at == trace.len() {
        found(&begun.iter().cloned().collect());
        return;
    }
    let size = begun.len();
    if let (Some(label), Some(event)) = (word.first(), trace.get(at))
        && *label == event.label
    {
        begun.extend([Has::Done(*label), Has::DoneAt(at)]);
        all_alignments(&word[1..], trace, at + 1, left, begun, found);
        begun.truncate(size);
    }
    if let Some(label) = word.first()
        && left > 0
    {
        begun.push(Has::Missing(*label));
        all_alignments(&word[1..], trace, at, left - 1, begun, found);
        begun.truncate(size);
    }
    if let Some(event) = trace.get(at)
        && event.weight <= left
    {
        begun.push(Has::NotNeededAt(at));
        if event.weight > 0 {
            begun.push(Has::NotNeeded(event.label));
        }
        all_alignments(word, trace, at + 1, left - event.weight, begun, found);
        begun.truncate(size);
    }
}
