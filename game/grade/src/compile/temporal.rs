//! Operators over time, with and without a window.
//!
//! Without a window they stand as they are named: `Once(a)`, `Since(a, b)`. With a window they are
//! records: `Once(within_s: 5.0, of: a)` looks back 5 s at most, `Once(ago_s: 2.0, of: a)` looks
//! only at what was 2 s ago or earlier. `Since(within_s: 5.0, held: a, since: b)` says that b came
//! in the last 5 s and that a has held since.
//!
//! Over a set they give the set of the half-slots for which it is so, each with its own witness:
//! `Every(Once(within_s: 60.0, of: SeenEmpty))`.

use rackproof_files::{Fields, Kind, Report, Value};

use super::{Compiler, Gives, operators::form};
use crate::{
    formula::{At, Operator},
    limits::{BITS_MOST, CLOCKS_MOST, GRID, Limit, SET_CLOCKS_MOST, SETS_MOST, WINDOW},
    set_clocks::{Grain, SetClock},
    watch::{Clock, LARGEST_RACK},
};

/// How far back an operator looks, in µs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Window {
    /// `[0, b]`.
    Within(u32),
    /// `[a, ∞)`.
    Ago(u32),
}

impl Window {
    /// The clock of a Since with this window.
    fn clock(self, holds: At, comes: At) -> Clock {
        let (within, span) = match self {
            Window::Within(span) => (true, span),
            Window::Ago(span) => (false, span),
        };
        Clock {
            within,
            most: 2 * span + 1,
            holds,
            comes,
        }
    }
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
        // One that lost a part may have lost its window, which was reported.
        let whole = matches!(&value.kind, Kind::Record(record) if record.whole);
        let window = read_window((operator, whole), &fields, report);
        let formula = |compiler: &mut Self, name| {
            let value = fields.value(name)?;
            compiler.formula(value, report)
        };
        let (held, since) = if operator == "Since" {
            (formula(self, "held"), formula(self, "since"))
        } else {
            let held = self.push(Operator::Constant(true), value, report);
            (held.map(Gives::Truth), formula(self, "of"))
        };
        fields.finish();
        let (window, held, since) = (window?, held?, since?);
        if operator != "Historically" {
            return self.in_window(window, held, since, value, report);
        }
        let since = self.not(since, value, report)?;
        let ever = self.in_window(window, held, since, value, report)?;
        self.not(ever, value, report)
    }

    /// Since with a window. If one of the two is a set, the other stands for all half-slots or
    /// none.
    fn in_window(
        &mut self,
        window: Window,
        holds: Gives,
        comes: Gives,
        value: &Value,
        report: Report<'_>,
    ) -> Option<Gives> {
        if let (Gives::Truth(holds), Gives::Truth(comes)) = (holds, comes) {
            let at = self.clock(window.clock(holds, comes), value, report)?;
            return Some(Gives::Truth(at));
        }
        let holds = self.spread(holds, value, report)?;
        let comes = self.spread(comes, value, report)?;
        let at = self.set_clock(window.clock(holds, comes), value, report)?;
        Some(Gives::Set(at))
    }

    fn clock(&mut self, clock: Clock, value: &Value, report: Report<'_>) -> Option<At> {
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
        let (holds, comes, place) = (clock.holds, clock.comes, place as u8);
        let made = if clock.within {
            Operator::Within(holds, comes, place)
        } else {
            Operator::Ago(holds, comes, place)
        };
        self.push(made, value, report)
    }

    /// The same over sets. So many clocks as the largest rack needs, so that what fits there fits
    /// every rack.
    fn set_clock(&mut self, clock: Clock, value: &Value, report: Report<'_>) -> Option<At> {
        let clocks = &self.program.set_clocks;
        let known = clocks.iter().position(|known| known.clock == clock);
        let place = known.unwrap_or(clocks.len());
        if known.is_none() {
            let needs = |grain: Grain| grain.clocks(LARGEST_RACK as usize);
            let grain = self.program.grain(clock.holds, clock.comes);
            let first = clocks.iter().map(|one| needs(one.grain)).sum::<usize>();
            if first + needs(grain) > SET_CLOCKS_MOST {
                self.limit(Limit::SetClocks, value, report);
                return None;
            }
            let made = SetClock {
                clock,
                grain,
                first,
            };
            self.program.set_clocks.push(made);
        }
        self.push(Operator::InSetWindow(place as u8), value, report)
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
        let a = match self.formula(a, report)? {
            Gives::Truth(a) => a,
            Gives::Set(set) if operator != "Previously" => {
                return self.over_time_of_set(operator, set, value, report);
            }
            Gives::Set(_) => {
                report
                    .add(a.place, "problem-formula-kind", &[])
                    .expected("expected-truth", &[]);
                return None;
            }
        };
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

    /// Once and Historically for each half-slot: spoken of as Since.
    fn over_time_of_set(
        &mut self,
        operator: &str,
        set: At,
        value: &Value,
        report: Report<'_>,
    ) -> Option<Gives> {
        let always = self.push(Operator::Constant(true), value, report)?;
        let always = self.push(Operator::Spread(always), value, report)?;
        if operator == "Once" {
            return Some(Gives::Set(self.set_since(always, set, value, report)?));
        }
        let not = self.push(Operator::SetNot(set), value, report)?;
        let ever = self.set_since(always, not, value, report)?;
        self.not(Gives::Set(ever), value, report)
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
        let a = self.spread(first?, whole, report)?;
        let b = self.spread(second?, whole, report)?;
        Some(Gives::Set(self.set_since(a, b, whole, report)?))
    }

    fn set_since(&mut self, a: At, b: At, whole: &Value, report: Report<'_>) -> Option<At> {
        let same =
            |known: &Operator| matches!(*known, Operator::SetSince(c, d, _) if (c, d) == (a, b));
        if let Some(at) = self.find(same) {
            return Some(at);
        }
        if self.program.sets as usize == SETS_MOST {
            self.limit(Limit::Sets, whole, report);
            return None;
        }
        self.program.sets += 1;
        self.remembered(whole, report)?;
        let place = self.program.sets - 1;
        self.push(Operator::SetSince(a, b, place), whole, report)
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

fn read_window(
    (operator, whole): (&str, bool),
    fields: &Fields<'_>,
    report: Report<'_>,
) -> Option<Window> {
    let (ago, within) = (fields.has("ago_s"), fields.has("within_s"));
    if !ago && !within {
        if !whole {
            return None;
        }
        report
            .add(fields.place(), "problem-window-none", &[])
            .expected("expected-window-one", &[])
            .hint("hint-window-none", &[("form", &form(operator))]);
        return None;
    }
    if ago && within {
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
