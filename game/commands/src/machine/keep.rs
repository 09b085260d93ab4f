//! Where answers are kept: in `FILE.part` until all are given, then in `FILE`. Each is written
//! under another name first and then renamed: a power cut leaves the old or the new, whole.
//!
//! The first line of `FILE.part` is a comment with the hash of the `FILE` that it began from, the
//! question that comes next, and a letter for each question: what became of it.

use std::{
    fs::{self, File},
    io::{self, Write},
    path::{Path, PathBuf},
};

use rackproof_attempt::{Text, hash_of};

use super::sheet::{Mark, Sheet};

/// How the first line of a kept part begins.
const HEAD: &str = "// rackproof machine: ";

/// A machine file on disk, and its part.
pub(super) struct Kept {
    path: PathBuf,
    /// The hash of what was in the file when the questions began. `None`: it was not there.
    base: Option<String>,
}

/// What stands in the part.
pub(super) enum Part {
    /// There is none.
    None,
    /// Answers to go on from.
    Whole(Sheet),
    /// It began from another text than the file has now.
    Other,
    /// It is not ours.
    Foreign,
}

impl Kept {
    /// The file with the text that it has now, if it is there.
    pub(super) fn new(path: &Path, text: Option<&str>) -> Kept {
        Kept {
            path: path.to_owned(),
            base: text.map(hash_of),
        }
    }

    /// Whether the file was there when the questions began.
    pub(super) fn was_there(&self) -> bool {
        self.base.is_some()
    }

    /// Where answers are kept until all are given.
    pub(super) fn part(&self) -> PathBuf {
        with_ending(&self.path, ".part")
    }

    /// What was answered before.
    pub(super) fn read_part(&self, file: &str) -> io::Result<Part> {
        let text = match fs::read_to_string(self.part()) {
            Ok(text) => text,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Part::None),
            Err(error) => return Err(error),
        };
        let Some((head, text)) = text.split_once('\n') else {
            return Ok(Part::Foreign);
        };
        let words: Vec<&str> = match head.strip_prefix(HEAD) {
            Some(rest) => rest.split(' ').collect(),
            None => return Ok(Part::Foreign),
        };
        let &[base, at, marks] = words.as_slice() else {
            return Ok(Part::Foreign);
        };
        if base != self.base_shown() {
            return Ok(Part::Other);
        }
        let mut sheet = Sheet::new(Text {
            file: file.to_owned(),
            text: text.to_owned(),
        });
        let mark = |letter| Mark::ALL.iter().find(|(known, _)| *known == letter);
        let marks: Option<Vec<Mark>> = marks
            .chars()
            .map(|letter| mark(letter).map(|(_, mark)| *mark))
            .collect();
        // Another version of the program can ask other questions: then all come again.
        if let (Some(marks), Ok(at)) = (marks, at.parse::<usize>())
            && marks.len() == sheet.questions.len()
        {
            sheet.marks = marks;
            sheet.at = at.min(sheet.questions.len());
        }
        Ok(Part::Whole(sheet))
    }

    /// Keeps what was answered so far.
    pub(super) fn keep(&self, sheet: &Sheet) -> io::Result<()> {
        let letter = |mark: &Mark| Mark::ALL.iter().find(|(_, known)| known == mark);
        let marks: String = sheet
            .marks
            .iter()
            .filter_map(|mark| letter(mark).map(|(letter, _)| *letter))
            .collect();
        let (base, at, text) = (self.base_shown(), sheet.at, &sheet.text.text);
        write_whole(&self.part(), &format!("{HEAD}{base} {at} {marks}\n{text}"))
    }

    /// Writes the file, and takes the part away.
    pub(super) fn finish(&self, sheet: &Sheet) -> io::Result<()> {
        write_whole(&self.path, &sheet.text.text)?;
        self.drop_part()
    }

    /// Takes the part away.
    pub(super) fn drop_part(&self) -> io::Result<()> {
        match fs::remove_file(self.part()) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => Err(error),
            _ => Ok(()),
        }
    }

    /// Whether the file is still as it was when the questions began.
    pub(super) fn is_untouched(&self) -> io::Result<bool> {
        match fs::read(&self.path) {
            Ok(bytes) => Ok(self.base == Some(hash_of(&String::from_utf8_lossy(&bytes)))),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(self.base.is_none()),
            Err(error) => Err(error),
        }
    }

    fn base_shown(&self) -> &str {
        self.base.as_deref().unwrap_or("new")
    }
}

/// The whole text or nothing, under this name.
fn write_whole(path: &Path, text: &str) -> io::Result<()> {
    let aside = with_ending(path, ".new");
    let written = File::create(&aside).and_then(|mut file| {
        file.write_all(text.as_bytes())?;
        file.sync_all()
    });
    written.and_then(|()| fs::rename(&aside, path))
}

fn with_ending(path: &Path, ending: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(ending);
    PathBuf::from(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALDER: &str = include_str!("../../../../assets/machines/alder-16.ron");

    #[test]
    fn what_was_kept_is_gone_on_with_as_long_as_the_file_is_the_same() {
        let folder = tempfile::tempdir().expect("a folder can be made");
        let path = folder.path().join("alder-16.ron");
        fs::write(&path, ALDER).expect("it can be written");
        let kept = Kept::new(&path, Some(ALDER));
        assert!(matches!(kept.read_part("f"), Ok(Part::None)));
        let mut sheet = Sheet::new(Text {
            file: "f".to_owned(),
            text: ALDER.to_owned(),
        });
        sheet.change("24");
        sheet.mark(Mark::Skipped);
        sheet.mark(Mark::Kept);
        kept.keep(&sheet).expect("it can be kept");
        assert_eq!(fs::read_to_string(&path).ok().as_deref(), Some(ALDER));
        let Ok(Part::Whole(again)) = kept.read_part("f") else {
            panic!("it is whole");
        };
        assert_eq!((again.at, &again.text), (3, &sheet.text));
        assert_eq!(again.marks, sheet.marks);
        assert!(kept.is_untouched().expect("it can be read"));

        let other = Kept::new(&path, Some("Machine()"));
        assert!(matches!(other.read_part("f"), Ok(Part::Other)));
        assert!(matches!(
            Kept::new(&path, None).read_part("f"),
            Ok(Part::Other)
        ));
        assert!(!other.is_untouched().expect("it can be read"));
        for foreign in [
            "",
            "Machine()",
            "Machine()\n\n",
            "// rackproof machine: a b\nx",
        ] {
            fs::write(kept.part(), foreign).expect("it can be written");
            assert!(
                matches!(kept.read_part("f"), Ok(Part::Foreign)),
                "{foreign}"
            );
        }

        kept.finish(&sheet).expect("it can be written");
        let names: Vec<_> = fs::read_dir(folder.path())
            .expect("it is there")
            .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
            .collect();
        assert_eq!(names, ["alder-16.ron"], "nothing is left beside it");
        let text = fs::read_to_string(&path).expect("it can be read");
        assert_eq!(text, ALDER.replacen("slots: 16", "slots: 24", 1));
    }
}
