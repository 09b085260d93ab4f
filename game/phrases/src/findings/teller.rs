//! From a grade to its findings in words.

use rackproof_attempt::Exercise;
use rackproof_buffer::{Harm, HarmKind};
use rackproof_drill::FinishItem;
use rackproof_drill::message::{board_name, of_finish_item, of_harm, of_intent, of_place};
use rackproof_grade::{Breach, Grade, Judged, Moment, Severity};
use rackproof_words::{Arg, Words};

use super::{BreachTold, Finding, HarmTold, Questions, StepTold, Told, severity_id};
use crate::{margins::missed_line, named, text};

pub(super) fn count(number: usize) -> Arg<'static> {
    Arg::Number(i64::try_from(number).unwrap_or(i64::MAX))
}

/// Puts a grade into words, part by part.
pub(super) struct Teller<'t> {
    pub(super) judged: &'t Judged,
    pub(super) exercise: &'t Exercise,
    pub(super) grade: &'t Grade,
    pub(super) words: &'t Words,
}

impl Teller<'_> {
    pub(super) fn breaches(&self) -> Vec<Finding> {
        let breaches = self.grade.breaches.iter();
        breaches.filter_map(|breach| self.breach(breach)).collect()
    }

    fn breach(&self, breach: &Breach) -> Option<Finding> {
        let rule = self.judged.rules().list.get(breach.rule)?;
        let world = self.judged.world();
        let done = match breach.intent {
            Some(intent) => text(self.words, &of_intent(world, &breach.state.world, intent)),
            None => self.words.say("finding-by-itself", &[]),
        };
        let told = |part: &str| {
            let id = format!("rule-{}{part}", rule.name);
            named(self.words, &id, &rule.name)
        };
        Some(Finding {
            moment: Some(breach.moment),
            told: Told::Breach(BreachTold {
                severity: rule.severity,
                severity_said: self.words.say(severity_id(rule.severity), &[]),
                rule: breach.rule,
                intent: breach.intent,
                done,
                missed: breach
                    .missed
                    .map_or_else(String::new, |missed| missed_line(missed, self.words)),
                asks: told(""),
                right: told("-right"),
                why: told("-reason"),
                source: rule.source.clone(),
                evidence: Box::new(self.evidence(breach)),
            }),
        })
    }

    /// The harms, without a strain that the same board passed on its way to breaking.
    pub(super) fn harms(&self) -> Vec<Finding> {
        let all = &self.grade.harms;
        let broke_later = |at: usize, harm: &Harm| {
            let mut later = all.iter().skip(at + 1);
            harm.kind == HarmKind::Overstrained
                && later.any(|(_, other)| {
                    other.kind == HarmKind::Broken
                        && (other.board, other.place) == (harm.board, harm.place)
                })
        };
        let told = all.iter().enumerate();
        told.filter(|(at, (_, harm))| !broke_later(*at, harm))
            .map(|(_, (moment, harm))| Finding {
                moment: Some(*moment),
                told: Told::Harm(self.harm(harm)),
            })
            .collect()
    }

    fn harm(&self, harm: &Harm) -> HarmTold {
        let world = self.judged.world();
        HarmTold {
            harm: *harm,
            board: harm.board.map(|kind| board_name(world, kind)),
            place: harm.place.map(|place| text(self.words, &of_place(place))),
            said: text(self.words, &of_harm(world, harm)),
        }
    }

    pub(super) fn traps(&self) -> Vec<Finding> {
        let row = |(moment, number): &(Moment, usize)| {
            let trap = self.exercise.drill.traps.get(*number);
            let name = trap.map_or("", |trap| trap.id.as_str());
            Finding {
                moment: Some(*moment),
                told: Told::Trap(named(self.words, &format!("trap-{name}-debrief"), name)),
            }
        };
        self.grade.sprung.iter().map(row).collect()
    }

    pub(super) fn open(&self) -> Vec<Finding> {
        let world = self.judged.world();
        let row = |item: &FinishItem| Finding {
            moment: None,
            told: Told::Open(*item, text(self.words, &of_finish_item(world, *item))),
        };
        self.grade.unfinished.iter().map(row).collect()
    }

    /// The three questions, and the time. `list` is what is told.
    pub(super) fn questions(&self, list: &[Finding]) -> Questions {
        let grade = self.grade;
        let of = |severity| grade.count(self.judged, severity);
        let counted = |is: &dyn Fn(&Told) -> bool| {
            let told = list.iter().map(|finding| &finding.told);
            told.filter(|told| is(told)).count()
        };
        let step =
            |of| counted(&move |told| matches!(told, Told::Step(became, _) if *became == of));
        let mut questions = Questions {
            stops: of(Severity::Stop),
            majors: of(Severity::Major),
            minors: of(Severity::Minor),
            way: self.way(),
            done: step(StepTold::Done),
            moved: step(StepTold::Moved),
            missing: step(StepTold::Missing),
            unneeded: step(StepTold::NotNeeded),
            open: grade.unfinished.len(),
            reported: grade.reported,
            harms: counted(&|told| matches!(told, Told::Harm(_))),
            time: grade.time,
            reference: grade.reference,
            safety_said: String::new(),
            procedure_said: String::new(),
            result_said: String::new(),
            time_said: String::new(),
        };
        questions.answer(self.words);
        if grade.fitness.is_none() {
            questions.procedure_said = self.words.say("question-procedure-too-long", &[]);
        }
        questions.time_said = self.time();
        questions
    }

    /// The time beside the guide's, and beside what the line gives. Longer is a finding and fails
    /// nobody.
    fn time(&self) -> String {
        let (time, words) = (self.grade.time, self.words);
        let clock = ("time", Arg::Clock(time));
        let over = |least: u64| ("over", Arg::Clock(time - least));
        let mut said = match self.grade.reference {
            Some(least) => {
                let reference = ("reference", Arg::Clock(least));
                match time > least {
                    true => words.say("grade-time-longer", &[clock, reference, over(least)]),
                    false => words.say("grade-time", &[clock, reference]),
                }
            }
            None => words.say("grade-time-alone", &[clock]),
        };
        let minutes = self.exercise.drill.limits.minutes;
        let allowed = u64::from(minutes) * 60_000_000;
        if time > allowed {
            let minutes = ("minutes", Arg::Number(i64::from(minutes)));
            said.push(' ');
            said.push_str(&words.say("grade-time-over-line", &[minutes, over(allowed)]));
        }
        said
    }

    fn way(&self) -> String {
        let ways = &self.exercise.procedure.ways;
        let name = ways.get(self.grade.way).map_or("", String::as_str);
        named(self.words, &format!("way-{name}"), name)
    }
}

impl Questions {
    /// Puts the counts into words; the time is no count.
    fn answer(&mut self, words: &Words) {
        let safety = [
            ("stops", count(self.stops)),
            ("majors", count(self.majors)),
            ("minors", count(self.minors)),
        ];
        let procedure = [
            ("way", Arg::from(self.way.as_str())),
            ("done", count(self.done)),
            ("moved", count(self.moved)),
            ("missing", count(self.missing)),
            ("unneeded", count(self.unneeded)),
        ];
        let result = [
            ("open", count(self.open)),
            ("reported", count(usize::from(self.reported))),
            ("harms", count(self.harms)),
        ];
        self.safety_said = words.say("question-safety", &safety);
        self.procedure_said = words.say("question-procedure", &procedure);
        self.result_said = words.say("question-result", &result);
    }
}
