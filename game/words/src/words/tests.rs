use super::*;

fn file(name: &'static str, text: &'static str) -> MessageFile {
    MessageFile {
        name,
        text,
        site_renames: true,
    }
}

fn words(text: &'static str) -> Words {
    Words::from_files("en", &[file("test.ftl", text)])
}

/// An id, the values, and the text that is expected.
type Case<'a> = (&'a str, &'a [(&'a str, Arg<'a>)], &'a str);

#[test]
fn messages_are_said_with_their_values() {
    let words = words(
        "slot = Slot { $slot }\n\
         width = The rails are { $width } apart.\n\
         boards = { $boards ->\n [0] no board\n [one] one board\n *[other] { $boards } boards\n}\n\
         rack = rack\n\
         empty = The { rack } is empty.\n",
    );
    let cases: &[Case<'_>] = &[
        ("slot", &[("slot", Arg::Number(1_200))], "Slot 1200"),
        (
            "slot",
            &[("slot", Arg::from("3a")), ("more", Arg::Number(1))],
            "Slot 3a",
        ),
        (
            "width",
            &[("width", Arg::Micrometres(170_800))],
            "The rails are 170.8 mm apart.",
        ),
        ("boards", &[("boards", Arg::Number(0))], "no board"),
        ("boards", &[("boards", Arg::Number(1))], "one board"),
        ("boards", &[("boards", Arg::Number(12))], "12 boards"),
        ("empty", &[], "The rack is empty."),
    ];
    for (id, args, expected) in cases {
        assert_eq!(words.say(id, args), *expected, "{id}");
    }
    assert_eq!(words.faults(), [""; 0]);
}

#[test]
fn what_is_missing_is_seen_by_the_reader_and_kept_as_a_fault() {
    let words = words("slot = Slot { $slot }\n");
    assert!(words.has("slot") && !words.has("slots"));
    assert_eq!(words.say("slots", &[]), "[slots]");
    assert_eq!(words.say("slots", &[]), "[slots]");
    assert_eq!(
        words.say("slot", &[("slots", Arg::Number(1))]),
        "Slot {$slot}"
    );
    let expected = [
        "slot: Resolver error: Unknown variable: $slot",
        "slots: no message has this id",
    ];
    assert_eq!(words.faults(), expected);
}

#[test]
fn a_wrong_file_is_a_fault() {
    let cases: &[(&[MessageFile], &str)] = &[
        (
            &[file("a.ftl", "stop = Stop\nno value here\n")],
            "a.ftl:2: Expected a token starting with \"=\"",
        ),
        (
            &[file("a.ftl", "stop = Stop\nstop = Halt\n")],
            "existing message: \"stop\"",
        ),
        (
            &[
                file("a.ftl", "stop = Stop\n"),
                file("b.ftl", "go = Go\nstop = Halt\n"),
            ],
            "b.ftl: Attempt to override an existing message: \"stop\"",
        ),
    ];
    for (files, expected) in cases {
        let faults = Words::from_files("en", files).faults();
        assert!(
            faults.len() == 1 && faults[0].contains(expected),
            "{faults:?}"
        );
    }
}

#[test]
fn a_site_renames_what_it_may() {
    let files = [
        file(
            "machine.ftl",
            "rack = rack\nslot = slot { $slot }\nempty = The { rack } is empty.\n",
        ),
        MessageFile {
            site_renames: false,
            ..file("commands.ftl", "done = Done.\n")
        },
    ];
    let words = Words::from_files("en", &files);
    assert_eq!(words.renameable(), ["empty", "rack", "slot"]);
    let texts = [
        ("rack", "store"),
        ("done", "Finished."),
        ("slot", "level { $slot } {of} \"{ $all }\""),
        ("shelf", "shelf"),
        ("rack", "magazine"),
    ];
    let (words, refused) = words.with_site(&texts);
    assert_eq!(refused, ["done", "shelf"]);
    assert_eq!(words.say("empty", &[]), "The magazine is empty.");
    assert_eq!(
        words.say("slot", &[("slot", Arg::Number(3))]),
        "level 3 {of} \"{ $all }\""
    );
    assert_eq!(words.say("done", &[]), "Done.");
    assert_eq!(words.faults(), [""; 0]);
}

