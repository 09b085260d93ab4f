//! The procedure: steps with their conditions, the ways through them, and the task analysis.

use rackproof_drill::{IntentKind, Stand};
use rackproof_files::{Fields, Kind, Report, Value, nearest, read};

use crate::{Analysis, Definitions, Program, analysis::Written, compile::Compiler, formula::At};

/// What a step does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doing {
    /// Wait for the next event.
    Wait,
    /// An intent, at a standing place if one is named, else where one stands.
    Intent(Option<Stand>, IntentKind),
}

/// One step of a procedure.
#[derive(Clone, Debug)]
pub struct Step {
    /// Its name; its texts are `step-NAME` and `step-NAME-why`.
    pub name: String,
    /// The ways that it belongs to, as places in the list of ways; all if empty.
    pub ways: Vec<usize>,
    /// What is done.
    pub doing: Doing,
    pub(crate) root: At,
}

/// A procedure, compiled.
#[derive(Clone, Debug)]
pub struct Procedure {
    /// Its name.
    pub name: String,
    /// Names of the ways.
    pub ways: Vec<String>,
    /// The steps: the first that applies is next.
    pub steps: Vec<Step>,
    /// The task analysis: what attempts are laid beside.
    pub analysis: Analysis,
    pub(crate) program: Program,
    pub(crate) known_boards: At,
}

impl Procedure {
    /// Reads a procedure file, which may use the definitions of `rules` for a rack of `slots`
    /// slots. `None` if it has a problem; all are reported.
    pub fn read(report: Report<'_>, rules: &Definitions, slots: u8) -> Option<Procedure> {
        let before = report.problems().len();
        let value = read(report)?;
        let fields = Fields::of(&value, "Procedure", report)?;
        let name = fields.name("name");
        // Whose definitions it uses, where that is not said by a drill: for who checks it alone.
        let rules_named =
            fields.optional("rules", String::new(), |value, report| report.name(value));
        let ways = read_ways(&fields, report);
        let mut definitions = rules.clone();
        if let Some(entries) = fields.entries("define") {
            definitions.add(entries, report);
        }
        let known = ways.as_deref();
        let mut formulas = Vec::new();
        let steps = fields.each("steps", |value, report| {
            read_step(value, known, &mut formulas, report)
        });
        let written = Written::read(&fields, known);
        fields.finish();
        definitions.check(rules.list.len(), slots, report);
        // Formulas of steps that miss something else too, so that all is told at once.
        let mut compiler = Compiler::new(slots, &definitions);
        let roots: Vec<At> = formulas
            .iter()
            .map(|formula| compiler.truth(formula, report).unwrap_or_default())
            .collect();
        let known_boards = compiler.named_set("board-known", &value, report);
        let program = compiler.finish();
        let analysis = written.compile(&definitions, slots, report);
        if report.problems().len() > before {
            return None;
        }
        rules_named?;
        let mut steps = steps?;
        for (step, root) in steps.iter_mut().zip(roots) {
            step.root = root;
        }
        Some(Procedure {
            name: name?,
            ways: ways?,
            steps,
            analysis: analysis?,
            program,
            known_boards: known_boards?,
        })
    }

    /// The number of a way.
    pub fn way(&self, name: &str) -> Option<usize> {
        self.ways.iter().position(|way| way == name)
    }
}

/// The names of the ways: one at least, each once.
fn read_ways(fields: &Fields<'_>, report: Report<'_>) -> Option<Vec<String>> {
    let mut known: Vec<String> = Vec::new();
    let ways = fields.each("ways", |value, report| {
        let name = report.name(value)?;
        if known.contains(&name) {
            report.add(value.place, "problem-name-twice", &[("name", &name)]);
        }
        known.push(name.clone());
        Some(name)
    });
    if ways.as_ref().is_some_and(Vec::is_empty) {
        report
            .add(fields.place_of("ways"), "problem-no-way", &[])
            .expected("expected-way", &[]);
    }
    ways
}

/// Reads a step; its formula goes to `formulas`, whatever else is wrong with it. Ways that could
/// not be read are not missed.
fn read_step(
    value: &Value,
    ways: Option<&[String]>,
    formulas: &mut Vec<Value>,
    report: Report<'_>,
) -> Option<Step> {
    let fields = Fields::of(value, "Step", report)?;
    let name = fields.name("name");
    let of_ways = fields.optional("ways", Vec::new(), |value, report| {
        report.each(value, |value, report| {
            let (name, ways) = (report.name(value)?, ways?);
            let found = ways.iter().position(|way| *way == name);
            if found.is_none() {
                report
                    .add(value.place, "problem-unknown-way", &[("name", &name)])
                    .did_you_mean(nearest(&name, ways.iter().map(String::as_str)));
            }
            found
        })
    });
    let when = fields.value("when");
    formulas.extend(when.cloned());
    let doing = fields
        .value("do")
        .and_then(|value| read_doing(value, report.about("do")));
    fields.finish();
    Some(Step {
        name: name?,
        ways: of_ways?,
        doing: doing?,
        root: when.map(|_| 0)?,
    })
}

fn read_doing(value: &Value, report: Report<'_>) -> Option<Doing> {
    match &value.kind {
        Kind::Tagged(name, arguments) if name == "Wait" && arguments.is_empty() => {
            Some(Doing::Wait)
        }
        Kind::Tagged(name, arguments) if name == "At" && arguments.len() == 2 => {
            let stand = report.choice(&arguments[0], &Stand::ALL);
            let kind = report.choice(&arguments[1], IntentKind::ALL);
            Some(Doing::Intent(Some(stand?), kind?))
        }
        _ => Some(Doing::Intent(None, report.choice(value, IntentKind::ALL)?)),
    }
}
