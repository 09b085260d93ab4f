//! Places along the flow, worked out once for a machine: they are asked for each time that belts
//! run. All are those of a board's leading edge, in µm from the rack's infeed end.

use rackproof_model::Micrometres;

use crate::{Board, KINDS_MOST, Machine, MachineParts};

/// How many edges part the places where boards lie at rest.
pub(crate) const EDGES: usize = 6;

/// The table of one machine.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Flow {
    /// Of a board at rest in each half of a slot.
    pub(crate) rest_leads: [i32; 2],
    /// Where the outfeed belt ends.
    pub(crate) outfeed_end: i32,
    /// Where the infeed belt begins.
    pub(crate) belt_start: i32,
    /// Of boards at rest on the belts.
    belt_leads: [i32; 3],
    /// The lengths of the kinds of board, in µm.
    lengths: [i32; KINDS_MOST],
    /// From where on a board of each kind lies in the next place.
    edges: [[i32; EDGES]; KINDS_MOST],
}

impl Flow {
    pub(crate) fn of(parts: &MachineParts) -> Flow {
        let (rack, gap) = (parts.rack_length.0, parts.gap.0);
        let outfeed_end = rack + gap + parts.outfeed_length.0;
        let mut flow = Flow {
            rest_leads: crate::machine::rest_leads(parts).map(|lead| lead.0),
            outfeed_end,
            belt_start: -gap - parts.infeed_length.0,
            belt_leads: [
                -gap - parts.rest_clearance.0,
                outfeed_end - rack / 2,
                outfeed_end,
            ],
            lengths: [0; KINDS_MOST],
            edges: [[0; EDGES]; KINDS_MOST],
        };
        for (at, kind) in parts.kinds.iter().enumerate() {
            let length = kind.length.0;
            flow.lengths[at] = length;
            flow.edges[at] = [
                1 - gap,
                length,
                (rack + length + 1) / 2,
                rack + 1,
                rack + gap + length,
                outfeed_end - parts.end_beam_before.0,
            ];
        }
        flow
    }
}

impl Machine {
    #[inline]
    pub(crate) fn length(&self, board: Board) -> i32 {
        self.flow.lengths[board.kind as usize]
    }

    /// Where the outfeed belt ends.
    #[inline]
    pub(crate) fn outfeed_end(&self) -> i32 {
        self.flow.outfeed_end
    }

    /// Where the leading edge of a board is that has just left the machine upstream no further than
    /// its end: at the start of our infeed belt.
    #[inline]
    pub(crate) fn belt_start(&self) -> i32 {
        self.flow.belt_start
    }

    /// Where the leading edge of a board at rest is in each half, in µm from the rack's infeed end.
    #[inline]
    pub fn rest_leads(&self) -> [Micrometres; 2] {
        self.flow.rest_leads.map(Micrometres)
    }

    /// Leading edges of boards at rest on the belts: on the infeed belt, short of the outfeed
    /// belt's end, and at its end.
    #[inline]
    pub(crate) fn belt_leads(&self) -> [i32; 3] {
        self.flow.belt_leads
    }

    /// The leading edges from which on a board of a kind lies in the next place, from the infeed
    /// mouth on.
    #[inline]
    pub(crate) fn place_edges(&self, kind: u8) -> [i32; EDGES] {
        self.flow.edges[kind as usize]
    }
}
