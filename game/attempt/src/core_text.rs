//! What counts in the sources of the core. The build script makes one hash of it: a proof that was
//! made with another core says nothing about this one.
//!
//! Comments, blank lines and what is only for tests are left out: they change nothing that a proof
//! rests on. A comment behind code counts if there is a quotation mark on its line: where code
//! ends is then not plain, and one proof too many is better than one too few.

/// What marks an item that is only for tests.
const FOR_TESTS: &str = "#[cfg(test)]";

/// One file of the core: its path with `/` between its parts, and its text.
pub(crate) type Source = (String, String);

/// All that counts, file by file, in the order of their paths.
pub(crate) fn counting(files: &[Source]) -> String {
    let left_out: Vec<String> = files
        .iter()
        .flat_map(|(path, text)| modules_for_tests(path, text))
        .collect();
    let mut counted: Vec<&Source> = files
        .iter()
        .filter(|(path, _)| !left_out.contains(path))
        .collect();
    counted.sort();
    let mut out = String::new();
    for (path, text) in counted {
        out.push_str(path);
        out.push('\n');
        for line in lines(text) {
            out.push_str(line);
            out.push('\n');
        }
    }
    out
}

/// The lines of one file that count. Where lines end is the same on every system.
fn lines(text: &str) -> Vec<&str> {
    let end = module_of_tests(text).unwrap_or(text.len());
    let code = text[..end]
        .lines()
        .map(|line| match line.find("//") {
            Some(at) if !line.contains('"') || line[..at].trim().is_empty() => line[..at].trim(),
            _ => line.trim(),
        })
        .filter(|line| !line.is_empty());
    let mut found: Vec<&str> = Vec::new();
    // Where the marks of the next item begin, if one of them is that it is only for tests.
    let mut marked = None;
    for line in code {
        if line == FOR_TESTS {
            marked = marked.or(Some(found.len()));
        } else if !line.starts_with("#[") {
            // That there is such a file counts no more than the file does.
            let is_module = line.starts_with("mod ") && line.ends_with(';');
            if let Some(begins) = marked.take().filter(|_| is_module) {
                found.truncate(begins);
                continue;
            }
        }
        found.push(line);
    }
    found
}

/// Where the module of tests begins that ends a file, by the habit of the house.
fn module_of_tests(text: &str) -> Option<usize> {
    let opens = |(at, mark): &(usize, &str)| {
        let next = text[at + mark.len()..].lines().nth(1);
        next == Some("mod tests {")
    };
    text.match_indices(FOR_TESTS).find(opens).map(|(at, _)| at)
}

/// The files of modules that a file declares for tests only.
fn modules_for_tests(path: &str, text: &str) -> Vec<String> {
    let (folder, name) = path.rsplit_once('/').unwrap_or(("", path));
    let stem = name.trim_end_matches(".rs");
    let inside = match stem {
        "lib" | "mod" => folder.to_owned(),
        _ => format!("{folder}/{stem}"),
    };
    let mut found = Vec::new();
    let (mut marked, mut named) = (false, None);
    for line in text.lines().map(str::trim) {
        if line == FOR_TESTS {
            (marked, named) = (true, None);
        } else if let Some(name) = line.strip_prefix("#[path = \"") {
            named = name.strip_suffix("\"]");
        } else if !line.starts_with("#[") {
            let module = line.strip_prefix("mod ");
            if let (true, Some(module)) = (marked, module.and_then(|rest| rest.strip_suffix(';'))) {
                found.push(match named {
                    Some(name) => format!("{folder}/{name}"),
                    None => format!("{inside}/{module}.rs"),
                });
            }
            (marked, named) = (false, None);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(path: &str, text: &str) -> Source {
        (path.to_owned(), text.to_owned())
    }

    const PLAIN: &str = "fn speed() -> u32 {\n    200\n}\n";

    #[test]
    fn what_changes_nothing_does_not_count_and_what_does_counts() {
        let plain = counting(&[file("a/src/lib.rs", PLAIN)]);
        let alike = [
            "// Why.\n\nfn speed() -> u32 {\n        200\n}\n",
            "//! What.\n/// Of the lift.\nfn speed() -> u32 { // mm/s\n    200\n\n}\n",
            "fn speed() -> u32 {\r\n    200\r\n}\r\n",
            "fn speed() -> u32 {\n    200\n}\n\n#[cfg(test)]\nmod tests {\n    use x;\n}\n",
            "fn speed() -> u32 {\r\n    200\r\n}\r\n#[cfg(test)]\r\nmod tests {\r\n}\r\n",
            "#[cfg(test)]\nmod one;\n#[cfg(test)]\n#[path = \"o.rs\"]\nmod other;\n\
             fn speed() -> u32 {\n    200\n}\n",
        ];
        for text in alike {
            assert_eq!(counting(&[file("a/src/lib.rs", text)]), plain, "{text}");
        }
        let others = [
            file("a/src/lib.rs", "fn speed() -> u32 {\n    201\n}\n"),
            file("a/src/lib.rs", "fn speed() -> u32 {\n    20 0\n}\n"),
            file("b/src/lib.rs", PLAIN),
            file(
                "a/src/lib.rs",
                &format!("{PLAIN}const A: &str = \"//1\";\n"),
            ),
            file("a/src/lib.rs", &format!("mod one;\n{PLAIN}")),
            file("a/src/lib.rs", &format!("#[cfg(test)]\nuse one;\n{PLAIN}")),
            file(
                "a/src/lib.rs",
                &format!("#[cfg(test)]\nmod one;\nmod two;\n{PLAIN}"),
            ),
        ];
        let mut found: Vec<String> = others
            .iter()
            .map(|one| counting(std::slice::from_ref(one)))
            .collect();
        found.push(counting(&[file(
            "a/src/lib.rs",
            &format!("{PLAIN}const A: &str = \"//2\";\n"),
        )]));
        found.push(plain);
        found.sort();
        found.dedup();
        assert_eq!(found.len(), others.len() + 2);
    }

    #[test]
    fn files_that_are_only_for_tests_are_left_out() {
        let lib = "mod a;\n#[cfg(test)]\nmod sample;\n#[cfg(test)]\nuse x::Y;\nmod kept;\n";
        let a = "#[cfg(test)]\n#[path = \"a_tests.rs\"]\nmod tests;\n#[cfg(test)]\nmod deep;\n";
        let named = |path: &str| file(path, "fn f() {}\n");
        let files = [
            file("x/src/lib.rs", lib),
            file("x/src/a.rs", a),
            named("x/src/sample.rs"),
            named("x/src/kept.rs"),
            named("x/src/a_tests.rs"),
            named("x/src/a/deep.rs"),
            named("x/src/deep.rs"),
        ];
        let counted = counting(&files);
        for (path, counts) in [
            ("x/src/sample.rs", false),
            ("x/src/kept.rs", true),
            ("x/src/a_tests.rs", false),
            ("x/src/a/deep.rs", false),
            ("x/src/deep.rs", true),
        ] {
            assert_eq!(counted.contains(path), counts, "{path}");
        }
    }
}
