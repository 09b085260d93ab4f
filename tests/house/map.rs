//! The map, `DEVELOPERS.md`, against the house: the tests and files that it names are there.

use std::collections::BTreeSet;

use crate::listing;

const MAP: &str = "DEVELOPERS.md";
/// The part of the map that names the tests which guard what is absent.
const GUARDED: &str = "## What is absent";

/// Endings of files that the map names by their path.
const ENDINGS: &[&str] = &[".rs", ".ron", ".ftl", ".md", ".txt", ".steps"];

/// What stands between backticks, with the number of its line.
fn quoted(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.lines().enumerate().flat_map(|(index, line)| {
        let odd = line.split('`').skip(1).step_by(2);
        odd.map(move |piece| (index + 1, piece))
    })
}

/// Tests that the map names as guards and that no source has. A test's name is a sentence: it has
/// two blanks at least.
fn unknown_tests(map: &str, sources: &BTreeSet<String>) -> Vec<String> {
    let Some(start) = map.find(GUARDED) else {
        return vec![format!("{MAP}: no part \"{GUARDED}\"")];
    };
    let lines_before = map[..start].lines().count();
    let part = &map[start..];
    let part = part[1..].find("\n## ").map_or(part, |end| &part[..end + 1]);
    let is_name = |piece: &str| {
        piece.matches('_').count() > 1
            && piece
                .chars()
                .all(|one| one.is_ascii_lowercase() || one.is_ascii_digit() || one == '_')
    };
    quoted(part)
        .filter(|(_, piece)| is_name(piece) && !sources.contains(*piece))
        .map(|(line, piece)| format!("{MAP}:{}: no test {piece}", lines_before + line))
        .collect()
}

/// A path without what goes without saying: that crates lie in `game`, and their sources in `src`.
fn short(path: &str) -> String {
    let path = path.strip_prefix("game/").unwrap_or(path);
    path.replace("/src/", "/")
}

/// Files that the map names and that are not there. A path may leave out its first folders.
fn unknown_files(map: &str, files: &[String]) -> Vec<String> {
    let files: Vec<String> = files.iter().map(|path| short(path)).collect();
    let is_path = |piece: &str| {
        ENDINGS.iter().any(|ending| piece.ends_with(ending))
            && !piece.starts_with('.')
            && !piece.contains([' ', '*', '…'])
            && !piece.contains("NAME")
    };
    let is_there = |piece: &str| {
        let piece = short(piece);
        let behind = format!("/{piece}");
        files
            .iter()
            .any(|path| *path == piece || path.ends_with(&behind))
    };
    quoted(map)
        .filter(|(_, piece)| is_path(piece) && !is_there(piece))
        .map(|(line, piece)| format!("{MAP}:{line}: no file {piece}"))
        .collect()
}

/// The names of all functions of a source.
fn functions(source: &str) -> impl Iterator<Item = String> {
    source.lines().filter_map(|line| {
        let (before, behind) = line.split_once("fn ")?;
        let is_item = before
            .split_whitespace()
            .all(|word| word.starts_with("pub") || word == "const");
        is_item.then(|| {
            behind
                .split(['(', '<'])
                .next()
                .unwrap_or_default()
                .to_owned()
        })
    })
}

#[test]
fn what_the_map_names_is_there() -> Result<(), String> {
    let files = listing::files()?;
    let map = listing::read(MAP)?.ok_or("the map is text")?;
    let mut sources = BTreeSet::new();
    for path in files.iter().filter(|path| path.ends_with(".rs")) {
        sources.extend(functions(&listing::read(path)?.unwrap_or_default()));
    }
    let mut found = unknown_tests(&map, &sources);
    found.extend(unknown_files(&map, &files));
    assert!(found.is_empty(), "\n{}", found.join("\n"));
    Ok(())
}

#[test]
fn a_name_that_nothing_has_is_found() {
    let map = "# Map\n`a_b_c`\n## What is absent\n| x | `is_not_there`, `is_there_too` |\n## More\n\
               `is_no_test` `buffer/lift.rs` `lift.rs` `buffer/gone.rs`\n";
    let sources = BTreeSet::from(["is_there_too".to_owned()]);
    assert_eq!(
        unknown_tests(map, &sources),
        ["DEVELOPERS.md:4: no test is_not_there"]
    );
    let files = ["game/buffer/src/lift.rs".to_owned()];
    assert_eq!(
        unknown_files(map, &files),
        ["DEVELOPERS.md:6: no file buffer/gone.rs"]
    );
    let names: Vec<String> =
        functions("fn one() {\n    pub(crate) fn two<T>()\n// a fn three\n").collect();
    assert_eq!(names, ["one", "two"]);
}
