//! A machine file while it is asked about: its text, its questions, and which of them are answered.

use std::{borrow::Cow, ops::Range, path::Path};

use rackproof_attempt::Text;
use rackproof_drill::file;
use rackproof_files::{Place, Problem, Problems, What};
use rackproof_phrases::check_site_words;

use super::{
    edit,
    questions::{Question, questions},
};
use crate::check::check_machine_name;

/// What became of a question.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Mark {
    /// Nothing yet.
    Open,
    /// The person let the figure stand.
    Kept,
    /// The person gave another one.
    Changed,
    /// The person left it for later.
    Skipped,
}

impl Mark {
    /// Whether the question waits for an answer.
    pub(super) fn is_open(self) -> bool {
        matches!(self, Mark::Open | Mark::Skipped)
    }

    /// All of them with their letters in a kept file.
    pub(super) const ALL: [(char, Mark); 4] = [
        ('.', Mark::Open),
        ('k', Mark::Kept),
        ('c', Mark::Changed),
        ('s', Mark::Skipped),
    ];
}

/// The file with its questions.
pub(super) struct Sheet {
    /// The file's name and its text as it would be written now.
    pub(super) text: Text,
    /// The questions, in the order of the text.
    pub(super) questions: Vec<Question>,
    /// What became of each.
    pub(super) marks: Vec<Mark>,
    /// The question that comes next. As many as there are: the end.
    pub(super) at: usize,
}

impl Sheet {
    pub(super) fn new(mut text: Text) -> Sheet {
        // Places count from behind a byte order mark.
        if let Some(bare) = text.text.strip_prefix('\u{feff}') {
            text.text = bare.to_owned();
        }
        let questions = questions(&text.text);
        let marks = vec![Mark::Open; questions.len()];
        Sheet {
            text,
            questions,
            marks,
            at: 0,
        }
    }

    /// The question that comes next.
    pub(super) fn question(&self) -> Option<&Question> {
        self.questions.get(self.at)
    }

    /// What stands in the file there, or what it means that nothing does. Of a part, whether it is
    /// there.
    pub(super) fn value<'s>(&'s self, question: &'s Question) -> Cow<'s, str> {
        match (&question.what, &question.left_out) {
            (What::Part(_), left_out) => ["true", "false"][usize::from(left_out.is_some())].into(),
            (_, Some(stands_for)) => stands_for.into(),
            (What::Items(_), None) => question.items.len().to_string().into(),
            (_, None) => self.written(question.place).into(),
        }
    }

    fn written(&self, place: Place) -> &str {
        let Place { start, end } = place;
        let found = self.text.text.get(start as usize..end as usize);
        found.unwrap_or_default()
    }

    /// Marks the question that comes next and goes on to the one after it.
    pub(super) fn mark(&mut self, mark: Mark) {
        if let Some(place) = self.marks.get_mut(self.at) {
            *place = mark;
            self.at += 1;
        }
    }

    /// Puts another value in place of that of the question that comes next; a part is written or
    /// taken out. All else stays as it is written: order, blanks and comments.
    pub(super) fn change(&mut self, value: &str) {
        let Some(question) = self.question().cloned() else {
            return;
        };
        let place = range(question.place);
        let text = &mut self.text.text;
        match (&question.what, &question.left_out) {
            (What::Part(_), None) if value == "false" => edit::remove(text, place),
            (What::Part(_), None) => {}
            (What::Part(_), Some(_)) if value == "false" => {}
            (What::Part(written), Some(_)) => {
                edit::insert(text, place.end, question.field(), written);
            }
            (_, Some(_)) => edit::insert(text, place.end, question.field(), value),
            (What::Items(_), None) => self.count_items(&question, value),
            (_, None) => text.replace_range(place, value),
        }
        self.ask_anew(&question);
    }

    /// Takes items out of the end of a list, or writes copies of its last one behind it.
    fn count_items(&mut self, list: &Question, count: &str) {
        let count: usize = count.parse().unwrap_or_default();
        if let Some(last) = list.items.last() {
            let copies = self.copies(list, count.saturating_sub(list.items.len()));
            for copy in copies.iter().rev() {
                edit::insert_item(&mut self.text.text, range(*last), copy);
            }
        }
        for place in list.items.iter().skip(count).rev() {
            edit::remove(&mut self.text.text, range(*place));
        }
    }

