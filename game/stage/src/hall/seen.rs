//! Which boards are drawn, and in what light: with [`Shows::Seen`] just those that the core says
//! are seen, and darkness fills what no light reaches.

use bevy::math::{Affine3A, Vec3};
use rackproof_buffer::{Board, Half, HalfSlot, Halves, Side};
use rackproof_drill::{Aim, State};
use rackproof_model::Micrometres;

use super::figures::{BELT_HEIGHT, metres};
use super::{Hall, Scene, Shows, View};
use crate::frame::{Light, Piece, Torch};

/// A board in the picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Drawn {
    pub(crate) board: Board,
    /// Where it lies.
    pub(crate) at: Lies,
}

/// Where a board in the picture lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Lies {
    /// In the rack.
    Slot(HalfSlot),
    /// On belts, with its leading edge here.
    Belts(Micrometres),
    /// In the person's hand.
    Hand,
}

impl Scene<'_> {
    /// The view with which the person looks now, if they stand there and can look so.
    pub(crate) fn looks(&self) -> Option<(View, Aim)> {
        let (stand, aim) = self.gaze.view.aim()?;
        let at_hatch = matches!(self.gaze.view, View::Lean(_));
        let through = self.state.machine.hatch_open() || self.glass_is_clear();
        let can =
            self.gaze.from.is_none() && self.state.person.stand == stand && (!at_hatch || through);
        can.then_some((self.gaze.view, aim))
    }

    fn glass_is_clear(&self) -> bool {
        self.world.hall().sight.clear_glass.is_some()
    }

    /// Whether the light of the hall falls into the rack for this look: through clear glass, where
    /// no torch outshines it.
    fn by_light_of_hall(&self) -> bool {
        let leans = matches!(self.looks(), Some((View::Lean(_), _)));
        leans && self.glass_is_clear() && !self.state.person.torch
    }

    /// Half-slots that the torch lights with this look.
    fn lit(&self) -> Halves {
        let none = Halves::NONE;
        let (Some((view, _)), true) = (self.looks(), self.state.person.torch) else {
            return none;
        };
        match view {
            View::Lean(half) => {
                let all = Halves::all(self.world.machine().slots());
                let mask = all.of(half);
                match half {
                    Half::Infeed => Halves {
                        infeed: mask,
                        ..none
                    },
                    Half::Outfeed => Halves {
                        outfeed: mask,
                        ..none
                    },
                }
            }
            View::Mouth(_) => self
                .state
                .machine
                .slot_at_belts()
                .map_or(none, Halves::slot),
            View::Stand(_) | View::Overview | View::CloseBy => none,
        }
    }

    /// Half-slots in which a board is drawn if one is there.
    fn boards_seen(&self) -> Halves {
        match (self.shows, self.looks()) {
            (Shows::All, _) => self.state.machine.rack.present(),
            (Shows::Seen, Some((_, aim))) => {
                let seen = self.world.seen(self.state, aim);
                seen.map_or(Halves::NONE, |(_, boards)| boards)
            }
            (Shows::Seen, None) => Halves::NONE,
        }
    }
}

impl Hall {
    /// The boards in the picture.
    pub(crate) fn boards_drawn(&self, scene: &Scene) -> Vec<Drawn> {
        let s = &scene.state.machine;
        let seen = scene.boards_seen();
        let in_rack = s.rack.iter().filter(|&(at, _)| seen.contains(at));
        let mut drawn: Vec<Drawn> = in_rack
            .map(|(at, board)| Drawn {
                board,
                at: Lies::Slot(at),
            })
            .collect();
        for lying in self.machine.lying(s) {
            if self.is_drawn(scene, lying.board, lying.lead) {
                drawn.push(Drawn {
                    board: lying.board,
                    at: Lies::Belts(lying.lead),
                });
            }
        }
        let in_hand = scene
            .state
            .person
            .board
            .filter(|_| scene.shows == Shows::Seen);
        drawn.extend(in_hand.map(|board| Drawn {
            board,
            at: Lies::Hand,
        }));
        drawn
    }

