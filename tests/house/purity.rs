//! What the source of the core must not name.
//!
//! The dependency tree keeps foreign clocks, threads and disks out. The standard library brings
//! its own; this keeps those out.

use crate::dependency_tree::CORE;
use crate::listing;

/// A word that must not be in the source, which crate may have it all the same, and why not.
struct Ban {
    word: &'static str,
    reason: &'static str,
    /// `prove` has workers and reckons how far it is; the rest of the core has no exception.
    prove_may: bool,
}

/// A row of the table. A path leaves out its crate: `use std::time` may stand elsewhere.
const fn ban(word: &'static str, reason: &'static str, prove_may: bool) -> Ban {
    Ban {
        word,
        reason,
        prove_may,
    }
}

const BANS: &[Ban] = &[
    ban("time::Instant", "time comes in from outside", false),
    ban("SystemTime", "time comes in from outside", false),
    ban("std::fs", "text comes in from outside", false),
    ban("std::thread", "the core does one thing at a time", true),
    ban(
        "collections::HashMap",
        "hash order must never reach an answer",
        true,
    ),
    ban(
        "collections::HashSet",
        "hash order must never reach an answer",
        true,
    ),
    ban(
        "collections::hash_map",
        "hash order must never reach an answer",
        true,
    ),
    ban(
        "collections::hash_set",
        "hash order must never reach an answer",
        true,
    ),
    ban("f32", "whole numbers give the same bits everywhere", true),
    ban("f64", "whole numbers give the same bits everywhere", true),
];

/// What is wrong in one file of the core.
fn complaints(path: &str, text: &str) -> Vec<String> {
    let mut parts = path.split('/');
    let (Some("game"), Some(room)) = (parts.next(), parts.next()) else {
        return Vec::new();
    };
    if !CORE.contains(&room) || !path.ends_with(".rs") || is_test_file(path) {
        return Vec::new();
    }
    let mut complaints = Vec::new();
    let names = names(product_code(text));
    for ban in BANS.iter().filter(|ban| room != "prove" || !ban.prove_may) {
        if names.iter().any(|name| has(name, ban.word)) {
            complaints.push(format!("{path}: {}: {}", ban.word, ban.reason));
        }
    }
    complaints
}

/// Tests of a module in a file of their own, or of the crate.
fn is_test_file(path: &str) -> bool {
    path.ends_with("/tests.rs") || path.contains("/tests/")
}

/// The text before the module of tests: by habit it is the end of a file. What else is only for
/// tests (an import, a module in a file of its own) hides nothing that comes after it.
fn product_code(text: &str) -> &str {
    let mark = "#[cfg(test)]";
    let mut marks = text.match_indices(mark);
    let end = marks.find(|(start, _)| opens_module(&text[start + mark.len()..]));
    end.map_or(text, |(start, _)| &text[..start])
}

/// Whether this text, after further attributes, begins with a module that has its body here.
fn opens_module(text: &str) -> bool {
    let mut in_attribute = false;
    for line in text.lines().map(str::trim).filter(|line| !line.is_empty()) {
        in_attribute |= line.starts_with("#[");
        if !in_attribute {
            return line.starts_with("mod ") && line.contains('{');
        }
        in_attribute = !line.ends_with(']');
    }
    false
}

/// All names and paths in a text without its comments. Nested imports are written out:
/// `std::{fs, time::Instant}` gives `std::fs` and `std::time::Instant`.
fn names(text: &str) -> Vec<String> {
    let code: String = text
        .lines()
        .map(|line| without_comment(line) + "\n")
        .collect();
    let mut names = Vec::new();
    // What is before each open brace, if it is a path that goes on inside.
    let mut prefixes: Vec<String> = Vec::new();
    let mut name = String::new();
    for character in code.chars() {
        match character {
            letter if letter.is_alphanumeric() || letter == '_' || letter == ':' => {
                name.push(letter);
            }
            '{' => {
                let outer = prefixes.last().map_or("", String::as_str);
                let goes_on = name.ends_with("::");
                prefixes.push(if goes_on {
                    format!("{outer}{name}")
                } else {
                    String::new()
                });
                name.clear();
            }
            other => {
                if !name.is_empty() {
                    let outer = prefixes.last().map_or("", String::as_str);
                    names.push(format!("{outer}{name}"));
                    name.clear();
                }
                if other == '}' {
                    prefixes.pop();
                }
            }
        }
    }
    names
}

