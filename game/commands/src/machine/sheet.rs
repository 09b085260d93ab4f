//! A machine file while it is asked about: its text, its questions, and which of them are answered.

use std::path::Path;

use rackproof_attempt::Text;
use rackproof_drill::file;
use rackproof_files::{Place, Problem, Problems};
use rackproof_phrases::check_site_words;

use super::questions::{Question, questions};
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

    /// What stands in the file there.
    pub(super) fn value(&self, question: &Question) -> &str {
        let Place { start, end } = question.place;
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

    /// Puts another value in place of that of the question that comes next. All else stays as it is
    /// written: order, blanks and comments.
    pub(super) fn change(&mut self, value: &str) {
        let Some(question) = self.question() else {
            return;
        };
        let (start, end) = (question.place.start as usize, question.place.end as usize);
        self.text.text.replace_range(start..end, value);
        let before = std::mem::replace(&mut self.questions, questions(&self.text.text));
        let (marks, path) = (self.marks.clone(), before[self.at].path.clone());
        let old = |question: &Question| before.iter().position(|one| one.path == question.path);
        self.marks = self
            .questions
            .iter()
            .map(|question| old(question).map_or(Mark::Open, |place| marks[place]))
            .collect();
        // A value that fits can bring questions that could not be asked before: those of the fields
        // behind a choice come next.
        let here = self.questions.iter().position(|one| one.path == path);
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
mod tests {
    use super::*;

    const ALDER: &str = include_str!("../../../../assets/machines/alder-16.ron");

    fn sheet() -> Sheet {
        Sheet::new(Text {
            file: "alder-16.ron".to_owned(),
            text: ALDER.to_owned(),
        })
    }

    #[test]
    fn every_value_can_be_changed_in_its_place_alone() {
        let count = sheet().questions.len();
        for at in 0..count {
            let mut sheet = sheet();
            sheet.at = at;
            let value = sheet.value(&sheet.questions[at]).to_owned();
            let path = sheet.questions[at].path.clone();
            sheet.change("7.125");
            assert_eq!(sheet.questions.len(), count, "{path:?}");
            assert_eq!((sheet.at, sheet.marks[at]), (at + 1, Mark::Changed));
            assert_eq!(sheet.value(&sheet.questions[at]), "7.125");
            sheet.at = at;
            sheet.change(&value);
            assert_eq!(sheet.text.text, ALDER, "{path:?}");
        }
    }

    #[test]
    fn a_choice_with_a_figure_brings_its_question_and_takes_it_away() {
        let mut sheet = sheet();
        sheet.at = sheet.find("sight, hatch").expect("it is asked for");
        while sheet.questions[sheet.at].shown() != "hall, sight, hatch" {
            sheet.at += 1;
        }
        let count = sheet.questions.len();
        let hatch = sheet.at;
        sheet.change("Clear(light_reach_mm: 10.0)");
        assert_eq!(sheet.questions.len(), count + 1);
        let next = sheet.questions[sheet.at].shown();
        assert_eq!(next, "hall, sight, hatch, light_reach_mm");
        assert_eq!(sheet.count(Mark::Open), count);
        assert_eq!(sheet.problems(), []);
        sheet.at = hatch;
        sheet.change("Tinted");
        assert_eq!(sheet.questions.len(), count);
        assert_eq!(sheet.questions[sheet.at].shown(), "hall, pace, walk_s");
        assert_eq!(sheet.count(Mark::Open), count - 1);
    }

    #[test]
    fn a_mark_in_front_of_the_text_moves_no_place() {
        let text = format!("\u{feff}{ALDER}").replace('\n', "\r\n");
        let file = "alder-16.ron".to_owned();
        let mut sheet = Sheet::new(Text { file, text });
        sheet.change("24");
        let expected = ALDER.replacen("slots: 16", "slots: 24", 1);
        assert_eq!(sheet.text.text, expected.replace('\n', "\r\n"));
    }

    #[test]
    fn a_problem_that_was_there_is_not_new() {
        let mut sheet = sheet();
        assert_eq!(sheet.problems(), []);
        sheet.at = sheet.find("rails, most").expect("it is asked for");
        sheet.change("200.0");
        let first = sheet.problems();
        assert_eq!(first.len(), 1, "a product is wider");
        sheet.at = 0;
        sheet.change("24");
        assert_eq!(new_problems(&first, &sheet.problems()), []);
        assert_eq!(new_problems(&[], &first), first);
    }

    #[test]
    fn ways_are_found_from_here_on() {
        let mut sheet = sheet();
        let first = sheet.find("PACE").expect("it is there");
        assert_eq!(sheet.questions[first].shown(), "hall, pace, walk_s");
        sheet.at = first;
        assert_eq!(sheet.find("pace"), Some(first + 1));
        assert_eq!(sheet.find("slots"), Some(0), "from the start again");
        assert_eq!(sheet.find("no such"), None);
        sheet.at = 0;
        assert_eq!(sheet.questions[sheet.next_section()].section(), "rails");
        sheet.at = first;
        assert_eq!(sheet.next_section(), sheet.questions.len());
    }
}
