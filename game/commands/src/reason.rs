//! Why a file cannot be read or written, for the messages that say so.

use std::io;

use rackproof_words::Arg;

/// What a message chooses its words by; of what is seldom, the words of the system.
pub(crate) fn reason(error: &io::Error) -> Arg<'static> {
    Arg::from(reason_word(error))
}

/// The same as a text.
pub(crate) fn reason_word(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => "not-found".to_owned(),
        io::ErrorKind::PermissionDenied => "denied".to_owned(),
        io::ErrorKind::IsADirectory => "folder".to_owned(),
        io::ErrorKind::InvalidData => "not-text".to_owned(),
        io::ErrorKind::AlreadyExists => "there".to_owned(),
        io::ErrorKind::ReadOnlyFilesystem => "read-only".to_owned(),
        io::ErrorKind::StorageFull => "full".to_owned(),
        _ => error.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use rackproof_words::Words;

    use super::*;

    #[test]
    fn each_reason_says_what_it_means_and_what_to_do() {
        let words = Words::english();
        let said = |id: &str, error: io::Error| {
            words.say(
                id,
                &[("path", Arg::from("here")), ("reason", reason(&error))],
            )
        };
        let read = [
            (io::ErrorKind::NotFound, "there is no such file. Look"),
            (io::ErrorKind::NotADirectory, "there is no such file. Look"),
            (
                io::ErrorKind::PermissionDenied,
                "may not be read by you. Ask",
            ),
            (io::ErrorKind::IsADirectory, "is a folder. Name a file"),
            (io::ErrorKind::InvalidData, "is not text in UTF-8. Name"),
        ];
        let written = [
            (io::ErrorKind::NotFound, "its folder is not there. Make it"),
            (
                io::ErrorKind::PermissionDenied,
                "may not be written by you. Name",
            ),
            (io::ErrorKind::IsADirectory, "is a folder. Name a file"),
            (
                io::ErrorKind::AlreadyExists,
                "is there already, and nothing is written over. Name",
            ),
            (
                io::ErrorKind::ReadOnlyFilesystem,
                "takes no new files. Name",
            ),
            (io::ErrorKind::StorageFull, "is full. Make room"),
        ];
        for (id, cases) in [
            ("file-not-read", &read[..]),
            ("grade-unread", &read[..]),
            ("file-not-written", &written[..]),
        ] {
            for (kind, part) in cases {
                let told = said(id, io::Error::from(*kind));
                assert!(told.contains(part), "{id}, {kind:?}: {told}");
            }
            let other = said(id, io::Error::other("of its own kind"));
            assert!(other.ends_with(": of its own kind"), "{other}");
        }
        assert_eq!(words.faults(), [""; 0]);
    }
}
