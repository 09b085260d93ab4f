//! What could have been seen at a breach, and from where.

use rackproof_buffer::{Halves, Place};
use rackproof_drill::{Vantage, World};

use crate::Breach;

/// A board that truly lay somewhere.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sighted {
    /// Where it lay.
    pub place: Place,
    /// Which kind of board.
    pub kind: u8,
    /// The looks that would have shown it. None: it was hidden from everywhere.
    pub from: Vec<Vantage>,
    /// Whether a look that counted had shown it. Looks at belts and mouths are not kept: `None`.
    pub looked: Option<bool>,
}

/// What the eyes could have told at a breach.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Evidence {
    /// The boards, from the lowest slot up, then belts and mouths.
    pub boards: Vec<Sighted>,
    /// Half-slots that no look which counted had shown.
    pub unlooked: Halves,
    /// For each look that there is: which of those it would have shown, empty or not.
    pub shown_by: Vec<(Vantage, Halves)>,
}

impl Breach {
    /// What was true at this moment and could have been seen, in the world that it happened in.
    pub fn evidence(&self, world: &World) -> Evidence {
        let state = &self.state.world;
        let views = Vantage::ALL.map(|from| (from, world.in_view(state, from)));
        let boards = world.board_places(state).into_iter().map(|(place, kind)| {
            let shows = views.iter().filter(|(_, view)| view.shows(place));
            Sighted {
                place,
                kind,
                from: shows.map(|(from, _)| *from).collect(),
                looked: match place {
                    Place::Slot(at) => Some(self.looked.boards.contains(at)),
                    Place::Belt(_) | Place::Mouth(_) => None,
                },
            }
        });
        let known = self.looked.empty.union(self.looked.boards);
        let unlooked = Halves::all(world.machine().slots()).without(known);
        let shown = |view: &rackproof_drill::InView| view.empty.union(view.boards);
        let shown_by = views.iter().map(|(from, view)| {
            let shown = shown(view).intersection(unlooked);
            (*from, shown)
        });
        Evidence {
            boards: boards.collect(),
            unlooked,
            shown_by: shown_by.filter(|(_, shown)| !shown.is_empty()).collect(),
        }
    }
}
