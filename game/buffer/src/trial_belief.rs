//! What the controller believes changes only by what it could know: buttons, its own steps, its
//! beams, switches and contacts. What changes in truth alone leaves belief as it was.

use crate::{Alarm, Outcome, Phase, Scope, Setting, State, deeds::Deed, trial::Trial};

/// What happens in truth alone.
fn is_hidden(outcome: &Outcome) -> bool {
    matches!(
        outcome,
        Outcome::MotorHummed | Outcome::BrakeTicked | Outcome::LiftSank | Outcome::Harmed(_)
    )
}

/// The slots that the controller takes to be full or unknown, its reference, its count of the
/// rails' steps, and what it is about.
type Belief = (
    crate::SlotMap,
    bool,
    Option<i32>,
    (crate::UnitState, Phase, u8),
);

impl Trial {
    fn belief(&self, s: &State) -> Belief {
        let resting = s.rails.is_rest();
        let count = s.width_by_count(&self.machine).filter(|_| resting);
        (
            s.map,
            s.referenced,
            count.map(|count| count.0),
            (s.unit, s.phase, s.slot),
        )
    }

    pub(crate) fn check_belief(&self, before: &State, heard: &[Outcome], deed: Option<Deed>) {
        let [was, is] = [before, &self.state].map(|s| self.belief(s));
        // A fault that comes tells the controller nothing, but where a drive says so itself.
        let fault = matches!(deed, Some(Deed::Fault(_)));
        let told = heard.iter().any(|outcome| !is_hidden(outcome));
        // What the sweep, or the beam behind the outfeed mouth, does not see is not published.
        let looks = matches!(before.phase, Phase::Sweeping | Phase::RunningPast);
        if !told && (fault || deed.is_none()) && !looks {
            assert_eq!(was, is, "belief changed by {deed:?} {heard:?}");
        }
        let heard_of = |wanted: &dyn Fn(&Outcome) -> bool| heard.iter().any(wanted);
        if was.0.full != is.0.full {
            let known = heard_of(&|outcome| {
                matches!(
                    outcome,
                    Outcome::BoardStored(_)
                        | Outcome::BoardSent(_)
                        | Outcome::SweepSaw(_)
                        | Outcome::DeclaredEmpty
                        | Outcome::TaskChanged(_)
                )
            });
            assert!(known, "the slot map changed by {deed:?} {heard:?}");
        }
        if !was.1 && is.1 {
            assert!(heard.contains(&Outcome::ReferenceFound));
        }
        if was.1 && !is.1 {
            assert!(heard.contains(&Outcome::ReferenceLost));
        }
        if is.2.is_some() && was.2 != is.2 && before.rails.is_rest() == self.state.rails.is_rest() {
            assert!(
                heard.contains(&Outcome::WidthReached),
                "the count of steps changed by {deed:?} {heard:?}"
            );
        }
        // What is typed or saved moves the rails' target by nothing: what is loaded does.
        let [was, is] = [before, &self.state].map(|s| self.machine.wanted_width(s));
        if was != is {
            let per_machine = self.machine.parts.service.side_play_scope == Scope::Machine;
            let known = heard_of(&|outcome| match outcome {
                Outcome::ProductLoaded(_) => true,
                Outcome::SettingChanged(Setting::SidePlay(_)) => per_machine,
                _ => false,
            });
            assert!(known, "the rails' target changed by {deed:?} {heard:?}");
        }
        // By its count the controller is always where it sent the rails.
        if heard.contains(&Outcome::WidthReached) {
            let s = &self.state;
            assert!(self.machine.width_is_wanted(s) || !s.width_known, "{s:?}");
        }
        let missed = heard.contains(&Outcome::Alarmed(Alarm::RailsNoZero));
        assert!(!missed || !self.state.width_known, "a width from no zero");
    }
}
