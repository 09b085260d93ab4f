//! The rules file.

use rackproof_drill::Drill;
use rackproof_files::{Fields, Kind, Place, Report, Value, nearest, read};

use crate::{
    Definitions, Marks, Program,
    compile::Compiler,
    formula::{At, Operator},
    limits::{Limit, RULES_MOST},
    margins::Measured,
    prepared::Prepared,
};

/// How bad a breach is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Worth a word.
    Minor,
    /// Counts against what a course allows.
    Major,
    /// Fails, whatever the rest says.
    Stop,
}

impl Severity {
    const ALL: [(&'static str, Severity); 3] = [
        ("Minor", Severity::Minor),
        ("Major", Severity::Major),
        ("Stop", Severity::Stop),
    ];
}

/// One rule: what must hold at every moment.
#[derive(Clone, Debug)]
pub struct Rule {
    /// Its name; its texts are `rule-NAME` and those beside it.
    pub name: String,
    /// How bad a breach is.
    pub severity: Severity,
    /// Where it comes from.
    pub source: String,
    /// Whether it is there to name a mistake early, though other rules would keep it from doing
    /// harm. A proof asks of the others that harm is done without them.
    pub early: bool,
    pub(crate) always: Value,
    pub(crate) root: At,
}

impl Rule {
    /// Where its formula stands in its file.
    pub(crate) fn place(&self) -> Place {
        self.always.place
    }
}

/// Rules, compiled for one size of rack, with the traps and milestones of a drill.
#[derive(Clone, Debug)]
pub struct Rules {
    /// Their name.
    pub name: String,
    /// The rules.
    pub list: Vec<Rule>,
    pub(crate) program: Program,
    pub(crate) definitions: Definitions,
    /// The margins of the rules that have one.
    pub(crate) measured: Option<Measured>,
}

impl Rules {
    /// Reads a rules file for a rack of `slots` slots, or `None` if it has a problem. All problems
    /// are reported.
    pub fn read(report: Report<'_>, slots: u8) -> Option<Rules> {
        let before = report.problems().len();
        let value = read(report)?;
        let fields = Fields::of(&value, "Rules", report)?;
        let name = fields.name("name");
        let mut definitions = Definitions::default();
        if let Some(entries) = fields.entries("define") {
            definitions.add(entries, report);
        }
        let mut written = Vec::new();
        let list = fields.each("rules", |value, report| {
            let (rule, parts) = read_rule(value, report);
            written.push(parts);
            rule
        });
        fields.finish();
        if written.len() > RULES_MOST {
            Limit::Rules.passed(&value, report);
        }
        let named = |part: &Part| part.name.clone().zip(Some(part.place));
        let names: Vec<(String, Place)> = written.iter().filter_map(named).collect();
        for (at, (name, place)) in names.iter().enumerate() {
            if names[..at].iter().any(|(other, _)| other == name) {
                report.add(*place, "problem-name-twice", &[("name", name)]);
            }
        }
        definitions.check(0, slots, report);
        // Formulas of rules that miss something else too, so that all is told at once.
        let mut compiler = Compiler::new(slots, &definitions);
        let formulas = written.iter().filter_map(|part| part.always.as_ref());
        let roots: Vec<At> = formulas
            .map(|formula| compiler.truth(formula, report).unwrap_or_default())
            .collect();
        let program = compiler.finish();
        if report.problems().len() > before {
            return None;
        }
        let mut list = list?;
        for (rule, root) in list.iter_mut().zip(roots) {
            rule.root = root;
        }
        let named = list.iter().map(|rule| (rule.name.clone(), rule.severity));
        definitions.rules = Some(named.collect());
        Some(Rules::ready(name?, list, program, definitions))
    }

    fn ready(name: String, list: Vec<Rule>, program: Program, definitions: Definitions) -> Rules {
        let roots: Vec<At> = list.iter().map(|rule| rule.root).collect();
        Rules {
            name,
            measured: Measured::of(&program, &roots),
            list,
            program,
            definitions,
        }
    }

    /// The same rules without the minor ones: what a proof watches. A verdict does not rest on the
    /// others.
    #[must_use]
    pub fn for_proof(&self) -> Rules {
        self.only(|rule| rule.severity > Severity::Minor)
    }

    /// No rule at all: to see what can happen when none is kept.
    #[must_use]
    pub fn none(&self) -> Rules {
        self.only(|_| false)
    }

    /// The same rules for a rack of another size.
    #[must_use]
    pub fn for_slots(&self, slots: u8) -> Rules {
        self.compiled(slots, |_| true)
    }

    fn only(&self, keep: impl Fn(&Rule) -> bool) -> Rules {
        self.compiled(self.program.slots, keep)
    }

    fn compiled(&self, slots: u8, keep: impl Fn(&Rule) -> bool) -> Rules {
        let list = self.list.iter().filter(|rule| keep(rule)).cloned();
        self.of_list(slots, list.collect())
    }

    /// The traps of a drill as rules, in its order: who springs one breaks it. To look for ways
    /// that spring them.
    #[must_use]
    pub fn of_traps(&self, drill: &Drill) -> Rules {
        let never = |sprung: &Value| Value {
            place: sprung.place,
            kind: Kind::Tagged("Not".to_owned(), vec![sprung.clone()]),
        };
        let list = drill.traps.iter().map(|trap| Rule {
            name: trap.id.clone(),
            severity: Severity::Stop,
            source: String::new(),
            early: false,
            always: never(&trap.sprung),
            root: 0,
        });
        self.of_list(self.program.slots, list.collect())
    }

