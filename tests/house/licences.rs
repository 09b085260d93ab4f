//! Whose code is taken in, and on which terms.

use serde_json::Value;

use crate::metadata::{self, list, text};

/// The licences that the house takes.
const ALLOWED: &[&str] = &[
    "0BSD",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "CC0-1.0",
    "ISC",
    "MIT",
    "MIT-0",
    // Of fonts.
    "OFL-1.1",
    "Ubuntu-font-1.0",
    "Unicode-3.0",
    "Zlib",
];

/// The one registry that packages come from.
const REGISTRY: &str = "registry+https://github.com/rust-lang/crates.io-index";

/// Packages with a licence that is not allowed, or from elsewhere than the registry.
fn complaints(metadata: &Value) -> Vec<String> {
    let mut complaints = Vec::new();
    for package in list(metadata, "packages") {
        let name = format!("{} {}", text(package, "name"), text(package, "version"));
        let licence = text(package, "license");
        if !is_allowed(licence) {
            complaints.push(format!("{name}: licence {licence:?} is not in the list"));
        }
        // Our own crates have no source.
        let source = &package["source"];
        if !source.is_null() && source.as_str() != Some(REGISTRY) {
            complaints.push(format!(
                "{name}: comes from {source}, not from the registry"
            ));
        }
    }
    complaints
}

/// Whether the terms of an SPDX expression can be met with the allowed licences alone: one side
/// of each OR, both sides of each AND. What cannot be read is not allowed.
fn is_allowed(expression: &str) -> bool {
    // The slash is the old way to write OR.
    let spaced = expression
        .replace('(', " ( ")
        .replace(')', " ) ")
        .replace('/', " OR ");
    let mut words: Vec<&str> = spaced.split_whitespace().collect();
    // The last word is taken first.
    words.reverse();
    any_of(&mut words) == Some(true) && words.is_empty()
}

fn any_of(words: &mut Vec<&str>) -> Option<bool> {
    let mut met = all_of(words)?;
    while words.pop_if(|word| *word == "OR").is_some() {
        met |= all_of(words)?;
    }
    Some(met)
}

fn all_of(words: &mut Vec<&str>) -> Option<bool> {
    let mut met = one(words)?;
    while words.pop_if(|word| *word == "AND").is_some() {
        met &= one(words)?;
    }
    Some(met)
}

fn one(words: &mut Vec<&str>) -> Option<bool> {
    match words.pop()? {
        "(" => {
            let met = any_of(words)?;
            words.pop_if(|word| *word == ")").map(|_| met)
        }
        ")" | "OR" | "AND" | "WITH" => None,
        // An exception only ever permits more.
        licence => {
            if words.pop_if(|word| *word == "WITH").is_some() {
                words.pop()?;
            }
            Some(ALLOWED.contains(&licence))
        }
    }
}

#[test]
fn all_packages_have_allowed_licences_and_come_from_the_registry() -> Result<(), String> {
    let metadata = metadata::read()?;
    assert!(
        list(&metadata, "packages").len() > 1,
        "cargo named no package"
    );
    assert_eq!(complaints(&metadata), [""; 0]);
    Ok(())
}

#[test]
fn licence_expressions_are_weighed() {
    let cases = [
        ("MIT", true),
        ("MIT OR Apache-2.0", true),
        ("MIT/Apache-2.0", true),
        ("Unlicense OR MIT", true),
        ("(MIT OR Apache-2.0) AND Unicode-3.0", true),
        ("Apache-2.0 WITH LLVM-exception OR GPL-2.0-only", true),
        ("MPL-2.0 OR MIT AND GPL-3.0-only", false),
        ("Unlicense", false),
        ("MIT AND MPL-2.0", false),
        ("(MIT OR GPL-3.0-only) AND LGPL-3.0-only", false),
        ("GPL-2.0-only WITH Classpath-exception-2.0", false),
        ("", false),
        ("MIT OR", false),
        ("MIT MIT", false),
        ("(MIT", false),
        ("MIT)", false),
        ("OR MIT", false),
    ];
    for (expression, expected) in cases {
        assert_eq!(is_allowed(expression), expected, "{expression:?}");
    }
}

#[test]
fn a_wrong_package_is_found() {
    let metadata = serde_json::json!({ "packages": [
        { "name": "own", "version": "1.0.0", "license": "MIT", "source": null },
        { "name": "good", "version": "1.0.0", "license": "ISC", "source": REGISTRY },
        { "name": "closed", "version": "1.2.3", "license": null, "source": REGISTRY },
        { "name": "far", "version": "4.0.0", "license": "MIT", "source": "git+https://far" },
    ]});
    let expected = [
        "closed 1.2.3: licence \"\" is not in the list",
        "far 4.0.0: comes from \"git+https://far\", not from the registry",
    ];
    assert_eq!(complaints(&metadata), expected);
}
