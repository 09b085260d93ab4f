//! `machine FILE`: the file of somebody's own machine, one question at a time.

mod dialog;
mod edit;
mod keep;
mod questions;
mod says;
mod sheet;
mod site;

use std::{
    io::{self, BufRead, Write},
    path::PathBuf,
};

use rackproof_attempt::Text;
use rackproof_files::Problem;
use rackproof_library::{machines, read_text, shown};
use rackproof_words::{Arg, Words};

use self::{
    dialog::Dialog,
    keep::{Kept, Part},
    questions::name_place,
    sheet::{Sheet, machine_name},
};
use crate::{
    Answer, Exit, lines::wrapped, names::unknown, problems::write_problems, reason::reason,
};

#[derive(Debug, clap::Args)]
pub(crate) struct Arguments {
    #[arg(value_name = "FILE", required_unless_present = "words")]
    file: Option<PathBuf>,
    #[arg(long, value_name = "NAME")]
    from: Option<String>,
    #[arg(long, conflicts_with_all = ["file", "from"])]
    words: bool,
}

/// What is said and where.
struct Ways<'w> {
    out: &'w mut dyn Write,
    words: &'w Words,
}

impl Ways<'_> {
    fn tell(&mut self, id: &str, arguments: &[(&str, Arg<'_>)]) -> io::Result<()> {
        self.row("", &self.words.say(id, arguments))
    }

    /// A text behind a label, as in a form.
    fn row(&mut self, label: &str, text: &str) -> io::Result<()> {
        const INDENT: usize = 9;
        let from = if label.is_empty() { 0 } else { INDENT };
        write!(self.out, "{}", wrapped(label, from, text))
    }

    fn problems(&mut self, problems: &[Problem]) -> io::Result<()> {
        write_problems(self.out, self.words, problems)
    }

    fn refuse(&mut self, id: &str, arguments: &[(&str, Arg<'_>)]) -> Answer {
        self.tell(id, arguments)?;
        Ok(Exit::No)
    }

    fn unread(&mut self, path: &str, error: &io::Error) -> Answer {
        let reason = reason(error);
        self.refuse(
            "file-not-read",
            &[("path", Arg::from(path)), ("reason", reason)],
        )
    }

    fn unwritten(&mut self, path: &str, error: &io::Error) -> Answer {
        let reason = reason(error);
        self.refuse(
            "file-not-written",
            &[("path", Arg::from(path)), ("reason", reason)],
        )
    }
}

/// Asks.
pub(crate) fn run(
    arguments: &Arguments,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
    words: &Words,
) -> Answer {
    let Some(file) = arguments.file.as_deref() else {
        return site::list(out, words);
    };
    let mut ways = Ways { out, words };
    let path = shown(file);
    let Some(name) = machine_name(file) else {
        ways.tell("ask-no-ron", &[("path", Arg::from(path))])?;
        return Ok(Exit::WrongUse);
    };
    let folder = file.parent().filter(|one| !one.as_os_str().is_empty());
    if let Some(folder) = folder.filter(|one| !one.is_dir()) {
        // Told before a hundred questions, not after them.
        let folder = ("folder", Arg::from(shown(folder)));
        ways.tell("ask-no-folder", &[folder, ("path", Arg::from(path))])?;
        return Ok(Exit::WrongUse);
    }
    let there = match read_text(file) {
        Ok(text) => Some(text),
        Err(error) if error.kind() == io::ErrorKind::NotFound => None,
        Err(error) => return ways.unread(&path, &error),
    };
    let kept = Kept::new(file, there.as_ref().map(|text| text.text.as_str()));
    let part = shown(&kept.part());
    let sheet = match kept.read_part(&path) {
        Ok(Part::Whole(sheet)) => {
            ways.tell("ask-goes-on", &[("part", Arg::from(part))])?;
            Some(sheet)
        }
        Ok(Part::None) => None,
        Ok(Part::Other) => {
            let arguments = [("part", Arg::from(part)), ("path", Arg::from(path))];
            return ways.refuse("ask-kept-other", &arguments);
        }
        Ok(Part::Foreign) => return ways.refuse("ask-kept-foreign", &[("part", Arg::from(part))]),
        Err(error) => return ways.unread(&part, &error),
    };
    let sheet = match (sheet, there) {
        (Some(sheet), _) => sheet,
        (None, Some(text)) => Sheet::new(text),
        (None, None) => match template(arguments, &path, &name, &mut ways)? {
            Some(text) => Sheet::new(text),
            None => return Ok(Exit::WrongUse),
        },
    };
    if sheet.questions.is_empty() {
        ways.problems(&sheet.problems())?;
        return ways.refuse("ask-no-machine", &[("path", Arg::from(path))]);
    }
    Dialog::new(sheet, kept).run(input, &mut ways)
}

/// The text that a new file begins from. `None` if there is none, which is told.
fn template(
    arguments: &Arguments,
    path: &str,
    name: &str,
    ways: &mut Ways<'_>,
) -> io::Result<Option<Text>> {
    let ours = machines();
    let name_of = |text: &Text| machine_name(text.file.as_ref()).unwrap_or_default();
    let names: Vec<String> = ours.iter().map(name_of).collect();
    let place = match &arguments.from {
        None => Some(0),
        Some(from) => names.iter().position(|known| known == from),
    };
    let Some((text, of)) = place.and_then(|place| ours.get(place).zip(names.get(place))) else {
        let from = arguments.from.clone().unwrap_or_default();
        let ids = ["ask-no-template", "ask-no-template-near"];
        let said = unknown(ways.words, ids, &from, names.iter().map(String::as_str));
        ways.row("", &said)?;
        return Ok(None);
    };
    let told = [("name", Arg::from(name)), ("of", Arg::from(of.as_str()))];
    let mut body = text.text.clone();
    if let Some(place) = name_place(&body) {
        body.replace_range(
            place.start as usize..place.end as usize,
            &format!("{name:?}"),
        );
    }
    let head = ways.words.say("ask-template-head", &told);
    let head: String = head.lines().map(|line| format!("// {line}\n")).collect();
    let made = Text {
        file: path.to_owned(),
        text: format!("{head}{body}"),
    };
    // What is wrong already can only be the name.
    let problems = Sheet::new(made.clone()).problems();
    if !problems.is_empty() {
        ways.problems(&problems)?;
        ways.tell("ask-name-first", &[("path", Arg::from(path))])?;
        return Ok(None);
    }
    ways.tell("ask-begins", &told)?;
    let others: Vec<&str> = names
        .iter()
        .map(String::as_str)
        .filter(|one| one != of)
        .collect();
    ways.tell(
        "ask-begins-others",
        &[("names", Arg::from(others.join(", ")))],
    )?;
    Ok(Some(made))
}
