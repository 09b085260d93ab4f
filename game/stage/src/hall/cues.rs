//! What is drawn of faults and of neighbours' quirks: just what the core says is seen from here.

use bevy::math::{Affine3A, Quat, Vec3};
use rackproof_buffer::{BeamName, Contact, Side};
use rackproof_drill::{Aim, Cue, Stand};

use super::figures::{BELT_HEIGHT, metres};
use super::neighbours::{self, Lamp};
use super::seen::{Drawn, Lies};
use super::{Hall, Scene, Shows, View};
use crate::frame::Piece;

/// A beam that was knocked out of line is drawn turned by so much, in radians.
const OUT_OF_LINE: f32 = 0.6;

/// Cues that have a piece of their own, or mark one that is drawn otherwise. What is odd about a
/// board is its own shape; what comes down or slips is seen by where it is.
pub const CUES_DRAWN: [Cue; 29] = [
    Cue::Jumper(Side::Infeed),
    Cue::Jumper(Side::Outfeed),
    Cue::TestBox(Side::Infeed),
    Cue::TestBox(Side::Outfeed),
    Cue::NoMachine(Side::Infeed),
    Cue::NoMachine(Side::Outfeed),
    Cue::NeighbourStands(Side::Infeed),
    Cue::NeighbourStands(Side::Outfeed),
    Cue::OtherWidth(Side::Infeed),
    Cue::OtherWidth(Side::Outfeed),
    Cue::TakesAlways,
    Cue::FedByHand,
    Cue::BoardWaitsUpstream,
    Cue::FailedLampLit,
    Cue::LampFlickers,
    Cue::StripOnScrew,
    Cue::LensFilmed(BeamName::InfeedMouth),
    Cue::LensFilmed(BeamName::OutfeedMouth),
    Cue::LensFilmed(BeamName::End),
    Cue::BeamOutOfLine(BeamName::InfeedMouth),
    Cue::BeamOutOfLine(BeamName::OutfeedMouth),
    Cue::BeamOutOfLine(BeamName::End),
    Cue::BeamLit(BeamName::InfeedMouth),
    Cue::BeamLit(BeamName::OutfeedMouth),
    Cue::BeamLit(BeamName::End),
    Cue::LampsDiffer(Contact::UpstreamAvailable),
    Cue::LampsDiffer(Contact::DownstreamReady),
    Cue::LampsDiffer(Contact::OwnReady),
    Cue::LampsDiffer(Contact::OwnAvailable),
];

/// Marks of cues begin here.
const MARKS: u32 = 400;
/// The mark of a board at upstream's exit that no cue speaks of.
pub const EXIT_MARK: u32 = 350;

/// The mark of a cue in a flat picture. `None` for one without a piece.
pub fn cue_mark(cue: Cue) -> Option<u32> {
    let number = CUES_DRAWN.iter().position(|&drawn| drawn == cue)?;
    Some(MARKS + number as u32)
}

impl Scene<'_> {
    /// The side at whose neighbour the person stands upright and looks.
    fn stands_at(&self) -> Option<Side> {
        let View::Stand(stand) = self.gaze.view else {
            return None;
        };
        let here = self.gaze.from.is_none() && self.state.person.stand == stand;
        stand.side().filter(|_| here)
    }

    /// Whether the small things of a neighbour are seen: lamps, plug, rails, the board at its exit.
    fn is_near(&self, side: Side) -> bool {
        self.shows == Shows::All || self.stands_at() == Some(side)
    }

    /// What is seen of faults and quirks.
    pub(crate) fn cues(&self) -> Vec<Cue> {
        let (world, state) = (self.world, self.state);
        if self.shows == Shows::All {
            return self.all_cues();
        }
        let stand = self
            .stands_at()
            .map_or(Stand::Panel, |_| state.person.stand);
        let mut cues = world.cues_around(state, stand);
        if let Some((_, aim)) = self.looks() {
            for cue in world.cues_seen(state, aim) {
                if !cues.contains(&cue) {
                    cues.push(cue);
                }
            }
        }
        cues
    }

    /// All that is seen from anywhere, with the torch lit: for debrief and trainer.
    fn all_cues(&self) -> Vec<Cue> {
        let mut there = *self.state;
        there.person.torch = true;
        let mut cues = Vec::new();
        for (stand, aim) in [
            (Stand::Infeed, Aim::Mouth),
            (Stand::Outfeed, Aim::Mouth),
            (Stand::Hatch, Aim::LeanInfeed),
        ] {
            there.person.stand = stand;
            let seen = self.world.cues_seen(&there, aim);
            let around = self.world.cues_around(&there, stand);
            for cue in seen.into_iter().chain(around) {
                if !cues.contains(&cue) {
                    cues.push(cue);
                }
            }
        }
        cues
    }
}

