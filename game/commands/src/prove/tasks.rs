//! All searches of a proof, on one set of workers: no worker waits while another kind of search
//! goes on, and the longest begin first, so that none is alone at the end.

use std::time::Instant;

use rackproof_attempt::Exercise;
use rackproof_drill::Mergers;
use rackproof_prove::Progress;

use super::{
    facts::{self, Counts},
    job::{Kept, Plain, explore_free, explore_kept, explore_plain, groups},
    level::{Effort, Level},
    spoken::spoken_of,
    sprung::{self, Sprung},
    vacuity::{self, Without},
    workers::{self, Crew, Said},
};

/// The rack on which harms are looked for with the rules off.
pub(super) const SLOTS_FREE: u8 = 2;
/// Harms with the rules off are looked for up to so many states on all variants, then up to more:
/// most of them are near.
const FREE_MOST: [usize; 3] = [40_000, 200_000, 800_000];
/// After so many states more it is told how far a search is.
const TOLD_EVERY: usize = 2_000_000;

/// One search.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Task {
    /// With the rules kept: slots, and the number of the group of variants.
    Kept(u8, usize),
    /// By plain steps: the variant.
    Plain(usize),
    /// With no rule at all.
    Free,
    /// Without one rule: its number.
    Without(usize),
    /// For a trap: its number.
    Trap(usize),
    /// What each fact costs in states, on this variant.
    Facts(usize),
}

/// What it gave.
enum Done {
    Kept(Box<Kept>),
    Plain(Box<Plain>),
    Free(u64),
    Without(Without),
    Trap(Sprung),
    Facts(Option<Counts>),
}

/// What all searches gave, each kind in the order in which it was asked for.
#[derive(Default)]
pub(super) struct Found {
    pub(super) kept: Vec<Kept>,
    pub(super) plain: Vec<Plain>,
    pub(super) reachable: u64,
    pub(super) without: Vec<Without>,
    pub(super) traps: Vec<Sprung>,
    pub(super) facts: Option<Counts>,
}

