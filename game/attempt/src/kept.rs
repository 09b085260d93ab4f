//! What is on disk of an attempt, read back: whole, cut off, edited, or not ours.

use crate::{
    Material,
    chain::{Link, START, check},
    material::hash_of,
    recorder::FORMAT,
};

/// What every file of ours says of itself.
pub(crate) const KIND: &str = "rackproof attempt";

/// How an attempt was played.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum PlayedAs {
    /// The next step is shown.
    Guided,
    /// Help on demand, which is listed in the report.
    Practice,
    /// No help.
    Exam,
}

/// The SHA-256 of each text, in hexadecimal.
#[derive(Clone, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct Hashes {
    /// Of the machine file.
    pub machine: String,
    /// Of the drill file.
    pub drill: String,
    /// Of the rules file.
    pub rules: String,
    /// Of the procedure file.
    pub procedure: String,
}

impl Hashes {
    /// Those of all four texts.
    pub fn of(material: &Material) -> Hashes {
        Hashes {
            machine: hash_of(&material.machine.text),
            drill: hash_of(&material.drill.text),
            rules: hash_of(&material.rules.text),
            procedure: hash_of(&material.procedure.text),
        }
    }
}

/// The first line.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct Header {
    /// The number of this form.
    pub format: u64,
    /// What the file is.
    pub kind: String,
    /// The version of the program that wrote it.
    pub program: String,
    /// The hash of the core that computed it, see [`crate::core_hash`]. Older files lack it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub core: Option<String>,
    /// The drill's name.
    pub drill: String,
    /// The variant's name.
    pub variant: String,
    /// The variant's number, from 0.
    pub number: usize,
    /// How it was played.
    pub mode: PlayedAs,
    /// Whether the drill was proved with these texts. No exam without.
    pub proved: bool,
    /// The SHA-256 of the proof's file, if it was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub proof: Option<String>,
    /// The hash of each text.
    pub hashes: Hashes,
    /// The texts.
    pub material: Material,
}

/// A line with a cause.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub(crate) struct CauseLine {
    /// Time since the start, in µs.
    pub(crate) at: u64,
    /// The cause.
    pub(crate) cause: String,
    /// What was heard since the line before, this cause's own included.
    pub(crate) heard: Vec<String>,
}

/// A line with something that changes nothing in the drill.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct Note {
    /// Time since the start, in µs.
    pub noted: u64,
    /// What: `Tick(5, Infeed)`, `Hint(step)`.
    pub note: String,
}

/// The last line.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub(crate) struct EndLine {
    /// Time since the start, in µs.
    pub(crate) end: u64,
    /// The hash of the final state's key.
    pub(crate) key: String,
    /// What was heard since the last cause.
    pub(crate) heard: Vec<String>,
    /// How it stood with the finish. Older files lack it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) finish: Option<FinishLine>,
}

/// What of the finish was so, so that the verdict stands whatever a later core computes.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub(crate) struct FinishLine {
    /// Whether all of it held when the job was reported done.
    pub(crate) reached: bool,
    /// What of it did not hold at the end, by its names in files.
    pub(crate) open: Vec<String>,
}

#[derive(serde::Deserialize)]
#[serde(untagged)]
enum Line {
    Cause(CauseLine),
    Note(Note),
    End(EndLine),
}

/// An attempt as it was kept, with its chain of hashes in order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kept {
    /// The first line.
    pub header: Header,
    /// Notes, in their order.
    pub notes: Vec<Note>,
    /// Cause lines, each with its number in the file, from 1.
    pub(crate) causes: Vec<(usize, CauseLine)>,
    pub(crate) end: Option<(usize, EndLine)>,
    hash: String,
    whole_bytes: usize,
    newline: bool,
}

impl Kept {
    /// How many bytes of the file are whole lines.
    pub fn whole_bytes(&self) -> usize {
        self.whole_bytes
    }

    /// How many causes there are.
    pub fn causes(&self) -> usize {
        self.causes.len()
    }

    /// Whether the last line is there. A file that lacks only its newline is cut off all the same.
    pub fn has_end(&self) -> bool {
        self.end.is_some()
    }

    pub(crate) fn lacks_newline(&self) -> bool {
        !self.newline
    }

