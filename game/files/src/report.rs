//! Where a reader of one file says what does not fit.

use std::fmt::Display;

use crate::{Added, Message, Place, Problems, Source, ids};

/// The problems, seen from one file. Small and copied freely. The typed questions to a value are
/// its methods, too: see [`Report::integer`] and those beside it.
#[derive(Clone, Copy, Debug)]
pub struct Report<'v> {
    problems: &'v Problems,
    source: Source<'v>,
    /// The field whose value is being read, for messages.
    thing: &'v str,
}

impl<'v> Report<'v> {
    pub(crate) fn new(problems: &'v Problems, source: Source<'v>) -> Report<'v> {
        Report {
            problems,
            source,
            thing: ids::THIS_VALUE,
        }
    }

    /// The file.
    pub fn source(self) -> Source<'v> {
        self.source
    }

    /// All problems so far, those of other files as well.
    pub fn problems(self) -> &'v Problems {
        self.problems
    }

    /// The same report, whose messages speak of a field by its name.
    pub fn about(self, field: &'v str) -> Report<'v> {
        Report {
            thing: field,
            ..self
        }
    }

    /// The field of which messages speak, or [`ids::THIS_VALUE`].
    pub fn thing(self) -> &'v str {
        self.thing
    }

    /// Adds a problem: what was found, as an id with its arguments. Say what was expected on the
    /// answer, with [`Added::expected`] and [`Added::hint`].
    pub fn add(
        self,
        place: Place,
        id: &'static str,
        arguments: &[(&'static str, &dyn Display)],
    ) -> Added<'v> {
        self.problems
            .add(self.source, place, Message::new(id, arguments))
    }
}
