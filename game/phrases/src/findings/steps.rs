//! The steps of an attempt in words.

use rackproof_drill::message::slot_ranges;
use rackproof_grade::{Moment, StepDone, StepFound};
use rackproof_words::Arg;

use super::{Finding, StepTold, Told, teller::Teller};
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
        groups.iter().map(|group| self.group(group)).collect()
    }

    fn group(&self, group: &Group) -> Finding {
        let steps = &self.exercise.procedure.analysis.steps;
        let name = steps.get(group.step).map_or("", |step| step.name.as_str());
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
        Finding {
            moment: group.moment,
            told: Told::Step(group.told, said),
        }
    }
}
