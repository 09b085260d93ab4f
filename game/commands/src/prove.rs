//! `prove PATH…`: explores every variant of a drill completely and says which claims hold.

mod asked;
mod choices;
mod claim_list;
mod claims;
mod facts;
mod forms;
mod head;
mod interrupt;
mod job;
mod json;
mod keep;
mod kept;
mod kept_told;
mod leave;
mod level;
mod level_told;
mod lines;
mod race_table;
mod races;
mod report;
mod sizes;
mod sound;
mod spoken;
mod sprung;
mod survey;
mod tasks;
mod unordered;
mod vacuity;
mod ways;
mod workers;
mod written;

#[cfg(test)]
mod mutant_tests;

use std::{
    io::{self, Write},
    path::PathBuf,
    time::Instant,
};

use rackproof_attempt::Exercise;
use rackproof_library::{Loaded, kept_proof};
use rackproof_words::{Arg, Words};

use crate::{Answer, Exit, lines::paragraph, problems::write_problems};

use asked::{Asked, Refused};
use json::Origin;
use leave::WhyNot;

/// The most states of each search where nobody says: [`job::STATES_MOST`].
const STATES: &str = "40000000";

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[arg(required = true, value_name = "PATH")]
    paths: Vec<PathBuf>,
    #[arg(long)]
    json: bool,
    /// Only the small rack: for a quick look. The result is then not a proof of the drill.
    #[arg(long)]
    small: bool,
    /// Only variants of this name.
    #[arg(long, value_name = "NAME")]
    variant: Option<String>,
    /// Searches racks of these sizes side by side, and proves nothing.
    #[arg(
        long,
        value_name = "SLOTS",
        value_delimiter = ',',
        allow_negative_numbers = true
    )]
    #[arg(conflicts_with_all = ["json", "small", "again", "ways"])]
    slots: Vec<String>,
    /// How much is merged: 4, exact; 5, runs of alike slots squeezed as well; 6, the order of slots
    /// forgotten.
    #[arg(
        long,
        value_name = "LEVEL",
        default_value = "4",
        allow_negative_numbers = true
    )]
    level: String,
    /// The most states of each search.
    #[arg(long, value_name = "STATES", default_value = STATES, allow_negative_numbers = true)]
    states: String,
    /// Though nothing changed since it was proved.
    #[arg(long)]
    again: bool,
    /// Where the attempts go that break a claim. Without it: beside the drill, if it is proved
    /// whole.
    #[arg(long, value_name = "FOLDER")]
    ways: Option<PathBuf>,
}

/// Proves all drills found at the paths.
pub(crate) fn run(arguments: &Arguments, out: &mut dyn Write, words: &Words) -> Answer {
    let asked = match Asked::of(arguments, words) {
        Ok(asked) => asked,
        Err(refused) => return refuse(&refused, arguments.json, out, words),
    };
    interrupt::heed();
    let mut exit = Exit::Done;
    for drill in &asked.drills {
        if interrupt::came() {
            exit = Exit::No;
            tell_why(drill, "prove-not-begun", arguments.json, out, words)?;
            continue;
        }
        exit = exit.and(prove_one(drill, (arguments, &asked), out, words)?);
    }
    Ok(exit)
}

/// Says why nothing is searched at all.
fn refuse(refused: &Refused, json: bool, out: &mut dyn Write, words: &Words) -> Answer {
    if json {
        writeln!(out, "{}", json::refused(refused, words))?;
    } else {
        write_problems(out, words, &refused.problems)?;
        for (path, reason) in &refused.unread {
            let told = [
                ("path", Arg::from(path.as_str())),
                ("reason", Arg::from(reason.as_str())),
            ];
            paragraph(out, &words.say("file-not-read", &told))?;
        }
        for said in &refused.wrong {
            paragraph(out, said)?;
        }
        paragraph(out, &words.say("prove-nothing", &[]))?;
    }
    let is_use = !refused.unread.is_empty() || !refused.wrong.is_empty();
    Ok(if is_use { Exit::WrongUse } else { Exit::No })
}

