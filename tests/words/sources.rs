//! Ids in the sources and in the locale files.

use std::path::Path;

use crate::shipped;

/// What begins the id of a message about a file.
const PROBLEM_PREFIXES: &[&str] = &["problem-", "expected-", "hint-", "label-"];

/// All texts in quotes that could be an id, in the sources of the program without its tests.
pub(crate) fn literals() -> Vec<String> {
    shipped::files("game", "rs")
        .iter()
        .filter(|path| !is_test(path))
        .flat_map(|path| literals_of(&shipped::text(path)))
        .collect()
}

pub(crate) fn is_of_a_problem(id: &str) -> bool {
    PROBLEM_PREFIXES.iter().any(|prefix| id.starts_with(prefix))
}

fn is_test(path: &Path) -> bool {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    stem == "tests" || stem.ends_with("_tests")
}

fn literals_of(source: &str) -> Vec<String> {
    let program = source
        .split("#[cfg(test)]\nmod tests {")
        .next()
        .unwrap_or_default();
    let code = program
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"));
    code.flat_map(|line| line.split('"').skip(1).step_by(2))
        .filter(|text| is_id(text))
        .map(str::to_owned)
        .collect()
}

fn is_id(text: &str) -> bool {
    let plain = |letter: char| letter.is_ascii_lowercase() || letter.is_ascii_digit();
    text.starts_with(|first: char| first.is_ascii_lowercase())
        && text.chars().all(|letter| plain(letter) || letter == '-')
}

/// The messages that a locale file declares.
pub(crate) fn declared(text: &str) -> Vec<String> {
    text.lines()
        .filter(|line| line.starts_with(|first: char| first.is_ascii_lowercase()))
        .filter_map(|line| line.split_once(" ="))
        .map(|(id, _)| id.to_owned())
        .collect()
}

/// The messages that stand inside others of a locale file: `{ id }`.
pub(crate) fn contained(text: &str) -> Vec<String> {
    text.split('{')
        .skip(1)
        .filter_map(|rest| rest.split('}').next())
        .map(str::trim)
        .filter(|name| is_id(name))
        .map(str::to_owned)
        .collect()
}

#[test]
fn ids_are_found_in_sources_and_locale_files() {
    let source = "// \"not-this\"\nadd(\"problem-a\", &[(\"name\", x)], \"Not An Id\",\n\
                  \"hint-b\");\n\
                  #[cfg(test)]\nmod tests {\n    \"problem-test\"\n}\n";
    assert_eq!(literals_of(source), ["problem-a", "name", "hint-b"]);
    assert!(is_of_a_problem("hint-b") && !is_of_a_problem("step-wait"));
    let locale = "# c = x\na-b = One { $slot } { c-d } { $n ->\n    [one] x\n}\nc-d = Two\n";
    assert_eq!(declared(locale), ["a-b", "c-d"]);
    assert_eq!(contained(locale), ["c-d"]);
    assert!(is_test(Path::new("x/world_tests.rs")) && !is_test(Path::new("x/world.rs")));
}
