//! When a drill that is played stands still, and for how long its page stays as it is.

use rackproof_panel::Way;

use super::Play;

/// What the clocks of the page tell while somebody plays, in µs.
const MINUTE: u64 = 60_000_000;

impl Play {
    /// Whether the drill's clock stands.
    pub fn stands_still(&self) -> bool {
        self.stands_still
    }

    /// Stops the drill's clock, or lets it run. In an exam it runs always.
    pub fn stand_still(&mut self, still: bool) {
        self.stands_still = still && self.way != Way::Exam;
    }

    /// Whether anything is to be seen that changes from picture to picture.
    pub fn moves(&self) -> bool {
        let machine = &self.attempt.state().world.machine;
        let acts = machine.moves() || machine.hold_left().0 > 0 || self.act.is_some();
        !self.stands_still && acts
    }

    /// How long the page stays as it is though the drill's time passes, in µs. The next thing that
    /// happens by itself ends it, and so does each minute of its two clocks. `None`: its time does
    /// not pass.
    pub fn stays_for(&self) -> Option<u64> {
        if self.stands_still || self.attempt.is_over() {
            return None;
        }
        let at = self.attempt.at();
        let minute = |clock: u64| MINUTE - clock % MINUTE;
        let card = self.next_step.holds_until().map(|to| to.saturating_sub(at));
        let card = card.filter(|_| self.way == Way::Guided);
        let clocks = [Some(minute(at)), Some(minute(self.line_down()))];
        let parts = clocks.into_iter().chain([self.attempt.until_event(), card]);
        parts.flatten().min()
    }
}
