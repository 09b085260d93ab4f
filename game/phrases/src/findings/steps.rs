//! The steps of an attempt in words.

use rackproof_drill::message::slot_ranges;
use rackproof_grade::{Moment, StepDone, StepFound};
use rackproof_words::Arg;

use super::{Finding, RightTold, StepTold, Told, teller::Teller};
use crate::named;

/// Steps of which the same is told: one step, or one step for several slots.
struct Group {
    step: usize,
    told: StepTold,
    certain: bool,
    moment: Option<Moment>,
    slots: u64,
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
            let slot = found.slot.map_or(0, |slot| 1 << slot);
            let same = groups.iter_mut().find(|group| {
                (group.step, group.told, group.certain) == (step, told, certain)
                    && (told == StepTold::Done || slot != 0)
            });
            match same {
                Some(group) => group.slots |= slot,
                None => groups.push(Group {
                    step,
                    told,
                    certain,
                    moment,
                    slots: slot,
                }),
            }
        }
        groups
    }

    /// What went right, with the reason of each step.
    pub(super) fn right(&self) -> Vec<RightTold> {
        let mut groups = self.groups();
        groups.retain(|group| group.told == StepTold::Done);
        groups.sort_by_key(|group| group.moment.map(|moment| (moment.at, moment.cause)));
        let told = groups.iter().filter_map(|group| {
            let moment = group.moment?;
            Some(RightTold {
                moment,
                said: self.said(group),
                why: self.why(group.step, moment),
            })
        });
        told.collect()
    }

    /// The reason of a step. If a rule was broken in doing it, the reason does not hold.
    fn why(&self, step: usize, moment: Moment) -> String {
        let mut breaches = self.grade.breaches.iter();
        let broken = breaches
            .position(|breach| breach.intent.is_some() && breach.moment.cause == moment.cause);
        if let Some(at) = broken {
            let number = Arg::Number(i64::try_from(at + 1).unwrap_or(i64::MAX));
            return self.words.say("right-but-broken", &[("number", number)]);
        }
        let name = self.step_name(step);
        let why = named(self.words, &format!("step-{name}-why"), name);
        self.words
            .say("finding-reason", &[("text", Arg::from(why))])
    }

    fn step_name(&self, step: usize) -> &str {
        let steps = &self.exercise.procedure.analysis.steps;
        steps.get(step).map_or("", |step| step.name.as_str())
    }

    fn group(&self, group: &Group) -> Finding {
        Finding {
            moment: group.moment,
            told: Told::Step(group.told, self.said(group)),
        }
    }

    fn said(&self, group: &Group) -> String {
        let name = self.step_name(group.step);
        let mut said = named(self.words, &format!("step-{name}"), name);
        if group.slots != 0 {
            let slots = slot_ranges(group.slots);
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
