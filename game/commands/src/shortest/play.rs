//! A way that a search found, at a person's pace, and without what it can do without.

use rackproof_attempt::Attempt;
use rackproof_drill::{Cause, Intent, Stand};
use rackproof_prove::{Step, Witness};

use super::walks;

/// One thing on a way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Item {
    /// Do this.
    Do(Intent),
    /// Let at least so much time pass, in µs.
    Wait(u64),
}

/// The items of a witness. The neighbours choose nothing in it.
pub(super) fn items_of(witness: &Witness<Cause>) -> Vec<Item> {
    let steps = witness.steps.iter().filter_map(|step| match step {
        Step::Did(Cause::Did(intent)) => Some(Item::Do(*intent)),
        Step::Waited(span) => Some(Item::Wait(u64::from(span.0))),
        Step::Did(_) | Step::Chose(_) => None,
    });
    steps.collect()
}

/// Puts back what the explorer takes as put back between two of its steps: cord, prop, hatch, and
/// the emergency stop. What was done for it.
pub(super) fn put_back(attempt: &mut Attempt) -> Vec<Item> {
    let mut done = Vec::new();
    let person = attempt.state().world.person;
    if person.hand_in || attempt.state().world.machine.hold_left().0 > 0 {
        // The explorer has steps of its own for that.
        return done;
    }
    for _ in 0..8 {
        let state = &attempt.state().world;
        let (machine, person) = (&state.machine, &state.person);
        let next = if person.cord {
            Intent::UnplugCord
        } else if machine.hatch_open() && machine.propped() {
            Intent::RemoveProp
        } else if machine.hatch_open() {
            Intent::ShutHatch
        } else if machine.emergency() {
            Intent::ReleaseEmergency
        } else {
            break;
        };
        for item in leading_to(attempt, next) {
            let Item::Do(intent) = item else { continue };
            if attempt.do_intent(intent).is_err() {
                return done;
            }
            done.push(item);
        }
    }
    done
}

/// The doing, after a walk to where it is on offer if it is not here.
fn leading_to(attempt: &Attempt, intent: Intent) -> Vec<Item> {
    if attempt.takes(intent) {
        return vec![Item::Do(intent)];
    }
    let leads = |stand: &&(&str, Stand)| {
        let mut there = attempt.clone();
        let walked = there.do_at_once(Cause::Did(Intent::Walk(stand.1)));
        walked.is_ok() && there.takes(intent)
    };
    match Stand::ALL.iter().find(leads) {
        Some((_, stand)) => vec![Item::Do(Intent::Walk(*stand)), Item::Do(intent)],
        None => vec![Item::Do(intent)],
    }
}

/// Does all items from where `there` stands, each at a person's pace; what waits, waits no longer
/// than it must. `None` if one cannot be done.
pub(super) fn play(there: &Attempt, items: &[Item]) -> Option<Attempt> {
    let mut attempt = there.clone();
    let mut owed = 0;
    for item in items {
        let intent = match item {
            Item::Wait(span) => {
                owed += span;
                continue;
            }
            Item::Do(intent) => *intent,
        };
        let stand = attempt.state().world.person.stand;
        if intent == Intent::Walk(stand) {
            continue;
        }
        // The hand is on its way while the time passes, if it can be.
        let pace = u64::from(attempt.world().hall().pace.of(intent, stand).0);
        attempt.wait(u64::saturating_sub(owed, pace));
        if !attempt.takes(intent) {
            attempt.wait(owed.min(pace));
        }
        owed = 0;
        attempt.do_intent(intent).ok()?;
    }
    Some(attempt)
}

/// The way without all that it can do without: pairs of doings that undo each other, then single
/// ones. `safe` plays a way, if it is one. `None` if the whole way is none.
pub(super) fn shorter(
    mut items: Vec<Item>,
    safe: &dyn Fn(&[Item]) -> Option<Attempt>,
) -> Option<Attempt> {
    let mut best = safe(&items)?;
    let pairs = |items: &[Item]| -> Vec<Vec<usize>> {
        let doings = items
            .iter()
            .enumerate()
            .filter_map(|(at, item)| match item {
                Item::Do(intent) if !walks(*intent) => Some((at, *intent)),
                _ => None,
            });
        let doings: Vec<(usize, Intent)> = doings.collect();
        let undone = doings
            .iter()
            .enumerate()
            .flat_map(|(number, (at, intent))| {
                let later = doings[number + 1..].iter();
                let again = later.take(NEAR).find(|(_, later)| undo(*intent, *later));
                again.map(|(later, _)| vec![*at, *later])
            });
        let single = (0..items.len()).filter(|at| matches!(items[*at], Item::Do(_)));
        undone.chain(single.rev().map(|at| vec![at])).collect()
    };
    loop {
        let left_out = pairs(&items).into_iter().find_map(|out| {
            let mut fewer = items.clone();
            for at in out.iter().rev() {
                fewer.remove(*at);
            }
            let end = safe(&fewer).filter(|end| end.at() <= best.at())?;
            Some((fewer, end))
        });
        match left_out {
            Some((fewer, end)) => (items, best) = (fewer, end),
            None => return Some(best),
        }
    }
}

/// How far apart two doings that undo each other are looked for.
const NEAR: usize = 6;

/// Whether the second takes back the first.
fn undo(one: Intent, other: Intent) -> bool {
    let pairs = [
        (Intent::OpenHatch, Intent::ShutHatch),
        (Intent::PlugCord, Intent::UnplugCord),
        (Intent::SetProp, Intent::RemoveProp),
        (Intent::KeyIn, Intent::KeyOut),
        (Intent::IsolatorOff, Intent::IsolatorOn),
        (Intent::LockOn, Intent::LockOff),
    ];
    let is = |pair: &(Intent, Intent)| *pair == (one, other) || *pair == (other, one);
    pairs.iter().any(is)
}
