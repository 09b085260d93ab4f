//! The task sheet of a drill: what is asked, and by what it is judged. For the trainee beforehand,
//! so that nothing on it says where boards lie, which traps wait, or how long the guide takes.

use rackproof_attempt::Exercise;
use rackproof_buffer::HarmKind;
use rackproof_drill::message::{of_finish_item, of_mode, of_stand, of_unit, product_name};
use rackproof_grade::{Backing, Completion, Rule};
use rackproof_words::{Arg, Words};

use crate::{named, severity_id, text};

/// A task sheet in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TaskSheet {
    /// The drill's title.
    pub title: String,
    /// How things stand at the start.
    pub start: Vec<String>,
    /// What sets the work going: the task as it is told.
    pub cue: String,
    /// What must hold at the end: an outcome.
    pub standard: Vec<String>,
    /// Ways through, each as good as the others.
    pub ways: Vec<String>,
    /// The steps that must not be missed.
    pub critical: Vec<CriticalStep>,
    /// How long it may take, in words.
    pub time: String,
    /// What passes and what fails, in words.
    pub verdict: String,
    /// The rules.
    pub criteria: Vec<Criterion>,
    /// What comes before this sheet.
    pub cautions: String,
}

/// A critical step in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CriticalStep {
    /// Its name.
    pub name: String,
    /// What is done.
    pub said: String,
    /// Whether it has its place in the order of the steps around it.
    pub ordered: bool,
    /// The same in words.
    pub order_said: String,
    /// What stands behind it: rules and harms, in words.
    pub because: Vec<String>,
}

/// A rule in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Criterion {
    /// Its name.
    pub name: String,
    /// How bad a breach is, in a word.
    pub severity: String,
    /// What it asks.
    pub asks: String,
    /// Where it comes from.
    pub source: String,
}

impl TaskSheet {
    /// The sheet of a drill.
    pub fn of(exercise: &Exercise, words: &Words) -> TaskSheet {
        let writer = Writer { exercise, words };
        let drill = &exercise.drill;
        let part = |part: &str| {
            let id = format!("drill-{}{part}", drill.id);
            named(words, &id, &drill.id)
        };
        let limits = drill.limits;
        let minutes = ("minutes", Arg::Number(i64::from(limits.minutes)));
        let majors = ("majors", Arg::Number(i64::from(limits.majors)));
        let ways = exercise.procedure.ways.iter();
        TaskSheet {
            title: part(""),
            start: writer.start(),
            cue: part("-task"),
            standard: writer.standard(),
            ways: ways
                .map(|way| named(words, &format!("way-{way}"), way))
                .collect(),
            critical: writer.critical(),
            time: words.say("sheet-time", &[minutes]),
            verdict: words.say("sheet-verdict", &[majors]),
            criteria: exercise
                .rules
                .list
                .iter()
                .map(|rule| writer.rule(rule))
                .collect(),
            cautions: part("-cautions"),
        }
    }
}

struct Writer<'w> {
    exercise: &'w Exercise,
    words: &'w Words,
}

impl Writer<'_> {
    /// What anybody sees who comes to the machine: the same in every variant.
    fn start(&self) -> Vec<String> {
        let Some(judged) = self.exercise.judged(0) else {
            return Vec::new();
        };
        let (world, state) = (judged.world(), judged.start().world);
        let (machine, words) = (&state.machine, self.words);
        let product = |number| Arg::from(product_name(world, number));
        let unit = [
            ("machine", Arg::from(self.exercise.hall.name.as_str())),
            ("unit", Arg::from(text(words, &of_unit(machine.unit())))),
            ("mode", Arg::from(text(words, &of_mode(machine.mode())))),
        ];
        let products = [
            ("loaded", product(machine.loaded())),
            ("next", product(world.drill().next)),
        ];
        let products_id = match machine.loaded() == world.drill().next {
            true => "sheet-start-product",
            false => "sheet-start-products",
        };
        let stand = text(words, &of_stand(state.person.stand));
        let variants = self.exercise.drill.variants.len();
        let variants = Arg::Number(i64::try_from(variants).unwrap_or(i64::MAX));
        vec![
            words.say("sheet-start-unit", &unit),
            words.say(products_id, &products),
            words.say("sheet-start-stand", &[("place", Arg::from(stand))]),
            words.say("sheet-start-variants", &[("variants", variants)]),
        ]
    }

    fn standard(&self) -> Vec<String> {
        let Some(judged) = self.exercise.judged(0) else {
            return Vec::new();
        };
        let finish = self.exercise.drill.finish.iter();
        let said = finish.map(|item| text(self.words, &of_finish_item(judged.world(), *item)));
        said.collect()
    }

    fn critical(&self) -> Vec<CriticalStep> {
        let steps = self.exercise.procedure.analysis.steps.iter().enumerate();
        steps
            .filter(|(_, step)| !step.critical.is_empty())
            .map(|(number, step)| self.step(number, step))
            .collect()
    }

    fn step(&self, number: usize, step: &Completion) -> CriticalStep {
        let ordered = self.exercise.procedure.analysis.is_ordered(number);
        let order = if ordered {
            "sheet-in-order"
        } else {
            "sheet-any-order"
        };
        CriticalStep {
            name: step.name.clone(),
            said: named(self.words, &format!("step-{}", step.name), &step.name),
            ordered,
            order_said: self.words.say(order, &[]),
            because: step.critical.iter().map(|one| self.backing(one)).collect(),
        }
    }

    fn backing(&self, backing: &Backing) -> String {
        match backing {
            Backing::Rule(name) => named(self.words, &format!("rule-{name}"), name),
            Backing::Harm(harm) => {
                let harm = Arg::from(self.words.say(harm_id(*harm), &[]));
                self.words.say("sheet-without", &[("harm", harm)])
            }
        }
    }

    fn rule(&self, rule: &Rule) -> Criterion {
        Criterion {
            name: rule.name.clone(),
            severity: self.words.say(severity_id(rule.severity), &[]),
            asks: named(self.words, &format!("rule-{}", rule.name), &rule.name),
            source: rule.source.clone(),
        }
    }
}

/// A harm that a step keeps away, in a few words.
fn harm_id(harm: HarmKind) -> &'static str {
    match harm {
        HarmKind::Overstrained => "sheet-harm-overstrained",
        HarmKind::SprungOut => "sheet-harm-sprung-out",
        HarmKind::Broken => "sheet-harm-broken",
        HarmKind::Dropped => "sheet-harm-dropped",
        HarmKind::Sheared => "sheet-harm-sheared",
        HarmKind::Collided => "sheet-harm-collided",
        HarmKind::HandInjured => "sheet-harm-hand-injured",
        HarmKind::PropStruck => "sheet-harm-prop-struck",
        HarmKind::PartsStruck => "sheet-harm-parts-struck",
        HarmKind::LiftFell => "sheet-harm-lift-fell",
        HarmKind::CaughtUnderLift => "sheet-harm-caught-under-lift",
        HarmKind::Charged => "sheet-harm-charged",
        HarmKind::Burned => "sheet-harm-burned",
    }
}
