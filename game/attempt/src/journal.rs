//! Journals written by hand: what to do, entry by entry. They are for tests and for a trainer's
//! examples; a kept attempt has its own form.

use rackproof_drill::{Cause, Intent, World};
use rackproof_files::{Bound, Fields, Place, Report, Value, nearest, read};

use crate::{
    Attempt, Done, Exercise, Refused,
    attempt::GAP_MOST,
    notation::{cause_text, forms, intent_text, read_cause},
};

const SPAN: Bound = Bound::seconds("seconds", 0, GAP_MOST as u32, "a span of time");
const TIME: Bound = Bound {
    name: "time",
    unit: "s",
    decimals: 6,
    least: 0,
    most: 86_400_000_000,
    words: "a time since the start",
};

/// What one entry asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Entry {
    /// At the person's pace, right after the entry before. What the environment chooses takes no
    /// time.
    Next(Cause),
    /// To take effect at this time, in µs.
    At(u64, Cause),
    /// Let time pass, in µs.
    Wait(u64),
    /// Until the next event.
    WaitForEvent,
    /// Until no event is ahead.
    WaitForRest,
}

/// A journal written by hand:
///
/// ```text
/// Journal(drill: "left-inside", variant: "green-low", causes: [
///     Walk(Infeed), LookMouth, Take(5, Outfeed), At(12.5, Stop), Wait(2), WaitForEvent,
///     WaitForRest, Chose(UpstreamLaysBoard), Report,
/// ])
/// ```
#[derive(Clone, Debug)]
pub struct Journal {
    /// The number of the variant.
    pub variant: usize,
    entries: Vec<(Place, Entry)>,
}

/// Which drill a journal is for, before that drill is read. `None` if the text does not say; the
/// problems are then those that [`Journal::read`] reports.
pub fn journal_drill(report: Report<'_>) -> Option<String> {
    let value = read(report)?;
    let fields = Fields::of(&value, "Journal", report)?;
    let drill = fields.name("drill");
    for field in ["variant", "causes"] {
        fields.value(field);
    }
    fields.finish();
    drill
}

/// What was done, as an entry of a journal: `At(12.5, Stop)`.
pub fn journal_entry(world: &World, done: &Done) -> String {
    format!(
        "At({}, {})",
        seconds(done.at),
        cause_text(world, done.cause)
    )
}

#[derive(Clone, Copy)]
enum Word {
    Cause,
    At,
    Wait,
    WaitForEvent,
    WaitForRest,
}

impl Journal {
    /// Reads a journal for a drill. `None` if it has a problem; all are reported.
    pub fn read(report: Report<'_>, exercise: &Exercise) -> Option<Journal> {
        let before = report.problems().len();
        let value = read(report)?;
        let fields = Fields::of(&value, "Journal", report)?;
        let drill = fields.name("drill");
        if let Some(drill) = drill.filter(|drill| *drill != exercise.drill.id) {
            report
                .add(
                    fields.place_of("drill"),
                    "problem-other-drill",
                    &[("name", &drill)],
                )
                .expected("expected-one-of", &[("names", &exercise.drill.id)]);
        }
        let variant = fields
            .name("variant")
            .and_then(|name| find_variant(&name, exercise, fields.place_of("variant"), report));
        // Names of products and boards are the same in all variants.
        let judged = exercise.judged(0)?;
        let entries = fields.each("causes", |value, report| {
            let report = report.about("causes");
            read_entry(value, report, judged.world()).map(|entry| (value.place, entry))
        });
        fields.finish();
        let (variant, entries) = (variant?, entries?);
        (report.problems().len() == before).then_some(Journal { variant, entries })
    }

    /// Does every entry in turn; `after` is called after each. Stops at the first entry that cannot
    /// be done, which is reported with its place, or when `after` says so with `false`. Answers
    /// whether all was done.
    pub fn run(
        &self,
        attempt: &mut Attempt,
        report: Report<'_>,
        after: &mut dyn FnMut(&Attempt) -> bool,
    ) -> bool {
        self.entries
            .iter()
            .all(|(place, entry)| do_entry(attempt, *entry, *place, report) && after(attempt))
    }
}

fn find_variant(
    name: &str,
    exercise: &Exercise,
    place: Place,
    report: Report<'_>,
) -> Option<usize> {
    let found = exercise.variant(name);
    if found.is_none() {
        let names: Vec<&str> = exercise
            .drill
            .variants
            .iter()
            .map(|one| one.id.as_str())
            .collect();
        report
            .add(place, "problem-unknown-name", &[("name", &name)])
            .expected("expected-one-of", &[("names", &names.join(", "))])
            .did_you_mean(nearest(name, names.iter().copied()));
    }
    found
}

