//! A text with its name, and places in it.

/// A text and the name under which problems speak of it. The name is for people, never opened.
#[derive(Clone, Copy, Debug)]
pub struct Source<'t> {
    name: &'t str,
    text: &'t str,
}

/// A range of bytes in a text: `start` is inside, `end` is not.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// The first byte.
    pub start: u32,
    /// The byte after the last one.
    pub end: u32,
}

impl Place {
    /// The place from one byte up to another. A byte beyond 4 GiB counts as the last one that fits:
    /// the reader refuses such texts long before.
    pub fn new(start: usize, end: usize) -> Place {
        let narrow = |byte: usize| u32::try_from(byte).unwrap_or(u32::MAX);
        Place {
            start: narrow(start),
            end: narrow(end.max(start)),
        }
    }

    /// From the start of this place to the end of another one.
    pub fn to(self, last: Place) -> Place {
        Place {
            start: self.start,
            end: last.end.max(self.start),
        }
    }
}

/// The longest line, in bytes, that a problem takes along to be shown.
const EXCERPT_BYTES_MOST: usize = 400;

impl<'t> Source<'t> {
    /// A text under a name. A byte order mark in front is left away: editors put it there unasked.
    pub fn new(name: &'t str, text: &'t str) -> Source<'t> {
        Source {
            name,
            text: text.strip_prefix('\u{feff}').unwrap_or(text),
        }
    }

    /// The name for people.
    pub fn name(self) -> &'t str {
        self.name
    }

    /// The text. Places count from its start.
    pub fn text(self) -> &'t str {
        self.text
    }

    /// The characters at a place. Empty if the place is not in this text.
    pub fn at(self, place: Place) -> &'t str {
        self.text
            .get(place.start as usize..place.end as usize)
            .unwrap_or("")
    }

    /// Line and column of a place's start. Both count from 1; the column counts characters.
    pub fn line_and_column(self, place: Place) -> (u32, u32) {
        let start = self.text.floor_char_boundary(place.start as usize);
        let before = self.text.get(..start).unwrap_or("");
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        let lines = before.bytes().filter(|byte| *byte == b'\n').count();
        let column = before.get(line_start..).unwrap_or("").chars().count();
        let count = |number: usize| u32::try_from(number).unwrap_or(u32::MAX).saturating_add(1);
        (count(lines), count(column))
    }

    /// The line in which a place starts, and the place within that line, cut at the line's end.
    /// `None` for a very long line: nobody could read it, and every problem would carry a copy.
    pub(crate) fn excerpt(self, place: Place) -> Option<(String, Place)> {
        let start = self.text.floor_char_boundary(place.start as usize);
        let end = self.text.floor_char_boundary(place.end as usize).max(start);
        let line_start = self.text.get(..start)?.rfind('\n').map_or(0, |at| at + 1);
        let line_end = self
            .text
            .get(start..)?
            .find('\n')
            .map_or(self.text.len(), |at| start + at);
        let line = self.text.get(line_start..line_end)?.trim_end();
        if line.len() > EXCERPT_BYTES_MOST {
            return None;
        }
        let within = |byte: usize| (byte - line_start).min(line.len());
        Some((line.to_owned(), Place::new(within(start), within(end))))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn line_and_column_count_from_one_and_in_characters() {
        let text = "(\n  größe: 3,\r\n\n)";
        let cases = [
            (0, (1, 1)),
            (1, (1, 2)),
            (2, (2, 1)),
            (4, (2, 3)),
            (text.find(':').unwrap(), (2, 8)),
            (text.len() - 1, (4, 1)),
            (text.len(), (4, 2)),
            (10_000, (4, 2)),
            (7, (2, 5)), // in the middle of the ö
        ];
        for (byte, expected) in cases {
            let place = Place::new(byte, byte + 1);
            assert_eq!(
                Source::new("f", text).line_and_column(place),
                expected,
                "byte {byte}"
            );
        }
    }

    #[test]
    fn a_byte_order_mark_is_no_part_of_the_text() {
        let source = Source::new("f", "\u{feff}(a: 1)");
        assert_eq!(source.text(), "(a: 1)");
        assert_eq!(source.at(Place::new(1, 2)), "a");
    }

    #[test]
    fn an_excerpt_is_the_line_with_the_place_cut_to_it() {
        let source = Source::new("f", "one\n  two: [\r\n  1]\n");
        assert_eq!(
            source.excerpt(Place::new(11, 17)),
            Some(("  two: [".to_owned(), Place::new(7, 8)))
        );
        let long = "x".repeat(EXCERPT_BYTES_MOST + 1);
        assert_eq!(Source::new("f", &long).excerpt(Place::new(0, 1)), None);
    }
}
