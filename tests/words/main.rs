//! The words against the program: nothing that it can say is without a text, no text is without
//! its values, and no text is said by nobody.
//!
//! The core gives ids and values and knows no language; the locale files hold texts and know no
//! core. Only here do the two meet.
#![expect(
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot read the house has failed"
)]

mod checks;
mod problems;
mod refused;
mod said;
mod shipped;
mod sources;
mod statistics;
mod values;

use std::collections::BTreeSet;

use rackproof_words::Words;

/// Messages of the commands are named by code that is not in one place, and those about figures of
/// a machine file by the file itself; `commands` has a test of its own for these. They are left out
/// of the search for texts that nobody says.
const NOT_SEARCHED: [&str; 2] = ["commands.ftl", "machine-questions.ftl"];

#[test]
fn all_that_the_drill_can_say_has_its_text_and_its_values() {
    let words = Words::english();
    let said = said::all();
    assert!(said.len() > 300, "only {} messages were found", said.len());
    assert_eq!(checks::wrong_messages(&words, &said), [""; 0]);
    assert_eq!(words.faults(), [""; 0]);
}

#[test]
fn all_that_the_shipped_files_name_has_its_texts() {
    let words = Words::english();
    assert_eq!(checks::missing(&words, &shipped::ids()), [""; 0]);
}

#[test]
fn all_problems_that_the_sources_name_have_their_texts() {
    let words = Words::english();
    let named: Vec<String> = sources::literals()
        .into_iter()
        .filter(|id| sources::is_of_a_problem(id))
        .collect();
    assert!(named.len() > 60, "only {} ids were found", named.len());
    assert_eq!(checks::missing(&words, &named), [""; 0]);
}

#[test]
fn no_text_has_a_word_that_is_not_ours() {
    for (name, text) in shipped::locale_files() {
        assert_eq!(checks::banned_words(&name, &text), [""; 0]);
    }
}

#[test]
fn no_text_is_said_by_nobody() {
    let words = Words::english();
    let mut used: BTreeSet<String> = sources::literals().into_iter().collect();
    used.extend(said::all().iter().flat_map(said::ids_of).map(str::to_owned));
    used.extend(shipped::ids());
    let mut not_searched = BTreeSet::new();
    for (name, text) in shipped::locale_files() {
        used.extend(sources::contained(&text));
        if NOT_SEARCHED.contains(&name.as_str()) {
            not_searched.extend(sources::declared(&text));
        }
    }
    let unused = checks::unused(&words.ids(), &used);
    let unused: Vec<&str> = unused
        .into_iter()
        .filter(|id| !not_searched.contains(*id))
        .collect();
    assert_eq!(unused, [""; 0]);
}

/// What somebody presses, turns, opens or stands at. A site may call each of them otherwise.
const CONTROLS: [&str; 13] = [
    "Start", "Stop", "Reset", "Hatch", "hatch", "Isolator", "isolator", "torch", "prop", "infeed",
    "outfeed", "mouth", "mouths",
];

/// Texts that name none, though a word of theirs is one: rules and findings that stop, where a
/// drill starts from, and halves of slots, which are typed as letters or drawn as columns.
const NAME_NO_CONTROL: [&str; 11] = [
    "course-any-start",
    "course-key-variant",
    "course-start",
    "course-variant",
    "debrief-key-ends",
    "debrief-not-passed-why",
    "debrief-slot",
    "play-help",
    "play-help-exam",
    "severity-stop",
    "verdict-because-stop",
];

/// The files that are said while a drill is played or judged, and that no site renames. A drill's
/// own texts are written for its machine.
const SAID_IN_A_DRILL: [&str; 8] = [
    "grade.ftl",
    "play.ftl",
    "screen-course.ftl",
    "screen-debrief.ftl",
    "screen-drill.ftl",
    "sheet.ftl",
    "verdict.ftl",
    "way-on.ftl",
];

#[test]
fn what_names_a_control_can_be_renamed_by_a_site() {
    let words = Words::english();
    let renameable: BTreeSet<&str> = words.renameable().into_iter().collect();
    let names_one = |id: &str| {
        let text = words.as_written(id);
        // The name of a value is no word that is read.
        let mut parts = text.split(|letter: char| !letter.is_alphanumeric() && letter != '$');
        parts.any(|word| CONTROLS.contains(&word))
    };
    let mut found = BTreeSet::new();
    for (name, text) in shipped::locale_files() {
        if SAID_IN_A_DRILL.contains(&name.as_str()) {
            let own = sources::declared(&text).into_iter();
            found.extend(own.filter(|id| !renameable.contains(id.as_str()) && names_one(id)));
        }
    }
    // Both ways: an exception that names none any more goes.
    let found: Vec<&str> = found.iter().map(String::as_str).collect();
    assert_eq!(found, NAME_NO_CONTROL);
    assert!(renameable.contains("act-open-hatch") && names_one("act-isolator-off"));
}
