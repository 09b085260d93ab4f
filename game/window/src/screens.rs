//! The screens of a picture: the page is run with what happened, what it asks for is done, and if
//! that was something, the page is run once more, so that the picture shows what came of it.

use std::time::Duration;

use bevy::{
    app::AppExit,
    ecs::{
        message::{MessageCursor, MessageWriter, Messages},
        resource::Resource,
        system::{Query, Res, ResMut},
    },
    input::keyboard::KeyboardInput,
    window::RequestRedraw,
};
use bevy_egui::{EguiContext, EguiFullOutput, EguiInput};
use rackproof_panel::{Wish, fonts};
use rackproof_stage::frame::Area;

use crate::{
    app::{Open, Theatre, Time},
    clock::at_once,
    draw::{Drawn, draw},
    session::Session,
    shift::Shift,
};

/// What was asked for in this picture, and when egui wants the next one.
#[derive(Resource, Default)]
pub(crate) struct Asked {
    pub(crate) wishes: Vec<Wish>,
    pub(crate) again: Duration,
    pub(crate) area: Area,
    /// What egui was told, without what happened: as long as a page must be shown anew.
    shown: Option<egui::RawInput>,
}

/// The screens' context, and what goes into it and comes out.
type Screens<'w, 's> = Query<
    'w,
    's,
    (
        &'static mut EguiContext,
        &'static mut EguiInput,
        &'static mut EguiFullOutput,
    ),
>;

/// Runs the page with what happened.
pub(crate) fn show_page(
    open: Res<Open>,
    theatre: Option<ResMut<Theatre>>,
    time: Res<Time>,
    mut asked: ResMut<Asked>,
    mut screens: Screens,
    keys: Option<Res<Messages<KeyboardInput>>>,
    mut known: bevy::ecs::system::Local<Known>,
) {
    let Ok((mut context, mut input, mut output)) = screens.single_mut() else {
        return;
    };
    let context = context.get_mut();
    known.drop_repeated(&mut input.0.events);
    if let Some(keys) = &keys {
        let Known { shift, read, .. } = &mut *known;
        shift.mend(read.read(keys), &mut input.0.events);
    }
    if (context.zoom_factor() - open.0.preferences.scale).abs() > 1e-3 {
        context.set_zoom_factor(open.0.preferences.scale);
    }
    let mut input = std::mem::take(&mut input.0);
    let events = std::mem::take(&mut input.events);
    asked.shown = Some(input.clone());
    input.events = events;
    output.0 = Some(run(context, input, (&open.0, theatre, &time), &mut asked));
}

/// What was asked for has changed the page: it is shown as it is now, in the same picture.
pub(crate) fn show_anew(
    open: Res<Open>,
    theatre: Option<ResMut<Theatre>>,
    time: Res<Time>,
    mut asked: ResMut<Asked>,
    mut screens: Screens,
) {
    let (Ok((mut context, _, mut output)), Some(input)) =
        (screens.single_mut(), asked.shown.take())
    else {
        return;
    };
    let context = context.get_mut();
    let anew = run(context, input, (&open.0, theatre, &time), &mut asked);
    match &mut output.0 {
        Some(before) => before.append(anew),
        none => *none = Some(anew),
    }
}

/// One run of the page. A pass may run twice: it only adds to the wishes.
fn run(
    context: &egui::Context,
    input: egui::RawInput,
    (open, mut theatre, time): (&Session, Option<ResMut<Theatre>>, &Time),
    asked: &mut Asked,
) -> egui::FullOutput {
    let mut drawn = Drawn::default();
    let done = context.run_ui(input, |ui| {
        // Faces are there from the second pass on.
        if !fonts::ready(ui.ctx()) {
            return;
        }
        draw(
            open,
            theatre.as_deref_mut(),
            time.0.seconds(),
            ui,
            &mut drawn,
        );
    });
    asked.again = done
        .viewport_output
        .values()
        .map(|output| output.repaint_delay)
        .min()
        .unwrap_or(Duration::MAX);
    asked.area = drawn.area;
    asked.wishes.append(&mut drawn.wishes);
    done
}

/// What the page was told already.
#[derive(Default)]
pub(crate) struct Known {
    modifiers: Option<egui::Modifiers>,
    /// Whether Shift is down, and which keys were read.
    shift: Shift,
    read: MessageCursor<KeyboardInput>,
}

impl Known {
    /// Each picture tells the modifier keys anew, and egui then asks for one more picture: it would
    /// never rest.
    fn drop_repeated(&mut self, events: &mut Vec<egui::Event>) {
        events.retain(|event| match event {
            egui::Event::ModifiersChanged(now) => {
                let new = self.modifiers != Some(*now);
                self.modifiers = Some(*now);
                new
            }
            _ => true,
        });
    }
}

pub(crate) fn do_wishes(
    mut open: ResMut<Open>,
    mut asked: ResMut<Asked>,
    mut exits: MessageWriter<AppExit>,
) {
    if asked.wishes.is_empty() {
        asked.shown = None;
    }
    for wish in std::mem::take(&mut asked.wishes) {
        open.0.wish(wish);
    }
    if std::mem::take(&mut open.0.keeps) {
        crate::settings::keep(&open.0.preferences);
    }
    if open.0.quits {
        exits.write(AppExit::Success);
    }
}

/// egui asks for the next picture at once, even if it wants it later: `plan` has seen to that.
pub(crate) fn rest(asked: Res<Asked>, mut redraws: ResMut<Messages<RequestRedraw>>) {
    redraws.clear();
    if at_once(asked.again) || !asked.wishes.is_empty() {
        redraws.write(RequestRedraw);
    }
}