    /// Other rules with the same definitions.
    fn of_list(&self, slots: u8, mut list: Vec<Rule>) -> Rules {
        let problems = rackproof_files::Problems::new();
        let report = problems.for_file("", "");
        let mut compiler = Compiler::new(slots, &self.definitions);
        for rule in &mut list {
            rule.root = compiler.truth(&rule.always, report).unwrap_or_default();
        }
        debug_assert!(problems.is_empty(), "rules that were read compile again");
        let program = compiler.finish();
        Rules::ready(self.name.clone(), list, program, self.definitions.clone())
    }

    /// The rules without the one of this name: to see what it is needed for.
    #[must_use]
    pub fn without(&self, name: &str) -> Rules {
        self.only(|rule| rule.name != name)
    }

    /// The one of this name alone.
    #[must_use]
    pub fn only_named(&self, name: &str) -> Rules {
        self.only(|rule| rule.name == name)
    }

    /// The definitions, for a procedure or a drill that uses them.
    pub fn definitions(&self) -> &Definitions {
        &self.definitions
    }

    /// Whether what they remember fits a key, so that a drill with them can be explored. Windows
    /// over sets may not: a large rack has more clocks than a key has room for. Grades have no such
    /// limit.
    pub fn fit_keys(&self) -> bool {
        self.program.fits_key()
    }

    /// How many slots the rules are compiled for.
    pub fn slots(&self) -> u8 {
        self.program.slots
    }

    /// The mask of rules of at least a severity.
    pub fn mask(&self, severity: Severity) -> u64 {
        let rules = self.list.iter().enumerate();
        rules
            .filter(|(_, rule)| rule.severity >= severity)
            .fold(0, |mask, (at, _)| mask | 1 << at)
    }

    /// What the rules read: signs and conditions as masks.
    pub(crate) fn reads(&self) -> (u64, u64) {
        self.program
            .operators
            .iter()
            .fold((0, 0), |(signs, conditions), operator| match operator {
                Operator::Sign(kind) => (signs | 1 << *kind as u8, conditions),
                Operator::Is(condition) => (signs, conditions | 1 << *condition as u8),
                _ => (signs, conditions),
            })
    }

    /// The rules as a drill has them: those that it names so only name a mistake early there.
    /// `None` if it names one that there is not.
    pub fn in_drill(mut self, drill: &Drill, report: Report<'_>) -> Option<Rules> {
        let mut known = true;
        for (name, place) in &drill.early {
            if let Some(rule) = self.list.iter_mut().find(|rule| rule.name == *name) {
                rule.early = true;
                continue;
            }
            known = false;
            let names = self.list.iter().map(|rule| rule.name.as_str());
            report
                .add(*place, "problem-unknown-rule", &[("name", name)])
                .did_you_mean(nearest(name, names));
        }
        known.then_some(self)
    }

    /// Compiles the traps and milestones of a drill.
    pub fn marks(&self, drill: &Drill, report: Report<'_>) -> Option<Marks> {
        Marks::of(drill, &self.definitions, self.program.slots, report)
    }
}

impl Marks {
    /// Compiles the traps and milestones of a drill with the definitions of its rules, for a rack
    /// of `slots` slots.
    pub fn of(
        drill: &Drill,
        definitions: &Definitions,
        slots: u8,
        report: Report<'_>,
    ) -> Option<Marks> {
        let mut compiler = Compiler::new(slots, definitions);
        let traps = drill.traps.iter().map(|trap| &trap.sprung);
        let formulas = traps.chain(drill.milestones.iter().map(|(_, formula)| formula));
        let roots: Vec<Option<u16>> = formulas
            .map(|formula| compiler.truth(formula, report))
            .collect();
        let roots = roots.into_iter().collect::<Option<Vec<u16>>>()?;
        let prepared = Prepared::new(compiler.finish(), &roots);
        Some(Marks { prepared, roots })
    }
}

/// What is needed of a rule to check it beside the others, whatever else is wrong with it.
struct Part {
    name: Option<String>,
    place: Place,
    always: Option<Value>,
}

fn read_rule(value: &Value, report: Report<'_>) -> (Option<Rule>, Part) {
    let mut part = Part {
        name: None,
        place: value.place,
        always: None,
    };
    let rule = read_fields(value, report, &mut part);
    (rule, part)
}

fn read_fields(value: &Value, report: Report<'_>, part: &mut Part) -> Option<Rule> {
    let fields = Fields::of(value, "Rule", report)?;
    part.name = fields.name("name");
    part.place = fields.place_of("name");
    let severity = fields.choice("severity", &Severity::ALL);
    let source = fields.text("source");
    if source
        .as_ref()
        .is_some_and(|source| source.trim().is_empty())
    {
        report
            .add(fields.place_of("source"), "problem-no-source", &[])
            .expected("expected-source", &[]);
    }
    let early = fields.optional("early", false, |value, report| report.flag(value));
    part.always = fields.value("always").cloned();
    fields.finish();
    Some(Rule {
        name: part.name.clone()?,
        severity: severity?,
        source: source?,
        early: early?,
        always: part.always.clone()?,
        root: 0,
    })
}
