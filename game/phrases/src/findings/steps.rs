//! The steps of an attempt in words.

use rackproof_drill::{Intent, message::slot_ranges};
use rackproof_grade::{Breach, Moment, StepDone, StepFound};
use rackproof_words::Arg;

use super::{
    Finding, RightTold, StepTold, Told,
    teller::{Teller, count},
};
use crate::named;

/// Steps of which the same is told: one step, or one step for several slots.
struct Group {
    step: usize,
    told: StepTold,
    certain: bool,
    /// For which slot, if it is done for each, and when, if it was done.
    parts: Vec<(Option<u8>, Option<Moment>)>,
}

impl Group {
    fn slots(&self) -> u64 {
        let slots = self.parts.iter().filter_map(|(slot, _)| *slot);
        slots.fold(0, |mask, slot| mask | 1 << slot)
    }

    /// The first time.
    fn moment(&self) -> Option<Moment> {
        let moments = self.parts.iter().filter_map(|(_, moment)| *moment);
        moments.min_by_key(|moment| (moment.at, moment.cause))
    }

    /// The same of a part of it.
    fn of(&self, parts: Vec<(Option<u8>, Option<Moment>)>) -> Group {
        Group { parts, ..*self }
    }
}

fn told(done: StepDone) -> (StepTold, Option<Moment>) {
    match done {
        StepDone::Done(moment) => (StepTold::Done, Some(moment)),
        StepDone::Moved(moment) => (StepTold::Moved, Some(moment)),
        StepDone::Missing => (StepTold::Missing, None),
        StepDone::NotNeeded(moment) => (StepTold::NotNeeded, Some(moment)),
    }
}

impl Teller<'_> {
    /// The steps by what became of them. What was done again is told the first time; what is done
    /// for each slot is told once, with the slots.
    pub(super) fn steps(&self) -> Vec<Finding> {
        self.groups()
            .iter()
            .map(|group| self.group(group))
            .collect()
    }

    fn groups(&self) -> Vec<Group> {
        let mut groups: Vec<Group> = Vec::new();
        for found in &self.grade.steps {
            let StepFound { step, certain, .. } = *found;
            let (told, moment) = told(found.done);
            let part = (found.slot, moment);
            let same = groups.iter_mut().find(|group| {
                (group.step, group.told, group.certain) == (step, told, certain)
                    && (told == StepTold::Done || found.slot.is_some())
            });
            match same {
                Some(group) => group.parts.push(part),
                None => groups.push(Group {
                    step,
                    told,
                    certain,
                    parts: vec![part],
                }),
            }
        }
        groups
    }

    /// What went right, with the reason of each step. Where a rule was broken in doing it, for some
    /// slots or at another time, that is told in a row of its own.
    pub(super) fn right(&self) -> Vec<RightTold> {
        let mut rows: Vec<(Group, Vec<&Breach>)> = Vec::new();
        for group in self.groups() {
            if group.told != StepTold::Done {
                continue;
            }
            let broken = |part: &(Option<u8>, Option<Moment>)| {
                let moment = part.1;
                moment.is_some_and(|moment| self.broken_with(moment).next().is_some())
            };
            let (broken, kept) = group.parts.iter().copied().partition(broken);
            for parts in [kept, broken] {
                let part = group.of(parts);
                let breaches = self.breaches_of(&part);
                rows.push((part, breaches));
            }
        }
        rows.sort_by_key(|(group, _)| group.moment().map(|moment| (moment.at, moment.cause)));
        let told = rows.iter().filter_map(|(group, breaches)| {
            Some(RightTold {
                moment: group.moment()?,
                said: self.said(group),
                why: self.why(group.step, breaches),
            })
        });
        told.collect()
    }

    /// The breaches that came with a step completed at this moment. A button works on: what it set
    /// going may complete a step later, with nothing done in between.
    fn broken_with(&self, moment: Moment) -> impl Iterator<Item = &Breach> {
        let breaches = self.grade.breaches.iter();
        breaches.filter(move |breach| {
            let (pressed, did) = match breach.intent {
                Some(Intent::Press(_)) => (true, true),
                Some(_) => (false, true),
                None => (false, false),
            };
            did && breach.moment.cause == moment.cause && (pressed || breach.moment.at == moment.at)
        })
    }

    /// All breaches that came with the parts of a group, each once.
    fn breaches_of(&self, group: &Group) -> Vec<&Breach> {
        let moments = group.parts.iter().filter_map(|(_, moment)| *moment);
        let mut all: Vec<&Breach> = Vec::new();
        for breach in moments.flat_map(|moment| self.broken_with(moment)) {
            if !all.iter().any(|known| std::ptr::eq(*known, breach)) {
                all.push(breach);
            }
        }
        all
    }

    /// The reason of a step. If rules were broken in doing it, the reason does not hold. A look
    /// that counted was right all the same: what rested on it was wrong for another reason.
    fn why(&self, step: usize, breaches: &[&Breach]) -> String {
        let name = self.step_name(step);
        let why = named(self.words, &format!("step-{name}-why"), name);
        let reason = [("text", Arg::from(why))];
        let reason = || self.words.say("finding-reason", &reason);
        if breaches.is_empty() {
            return reason();
        }
        let mut times: Vec<String> = breaches
            .iter()
            .map(|breach| Arg::Clock(breach.moment.at).to_string())
            .collect();
        times.dedup();
        let values = [
            ("broken", count(breaches.len())),
            ("times", Arg::from(times.join(", "))),
        ];
        let steps = &self.exercise.procedure.analysis.steps;
        if steps.get(step).is_some_and(|step| step.by_looks) {
            let with = self.words.say("right-and-broken", &values);
            return format!("{} {with}", reason());
        }
        self.words.say("right-but-broken", &values)
    }

    fn step_name(&self, step: usize) -> &str {
        let steps = &self.exercise.procedure.analysis.steps;
        steps.get(step).map_or("", |step| step.name.as_str())
    }

    fn group(&self, group: &Group) -> Finding {
        Finding {
            moment: group.moment(),
            told: Told::Step(group.told, self.said(group)),
        }
    }

    fn said(&self, group: &Group) -> String {
        let name = self.step_name(group.step);
        let mut said = named(self.words, &format!("step-{name}"), name);
        if group.slots() != 0 {
            let slots = slot_ranges(group.slots());
            let slots = [("step", Arg::from(&*said)), ("slots", Arg::from(&*slots))];
            said = self.words.say("step-of-slots", &slots);
        }
        if !group.certain {
            said = self
                .words
                .say("step-possible", &[("step", Arg::from(&*said))]);
        }
        said
    }
}
