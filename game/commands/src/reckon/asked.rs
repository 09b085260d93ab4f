//! What a planner asks: the machine, the product, and how things stand. All that is wrong with it
//! is told at once.

use std::{io, path::Path};

use rackproof_attempt::Text;
use rackproof_buffer::Machine;
use rackproof_drill::{Hall, file};
use rackproof_files::{Bound, Problem, Problems};
use rackproof_library::{machines, read_text};
use rackproof_model::Micros;
use rackproof_phrases::check_site_words;
use rackproof_words::{Arg, Words};

use super::Arguments;
use crate::{
    check::check_machine_name,
    figure::{expected_told, figure, wrong_told},
    names::unknown,
    play::typed::readable,
};

/// Takt of the line: from one call of the machine downstream to the next. Common practice: lines of
/// boards run between some seconds and some minutes.
const TAKT: Bound = Bound::seconds("takt_s", 1_000_000, 600_000_000, "takt of the line");

/// Time until a changeover: at most a day.
const UNTIL: Bound = Bound::whole("until_min", "min", 0, 1_440, "time until the changeover");

/// When the next changeover begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Changeover {
    /// So many minutes from now.
    Within(u32),
    /// At this minute of the day.
    At(u32),
}

/// What is asked.
pub(super) struct Asked {
    pub(super) machine: Machine,
    pub(super) hall: Hall,
    /// The product inside, by number.
    pub(super) product: u8,
    /// The product that comes next.
    pub(super) next: u8,
    /// Boards inside, 1 to what fits in.
    pub(super) boards: u8,
    /// `None`: the machine downstream asks again at once.
    pub(super) takt: Option<Micros>,
    pub(super) changeover: Option<Changeover>,
}

/// Why there is no answer.
pub(super) enum Refused {
    /// The machine's file was not read.
    Unread(io::Error),
    /// What is wrong in the machine's file.
    Problems(Vec<Problem>),
    /// What is wrong with the arguments, in sentences.
    Arguments(Vec<String>),
}

impl Asked {
    /// Reads the arguments and the machine's file.
    pub(super) fn of(arguments: &Arguments, words: &Words) -> Result<Asked, Refused> {
        let text = machine_text(&arguments.machine, words)?;
        let problems = Problems::new();
        let report = problems.for_file(&text.file, &text.text);
        let read = file::read_machine(report);
        check_site_words(report);
        check_machine_name(&text, report);
        let Some((machine, hall)) = read.filter(|_| problems.is_empty()) else {
            return Err(Refused::Problems(problems.sorted()));
        };
        let mut wrong = Vec::new();
        let takt = arguments.takt.as_deref().and_then(|typed| {
            let steps = read_figure(typed, &TAKT, "30", words, &mut wrong)?;
            Some(Micros(steps as u32))
        });
        let changeover = arguments
            .changeover
            .as_deref()
            .and_then(|typed| read_changeover(typed, words, &mut wrong));
        let product = read_product(&arguments.product, &machine, &hall, words, &mut wrong);
        let next = match &arguments.next {
            Some(name) => read_product(name, &machine, &hall, words, &mut wrong),
            None => product.map(|product| another(product, &machine)),
        };
        let boards = product.and_then(|product| {
            let most = machine.capacity(product).boards;
            let Some(typed) = &arguments.boards else {
                return Some(most);
            };
            let bound = Bound::whole("boards", "boards", 1, i64::from(most), "boards inside");
            read_figure(typed, &bound, &most.to_string(), words, &mut wrong)
                .map(|boards| boards as u8)
        });
        match (product, next, boards) {
            (Some(product), Some(next), Some(boards)) if wrong.is_empty() => Ok(Asked {
                machine,
                hall,
                product,
                next,
                boards,
                takt,
                changeover,
            }),
            _ => Err(Refused::Arguments(wrong)),
        }
    }
}