/// Says of one drill why nothing of it is searched.
fn tell_why(
    drill: &Loaded,
    id: &'static str,
    json: bool,
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    let name = drill.exercise.drill.id.as_str();
    let said = words.say(id, &[("drill", Arg::from(name))]);
    if json {
        writeln!(out, "{}", json::nothing(name, &said))
    } else {
        paragraph(out, &said)
    }
}

/// The numbers of the variants that are to be proved.
fn chosen(drill: &Loaded, arguments: &Arguments) -> Vec<usize> {
    let wanted = arguments.variant.as_ref();
    let variants = drill.exercise.drill.variants.iter().enumerate();
    variants
        .filter(|(_, one)| wanted.is_none_or(|name| *name == one.id))
        .map(|(number, _)| number)
        .collect()
}

/// The racks on which all is searched: the small one and the whole one.
fn sizes_of(exercise: &Exercise, arguments: &Arguments) -> Vec<u8> {
    let (slots, small) = (exercise.machine.slots(), exercise.drill.limits.small_rack);
    if slots <= small {
        vec![slots]
    } else if arguments.small {
        vec![small]
    } else {
        vec![small, slots]
    }
}

fn prove_one(
    drill: &Loaded,
    (arguments, asked): (&Arguments, &Asked),
    out: &mut dyn Write,
    words: &Words,
) -> Answer {
    let (exercise, effort) = (&drill.exercise, asked.effort);
    let chosen = chosen(drill, arguments);
    if chosen.is_empty() {
        // Another drill has the variant.
        return Ok(Exit::Done);
    }
    if !exercise.rules.fit_keys() {
        tell_why(drill, "prove-rules-large", arguments.json, out, words)?;
        return Ok(Exit::No);
    }
    if !asked.slots.is_empty() {
        return sizes::write(exercise, &chosen, (&asked.slots, effort), out, words);
    }
    let is_whole = chosen.len() == exercise.drill.variants.len() && !arguments.small;
    if is_whole && drill.proof.shows_something() {
        let kept = kept_proof(&drill.material.drill)?;
        let asked = (arguments, effort.level);
        if let Some(exit) = kept_told::tell(drill, kept.as_ref(), asked, out, words)? {
            return Ok(exit);
        }
    }
    let (sizes, began) = (&sizes_of(exercise, arguments), Instant::now());
    if !arguments.json {
        if is_whole {
            head::write_why(drill, out, words)?;
        }
        head::write_head(drill, (sizes, effort), &chosen, out, words)?;
    }
    let mut told = Ok(());
    let json = arguments.json;
    let proof = claims::prove(exercise, &chosen, (sizes, effort), &mut |line| {
        if !json && told.is_ok() {
            told = head::write_progress(line, out, words);
        }
    });
    told?;
    let came = interrupt::came();
    let holds = proof.holds() && !came;
    let mut exit = if holds { Exit::Done } else { Exit::No };
    if !json {
        report::write_claims(drill, &proof, came, out, words)?;
        let seconds = Arg::from(format!("{:.1}", began.elapsed().as_secs_f64()));
        writeln!(out, "{}", words.say("prove-took", &[("seconds", seconds)]))?;
    }
    // What stopped at a bound that somebody asked for says nothing of the drill.
    let bounded = effort.states_most < job::STATES_MOST && proof.stopped_at_bound();
    let why_not = match (came, bounded, is_whole) {
        (true, ..) => Some(WhyNot::Ended),
        (_, true, _) => Some(WhyNot::Bounded),
        (.., false) => Some(WhyNot::Part),
        _ => None,
    };
    // What goes with an answer for a program goes without words.
    let mut nowhere = io::sink();
    let beside: &mut dyn Write = if json { &mut nowhere } else { out };
    let written = leave::leave((drill, &proof), why_not, arguments, beside, words)?;
    if !written.failed.is_empty() {
        exit = exit.and(Exit::No);
    }
    if json {
        let made = Origin::Made { interrupted: came };
        let told = json::json(drill, &proof, (made, &written), words);
        writeln!(out, "{told}")?;
    }
    Ok(exit)
}
