//! What a proof left on the disk.

use std::{io, path::Path};

use rackproof_library::shown;
use rackproof_words::{Arg, Words};

use crate::reason::reason;

/// What was written now, and what could not be: for a program that reads it.
#[derive(Debug, Default)]
pub(super) struct Written {
    /// The file of the proof.
    pub(super) proof: Option<String>,
    /// Attempts: ways that break a claim, and where a folder was named those of traps and guide.
    pub(super) attempts: Vec<String>,
    /// Files that could not be written, and why.
    pub(super) failed: Vec<(String, String)>,
}

impl Written {
    /// Notes that a file could not be written, and says so.
    pub(super) fn fail(&mut self, path: &Path, error: &io::Error, words: &Words) -> String {
        let path = shown(path);
        let told = [
            ("path", Arg::from(path.as_str())),
            ("reason", reason(error)),
        ];
        let said = words.say("file-not-written", &told);
        self.failed.push((path, error.to_string()));
        said
    }
}