    /// Copies of the last item of a list, each under a name that no other has.
    fn copies(&self, list: &Question, count: usize) -> Vec<String> {
        let Some(last) = list.items.last() else {
            return Vec::new();
        };
        let names = self.questions.iter().filter(|one| {
            let inside = one.path.starts_with(&list.path);
            inside && one.what == What::Name
        });
        let names: Vec<Place> = names.map(|one| one.place).collect();
        let bare = |place: &Place| self.written(*place).trim_matches('"').to_owned();
        let mut known: Vec<String> = names.iter().map(bare).collect();
        let own = names.iter().find(|name| name.start > last.start);
        let named = |known: &mut Vec<String>| {
            let mut copy = self.written(*last).to_owned();
            if let Some(own) = own {
                let free = (2..).map(|number| format!("{}-{number}", bare(own)));
                let free = free.into_iter().find(|name| !known.contains(name));
                let free = free.unwrap_or_default();
                let from = last.start as usize;
                let place = own.start as usize - from..own.end as usize - from;
                copy.replace_range(place, &format!("{free:?}"));
                known.push(free);
            }
            copy
        };
        (0..count).map(|_| named(&mut known)).collect()
    }

    /// The questions of the text as it is now. The one that was just answered keeps its place.
    fn ask_anew(&mut self, answered: &Question) {
        let before = std::mem::replace(&mut self.questions, questions(&self.text.text));
        let marks = self.marks.clone();
        // A name is a step of ways: with another one all stands where it stood.
        let renamed = matches!(answered.what, What::Name | What::OneOf(_))
            && before.len() == self.questions.len();
        if renamed {
            self.mark(Mark::Changed);
            return;
        }
        let old = |question: &Question| before.iter().position(|one| one.is_of(question));
        self.marks = self
            .questions
            .iter()
            .map(|question| old(question).map_or(Mark::Open, |place| marks[place]))
            .collect();
        // A value that fits can bring questions that could not be asked before: those of the fields
        // behind a choice come next.
        let here = self.questions.iter().position(|one| one.is_of(answered));
        if let Some(here) = here {
            self.at = here;
            self.mark(Mark::Changed);
        }
    }

    /// Everything that is wrong in the file as it would be written now.
    pub(super) fn problems(&self) -> Vec<Problem> {
        let problems = Problems::new();
        let report = problems.for_file(&self.text.file, &self.text.text);
        file::read_machine(report);
        check_site_words(report);
        check_machine_name(&self.text, report);
        problems.sorted()
    }

    /// How many questions have this mark.
    pub(super) fn count(&self, mark: Mark) -> usize {
        self.marks.iter().filter(|one| **one == mark).count()
    }

    /// The first question that was not answered.
    pub(super) fn first_open(&self) -> Option<usize> {
        self.marks.iter().position(|mark| mark.is_open())
    }

    /// How many questions of each part were not answered, each with one of them.
    pub(super) fn open_by_section(&self) -> Vec<(&Question, usize)> {
        let mut parts: Vec<(&Question, usize)> = Vec::new();
        for (question, mark) in self.questions.iter().zip(&self.marks) {
            match parts.last_mut() {
                _ if !mark.is_open() => {}
                Some((one, open)) if one.section() == question.section() => *open += 1,
                _ => parts.push((question, 1)),
            }
        }
        parts
    }

    /// The first question of the next part, or the end.
    pub(super) fn next_section(&self) -> usize {
        let here = self.question().map(Question::section);
        let other = |one: &Question| Some(one.section()) != here;
        let rest = self.questions.get(self.at..).unwrap_or_default();
        self.at + rest.iter().position(other).unwrap_or(rest.len())
    }

    /// The first question after this one whose way has this word in it, else the first of all.
    pub(super) fn find(&self, word: &str) -> Option<usize> {
        let word = word.to_lowercase();
        let has = |one: &Question| one.shown().to_lowercase().contains(&word);
        let later = (self.at + 1).min(self.questions.len());
        let found = self.questions[later..].iter().position(has);
        found
            .map(|place| later + place)
            .or_else(|| self.questions.iter().position(has))
    }
}

fn range(place: Place) -> Range<usize> {
    place.start as usize..place.end as usize
}

/// The problems that were not there before. Places move with each change, so they do not count.
pub(super) fn new_problems(before: &[Problem], after: &[Problem]) -> Vec<Problem> {
    let same = |one: &Problem, other: &Problem| {
        (&one.found, &one.expected) == (&other.found, &other.expected)
    };
    let mut known: Vec<&Problem> = before.iter().collect();
    let mut new = Vec::new();
    for problem in after {
        match known.iter().position(|one| same(one, problem)) {
            Some(place) => drop(known.remove(place)),
            None => new.push(problem.clone()),
        }
    }
    new
}

/// The name that a machine in this file has: the file's own, without its ending. `None` if it does
/// not end in `.ron`.
pub(super) fn machine_name(path: &Path) -> Option<String> {
    let ron = path.extension().is_some_and(|ending| ending == "ron");
    let stem = path.file_stem()?.to_string_lossy().into_owned();
    ron.then_some(stem)
}

#[cfg(test)]
mod sheet_tests;
