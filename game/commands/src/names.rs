//! A name that nobody has: what is said of it, and which one was perhaps meant.

use rackproof_files::nearest;
use rackproof_library::built_in_drills;
use rackproof_words::{Arg, Words};

use crate::play::typed::readable;

/// Says that nobody has this name, and what the names are. `ids` are two messages: the first for a
/// name that is like none of them, the second for one that is near one. Both get the values `name`,
/// `near` and `names`.
pub(crate) fn unknown<'n>(
    words: &Words,
    ids: [&'static str; 2],
    name: &str,
    names: impl IntoIterator<Item = &'n str>,
) -> String {
    let (id, values) = told(ids, name, names);
    words.say(id, &values)
}

/// That there is neither a file nor a drill of ours with this name: a message with its values.
pub(crate) fn no_drill(name: &str) -> Told {
    let drills = built_in_drills();
    let names = drills.iter().map(|drill| {
        let file = drill.file.as_str();
        file.strip_suffix(".ron").unwrap_or(file)
    });
    told(["play-no-drill", "play-no-drill-near"], name, names)
}

/// A message with its values.
pub(crate) type Told = (&'static str, Vec<(&'static str, Arg<'static>)>);

fn told<'n>(ids: [&'static str; 2], name: &str, names: impl IntoIterator<Item = &'n str>) -> Told {
    let names: Vec<&str> = names.into_iter().collect();
    let near = nearest(name, names.iter().copied());
    let values = vec![
        ("name", Arg::from(readable(name))),
        ("near", Arg::from(near.unwrap_or_default().to_owned())),
        ("names", Arg::from(names.join(", "))),
    ];
    (ids[usize::from(near.is_some())], values)
}

#[cfg(test)]
mod tests {
    use super::*;

    const IDS: [&str; 2] = ["play-no-variant", "play-no-variant-near"];

    #[test]
    fn a_near_name_is_offered_and_another_is_not() {
        let words = Words::english();
        let cases: &[(&str, Option<&str>)] = &[
            ("wen", Some("wren")),
            ("Wren", Some("wren")),
            ("kestrl", Some("kestrel")),
            ("heron", None),
            ("", None),
            ("wr\u{7}en", Some("wren")),
        ];
        for (name, near) in cases {
            let said = unknown(&words, IDS, name, ["wren", "kestrel"]);
            assert!(said.ends_with("Known are: wren, kestrel."), "{said}");
            let offered = near.map(|near| format!("Perhaps “{near}” is meant."));
            let found = offered.as_deref().is_some_and(|part| said.contains(part));
            assert_eq!(found, near.is_some(), "{name}: {said}");
            assert_eq!(said.contains("Perhaps"), near.is_some(), "{name}: {said}");
            assert!(!said.contains('\u{7}'), "{said}");
        }
        assert_eq!(words.faults(), [""; 0]);
    }
}
