//! A proof as its file.

use std::{
    collections::BTreeSet,
    fmt::{Display, Write},
};

use super::{
    Broken, Choice, Decisive, Deed, FORM, Proof, Race, RuleNeed, Search, Time, TrapSprung,
};
use crate::hash_of;

/// What stands before the seal, on the last line but one.
pub(super) const SEAL: &str = "\n    seal: \"";

impl Proof {
    /// The file's text. It ends with a seal: the hash of all that stands before it, so that a part
    /// that was changed or lost is found out.
    pub fn text(&self) -> String {
        let mut body = String::from(HEAD);
        self.write_head(&mut body);
        map(&mut body, "claims", &self.claims);
        list(&mut body, "searches", &self.searches, search);
        map(&mut body, "milestones", &self.milestones);
        map(&mut body, "harms", &self.harms);
        let deeds = self.deeds();
        list(&mut body, "deeds", &deeds, |one| deed(one));
        list(&mut body, "times", &self.times, |one| time(one, &deeds));
        list(&mut body, "rules", &self.rules, rule);
        list(&mut body, "traps", &self.traps, trap);
        list(&mut body, "always_wrong", &self.always_wrong, |one| {
            quoted(one)
        });
        list(&mut body, "choices", &self.choices, choice);
        list(&mut body, "machine", &self.machine, |one| quoted(one));
        list(&mut body, "races", &self.races, race);
        list(&mut body, "decisive", &self.decisive, decisive);
        map(&mut body, "facts", &self.facts);
        let body = body.trim_end();
        format!("{body}{SEAL}{}\",\n)\n", hash_of(body))
    }

    /// What the guide did in all attempts, each once: most of it comes again and again.
    fn deeds(&self) -> Vec<&Deed> {
        let all = self.times.iter().flat_map(|one| &one.attempt);
        let deeds: BTreeSet<&Deed> = all.collect();
        deeds.into_iter().collect()
    }

    fn write_head(&self, out: &mut String) {
        let texts = &self.texts;
        let lines = [
            ("form", FORM.to_string()),
            ("drill", quoted(&self.drill)),
            ("program", quoted(&self.program)),
            (
                "texts",
                format!(
                    "Texts(\n        machine: {},\n        drill: {},\n        rules: {},\n        \
                     procedure: {},\n    )",
                    quoted(&texts.machine),
                    quoted(&texts.drill),
                    quoted(&texts.rules),
                    quoted(&texts.procedure)
                ),
            ),
            ("core", quoted(&self.core)),
            ("holds", self.holds().to_string()),
            ("not_sure", self.not_sure.to_string()),
            ("merged", names(&self.merged)),
            ("sizes", format!("{:?}", self.sizes)),
            ("variants", names(&self.variants)),
        ];
        for (field, value) in lines {
            let _ = writeln!(out, "    {field}: {value},");
        }
    }
}

const HEAD: &str = "\
// Written by `rackproof prove`: what was claimed about these texts and this core, and what came
// out. Changed by hand it is no proof any more.
Proof(
";

fn list<T>(out: &mut String, field: &str, values: &[T], written: impl Fn(&T) -> String) {
    lines(out, field, ["[", "]"], values.iter().map(written));
}

fn map<T: Display>(out: &mut String, field: &str, values: &[(String, T)]) {
    let entries = values
        .iter()
        .map(|(name, value)| format!("{}: {value}", quoted(name)));
    lines(out, field, ["{", "}"], entries);
}

fn lines(out: &mut String, field: &str, around: [&str; 2], values: impl Iterator<Item = String>) {
    let lines: String = values.map(|one| format!("\n        {one},")).collect();
    let end = if lines.is_empty() { "" } else { "\n    " };
    // Writing to a string cannot fail.
    let _ = writeln!(out, "    {field}: {}{lines}{end}{},", around[0], around[1]);
}

fn search(one: &Search) -> String {
    let ways: Vec<String> = one.broken.iter().map(broken).collect();
    format!(
        "Search(variants: {}, slots: {}, states: {}, steps: {}, memory: {}, complete: {}, \
         finished: {}, beyond_bound: {}, checked: {}, won: {}, broken: [{}])",
        names(&one.variants),
        one.slots,
        one.states,
        one.steps,
        one.memory,
        one.complete,
        one.finished,
        one.beyond_bound,
        one.checked,
        one.won,
        ways.join(", ")
    )
}

fn broken(one: &Broken) -> String {
    format!(
        "Broken(claim: {}, variant: {}, way: {})",
        quoted(&one.claim),
        quoted(&one.variant),
        names(&one.way)
    )
}

/// `After(1500000, "TestStraps")`: the time since the one before, in µs, and the cause.
fn deed(one: &Deed) -> String {
    format!("After({}, {})", one.after, quoted(&one.cause))
}

/// An attempt names its deeds by their numbers in the list, from 0.
fn time(one: &Time, deeds: &[&Deed]) -> String {
    let number = |deed: &Deed| deeds.iter().position(|known| *known == deed);
    let attempt: Vec<String> = one
        .attempt
        .iter()
        .filter_map(number)
        .map(|number| number.to_string())
        .collect();
    let time = one.time.map(|time| time.to_string()).unwrap_or_default();
    format!(
        "Time(variant: {}, way: {}, time_us: [{time}], runs: {}, failed: {}, \
         attempt: [{}], end: {})",
        quoted(&one.variant),
        quoted(&one.way),
        one.runs,
        one.failed,
        attempt.join(", "),
        quoted(&one.end)
    )
}

fn rule(one: &RuleNeed) -> String {
    format!(
        "Rule(rule: {}, sourced: {}, early: {}, first_broken: {}, tested: {}, harm_without: {}, \
         corner_without: {})",
        quoted(&one.rule),
        one.sourced,
        one.early,
        one.first_broken,
        one.tested,
        names(one.harm_without.as_slice()),
        names(one.corner_without.as_slice())
    )
}

fn trap(one: &TrapSprung) -> String {
    format!(
        "Trap(trap: {}, armed: {}, sprung: {}, slots: {}, way: {})",
        quoted(&one.trap),
        names(&one.armed),
        names(one.sprung.as_slice()),
        one.slots,
        names(&one.way)
    )
}

fn choice(one: &Choice) -> String {
    format!(
        "Choice(chance: {}, arises: {}, never: {})",
        quoted(&one.chance),
        names(&one.arises),
        names(&one.never)
    )
}

fn race(one: &Race) -> String {
    format!(
        "Race(one: {}, other: {}, states: {})",
        quoted(&one.one),
        quoted(&one.other),
        one.states
    )
}

fn decisive(one: &Decisive) -> String {
    format!(
        "Decisive(source: {}, states: {}, most: {}, by: {})",
        quoted(&one.source),
        one.states,
        one.most,
        names(&one.by)
    )
}

fn names(values: &[String]) -> String {
    let quoted: Vec<String> = values.iter().map(|one| quoted(one)).collect();
    format!("[{}]", quoted.join(", "))
}

/// A text as RON writes it.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}