    /// Whether a board that is not in a slot is drawn: on belt and mouth at which the
    /// person bends down; one that runs through the slot there, if the torch lights it.
    fn is_drawn(&self, scene: &Scene, board: Board, lead: Micrometres) -> bool {
        let Some((View::Mouth(side), _)) = scene.looks() else {
            return scene.shows == Shows::All;
        };
        if scene.shows == Shows::All {
            return true;
        }
        let tail = lead - self.machine.kinds()[board.kind as usize].length;
        let length = self.machine.parts().rack_length.0;
        let on_this_side = match side {
            Side::Infeed => tail.0 < 0,
            Side::Outfeed => lead.0 > length,
        };
        let in_rack = lead.0 > 0 && tail.0 < length;
        on_this_side || (in_rack && scene.state.person.torch)
    }

    /// Blocks of darkness in the half-slots that no light reaches. Structure shows round them.
    pub(crate) fn darkness(&self, scene: &Scene) -> Vec<Piece> {
        if scene.shows == Shows::All {
            return Vec::new();
        }
        let (lit, first) = (
            scene.lit(),
            self.figures.first_slot(&self.machine, scene.state),
        );
        let width = metres(scene.state.machine.width(&self.machine));
        // Behind clear glass the near edges stand in the light of the hall.
        let reach = self.figures.light_reach;
        let near = reach.filter(|_| scene.by_light_of_hall());
        let near = near.unwrap_or(0.0).min(width);
        let all = (0..self.figures.slots)
            .flat_map(|slot| Half::BOTH.map(|half| HalfSlot { slot, half }))
            .filter(|&at| !lit.contains(at));
        all.map(|at| {
            let corner = self.figures.slot_corner(at) + Vec3::new(0.0, near, first);
            let place = Affine3A::from_translation(corner)
                * Affine3A::from_scale(Vec3::new(1.0, (width - near).max(1e-4), 1.0));
            Piece::new(self.models.darkness, place)
        })
        .collect()
    }

    /// The light of the picture: the hall's lamps, or a torch in a hall that is dim beside it.
    pub(crate) fn light(&self, scene: &Scene) -> Light {
        let Some((view, _)) = scene.looks() else {
            return Light::DAY;
        };
        if scene.shows == Shows::All || !scene.state.person.torch {
            return Light::DAY;
        }
        Light::by_torch(self.torch(view, scene.state))
    }

    /// The torch in the hand of somebody who looks: beside the eye, turned to the aimed half or
    /// along the slot at the belts, and passed over all of it.
    fn torch(&self, view: View, s: &State) -> Torch {
        let shot = self.shot(view.into(), s);
        let (figures, first) = (&self.figures, self.figures.first_slot(&self.machine, s));
        let width = metres(s.machine.width(&self.machine));
        let (x, z) = match view {
            View::Lean(half) => (figures.half(half), [first, first + figures.stack()]),
            _ => ([0.0, figures.length], [BELT_HEIGHT; 2]),
        };
        let aside = (shot.aim - shot.eye).cross(Vec3::Z).normalize_or(Vec3::X);
        let from = shot.eye + aside * 0.06;
        let deep = if matches!(view, View::Lean(_)) {
            0.0
        } else {
            width
        };
        let towards = Vec3::new(
            f32::midpoint(x[0], x[1]),
            deep / 2.0,
            f32::midpoint(z[0], z[1]),
        );
        let corners =
            [0, 1, 2, 3].map(|at| Vec3::new(x[at % 2], deep * (at / 2) as f32, z[at / 2]));
        let widest = corners.map(|corner| (corner - from).angle_between(towards - from));
        Torch {
            from,
            towards,
            half_angle: widest
                .into_iter()
                .fold(figures.torch_spread.atan(), f32::max)
                * 1.1,
        }
    }
}
