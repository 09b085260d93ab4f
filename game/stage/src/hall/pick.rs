//! What a ray of sight meets: parts as boxes. The nearest box wins; one without a part blocks.

use bevy::math::{Affine3A, Vec3};
use rackproof_buffer::{Half, HalfSlot, Side};
use rackproof_drill::Tray;

use super::cabinet::{self, Cabinet};
use super::figures::{BELT_HEIGHT, metres};
use super::fittings::{LAMP, LAMPS, PANEL, Places, STOP_PLATE};
use super::room::{self, IN_ORDER};
use super::seen::Lies;
use super::{Hall, Part, Scene, View, belts, neighbours, rack};

/// A box that a ray can meet, in a frame of its own.
#[derive(Clone, Copy, Debug)]
struct Solid {
    part: Option<Part>,
    place: Affine3A,
    from: Vec3,
    to: Vec3,
}

impl Solid {
    fn new(part: Option<Part>, (from, to): ([f32; 3], [f32; 3])) -> Solid {
        Solid {
            part,
            place: Affine3A::IDENTITY,
            from: from.into(),
            to: to.into(),
        }
    }

    fn at(self, place: Affine3A) -> Solid {
        Solid { place, ..self }
    }

    /// How far along the ray it is met. None if it is not, or the ray begins inside.
    fn meets(&self, origin: Vec3, direction: Vec3) -> Option<f32> {
        let back = self.place.inverse();
        let (origin, direction) = (
            back.transform_point3(origin),
            back.transform_vector3(direction),
        );
        let inverse = direction.recip();
        let (a, b) = ((self.from - origin) * inverse, (self.to - origin) * inverse);
        let (enters, leaves) = (a.min(b).max_element(), a.max(b).min_element());
        (enters <= leaves && enters > 0.0).then_some(enters)
    }

    fn middle(&self) -> Vec3 {
        self.place.transform_point3(self.from.midpoint(self.to))
    }
}

impl Hall {
    /// The part that a ray of sight meets first. What has no name blocks what is behind it.
    pub fn touch(&self, scene: &Scene, origin: Vec3, direction: Vec3) -> Option<Part> {
        let nearest = |solids: Vec<Solid>| {
            let met = solids.into_iter().filter_map(|solid| {
                let far = solid.meets(origin, direction)?;
                Some((far, solid.part))
            });
            met.min_by(|a, b| a.0.total_cmp(&b.0))
        };
        let hard = nearest(self.solids(scene));
        let open = nearest(self.openings(scene));
        match (hard, open) {
            // A board that is seen deep in its slot, through the openings of the slots above.
            (Some((_, Some(Part::Slot(at)))), _) => Some(Part::Slot(at)),
            (Some((far, part)), Some((near, _))) if far < near => part,
            (_, Some((_, opening))) => opening,
            (Some((_, part)), None) => part,
            (None, None) => None,
        }
    }

    /// All parts that have a name now, for a list by keyboard: slots while the person looks.
    pub fn parts(&self, scene: &Scene) -> Vec<Part> {
        let mut parts = Part::ALL.to_vec();
        parts.extend(self.slots_named(scene).into_iter().map(Part::Slot));
        parts
    }

    /// Where a part is: for a label that points at it.
    pub fn place_of(&self, scene: &Scene, part: Part) -> Option<Vec3> {
        let all = self.solids(scene).into_iter().chain(self.openings(scene));
        let mine = all.rev().find(|solid| solid.part == Some(part));
        mine.map(|solid| solid.middle())
    }

    /// Half-slots that can be pointed at: all of them when leaning in, the slot at the belts at a
    /// mouth.
    fn slots_named(&self, scene: &Scene) -> Vec<HalfSlot> {
        let both = |slot: u8| Half::BOTH.map(|half| HalfSlot { slot, half });
        match scene.gaze.view {
            View::Lean(_) => (0..self.figures.slots).flat_map(both).collect(),
            View::Mouth(_) => {
                let slot = scene.state.machine.slot_at_belts();
                slot.map(both).into_iter().flatten().collect()
            }
            View::Stand(_) | View::Overview | View::CloseBy => Vec::new(),
        }
    }