/// A piece of a cue.
fn marked(cue: Cue, piece: Piece) -> Piece {
    Piece {
        mark: cue_mark(cue).unwrap_or(0),
        ..piece
    }
}

impl Hall {
    /// Neighbours, beams and screw, with what is seen of them from here.
    pub(crate) fn cue_pieces(&self, scene: &Scene, pieces: &mut Vec<Piece>) {
        let cues = scene.cues();
        for side in [Side::Infeed, Side::Outfeed] {
            self.neighbour(scene, side, &cues, pieces);
            if scene.is_near(side) {
                self.lamps(scene, side, &cues, pieces);
            }
        }
        self.sensors(&cues, pieces);
        if cues.contains(&Cue::StripOnScrew) {
            let rack = Affine3A::from_translation(self.rack_origin(scene.state));
            pieces.push(marked(
                Cue::StripOnScrew,
                Piece::new(self.models.strip, rack),
            ));
        }
    }

    /// The machine at a side, or what stands in its place.
    fn neighbour(&self, scene: &Scene, side: Side, cues: &[Cue], pieces: &mut Vec<Piece>) {
        let models = &self.models.neighbours[side as usize];
        let still = |shape| Piece::new(shape, Affine3A::IDENTITY);
        for (cue, shape) in [
            (Cue::Jumper(side), models.jumper),
            (Cue::TestBox(side), models.test_box),
            (Cue::NoMachine(side), models.cap),
        ] {
            if cues.contains(&cue) {
                pieces.push(marked(cue, still(shape)));
            }
        }
        let nobody = [Cue::TestBox(side), Cue::NoMachine(side)];
        if nobody.iter().any(|cue| cues.contains(cue)) {
            return;
        }
        if side == Side::Infeed && cues.contains(&Cue::FedByHand) {
            pieces.push(marked(Cue::FedByHand, still(models.person)));
        } else if side == Side::Outfeed && cues.contains(&Cue::TakesAlways) {
            pieces.push(marked(Cue::TakesAlways, still(models.link)));
        } else {
            pieces.extend([models.table, models.body].map(still));
            self.on_table(scene, side, cues, pieces);
        }
        if side == Side::Infeed && scene.is_near(side) {
            pieces.extend(self.board_upstream(scene, cues));
        }
    }

    /// A neighbour's rail under its hood. Who stands there looks through it.
    fn on_table(&self, scene: &Scene, side: Side, cues: &[Cue], pieces: &mut Vec<Piece>) {
        let models = &self.models.neighbours[side as usize];
        if !scene.is_near(side) {
            pieces.push(Piece::new(models.hood, Affine3A::IDENTITY));
            return;
        }
        pieces.push(Piece::new(models.clear_hood, Affine3A::IDENTITY));
        let width = metres(scene.world.neighbour_width(scene.state, side));
        let aside = Affine3A::from_translation(Vec3::Y * width);
        let rail = Piece::new(models.rail, aside);
        let other = Cue::OtherWidth(side);
        pieces.push(if cues.contains(&other) {
            marked(other, rail)
        } else {
            rail
        });
    }

    /// The board at upstream's exit, or in the hands of who feeds.
    fn board_upstream(&self, scene: &Scene, cues: &[Cue]) -> Option<Piece> {
        let board = scene.world.board_at_exit(scene.state)?;
        let drawn = Drawn {
            board,
            at: Lies::Hand,
        };
        let length = metres(self.machine.kinds()[board.kind as usize].length);
        let by_hand = cues.contains(&Cue::FedByHand);
        let place = neighbours::exit(&self.figures, by_hand) - Vec3::X * length;
        let piece = Piece {
            place: Affine3A::from_translation(place),
            ..self.board_piece(scene, &drawn)
        };
        let waits = cues.contains(&Cue::BoardWaitsUpstream);
        Some(if waits {
            marked(Cue::BoardWaitsUpstream, piece)
        } else {
            let mark = EXIT_MARK;
            Piece { mark, ..piece }
        })
    }

