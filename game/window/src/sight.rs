//! What of the hall is shown: from where, how much, and what the pointer touches.

use bevy::math::Vec2;
use rackproof_drill::{Intent, State, World};
use rackproof_panel::PartRow;
use rackproof_phrases::text;
use rackproof_stage::{
    frame::{Area, Frame},
    hall::{CAMERA_MOVE_SECONDS, Gaze, Hall, Part, Scene, Shows, Turn, View},
};
use rackproof_words::Words;

use crate::session::{Screen, Session};

/// The picture's way from one view to the next.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Eyes {
    view: View,
    turn: Turn,
    from: Option<(View, Turn, f32)>,
}

impl Eyes {
    /// Eyes that rest at a view.
    pub(crate) fn at(view: View) -> Eyes {
        Eyes {
            view,
            turn: Turn::default(),
            from: None,
        }
    }

    /// Whether the picture is still on its way.
    pub(crate) fn move_on(&self) -> bool {
        self.from.is_some()
    }

    /// Turns the eyes to a view, and lets real time pass, in s. `cuts`: no moves, only cuts.
    pub(crate) fn turn_to(&mut self, view: View, turn: Turn, seconds: f32, cuts: bool) {
        if view != self.view {
            self.from = (!cuts).then_some((self.view, self.turn, 0.0));
            self.view = view;
        } else if let Some((_, _, share)) = &mut self.from {
            *share += seconds / CAMERA_MOVE_SECONDS;
            if *share >= 1.0 || cuts {
                self.from = None;
            }
        }
        self.turn = turn;
    }

    /// Where the picture is taken from now.
    pub(crate) fn gaze(&self) -> Gaze {
        Gaze {
            view: self.view,
            turn: self.turn,
            from: self.from,
        }
    }
}

/// What is to be seen of a session: its world and state, from where, and how much.
pub(crate) struct Looked<'s> {
    pub(crate) world: &'s World,
    pub(crate) state: State,
    pub(crate) view: View,
    pub(crate) shows: Shows,
}

/// What is to be seen now.
pub(crate) fn looked(session: &Session) -> Option<Looked<'_>> {
    match &session.screen {
        Screen::Course => None,
        Screen::Play(play) => {
            let state = play.attempt().state().world;
            Some(Looked {
                world: play.attempt().world(),
                view: View::of(state.person.stand, session.aim()),
                state,
                shows: Shows::Seen,
            })
        }
        Screen::Watch(watch) => {
            let state = watch.state().world;
            Some(Looked {
                world: watch.history().judged().world(),
                view: View::of(state.person.stand, session.aim()),
                state,
                shows: Shows::Seen,
            })
        }
        Screen::Moment(moment) => {
            let state = moment.state().world;
            Some(Looked {
                world: moment.history().judged().world(),
                view: View::of(state.person.stand, session.aim()),
                state,
                shows: Shows::Seen,
            })
        }
        Screen::Review(review) => Some(Looked {
            world: review.history().judged().world(),
            view: View::CloseBy,
            state: review.state().world,
            shows: Shows::All,
        }),
    }
}

/// The turn of the eyes that a person asked for, in degrees.
pub(crate) fn turn_of((left, up): (f32, f32)) -> Turn {
    Turn {
        left: left.to_radians(),
        up: up.to_radians(),
    }
}

/// The frame of what is looked at.
pub(crate) fn frame_of(hall: &Hall, looked: &Looked<'_>, eyes: &Eyes, area: Area) -> Frame {
    hall.frame(&scene_of(looked, eyes), area)
}

fn scene_of<'s>(looked: &'s Looked<'_>, eyes: &Eyes) -> Scene<'s> {
    Scene {
        world: looked.world,
        state: &looked.state,
        gaze: eyes.gaze(),
        shows: looked.shows,
    }
}

/// The part at a point of the target, in physical pixels, and what can be done with it.
pub(crate) fn touched(
    hall: &Hall,
    looked: &Looked<'_>,
    eyes: &Eyes,
    area: Area,
    point: Vec2,
) -> Option<Part> {
    let scene = scene_of(looked, eyes);
    let (origin, direction) = hall.shot(eyes.gaze(), &looked.state).ray(area, point);
    hall.touch(&scene, origin, direction)
}

/// A part's name in words.
pub(crate) fn name_of(part: Part, words: &Words) -> String {
    text(words, &part.name())
}

/// All parts as rows of a list, with what can be done at each.
pub(crate) fn rows_of(
    hall: &Hall,
    looked: &Looked<'_>,
    eyes: &Eyes,
    offers: &[Intent],
    words: &Words,
) -> Vec<PartRow> {
    let stand = looked.state.person.stand;
    let row = |part: Part| PartRow {
        name: name_of(part, words),
        offers: part.intents(stand, offers),
    };
    let parts = hall.parts(&scene_of(looked, eyes));
    parts.into_iter().map(row).collect()
}
