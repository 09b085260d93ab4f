//! The analysis in a procedure file: first as it is written, then compiled.

use rackproof_alignment::{BLOCKS_MOST, DEPTH_MOST, LABELS_MOST, PLACES_MOST, Problem};
use rackproof_files::{Fields, Kind, Place, Report, Value, nearest};

use super::{Analysis, Backing, Completion, Condition, Part, critical};
use crate::{Definitions, compile::Compiler, formula::At, prepared::Prepared};

/// The words for parts, each with how it is written.
const PARTS: [(&str, &str); 9] = [
    ("Step", "Step(\"name\")"),
    ("Sequence", "Sequence([part, part])"),
    ("AnyOrder", "AnyOrder([part, part])"),
    ("OneOf", "OneOf([part, part])"),
    ("Optional", "Optional(part)"),
    ("Repeat", "Repeat(part)"),
    ("ForEach", "ForEach(Slot, part)"),
    ("When", "When(formula, part)"),
    ("Way", "Way(\"name\", part)"),
];

/// The analysis as it is written. Names are known, formulas are not compiled.
pub(crate) struct Written {
    done: Vec<Done>,
    /// `None` if it has a problem, which was reported.
    task: Option<Part>,
    conditions: Vec<(bool, Value)>,
    place: Place,
    ways: usize,
}

struct Done {
    name: String,
    place: Place,
    harmless: bool,
    critical: Vec<(Backing, Place)>,
    when: Value,
}

/// Reads parts, and notes what they use.
struct Reader<'v> {
    report: Report<'v>,
    /// `None` if they could not be read: then none is missed.
    ways: Option<&'v [String]>,
    done: &'v [Done],
    /// Whether all steps could be read, so that one that is not there is missed.
    all_named: bool,
    conditions: Vec<(bool, Value)>,
    /// For each step: whether it stands for each slot, if it stands somewhere.
    used: Vec<Option<bool>>,
}

impl Written {
    /// Reads the fields `done` and `analysis`, as far as they can be read.
    pub(crate) fn read(fields: &Fields<'_>, ways: Option<&[String]>) -> Written {
        let report = fields.report();
        let done = fields.each("done", |value, report| Some(read_done(value, report)));
        let value = fields.value("analysis");
        let all_named = done
            .as_ref()
            .is_some_and(|done| done.iter().all(Option::is_some));
        let done: Vec<Done> = done.into_iter().flatten().flatten().collect();
        for (at, one) in done.iter().enumerate() {
            if done[..at].iter().any(|other| other.name == one.name) {
                report.add(one.place, "problem-name-twice", &[("name", &one.name)]);
            }
        }
        let mut reader = Reader {
            report,
            ways,
            done: &done,
            all_named,
            conditions: Vec::new(),
            used: vec![None; done.len()],
        };
        let task = value.and_then(|value| reader.part(value, false));
        let (conditions, used) = (reader.conditions, reader.used);
        for (at, one) in done.iter().enumerate() {
            // A part that could not be read may have used it. A name given twice is the first's.
            let is_first = done[..at].iter().all(|other| other.name != one.name);
            if task.is_some() && is_first && used[at].is_none() {
                report.add(one.place, "problem-step-unused", &[("name", &one.name)]);
            }
        }
        Written {
            task,
            conditions,
            place: value.map_or_else(Place::default, |value| value.place),
            ways: ways.map_or(0, <[String]>::len),
            done,
        }
    }

