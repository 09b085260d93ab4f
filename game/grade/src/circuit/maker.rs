//! Lays out a circuit, operator by operator.

use rackproof_buffer::Halves;

use super::{
    ALL, Moment, NONE, PlainWindow, REMEMBERED, SetWindow, Step, Window,
    look::{Any, CONDITIONS, Form, LINES, Look, MEMORY, SIGNS},
};
use crate::{
    Program,
    formula::{At, Operator},
    known::Known,
};

/// A circuit in the making.
pub(super) struct Maker<'p> {
    program: &'p Program,
    moment: Moment,
    /// For each operator that gives a yes or no.
    pub(super) forms: Vec<Form>,
    /// For each operator that gives a set: where it is.
    places: Vec<u8>,
    pub(super) steps: Vec<Step>,
    pub(super) windows: Vec<Window>,
    pub(super) plain: Vec<PlainWindow>,
    pub(super) kept: Vec<(u8, Form)>,
    pub(super) lines: u32,
    pub(super) next_set: u8,
}

impl<'p> Maker<'p> {
    pub(super) fn new(program: &'p Program, moment: Moment, known: &[Known]) -> Maker<'p> {
        let form = |known: &Known| Form::Constant(*known == Known::Truth(true));
        let place = |known: &Known| if *known == Known::Full { ALL } else { NONE };
        Maker {
            program,
            moment,
            forms: known.iter().map(form).collect(),
            places: known.iter().map(place).collect(),
            steps: Vec::new(),
            windows: Vec::new(),
            plain: Vec::new(),
            kept: Vec::new(),
            lines: 0,
            next_set: REMEMBERED + crate::limits::SETS_MOST as u8,
        }
    }

    /// Lays out one operator, after those that it rests on.
    pub(super) fn lay(&mut self, at: At, operator: Operator) -> Option<()> {
        if operator.is_set() {
            self.places[at as usize] = self.set(operator)?;
        } else {
            self.forms[at as usize] = self.truth(operator)?;
        }
        Some(())
    }

    fn truth(&mut self, operator: Operator) -> Option<Form> {
        let form = |maker: &Maker<'_>, at: At| maker.forms[at as usize];
        Some(match operator {
            Operator::Sign(kind) => Form::Any(Any::one(SIGNS, kind as u32)),
            Operator::Is(condition) => Form::Any(Any::one(CONDITIONS, condition as u32)),
            Operator::Constant(truth) => Form::Constant(truth),
            Operator::Not(a) => form(self, a).not(),
            Operator::And(a, b) => {
                let (a, b) = (form(self, a), form(self, b));
                self.and(a, b)
            }
            Operator::Or(a, b) => {
                let (a, b) = (form(self, a), form(self, b));
                self.or(a, b)
            }
            // Previously speaks of observations: time that passes is none.
            Operator::Previously(a, place) => {
                if self.moment == Moment::Observed {
                    self.kept.push((place, form(self, a)));
                }
                self.remembered(place)?
            }
            Operator::Once(a, place) => self.since(Form::Constant(true), form(self, a), place)?,
            // The memory says whether it was ever false.
            Operator::Historically(a, place) => {
                let failed = form(self, a).not();
                self.since(Form::Constant(true), failed, place)?.not()
            }
            Operator::Since(a, b, place) => self.since(form(self, a), form(self, b), place)?,
            Operator::Compares(number) => self.line(Step::Compares(number)),
            Operator::Every(a) => self.line(Step::Every(self.places[a as usize])),
            Operator::Some(a) => self.line(Step::Some(self.places[a as usize])),
            Operator::AtBelts(a) => self.line(Step::AtBelts(self.places[a as usize])),
            Operator::Within(a, b, place) | Operator::Ago(a, b, place) => {
                self.window((form(self, a), form(self, b)), place)
            }
            // Who did what is known beforehand.
            _ => return None,
        })
    }

    fn set(&mut self, operator: Operator) -> Option<u8> {
        let place = |at: At| self.places[at as usize];
        let step = match operator {
            Operator::Set(atom) => Step::Observed(atom),
            Operator::Side(half) => {
                let mut side = Halves::NONE;
                *side.of_mut(half) = Halves::all(self.program.slots).of(half);
                Step::Fixed(side)
            }
            Operator::Spread(a) => match self.forms[a as usize] {
                Form::Constant(true) => return Some(ALL),
                Form::Constant(false) => return Some(NONE),
                form => Step::Spread(Look::of(form)),
            },
            Operator::SetNot(a) => Step::Without(ALL, place(a)),
            Operator::SetAnd(a, b) => Step::And(place(a), place(b)),
            Operator::SetOr(a, b) => Step::Or(place(a), place(b)),
            Operator::Wider(wider, a) => Step::Wider(wider, place(a)),
            Operator::SetSince(a, b, at) => match (place(a), place(b)) {
                // Nothing comes, and all goes on.
                (ALL, NONE) => return Some(REMEMBERED + at),
                (holds, comes) => Step::Since(holds, comes, at),
            },
            Operator::InSetWindow(number) => {
                let clock = self.program.set_clocks[usize::from(number)].clock;
                Step::SetWindow(SetWindow {
                    holds: place(clock.holds),
                    comes: place(clock.comes),
                    number,
                    is_read: true,
                })
            }
            _ => return None,
        };
        self.steps.push(step);
        self.next_set = self.next_set.checked_add(1)?;
        Some(self.next_set - 1)
    }

    /// A window over yes or no. Those that run by themselves have their lines from the last one
    /// down.
    fn window(&mut self, (holds, comes): (Form, Form), place: u8) -> Form {
        let clock = self.program.clocks[usize::from(place)];
        if (holds, comes) != (Form::Constant(true), Form::Constant(false)) {
            self.windows.push(Window {
                holds: Look::of(holds),
                comes: Look::of(comes),
                clock,
                place,
            });
            return self.line(Step::Window(self.windows.len() as u8 - 1));
        }
        let line = 63 - self.plain.len() as u8 % 64;
        self.plain.push(PlainWindow { clock, place, line });
        Form::Any(Any::one(LINES, line.into()))
    }

    /// Notes for each window over sets whether anybody reads it.
    pub(super) fn note_reads(&mut self) {
        let read: Vec<u8> = self.steps.iter().flat_map(|step| step.reads()).collect();
        let mut place = REMEMBERED + crate::limits::SETS_MOST as u8;
        for step in &mut self.steps {
            if let Step::SetWindow(window) = step {
                window.is_read = read.contains(&place);
            }
            place += u8::from(step.gives_set());
        }
    }

    /// Since: what comes, or what is remembered and holds on. That is what is remembered next; in a
    /// gap only if it holds on.
    fn since(&mut self, holds: Form, comes: Form, place: u8) -> Option<Form> {
        let before = self.remembered(place)?;
        let goes_on = self.and(before, holds);
        let now = self.or(comes, goes_on);
        let kept = match self.moment {
            Moment::Gap => self.and(now, holds),
            Moment::Observed | Moment::Quiet => now,
        };
        if kept != before {
            self.kept.push((place, kept));
        }
        Some(now)
    }

    fn remembered(&self, place: u8) -> Option<Form> {
        (place < 64).then(|| Form::Any(Any::one(MEMORY, place.into())))
    }

    fn and(&mut self, a: Form, b: Form) -> Form {
        self.or(a.not(), b.not()).not()
    }

    fn or(&mut self, a: Form, b: Form) -> Form {
        match (a, b) {
            (Form::Constant(true), _) | (_, Form::Constant(true)) => Form::Constant(true),
            (Form::Constant(false), other) | (other, Form::Constant(false)) => other,
            _ => Form::Any(self.any(a).or(self.any(b))),
        }
    }

    /// The same as bits that are set or not; what is no such thing is worked out as a line.
    fn any(&mut self, form: Form) -> Any {
        match form {
            Form::Any(any) => any,
            Form::Constant(_) => Any::default(),
            Form::Not(any) => match self.line(Step::Line(Look::of(Form::Any(any)))).not() {
                Form::Any(any) => any,
                _ => Any::default(),
            },
        }
    }

    fn line(&mut self, step: Step) -> Form {
        self.steps.push(step);
        self.lines += 1;
        Form::Any(Any::one(LINES, (self.lines - 1) % 64))
    }
}

impl Step {
    /// The sets that it reads.
    fn reads(&self) -> Vec<u8> {
        match *self {
            Step::Every(set) | Step::Some(set) | Step::AtBelts(set) | Step::Wider(_, set) => {
                vec![set]
            }
            Step::Without(a, b) | Step::And(a, b) | Step::Or(a, b) | Step::Since(a, b, _) => {
                vec![a, b]
            }
            Step::SetWindow(window) => vec![window.holds, window.comes],
            Step::Line(_)
            | Step::Compares(_)
            | Step::Window(_)
            | Step::Observed(_)
            | Step::Fixed(_)
            | Step::Spread(_) => Vec::new(),
        }
    }

    /// Whether it gives a set: else a yes or no.
    fn gives_set(&self) -> bool {
        !matches!(
            self,
            Step::Line(_)
                | Step::Compares(_)
                | Step::Every(_)
                | Step::Some(_)
                | Step::AtBelts(_)
                | Step::Window(_)
        )
    }
}
