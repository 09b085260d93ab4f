//! What the environment may choose: does it come up at all.
//!
//! A drill that speaks of a fault that comes by chance, or of a neighbour that does something when
//! it likes, is about that. Where it cannot come up, all that is proved says nothing of it.

use std::io::{self, Write};

use rackproof_attempt::{Exercise, chance_text, fault_comes_text};
use rackproof_drill::Comes;
use rackproof_library::Loaded;
use rackproof_words::{Arg, Words};
use serde_json::{Value, json};

use super::{
    head::{names, together},
    job::Kept,
};
use crate::lines::wrapped;

/// Something that the environment may choose, by what the drill says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Choice {
    /// As journals write it: `UpstreamDrops`, `FaultComes("strip")`.
    pub(crate) chance: String,
    /// The variants in which it comes up in some state that keeps the rules. Variants that are
    /// searched together count together.
    pub(crate) arises: Vec<usize>,
    /// The variants that have it, and in which it comes up in none.
    pub(crate) never: Vec<usize>,
}

impl Choice {
    /// Whether it comes up in each variant that has it, and some variant has it.
    pub(crate) fn comes_up(&self) -> bool {
        !self.arises.is_empty() && self.never.is_empty()
    }
}

/// What may be chosen in a drill, and where it comes up in the searches of all its variants.
pub(super) fn choices(exercise: &Exercise, kept: &[Kept]) -> Vec<Choice> {
    let mut found: Vec<Choice> = Vec::new();
    let mut groups: Vec<&[usize]> = Vec::new();
    for one in kept {
        if !groups.contains(&&one.variants[..]) {
            groups.push(&one.variants);
        }
    }
    for group in groups {
        let Some(judged) = group.first().and_then(|&first| exercise.judged(first)) else {
            continue;
        };
        let searches = || kept.iter().filter(|one| one.variants == group);
        for chance in judged.world().choices() {
            let name = chance_text(judged.world(), chance);
            let met = searches().any(|one| one.survey.chances.contains(&chance));
            let choice = named(&mut found, name);
            let variants = if met {
                &mut choice.arises
            } else {
                &mut choice.never
            };
            variants.extend(group);
        }
    }
    let faults = exercise.drill.faults.iter();
    for fault in faults.filter(|fault| fault.comes == Comes::Chance) {
        // One that no variant lists comes up nowhere.
        named(&mut found, fault_comes_text(&fault.id));
    }
    found
}

/// The choice of this name, a new one if there is none.
fn named(choices: &mut Vec<Choice>, chance: String) -> &mut Choice {
    let at = choices.iter().position(|one| one.chance == chance);
    let at = at.unwrap_or_else(|| {
        choices.push(Choice {
            chance,
            arises: Vec::new(),
            never: Vec::new(),
        });
        choices.len() - 1
    });
    &mut choices[at]
}

/// What the environment may choose, as a trainer reads it. Nothing where it may choose nothing.
pub(super) fn write(
    drill: &Loaded,
    choices: &[Choice],
    out: &mut dyn Write,
    words: &Words,
) -> io::Result<()> {
    if choices.is_empty() {
        return Ok(());
    }
    writeln!(out)?;
    writeln!(out, "{}", words.say("prove-choices", &[]))?;
    for one in choices {
        let id = match (one.comes_up(), one.never.is_empty()) {
            (true, _) => "prove-choice",
            (false, false) => "prove-choice-never",
            (false, true) => "prove-choice-unlisted",
        };
        let arguments = [
            ("chance", Arg::from(one.chance.as_str())),
            ("count", Arg::from(one.arises.len() as i64)),
            ("never", Arg::from(together(&drill.exercise, &one.never))),
        ];
        write!(out, "{}", wrapped("  ", 4, &words.say(id, &arguments)))?;
    }
    Ok(())
}

/// The same for a program.
pub(super) fn choices_json(drill: &Loaded, choices: &[Choice]) -> Vec<Value> {
    let told = choices.iter().map(|one| {
        json!({
            "chance": one.chance, "arises_in": names(&drill.exercise, &one.arises),
            "never_in": names(&drill.exercise, &one.never), "comes_up": one.comes_up(),
        })
    });
    told.collect()
}

#[cfg(test)]
#[path = "choices_tests.rs"]
mod tests;