    /// The openings of the slots that can be pointed at.
    fn openings(&self, scene: &Scene) -> Vec<Solid> {
        let rack = Affine3A::from_translation(self.rack_origin(scene.state));
        let width = metres(scene.state.machine.width(&self.machine));
        let size = Vec3::new(self.figures.length / 2.0, width, self.figures.pitch);
        let opening = |at: HalfSlot| {
            let from = self.figures.slot_corner(at);
            let ends = (from.to_array(), (from + size).to_array());
            Solid::new(Some(Part::Slot(at)), ends).at(rack)
        };
        self.slots_named(scene).into_iter().map(opening).collect()
    }

    fn solids(&self, scene: &Scene) -> Vec<Solid> {
        let mut solids = Vec::with_capacity(80);
        self.of_cabinet(scene, &mut solids);
        self.of_belts(scene, &mut solids);
        self.of_rack(scene, &mut solids);
        self.of_fittings(scene, &mut solids);
        for stand in IN_ORDER {
            let ([x, y], r) = (room::disc_at(stand), room::disc_radius());
            let ends = ([x - r, y - r, -0.01], [x + r, y + r, 0.006]);
            solids.push(Solid::new(Some(Part::StandingPlace(stand)), ends));
        }
        for tray in [Tray::Good, Tray::Quarantine, Tray::Scrap] {
            solids.push(Solid::new(Some(Part::Tray(tray)), room::tray_box(tray)));
        }
        solids
    }

    fn of_cabinet(&self, scene: &Scene, solids: &mut Vec<Solid>) {
        let figures = &self.figures;
        let plates = cabinet::plates(figures).into_iter();
        let sides = [0, 1]
            .into_iter()
            .flat_map(|side| cabinet::side_plates(figures, side));
        let uprights = cabinet::uprights(&Cabinet::of(figures));
        let all = plates.chain(sides).chain(uprights);
        solids.extend(all.map(|ends| Solid::new(None, ends)));
        let [x, z] = cabinet::hatch_size(figures);
        let hatch = Solid::new(Some(Part::Hatch), ([0.0, -0.020, 0.0], [x, 0.0, z]));
        solids.push(hatch.at(self.hatch(scene.state)));
    }

    fn of_belts(&self, scene: &Scene, solids: &mut Vec<Solid>) {
        let figures = &self.figures;
        for (side, name) in [Side::Infeed, Side::Outfeed].into_iter().enumerate() {
            let part = Some(Part::Belt(name));
            let ([x0, x1], [near, far], [low, high]) = belts::hood_walls(figures, side);
            let thin = 0.003;
            solids.push(Solid::new(part, ([x0, near, low], [x1, near + thin, high])));
            solids.push(Solid::new(part, ([x0, far - thin, low], [x1, far, high])));
            solids.push(Solid::new(part, ([x0, near, high - thin], [x1, far, high])));
            let [begin, end] = figures.belt(side);
            let top = BELT_HEIGHT
                + if scene.gaze.view == View::Mouth(name) {
                    0.0
                } else {
                    0.004
                };
            solids.push(Solid::new(part, ([begin, near, low], [end, far, top])));
            let neighbour = Some(Part::Neighbour(name));
            let [from, to] = room::neighbour_span(figures, side);
            let table = ([from, -0.025, BELT_HEIGHT - 0.10], [to, far, BELT_HEIGHT]);
            solids.push(Solid::new(neighbour, table));
            solids.push(Solid::new(neighbour, room::neighbour_body(figures, side)));
            solids.push(Solid::new(neighbour, neighbours::signal_box(figures, name)));
        }
    }

