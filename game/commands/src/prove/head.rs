//! What `prove` says before and while it searches: what is proved, within which bounds, and how far
//! it is.

use std::io::{self, Write};

use rackproof_attempt::{Exercise, ProofState, Text, core_hash, hash_of};
use rackproof_library::Loaded;
use rackproof_phrases::proof_told;
use rackproof_words::{Arg, Words};

use super::{
    claims::Line,
    interrupt::came,
    job,
    level::{Effort, Level},
    level_told::{forgets_order, write_level},
    workers::workers,
};
use crate::lines::paragraph;

/// About what a state takes with its steps and the search for corners, in bytes. Measured: the
/// whole program took at most 192 MB for the 833,822 states of `green-low` on 4 slots, 230 bytes a
/// state.
const BYTES_OF_A_STATE: u64 = 250;

/// So many figures of a hash are told: enough to see that two are not the same.
const FIGURES: usize = 12;

/// What is proved, and within which bounds: drill and texts with their hashes, racks, variants.
pub(crate) fn write_scope(
    drill: &Loaded,
    (sizes, level): (&[u8], Level),
    chosen: &[usize],
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    let slots: Vec<String> = sizes.iter().map(ToString::to_string).collect();
    let exercise = &drill.exercise;
    let arguments = [
        ("drill", Arg::from(exercise.drill.id.as_str())),
        ("variants", Arg::from(chosen.len() as i64)),
        ("names", Arg::from(together(exercise, chosen))),
        ("sizes", Arg::from(slots.join(", "))),
        (
            "notsure",
            Arg::from(i64::from(exercise.drill.limits.not_sure)),
        ),
        ("boards", Arg::from(boards_most(exercise) as i64)),
    ];
    let head = if forgets_order(drill, level) {
        "prove-head-unordered"
    } else {
        "prove-head"
    };
    paragraph(out, &words.say(head, &arguments))?;
    let material = &drill.material;
    let of = |text: &Text| Arg::from(hash_of(&text.text)[..FIGURES].to_owned());
    let hashes = [
        ("machine", of(&material.machine)),
        ("drill", of(&material.drill)),
        ("rules", of(&material.rules)),
        ("procedure", of(&material.procedure)),
        ("core", Arg::from(&core_hash()[..FIGURES])),
        ("name", Arg::from(exercise.hall.name.as_str())),
    ];
    paragraph(out, &words.say("prove-texts", &hashes))
}

/// Why a proof that is kept does not stand, where there is one.
pub(crate) fn write_why(drill: &Loaded, out: &mut dyn Write, words: &Words) -> io::Result<()> {
    if drill.proof.shows_something() || drill.proof == ProofState::Missing {
        return Ok(());
    }
    let told = [
        ("drill", Arg::from(drill.exercise.drill.id.as_str())),
        ("state", Arg::from(proof_told(words, &drill.proof))),
    ];
    paragraph(out, &words.say("prove-anew", &told))
}

/// What is about to be proved, within which bounds, and what it may take.
pub(crate) fn write_head(
    drill: &Loaded,
    (sizes, effort): (&[u8], Effort),
    chosen: &[usize],
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    let (exercise, level) = (&drill.exercise, effort.level);
    write_scope(drill, (sizes, level), chosen, out, words)?;
    write_level(drill, level, out, words)?;
    let kept = sizes.len() * job::groups(exercise, chosen).len();
    let others = match level {
        // Searches by plain steps and with the rules off are always among them.
        Level::Exact | Level::Squeezed => 2,
        Level::Unordered => 0,
    };
    write_memory(kept + others, effort, out, words)
}

/// What so many searches may take at most, said before they begin.
pub(super) fn write_memory(
    jobs: usize,
    effort: Effort,
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    let each = effort.states_most as u64 * BYTES_OF_A_STATE;
    let arguments = [
        ("workers", Arg::from(workers(jobs) as i64)),
        ("states", Arg::from(effort.states_most as i64)),
        ("bytes", Arg::from(BYTES_OF_A_STATE as i64)),
        ("each", Arg::from(megabytes(each))),
    ];
    paragraph(out, &words.say("prove-memory", &arguments))?;
    out.flush()
}

/// One search is done.
pub(crate) fn write_progress(
    line: &Line<'_>,
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    let (kept, exercise) = match line {
        Line::Kept(kept, exercise) => (kept, exercise),
        Line::Far(variants, slots, far, exercise) => {
            let arguments = [
                ("variant", Arg::from(together(exercise, variants))),
                ("slots", Arg::from(i64::from(*slots))),
                ("states", Arg::from(far.states as i64)),
                ("depth", Arg::from(far.depth as i64)),
            ];
            writeln!(out, "{}", words.say("prove-far", &arguments))?;
            return out.flush();
        }
    };
    let arguments = [
        ("variant", Arg::from(together(exercise, &kept.variants))),
        ("slots", Arg::from(i64::from(kept.slots))),
        ("states", Arg::from(kept.states as i64)),
        ("steps", Arg::from(kept.steps as i64)),
        ("memory", Arg::from(megabytes(kept.memory))),
        (
            "seconds",
            Arg::from(format!(
                "{:.1}",
                kept.took.unwrap_or_default().as_secs_f64()
            )),
        ),
    ];
    let id = match (kept.complete, kept.incongruent.is_some(), came()) {
        (true, ..) => "prove-searched",
        (_, true, _) => "prove-search-incongruent",
        (.., true) => "prove-search-ended",
        _ => "prove-search-bound",
    };
    writeln!(out, "{}", words.say(id, &arguments))?;
    out.flush()
}

/// The names of variants that were searched together.
pub(super) fn together(exercise: &Exercise, variants: &[usize]) -> String {
    names(exercise, variants).join(", ")
}

/// The names of variants.
pub(super) fn names<'e>(exercise: &'e Exercise, variants: &[usize]) -> Vec<&'e str> {
    let variants = variants.iter();
    let names = variants.map(|&variant| exercise.drill.variants[variant].id.as_str());
    names.collect()
}

/// Bytes as whole megabytes, rounded up.
fn megabytes(bytes: u64) -> i64 {
    i64::try_from(bytes.div_ceil(1_000_000)).unwrap_or(i64::MAX)
}

/// The most boards that there are in a variant of a drill, those that upstream still has included.
fn boards_most(exercise: &Exercise) -> usize {
    let variants = exercise.drill.variants.iter();
    let counts = variants.map(|variant| {
        let line = variant.line.unwrap_or(exercise.drill.neighbours);
        let left = usize::from(line.leftover.is_some());
        let upstream = line.upstream.map_or(left, |one| usize::from(one.boards));
        let lying = variant.boards.len() + variant.stored.len();
        lying + usize::from(variant.infeed_belt.is_some()) + upstream
    });
    counts.max().unwrap_or(0)
}
