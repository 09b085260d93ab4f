//! Changeovers where makers differ.

use crate::{AxisName, Mode, Outcome, Refusal, UnitState, plant::Plant, sample};

#[test]
fn after_a_changeover_the_machine_waits_or_runs_by_itself() {
    for runs in [false, true] {
        let mut plant = Plant::of(|parts| {
            parts.behaviours.rails_asked = false;
            parts.behaviours.runs_after_changeover = runs;
        });
        plant.change_over(sample::KESTREL);
        let then = (plant.state.unit(), plant.state.mode());
        let expected = if runs {
            (UnitState::Execute, Mode::Production)
        } else {
            (UnitState::Complete, Mode::Changeover)
        };
        assert_eq!(then, expected);
        assert_eq!(plant.state.machine_ready(), runs);
    }
}

#[test]
fn a_changeover_with_nothing_changed_runs_the_whole_cycle_or_nothing() {
    for whole in [false, true] {
        let mut plant = Plant::of(|parts| {
            parts.behaviours.rails_asked = false;
            parts.behaviours.whole_cycle_if_same = whole;
        });
        plant.change_over(sample::WREN);
        let moved = plant.heard.contains(&Outcome::Started(AxisName::Rails));
        let refused = plant.heard.contains(&Outcome::Refused(Refusal::NoTask));
        assert_eq!((moved, refused), (whole, !whole));
    }
}
