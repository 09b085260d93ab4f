//! Who may know whom. A boundary that nobody checks will leak.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::Value;

use crate::metadata::{self, list, text};

/// What each room may depend on, tests included. A room is a crate without the house's name.
const ALLOWED: &[(&str, &[&str])] = &[
    ("model", &[]),
    ("alignment", &[]),
    ("files", &[]),
    ("words", &[]),
    ("prove", &["model"]),
    ("statistics", &[]),
    ("buffer", &["model"]),
    ("drill", &["buffer", "model", "files"]),
    ("grade", &["drill", "buffer", "model", "files", "alignment"]),
    ("attempt", &["grade", "drill", "buffer", "model", "files"]),
    (
        "library",
        &["phrases", "attempt", "drill", "buffer", "files"],
    ),
    (
        "phrases",
        &["attempt", "grade", "drill", "buffer", "files", "words"],
    ),
    (
        "panel",
        &[
            "phrases", "library", "attempt", "grade", "drill", "buffer", "model", "files", "words",
        ],
    ),
    (
        "stage",
        &[
            "library", "attempt", "grade", "drill", "buffer", "model", "files",
        ],
    ),
    (
        "window",
        &[
            "panel", "stage", "phrases", "library", "attempt", "grade", "drill", "buffer", "model",
            "files", "words",
        ],
    ),
    (
        "commands",
        &[
            "library", "phrases", "attempt", "grade", "prove", "drill", "buffer", "model", "files",
            "words",
        ],
    ),
    (PROGRAM, &["commands", "library", "window"]),
];

/// The root package: the program.
const PROGRAM: &str = "rackproof";

/// A package's room. The program is its own.
fn room(package: &str) -> &str {
    package.strip_prefix("rackproof-").unwrap_or(package)
}

/// The crates whose answers depend on their input alone.
pub(crate) const CORE: &[&str] = &["model", "buffer", "drill", "alignment", "grade", "prove"];

/// What the core must not reach, not even through others, and why. `bevy_*` is a whole family.
const BANNED: &[(&str, &str)] = &[
    ("bevy", ENGINE),
    ("bevy_*", ENGINE),
    ("eframe", ENGINE),
    ("egui", ENGINE),
    ("egui_*", ENGINE),
    ("wgpu", ENGINE),
    ("winit", ENGINE),
    ("async-std", THREADS),
    ("crossbeam*", THREADS),
    ("rayon", THREADS),
    ("rayon-core", THREADS),
    ("smol", THREADS),
    ("tokio", THREADS),
    ("chrono", CLOCK),
    ("humantime", CLOCK),
    ("instant", CLOCK),
    ("jiff", CLOCK),
    ("time", CLOCK),
    ("uuid", CLOCK),
    ("web-time", CLOCK),
    ("ahash", CHANCE),
    ("fastrand", CHANCE),
    ("getrandom", CHANCE),
    ("rand", CHANCE),
    ("memmap2", DISK),
    ("rusqlite", DISK),
    ("sqlx*", DISK),
    ("tempfile", DISK),
    ("walkdir", DISK),
];
const ENGINE: &str = "the core draws nothing";
const THREADS: &str = "the core does one thing at a time";
const CLOCK: &str = "time comes in from outside";
const CHANCE: &str = "the same journal must give the same bits";
const DISK: &str = "text comes in from outside";

/// One package that names another in its manifest.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Edge {
    from: String,
    to: String,
    /// Only for tests, examples and benchmarks.
    dev: bool,
}

impl Edge {
    fn new(from: &str, to: &str, dev: bool) -> Edge {
        Edge {
            from: from.to_owned(),
            to: to.to_owned(),
            dev,
        }
    }
}

/// The rooms of the house, sorted, and the edges between them, as the manifests have them.
fn house(metadata: &Value) -> (Vec<String>, Vec<Edge>) {
    let mut edges = Vec::new();
    let mut rooms = Vec::new();
    // What has no source is here, not in a registry.
    for package in list(metadata, "packages")
        .iter()
        .filter(|package| package["source"].is_null())
    {
        let from = room(text(package, "name"));
        rooms.push(from.to_owned());
        for dependency in list(package, "dependencies") {
            if dependency["source"].is_null() {
                let dev = text(dependency, "kind") == "dev";
                edges.push(Edge::new(from, room(text(dependency, "name")), dev));
            }
        }
    }
    rooms.sort();
    (rooms, edges)
}

/// Edges that the house does not allow. The tests of the whole program may look into any room.
fn wrong_edges(edges: &[Edge]) -> Vec<String> {
    let mut complaints = Vec::new();
    for Edge { from, to, dev } in edges {
        if from == PROGRAM && *dev {
            continue;
        }
        match ALLOWED.iter().find(|(name, _)| name == from) {
            None => complaints.push(format!("{from}: not in the table of this test")),
            Some((_, allowed)) if allowed.contains(&to.as_str()) => {}
            Some((_, allowed)) => {
                complaints.push(format!(
                    "{from} -> {to}: allowed are {}",
                    allowed.join(", ")
                ));
            }
        }
    }
    complaints
}