    /// Compiles it, with the definitions of rules and procedure.
    pub(crate) fn compile(
        self,
        definitions: &Definitions,
        slots: u8,
        report: Report<'_>,
    ) -> Option<Analysis> {
        let before = report.problems().len();
        for (backing, place) in self.done.iter().flat_map(|done| &done.critical) {
            if let Backing::Rule(name) = backing {
                critical::check(name, *place, definitions, report);
            }
        }
        let Some(task) = &self.task else {
            // Whether a step stands for each slot is not known. What its formula says is.
            let mut compiler = Compiler::new(slots, definitions);
            let done = self.done.iter().map(|done| &done.when);
            for formula in done.chain(self.conditions.iter().map(|(_, when)| when)) {
                compiler.check(formula, report);
            }
            return None;
        };
        let each = self.each(task);
        let used = self.used(task);
        // A formula that gives a set is compiled under a name that no file can give.
        let mut named = definitions.clone();
        let own = |kind: &str, number: usize| format!("{kind} {number}");
        for (number, done) in self.done.iter().enumerate() {
            named.list.push((own("done", number), done.when.clone()));
        }
        for (number, (_, when)) in self.conditions.iter().enumerate() {
            named.list.push((own("when", number), when.clone()));
        }
        let mut compiler = Compiler::new(slots, &named);
        // What could not be compiled stands for something all the same.
        compiler.nothing();
        let mut root = |each: bool, name: &str, value: &Value| -> Option<At> {
            if each {
                compiler.named_set(name, value, report)
            } else {
                compiler.truth(value, report)
            }
        };
        let mut steps = Vec::new();
        for (number, done) in self.done.iter().enumerate() {
            // Whether it stands for each slot is known of what stands somewhere.
            let each = each[number] || !used[number];
            steps.push(Completion {
                name: done.name.clone(),
                each,
                harmless: done.harmless,
                by_looks: false,
                critical: done.critical.iter().map(|(one, _)| one.clone()).collect(),
                when: done.when.place,
                root: root(each, &own("done", number), &done.when).unwrap_or_default(),
            });
        }
        let mut conditions = Vec::new();
        for (number, (each, when)) in self.conditions.iter().enumerate() {
            let root = root(*each, &own("when", number), when).unwrap_or_default();
            conditions.push(Condition { each: *each, root });
        }
        let steps_read = steps.iter().map(|step: &Completion| step.root);
        let read = conditions.iter().map(|one: &Condition| one.root);
        let read: Vec<At> = steps_read.chain(read).collect();
        let program = compiler.finish();
        for step in &mut steps {
            step.by_looks = program.asks_looks(step.root);
        }
        let prepared = Prepared::new(program, &read);
        let analysis = Analysis {
            own: Analysis::own_steps(task, self.ways),
            steps,
            task: task.clone(),
            conditions,
            prepared,
        };
        if let Err(problem) = analysis.whole() {
            analysis.tell(problem, self.place, report);
        }
        (report.problems().len() == before).then_some(analysis)
    }

    /// For each step, whether it stands anywhere.
    fn used(&self, task: &Part) -> Vec<bool> {
        let mut used = vec![false; self.done.len()];
        task.visit(None, &mut |part, _| {
            if let Part::Step(step) = part {
                used[*step] = true;
            }
        });
        used
    }

    /// For each step, whether it stands for each slot.
    fn each(&self, task: &Part) -> Vec<bool> {
        let mut each = vec![false; self.done.len()];
        task.visit(None, &mut |part, _| {
            if let Part::ForEachSlot(body) = part {
                body.visit(None, &mut |part, _| {
                    if let Part::Step(step) = part {
                        each[*step] = true;
                    }
                });
            }
        });
        each
    }
}

impl Analysis {
    fn tell(&self, problem: Problem, place: Place, report: Report<'_>) {
        match problem {
            Problem::Shared(label) => {
                let name = &self.steps[usize::from(label.step)].name;
                report
                    .add(place, "problem-step-shared", &[("name", name)])
                    .expected("expected-step-shared", &[]);
            }
            _ => {
                let (id, hint, most) = limit_passed(problem);
                report.add(place, id, &[("most", &most)]).hint(hint, &[]);
            }
        }
    }
}

/// The limit of an analysis that was passed: what is said of it, what may help, and how much there
/// may be.
fn limit_passed(problem: Problem) -> (&'static str, &'static str, usize) {
    match problem {
        Problem::TooDeep => ("problem-analysis-deep", "hint-analysis-deep", DEPTH_MOST),
        Problem::TooManyBlocks => (
            "problem-analysis-blocks",
            "hint-analysis-blocks",
            BLOCKS_MOST,
        ),
        Problem::TooManyLabels => (
            "problem-analysis-labels",
            "hint-analysis-labels",
            LABELS_MOST,
        ),
        _ => ("problem-analysis-steps", "hint-analysis-steps", PLACES_MOST),
    }
}

/// A step with a name, whatever else is wrong with it.
fn read_done(value: &Value, report: Report<'_>) -> Option<Done> {
    let fields = Fields::of(value, "Done", report)?;
    let name = fields.name("step");
    let when = fields.value("when").cloned();
    let kinds = [("Harmless", true), ("Counts", false)];
    let harmless = fields.optional("again", false, |value, report| report.choice(value, &kinds));
    let critical = fields.optional("critical", Vec::new(), critical::read);
    fields.finish();
    Some(Done {
        name: name?,
        place: value.place,
        harmless: harmless.unwrap_or_default(),
        critical: critical.unwrap_or_default(),
        when: when.unwrap_or(Value {
            place: value.place,
            kind: Kind::Unreadable,
        }),
    })
}

