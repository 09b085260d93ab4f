//! Which arguments a message uses.
//!
//! Fluent's own syntax tree is not among what `fluent-bundle` hands out. The little that is
//! needed here is read from the text: Fluent has only three places where a character means
//! something else (text, expression, variants of a choice), and this follows them.
//! Wrong syntax is not found here: the bundle finds it.

use std::collections::{BTreeMap, BTreeSet};

/// What one message names directly.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Uses {
    /// Its arguments, without the `$`.
    pub(crate) arguments: BTreeSet<String>,
    /// The other messages that it contains.
    pub(crate) messages: BTreeSet<String>,
}

/// What each message of one file's text names directly, by the message's id.
pub(crate) fn uses(text: &str) -> BTreeMap<String, Uses> {
    let mut scan = Scan {
        rest: text,
        found: BTreeMap::new(),
        current: None,
        open: Vec::new(),
    };
    while !scan.rest.is_empty() {
        scan.line_start();
        scan.line();
    }
    scan.found
}

/// The arguments of a message and of all messages that it contains, sorted.
pub(crate) fn arguments_of(all: &BTreeMap<String, Uses>, id: &str) -> Vec<String> {
    let mut arguments = BTreeSet::new();
    let mut seen = BTreeSet::new();
    let mut waiting = vec![id];
    // Each message is looked at once, so a circle of messages ends too.
    while let Some(next) = waiting.pop() {
        if let Some(uses) = all.get(next)
            && seen.insert(next)
        {
            arguments.extend(uses.arguments.iter().cloned());
            waiting.extend(uses.messages.iter().map(String::as_str));
        }
    }
    arguments.into_iter().collect()
}

/// What is between the innermost open brace and the place of reading.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Inside {
    Expression,
    Variants,
}

struct Scan<'t> {
    rest: &'t str,
    found: BTreeMap<String, Uses>,
    /// The message that is being read. None in a term: it sees only arguments of its own.
    current: Option<String>,
    /// The open braces, outermost first.
    open: Vec<Inside>,
}

impl Scan<'_> {
    /// Outside all braces the first character of a line says what the line is.
    fn line_start(&mut self) {
        if !self.open.is_empty() {
            return;
        }
        if self.rest.starts_with('#') {
            self.rest = &self.rest[self.rest.find('\n').unwrap_or(self.rest.len())..];
        } else if self.rest.starts_with('-') {
            self.current = None;
        } else if self
            .rest
            .starts_with(|first: char| first.is_ascii_alphabetic())
        {
            let id = self.identifier();
            self.found.entry(id.clone()).or_default();
            self.current = Some(id);
        }
    }

    /// Reads to the end of the line, the line's end included.
    fn line(&mut self) {
        while let Some(next) = self.take() {
            match (next, self.open.last()) {
                (_, Some(Inside::Expression)) => self.expression(next),
                ('{', _) => self.open.push(Inside::Expression),
                ('}', _) => drop(self.open.pop()),
                _ => {}
            }
            if next == '\n' {
                return;
            }
        }
    }

    /// One piece of an expression; `next` is its first character, already taken.
    fn expression(&mut self, next: char) {
        match next {
            '{' => self.open.push(Inside::Expression),
            '}' => drop(self.open.pop()),
            '"' => self.string_literal(),
            '$' => {
                let name = self.identifier();
                self.note(|uses| uses.arguments.insert(name));
            }
            '-' if self.rest.starts_with('>') => {
                self.open.pop();
                self.open.push(Inside::Variants);
            }
            // A term's name.
            '-' => drop(self.identifier()),
            letter if letter.is_ascii_alphabetic() => self.word(letter),
            _ => {}
        }
    }

    /// A word in an expression: a message, a function before `(`, or a named value before `:`.
    fn word(&mut self, first: char) {
        let name = format!("{first}{}", self.identifier());
        if let Some(attribute) = self.rest.strip_prefix('.') {
            self.rest = attribute;
            self.identifier();
        }
        if !self.rest.trim_start().starts_with(['(', ':']) {
            self.note(|uses| uses.messages.insert(name));
        }
    }

    fn string_literal(&mut self) {
        while let Some(next) = self.take() {
            match next {
                '"' => return,
                '\\' => drop(self.take()),
                _ => {}
            }
        }
    }

    fn note(&mut self, add: impl FnOnce(&mut Uses) -> bool) {
        if let Some(uses) = self.current.as_ref().and_then(|id| self.found.get_mut(id)) {
            add(uses);
        }
    }

    fn identifier(&mut self) -> String {
        let length = self
            .rest
            .find(|next: char| !(next.is_ascii_alphanumeric() || next == '-' || next == '_'))
            .unwrap_or(self.rest.len());
        let (name, rest) = self.rest.split_at(length);
        self.rest = rest;
        name.to_owned()
    }

    fn take(&mut self) -> Option<char> {
        let next = self.rest.chars().next()?;
        self.rest = &self.rest[next.len_utf8()..];
        Some(next)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn arguments_are_found_wherever_fluent_allows_them() {
        let text = r#"
# A comment with { $nothing }.
none = Costs $price. It's "quoted".
one = Slot { $slot } of {$slots}
choice = { $boards ->
    [one] one board, $not and "{ $in-text }"
   *[other] { $boards } boards at { "{ $literal \" " } { $place ->
        [door] the door
       *[other] { NUMBER($depth, minimumFractionDigits: 1) }
    }
}
after = In { $after }
    and { $below }
-term = { $of-the-term }
    { $of-the-term-too }
outer = { inner } { -term(case: "x") } { inner.attribute }
inner = { $inner } { outer } { gone }
"#;
        let all = uses(text);
        let cases: &[(&str, &[&str])] = &[
            ("none", &[]),
            ("one", &["slot", "slots"]),
            ("choice", &["boards", "depth", "in-text", "place"]),
            ("after", &["after", "below"]),
            ("outer", &["inner"]),
            ("inner", &["inner"]),
            ("no-such-message", &[]),
        ];
        for (id, expected) in cases {
            assert_eq!(arguments_of(&all, id), *expected, "{id}");
        }
        assert_eq!(all.len(), 6, "{all:?}");
        assert_eq!(
            all["outer"].messages,
            BTreeSet::from([String::from("inner")])
        );
    }
}
