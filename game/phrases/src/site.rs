//! The words of a site: those of a machine file, held against our messages, and put in their place.

use rackproof_drill::Hall;
use rackproof_files::{Fields, Place, Problems, Report, nearest, read};
use rackproof_words::{SiteDoubt, Words};

/// The words in which a drill on this machine is told: ours, with those of the site where it has
/// its own.
///
/// A text that does not fit is not used. Reading the machine file says so ([`check_site_words`]);
/// an attempt kept by an older version can still have one.
#[must_use]
pub fn words_of(hall: &Hall) -> Words {
    let words = Words::english();
    let texts: Vec<(&str, &str)> = hall
        .site_words
        .iter()
        .map(|(id, text)| (id.as_str(), text.as_str()))
        .filter(|(id, text)| words.doubts(id, text).is_empty())
        .collect();
    // All of them can be renamed: that is the first doubt.
    words.with_site(&texts).0
}

/// The words of the site, or `None` where ours are to be used: the site has none of its own, or a
/// person wants the plain ones.
#[must_use]
pub fn site_words(hall: &Hall, plain: bool) -> Option<Words> {
    (!plain && !hall.site_words.is_empty()).then(|| words_of(hall))
}

/// Reports all that does not fit in the words of a machine file, and says how many words it has.
/// Problems of its form are not reported: reading the machine does that.
pub fn check_site_words(report: Report<'_>) -> usize {
    let scratch = Problems::new();
    let source = report.source();
    let quiet = scratch.for_file(source.name(), source.text());
    let Some(value) = read(quiet) else {
        return 0;
    };
    let Some(fields) = Fields::of(&value, "Machine", quiet) else {
        return 0;
    };
    let entries = fields.optional("words", Vec::new(), |value, quiet| quiet.entries(value));
    let entries = entries.unwrap_or_default();
    if entries.is_empty() {
        return 0;
    }
    let words = Words::english();
    for (id, value) in &entries {
        let Some(text) = quiet.text(value) else {
            continue;
        };
        for doubt in words.doubts(id, text) {
            report_doubt(report, value.place, id, &doubt, &words);
        }
    }
    entries.len()
}

fn report_doubt(report: Report<'_>, place: Place, id: &str, doubt: &SiteDoubt, words: &Words) {
    let values = words.arguments_of(id);
    let shown = |name: &String| format!("{{ ${name} }}");
    let all = values.iter().map(shown).collect::<Vec<_>>().join(", ");
    let message = ("id", &id as &dyn std::fmt::Display);
    match doubt {
        SiteDoubt::UnknownId => {
            report
                .add(place, "problem-site-unknown", &[message])
                .expected("expected-site-id", &[])
                .did_you_mean(nearest(id, words.renameable()));
        }
        SiteDoubt::OwnWords => {
            report
                .add(place, "problem-site-own", &[message])
                .expected("expected-site-id", &[])
                .did_you_mean(nearest(id, words.renameable()));
        }
        SiteDoubt::Empty => {
            report.add(place, "problem-site-empty", &[message]);
        }
        SiteDoubt::Unprintable => {
            report
                .add(place, "problem-site-unprintable", &[message])
                .expected("expected-site-line", &[]);
        }
        SiteDoubt::LoneBrace => {
            report
                .add(place, "problem-site-brace", &[message])
                .expected("expected-site-brace", &[]);
        }
        SiteDoubt::NotAValue(found) => {
            report
                .add(place, "problem-site-value", &[message, ("found", found)])
                .expected("expected-site-brace", &[]);
        }
        SiteDoubt::UnknownValue(name) => {
            let added = report.add(
                place,
                "problem-site-unknown-value",
                &[message, ("name", name)],
            );
            let added = if values.is_empty() {
                added.expected("expected-site-no-value", &[])
            } else {
                added.expected("expected-site-values", &[("values", &all)])
            };
            added.did_you_mean(nearest(name, values.iter().map(String::as_str)));
        }
        SiteDoubt::LacksValue(name) => {
            report
                .add(place, "problem-site-lacks", &[message, ("name", name)])
                .expected("expected-site-values", &[("values", &all)]);
        }
        SiteDoubt::TooLong { characters, most } => {
            report
                .add(
                    place,
                    "problem-site-long",
                    &[message, ("characters", characters)],
                )
                .expected("expected-site-short", &[("most", most)]);
        }
    }
}

#[cfg(test)]
mod site_tests;
