//! Where the picture is taken from: the standing places, the aims of a look, and views that only
//! course page, debrief and trainer have.

use bevy::math::{Quat, Vec3};
use rackproof_buffer::{Half, Side};
use rackproof_drill::{Aim, Stand, State};

use super::Hall;
use super::figures::BELT_HEIGHT;
use crate::frame::Shot;

/// How long the picture takes from one view to the next, in seconds. With reduced motion: a cut.
pub const CAMERA_MOVE_SECONDS: f32 = 0.35;
/// Height of the eyes of somebody who stands.
const STANDING: f32 = 1.62;
/// Angle of view of somebody who leans in at the hatch, and, for a rack that takes more, how much
/// more than it. In degrees.
const LEAN_ANGLE: f32 = 44.0;
const LEAN_MARGIN: f32 = 6.0;
/// How far upright eyes turn to either side and up or down, in radians.
const TURN_STANDING: [f32; 2] = [1.2, 0.6];
/// The same for eyes that look into the rack: what a look shows lies ahead.
const TURN_LOOKING: [f32; 2] = [0.35, 0.25];

/// A view.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum View {
    /// Upright at a standing place.
    Stand(Stand),
    /// Leaning in at the open hatch, to the infeed side or to the outfeed side.
    Lean(Half),
    /// Bent down at a mouth.
    Mouth(Side),
    /// The whole machine: course page and debrief.
    Overview,
    /// The rack through the hatch: debrief and trainer.
    CloseBy,
}

/// How far the person has turned their head.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Turn {
    /// To the left, in radians.
    pub left: f32,
    /// Up, in radians.
    pub up: f32,
}

impl View {
    /// All views.
    pub const ALL: [View; 11] = [
        View::Stand(Stand::Panel),
        View::Stand(Stand::Infeed),
        View::Stand(Stand::Outfeed),
        View::Stand(Stand::Hatch),
        View::Stand(Stand::Isolator),
        View::Lean(Half::Infeed),
        View::Lean(Half::Outfeed),
        View::Mouth(Side::Infeed),
        View::Mouth(Side::Outfeed),
        View::Overview,
        View::CloseBy,
    ];

    /// The standing place and the aim of a look from this view. `None` if nobody looks from there.
    pub fn aim(self) -> Option<(Stand, Aim)> {
        match self {
            View::Lean(Half::Infeed) => Some((Stand::Hatch, Aim::LeanInfeed)),
            View::Lean(Half::Outfeed) => Some((Stand::Hatch, Aim::LeanOutfeed)),
            View::Mouth(Side::Infeed) => Some((Stand::Infeed, Aim::Mouth)),
            View::Mouth(Side::Outfeed) => Some((Stand::Outfeed, Aim::Mouth)),
            View::Stand(_) | View::Overview | View::CloseBy => None,
        }
    }

    /// The view of a person who stands there and looks so, or stands upright.
    pub fn of(stand: Stand, aim: Option<Aim>) -> View {
        match (stand, aim) {
            (Stand::Hatch, Some(Aim::LeanInfeed)) => View::Lean(Half::Infeed),
            (Stand::Hatch, Some(Aim::LeanOutfeed)) => View::Lean(Half::Outfeed),
            (Stand::Infeed, Some(Aim::Mouth)) => View::Mouth(Side::Infeed),
            (Stand::Outfeed, Some(Aim::Mouth)) => View::Mouth(Side::Outfeed),
            _ => View::Stand(stand),
        }
    }

    fn turns(self) -> [f32; 2] {
        if self.aim().is_some() {
            TURN_LOOKING
        } else {
            TURN_STANDING
        }
    }
}

/// Where the picture is on its way from one view to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gaze {
    /// The view, or the one that it is on its way to.
    pub view: View,
    /// How far the head is turned there.
    pub turn: Turn,
    /// The view that it comes from, its turn, and how much of the way is behind it, 0 to 1.
    pub from: Option<(View, Turn, f32)>,
}

impl From<View> for Gaze {
    fn from(view: View) -> Gaze {
        Gaze {
            view,
            turn: Turn::default(),
            from: None,
        }
    }
}

impl Hall {
    /// What the picture is taken with.
    pub fn shot(&self, gaze: Gaze, s: &State) -> Shot {
        let to = self.shot_of(gaze.view, gaze.turn, s);
        match gaze.from {
            Some((view, turn, share)) => between(&self.shot_of(view, turn, s), &to, share),
            None => to,
        }
    }

    fn shot_of(&self, view: View, turn: Turn, s: &State) -> Shot {
        let shot = match view {
            View::Stand(stand) => standing(stand),
            View::Lean(half) => self.leaning(half, s),
            View::Mouth(side) => self.at_mouth(side, s),
            View::Overview => shot([1.85, -3.0, 2.0], [0.34, -0.1, 0.84], 42.0),
            View::CloseBy => {
                let middle = self.figures.first_slot(&self.machine, s) + self.figures.stack() / 2.0;
                let aim = [self.figures.length / 2.0, 0.1, middle];
                shot([0.36, -1.15, middle + 0.44], aim, 27.0)
            }
        };
        turned(shot, turn, view.turns())
    }

