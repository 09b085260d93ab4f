//! Whether an exam can be begun: only on a drill that is proved.

use rackproof_attempt::ProofState;
use rackproof_phrases::{exam_closed, proof_told};

use super::Session;

impl Session {
    /// How the drill stands to its proof, in words.
    pub fn proof_told(&self) -> String {
        self.exam_closed()
            .unwrap_or_else(|| proof_told(&self.words, self.proof()))
    }

    /// Why no exam can be begun, in words. `None` if one can.
    pub fn exam_closed(&self) -> Option<String> {
        let file = self
            .loaded()
            .map(|loaded| loaded.material.drill.file.as_str());
        exam_closed(&self.words, self.proof(), file.unwrap_or_default())
    }

    fn proof(&self) -> &ProofState {
        self.loaded()
            .map_or(&ProofState::Missing, |loaded| &loaded.proof)
    }
}