    /// The lamps of the signals at both ends of the cable, and those on the neighbour itself.
    fn lamps(&self, scene: &Scene, side: Side, cues: &[Cue], pieces: &mut Vec<Piece>) {
        let mut lamp = |lamp: Lamp, lit: bool, cue: Option<Cue>| {
            let place = neighbours::lamp_at(&self.figures, side, lamp);
            let mut piece = Piece::new(
                self.models.signal_lamps[usize::from(lit)],
                Affine3A::from_translation(place),
            );
            piece.tint = lit.then_some(lamp.colour());
            let told = cue.filter(|cue| cues.contains(cue));
            pieces.push(told.map_or(piece, |cue| marked(cue, piece)));
        };
        let lamps = scene.world.signal_lamps(scene.state, side);
        let contacts = match side {
            Side::Infeed => [Contact::UpstreamAvailable, Contact::OwnReady],
            Side::Outfeed => [Contact::DownstreamReady, Contact::OwnAvailable],
        };
        for (number, contact) in contacts.into_iter().enumerate() {
            lamp(Lamp::Ours(number), lamps.ours[number], None);
            let differs = Some(Cue::LampsDiffer(contact));
            lamp(Lamp::Theirs(number), lamps.theirs[number], differs);
        }
        if side == Side::Infeed {
            let failed = Cue::FailedLampLit;
            lamp(Lamp::Failed, cues.contains(&failed), Some(failed));
        }
        let has_body = !neighbours::replaces_body(cues, side);
        let stands = Cue::NeighbourStands(side);
        if has_body {
            lamp(Lamp::Stands, cues.contains(&stands), Some(stands));
            lamp(Lamp::Runs, !cues.contains(&stands), None);
        }
        if side == Side::Outfeed && cues.contains(&Cue::LampFlickers) {
            let place = neighbours::lamp_at(&self.figures, side, Lamp::Theirs(0));
            let rays = Piece::new(self.models.flicker, Affine3A::from_translation(place));
            pieces.push(marked(Cue::LampFlickers, rays));
        }
    }

    /// The sensors of the beams; each with what is wrong with it, for who looks at it.
    fn sensors(&self, cues: &[Cue], pieces: &mut Vec<Piece>) {
        for (_, beam) in BeamName::ALL {
            let place = self.sensor(beam);
            let mut sensor = Piece::new(self.models.sensors[beam as usize], place);
            let out = Cue::BeamOutOfLine(beam);
            if cues.contains(&out) {
                sensor.place *= Affine3A::from_quat(Quat::from_rotation_z(OUT_OF_LINE));
                sensor = marked(out, sensor);
            }
            pieces.push(sensor);
            for (cue, shapes) in [
                (Cue::LensFilmed(beam), self.models.films),
                (Cue::BeamLit(beam), self.models.beam_lamps),
            ] {
                if cues.contains(&cue) {
                    pieces.push(marked(cue, Piece::new(shapes[beam as usize], place)));
                }
            }
        }
    }

    /// Where the sensor of a beam stands: at a mouth the point from which it looks, at the end of
    /// the outfeed belt above it.
    fn sensor(&self, beam: BeamName) -> Affine3A {
        let figures = &self.figures;
        let from = |side: usize| figures.beams[side].0 + Vec3::Z * BELT_HEIGHT;
        Affine3A::from_translation(match beam {
            BeamName::InfeedMouth => from(0),
            BeamName::OutfeedMouth => from(1),
            BeamName::End => {
                let [_, end] = figures.belt(1);
                Vec3::new(end - figures.end_beam_before, 0.03, BELT_HEIGHT + 0.06)
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_cue_that_is_drawn_has_its_own_mark() {
        let mut marks: Vec<u32> = CUES_DRAWN.into_iter().filter_map(cue_mark).collect();
        assert_eq!(marks.len(), CUES_DRAWN.len());
        marks.dedup();
        assert_eq!(marks.len(), CUES_DRAWN.len());
        assert_eq!(cue_mark(Cue::LiftSinks), None);
    }
}