fn read_entry(value: &Value, report: Report<'_>, world: &World) -> Option<Entry> {
    let mut words: Vec<(&'static str, Word)> = forms()
        .into_iter()
        .map(|(name, _)| (name, Word::Cause))
        .collect();
    words.extend([
        ("At", Word::At),
        ("Wait", Word::Wait),
        ("WaitForEvent", Word::WaitForEvent),
        ("WaitForRest", Word::WaitForRest),
    ]);
    match report.variant(value, &words)? {
        Word::Cause => read_cause(value, report, world).map(Entry::Next),
        Word::At => {
            let [time, cause] = report.values::<2>(value)?;
            let time = report.number(time, &TIME);
            let cause = read_cause(cause, report, world);
            Some(Entry::At(u64::try_from(time?).ok()?, cause?))
        }
        Word::Wait => {
            let [span] = report.values::<1>(value)?;
            report
                .micros(span, &SPAN)
                .map(|span| Entry::Wait(u64::from(span)))
        }
        Word::WaitForEvent => report.choice(value, &[("WaitForEvent", Entry::WaitForEvent)]),
        Word::WaitForRest => report.choice(value, &[("WaitForRest", Entry::WaitForRest)]),
    }
}

/// Does one entry. `false` if it cannot be done, which is reported.
fn do_entry(attempt: &mut Attempt, entry: Entry, place: Place, report: Report<'_>) -> bool {
    let (cause, done) = match entry {
        Entry::Wait(span) => {
            attempt.wait(span);
            return true;
        }
        Entry::WaitForEvent => {
            attempt.wait_for_event();
            return true;
        }
        Entry::WaitForRest => {
            let rests = attempt.wait_for_rest();
            if !rests {
                report.add(place, "problem-never-rests", &[]);
            }
            return rests;
        }
        Entry::At(time, cause) => {
            if time < attempt.at() {
                report
                    .add(place, "problem-time-past", &[("time", &seconds(time))])
                    .expected("expected-time-from", &[("time", &seconds(attempt.at()))]);
                return false;
            }
            attempt.wait(time - attempt.at());
            (cause, attempt.do_at_once(cause))
        }
        Entry::Next(Cause::Did(intent)) => (Cause::Did(intent), attempt.do_intent(intent)),
        Entry::Next(cause) => (cause, attempt.do_at_once(cause)),
    };
    if let Err(refused) = done {
        report_refused(attempt, cause, refused, place, report);
    }
    done.is_ok()
}

fn report_refused(
    attempt: &Attempt,
    cause: Cause,
    refused: Refused,
    place: Place,
    report: Report<'_>,
) {
    let text = cause_text(attempt.world(), cause);
    let id = match (cause, refused) {
        (Cause::Chose(_), _) => "problem-not-among-chances",
        (_, Refused::NotOnOffer) => "problem-not-on-offer",
        (_, Refused::Gone) => "problem-no-longer-on-offer",
    };
    let now = seconds(attempt.at());
    let added = report.add(place, id, &[("cause", &text), ("time", &now)]);
    if let Cause::Did(wanted) = cause {
        let offers = attempt.offers();
        added.expected(
            "expected-on-offer",
            &[("offers", &offers_text(attempt, &offers))],
        );
        let walk = offers
            .iter()
            .find(|offer| leads_to(attempt, **offer, wanted));
        if let Some(walk) = walk {
            let walk = intent_text(attempt.world(), *walk);
            added.hint("hint-first", &[("first", &walk)]);
        }
    }
}

/// Whether `wanted` would be on offer right after `first`, which is a walk.
fn leads_to(attempt: &Attempt, first: Intent, wanted: Intent) -> bool {
    let mut ahead = attempt.clone();
    matches!(first, Intent::Walk(_))
        && ahead.do_at_once(Cause::Did(first)).is_ok()
        && ahead.offers().contains(&wanted)
}

/// Offers on one line. Of a sort with many values only the first and the last stand there.
fn offers_text(attempt: &Attempt, offers: &[Intent]) -> String {
    const MANY: usize = 6;
    let mut texts: Vec<String> = Vec::new();
    for group in offers.chunk_by(|one, other| one.kind() == other.kind()) {
        let text = |intent: &Intent| intent_text(attempt.world(), *intent);
        match group {
            [first, .., last] if group.len() > MANY => {
                texts.push(format!("{} … {}", text(first), text(last)));
            }
            _ => texts.extend(group.iter().map(text)),
        }
    }
    texts.join(", ")
}

/// A time as journals write it, in seconds.
fn seconds(micros: u64) -> String {
    TIME.written(i64::try_from(micros).unwrap_or(i64::MAX))
}
