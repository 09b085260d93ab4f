//! The words of a site in a machine file: what its own machine calls things.

use rackproof_files::{Report, Value};

use super::bounds;

/// Ids of messages with the site's texts, in the order of the file. What a text must have in it is
/// the message's affair, and this crate knows no message.
pub(super) fn read_site_words(value: &Value, report: Report<'_>) -> Option<Vec<(String, String)>> {
    let entries = report.entries(value)?;
    let most = report.within(value.place, entries.len() as i64, &bounds::SITE_WORDS);
    let texts: Vec<Option<(String, String)>> = entries
        .into_iter()
        .map(|(id, value)| {
            let text = report.text(value)?;
            let characters = text.chars().count() as i64;
            report.within(value.place, characters, &bounds::SITE_CHARACTERS)?;
            Some((id.to_owned(), text.to_owned()))
        })
        .collect();
    most.and_then(|_| texts.into_iter().collect())
}