/// All edges that end up in the program (no tests, no build scripts), by package name.
fn normal_edges(metadata: &Value) -> Vec<Edge> {
    let names: BTreeMap<&str, &str> = list(metadata, "packages")
        .iter()
        .map(|package| (text(package, "id"), text(package, "name")))
        .collect();
    let name = |id: &str| names.get(id).copied().unwrap_or(id).to_owned();
    let mut edges = Vec::new();
    for node in list(&metadata["resolve"], "nodes") {
        for dependency in list(node, "deps") {
            if list(dependency, "dep_kinds")
                .iter()
                .any(|kind| kind["kind"].is_null())
            {
                let (from, to) = (name(text(node, "id")), name(text(dependency, "pkg")));
                edges.push(Edge {
                    from,
                    to,
                    dev: false,
                });
            }
        }
    }
    edges
}

/// Banned packages that a crate of the core reaches, with the way to each.
fn banned_in_core(edges: &[Edge]) -> Vec<String> {
    let mut complaints = Vec::new();
    for room in CORE {
        let start = format!("rackproof-{room}");
        let mut seen = BTreeSet::from([start.clone()]);
        let mut waiting = vec![vec![start]];
        while let Some(way) = waiting.pop() {
            for edge in edges.iter().filter(|edge| way.last() == Some(&edge.from)) {
                if !seen.insert(edge.to.clone()) {
                    continue;
                }
                let mut longer = way.clone();
                longer.push(edge.to.clone());
                if let Some(reason) = banned(&edge.to) {
                    complaints.push(format!("{}: {reason}", longer.join(" -> ")));
                }
                waiting.push(longer);
            }
        }
    }
    complaints
}

/// Why a package is banned from the core, if it is.
fn banned(name: &str) -> Option<&'static str> {
    let is_meant = |pattern: &str| match pattern.strip_suffix('*') {
        Some(family) => name.starts_with(family),
        None => name == pattern,
    };
    BANNED
        .iter()
        .find(|(pattern, _)| is_meant(pattern))
        .map(|(_, reason)| *reason)
}

#[test]
fn rooms_know_only_whom_they_may_know() -> Result<(), String> {
    let (rooms, edges) = house(&metadata::read()?);
    assert_eq!(wrong_edges(&edges), [""; 0]);
    let mut in_table: Vec<&str> = ALLOWED.iter().map(|(room, _)| *room).collect();
    in_table.sort_unstable();
    assert_eq!(
        in_table, rooms,
        "the table (left) and the workspace (right) differ"
    );
    Ok(())
}

#[test]
fn the_core_reaches_no_clock_no_chance_no_disk_and_no_engine() -> Result<(), String> {
    let edges = normal_edges(&metadata::read()?);
    assert!(!edges.is_empty(), "cargo named no dependency at all");
    assert_eq!(banned_in_core(&edges), [""; 0]);
    Ok(())
}

#[test]
fn a_wrong_edge_is_found() {
    let cases: &[(&str, &str, bool, &str)] = &[
        ("grade", "drill", false, ""),
        (PROGRAM, "grade", true, ""),
        (
            PROGRAM,
            "grade",
            false,
            "rackproof -> grade: allowed are commands, library, window",
        ),
        (
            "drill",
            "grade",
            false,
            "drill -> grade: allowed are buffer, model, files",
        ),
        (
            "prove",
            "buffer",
            false,
            "prove -> buffer: allowed are model",
        ),
        ("prove", "drill", true, "prove -> drill: allowed are model"),
        ("model", "words", false, "model -> words: allowed are "),
        (
            "attempt",
            "commands",
            false,
            "attempt -> commands: allowed are grade, drill, buffer, ",
        ),
        (
            "grade",
            "attempt",
            false,
            "grade -> attempt: allowed are drill, buffer, model, files, alignment",
        ),
        (
            "cellar",
            "model",
            false,
            "cellar: not in the table of this test",
        ),
    ];
    for (from, to, dev, expected) in cases {
        let found = wrong_edges(&[Edge::new(from, to, *dev)]).join("; ");
        let is_as_expected = found.is_empty() == expected.is_empty() && found.starts_with(expected);
        assert!(
            is_as_expected,
            "{from} -> {to}: expected {expected:?}, found {found:?}"
        );
    }
}

#[test]
fn a_banned_package_is_found_through_others() {
    let edges = [
        Edge::new("rackproof-drill", "ron", false),
        Edge::new("ron", "helper", false),
        Edge::new("helper", "ron", false),
        Edge::new("helper", "bevy_ecs", false),
        Edge::new("rackproof-prove", "getrandom", false),
        Edge::new("rackproof-attempt", "jiff", false),
        Edge::new("rackproof-grade", "timely", false),
    ];
    let expected = [
        "rackproof-drill -> ron -> helper -> bevy_ecs: the core draws nothing",
        "rackproof-prove -> getrandom: the same journal must give the same bits",
    ];
    assert_eq!(banned_in_core(&edges), expected);
}
