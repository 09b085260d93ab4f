//! What the size of the rack costs: the same search on racks of several sizes, side by side. No
//! proof: it says how states grow, or that they do not.
//!
//! Variants that differ only in how they begin are searched together, as a proof does it. Each
//! search has a time of its own, and all cores.

use std::{
    io::{self, Write},
    time::{Duration, Instant},
};

use rackproof_attempt::Exercise;
use rackproof_prove::{Hands, Progress};
use rackproof_words::{Arg, Words};

use super::{
    facts,
    head::write_memory,
    interrupt::came,
    job::{Kept, explore_kept, groups},
    level::Effort,
    report::facts_told,
    workers::Crew,
};
use crate::Exit;

/// One search, and how long it took.
type Timed = (Kept, Duration);

/// Searches the chosen variants on racks of these sizes, and writes a line for each size.
pub(super) fn write(
    exercise: &Exercise,
    chosen: &[usize],
    (sizes, effort): (&[u8], Effort),
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<Exit> {
    let groups = groups(exercise, chosen);
    write_memory(1, effort, out, words)?;
    let began = Instant::now();
    let searched = searched(exercise, &groups, (sizes, effort));
    let whole = began.elapsed();
    let ended = came();
    let mut exit = Exit::Done;
    // Where somebody ended it there may be fewer groups, and fewer sizes of the last one.
    for (group, of_group) in groups.iter().zip(searched.chunks(sizes.len())) {
        let ids = group.iter().map(|&one| &*exercise.drill.variants[one].id);
        let names = [
            ("count", Arg::from(group.len() as i64)),
            ("variants", Arg::from(ids.collect::<Vec<_>>().join(", "))),
        ];
        writeln!(out, "{}", words.say("prove-sizes", &names))?;
        let first = of_group[0].0.states;
        for timed in of_group {
            exit = exit.and(write_size(timed, (first, ended), out, words)?);
            write_incongruent(exercise, &timed.0, out, words)?;
        }
        if !ended {
            write_facts(exercise, group[0], sizes[0], out, words)?;
        }
    }
    if ended {
        let done = searched.iter().filter(|(kept, _)| kept.complete).count();
        let told = [
            ("done", Arg::from(done as i64)),
            ("searches", Arg::from((groups.len() * sizes.len()) as i64)),
        ];
        writeln!(out, "{}", words.say("prove-sizes-ended", &told))?;
        return Ok(Exit::No);
    }
    let seconds = Arg::from(format!("{:.1}", whole.as_secs_f64()));
    let whole = [
        ("searches", Arg::from(searched.len() as i64)),
        ("workers", Arg::from(Crew::whole().count() as i64)),
        ("seconds", seconds),
    ];
    writeln!(out, "{}", words.say("prove-sizes-whole", &whole))?;
    Ok(exit)
}

/// All searches, one after the other: group by group, and in each in the order of the sizes. Each
/// has all cores, so that its time says how long it takes here.
fn searched(exercise: &Exercise, groups: &[Vec<usize>], size: (&[u8], Effort)) -> Vec<Timed> {
    let (sizes, effort) = size;
    let rules = exercise.rules.for_proof();
    let jobs = groups
        .iter()
        .flat_map(|group| sizes.iter().map(move |&slots| (group, slots)));
    let search = |(group, slots): (&Vec<usize>, u8)| {
        let began = Instant::now();
        let by: (_, &mut dyn FnMut(Progress)) = (&Crew::whole(), &mut |_| {});
        let kept = explore_kept(exercise, group, (slots, effort), &rules, by);
        (kept, began.elapsed())
    };
    // What has not begun when somebody ends it does not begin. The first one does, and ends at
    // once, so that there is something to tell.
    let begins = |number: usize| number == 0 || !came();
    let jobs = jobs.enumerate().take_while(|(number, _)| begins(*number));
    jobs.map(|(_, job)| search(job)).collect()
}

/// The line of one search; `first` are the states of the one that it is compared with, `ended`
/// whether somebody ended the searches.
fn write_size(
    (kept, time): &Timed,
    (first, ended): (u64, bool),
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<Exit> {
    let (id, exit) = match (kept.complete, &kept.incongruent) {
        (true, _) => ("prove-size", Exit::Done),
        (false, Some(_)) => ("prove-size-incongruent", Exit::No),
        (false, None) if ended => ("prove-size-ended", Exit::No),
        (false, None) => ("prove-size-bound", Exit::No),
    };
    let factor = kept.states as f64 / first as f64;
    let arguments = [
        ("slots", Arg::from(i64::from(kept.slots))),
        ("states", Arg::from(kept.states as i64)),
        ("steps", Arg::from(kept.steps as i64)),
        ("memory", Arg::from((kept.memory / 1_000_000) as i64)),
        ("seconds", Arg::from(format!("{:.1}", time.as_secs_f64()))),
        ("factor", Arg::from(format!("{factor:.3}"))),
    ];
    writeln!(out, "  {}", words.say(id, &arguments))?;
    Ok(exit)
}

/// The way to two states that were merged and behave differently, if one was found: the search
/// ended there.
fn write_incongruent(
    exercise: &Exercise,
    kept: &Kept,
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    let Some((variant, way)) = &kept.incongruent else {
        return Ok(());
    };
    let name = exercise.drill.variants[*variant].id.as_str();
    let arguments = [
        ("slots", Arg::from(i64::from(kept.slots))),
        ("variant", Arg::from(name)),
    ];
    let told = words.say("prove-way-incongruent", &arguments);
    writeln!(out, "  {told}")?;
    for line in way {
        writeln!(out, "    {line}")?;
    }
    Ok(())
}

/// By what factor each fact makes the states more.
fn write_facts(
    exercise: &Exercise,
    variant: usize,
    slots: u8,
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    let size = ("slots", Arg::from(i64::from(slots)));
    let variant_name = exercise.drill.variants[variant].id.as_str();
    let name = ("variant", Arg::from(variant_name));
    let Some(counts) = facts::counts(exercise, variant, slots) else {
        return writeln!(out, "  {}", words.say("prove-facts-many", &[size, name]));
    };
    let told = facts_told(&counts, (variant_name, slots), words);
    writeln!(out, "  {told}")
}
