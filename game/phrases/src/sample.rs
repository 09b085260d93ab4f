//! Journals of the first drill, played, for tests.

use rackproof_attempt::{Attempt, Exercise, Journal, Material, Text};
use rackproof_files::Problems;

/// Nobody whom this crate may know reads files, so that they are named here.
fn material() -> Material {
    let [machine, drill, rules, procedure] = [
        include_str!("../../../assets/machines/alder-16.ron"),
        include_str!("../../../scenarios/changeover/left-inside.ron"),
        include_str!("../../../assets/rules/changeover.ron"),
        include_str!("../../../assets/procedures/changeover.ron"),
    ]
    .map(|text| Text {
        file: String::new(),
        text: text.to_owned(),
    });
    Material {
        machine,
        drill,
        rules,
        procedure,
    }
}

/// A journal, played to its end.
pub(crate) fn played(journal: &str) -> (Attempt, Exercise) {
    let problems = Problems::new();
    let exercise = material().read(&problems).expect("it has no problem");
    let report = problems.for_file("journal", journal);
    let journal = Journal::read(report, &exercise).expect("it has no problem");
    let judged = exercise
        .judged(journal.variant)
        .expect("it has this variant");
    let mut attempt = Attempt::new(judged);
    assert!(journal.run(&mut attempt, report, &mut |_| true));
    (attempt, exercise)
}
