//! Tasks in the notation of process trees, as another aligner prints them: `->( 'a', X( 'b', tau ),
//! +( 'c', 'd' ), *( 'e', 'f' ) )`. A label is a word; its step is its place in the list of words.

use crate::Task;

pub(super) struct Notation<'n> {
    rest: &'n str,
    /// The words, in the order in which they were met.
    pub(super) words: Vec<String>,
}

impl<'n> Notation<'n> {
    pub(super) fn read(text: &'n str) -> (Task, Vec<String>) {
        let words = Vec::new();
        let mut notation = Notation { rest: text, words };
        let task = notation.task();
        assert_eq!(notation.rest.trim(), "", "{text}");
        (task, notation.words)
    }

    fn take(&mut self, mark: &str) -> bool {
        let rest = self.rest.trim_start().strip_prefix(mark);
        self.rest = rest.unwrap_or(self.rest);
        rest.is_some()
    }

    fn task(&mut self) -> Task {
        if self.take("tau") {
            return Task::Sequence(Vec::new());
        }
        if self.take("'") {
            let (word, rest) = self.rest.split_once('\'').expect("a word ends");
            self.rest = rest;
            return Task::Step(self.number(word));
        }
        let marks = ["->", "+", "X", "*"];
        let mark = marks.into_iter().find(|mark| self.take(mark));
        assert!(self.take("("), "{}", self.rest);
        let mut parts = Vec::new();
        while !self.take(")") {
            parts.push(self.task());
            self.take(",");
        }
        match mark {
            Some("->") => Task::Sequence(parts),
            Some("+") => Task::AnyOrder(parts),
            Some("X") => Task::Choice(parts),
            Some("*") => {
                let between = parts.pop().map(Box::new);
                let body = parts.pop().map(Box::new).expect("a loop has two parts");
                Task::Repeat { body, between }
            }
            _ => panic!("no operator: {}", self.rest),
        }
    }

    /// The number of a word.
    fn number(&mut self, word: &str) -> u16 {
        let known = self.words.iter().position(|known| known == word);
        let number = known.unwrap_or_else(|| {
            self.words.push(word.to_owned());
            self.words.len() - 1
        });
        number as u16
    }
}

/// The numbers of the words of a trace. A word that the task has not gets a number of its own.
pub(super) fn numbers(words: &[String], trace: &[&str]) -> Vec<u16> {
    let number = |word: &&str| words.iter().position(|known| known == word).unwrap_or(999) as u16;
    trace.iter().map(number).collect()
}
