//! The tick sheet: the trainee's own marks, made by hand. The program neither fills nor reads it.

use rackproof_buffer::{HalfSlot, Halves};

use crate::Note;

/// Marks of half-slots.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Sheet(Halves);

/// How a mark, or its taking away, is kept: `Tick(5, Infeed)`.
fn note_of(at: HalfSlot) -> String {
    format!("Tick({}, {:?})", u32::from(at.slot) + 1, at.half)
}

impl Sheet {
    /// The sheet after these notes.
    pub fn of(notes: &[Note], slots: u8) -> Sheet {
        let mut sheet = Sheet::default();
        let all: Vec<HalfSlot> = Halves::all(slots).iter().collect();
        for note in notes {
            if let Some(at) = all.iter().find(|at| note_of(**at) == note.note) {
                sheet.toggle(*at);
            }
        }
        sheet
    }

    /// Makes a mark, or takes it away, and says how that is kept.
    pub fn toggle(&mut self, at: HalfSlot) -> String {
        if self.0.contains(at) {
            self.0.remove(at);
        } else {
            self.0.insert(at);
        }
        note_of(at)
    }

    /// The marks that stand.
    pub fn marks(&self) -> Halves {
        self.0
    }
}

#[cfg(test)]
mod tests {
    use rackproof_buffer::Half;

    use super::*;

    #[test]
    fn a_mark_is_taken_away_by_making_it_again_and_lasts_in_notes() {
        let at = |slot, half| HalfSlot { slot, half };
        let mut sheet = Sheet::default();
        let (one, other) = (at(0, Half::Infeed), at(1, Half::Infeed));
        let marks = [one, other, at(6, Half::Outfeed), other];
        let made = marks.iter().map(|at| sheet.toggle(*at));
        let notes: Vec<Note> = made.map(|note| Note { noted: 0, note }).collect();
        assert_eq!(notes[2].note, "Tick(7, Outfeed)");
        let again = Sheet::of(&notes, 16);
        assert_eq!(again.0, sheet.0);
        assert_eq!(again.0.len(), 2);
    }
}
