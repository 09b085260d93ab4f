//! The file of a proof: first its parts, then whether they go together.

mod guided;

use rackproof_files::{Bound, Fields, Report, Value, read};

use super::{
    Broken, Choice, Decisive, FORM, Proof, Race, RuleNeed, Search, TrapSprung, write::SEAL,
};
use crate::{Hashes, hash_of};
use guided::guided;

const COUNT: Bound = Bound::whole("count", "", 0, i64::MAX, "a count");
const SLOTS: Bound = Bound::whole("slots", "slots", 1, 64, "the size of a rack");
const FORMS: Bound = Bound::whole(
    "form",
    "",
    1,
    FORM as i64,
    "the forms of proof that this program knows",
);

/// The first form in which visits of milestones are counted.
const FORM_OF_VISITS: i64 = 5;

/// Hexadecimal figures of a hash.
const FIGURES: usize = 64;

impl Proof {
    /// Reads the file of a proof. `None` if it has a problem; all are reported.
    pub fn read(report: Report<'_>) -> Option<Proof> {
        let before = report.problems().len();
        let value = read(report)?;
        let fields = Fields::of(&value, "Proof", report)?;
        let form = fields.integer("form", &FORMS);
        let holds = fields.flag("holds");
        let drill = fields.name("drill");
        let program = fields.text("program");
        let texts = read_texts(&fields);
        let core = hash(&fields, "core");
        let not_sure = count(&fields, "not_sure");
        let merged = texts_of(&fields, "merged");
        let sizes = fields.each("sizes", |one, report| {
            unsigned(report.integer(one, &SLOTS)?)
        });
        let variants = texts_of(&fields, "variants");
        let claims = told(&fields, "claims");
        let searches = fields.each("searches", search);
        let milestones = visits(&fields, form);
        let harms = told(&fields, "harms");
        let times = guided(&fields);
        let (rules, traps) = (fields.each("rules", rule), fields.each("traps", trap));
        let always_wrong = texts_of(&fields, "always_wrong");
        let choices = if_there(&fields, "choices", choice);
        let machine = texts_of(&fields, "machine");
        let races = if_there(&fields, "races", race);
        let decisive = if_there(&fields, "decisive", moments);
        let facts = costs(&fields);
        let seal = hash(&fields, "seal");
        let (whole, list) = (fields.place(), fields.place_of("searches"));
        let (of_seal, of_claims) = (fields.place_of("seal"), fields.place_of("claims"));
        fields.finish();
        let proof = Proof {
            older: form? < FORM as i64,
            drill: drill?,
            program: program?,
            texts: texts?,
            core: core?,
            not_sure: not_sure?,
            merged: merged?,
            sizes: sizes?,
            variants: variants?,
            claims: claims?,
            searches: searches?,
            milestones: milestones?,
            harms: harms?,
            times: times?,
            rules: rules?,
            traps: traps?,
            always_wrong: always_wrong?,
            choices: choices?,
            machine: machine?,
            races: races?,
            decisive: decisive?,
            facts: facts?,
        };
        let (holds, seal) = (holds?, seal?);
        if proof.claims.is_empty() {
            report.add(of_claims, "problem-proof-claims-nothing", &[]);
        }
        if holds != proof.holds() {
            report.add(whole, "problem-proof-verdict", &[]);
        }
        for (variant, slots) in proof.not_searched() {
            let id = "problem-proof-not-searched";
            report.add(list, id, &[("variant", &variant), ("slots", &slots)]);
        }
        if !sealed(report.source().text(), &seal) {
            report.add(of_seal, "problem-proof-seal", &[]);
        }
        (report.problems().len() == before).then_some(proof)
    }

    /// Variants with sizes of racks that no search is of.
    fn not_searched(&self) -> Vec<(String, u64)> {
        let all = self
            .variants
            .iter()
            .flat_map(|variant| self.sizes.iter().map(move |&slots| (variant, slots)));
        all.filter(|(variant, slots)| {
            let of = |one: &Search| one.variants.contains(variant) && one.slots == *slots;
            !self.searches.iter().any(of)
        })
        .map(|(variant, slots)| (variant.clone(), slots))
        .collect()
    }
}

