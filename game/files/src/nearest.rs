//! Which known name was probably meant.

/// Longer words are not compared: the work grows with the square of the length.
const WORD_CHARACTERS_MOST: usize = 60;

/// The candidate that is nearest to a word, if one is near enough to be meant. Of two equally near
/// ones, the first.
pub fn nearest<'c>(word: &str, candidates: impl IntoIterator<Item = &'c str>) -> Option<&'c str> {
    let mut best: Option<(usize, &'c str)> = None;
    if word.chars().count() > WORD_CHARACTERS_MOST {
        return None;
    }
    for candidate in candidates {
        let length = word.chars().count().max(candidate.chars().count());
        let far = distance(&word.to_lowercase(), &candidate.to_lowercase());
        // A third of the letters wrong is still a slip; more is another word.
        if far * 3 <= length && best.is_none_or(|(least, _)| far < least) {
            best = Some((far, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}

/// How many letters must be added, left out or changed to come from one word to the other.
fn distance(from: &str, to: &str) -> usize {
    let to: Vec<char> = to.chars().collect();
    // One row of the table of distances: from what is read of `from` to each start of `to`.
    let mut row: Vec<usize> = (0..=to.len()).collect();
    for (read, letter) in from.chars().enumerate() {
        let mut next = vec![read + 1];
        let mut left = read + 1;
        for ((above, above_left), other) in row.iter().skip(1).zip(&row).zip(&to) {
            let changed = above_left + usize::from(letter != *other);
            left = changed.min(above + 1).min(left + 1);
            next.push(left);
        }
        row = next;
    }
    row.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn distances_are_known() {
        let cases = [
            ("", "", 0),
            ("", "abc", 3),
            ("abc", "", 3),
            ("kitten", "sitting", 3),
            ("slots", "slots", 0),
            ("slot", "slots", 1),
            ("größe", "grosse", 3),
        ];
        for (from, to, expected) in cases {
            assert_eq!(distance(from, to), expected, "{from} {to}");
        }
    }

    #[test]
    fn a_slip_finds_its_word_and_another_word_finds_none() {
        let known = ["slots", "width_mm", "time_out_s", "FirstInFirstOut"];
        let long = "s".repeat(100_000);
        let cases = [
            ("slot", Some("slots")),
            ("Slots", Some("slots")),
            ("widht_mm", Some("width_mm")),
            ("firstInfirstOut", Some("FirstInFirstOut")),
            ("colour", None),
            ("", None),
            (&long, None),
        ];
        for (word, expected) in cases {
            assert_eq!(nearest(word, known), expected, "{word}");
        }
    }
}
