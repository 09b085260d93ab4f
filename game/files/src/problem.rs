//! What does not fit in a file, as data: a place, and ids of messages with their arguments.

use std::{cell::RefCell, fmt::Display};

use crate::{Asked, Place, Report, Source};

/// A message without its words: an id and arguments. Translating is the caller's.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Message {
    /// Which message.
    pub id: &'static str,
    /// What it speaks of, by name.
    pub arguments: Vec<(&'static str, String)>,
}

impl Message {
    /// A message with its arguments, each written as it displays itself.
    pub fn new(id: &'static str, arguments: &[(&'static str, &dyn Display)]) -> Message {
        let written = |(name, value): &(&'static str, &dyn Display)| (*name, value.to_string());
        Message {
            id,
            arguments: arguments.iter().map(written).collect(),
        }
    }

    /// The argument of that name.
    pub fn argument(&self, name: &str) -> Option<&str> {
        self.arguments
            .iter()
            .find(|(known, _)| *known == name)
            .map(|(_, value)| value.as_str())
    }
}

/// One thing that does not fit, for the author of a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// The name of the file.
    pub file: String,
    /// Where, in bytes.
    pub place: Place,
    /// The line of the place's start, from 1.
    pub line: u32,
    /// The column of the place's start, from 1, in characters.
    pub column: u32,
    /// That line, and the place within it. `None` if the line is too long to be shown.
    pub excerpt: Option<(String, Place)>,
    /// What was found.
    pub found: Message,
    /// What was expected instead.
    pub expected: Option<Message>,
    /// What may help.
    pub hint: Option<Message>,
}

/// After so many, problems are only counted: nobody reads more, and a hostile file must not fill
/// the memory.
pub const PROBLEMS_MOST: usize = 1_000;

/// All problems of one or more files. Shared by reference: adding needs no `&mut`, so that several
/// readers of one value can hold it at once.
#[derive(Debug, Default)]
pub struct Problems {
    kept: RefCell<Kept>,
    pub(crate) asked: RefCell<Vec<Asked>>,
}

#[derive(Debug, Default)]
struct Kept {
    problems: Vec<Problem>,
    left_out: usize,
}

impl Problems {
    /// None yet.
    pub fn new() -> Problems {
        Problems::default()
    }

    /// Starts on a file: what is added to the report is a problem of this file.
    pub fn for_file<'t>(&'t self, name: &'t str, text: &'t str) -> Report<'t> {
        Report::new(self, Source::new(name, text))
    }

    /// Whether there is none. Only then may what was read be used.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// How many there are, with those left out.
    pub fn len(&self) -> usize {
        let kept = self.kept.borrow();
        kept.problems.len() + kept.left_out
    }

    /// How many were counted but not kept, see [`PROBLEMS_MOST`].
    pub fn left_out(&self) -> usize {
        self.kept.borrow().left_out
    }

    /// All that are kept, by file, then by place, then in the order in which they were added.
    pub fn sorted(&self) -> Vec<Problem> {
        let mut problems = self.kept.borrow().problems.clone();
        problems.sort_by(|one, other| (&one.file, one.place).cmp(&(&other.file, other.place)));
        problems
    }

    pub(crate) fn add(&self, source: Source<'_>, place: Place, found: Message) -> Added<'_> {
        let mut kept = self.kept.borrow_mut();
        if kept.problems.len() == PROBLEMS_MOST {
            kept.left_out += 1;
            return Added {
                problems: self,
                index: None,
            };
        }
        let (line, column) = source.line_and_column(place);
        kept.problems.push(Problem {
            file: source.name().to_owned(),
            place,
            line,
            column,
            excerpt: source.excerpt(place),
            found,
            expected: None,
            hint: None,
        });
        Added {
            problems: self,
            index: Some(kept.problems.len() - 1),
        }
    }
}

/// In the order of [`Problems::sorted`].
impl IntoIterator for &Problems {
    type Item = Problem;
    type IntoIter = std::vec::IntoIter<Problem>;

    fn into_iter(self) -> Self::IntoIter {
        self.sorted().into_iter()
    }
}

/// A problem just added, to which more can be said.
#[derive(Clone, Copy, Debug)]
pub struct Added<'p> {
    problems: &'p Problems,
    /// `None`: it was counted only.
    index: Option<usize>,
}

impl Added<'_> {
    /// Says what was expected.
    pub fn expected(self, id: &'static str, arguments: &[(&'static str, &dyn Display)]) -> Self {
        self.expecting(Message::new(id, arguments))
    }

    /// Says what was expected, with a message made before, such as [`crate::Bound::expected`].
    pub fn expecting(self, message: Message) -> Self {
        self.change(|problem| problem.expected = Some(message));
        self
    }

    /// Says what may help.
    pub fn hint(self, id: &'static str, arguments: &[(&'static str, &dyn Display)]) -> Self {
        self.change(|problem| problem.hint = Some(Message::new(id, arguments)));
        self
    }

    /// Says which known name was probably meant, if one was found.
    pub fn did_you_mean(self, name: Option<&str>) -> Self {
        match name {
            None => self,
            Some(name) => self.hint(crate::ids::HINT_DID_YOU_MEAN, &[("name", &name)]),
        }
    }

    fn change(self, change: impl FnOnce(&mut Problem)) {
        let mut kept = self.problems.kept.borrow_mut();
        if let Some(problem) = self.index.and_then(|index| kept.problems.get_mut(index)) {
            change(problem);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn problems_of_several_files_come_by_file_and_place() {
        let problems = Problems::new();
        let second = problems.for_file("b", "one\ntwo");
        let first = problems.for_file("a", "three");
        second.add(Place::new(4, 7), "late", &[]);
        second
            .add(Place::new(0, 3), "early", &[])
            .expected("one", &[("most", &1)]);
        first
            .add(Place::new(2, 3), "other", &[])
            .hint("try", &[("name", &"x")]);
        second.add(Place::new(0, 3), "early-again", &[]);
        let order: Vec<_> = problems
            .into_iter()
            .map(|one| (one.file, one.found.id))
            .collect();
        let expected = [
            ("a", "other"),
            ("b", "early"),
            ("b", "early-again"),
            ("b", "late"),
        ];
        assert_eq!(order, expected.map(|(file, id)| (file.to_owned(), id)));

        let all = problems.sorted();
        assert_eq!(all[0].hint, Some(Message::new("try", &[("name", &"x")])));
        assert_eq!(
            all[1].expected.as_ref().unwrap().argument("most"),
            Some("1")
        );
        assert_eq!((all[3].line, all[3].column), (2, 1));
        assert_eq!((problems.len(), problems.is_empty()), (4, false));
    }

    #[test]
    fn beyond_the_limit_problems_are_counted_only() {
        let problems = Problems::new();
        let report = problems.for_file("a", "x");
        for _ in 0..PROBLEMS_MOST + 7 {
            report.add(Place::new(0, 1), "again", &[]).hint("try", &[]);
        }
        assert_eq!(problems.sorted().len(), PROBLEMS_MOST);
        assert_eq!(
            (problems.left_out(), problems.len()),
            (7, PROBLEMS_MOST + 7)
        );
    }
}
