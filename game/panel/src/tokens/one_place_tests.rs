//! Colours are named here and nowhere else in this crate; faces in `fonts` alone.

use std::fs;
use std::path::{Path, PathBuf};

/// What makes a colour or a face, put together here so that this file does not trip on itself,
/// with where it may stand.
const MAKERS: [(&str, &str); 6] = [
    (concat!("Color32", "::"), "tokens"),
    (concat!("Rgba", "::"), "tokens"),
    (concat!("Hsva", "::"), "tokens"),
    (concat!("FontId", "::"), "fonts"),
    (concat!("FontFamily", "::"), "fonts"),
    (concat!(".monos", "pace("), "fonts"),
];

/// What is made out of its place in one file.
fn complaints(path: &str, text: &str) -> Vec<String> {
    let room = path.split(['/', '.']).next().unwrap_or_default();
    let lines = text.lines().enumerate();
    let found = lines.flat_map(|(index, line)| {
        MAKERS
            .iter()
            .filter(move |(maker, home)| line.contains(maker) && room != *home)
            .map(move |(maker, home)| format!("{path}:{}: {maker} belongs to {home}", index + 1))
    });
    found.collect()
}

fn files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files(&path, found);
        } else {
            found.push(path);
        }
    }
}

#[test]
fn colours_and_faces_come_from_one_place() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut all = Vec::new();
    files(&root, &mut all);
    assert!(all.len() > 10, "{all:?}");
    let found: Vec<String> = all
        .iter()
        .flat_map(|path| {
            let text = fs::read_to_string(path).unwrap();
            let short = path.strip_prefix(&root).unwrap().display().to_string();
            complaints(&short, &text)
        })
        .collect();
    assert!(found.is_empty(), "\n{}", found.join("\n"));
}

#[test]
fn a_colour_out_of_its_place_is_found() {
    let line = concat!("let red = Color32", "::from_rgb(255, 0, 0);");
    assert_eq!(complaints("tokens/x.rs", line), [""; 0]);
    assert_eq!(complaints("marks/signs.rs", line).len(), 1);
}
