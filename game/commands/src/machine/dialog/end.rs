//! The end of the dialog: what is wrong still, what was not answered, and the file.

use std::io;

use rackproof_library::shown;
use rackproof_words::Arg;

use super::{Dialog, Turn, count};
use crate::{
    Answer, Exit,
    machine::{Ways, says, sheet::Mark},
    play::typed::readable,
};

impl Dialog {
    pub(super) fn show_end(&mut self, ways: &mut Ways<'_>) -> io::Result<()> {
        self.section.clear();
        let problems = self.sheet.problems();
        let told = [
            ("changed", count(self.sheet.count(Mark::Changed))),
            ("kept", count(self.sheet.count(Mark::Kept))),
            (
                "open",
                count(self.sheet.count(Mark::Skipped) + self.sheet.count(Mark::Open)),
            ),
        ];
        ways.tell("ask-end", &told)?;
        let open = self.sheet.open_by_section();
        if !open.is_empty() {
            let open: Vec<String> = open
                .iter()
                .map(|(question, open)| {
                    let part = says::section(ways.words, question);
                    let told = [("part", Arg::from(part)), ("open", count(*open))];
                    ways.words.say("ask-end-open-part", &told)
                })
                .collect();
            ways.tell("ask-end-open", &[("open", Arg::from(open.join(", ")))])?;
        }
        let path = ("path", Arg::from(self.sheet.text.file.as_str()));
        if problems.is_empty() {
            return ways.tell("ask-end-write", &[path]);
        }
        writeln!(ways.out)?;
        ways.problems(&problems)?;
        ways.tell(
            "ask-end-problems",
            &[("problems", count(problems.len())), path],
        )
    }

    pub(super) fn end_turn(&mut self, line: &str, ways: &mut Ways<'_>) -> io::Result<Turn> {
        if line.to_lowercase() != ways.words.say("play-yes", &[]) {
            let typed = ("typed", Arg::from(readable(line)));
            return ways.tell("ask-end-not", &[typed]).map(|()| Turn::Stay);
        }
        if !self.sheet.problems().is_empty() {
            return Ok(Turn::Ask);
        }
        Ok(Turn::Write)
    }

    pub(super) fn leave(&self, ways: &mut Ways<'_>) -> Answer {
        let path = ("path", Arg::from(self.sheet.text.file.as_str()));
        let id = if self.is_answered() && !self.kept.was_there() {
            "ask-left-new"
        } else if self.is_answered() {
            "ask-left"
        } else {
            "ask-left-nothing"
        };
        ways.tell(id, &[path, ("part", Arg::from(shown(&self.kept.part())))])?;
        Ok(Exit::Done)
    }

    pub(super) fn write(&self, ways: &mut Ways<'_>) -> Answer {
        let file = self.sheet.text.file.as_str();
        let path = ("path", Arg::from(file));
        match self.kept.is_untouched() {
            Ok(true) => {}
            Ok(false) => {
                let part = ("part", Arg::from(shown(&self.kept.part())));
                return ways.refuse("ask-kept-other", &[part, path]);
            }
            Err(error) => return ways.unread(file, &error),
        }
        if let Err(error) = self.kept.finish(&self.sheet) {
            return ways.unwritten(file, &error);
        }
        let id = if self.kept.was_there() {
            "ask-written"
        } else {
            "ask-written-new"
        };
        ways.tell(id, &[path])?;
        Ok(Exit::Done)
    }
}