/// A line without its comment. A comment stands alone or after a space, unlike an address.
fn without_comment(line: &str) -> String {
    if line.trim_start().starts_with("//") {
        return String::new();
    }
    line.split(" //").next().unwrap_or_default().to_owned()
}

/// Whether a name has this word in it. Letters around it make it another word, except that a
/// number may have its type right behind it (`1f64`, `1_f64`).
fn has(name: &str, word: &str) -> bool {
    name.match_indices(word).any(|(start, _)| {
        let before = name[..start].chars().next_back();
        let after = name[start + word.len()..].chars().next();
        !before.is_some_and(char::is_alphabetic)
            && !after.is_some_and(|next| next.is_alphanumeric() || next == '_')
    })
}

#[test]
fn the_core_names_no_clock_no_disk_no_thread_and_no_float() -> Result<(), String> {
    let mut found = Vec::new();
    let mut read = 0;
    for path in listing::files()? {
        if let Some(text) = listing::read(&path)? {
            read += usize::from(
                CORE.iter()
                    .any(|room| path.starts_with(&format!("game/{room}/"))),
            );
            found.extend(complaints(&path, &text));
        }
    }
    assert!(
        read >= CORE.len(),
        "only {read} files of the core were found"
    );
    assert_eq!(found, [""; 0]);
    Ok(())
}

/// The banned words that are found in a file with this text.
fn words_found(path: &str, text: &str) -> String {
    let found = complaints(path, text);
    let words = found.iter().filter_map(|line| line.split(": ").nth(1));
    words.collect::<Vec<_>>().join(" ")
}

#[test]
fn a_banned_word_is_found_where_it_counts() {
    let cases: &[(&str, &str, &str)] = &[
        ("drill", "use std::time::Instant;", "time::Instant"),
        (
            "drill",
            "use std::time; time::Instant::now();",
            "time::Instant",
        ),
        (
            "drill",
            "use std::{fs, time::{Instant}};",
            "time::Instant std::fs",
        ),
        ("drill", "use std::time::Duration;", ""),
        ("grade", "fn now() -> SystemTime {}", "SystemTime"),
        ("grade", "let a = std::fs::read(b);", "std::fs"),
        ("buffer", "std::thread::spawn(work)", "std::thread"),
        (
            "buffer",
            "use std::collections::{A, HashMap};",
            "collections::HashMap",
        ),
        (
            "buffer",
            "std::collections::hash_map::Entry;",
            "collections::hash_map",
        ),
        ("buffer", "use hashbrown::HashMap;", ""),
        ("model", "pub struct Instants(f64);", "f64"),
        ("model", "let a = 1_f32 + f64::from(b);", "f32 f64"),
        ("model", "let buf64 = Instants::of(f640);", ""),
        ("model", "/// No f64 here.\nlet a = 1; // nor an f32\n", ""),
        ("prove", "fn rate() -> f64 { std::thread::scope(work) }", ""),
        (
            "prove",
            "std::fs::a(std::time::Instant)",
            "time::Instant std::fs",
        ),
        ("attempt", "use std::time::Instant;", ""),
    ];
    for (room, text, expected) in cases {
        let path = format!("game/{room}/src/a.rs");
        assert_eq!(words_found(&path, text), *expected, "{room} {text}");
        // Tests may do all that: their answers are not the program's.
        let path = format!("game/{room}/src/a/tests.rs");
        assert_eq!(words_found(&path, text), "", "{room} {text}");
    }
}

#[test]
fn only_a_module_of_tests_at_the_end_is_left_out() {
    let cases: &[(&str, &str)] = &[
        ("#[cfg(test)]\nmod tests { const A: f64 = 1.0; }", ""),
        (
            "#[cfg(test)]\n#[expect(\na,\n)]\nmod tests {\nfn a() -> f64 {} }",
            "",
        ),
        (
            "fn a() -> f32 {}\n#[cfg(test)]\nmod tests { fn b() -> f64 {} }",
            "f32",
        ),
        ("#[cfg(test)]\nmod tests;\nfn a() -> f64 {}", "f64"),
        ("#[cfg(test)]\nuse b;\nmod c { const A: f64 = 1.0; }", "f64"),
        (
            "#[cfg(test)]\n#[expect(a)]\nuse b;\nfn a() -> f64 {}",
            "f64",
        ),
    ];
    for (text, expected) in cases {
        assert_eq!(
            words_found("game/model/src/a.rs", text),
            *expected,
            "{text}"
        );
    }
}