/// Whether a text is as it was when this seal was put under it.
fn sealed(text: &str, seal: &str) -> bool {
    // Somebody's tools may have changed where lines end: that changes no word.
    let text = text.replace("\r\n", "\n");
    let under = text.rfind(SEAL).map(|at| &text[..at]);
    under.is_some_and(|body| hash_of(body) == seal)
}

fn read_texts(fields: &Fields<'_>) -> Option<Hashes> {
    let texts = fields.record("texts", "Texts")?;
    let [machine, drill, rules, procedure] =
        ["machine", "drill", "rules", "procedure"].map(|field| hash(&texts, field));
    texts.finish();
    Some(Hashes {
        machine: machine?,
        drill: drill?,
        rules: rules?,
        procedure: procedure?,
    })
}

fn hash(fields: &Fields<'_>, field: &'static str) -> Option<String> {
    let text = fields.text(field)?;
    let is_hash = text.len() == FIGURES && text.bytes().all(|byte| byte.is_ascii_hexdigit());
    if !is_hash {
        let report = fields.report();
        report.add(
            fields.place_of(field),
            "problem-proof-hash",
            &[("field", &field)],
        );
    }
    is_hash.then_some(text)
}

fn unsigned(number: i64) -> Option<u64> {
    u64::try_from(number).ok()
}

fn count(fields: &Fields<'_>, field: &'static str) -> Option<u64> {
    fields.integer(field, &COUNT).and_then(unsigned)
}

fn text_of<'v>(value: &'v Value, report: Report<'v>) -> Option<String> {
    report.text(value).map(str::to_owned)
}

fn texts_of(fields: &Fields<'_>, field: &'static str) -> Option<Vec<String>> {
    fields.each(field, text_of)
}

/// A list that the first form had not.
fn if_there<'v, T>(
    fields: &Fields<'v>,
    field: &'static str,
    read: impl FnMut(&'v Value, Report<'v>) -> Option<T>,
) -> Option<Vec<T>> {
    if fields.has(field) {
        fields.each(field, read)
    } else {
        Some(Vec::new())
    }
}

/// A list of one thing, or of none.
fn at_most_one<'v, T>(
    fields: &Fields<'v>,
    field: &'static str,
    read: impl FnMut(&'v Value, Report<'v>) -> Option<T>,
) -> Option<Option<T>> {
    let mut found = fields.each(field, read)?;
    if found.len() > 1 {
        let count = found.len();
        let place = fields.place_of(field);
        let arguments: &[(&'static str, &dyn std::fmt::Display)] = &[("count", &count)];
        fields
            .report()
            .add(place, "problem-proof-more-than-one", arguments);
        return None;
    }
    Some(found.pop())
}

/// Names, and whether each holds: `{"fair": true}`.
fn told(fields: &Fields<'_>, field: &'static str) -> Option<Vec<(String, bool)>> {
    let report = fields.report().about(field);
    let entries = fields.entries(field)?;
    let read: Vec<Option<(String, bool)>> = entries
        .into_iter()
        .map(|(name, holds)| Some((name.to_owned(), report.flag(holds)?)))
        .collect();
    read.into_iter().collect()
}

/// Names, each with a count: `{"declared-empty": 12}`.
fn counts(fields: &Fields<'_>, field: &'static str) -> Option<Vec<(String, u64)>> {
    let report = fields.report().about(field);
    let entries = fields.entries(field)?;
    let read: Vec<Option<(String, u64)>> = entries
        .into_iter()
        .map(|(name, count)| {
            let count = unsigned(report.integer(count, &COUNT)?)?;
            Some((name.to_owned(), count))
        })
        .collect();
    read.into_iter().collect()
}

/// The factor of each fact. Older forms lack it.
fn costs(fields: &Fields<'_>) -> Option<Vec<(String, u64)>> {
    if fields.has("facts") {
        counts(fields, "facts")
    } else {
        Some(Vec::new())
    }
}

/// The milestones with their visits. Older forms said no more than whether there was one.
fn visits(fields: &Fields<'_>, form: Option<i64>) -> Option<Vec<(String, u64)>> {
    // A form that nobody knows was told already.
    if form.is_some_and(|form| form < FORM_OF_VISITS) {
        let told = told(fields, "milestones")?.into_iter();
        return Some(told.map(|(name, met)| (name, u64::from(met))).collect());
    }
    counts(fields, "milestones")
}

fn search<'v>(value: &'v Value, report: Report<'v>) -> Option<Search> {
    let fields = Fields::of(value, "Search", report)?;
    // Older forms had a search for each variant, and the ways that it found as a table.
    let variants = if fields.has("variant") {
        fields.name("variant").map(|variant| vec![variant])
    } else {
        texts_of(&fields, "variants")
    };
    let slots = fields.integer("slots", &SLOTS).and_then(unsigned);
    let complete = fields.flag("complete");
    let [states, steps, memory, finished, beyond_bound, checked, won] = [
        "states",
        "steps",
        "memory",
        "finished",
        "beyond_bound",
        "checked",
        "won",
    ]
    .map(|field| count(&fields, field));
    let broken = if fields.has("ways") {
        fields.entries("ways").map(|_| Vec::new())
    } else {
        fields.each("broken", broken)
    };
    fields.finish();
    Some(Search {
        variants: variants?,
        slots: slots?,
        states: states?,
        steps: steps?,
        memory: memory?,
        complete: complete?,
        finished: finished?,
        beyond_bound: beyond_bound?,
        checked: checked?,
        won: won?,
        broken: broken?,
    })
}

fn broken<'v>(value: &'v Value, report: Report<'v>) -> Option<Broken> {
    let fields = Fields::of(value, "Broken", report)?;
    let (claim, variant) = (fields.text("claim"), fields.name("variant"));
    let way = texts_of(&fields, "way");
    fields.finish();
    Some(Broken {
        claim: claim?,
        variant: variant?,
        way: way?,
    })
}

