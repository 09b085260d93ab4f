//! The dialog: one question, one line to type.

mod end;
mod several;

use std::io::{self, BufRead};

use rackproof_files::{Bound, What, is_name, nearest};
use rackproof_library::shown;
use rackproof_words::{Arg, Words};

use super::{
    Ways,
    keep::Kept,
    questions::Question,
    says::{self, bare},
    sheet::{Mark, Sheet, new_problems},
};
use crate::{
    Answer,
    figure::{Wrong, expected_told, figure, wrong_told},
    play::typed::{read_line, readable},
};

/// The questions to one file.
pub(super) struct Dialog {
    sheet: Sheet,
    kept: Kept,
    /// The part of the file that was asked about last: its heading is shown once.
    section: String,
}

/// What becomes of the dialog after a line.
enum Turn {
    /// The next question, or the same again with all that is said of it.
    Ask,
    /// The same question: only a line is wanted.
    Stay,
    /// The person leaves.
    Leave,
    /// All is given: the file is written.
    Write,
}

/// A line that is no answer.
enum Command<'t> {
    Back,
    Skip,
    Next,
    Why,
    Quit,
    Help,
    Open,
    Go(&'t str),
}

impl<'t> Command<'t> {
    fn of(line: &'t str, words: &Words) -> Option<Command<'t>> {
        let (word, rest) = line.split_once(' ').unwrap_or((line, ""));
        let is = |id: &str| words.say(id, &[]) == word.to_lowercase();
        let alone = rest.is_empty();
        match word {
            "?" if alone => Some(Command::Help),
            _ if is("ask-word-back") && alone => Some(Command::Back),
            _ if is("ask-word-skip") && alone => Some(Command::Skip),
            _ if is("ask-word-next") && alone => Some(Command::Next),
            _ if is("ask-word-why") && alone => Some(Command::Why),
            _ if is("ask-word-open") && alone => Some(Command::Open),
            _ if is("ask-word-quit") && alone => Some(Command::Quit),
            _ if is("ask-word-go") => Some(Command::Go(rest.trim())),
            _ => None,
        }
    }
}

impl Dialog {
    pub(super) fn new(sheet: Sheet, kept: Kept) -> Dialog {
        Dialog {
            sheet,
            kept,
            section: String::new(),
        }
    }

    /// Asks until the file is written, the person leaves, or the input ends.
    pub(super) fn run(mut self, input: &mut dyn BufRead, ways: &mut Ways<'_>) -> Answer {
        ways.tell("ask-help", &[])?;
        let problems = self.sheet.problems();
        if !problems.is_empty() {
            writeln!(ways.out)?;
            ways.problems(&problems)?;
            ways.tell("ask-problems-first", &[("problems", count(problems.len()))])?;
        }
        loop {
            self.show(ways)?;
            let turn = loop {
                write!(ways.out, "{} ", ways.words.say("ask-prompt", &[]))?;
                ways.out.flush()?;
                let line = read_line(input)?;
                // Typed into a pipe, a line ends nowhere else.
                writeln!(ways.out)?;
                let before = self.place();
                let turn = match line {
                    Some(line) => self.turn(line.trim(), ways)?,
                    None => Turn::Leave,
                };
                if self.is_answered()
                    && self.place() != before
                    && let Err(error) = self.kept.keep(&self.sheet)
                {
                    return ways.unwritten(&shown(&self.kept.part()), &error);
                }
                if !matches!(turn, Turn::Stay) {
                    break turn;
                }
            };
            match turn {
                Turn::Ask | Turn::Stay => {}
                Turn::Leave => return self.leave(ways),
                Turn::Write => return self.write(ways),
            }
        }
    }

    /// All that a line can change.
    fn place(&self) -> (usize, Vec<Mark>, String) {
        let sheet = &self.sheet;
        (sheet.at, sheet.marks.clone(), sheet.text.text.clone())
    }

    /// Whether there is anything to keep.
    fn is_answered(&self) -> bool {
        self.sheet.marks.iter().any(|mark| *mark != Mark::Open)
    }

    fn show(&mut self, ways: &mut Ways<'_>) -> io::Result<()> {
        writeln!(ways.out)?;
        let Some(question) = self.sheet.question() else {
            return self.show_end(ways);
        };
        let words = ways.words;
        if self.section != question.section() {
            writeln!(ways.out, "{}\n", says::section(words, question))?;
            self.section = question.section().to_owned();
        }
        let place = [
            ("number", count(self.sheet.at + 1)),
            ("all", count(self.sheet.questions.len())),
            ("way", Arg::from(question.shown())),
        ];
        ways.row("", &words.say("ask-place", &place))?;
        let label = |id: &str| words.say(id, &[]);
        ways.row(&label("ask-label-what"), &says::what(words, question))?;
        ways.row(
            &label("ask-label-range"),
            &says::range(words, &question.what),
        )?;
        for (number, (_, meaning)) in says::choices(words, question).iter().enumerate() {
            ways.row(&format!("{:9}{}", "", number + 1), meaning)?;
        }
        ways.row(&label("ask-label-measure"), &says::measure(words, question))?;
        ways.row(&label("ask-label-now"), &self.now(question, words))
    }

