//! All messages of one language.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Mutex, PoisonError};

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentError, FluentResource};
use unic_langid::LanguageIdentifier;

use crate::Arg;
use crate::locale::{ENGLISH, MessageFile};
use crate::scan::{self, Uses};
use crate::site;
use crate::{SiteDoubt, doubts};

/// All messages of one language, with the words of a site where it has its own.
///
/// Can be shared between threads.
///
/// ```
/// use rackproof_words::{Arg, Words};
///
/// let words = Words::english();
/// assert_eq!(words.say("no-such-message", &[("slot", Arg::Number(3))]), "[no-such-message]");
/// assert_eq!(words.faults(), ["no-such-message: no message has this id"]);
/// ```
pub struct Words {
    bundle: FluentBundle<FluentResource>,
    /// What each message names, by its id: the list of all ids.
    uses: BTreeMap<String, Uses>,
    /// The ids that a site may rename.
    renameable: BTreeSet<String>,
    /// What went wrong so far. A set: the same fault in every frame is one fault.
    faults: Mutex<BTreeSet<String>>,
}

impl Words {
    /// The English messages that are compiled in.
    #[must_use]
    pub fn english() -> Words {
        Words::from_files("en", ENGLISH)
    }

    /// The words of these files. What is wrong in them becomes a fault.
    fn from_files(language: &str, files: &[MessageFile]) -> Words {
        let language: LanguageIdentifier = language.parse().unwrap_or_default();
        let mut bundle = FluentBundle::new_concurrent(vec![language]);
        // Isolation marks are invisible, but a terminal, a log and a comparison all trip on them.
        bundle.set_use_isolating(false);
        let mut words = Words {
            bundle,
            uses: BTreeMap::new(),
            renameable: BTreeSet::new(),
            faults: Mutex::new(BTreeSet::new()),
        };
        for file in files {
            words.add(file);
        }
        words
    }

    fn add(&mut self, file: &MessageFile) {
        let resource = match FluentResource::try_new(file.text.to_owned()) {
            Ok(resource) => resource,
            Err((resource, errors)) => {
                for error in &errors {
                    let before = file.text.get(..error.pos.start).unwrap_or(file.text);
                    let line = before.matches('\n').count() + 1;
                    self.note(format!("{}:{line}: {error}", file.name));
                }
                resource
            }
        };
        if let Err(errors) = self.bundle.add_resource(resource) {
            errors
                .iter()
                .for_each(|error| self.note(format!("{}: {error}", file.name)));
        }
        let uses = scan::uses(file.text);
        if file.site_renames {
            self.renameable.extend(uses.keys().cloned());
        }
        for (id, uses) in uses {
            // The first one stands, as in the bundle. The second is a fault already.
            self.uses.entry(id).or_insert(uses);
        }
    }