/// How far a search is, or that it is done.
pub(super) enum Heard<'h> {
    Far(&'h [usize], u8, Progress),
    Kept(&'h Kept),
}

/// The searches in the order in which they begin. What asks whether the proof says anything is
/// asked of whole drills only.
fn tasks(exercise: &Exercise, chosen: &[usize], sizes: &[u8], whole: bool) -> Vec<Task> {
    let groups = groups(exercise, chosen).len();
    let of_size = |slots: u8| (0..groups).map(move |group| Task::Kept(slots, group));
    let largest = sizes.iter().copied().max().unwrap_or(0);
    let mut tasks: Vec<Task> = of_size(largest).collect();
    if whole {
        tasks.extend((0..exercise.rules.for_proof().list.len()).map(Task::Without));
    }
    tasks.push(Task::Free);
    let mut ends: Vec<usize> = chosen
        .first()
        .into_iter()
        .chain(chosen.last())
        .copied()
        .collect();
    ends.dedup();
    tasks.extend(ends.into_iter().map(Task::Plain));
    let smaller = sizes.iter().filter(|&&slots| slots != largest);
    tasks.extend(smaller.flat_map(|&slots| of_size(slots)));
    if whole {
        tasks.extend((0..exercise.drill.traps.len()).map(Task::Trap));
        tasks.extend(chosen.first().copied().map(Task::Facts));
    }
    tasks
}

/// Does all searches.
pub(super) fn search(
    exercise: &Exercise,
    chosen: &[usize],
    (sizes, effort): (&[u8], Effort),
    whole: bool,
    tell: &mut dyn FnMut(&Heard<'_>),
) -> Found {
    let rules = exercise.rules.for_proof();
    let groups = groups(exercise, chosen);
    let work = |task: &Task, crew: &Crew, far: &mut dyn FnMut((usize, u8, Progress))| match *task {
        Task::Kept(slots, group) => {
            let mut told = 0;
            let mut tell = |progress: Progress| {
                if progress.states / TOLD_EVERY > told {
                    told = progress.states / TOLD_EVERY;
                    far((group, slots, progress));
                }
            };
            let variants = &groups[group];
            let size = (slots, effort);
            let by: (_, &mut dyn FnMut(Progress)) = (crew, &mut tell);
            let began = Instant::now();
            let mut kept = explore_kept(exercise, variants, size, &rules, by);
            kept.took = Some(began.elapsed());
            Done::Kept(Box::new(kept))
        }
        Task::Plain(variant) => Done::Plain(Box::new(explore_plain(exercise, variant, SLOTS_FREE))),
        Task::Free => Done::Free(reachable(exercise, chosen, spoken_of(exercise))),
        Task::Without(rule) => Done::Without(vacuity::without(exercise, chosen, rule)),
        Task::Trap(trap) => Done::Trap(sprung::spring(exercise, chosen, trap)),
        Task::Facts(variant) => Done::Facts(facts::counts(exercise, variant, SLOTS_FREE)),
    };
    let mut hear = |said: Said<'_, (usize, u8, Progress), Done>| match said {
        Said::Far((group, slots, far)) => tell(&Heard::Far(&groups[group], slots, far)),
        Said::Done(Done::Kept(kept)) => tell(&Heard::Kept(kept)),
        Said::Done(_) => {}
    };
    let mut tasks = tasks(exercise, chosen, sizes, whole);
    if effort.level == Level::Unordered {
        tasks.retain(|task| matches!(task, Task::Kept(..)));
    }
    let mut found = Found::default();
    for done in workers::each(&tasks, work, &mut hear) {
        match done {
            Done::Kept(kept) => found.kept.push(*kept),
            Done::Plain(plain) => found.plain.push(*plain),
            Done::Free(reached) => found.reachable = reached,
            Done::Without(turn) => found.without.push(turn),
            Done::Trap(sprung) => found.traps.push(sprung),
            Done::Facts(counts) => found.facts = counts,
        }
    }
    let place = |slots: u8| sizes.iter().position(|&size| size == slots);
    found.kept.sort_by_key(|one| place(one.slots));
    found
}

/// Which of the harms can be reached on some variant with the rules off: near the start first, by
/// prepared steps, which are fewer, then what is left by plain ones; then on the next variant; then
/// farther away.
fn reachable(exercise: &Exercise, chosen: &[usize], wanted: u64) -> u64 {
    let mut reached = 0;
    for most in FREE_MOST {
        for &variant in chosen {
            for mergers in [Mergers::Prepared, Mergers::Plain] {
                let left = wanted & !reached;
                if left != 0 {
                    let bounds = (SLOTS_FREE, most);
                    reached |= explore_free(exercise, variant, bounds, left, mergers);
                }
            }
        }
    }
    reached
}

#[cfg(test)]
mod tests {
    use rackproof_files::Problems;
    use rackproof_library::{built_in_drill, load};

    use super::*;

    #[test]
    fn the_largest_rack_begins_and_nothing_is_left_out() {
        let loaded = load(built_in_drill(), &Problems::new()).expect("it has no problem");
        let tasks = tasks(&loaded.exercise, &[0, 5], &[4, 16], true);
        // Two variants in which nothing differs but where boards lie are searched at once.
        assert_eq!(tasks[0], Task::Kept(16, 0));
        let count = |is: &dyn Fn(&Task) -> bool| tasks.iter().filter(|task| is(task)).count();
        let rules = loaded.exercise.rules.for_proof().list.len();
        assert_eq!(count(&|task| matches!(task, Task::Kept(..))), 2);
        assert_eq!(count(&|task| matches!(task, Task::Without(_))), rules);
        assert_eq!(count(&|task| matches!(task, Task::Trap(_))), 3);
        assert_eq!(count(&|task| *task == Task::Free), 1);
        assert_eq!(count(&|task| matches!(task, Task::Plain(0 | 5))), 2);
        assert_eq!(count(&|task| *task == Task::Facts(0)), 1);
        assert_eq!(tasks.len(), 2 + rules + 3 + 1 + 2 + 1);
    }
}