#[test]
fn what_does_not_fit_in_a_text_of_a_site_is_told_by_its_message() {
    let files = [
        file(
            "machine.ftl",
            "rack = rack\nslot = slot { $slot }, { half }\nhalf = { $half }\n",
        ),
        MessageFile {
            site_renames: false,
            ..file("commands.ftl", "done = Done.\n")
        },
    ];
    let words = Words::from_files("en", &files);
    let lacks = |name: &str| SiteDoubt::LacksValue(name.to_owned());
    let cases: &[(&str, &str, &[SiteDoubt])] = &[
        ("rack", "store", &[]),
        (
            "rack",
            "{ $slot }",
            &[SiteDoubt::UnknownValue("slot".to_owned())],
        ),
        ("slot", "level { $half }", &[lacks("slot")]),
        ("slot", "level", &[lacks("half"), lacks("slot")]),
        ("done", "Over.", &[SiteDoubt::OwnWords]),
        ("racks", "stores", &[SiteDoubt::UnknownId]),
        (
            "slot",
            "{ $half } of storey { $slot }",
            &[SiteDoubt::TooLong {
                characters: 11,
                most: 10,
            }],
        ),
    ];
    for (id, text, expected) in cases {
        assert_eq!(words.doubts(id, text), *expected, "{id}: {text}");
    }
    assert_eq!(words.faults(), [""; 0]);
}

#[test]
fn no_text_of_a_site_makes_a_wrong_message() {
    for text in [
        "", " ", "{", "}", "{ $", "\\", "\"", "{ \"", "#", ".a = b", "[x]", "*[x]", "\n\r\t",
    ] {
        let (words, refused) = words("rack = rack\n").with_site(&[("rack", text)]);
        assert_eq!(words.say("rack", &[]), text);
        assert!(
            refused.is_empty() && words.faults().is_empty(),
            "{text:?} {:?}",
            words.faults()
        );
    }
}

/// Says every message with a value for each argument, and returns what is wrong with any.
fn wrong_when_said(words: &Words) -> Vec<String> {
    let mut wrong = Vec::new();
    for value in [
        Arg::Number(0),
        Arg::Number(1),
        Arg::Number(2),
        Arg::from("text"),
    ] {
        for id in words.ids() {
            let names = words.arguments_of(id);
            let args: Vec<_> = names
                .iter()
                .map(|name| (name.as_str(), value.clone()))
                .collect();
            let text = words.say(id, &args);
            // The marks that Fluent puts around values, and what it shows for a missing one.
            if text.trim().is_empty() || text.contains(['\u{2068}', '\u{2069}']) {
                wrong.push(format!("{id}: {text:?}"));
            }
            let attributes = words
                .bundle
                .get_message(id)
                .map_or(0, |m| m.attributes().count());
            if attributes > 0 {
                wrong.push(format!("{id}: has attributes, but nothing says them"));
            }
        }
    }
    wrong.extend(words.faults());
    wrong
}

#[test]
fn every_message_of_every_file_can_be_said() {
    let words = Words::english();
    assert!(!words.ids().is_empty());
    assert!(words.ids().iter().all(|id| words.has(id)));
    assert_eq!(wrong_when_said(&words), [""; 0]);
}

#[test]
fn the_check_of_all_messages_can_fail() {
    let cases = [
        ("slot = { \"\" }\n", "slot: \"\""),
        (
            "slot = Slot\n    .hint = Look\n",
            "slot: has attributes, but nothing says them",
        ),
        (
            "slot = { no-message }\n",
            "slot: Resolver error: Unknown message: no-message",
        ),
        (
            "slot = { NUMBER($slot) }\n",
            "slot: Resolver error: Unknown function: NUMBER()",
        ),
    ];
    for (text, expected) in cases {
        let wrong = wrong_when_said(&words(text));
        assert!(
            wrong.iter().any(|fault| fault == expected),
            "{text:?} {wrong:?}"
        );
    }
}

#[test]
fn words_can_be_shared_between_threads() {
    fn shared<T: Send + Sync>() {}
    shared::<Words>();
}