    pub(crate) fn hash(&self) -> &str {
        &self.hash
    }
}

/// Why a file is not ours to read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Foreign {
    /// Not an attempt.
    NotAnAttempt,
    /// An attempt in a later form: its number.
    Later(u64),
}

/// What a file turned out to be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reading {
    /// Whole: it has its last line.
    Whole(Box<Kept>),
    /// Cut off: what is whole of it, if its first line is. It can be gone on with.
    CutOff(Option<Box<Kept>>),
    /// Somebody changed it: the first line that does not fit, from 1.
    Edited(usize),
    /// Not ours.
    Foreign(Foreign),
}

/// How each of our files begins, up to the number of its form.
const BEGINS: &str = "{\"format\":";

/// Reads the bytes of a kept attempt. Any bytes are answered; nothing here panics.
pub fn read_attempt(bytes: &[u8]) -> Reading {
    let first = bytes
        .split(|byte| *byte == b'\n')
        .next()
        .unwrap_or_default();
    match form_of(first) {
        Form::Ours => {}
        // A file that was cut off before its form could be read is the beginning of one of ours.
        Form::Beginning if first.len() == bytes.len() => return Reading::CutOff(None),
        Form::Beginning => return Reading::Foreign(Foreign::NotAnAttempt),
        Form::Foreign(foreign) => return Reading::Foreign(foreign),
    }
    let mut reader = Reader::default();
    for (number, line) in bytes.split_inclusive(|byte| *byte == b'\n').enumerate() {
        let (line, newline) = match line.strip_suffix(b"\n") {
            Some(line) => (line, true),
            None => (line, false),
        };
        match check(&reader.hash, line) {
            Link::Good(object, hash) if reader.take(number + 1, &object) => {
                reader.hash = hash;
                reader.whole_bytes += line.len() + usize::from(newline);
                reader.newline = newline;
            }
            Link::Open if !newline => break,
            _ => return Reading::Edited(number + 1),
        }
    }
    reader.finish()
}

enum Form {
    Ours,
    Beginning,
    Foreign(Foreign),
}

fn form_of(first: &[u8]) -> Form {
    let expected = format!("{BEGINS}{FORMAT},\"kind\":\"{KIND}\"");
    if first.starts_with(expected.as_bytes()) {
        return Form::Ours;
    }
    if expected.as_bytes().starts_with(first) {
        return Form::Beginning;
    }
    let later = serde_json::from_slice::<serde_json::Value>(first).ok();
    let later = later.filter(|header| header["kind"] == KIND);
    match later.and_then(|header| header["format"].as_u64()) {
        Some(format) if format > FORMAT => Form::Foreign(Foreign::Later(format)),
        _ => Form::Foreign(Foreign::NotAnAttempt),
    }
}

#[derive(Default)]
struct Reader {
    header: Option<Header>,
    notes: Vec<Note>,
    causes: Vec<(usize, CauseLine)>,
    end: Option<(usize, EndLine)>,
    hash: String,
    whole_bytes: usize,
    newline: bool,
}

impl Reader {
    /// Takes one line in. `false` if it does not belong where it stands.
    fn take(&mut self, number: usize, object: &str) -> bool {
        if number == 1 {
            debug_assert_eq!(self.hash, START, "nothing comes before the first line");
            self.header = serde_json::from_str(object).ok();
            return self
                .header
                .as_ref()
                .is_some_and(|header| header.hashes == Hashes::of(&header.material));
        }
        if self.end.is_some() {
            return false;
        }
        match serde_json::from_str(object) {
            Ok(Line::Cause(cause)) => self.causes.push((number, cause)),
            Ok(Line::Note(note)) => self.notes.push(note),
            Ok(Line::End(end)) => self.end = Some((number, end)),
            Err(_) => return false,
        }
        true
    }

    fn finish(self) -> Reading {
        let Some(header) = self.header else {
            return Reading::CutOff(None);
        };
        let ended = self.end.is_some();
        let kept = Box::new(Kept {
            header,
            notes: self.notes,
            causes: self.causes,
            end: self.end,
            hash: self.hash,
            whole_bytes: self.whole_bytes,
            newline: self.newline,
        });
        if ended && kept.newline {
            Reading::Whole(kept)
        } else {
            Reading::CutOff(Some(kept))
        }
    }
}
