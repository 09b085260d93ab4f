//! Each unit state has its own picture.

use std::collections::BTreeMap;

use egui::{Pos2, Vec2};

use super::*;
use crate::fonts;

const STATES: [UnitState; 17] = [
    UnitState::Clearing,
    UnitState::Stopped,
    UnitState::Starting,
    UnitState::Idle,
    UnitState::Suspended,
    UnitState::Execute,
    UnitState::Stopping,
    UnitState::Aborting,
    UnitState::Aborted,
    UnitState::Holding,
    UnitState::Held,
    UnitState::Unholding,
    UnitState::Suspending,
    UnitState::Unsuspending,
    UnitState::Resetting,
    UnitState::Completing,
    UnitState::Complete,
];

/// What is painted for a state, as text.
fn drawn(state: Option<UnitState>) -> String {
    let ctx = egui::Context::default();
    let mut shapes = String::new();
    for _ in 0..2 {
        let rect = Rect::from_min_size(Pos2::new(10.0, 10.0), Vec2::splat(36.0));
        let mut output = ctx.run_ui(egui::RawInput::default(), |ui| {
            if fonts::ready(ui.ctx()) {
                unit_state(ui.painter(), rect, state, Inks::WINDOW);
            }
        });
        output.textures_delta.clear();
        shapes = format!("{:?}", output.shapes);
    }
    shapes
}

#[test]
fn each_state_has_its_own_picture() {
    let mut seen: BTreeMap<String, Option<UnitState>> = BTreeMap::new();
    let states = STATES.into_iter().map(Some).chain([None]);
    for state in states {
        let picture = drawn(state);
        assert_ne!(picture, "[]", "{state:?} is blank");
        let other = seen.insert(picture, state);
        // Both run back to Execute, which is what a person needs to know; their names differ.
        let alike = [Some(UnitState::Unholding), Some(UnitState::Unsuspending)];
        let both_go_back = alike.contains(&state) && other.is_some_and(|was| alike.contains(&was));
        assert!(
            other.is_none() || both_go_back,
            "{state:?} looks like {other:?}"
        );
    }
}

#[test]
fn what_is_on_its_way_is_the_goal_with_dots() {
    for state in STATES {
        let name = format!("{state:?}");
        let (_, under_way) = glyph(Some(state));
        let own = [
            UnitState::Starting,
            UnitState::Clearing,
            UnitState::Resetting,
        ];
        assert_eq!(
            under_way,
            name.ends_with("ing") && !own.contains(&state),
            "{name}"
        );
    }
}