    /// The value now, as a person reads it.
    fn now(&self, question: &Question, words: &Words) -> String {
        let value = self.sheet.value(question);
        let now = match &question.what {
            What::Number(bound) | What::Items(bound) => format!("{value} {}", bound.unit),
            What::Several(_) => several::now(&value, question, words),
            What::Name => value.trim_matches('"').to_owned(),
            _ => says::choices(words, question)
                .into_iter()
                .find(|(name, _)| bare(name) == bare(&value))
                .map_or_else(|| value.to_string(), |(_, meaning)| meaning),
        };
        if question.left_out.is_some() && !question.is_part() {
            return words.say("ask-now-left-out", &[("now", Arg::from(now))]);
        }
        now
    }

    fn turn(&mut self, line: &str, ways: &mut Ways<'_>) -> io::Result<Turn> {
        if let Some(command) = Command::of(line, ways.words) {
            return self.command(&command, ways);
        }
        match self.sheet.question().cloned() {
            None => self.end_turn(line, ways),
            Some(question) if line.is_empty() => self.keep_value(&question, ways),
            Some(question) => self.answer(line, &question, ways),
        }
    }

    fn command(&mut self, command: &Command<'_>, ways: &mut Ways<'_>) -> io::Result<Turn> {
        match command {
            Command::Help => ways.tell("ask-help", &[]).map(|()| Turn::Stay),
            Command::Quit => Ok(Turn::Leave),
            Command::Open => match self.sheet.first_open() {
                Some(at) => {
                    self.sheet.at = at;
                    Ok(Turn::Ask)
                }
                None => ways.tell("ask-none-open", &[]).map(|()| Turn::Stay),
            },
            Command::Why => {
                let told = match self.sheet.question() {
                    Some(question) => says::why(ways.words, question),
                    None => ways.words.say("ask-why-any", &[]),
                };
                ways.row("", &told).map(|()| Turn::Stay)
            }
            Command::Back if self.sheet.at == 0 => ways.tell("ask-first", &[]).map(|()| Turn::Stay),
            Command::Back => {
                self.sheet.at -= 1;
                Ok(Turn::Ask)
            }
            Command::Skip | Command::Next if self.sheet.question().is_none() => {
                ways.tell("ask-last", &[]).map(|()| Turn::Stay)
            }
            Command::Skip => {
                self.pass_over(self.sheet.at + 1);
                Ok(Turn::Ask)
            }
            Command::Next => {
                self.pass_over(self.sheet.next_section());
                Ok(Turn::Ask)
            }
            Command::Go(word) => match self.sheet.find(word).filter(|_| !word.is_empty()) {
                Some(at) => {
                    self.sheet.at = at;
                    Ok(Turn::Ask)
                }
                None => {
                    let word = ("word", Arg::from(readable(word)));
                    ways.tell("ask-not-found", &[word]).map(|()| Turn::Stay)
                }
            },
        }
    }

    /// Goes on to a later question. What was answered before stays answered.
    fn pass_over(&mut self, to: usize) {
        while self.sheet.at < to {
            match self.sheet.marks.get(self.sheet.at) {
                Some(Mark::Open) => self.sheet.mark(Mark::Skipped),
                _ => self.sheet.at += 1,
            }
        }
    }

    /// Enter alone: the value stands, if it can.
    fn keep_value(&mut self, question: &Question, ways: &mut Ways<'_>) -> io::Result<Turn> {
        let problems = self.sheet.problems();
        let here = problems.into_iter().find(|one| one.place == question.place);
        if let Some(problem) = here {
            ways.problems(&[problem])?;
            self.expected(question, ways)?;
            return Ok(Turn::Stay);
        }
        let changed = self.sheet.marks.get(self.sheet.at) == Some(&Mark::Changed);
        self.sheet
            .mark(if changed { Mark::Changed } else { Mark::Kept });
        Ok(Turn::Ask)
    }