impl<'v> Reader<'v> {
    fn part(&mut self, value: &Value, each: bool) -> Option<Part> {
        let (word, arguments) = match &value.kind {
            Kind::Tagged(word, arguments) => (word.as_str(), arguments.as_slice()),
            Kind::Unreadable => return None,
            // What was lost on the way was reported.
            Kind::Record(record) if !record.whole => return None,
            Kind::Record(record) => {
                self.no_part(value, record.name.as_deref());
                return None;
            }
            _ => {
                self.no_part(value, None);
                return None;
            }
        };
        match (word, arguments) {
            ("Step", [name]) => self.step(name, each),
            ("Sequence", [list]) => Some(Part::Sequence(self.parts(list, each)?)),
            ("AnyOrder", [list]) => Some(Part::AnyOrder(self.parts(list, each)?)),
            ("OneOf", [list]) => {
                let parts = self.parts(list, each)?;
                if parts.is_empty() {
                    self.report.add(list.place, "problem-one-of-none", &[]);
                    return None;
                }
                Some(Part::OneOf(parts))
            }
            ("Optional", [part]) => Some(Part::Optional(Box::new(self.part(part, each)?))),
            ("Repeat", [part]) => Some(Part::Repeat(Box::new(self.part(part, each)?))),
            ("ForEach", [kind, part]) => {
                let kind = self.report.choice(kind, &[("Slot", ())]);
                if each {
                    self.report.add(value.place, "problem-each-in-each", &[]);
                    return None;
                }
                let part = self.part(part, true);
                kind.and(part).map(|part| Part::ForEachSlot(Box::new(part)))
            }
            ("When", [when, part]) => {
                self.conditions.push((each, when.clone()));
                let number = self.conditions.len() - 1;
                Some(Part::When(number, Box::new(self.part(part, each)?)))
            }
            ("Way", [name, part]) => {
                let way = self.way(name);
                let part = self.part(part, each);
                Some(Part::Way(way?, Box::new(part?)))
            }
            _ => {
                self.no_part(value, Some(word));
                None
            }
        }
    }

    fn parts(&mut self, list: &Value, each: bool) -> Option<Vec<Part>> {
        let parts = self.report.list(list)?;
        // All of them first: so one run finds all problems.
        let parts: Vec<Option<Part>> = parts
            .into_iter()
            .map(|part| self.part(part, each))
            .collect();
        parts.into_iter().collect()
    }

    fn step(&mut self, value: &Value, each: bool) -> Option<Part> {
        let name = self.report.name(value)?;
        let Some(step) = self.done.iter().position(|done| done.name == name) else {
            if !self.all_named {
                return None;
            }
            let names = self.done.iter().map(|done| done.name.as_str());
            self.report
                .add(value.place, "problem-unknown-step", &[("name", &name)])
                .did_you_mean(nearest(&name, names));
            return None;
        };
        if self.used[step].is_some_and(|known| known != each) {
            self.report
                .add(value.place, "problem-step-for-some", &[("name", &name)])
                .expected("expected-step-for-some", &[]);
        }
        self.used[step] = Some(each);
        Some(Part::Step(step))
    }

    fn way(&mut self, value: &Value) -> Option<usize> {
        let (name, ways) = (self.report.name(value)?, self.ways?);
        let found = ways.iter().position(|way| *way == name);
        if found.is_none() {
            self.report
                .add(value.place, "problem-unknown-way", &[("name", &name)])
                .did_you_mean(nearest(&name, ways.iter().map(String::as_str)));
        }
        found
    }

    /// Reports that a value is no part: its word is not known, or it is not written like this.
    fn no_part(&self, value: &Value, word: Option<&str>) {
        let known = PARTS.iter().find(|(known, _)| Some(*known) == word);
        if let Some((word, form)) = known {
            self.report
                .add(value.place, "problem-part-form", &[("part", word)])
                .expected("expected-form", &[("form", form)]);
            return;
        }
        let names = || PARTS.iter().map(|(name, _)| *name);
        let list: Vec<&str> = names().collect();
        self.report
            .add(value.place, "problem-no-part", &[])
            .expected("expected-part", &[("names", &list.join(", "))])
            .did_you_mean(word.and_then(|word| nearest(word, names())));
    }
}
