//! What is drawn besides the boards, and where each board lies.

use bevy::math::{Affine3A, Quat, Vec3};
use rackproof_buffer::{Board, BoardFault, BoardKind, Condition, bow_at_shortening};
use rackproof_drill::State;

use super::board::Form;
use super::cabinet;
use super::figures::{BELT_HEIGHT, metres};
use super::fittings::{self, LAMPS, PRESSED_IN, Places};
use super::room::{self, IN_ORDER};
use super::seen::{Drawn, Lies};
use super::{Hall, Scene, Shows, rack};
use crate::frame::{Arch, Piece, ShapeId};
use crate::tokens;

/// How far the hatch stands open, in radians.
const HATCH_OPEN: f32 = 1.75;

fn at(place: impl Into<Vec3>) -> Affine3A {
    Affine3A::from_translation(place.into())
}

impl Hall {
    /// Everything but the boards.
    pub(crate) fn pieces(&self, scene: &Scene) -> Vec<Piece> {
        let models = &self.models;
        let mut pieces = vec![Piece::new(models.still, Affine3A::IDENTITY)];
        self.moving(scene, &mut pieces);
        self.hoods_and_hatch(scene, &mut pieces);
        self.panel(scene.state, &mut pieces);
        self.safety(scene, &mut pieces);
        self.tower(scene.state, &mut pieces);
        self.places(scene, &mut pieces);
        self.cue_pieces(scene, &mut pieces);
        pieces.extend(self.darkness(scene));
        if scene.shows == Shows::All {
            pieces.push(Piece::new(models.beams, Affine3A::IDENTITY));
        }
        pieces
    }

    /// Rack, carriage and rails, where the core has them now.
    fn moving(&self, scene: &Scene, pieces: &mut Vec<Piece>) {
        let (models, state) = (&self.models, scene.state);
        let rack = at(self.rack_origin(state));
        let aside = at([0.0, metres(state.machine.width(&self.machine)), 0.0]);
        pieces.push(Piece::new(models.rack_fixed, rack));
        pieces.push(Piece::new(models.carriage, rack));
        pieces.push(Piece::new(models.rack_moving, rack * aside));
        pieces.extend(models.rails.map(|rail| Piece::new(rail, aside)));
    }

    /// The rack's own origin: slot 1's plane at the infeed end of the fixed rail.
    pub(crate) fn rack_origin(&self, state: &State) -> Vec3 {
        Vec3::Z * self.figures.first_slot(&self.machine, state)
    }

    fn hoods_and_hatch(&self, scene: &Scene, pieces: &mut Vec<Piece>) {
        let models = &self.models;
        let all = scene.shows == Shows::All;
        let hoods = if all {
            models.clear_hoods
        } else {
            models.hoods
        };
        pieces.extend(hoods.map(|hood| Piece::new(hood, Affine3A::IDENTITY)));
        let pane = if all || self.figures.light_reach.is_some() {
            models.clear_pane
        } else {
            models.tinted_pane
        };
        let hatch = self.hatch(scene.state);
        pieces.extend([models.hatch_frame, pane].map(|shape| Piece::new(shape, hatch)));
    }

    /// Where the hatch hangs now.
    pub(crate) fn hatch(&self, state: &State) -> Affine3A {
        let open = if state.machine.hatch_open() {
            HATCH_OPEN
        } else {
            0.0
        };
        at(cabinet::hatch_hinge(&self.figures)) * Affine3A::from_rotation_z(-open)
    }

    fn panel(&self, state: &State, pieces: &mut Vec<Piece>) {
        let (models, places) = (&self.models, Places::of(&self.figures));
        pieces.push(Piece::new(models.panel, places.panel));
        let mut screen = Piece::new(models.screen, places.panel);
        if state.machine.powered() {
            pieces.push(Piece::new(models.screen_lines, places.panel));
        } else {
            screen.tint = Some(tokens::BEZEL);
        }
        pieces.push(screen);
        if state.machine.key_turned() {
            let turned = Affine3A::from_rotation_y(std::f32::consts::FRAC_PI_2);
            pieces.push(Piece::new(models.key, places.key * turned));
        }
        // Both emergency stops are one circuit; the core knows one latch.
        let pressed = if state.machine.emergency() {
            PRESSED_IN
        } else {
            0.0
        };
        for stop in places.stops {
            pieces.push(Piece::new(models.stop_plate, stop));
            pieces.push(Piece::new(
                models.stop_button,
                stop * at([0.0, pressed, 0.0]),
            ));
        }
    }

    fn safety(&self, scene: &Scene, pieces: &mut Vec<Piece>) {
        let (models, places) = (&self.models, Places::of(&self.figures));
        let state = scene.state;
        pieces.push(Piece::new(models.isolator_plate, places.isolator));
        let off = if state.machine.powered() {
            0.0
        } else {
            std::f32::consts::FRAC_PI_2
        };
        let handle = places.isolator * Affine3A::from_rotation_y(off);
        pieces.push(Piece::new(models.isolator_handle, handle));
        if state.person.lock_on {
            pieces.push(Piece::new(models.lock, places.isolator));
        }
        pieces.push(Piece::new(models.prop, self.prop(state)));
        let cord = if state.person.cord {
            models.cord_worn
        } else {
            models.cord_hung
        };
        pieces.push(Piece::new(cord, Affine3A::IDENTITY));
    }