    /// Base, top, posts, the far side, and the boards that are drawn.
    fn of_rack(&self, scene: &Scene, solids: &mut Vec<Solid>) {
        let figures = &self.figures;
        let place = Affine3A::from_translation(self.rack_origin(scene.state));
        let [low, high] = rack::heights(figures);
        let width = metres(scene.state.machine.width(&self.machine));
        let (x0, x1) = rack::ends(figures);
        let (front, back) = (figures.posts_at - 0.008, figures.widest + 0.09);
        let part = Some(Part::Rack);
        let mut push = |ends| solids.push(Solid::new(part, ends).at(place));
        push(([x0, front, low], [x1, back, low + 0.012]));
        push(([x0, front, high - 0.012], [x1, back, high]));
        for &(from, to) in &figures.posts {
            push(([from, front, low], [to, figures.posts_at + 0.008, high]));
        }
        push(([0.0, width, low], [figures.length, width + 0.05, high]));
        if matches!(
            scene.gaze.view,
            View::Stand(_) | View::Overview | View::CloseBy
        ) {
            push(([0.0, -0.003, low], [figures.length, width, high]));
            return;
        }
        for drawn in self.boards_drawn(scene) {
            if let Lies::Slot(at) = drawn.at {
                let kind = &self.machine.kinds()[drawn.board.kind as usize];
                let tail = figures.rest_leads[at.half as usize] - metres(kind.length);
                let z = f32::from(at.slot) * figures.pitch;
                let far = [tail + metres(kind.length), metres(kind.width), z + 0.004];
                let board = Solid::new(Some(Part::Slot(at)), ([tail, 0.0, z], far));
                solids.push(board.at(place));
            }
        }
    }

    fn of_fittings(&self, scene: &Scene, solids: &mut Vec<Solid>) {
        let places = Places::of(&self.figures);
        let [wide, high, deep] = PANEL;
        let panel = ([-wide, 0.0, -high / 2.0], [wide, deep, high / 2.0]);
        solids.push(Solid::new(Some(Part::Panel), panel).at(places.panel));
        let key = ([-0.024, -0.045, -0.024], [0.024, 0.0, 0.024]);
        solids.push(Solid::new(Some(Part::Key), key).at(places.key));
        let half = STOP_PLATE / 2.0;
        let stop = ([-half, -0.036, -half], [half, 0.036, half]);
        for (place, side) in places.stops.into_iter().zip([Side::Outfeed, Side::Infeed]) {
            solids.push(Solid::new(Some(Part::EmergencyStop(side)), stop).at(place));
        }
        let isolator = ([-0.06, -0.036, -0.044], [0.06, 0.0, 0.06]);
        solids.push(Solid::new(Some(Part::Isolator), isolator).at(places.isolator));
        let hasp = ([-0.026, -0.034, -0.120], [0.026, 0.0, -0.044]);
        solids.push(Solid::new(Some(Part::Lock), hasp).at(places.isolator));
        let prop = ([-0.022, -0.022, 0.0], [0.022, 0.022, 1.0]);
        solids.push(Solid::new(Some(Part::Prop), prop).at(self.prop(scene.state)));
        let [x, y, z] = places.stud;
        let stud = ([x - 0.03, y - 0.034, z - 0.10], [x + 0.03, y, z + 0.02]);
        solids.push(Solid::new(Some(Part::CordStud), stud));
        let [x, y, z] = places.tower;
        let (r, top) = (LAMP[0] + 0.006, z + 0.14 + LAMPS.len() as f32 * LAMP[1]);
        solids.push(Solid::new(
            Some(Part::Tower),
            ([x - r, y - r, z], [x + r, y + r, top]),
        ));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ray_meets_a_box_where_it_begins() {
        let solid = Solid::new(Some(Part::Rack), ([1.0, -1.0, -1.0], [2.0, 1.0, 1.0]));
        let cases = [
            (Vec3::ZERO, Vec3::X, Some(1.0)),
            (Vec3::ZERO, -Vec3::X, None),
            (Vec3::ZERO, Vec3::Y, None),
            (Vec3::new(1.5, 0.0, 0.0), Vec3::X, None),
            (Vec3::new(4.0, 0.5, 0.5), -Vec3::X, Some(2.0)),
        ];
        for (origin, direction, far) in cases {
            assert_eq!(solid.meets(origin, direction), far, "{origin} {direction}");
        }
        let turned = solid.at(Affine3A::from_rotation_z(std::f32::consts::FRAC_PI_2));
        let far = turned.meets(Vec3::ZERO, Vec3::Y);
        assert!(far.is_some_and(|far| (far - 1.0).abs() < 1e-5), "{far:?}");
    }
}
