//! The chain of hashes through the lines of a kept attempt: each line ends with the SHA-256 of the
//! hash of the line before and its own content, so that no line can be changed unseen.

use crate::material::hash_of_bytes;

/// What stands between the content of a line and its hash.
const MARK: &str = ",\"hash\":\"";
/// What ends a line.
const CLOSE: &str = "\"}";
/// Hexadecimal figures of a hash.
const FIGURES: usize = 64;

/// The hash before the first line.
pub(crate) const START: &str = "";

fn link(before: &str, content: &str) -> String {
    hash_of_bytes(format!("{before}{content}").as_bytes())
}

/// A line, its newline included, from a JSON object; and its hash.
pub(crate) fn seal(before: &str, object: &str) -> (String, String) {
    let content = object.strip_suffix('}').unwrap_or(object);
    let hash = link(before, content);
    (format!("{content}{MARK}{hash}{CLOSE}\n"), hash)
}

/// How a line, given without its newline, stands in the chain.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Link {
    /// Whole and unchanged: the JSON object without its hash, and the hash.
    Good(String, String),
    /// It does not end as lines end.
    Open,
    /// Its hash does not fit, or more follows it.
    Broken,
}

/// Checks one line against the hash of the line before.
pub(crate) fn check(before: &str, line: &[u8]) -> Link {
    let text = match std::str::from_utf8(line) {
        Ok(text) => text,
        // Cut in the middle of a character.
        Err(error) if error.error_len().is_none() => return Link::Open,
        Err(_) => return Link::Broken,
    };
    let Some(mark) = text.rfind(MARK) else {
        return Link::Open;
    };
    let (content, tail) = text.split_at(mark);
    let tail = &tail[MARK.len()..];
    let Some(hash) = tail.get(..FIGURES) else {
        return Link::Open;
    };
    match &tail[FIGURES..] {
        CLOSE if link(before, content) == hash => {
            Link::Good(format!("{content}}}"), hash.to_owned())
        }
        rest if CLOSE.starts_with(rest) && rest != CLOSE => Link::Open,
        _ => Link::Broken,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sealed_line_is_good_and_only_after_its_own_line() {
        let (first, hash) = seal(START, r#"{"a":1}"#);
        let (second, _) = seal(&hash, r#"{"b":2}"#);
        let line = |text: &str| check(START, text.trim_end().as_bytes());
        assert_eq!(
            line(&first),
            Link::Good(r#"{"a":1}"#.to_owned(), hash.clone())
        );
        assert_eq!(line(&second), Link::Broken);
        let second = second.trim_end();
        assert!(matches!(check(&hash, second.as_bytes()), Link::Good(..)));
        for end in 0..second.len() {
            assert_eq!(check(&hash, &second.as_bytes()[..end]), Link::Open, "{end}");
        }
        assert_eq!(check(&hash, format!("{second} ").as_bytes()), Link::Broken);
        assert_eq!(check(&hash, b"\xff"), Link::Broken);
        assert_eq!(check(&hash, b"{\xc3"), Link::Open);
    }
}