    /// The prop under the lift, drawn out to the rack's base, or in its clips.
    pub(crate) fn prop(&self, state: &State) -> Affine3A {
        let places = Places::of(&self.figures);
        let (foot, length) = if state.machine.propped() {
            let foot = places.prop_set;
            let base = self.rack_origin(state).z + rack::heights(&self.figures)[0];
            (foot, (base - foot[2]).max(0.02))
        } else {
            (places.prop_rest, fittings::PROP_DRAWN_IN)
        };
        at(foot) * Affine3A::from_scale(Vec3::new(1.0, 1.0, length))
    }

    fn tower(&self, state: &State, pieces: &mut Vec<Piece>) {
        for (number, lit) in state.machine.lamps().into_iter().enumerate() {
            let foot = fittings::lamp_foot(&self.figures, number);
            let mut lamp = Piece::new(self.models.lamps[usize::from(lit)], at(foot));
            lamp.tint = lit.then_some(LAMPS[number]);
            pieces.push(lamp);
        }
    }

    /// The numbered discs; the person's own has footprints.
    fn places(&self, scene: &Scene, pieces: &mut Vec<Piece>) {
        for (number, stand) in IN_ORDER.into_iter().enumerate() {
            let [x, y] = room::disc_at(stand);
            let mine = scene.shows == Shows::Seen && scene.state.person.stand == stand;
            let shape = if mine {
                self.models.my_disc
            } else {
                self.models.discs[number]
            };
            pieces.push(Piece::new(shape, at([x, y, 0.0])));
        }
    }

    /// A board where it lies, bent and tilted as its condition says.
    pub(crate) fn board_piece(&self, scene: &Scene, drawn: &Drawn) -> Piece {
        let kind = &self.machine.kinds()[drawn.board.kind as usize];
        let shape = self.board_shape(drawn.board);
        let state = scene.state;
        let mut piece = match drawn.at {
            Lies::Slot(at_half) => {
                let tail = self.figures.rest_leads[at_half.half as usize] - metres(kind.length);
                let height = f32::from(at_half.slot) * self.figures.pitch;
                let place = at(self.rack_origin(state) + Vec3::new(tail, 0.0, height));
                self.between_rails(state, drawn.board, Piece::new(shape, place))
            }
            Lies::Belts(lead) => {
                let place = at([metres(lead) - metres(kind.length), 0.0, BELT_HEIGHT]);
                self.between_rails(state, drawn.board, Piece::new(shape, place))
            }
            Lies::Hand => Piece::new(shape, self.in_hand(scene, kind)),
        };
        if let Some(BoardFault::Bowed(rise)) = self.machine.odd(drawn.board.kind) {
            piece.bow.along = Arch {
                rise: metres(rise),
                span: metres(kind.length),
            };
        }
        piece
    }

    fn board_shape(&self, board: Board) -> ShapeId {
        let forms = self.models.boards[board.kind as usize];
        let form = Form::of(board.condition);
        let number = Form::ALL.iter().position(|&known| known == form);
        forms[number.unwrap_or(0)]
    }

    /// A board between the rails: bowed by the exact rise while they press it, tilted if it fell or
    /// sprang out.
    fn between_rails(&self, state: &State, board: Board, flat: Piece) -> Piece {
        let kind = &self.machine.kinds()[board.kind as usize];
        let condition = board.condition;
        let short = kind.width - state.machine.width(&self.machine);
        let mut piece = flat;
        let wide = metres(kind.width);
        if condition < Condition::SprungOut && short.0 > 0 {
            let bow = bow_at_shortening(kind.width, kind.thickness, short);
            piece.bow.across = Arch {
                rise: bow.map_or(0.0, |bow| metres(bow.rise)),
                span: wide,
            };
        }
        let tilt = match condition {
            // One side is down by a slot, or as far as the next slot lets it.
            Condition::Dropped => -(self.figures.pitch * 0.8 / wide),
            Condition::SprungOut => self.figures.pitch * 0.5 / wide,
            _ => 0.0,
        };
        let slanted = match condition {
            Condition::Collided => 0.03,
            Condition::Sheared => -0.02,
            _ => 0.0,
        };
        if let Some(BoardFault::Askew(more)) = self.machine.odd(board.kind) {
            // Turned so far that it is as much wider as the core says.
            let turn = metres(more) / metres(kind.length);
            piece.place *= Affine3A::from_quat(Quat::from_rotation_z(turn));
        }
        piece.place *= Affine3A::from_quat(Quat::from_rotation_x(tilt));
        piece.place *= Affine3A::from_quat(Quat::from_rotation_y(slanted));
        piece
    }

    /// A board held in front of the eye, low in the picture.
    fn in_hand(&self, scene: &Scene, kind: &BoardKind) -> Affine3A {
        let shot = self.shot(scene.gaze, scene.state);
        let ahead = (shot.aim - shot.eye).normalize_or(Vec3::Y);
        let right = ahead.cross(Vec3::Z).normalize_or(Vec3::X);
        let up = right.cross(ahead);
        // Far enough and low enough to leave the middle of the picture free.
        let far = 0.34;
        let low = far * (shot.fov_y / 2.0).tan();
        let middle = shot.eye + ahead * far - up * low * 0.88 + right * low * 0.25;
        let size = 0.55 * low;
        let scale = size / metres(kind.width).max(metres(kind.length)) * 1.6;
        let turned = Quat::from_mat3(&bevy::math::Mat3::from_cols(
            right,
            (ahead * 0.75 + up * 0.66).normalize(),
            right.cross((ahead * 0.75 + up * 0.66).normalize()),
        ));
        let centre = Vec3::new(-metres(kind.length) / 2.0, -metres(kind.width) / 2.0, 0.0);
        Affine3A::from_scale_rotation_translation(Vec3::splat(scale), turned, middle)
            * Affine3A::from_translation(centre)
    }
}