    fn answer(&mut self, line: &str, question: &Question, ways: &mut Ways<'_>) -> io::Result<Turn> {
        let value = match &question.what {
            What::Name => match line.trim_matches('"') {
                name if is_name(name) => format!("{name:?}"),
                _ => {
                    let typed = ("typed", Arg::from(readable(line)));
                    let range = ("range", says::range(ways.words, &question.what).into());
                    ways.tell("ask-no-name", &[typed, range])?;
                    return Ok(Turn::Stay);
                }
            },
            What::Number(bound) | What::Items(bound) => match figure(line, bound) {
                Ok(steps) => self.written(question, bound, steps),
                Err(wrong) => {
                    ways.row("", &wrong_told(ways.words, line, &wrong, bound))?;
                    self.expected(question, ways)?;
                    if matches!(wrong, Wrong::Range(_)) {
                        ways.tell("ask-beyond-range", &[])?;
                    }
                    return Ok(Turn::Stay);
                }
            },
            What::Several(_) => match several::read(line, question, ways.words) {
                Ok(written) => written,
                Err(typed) => {
                    ways.row("", &no_choice(&typed, question, ways.words))?;
                    self.expected(question, ways)?;
                    return Ok(Turn::Stay);
                }
            },
            _ => match chosen(line, question, ways.words) {
                Some(name) => name,
                None => {
                    ways.row("", &no_choice(line, question, ways.words))?;
                    self.expected(question, ways)?;
                    return Ok(Turn::Stay);
                }
            },
        };
        let is_choice = matches!(question.what, What::Choice(_));
        let old = self.sheet.value(question);
        if value == old || is_choice && bare(&value) == bare(&old) {
            return self.keep_value(question, ways);
        }
        let before = self.sheet.problems();
        self.sheet.change(&value);
        let now = self.sheet.questions.iter().find(|one| one.is_of(question));
        let told = now.map_or(value, |now| self.now(now, ways.words));
        ways.tell("ask-changed", &[("value", Arg::from(told))])?;
        let after = self.sheet.problems();
        let new = new_problems(&before, &after);
        if !new.is_empty() {
            writeln!(ways.out)?;
            ways.problems(&new)?;
            ways.tell("ask-problem-now", &[])?;
        } else if after.len() < before.len() {
            ways.tell("ask-problem-gone", &[("problems", count(after.len()))])?;
        }
        Ok(Turn::Ask)
    }

    /// A figure as it stands in the file: with a point, if there was one before.
    fn written(&self, question: &Question, bound: &Bound, steps: i64) -> String {
        let old = self.sheet.value(question);
        let written = bound.written(steps);
        let has_point = old.contains('.') || question.left_out.is_some();
        let point = has_point && bound.decimals > 0 && !written.contains('.');
        if point {
            format!("{written}.0")
        } else {
            written
        }
    }

    /// What was expected, and an example.
    fn expected(&self, question: &Question, ways: &mut Ways<'_>) -> io::Result<()> {
        let (What::Number(bound) | What::Items(bound)) = &question.what else {
            let choices = count(says::choices(ways.words, question).len());
            let ids = ["ask-expected-choice", "ask-expected-several"];
            let id = ids[usize::from(matches!(question.what, What::Several(_)))];
            return ways.tell(id, &[("choices", choices)]);
        };
        let now = self.sheet.value(question);
        let fits = figure(&now, bound).is_ok();
        let example = if fits {
            now.into_owned()
        } else {
            bound.written(bound.least)
        };
        ways.row("", &expected_told(ways.words, bound, &example))
    }
}

/// What is said of a line that is none of the choices, and which one was perhaps meant.
fn no_choice(line: &str, question: &Question, words: &Words) -> String {
    let choices = says::choices(words, question);
    let names = choices.iter().map(|(name, _)| bare(name));
    let near = nearest(line, names).unwrap_or_default();
    let of_near = choices.iter().position(|(name, _)| bare(name) == near);
    let told = [
        ("typed", Arg::from(readable(line))),
        ("near", Arg::from(near)),
        ("number", count(of_near.map_or(0, |at| at + 1))),
    ];
    let ids = ["ask-no-choice", "ask-no-choice-near"];
    words.say(ids[usize::from(of_near.is_some())], &told)
}

/// The name of the choice that was typed, as a number of the list or as the name.
fn chosen(line: &str, question: &Question, words: &Words) -> Option<String> {
    let choices = says::choices(words, question);
    let number = line.parse::<usize>().ok().and_then(|at| at.checked_sub(1));
    let by_number = number.and_then(|at| choices.get(at));
    let small = line.to_lowercase();
    let by_name = || {
        let same = |text: &str| text.to_lowercase() == small;
        choices
            .iter()
            .find(|(name, meaning)| same(bare(name)) || same(meaning))
    };
    by_number.or_else(by_name).map(|(name, _)| name.clone())
}

fn count(number: usize) -> Arg<'static> {
    Arg::Number(i64::try_from(number).unwrap_or(i64::MAX))
}
