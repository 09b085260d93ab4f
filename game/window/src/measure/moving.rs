//! Keeps everything moving: somebody looks into a mouth while a sweep runs, then the rails move.

use bevy::ecs::system::{Res, ResMut};
use rackproof_buffer::{Board, Button, HalfSlot, Mode};
use rackproof_drill::{Aim, Intent, Stand};
use rackproof_panel::{Way, Wish};

use super::{Measurement, Part};
use crate::{
    app::Open,
    session::{Screen, Session},
};

/// Keeps everything moving while that is measured: somebody stands at a mouth with the torch, a
/// sweep runs past boards that no beam sees, and then the rails move.
pub(super) fn drive(mut open: ResMut<Open>, measurement: Res<Measurement>) {
    if !matches!(measurement.part, Part::Warming(_) | Part::Moving(_)) || open.0.moves() {
        return;
    }
    open.0.wish(Wish::Do(Intent::Press(Button::Start)));
    if open.0.moves() {
        return;
    }
    let exercise = open.0.exercise();
    let unseen = exercise.drill.variants.iter().position(|variant| {
        let sees = |at: &HalfSlot, board: &Board| exercise.machine.sweep_sees(board.kind, at.half);
        !variant.boards.iter().any(|(at, board)| sees(at, board))
    });
    open.0.wish(Wish::Leave);
    open.0.variant = unseen;
    sweep(&mut open.0);
}

/// Begins a drill, looks into a mouth, and begins a sweep from there.
fn sweep(session: &mut Session) {
    session.wish(Wish::Begin(Way::Practice));
    let deeds = [
        Intent::Torch(true),
        Intent::Press(Button::Mode(Mode::Changeover)),
        Intent::Press(Button::Reset),
        Intent::Press(Button::Choose(session.exercise().drill.next)),
        Intent::Press(Button::Load),
        Intent::Walk(Stand::Outfeed),
        Intent::Look(Aim::Mouth),
        Intent::Press(Button::Start),
    ];
    for deed in deeds {
        session.wish(Wish::Do(deed));
        if matches!(&session.screen, Screen::Play(play) if play.doing().is_some()) {
            session.wish(Wish::Wait);
        }
    }
}