    fn leaning(&self, half: Half, s: &State) -> Shot {
        let figures = &self.figures;
        let first = figures.first_slot(&self.machine, s);
        let eye = figures.hatch_eyes[half as usize] + Vec3::Z * first;
        let [from, to] = figures.half(half);
        let aim = |height: f32| [f32::midpoint(from, to), 0.02, height];
        // Below the middle of the rack, as long as its lowest and its highest slot are both in the
        // picture.
        let deep = 0.02 - eye.y;
        let slope = |height: f32| ((first + height - eye.z) / deep).atan().to_degrees();
        let low = figures.stack() * 0.4;
        let ends = [slope(0.0), slope(figures.stack())];
        if ends
            .iter()
            .all(|end| (end - slope(low)).abs() < LEAN_ANGLE / 2.0)
        {
            return shot(eye.to_array(), aim(first + low), LEAN_ANGLE);
        }
        let middle = f32::midpoint(ends[0], ends[1]).to_radians();
        let degrees = ends[1] - ends[0] + LEAN_MARGIN;
        shot(
            eye.to_array(),
            aim(eye.z + deep * middle.tan()),
            degrees.max(LEAN_ANGLE),
        )
    }

    fn at_mouth(&self, side: Side, s: &State) -> Shot {
        let figures = &self.figures;
        let eye = figures.mouth_eyes[side as usize] + Vec3::Z * BELT_HEIGHT;
        let across = super::figures::metres(s.machine.width(&self.machine)) / 2.0;
        let aim = [figures.length / 2.0, across, BELT_HEIGHT];
        shot(eye.to_array(), aim, 24.0)
    }
}

/// A little behind the person, so that their own place and the ways to the others are in the
/// picture. What a look shows does not hang on it: nothing in the rack is seen upright.
fn standing(stand: Stand) -> Shot {
    match stand {
        Stand::Panel => shot([1.15, -2.75, STANDING], [0.52, -0.2, 0.82], 51.0),
        // The window's cards lie over the left of the picture: what stands upstream is beside them.
        Stand::Infeed => shot([-0.75, -2.70, STANDING], [-0.40, -0.2, 0.82], 51.0),
        Stand::Outfeed => shot([1.70, -2.70, STANDING], [0.95, -0.2, 0.82], 51.0),
        Stand::Hatch => shot([0.15, -2.75, STANDING], [0.25, -0.2, 0.82], 51.0),
        Stand::Isolator => shot([0.68, -2.15, 1.45], [0.46, -0.3, 0.62], 48.0),
    }
}

/// A shot with its vertical angle in degrees.
fn shot(eye: [f32; 3], aim: [f32; 3], degrees: f32) -> Shot {
    Shot {
        eye: Vec3::from_array(eye),
        aim: Vec3::from_array(aim),
        fov_y: degrees.to_radians(),
    }
}

fn turned(shot: Shot, turn: Turn, most: [f32; 2]) -> Shot {
    let way = shot.aim - shot.eye;
    let left = turn.left.clamp(-most[0], most[0]);
    let up = turn.up.clamp(-most[1], most[1]);
    let aside = way.cross(Vec3::Z).normalize_or(Vec3::X);
    let way = Quat::from_rotation_z(left) * (Quat::from_axis_angle(aside, up) * way);
    Shot {
        aim: shot.eye + way,
        ..shot
    }
}

/// On the way from one shot to another; begins and ends gently.
fn between(from: &Shot, to: &Shot, share: f32) -> Shot {
    let share = share.clamp(0.0, 1.0);
    let share = share * share * (3.0 - 2.0 * share);
    Shot {
        eye: from.eye.lerp(to.eye, share),
        aim: from.aim.lerp(to.aim, share),
        fov_y: from.fov_y + (to.fov_y - from.fov_y) * share,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_look_and_its_view_are_each_others_way_back() {
        let mut looks = 0;
        for view in View::ALL {
            if let Some((stand, aim)) = view.aim() {
                assert_eq!(View::of(stand, Some(aim)), view);
                looks += 1;
            }
        }
        assert_eq!(looks, 4);
        assert_eq!(
            View::of(Stand::Panel, Some(Aim::Mouth)),
            View::Stand(Stand::Panel)
        );
    }

    #[test]
    fn a_move_begins_and_ends_at_its_views() {
        let (from, to) = (standing(Stand::Hatch), standing(Stand::Panel));
        assert_eq!(between(&from, &to, 0.0), from);
        assert_eq!(between(&from, &to, 1.0), to);
        let middle = between(&from, &to, 0.5);
        assert!(middle.eye.distance(from.eye.midpoint(to.eye)) < 1e-5);
    }

    #[test]
    fn a_head_turns_so_far_and_no_farther() {
        let far = Turn {
            left: 9.0,
            up: -9.0,
        };
        let there = standing(Stand::Hatch);
        let once = turned(there, far, TURN_LOOKING);
        let way = (there.aim - there.eye).angle_between(once.aim - once.eye);
        assert!(way > 0.3 && way < 0.5, "{way}");
        assert!(once.aim.z < there.aim.z, "down");
    }
}
