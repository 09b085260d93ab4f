//! Fields that may be left out. If one is there, it must fit.
//!
//! All but [`Fields::optional`] are asked for in a dialog, too ([`crate::Problems::asked`]).

use crate::{Bound, Fields, Report, Value, What};

impl<'v> Fields<'v> {
    /// Any field. Left out, nobody is asked for it.
    pub fn optional<T>(
        &self,
        field: &'static str,
        default: T,
        read: impl FnOnce(&'v Value, Report<'v>) -> Option<T>,
    ) -> Option<T> {
        match self.field(field) {
            None => Some(default),
            Some(found) => read(&found.value, self.report().about(field)),
        }
    }

    /// A field that is there or not. `written` is what is written first once somebody says that it
    /// is: it fits, and its own figures are asked for next.
    pub fn optional_part<T>(
        &self,
        field: &'static str,
        default: T,
        written: &'static str,
        read: impl FnOnce(&'v Value, Report<'v>) -> Option<T>,
    ) -> Option<T> {
        match self.field(field) {
            None => self.note_left_out(field, What::Part(written), String::new()),
            Some(found) => self.report().note_asked(found.place, What::Part(written)),
        }
        self.optional(field, default, read)
    }

    /// A record that stands for something else than nothing when it is left out. Only then is
    /// somebody asked whether to write it.
    pub fn optional_record<T>(
        &self,
        field: &'static str,
        default: T,
        written: &'static str,
        read: impl FnOnce(&'v Value, Report<'v>) -> Option<T>,
    ) -> Option<T> {
        self.or_else(field, What::Part(written), String::new);
        self.optional(field, default, read)
    }

    /// `true` or `false`.
    pub fn optional_flag(&self, field: &'static str, default: bool) -> Option<bool> {
        self.or_else(field, What::Flag, || default.to_string());
        self.optional(field, default, |value, report| report.flag(value))
    }

    /// A whole number, see [`Report::integer`].
    pub fn optional_integer(
        &self,
        field: &'static str,
        default: i64,
        bound: &Bound,
    ) -> Option<i64> {
        self.or_else(field, What::Number(*bound), || bound.written(default));
        self.optional(field, default, |value, report| report.integer(value, bound))
    }

    /// Millimetres in the file, micrometres here, see [`Report::micrometres`].
    pub fn optional_micrometres(
        &self,
        field: &'static str,
        default: i32,
        bound: &Bound,
    ) -> Option<i32> {
        self.or_else(field, What::Number(*bound), || {
            bound.written(i64::from(default))
        });
        self.optional(field, default, |value, report| {
            report.micrometres(value, bound)
        })
    }

    /// One of several names, see [`Report::choice`].
    pub fn optional_choice<T: Clone + PartialEq>(
        &self,
        field: &'static str,
        default: T,
        choices: &[(&'static str, T)],
    ) -> Option<T> {
        let names = choices.iter().map(|(name, _)| *name).collect();
        self.or_else(field, What::Choice(names), || {
            let default = choices.iter().find(|(_, meaning)| *meaning == default);
            default.map_or_else(String::new, |(name, _)| (*name).to_owned())
        });
        self.optional(field, default, |value, report| {
            report.choice(value, choices)
        })
    }

    /// A list of some of several names, none of them if it is left out, see [`Report::some`].
    pub fn optional_several<T: Clone>(
        &self,
        field: &'static str,
        choices: &[(&'static str, T)],
    ) -> Option<Vec<T>> {
        let names = choices.iter().map(|(name, _)| *name).collect();
        self.or_else(field, What::Several(names), || "[]".to_owned());
        self.optional(field, Vec::new(), |value, report| {
            report.several(value, choices)
        })
    }

    /// A choice whose names may have fields behind them, see [`Report::form`]. `stands_for` is one
    /// of those that are written.
    pub fn optional_form<T>(
        &self,
        field: &'static str,
        default: T,
        stands_for: &'static str,
        written: &[&'static str],
        read: impl FnOnce(&'v Value, Report<'v>) -> Option<T>,
    ) -> Option<T> {
        self.or_else(field, What::Choice(written.to_vec()), || {
            stands_for.to_owned()
        });
        self.optional(field, default, read)
    }

    fn or_else(&self, field: &'static str, what: What, stands_for: impl FnOnce() -> String) {
        if self.field(field).is_none() {
            self.note_left_out(field, what, stands_for());
        }
    }
}
