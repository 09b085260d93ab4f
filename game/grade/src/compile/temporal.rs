//! Operators over time, with and without a window.
//!
//! Without a window they stand as they are named: `Once(a)`, `Since(a, b)`. With a window they are
//! records: `Once(within_s: 5.0, of: a)` looks back 5 s at most, `Once(ago_s: 2.0, of: a)` looks
//! only at what was 2 s ago or earlier. `Since(within_s: 5.0, held: a, since: b)` says that b came
//! in the last 5 s and that a has held since.

use rackproof_files::{Fields, Kind, Report, Value};

use super::{Compiler, Gives};
use crate::{
    formula::{At, Operator},
    limits::{BITS_MOST, CLOCKS_MOST, GRID, Limit, SETS_MOST, WINDOW},
    watch::Clock,
};

/// How far back an operator looks, in µs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Window {
    /// `[0, b]`.
    Within(u32),
    /// `[a, ∞)`.
    Ago(u32),
}

/// The operator of a formula that is written with a window.
pub(super) fn windowed(value: &Value) -> Option<&'static str> {
    let Kind::Record(record) = &value.kind else {
        return None;
    };
    let names = ["Once", "Historically", "Since"];
    names
        .into_iter()
        .find(|name| record.name.as_deref() == Some(*name))
}

impl Compiler<'_> {
    /// An operator with a window. Once and Historically are spoken of as Since: something came
    /// since, and nothing had to hold.
    pub(super) fn with_window(
        &mut self,
        operator: &'static str,
        value: &Value,
        report: Report<'_>,
    ) -> Option<Gives> {
        let fields = Fields::of(value, operator, report)?;
        let window = read_window(&fields, report);
        let (held, since) = if operator == "Since" {
            let (held, since) = (fields.value("held"), fields.value("since"));
            let held = held.and_then(|held| self.in_window(held, report));
            (held, since.and_then(|since| self.in_window(since, report)))
        } else {
            let of = fields.value("of");
            let of = of.and_then(|of| self.in_window(of, report));
            (self.push(Operator::Constant(true), value, report), of)
        };
        fields.finish();
        let (window, held, mut since) = (window?, held?, since?);
        if operator != "Historically" {
            return Some(Gives::Truth(
                self.clock(window, held, since, value, report)?,
            ));
        }
        since = self.push(Operator::Not(since), value, report)?;
        let ever = self.clock(window, held, since, value, report)?;
        Some(Gives::Truth(self.push(
            Operator::Not(ever),
            value,
            report,
        )?))
    }

    /// What stands under a window: a yes or a no. A set would need a clock for each half-slot.
    fn in_window(&mut self, value: &Value, report: Report<'_>) -> Option<At> {
        match self.formula(value, report)? {
            Gives::Truth(at) => Some(at),
            Gives::Set(_) => {
                report
                    .add(value.place, "problem-window-set", &[])
                    .expected("expected-truth", &[])
                    .hint("hint-window-set", &[]);
                None
            }
        }
    }

    fn clock(
        &mut self,
        window: Window,
        holds: At,
        comes: At,
        value: &Value,
        report: Report<'_>,
    ) -> Option<At> {
        let (within, span) = match window {
            Window::Within(span) => (true, span),
            Window::Ago(span) => (false, span),
        };
        let clock = Clock {
            within,
            most: 2 * span + 1,
            holds,
            comes,
        };
        let clocks = &self.program.clocks;
        let known = clocks.iter().position(|known| *known == clock);
        let place = known.unwrap_or(clocks.len());
        if place == CLOCKS_MOST {
            self.limit(Limit::Clocks, value, report);
            return None;
        }
        if known.is_none() {
            self.program.clocks.push(clock);
            self.remembered(value, report)?;
        }
        let place = place as u8;
        let made = if within {
            Operator::Within(holds, comes, place)
        } else {
            Operator::Ago(holds, comes, place)
        };
        self.push(made, value, report)
    }

    fn find(&self, same: impl Fn(&Operator) -> bool) -> Option<At> {
        let found = self.program.operators.iter().position(same);
        found.map(|at| at as At)
    }

    /// An operator that keeps one bit of what was.
    pub(super) fn over_time(
        &mut self,
        operator: &str,
        a: &Value,
        value: &Value,
        report: Report<'_>,
    ) -> Option<Gives> {
        let a = self.truth(a, report)?;
        let same = |known: &Operator| match *known {
            Operator::Previously(b, _) => operator == "Previously" && a == b,
            Operator::Once(b, _) => operator == "Once" && a == b,
            Operator::Historically(b, _) => operator == "Historically" && a == b,
            _ => false,
        };
        if let Some(at) = self.find(same) {
            return Some(Gives::Truth(at));
        }
        let bit = self.bit(value, report)?;
        let made = match operator {
            "Previously" => Operator::Previously(a, bit),
            "Once" => Operator::Once(a, bit),
            _ => Operator::Historically(a, bit),
        };
        Some(Gives::Truth(self.push(made, value, report)?))
    }

    pub(super) fn since(
        &mut self,
        a: &Value,
        b: &Value,
        whole: &Value,
        report: Report<'_>,
    ) -> Option<Gives> {
        let (first, second) = (self.formula(a, report), self.formula(b, report));
        if let (Gives::Truth(a), Gives::Truth(b)) = (first?, second?) {
            let same =
                |known: &Operator| matches!(*known, Operator::Since(c, d, _) if (c, d) == (a, b));
            if let Some(at) = self.find(same) {
                return Some(Gives::Truth(at));
            }
            let bit = self.bit(whole, report)?;
            return Some(Gives::Truth(self.push(
                Operator::Since(a, b, bit),
                whole,
                report,
            )?));
        }
        let mut spread = |gives: Gives| match gives {
            Gives::Set(at) => Some(at),
            Gives::Truth(at) => self.push(Operator::Spread(at), whole, report),
        };
        let (a, b) = (spread(first?)?, spread(second?)?);
        let same =
            |known: &Operator| matches!(*known, Operator::SetSince(c, d, _) if (c, d) == (a, b));
        if let Some(at) = self.find(same) {
            return Some(Gives::Set(at));
        }
        if self.program.sets as usize == SETS_MOST {
            self.limit(Limit::Sets, whole, report);
            return None;
        }
        self.program.sets += 1;
        self.remembered(whole, report)?;
        let place = self.program.sets - 1;
        Some(Gives::Set(self.push(
            Operator::SetSince(a, b, place),
            whole,
            report,
        )?))
    }

    fn bit(&mut self, value: &Value, report: Report<'_>) -> Option<u8> {
        if self.program.bits as usize == BITS_MOST {
            self.limit(Limit::Bits, value, report);
            return None;
        }
        self.program.bits += 1;
        self.remembered(value, report)?;
        Some(self.program.bits - 1)
    }
}

fn read_window(fields: &Fields<'_>, report: Report<'_>) -> Option<Window> {
    let ago = fields.has("ago_s");
    if ago && fields.has("within_s") {
        report
            .add(fields.place(), "problem-window-two", &[])
            .expected("expected-window-one", &[]);
        return None;
    }
    let field = if ago { "ago_s" } else { "within_s" };
    let span = fields.micros(field, &WINDOW)?;
    if !span.is_multiple_of(GRID) {
        report
            .add(fields.place_of(field), "problem-window-grid", &[])
            .expected("expected-window-grid", &[]);
        return None;
    }
    Some(if ago {
        Window::Ago(span)
    } else {
        Window::Within(span)
    })
}
