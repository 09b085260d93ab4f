//! What of the analysis an attempt completed, and when.

use rackproof_alignment::{Became, EVENTS_MOST, Event, Fitness, Label, Tasks};
use rackproof_buffer::Halves;
use rackproof_drill::{State, World};
use rackproof_model::Micros;

use super::{Analysis, Held};
use crate::{
    Observation,
    listener::Listener,
    verdict::{Moment, StepDone, StepFound},
};

/// Follows an attempt.
pub(crate) struct Course<'a> {
    analysis: &'a Analysis,
    listener: Listener<'a>,
    /// For each step, whether it holds now, or for which slots.
    now: Vec<Held>,
    /// For each condition, whether it ever held, or for which slots.
    held: Vec<Held>,
    done: Vec<(Label, Moment)>,
}

/// An attempt beside the nearest way.
pub(crate) struct Aligned {
    pub(crate) way: usize,
    pub(crate) steps: Vec<StepFound>,
    pub(crate) fitness: Fitness,
}

/// The slots of which both halves are in a set.
fn whole_slots(set: Halves) -> u64 {
    set.infeed & set.outfeed
}

impl<'a> Course<'a> {
    /// Begins where an attempt begins. What holds there was completed by nobody.
    pub(crate) fn new(analysis: &'a Analysis, world: &World, state: &State) -> Course<'a> {
        let mut course = Course {
            analysis,
            listener: Listener::new(&analysis.prepared),
            now: vec![Held::default(); analysis.steps.len()],
            held: vec![Held::default(); analysis.conditions.len()],
            done: Vec::new(),
        };
        let start = Moment { at: 0, cause: None };
        course.perceive(&Observation::now(world, state), start);
        course.done.clear();
        course.listener = Listener::new(&analysis.prepared);
        course
    }

    /// Lets a span pass in which nothing is perceived. A step that time alone completes counts from
    /// the next observation on.
    pub(crate) fn pass(&mut self, quiet: &Observation, span: Micros) {
        self.listener.pass(quiet, span);
    }

    /// What it listens with.
    pub(crate) fn listener(&self) -> &Listener<'a> {
        &self.listener
    }

    /// Takes up an observation.
    pub(crate) fn perceive(&mut self, seen: &Observation, moment: Moment) {
        let analysis = self.analysis;
        let Some(told) = self.listener.observe(seen) else {
            return;
        };
        let values = told.values;
        for (number, (step, before)) in analysis.steps.iter().zip(&mut self.now).enumerate() {
            let step_number = number as u16;
            if !told.concerns(step.root) {
                continue;
            }
            if step.each {
                let slots = whole_slots(values.set(step.root));
                let mut new = slots & !before.slots;
                while new != 0 {
                    let slot = new.trailing_zeros() as u16;
                    self.done.push((Label::of(step_number, slot), moment));
                    new &= new - 1;
                }
                before.slots = slots;
            } else {
                let holds = values.truth(step.root);
                if holds && !before.at_all {
                    self.done.push((Label::plain(step_number), moment));
                }
                before.at_all = holds;
            }
        }
        for (condition, held) in analysis.conditions.iter().zip(&mut self.held) {
            if !told.concerns(condition.root) {
                continue;
            }
            if condition.each {
                let set = values.set(condition.root);
                held.slots |= set.infeed | set.outfeed;
            } else {
                held.at_all |= values.truth(condition.root);
            }
        }
    }

    /// Lays it beside the nearest way. `None` if more was completed than can be aligned.
    pub(crate) fn align(&self) -> Option<Aligned> {
        // Before anything is counted among so many.
        if self.done.len() > EVENTS_MOST {
            return None;
        }
        let tasks = Tasks::new(&self.analysis.task(&self.held)).ok()?;
        let events: Vec<Event> = self
            .done
            .iter()
            .map(|(label, _)| self.event(*label))
            .collect();
        let found = tasks.align(&events).ok()?;
        let moment = |event: usize| self.done[event].1;
        let steps = found.findings.iter().map(|finding| StepFound {
            step: usize::from(finding.label.step),
            slot: finding.label.instance.map(|slot| slot as u8),
            done: match finding.became {
                Became::Done(event) => StepDone::Done(moment(event)),
                Became::Moved { at, .. } => StepDone::Moved(moment(at)),
                Became::Missing(_) => StepDone::Missing,
                Became::NotNeeded(event) => StepDone::NotNeeded(moment(event)),
            },
            certain: finding.certain,
            placed: finding.placed,
        });
        Some(Aligned {
            way: self
                .analysis
                .way_of(&found.moves, |event| self.done[event].0),
            steps: steps.collect(),
            fitness: found.fitness,
        })
    }

    /// A step that may be repeated without harm weighs nothing if it was repeated: which of them
    /// was the repeat is for the alignment to say.
    fn event(&self, label: Label) -> Event {
        let harmless = self.analysis.steps[usize::from(label.step)].harmless;
        let repeated = || {
            self.done
                .iter()
                .filter(|(known, _)| *known == label)
                .count()
                > 1
        };
        Event {
            label,
            weight: u32::from(!(harmless && repeated())),
        }
    }
}
