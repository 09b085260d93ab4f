//! The figures of a machine in metres, in the frame of the hall: x along the flow from the rack's
//! infeed end, y across from the fixed rail away from the hatch, z up from the floor.

use bevy::math::Vec3;
use rackproof_buffer::{Half, HalfSlot, Machine, MachineParts};
use rackproof_drill::{State, World};
use rackproof_model::Micrometres;

/// Height of the belts above the floor. Common practice: SMEMA lines run at 940 to 965 mm.
pub(crate) const BELT_HEIGHT: f32 = 0.95;
/// From the outermost posts of the rack to the side covers.
const COVER_CLEAR: f32 = 0.03;
/// Above the highest line of sight through a mouth: so much the cover leaves free.
const MOUTH_CLEAR: f32 = 0.0006;

/// Micrometres as metres.
pub(crate) fn metres(length: Micrometres) -> f32 {
    length.0 as f32 * 1e-6
}

/// What shapes are made from.
#[derive(Clone, Debug)]
pub(crate) struct Figures {
    pub(crate) slots: u8,
    pub(crate) pitch: f32,
    pub(crate) length: f32,
    pub(crate) gap: f32,
    pub(crate) infeed: f32,
    pub(crate) outfeed: f32,
    pub(crate) end_beam_before: f32,
    pub(crate) ledge: f32,
    pub(crate) widest: f32,
    /// From the reference up to slot 1 at belt height.
    pub(crate) reference_below: f32,
    /// How high the rails stand above the plane of the boards.
    pub(crate) lip: f32,
    /// The posts before the rack: from x to x.
    pub(crate) posts: Vec<(f32, f32)>,
    pub(crate) posts_at: f32,
    pub(crate) hatch_eyes: [Vec3; 2],
    pub(crate) mouth_eyes: [Vec3; 2],
    /// Half of the torch's width for each metre.
    pub(crate) torch_spread: f32,
    /// Where a board's leading edge rests in either half.
    pub(crate) rest_leads: [f32; 2],
    /// The beams at the mouths, from and to, from the slot at the belts.
    pub(crate) beams: [(Vec3, Vec3); 2],
    /// Where further beams cross the slot at the belts, x: in the middle of the rack, and just past
    /// its outfeed end.
    pub(crate) upright_beams: Vec<f32>,
    /// How far behind the fixed rail the light of the hall reaches, where the hatch is clear.
    pub(crate) light_reach: Option<f32>,
}

/// Where beams stand besides those that every machine has.
fn upright_beams(parts: &MachineParts) -> Vec<f32> {
    let storing = &parts.storing;
    let middle = storing.middle_beam.map(|beam| metres(beam.at));
    let past = storing.draw_back;
    // It sees what is past the rack's end: it stands in the gap before the belt.
    let past = past.map(|_| metres(parts.rack_length) + metres(parts.gap) / 2.0);
    middle.into_iter().chain(past).collect()
}

impl Figures {
    pub(crate) fn of(world: &World) -> Figures {
        let machine = world.machine();
        let parts = machine.parts();
        let sight = &world.hall().sight;
        let point = |point: [Micrometres; 3]| Vec3::from_array(point.map(metres));
        Figures {
            slots: parts.slots,
            pitch: metres(parts.pitch),
            length: metres(parts.rack_length),
            gap: metres(parts.gap),
            infeed: metres(parts.infeed_length),
            outfeed: metres(parts.outfeed_length),
            end_beam_before: metres(parts.end_beam_before),
            ledge: metres(parts.ledge),
            widest: metres(parts.width_most),
            reference_below: metres(parts.reference_below),
            lip: metres(sight.rail_height),
            posts: sight
                .posts
                .iter()
                .map(|&(a, b)| (metres(a), metres(b)))
                .collect(),
            posts_at: metres(sight.post_at),
            hatch_eyes: sight.hatch_eyes.map(point),
            mouth_eyes: sight.mouth_eyes.map(point),
            torch_spread: metres(sight.torch_spread),
            rest_leads: machine.rest_leads().map(metres),
            beams: machine
                .mouth_beams()
                .map(|beam| (point(beam.origin), point(beam.aim))),
            upright_beams: upright_beams(parts),
            light_reach: sight
                .clear_glass
                .map(|reach| metres(reach + sight.post_at).max(0.0)),
        }
    }

    /// Height of the rack above its slots, slot 1's plane at nought.
    pub(crate) fn stack(&self) -> f32 {
        f32::from(self.slots) * self.pitch
    }

    /// Where the side cover stands, x: outside the rack's posts.
    pub(crate) fn covers(&self) -> [f32; 2] {
        let ends =
            |(least, most): (f32, f32), &(from, to): &(f32, f32)| (least.min(from), most.max(to));
        let (least, most) = self.posts.iter().fold((0.0, self.length), ends);
        [least - COVER_CLEAR, most + COVER_CLEAR]
    }

    /// How high the mouth in a side cover is above the belts: as the core has it, the slot at the
    /// belts is seen along its whole length and no slot above it.
    pub(crate) fn mouth_height(&self, side: usize) -> f32 {
        let (eye, cover) = (self.mouth_eyes[side], self.covers()[side]);
        // The farthest sample point lies an eighth of the rack from its end.
        let farthest = if side == 0 {
            self.length * 0.875
        } else {
            self.length * 0.125
        };
        let line = eye.z * (cover - farthest) / (eye.x - farthest);
        line + MOUTH_CLEAR
    }

    /// Where a belt begins and ends, x.
    pub(crate) fn belt(&self, side: usize) -> [f32; 2] {
        if side == 0 {
            [-self.gap - self.infeed, -self.gap]
        } else {
            let begin = self.length + self.gap;
            [begin, begin + self.outfeed]
        }
    }

    /// x from and to of a half.
    pub(crate) fn half(&self, half: Half) -> [f32; 2] {
        let middle = self.length / 2.0;
        match half {
            Half::Infeed => [0.0, middle],
            Half::Outfeed => [middle, self.length],
        }
    }

    /// Height of slot 1's plane above the floor now.
    pub(crate) fn first_slot(&self, machine: &Machine, s: &State) -> f32 {
        // The lift's height counts along the rack: at slot k it is the way from the reference to k.
        BELT_HEIGHT + self.reference_below - metres(machine.lift_height(&s.machine))
    }

    /// The corner of a half-slot with the least x and y, in the rack's frame.
    pub(crate) fn slot_corner(&self, at: HalfSlot) -> Vec3 {
        Vec3::new(self.half(at.half)[0], 0.0, f32::from(at.slot) * self.pitch)
    }
}
