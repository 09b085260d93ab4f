//! What the size of the rack costs: the same search on racks of several sizes, side by side. No
//! proof: it says how states grow, or that they do not.

use std::{
    io::{self, Write},
    time::{Duration, Instant},
};

use rackproof_attempt::Exercise;
use rackproof_buffer::{SLOTS_MOST, StateFact};
use rackproof_words::{Arg, Words};

use super::{
    facts,
    interrupt::came,
    job::{Kept, explore_kept},
    level::Level,
};
use crate::Exit;

/// One search, and how long it took.
type Timed = (Kept, Duration);

/// A size that no rack has, if one is asked for.
pub(super) fn impossible(sizes: &[u8]) -> Option<u8> {
    let possible = 2..=SLOTS_MOST as u8;
    sizes.iter().copied().find(|size| !possible.contains(size))
}

/// Searches the chosen variants on racks of these sizes, one after the other so that the times can
/// be compared, and writes a line for each variant.
pub(super) fn write(
    exercise: &Exercise,
    chosen: &[usize],
    (sizes, level): (&[u8], Level),
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<Exit> {
    let mut exit = Exit::Done;
    for &variant in chosen {
        let name = exercise.drill.variants[variant].id.as_str();
        writeln!(
            out,
            "{}",
            words.say("prove-sizes", &[("variant", Arg::from(name))])
        )?;
        let mut first: Option<u64> = None;
        for &slots in sizes {
            let (kept, time) = timed(exercise, variant, (slots, level));
            if came() {
                return Ok(Exit::No);
            }
            let states = *first.get_or_insert(kept.states);
            let id = if kept.complete {
                "prove-size"
            } else {
                exit = Exit::No;
                "prove-size-bound"
            };
            let arguments = [
                ("slots", Arg::from(i64::from(slots))),
                ("states", Arg::from(kept.states as i64)),
                ("steps", Arg::from(kept.steps as i64)),
                ("memory", Arg::from((kept.memory / 1_000_000) as i64)),
                ("seconds", Arg::from(format!("{:.1}", time.as_secs_f64()))),
                (
                    "factor",
                    Arg::from(format!("{:.3}", kept.states as f64 / states as f64)),
                ),
            ];
            writeln!(out, "  {}", words.say(id, &arguments))?;
            out.flush()?;
        }
        if let Some(&slots) = sizes.first() {
            write_facts(exercise, variant, slots, out, words)?;
        }
    }
    Ok(exit)
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
    let Some((all, without)) = facts::counts(exercise, variant, slots) else {
        return writeln!(out, "  {}", words.say("prove-facts-many", &[size]));
    };
    let factors = StateFact::ALL
        .iter()
        .zip(without)
        .map(|((name, _), count)| {
            let factor = all as f64 / count as f64;
            format!("{name} {factor:.3}")
        });
    let list = Arg::from(factors.collect::<Vec<_>>().join(", "));
    writeln!(
        out,
        "  {}",
        words.say("prove-facts", &[size, ("list", list)])
    )
}

fn timed(exercise: &Exercise, variant: usize, size: (u8, Level)) -> Timed {
    let rules = exercise.rules.for_proof();
    let began = Instant::now();
    let kept = explore_kept(exercise, &[variant], size, &rules, &mut |_| {});
    (kept, began.elapsed())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rack_has_two_to_forty_slots() {
        assert_eq!(impossible(&[2, 8, 40]), None);
        assert_eq!(impossible(&[8, 41]), Some(41));
        assert_eq!(impossible(&[1]), Some(1));
    }
}