    /// The text of a message with these values.
    ///
    /// Values that the message does not use are left out. Nothing here fails: an unknown id gives
    /// `[id]`, a missing value shows as `{$name}`, and both become a fault ([`Words::faults`]).
    #[must_use]
    pub fn say(&self, id: &str, args: &[(&str, Arg<'_>)]) -> String {
        let pattern = self
            .bundle
            .get_message(id)
            .and_then(|message| message.value());
        let Some(pattern) = pattern else {
            self.note(format!("{id}: no message has this id"));
            return format!("[{id}]");
        };
        let mut values = FluentArgs::with_capacity(args.len());
        for (name, arg) in args {
            values.set(*name, arg.to_fluent());
        }
        let mut errors: Vec<FluentError> = Vec::new();
        let text = self
            .bundle
            .format_pattern(pattern, Some(&values), &mut errors)
            .into_owned();
        errors
            .iter()
            .for_each(|error| self.note(format!("{id}: {error}")));
        text
    }

    /// Whether there is a message with this id.
    #[must_use]
    pub fn has(&self, id: &str) -> bool {
        self.bundle
            .get_message(id)
            .is_some_and(|message| message.value().is_some())
    }

    /// The ids of all messages, sorted.
    #[must_use]
    pub fn ids(&self) -> Vec<&str> {
        self.uses.keys().map(String::as_str).collect()
    }

    /// The names of the values that a message uses, sorted, without `$`. Those of the messages
    /// that it contains are among them. Empty for an unknown id.
    #[must_use]
    pub fn arguments_of(&self, id: &str) -> Vec<String> {
        scan::arguments_of(&self.uses, id)
    }

    /// The ids that a site may rename, sorted: the words on the machine and those of the hall.
    #[must_use]
    pub fn renameable(&self) -> Vec<&str> {
        self.renameable.iter().map(String::as_str).collect()
    }

    /// The same words, but with a site's own text for some ids, and the ids that could not be
    /// renamed: no such message, or not one of [`Words::renameable`]. These stay as they were.
    ///
    /// A site's text is plain. Only `{ $name }` has a meaning, if the message uses that value.
    /// Of two texts for the same id the last one stands.
    #[must_use]
    pub fn with_site(mut self, texts: &[(&str, &str)]) -> (Words, Vec<String>) {
        let mut refused = Vec::new();
        for (id, text) in texts {
            if !self.renameable.contains(*id) {
                refused.push((*id).to_owned());
                continue;
            }
            let source = site::message(id, text, &self.arguments_of(id));
            // Whatever the text is, the message is right: a test of `site` and one of this file.
            match FluentResource::try_new(source) {
                Ok(resource) => self.bundle.add_resource_overriding(resource),
                Err((_, errors)) => {
                    errors
                        .iter()
                        .for_each(|error| self.note(format!("{id}: {error}")));
                }
            }
        }
        (self, refused)
    }

    /// All that does not fit in a site's text for this id. Empty: it can take the place of ours.
    ///
    /// ```
    /// use rackproof_words::{SiteDoubt, Words};
    ///
    /// let words = Words::english();
    /// assert_eq!(words.doubts("part-rack", "Store"), []);
    /// assert_eq!(words.doubts("part-rak", "Store"), [SiteDoubt::UnknownId]);
    /// ```
    #[must_use]
    pub fn doubts(&self, id: &str, text: &str) -> Vec<SiteDoubt> {
        if !self.uses.contains_key(id) {
            return vec![SiteDoubt::UnknownId];
        }
        if !self.renameable.contains(id) {
            return vec![SiteDoubt::OwnWords];
        }
        doubts::doubts(text, &self.arguments_of(id), self.room(id))
    }

    /// How many characters a site's text for this id may have, without its values.
    #[must_use]
    pub fn room(&self, id: &str) -> usize {
        doubts::room(self.say_with(id, |_| String::new()).chars().count())
    }

    /// Our own text for this id as a site would write it: `Slot { $slot }`.
    #[must_use]
    pub fn as_written(&self, id: &str) -> String {
        self.say_with(id, |name| format!("{{ ${name} }}"))
    }

    fn say_with(&self, id: &str, value: impl Fn(&str) -> String) -> String {
        let arguments = self.arguments_of(id);
        let values: Vec<(&str, Arg<'_>)> = arguments
            .iter()
            .map(|name| (name.as_str(), Arg::from(value(name))))
            .collect();
        self.say(id, &values)
    }

    /// What went wrong so far, sorted, each once: faults in the files, unknown ids, missing
    /// values. Empty when all is well. Each begins with the file or the id.
    #[must_use]
    pub fn faults(&self) -> Vec<String> {
        self.faults
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .iter()
            .cloned()
            .collect()
    }

    fn note(&self, fault: String) {
        self.faults
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .insert(fault);
    }
}

impl std::fmt::Debug for Words {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.debug_struct("Words")
            .field("ids", &self.ids())
            .finish_non_exhaustive()
    }
}

#[cfg(test)]
mod tests;
