//! The files that are shipped, and the texts that they ask for by the names in them.

use std::fs;
use std::path::{Path, PathBuf};

use rackproof_buffer::Machine;
use rackproof_drill::{Drill, Hall, World, file};
use rackproof_files::{Kind, Problems, Value, read, render_plain};
use rackproof_library::is_proof;

const ROOT: &str = env!("CARGO_MANIFEST_DIR");

/// All files below a folder of the house with this ending, sorted.
pub(crate) fn files(folder: &str, ending: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut waiting = vec![Path::new(ROOT).join(folder)];
    while let Some(folder) = waiting.pop() {
        for entry in fs::read_dir(&folder).expect("the folder is there") {
            let path = entry.expect("it can be read").path();
            if path.is_dir() {
                waiting.push(path);
            } else if path.extension().is_some_and(|found| found == ending) {
                found.push(path);
            }
        }
    }
    found.sort();
    assert!(!found.is_empty(), "no .{ending} in {folder}");
    found
}

pub(crate) fn text(path: &Path) -> String {
    fs::read_to_string(path).expect("it can be read")
}

/// The English locale files: name and text.
pub(crate) fn locale_files() -> Vec<(String, String)> {
    let name = |path: &Path| {
        path.file_name()
            .expect("it has one")
            .to_string_lossy()
            .into_owned()
    };
    files("assets/locales/en", "ftl")
        .iter()
        .map(|path| (name(path), text(path)))
        .collect()
}

/// A machine of the house by its name.
pub(crate) fn machine(name: &str) -> (Machine, Hall) {
    let text = text(&Path::new(ROOT).join(format!("assets/machines/{name}.ron")));
    let problems = Problems::new();
    let machine = file::read_machine(problems.for_file(name, &text));
    no_problem(&problems);
    machine.expect("it has no problem")
}

/// All drills that are shipped, each with its machine.
pub(crate) fn drills() -> Vec<(Drill, (Machine, Hall))> {
    files("scenarios", "ron")
        .iter()
        .filter(|path| !is_proof(path))
        .map(|path| drill(&text(path)))
        .collect()
}

fn drill(text: &str) -> (Drill, (Machine, Hall)) {
    let name = first_text(&value(text), "machine").expect("a drill names its machine");
    let machine = machine(&name);
    let problems = Problems::new();
    let drill = file::read_drill(problems.for_file("drill", text), |_| Ok(&machine));
    no_problem(&problems);
    (drill.expect("it has no problem"), machine)
}

/// The worlds of all drills that are shipped, one a variant.
pub(crate) fn worlds() -> Vec<World> {
    let mut worlds = Vec::new();
    for (drill, (machine, hall)) in drills() {
        for variant in 0..drill.variants.len() {
            worlds.push(World::new(
                machine.clone(),
                hall.clone(),
                drill.clone(),
                variant,
            ));
        }
    }
    worlds
}

/// The ids of all texts that the shipped files ask for.
pub(crate) fn ids() -> Vec<String> {
    let mut ids = Vec::new();
    for path in files("assets/rules", "ron") {
        ids.extend(rule_ids(&value(&text(&path))));
    }
    for path in files("assets/procedures", "ron") {
        ids.extend(procedure_ids(&value(&text(&path))));
    }
    for (drill, _) in drills() {
        ids.extend(drill_ids(&drill));
    }
    ids
}

fn rule_ids(rules: &Value) -> Vec<String> {
    let each = named(rules, "rules");
    let texts = |name: &String| ["", "-reason", "-right"].map(|part| format!("rule-{name}{part}"));
    each.iter().flat_map(texts).collect()
}

fn procedure_ids(procedure: &Value) -> Vec<String> {
    let steps = named(procedure, "steps");
    let texts = |name: &String| ["", "-why"].map(|part| format!("step-{name}{part}"));
    let mut ids: Vec<String> = steps.iter().flat_map(texts).collect();
    for done in list(procedure, "done") {
        let name = first_text(done, "step").expect("each has a name");
        for id in texts(&name) {
            if !ids.contains(&id) {
                ids.push(id);
            }
        }
    }
    for way in list(procedure, "ways") {
        if let Kind::Text(name) = &way.kind {
            ids.push(format!("way-{name}"));
        }
    }
    ids
}

fn drill_ids(drill: &Drill) -> Vec<String> {
    let parts = ["", "-task", "-cautions", "-debrief"];
    let mut ids: Vec<String> = parts.map(|part| format!("drill-{}{part}", drill.id)).into();
    for trap in &drill.traps {
        ids.extend(["", "-debrief"].map(|part| format!("trap-{}{part}", trap.id)));
    }
    ids.extend(
        drill
            .milestones
            .iter()
            .map(|(name, _)| format!("milestone-{name}")),
    );
    ids
}

fn value(text: &str) -> Value {
    let problems = Problems::new();
    let value = read(problems.for_file("shipped", text));
    no_problem(&problems);
    value.expect("it has no problem")
}

fn no_problem(problems: &Problems) {
    let plain = |problem| render_plain(problem, &|id, arguments| format!("{id} {arguments:?}"));
    let found: Vec<String> = problems.sorted().iter().map(plain).collect();
    assert!(found.is_empty(), "{found:#?}");
}

fn field<'v>(record: &'v Value, name: &str) -> Option<&'v Value> {
    let Kind::Record(record) = &record.kind else {
        return None;
    };
    record
        .fields
        .iter()
        .find(|field| field.name == name)
        .map(|field| &field.value)
}

fn first_text(record: &Value, name: &str) -> Option<String> {
    match &field(record, name)?.kind {
        Kind::Text(text) => Some(text.clone()),
        _ => None,
    }
}

fn list<'v>(record: &'v Value, name: &str) -> &'v [Value] {
    match field(record, name).map(|value| &value.kind) {
        Some(Kind::List(list)) => list,
        _ => panic!("there is no list {name}"),
    }
}

/// The names of the records in a list.
fn named(record: &Value, name: &str) -> Vec<String> {
    let names: Vec<String> = list(record, name)
        .iter()
        .map(|one| first_text(one, "name").expect("each has a name"))
        .collect();
    assert!(!names.is_empty(), "{name} is empty");
    names
}

#[test]
fn the_names_in_files_become_ids() {
    let rules = value(r#"Rules(rules: [Rule(name: "a"), Rule(name: "b")])"#);
    let expected = [
        "rule-a",
        "rule-a-reason",
        "rule-a-right",
        "rule-b",
        "rule-b-reason",
        "rule-b-right",
    ];
    assert_eq!(rule_ids(&rules), expected);
    let text = r#"Procedure(
        ways: ["c"], steps: [Step(name: "d")], done: [Done(step: "e"), Done(step: "d")],
    )"#;
    let expected = ["step-d", "step-d-why", "step-e", "step-e-why", "way-c"];
    assert_eq!(procedure_ids(&value(text)), expected);
}
