//! The first drill as shipped, for tests.

use rackproof_files::{Problems, render_plain};

use crate::{Exercise, Material, Text};

pub(crate) const BY_HAND: &str = include_str!("../../../tests/journals/left-inside/by-hand.ron");

pub(crate) fn material() -> Material {
    let text = |file: &str, text: &str| Text {
        file: file.to_owned(),
        text: text.to_owned(),
    };
    Material {
        machine: text(
            "alder-16.ron",
            include_str!("../../../assets/machines/alder-16.ron"),
        ),
        drill: text(
            "left-inside.ron",
            include_str!("../../../scenarios/changeover/left-inside.ron"),
        ),
        rules: text(
            "changeover.ron",
            include_str!("../../../assets/rules/changeover.ron"),
        ),
        procedure: text(
            "changeover.ron",
            include_str!("../../../assets/procedures/changeover.ron"),
        ),
    }
}

pub(crate) fn plain(problems: &Problems) -> Vec<String> {
    let say = |id: &str, arguments: &[(&'static str, String)]| format!("{id} {arguments:?}");
    problems
        .sorted()
        .iter()
        .map(|problem| render_plain(problem, &say))
        .collect()
}

pub(crate) fn exercise() -> Exercise {
    let problems = Problems::new();
    let material = material();
    let exercise = material.read(&problems);
    assert_eq!(plain(&problems), [""; 0]);
    exercise.expect("it has no problem")
}
