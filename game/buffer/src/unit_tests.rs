//! The tables of all editions against what others published, and a unit that answers every command.

use std::collections::BTreeSet;

use super::*;

/// The 46 transitions that every edition has, as (from, command, to); SC = its own work done.
/// Source: the drawing of 2015 as `packmlpy` 1.0.0 (PyPI) has it; OPC 30050 v1.01 holds them all.
const SHARED: &str = include_str!("../../../tests/outside/unit-states-packmlpy.txt");
/// What else OPC 30050 v1.01 (node set of 2020-10) has.
const OPC_MORE: [&str; 6] = [
    "Starting Hold Holding",
    "Suspending Hold Holding",
    "Suspended Hold Holding",
    "Unsuspending Hold Holding",
    "Unholding Hold Holding",
    "Execute Complete Completing",
];
/// What else the edition of 2022 has, by the defaults of an open library that follows it; the paid
/// text was not read.
const LATEST_MORE: [&str; 4] = [
    "Suspended Hold Holding",
    "Execute Complete Completing",
    "Suspended Complete Completing",
    "Held Complete Completing",
];

fn ours(edition: Edition) -> BTreeSet<String> {
    let mut rows = BTreeSet::new();
    for state in UnitState::ALL {
        for command in Command::ALL {
            if let Some(to) = edition.after(state, command) {
                rows.insert(format!("{state:?} {command:?} {to:?}"));
            }
        }
        if let Some(to) = state.when_done() {
            rows.insert(format!("{state:?} SC {to:?}"));
        }
    }
    rows
}

#[test]
fn each_edition_has_just_its_transitions() {
    let editions: [(Edition, &[&str], usize); 3] = [
        (Edition::Shared46, &[], 46),
        (Edition::Opc52, &OPC_MORE, 52),
        (Edition::Edition2022, &LATEST_MORE, 50),
    ];
    for (edition, more, count) in editions {
        let shared = SHARED.lines().filter(|line| !line.starts_with('#'));
        let theirs: BTreeSet<String> = shared
            .chain(more.iter().copied())
            .map(str::to_owned)
            .collect();
        assert_eq!(theirs.len(), count, "{edition:?}");
        assert_eq!(ours(edition), theirs, "{edition:?}");
    }
}

#[test]
fn a_state_comes_back_from_its_number() {
    for state in UnitState::ALL {
        assert_eq!(UnitState::from_number(state as u8), state);
    }
    for (at, command) in Command::ALL.into_iter().enumerate() {
        assert_eq!(command as usize, at + 1, "{command:?}");
    }
}
