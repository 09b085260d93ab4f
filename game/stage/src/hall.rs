//! What stands in the hall, and how it follows from the core's state.
//!
//! - [`Hall`] holds the shapes of one machine; [`Hall::frame`] gives what is drawn for a [`Scene`].
//! - Everything that moves stands where the core says that it is now. Nothing is a tween.
//! - [`Shows::Seen`] draws a board only where the core says that it is seen.
//! - [`Part`]s have names and can be touched: [`Hall::touch`].

mod belts;
mod board;
mod cabinet;
mod count;
mod cues;
mod draft;
mod figures;
mod fittings;
mod models;
mod neighbours;
mod part;
mod pick;
mod pieces;
mod rack;
mod room;
mod seen;
mod view;

use std::sync::Arc;

use rackproof_buffer::Machine;
use rackproof_drill::{State, World};

pub use count::{Filter, POINTS, Patches, belt_mark, patch_mark, slot_mark};
pub use cues::{CUES_DRAWN, EXIT_MARK, cue_mark};
pub use part::Part;
pub use view::{CAMERA_MOVE_SECONDS, Gaze, Turn, View};

use self::{figures::Figures, models::Models};
use crate::frame::{Area, Frame};
use crate::kit::Kit;

/// What the picture may show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shows {
    /// What the person sees: guided, practice, exam.
    Seen,
    /// All that is true, fully lit: debrief, trainer.
    All,
}

/// What a picture is of.
#[derive(Clone, Copy)]
pub struct Scene<'s> {
    /// The world that the hall was made for.
    pub world: &'s World,
    /// The state now.
    pub state: &'s State,
    /// Where the picture is taken from.
    pub gaze: Gaze,
    /// What it may show.
    pub shows: Shows,
}

/// The hall of one machine.
pub struct Hall {
    figures: Figures,
    machine: Machine,
    models: Models,
    kit: Arc<Kit>,
}

impl Hall {
    /// The hall of a world's machine. Takes some tenths of a second: once a machine.
    pub fn new(world: &World) -> Hall {
        let figures = Figures::of(world);
        let (models, kit) = models::make(world, &figures);
        Hall {
            figures,
            machine: world.machine().clone(),
            models,
            kit: Arc::new(kit),
        }
    }

    /// What the pass draws from.
    pub fn kit(&self) -> Arc<Kit> {
        Arc::clone(&self.kit)
    }

    /// What is drawn, for an area of the target in physical pixels.
    pub fn frame(&self, scene: &Scene, area: Area) -> Frame {
        let boards = self.boards_drawn(scene);
        let mut pieces = self.pieces(scene);
        pieces.extend(boards.iter().map(|drawn| self.board_piece(scene, drawn)));
        Frame {
            pieces,
            shot: self.shot(scene.gaze, scene.state),
            light: self.light(scene),
            area,
            flat: false,
        }
    }
}