/// A machine's file by its path, else one of ours by its name.
fn machine_text(named: &str, words: &Words) -> Result<Text, Refused> {
    let ours = machines();
    let name_of = |text: &Text| text.file.trim_end_matches(".ron").to_owned();
    let error = match read_text(Path::new(named)) {
        Ok(text) => return Ok(text),
        Err(error) if error.kind() == io::ErrorKind::NotFound => error,
        Err(_) if Path::new(named).is_dir() => {
            let names: Vec<String> = ours.iter().map(name_of).collect();
            let path = ("path", Arg::from(named.trim_end_matches('/')));
            let names = ("names", Arg::from(names.join(", ")));
            let said = words.say("reckon-folder", &[path, names]);
            return Err(Refused::Arguments(vec![said]));
        }
        Err(error) => return Err(Refused::Unread(error)),
    };
    if let Some(text) = ours.iter().find(|text| name_of(text) == named) {
        return Ok(text.clone());
    }
    if named.ends_with(".ron") {
        return Err(Refused::Unread(error));
    }
    let ids = ["reckon-no-machine", "reckon-no-machine-near"];
    let names: Vec<String> = ours.iter().map(name_of).collect();
    let said = unknown(words, ids, named, names.iter().map(String::as_str));
    Err(Refused::Arguments(vec![said]))
}

/// A figure that was typed, in steps of the last decimal that its bound allows.
fn read_figure(
    typed: &str,
    bound: &Bound,
    example: &str,
    words: &Words,
    wrong: &mut Vec<String>,
) -> Option<i64> {
    match figure(typed, bound) {
        Ok(steps) => Some(steps),
        Err(why) => {
            let option = words.say("reckon-about", &[("words", Arg::from(bound.words))]);
            let told = wrong_told(words, typed, &why, bound);
            let expected = expected_told(words, bound, example);
            wrong.push(format!("{option} {told} {expected}"));
            None
        }
    }
}

/// A time of day, `13:40`, or a stretch of whole minutes, `25 min`.
fn read_changeover(typed: &str, words: &Words, wrong: &mut Vec<String>) -> Option<Changeover> {
    // A time of day with a point is no decimal of a minute.
    let pointed = typed.len() >= 4 && typed.bytes().filter(|one| *one == b'.').count() == 1;
    let Some((hours, minutes)) = typed.split_once(':') else {
        let Ok(until) = figure(typed, &UNTIL) else {
            if pointed && typed.bytes().all(|one| one == b'.' || one.is_ascii_digit()) {
                let typed = ("typed", Arg::from(readable(typed)));
                wrong.push(words.say("reckon-no-time", &[typed]));
            } else {
                read_figure(typed, &UNTIL, "25", words, wrong);
            }
            return None;
        };
        return Some(Changeover::Within(until as u32));
    };
    let two = |text: &str, most: u32| {
        let digits = (1..=2).contains(&text.len()) && text.bytes().all(|one| one.is_ascii_digit());
        let number: u32 = text.parse().ok().filter(|_| digits)?;
        (number <= most).then_some(number)
    };
    let read = two(hours, 23).zip(two(minutes, 59).filter(|_| minutes.len() == 2));
    if read.is_none() {
        let typed = ("typed", Arg::from(readable(typed)));
        wrong.push(words.say("reckon-no-time", &[typed]));
    }
    read.map(|(hours, minutes)| Changeover::At(hours * 60 + minutes))
}

/// The number of a product that the machine can take.
fn read_product(
    name: &str,
    machine: &Machine,
    hall: &Hall,
    words: &Words,
    wrong: &mut Vec<String>,
) -> Option<u8> {
    let names = &hall.product_names;
    // Pages show names with a capital letter: whoever types what they show is understood.
    let exact = names.iter().position(|known| known == name);
    let alike = || {
        let name = name.to_lowercase();
        names.iter().position(|known| known.to_lowercase() == name)
    };
    let Some(number) = exact.or_else(alike) else {
        let ids = ["reckon-no-product", "reckon-no-product-near"];
        wrong.push(unknown(words, ids, name, names.iter().map(String::as_str)));
        return None;
    };
    let (length, most) = (
        machine.parts().products[number].length,
        machine.longest_board(),
    );
    if length > most {
        let told = [
            ("product", Arg::from(name)),
            ("length", Arg::Micrometres(length.0)),
            ("most", Arg::Micrometres(most.0)),
        ];
        wrong.push(words.say("reckon-no-fit", &told));
        return None;
    }
    Some(number as u8)
}

/// The first product of the machine that is another one and that it can take, else the same.
fn another(product: u8, machine: &Machine) -> u8 {
    let fits = |number: usize| machine.parts().products[number].length <= machine.longest_board();
    let others = (0..machine.parts().products.len()).filter(|&number| fits(number));
    let mut others = others.map(|number| number as u8);
    others.find(|&number| number != product).unwrap_or(product)
}