fn race<'v>(value: &'v Value, report: Report<'v>) -> Option<Race> {
    let fields = Fields::of(value, "Race", report)?;
    let (one, other) = (fields.text("one"), fields.text("other"));
    let states = count(&fields, "states");
    fields.finish();
    Some(Race {
        one: one?,
        other: other?,
        states: states?,
    })
}

fn choice<'v>(value: &'v Value, report: Report<'v>) -> Option<Choice> {
    let fields = Fields::of(value, "Choice", report)?;
    let chance = fields.text("chance");
    let (arises, never) = (texts_of(&fields, "arises"), texts_of(&fields, "never"));
    fields.finish();
    Some(Choice {
        chance: chance?,
        arises: arises?,
        never: never?,
    })
}

fn moments<'v>(value: &'v Value, report: Report<'v>) -> Option<Decisive> {
    let fields = Fields::of(value, "Decisive", report)?;
    let source = fields.text("source");
    let (states, most) = (count(&fields, "states"), count(&fields, "most"));
    let by = texts_of(&fields, "by");
    fields.finish();
    Some(Decisive {
        source: source?,
        states: states?,
        most: most?,
        by: by?,
    })
}

fn rule<'v>(value: &'v Value, report: Report<'v>) -> Option<RuleNeed> {
    let fields = Fields::of(value, "Rule", report)?;
    let (rule, sourced) = (fields.name("rule"), fields.flag("sourced"));
    let first_broken = count(&fields, "first_broken");
    let (tested, early) = (fields.flag("tested"), fields.flag("early"));
    let harm_without = at_most_one(&fields, "harm_without", text_of);
    let corner_without = if fields.has("corner_without") {
        at_most_one(&fields, "corner_without", text_of)
    } else {
        Some(None)
    };
    fields.finish();
    Some(RuleNeed {
        rule: rule?,
        sourced: sourced?,
        first_broken: first_broken?,
        tested: tested?,
        early: early?,
        harm_without: harm_without?,
        corner_without: corner_without?,
    })
}

fn trap<'v>(value: &'v Value, report: Report<'v>) -> Option<TrapSprung> {
    let fields = Fields::of(value, "Trap", report)?;
    let (trap, armed) = (fields.name("trap"), texts_of(&fields, "armed"));
    let sprung = at_most_one(&fields, "sprung", text_of);
    let way = texts_of(&fields, "way");
    let slots = if fields.has("slots") {
        count(&fields, "slots")
    } else {
        Some(0)
    };
    fields.finish();
    Some(TrapSprung {
        trap: trap?,
        armed: armed?,
        sprung: sprung?,
        slots: slots?,
        way: way?,
    })
}
