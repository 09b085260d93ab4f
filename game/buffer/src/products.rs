//! Products: edited, saved and loaded are three different things. What is typed is nobody's until
//! it is saved; what is saved moves nothing until it is loaded and Start is pressed.

use rackproof_model::Micrometres;

use crate::{
    Hear, Machine, Mode, Outcome, Refusal, Scope, State, Task, UnitState, panel::set_task,
};

impl Machine {
    pub(crate) fn choose(
        &self,
        s: &mut State,
        product: u8,
        hear: &mut Hear,
    ) -> Result<(), Refusal> {
        if product as usize >= self.parts.products.len() {
            return Err(Refusal::NoProduct);
        }
        s.chosen = product;
        s.edited = None;
        hear(Outcome::ProductChosen(product));
        Ok(())
    }

    /// The least and the greatest width that can be typed for a product, in µm.
    pub fn typed_bounds(&self, s: &State, product: u8) -> [Micrometres; 2] {
        // The play is taken off the travel: added to what somebody typed it could overflow.
        let play = self.side_play_of(s, product);
        [self.parts.width_least, self.parts.width_most].map(|rails| rails - play)
    }

    pub(crate) fn edit_width(
        &self,
        s: &mut State,
        width: Micrometres,
        hear: &mut Hear,
    ) -> Result<(), Refusal> {
        let [least, most] = self.typed_bounds(s, s.chosen);
        if !(least..=most).contains(&width) {
            return Err(Refusal::WidthBeyondTravel);
        }
        s.edited = Some(width);
        hear(Outcome::WidthTyped(width));
        Ok(())
    }

    /// Saves what was typed for the chosen product.
    pub(crate) fn save(&self, s: &mut State, hear: &mut Hear) -> Result<(), Refusal> {
        if s.edited.is_none() {
            return Err(Refusal::NoProduct);
        }
        self.save_over(s, s.chosen, hear)
    }

    /// Saves the width of the chosen product, as typed or as stored, under a product's number.
    /// What was stored there is gone; who did it, and when, is kept.
    pub(crate) fn save_over(
        &self,
        s: &mut State,
        product: u8,
        hear: &mut Hear,
    ) -> Result<(), Refusal> {
        if product as usize >= self.parts.products.len() {
            return Err(Refusal::NoProduct);
        }
        if self.parts.service.save_needs_key && !s.key_turned {
            return Err(Refusal::SetterOnly);
        }
        let stored = s.widths[s.chosen as usize];
        s.widths[product as usize] = s.edited.take().unwrap_or(stored);
        self.note_saved(s, product);
        hear(Outcome::ProductSaved(product));
        Ok(())
    }

    /// The longest board that a slot's half takes, in µm.
    pub fn longest_board(&self) -> Micrometres {
        Micrometres(self.parts.rack_length.0 / 2 - self.parts.rest_clearance.0)
    }

    pub(crate) fn load(&self, s: &mut State, hear: &mut Hear) -> Result<(), Refusal> {
        if s.mode != Mode::Changeover {
            return Err(Refusal::Mode);
        }
        if s.unit != UnitState::Idle {
            return Err(Refusal::State(s.unit));
        }
        let chosen = &self.parts.products[s.chosen as usize];
        if chosen.length > self.longest_board() {
            return Err(Refusal::BoardTooLong);
        }
        let same_number = s.chosen == s.loaded;
        s.loaded = s.chosen;
        self.load_figures(s);
        let nothing_changes = same_number && self.width_is_wanted(s);
        hear(Outcome::ProductLoaded(s.loaded));
        if self.parts.behaviours.whole_cycle_if_same || !nothing_changes {
            set_task(s, Task::Changeover, hear);
        }
        Ok(())
    }

    /// Copies what is stored under the loaded number: from now on that is what counts.
    pub(crate) fn load_figures(&self, s: &mut State) {
        (s.loaded_width, s.service.loaded_play) = self.stored_figures(s);
    }

    /// Board width and side play as they are stored under the loaded number.
    fn stored_figures(&self, s: &State) -> (Micrometres, u16) {
        let product = s.loaded as usize;
        let play = match self.parts.service.side_play_scope {
            Scope::Machine => self.plain_play(),
            Scope::Product => s.service.settings.side_play[product],
        };
        (s.widths[product], play)
    }

    /// Whether what is stored under the loaded number is not what was loaded.
    pub fn stored_otherwise(&self, s: &State) -> bool {
        self.stored_figures(s) != (s.loaded_width, s.service.loaded_play)
    }

    /// Whether the rails stand, by step count, at the loaded product's width.
    pub fn width_is_wanted(&self, s: &State) -> bool {
        let truth = self.width_in_truth(s, self.wanted_width(s));
        s.width_known && s.rails.is_rest() && s.width_from + s.faults.count_off == truth
    }
}

#[cfg(test)]
#[path = "product_tests.rs"]
mod tests;
