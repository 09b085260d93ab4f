//! What is asked of `prove`: drills, how much is merged, how far each search goes. All that is
//! wrong is told at once, before anything is searched.

use std::{
    io,
    path::{Path, PathBuf},
};

use rackproof_attempt::Text;
use rackproof_buffer::SLOTS_MOST;
use rackproof_files::{Bound, Problem, Problems};
use rackproof_library::{
    Loaded, built_in_drills, drill, files_in, is_proof, load, read_text, shown,
};
use rackproof_words::{Arg, Words};

use super::{
    Arguments,
    job::STATES_MOST,
    level::{Effort, Level},
};
use crate::{
    check::kind_of,
    figure::{expected_told, figure, wrong_told},
    names::unknown,
    reason::reason_word,
};

/// Sizes of racks that can be searched.
const SLOTS: Bound = Bound::whole("slots", "slots", 2, SLOTS_MOST as i64, "the size of a rack");
const LEVEL: Bound = Bound::whole("level", "", 4, 6, "the level of a search");
/// A search of fewer states ends before it has begun.
const STATES: Bound = Bound::whole(
    "states",
    "states",
    1_000,
    STATES_MOST as i64,
    "the most states of a search",
);

/// What is to be proved, and how.
pub(super) struct Asked {
    pub(super) drills: Vec<Loaded>,
    pub(super) effort: Effort,
    /// Sizes of racks that are to be searched side by side.
    pub(super) slots: Vec<u8>,
}

/// Why nothing is searched. One list at least has something.
#[derive(Default)]
pub(super) struct Refused {
    /// Files that were not read, and why.
    pub(super) unread: Vec<(String, String)>,
    /// What is wrong in the files.
    pub(super) problems: Vec<Problem>,
    /// What is wrong with the arguments, in sentences.
    pub(super) wrong: Vec<String>,
}

impl Asked {
    /// Reads the arguments and all files.
    pub(super) fn of(arguments: &Arguments, words: &Words) -> Result<Asked, Refused> {
        let mut refused = Refused::default();
        let wrong = &mut refused.wrong;
        let mut number = |typed: &str, bound: &Bound, example: &str| match figure(typed, bound) {
            Ok(number) => Some(number),
            Err(why) => {
                let about = words.say("prove-about", &[("words", Arg::from(bound.words))]);
                let told = wrong_told(words, typed, &why, bound);
                // What a level is no range of numbers says.
                let expected = match bound.name {
                    name if name == LEVEL.name => words.say("prove-levels", &[]),
                    _ => expected_told(words, bound, example),
                };
                wrong.push(format!("{about} {told} {expected}"));
                None
            }
        };
        let slots: Vec<u8> = arguments
            .slots
            .iter()
            .filter_map(|typed| u8::try_from(number(typed, &SLOTS, "16")?).ok())
            .collect();
        let states = number(&arguments.states, &STATES, "2000000");
        let level = number(&arguments.level, &LEVEL, "4");
        let level = level.and_then(|level| Level::numbered(u8::try_from(level).ok()?));
        let drills = refused.read(&arguments.paths, words);
        if let Some(name) = &arguments.variant {
            refused.ask_for_variant(name, &drills, words);
        }
        match (level, states) {
            (Some(level), Some(states)) if refused.is_empty() => Ok(Asked {
                drills,
                effort: Effort {
                    level,
                    states_most: usize::try_from(states).unwrap_or(STATES_MOST),
                },
                slots,
            }),
            _ => Err(refused),
        }
    }
}

impl Refused {
    /// Whether nothing is wrong.
    fn is_empty(&self) -> bool {
        self.unread.is_empty() && self.problems.is_empty() && self.wrong.is_empty()
    }

    /// The drills at these paths. A folder's other files are passed over; who names one file means
    /// it.
    fn read(&mut self, paths: &[PathBuf], words: &Words) -> Vec<Loaded> {
        let problems = Problems::new();
        let (mut drills, mut folders) = (Vec::new(), Vec::new());
        for path in paths {
            if !path.is_dir() {
                // A drill goes by its name as well: the one that is compiled in has no other.
                let text = read_text(path).or_else(|error| drill_named(path, error));
                match text {
                    Ok(text) => self.take(text, &problems, &mut drills, words),
                    Err(error) if error.kind() == io::ErrorKind::NotFound => {
                        self.unread.push((shown(path), no_such(path, words)));
                    }
                    Err(error) => self.unread.push((shown(path), reason_word(&error))),
                }
                continue;
            }
            match files_in(path, "ron") {
                Ok(files) => {
                    let before = drills.len() + self.unread.len();
                    let known = problems.len();
                    self.read_folder(&files, &problems, &mut drills);
                    if before == drills.len() + self.unread.len() && known == problems.len() {
                        folders.push(shown(path));
                    }
                }
                Err(error) => self.unread.push((shown(path), reason_word(&error))),
            }
        }
        if !folders.is_empty() {
            let paths = ("paths", Arg::from(folders.join(", ")));
            self.wrong.push(words.say("prove-no-drill", &[paths]));
        }
        self.problems = problems.sorted();
        drills
    }

    fn read_folder(&mut self, files: &[PathBuf], problems: &Problems, drills: &mut Vec<Loaded>) {
        for file in files.iter().filter(|file| !is_proof(file)) {
            match read_text(file) {
                Ok(text) if matches!(kind_of(&text), None | Some("Drill")) => {
                    drills.extend(load(text, problems));
                }
                Ok(_) => {}
                Err(error) => self.unread.push((shown(file), reason_word(&error))),
            }
        }
    }

    /// Reads one file that was named.
    fn take(&mut self, text: Text, problems: &Problems, drills: &mut Vec<Loaded>, words: &Words) {
        match kind_of(&text) {
            None | Some("Drill") => drills.extend(load(text, problems)),
            Some(kind) => {
                let told = [("path", Arg::from(text.file)), ("kind", Arg::from(kind))];
                self.wrong.push(words.say("prove-other", &told));
            }
        }
    }

    /// A variant that no drill has is mistyped. Drills that do not have it are passed over.
    fn ask_for_variant(&mut self, name: &str, drills: &[Loaded], words: &Words) {
        let variants = drills.iter().flat_map(|one| &one.exercise.drill.variants);
        let names: Vec<&str> = variants.map(|one| one.id.as_str()).collect();
        if !names.is_empty() && !names.contains(&name) {
            let ids = ["prove-no-variant", "prove-no-variant-near"];
            self.wrong.push(unknown(words, ids, name, names));
        }
    }
}

/// That there is neither such a file nor such a drill, and which drills go by their names.
fn no_such(path: &Path, words: &Words) -> String {
    let drills = built_in_drills();
    let names = drills.iter().map(|text| text.file.trim_end_matches(".ron"));
    let name = path.file_stem().unwrap_or_default().to_string_lossy();
    let ids = ["prove-no-such", "prove-no-such-near"];
    unknown(words, ids, &name, names)
}

fn drill_named(path: &Path, error: io::Error) -> io::Result<Text> {
    if error.kind() == io::ErrorKind::NotFound {
        drill(&shown(path), Path::new("here")).map_err(|_| error)
    } else {
        Err(error)
    }
}
