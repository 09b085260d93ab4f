//! One picture of the screen: the page that is open, and the pointer in the hall.

use bevy::math::Vec2;
use rackproof_drill::{Intent, message::of_intent};
use rackproof_panel::{PartRow, Way, Wish, course_page, debrief_page, drill_page};
use rackproof_phrases::text;
use rackproof_stage::{frame::Area, hall::Part};

use crate::{
    app::Theatre,
    pages::{FromHall, with_course, with_moment, with_play, with_review, with_watch},
    session::{Screen, Session},
    sight::{looked, name_of, rows_of, touched},
};

/// How far a drag of one point turns the view, in degrees.
const DRAG: f32 = 0.15;

/// What a picture of the screen gave.
#[derive(Default)]
pub(crate) struct Drawn {
    pub(crate) wishes: Vec<Wish>,
    /// Where the hall is drawn, in physical pixels.
    pub(crate) area: Area,
}

/// Where the pointer is in the hall, and what it offers.
#[derive(Default)]
pub(crate) struct Pointer {
    part: Option<Part>,
    name: String,
    rect: Option<egui::Rect>,
    /// Several things can be done with the part that was pressed: which, and where it was pressed.
    menu: Option<(egui::Pos2, Vec<Intent>)>,
}

/// Shows the page that is open.
pub(crate) fn draw(
    session: &Session,
    theatre: Option<&mut Theatre>,
    seconds: f64,
    ui: &mut egui::Ui,
    drawn: &mut Drawn,
) {
    let Some(theatre) = theatre else { return };
    // Esc closes the menu and nothing else.
    let menu_open = theatre.pointer.menu.is_some();
    let none = egui::Modifiers::NONE;
    if menu_open && ui.input_mut(|input| input.consume_key(none, egui::Key::Escape)) {
        theatre.pointer.menu = None;
    }
    let scale = ui.ctx().pixels_per_point();
    let pressed = pointer_in_hall(session, theatre, scale, ui, drawn);
    let parts = parts_of(session, theatre);
    let name = theatre.pointer.part.map(|_| theatre.pointer.name.as_str());
    let hall = FromHall {
        pointed: name,
        parts: &parts,
        seconds,
    };
    let wishes = &mut drawn.wishes;
    let rect = match &session.screen {
        Screen::Course => with_course(session, |view| course_page(view, ui, wishes)),
        Screen::Play(play) => with_play(session, play, &hall, |view| drill_page(view, ui, wishes)),
        Screen::Watch(watch) => {
            with_watch(session, watch, &hall, |view| drill_page(view, ui, wishes))
        }
        Screen::Moment(moment) => {
            with_moment(session, moment, &hall, |view| drill_page(view, ui, wishes))
        }
        Screen::Review(review) => {
            with_review(session, review, |view| debrief_page(view, ui, wishes))
        }
    };
    drawn.area = area_of(rect, scale);
    theatre.pointer.rect = Some(rect);
    if let Some(at) = pressed {
        press(session, theatre, at, drawn);
    }
    menu(session, theatre, ui, drawn);
}

fn area_of(rect: egui::Rect, scale: f32) -> Area {
    let pixel = |value: f32| (value * scale).round().max(0.0) as u32;
    let (x, y) = (pixel(rect.min.x), pixel(rect.min.y));
    Area {
        x,
        y,
        width: pixel(rect.max.x).saturating_sub(x),
        height: pixel(rect.max.y).saturating_sub(y),
    }
}

/// The hall lies under all cards: it is asked first. Where it was pressed, if it was.
fn pointer_in_hall(
    session: &Session,
    theatre: &mut Theatre,
    scale: f32,
    ui: &mut egui::Ui,
    drawn: &mut Drawn,
) -> Option<egui::Pos2> {
    let rect = theatre.pointer.rect?;
    let sense = egui::Sense::click_and_drag();
    let response = ui.interact(rect, ui.id().with("hall"), sense);
    // A button that is held still asks for nothing.
    if response.dragged() && response.drag_delta() != egui::Vec2::ZERO {
        let way = response.drag_delta() * DRAG;
        drawn.wishes.push(Wish::Turn(way.x, way.y));
    }
    if response.double_clicked() {
        drawn.wishes.push(Wish::TurnBack);
    }
    let at = response.hover_pos();
    theatre.pointer.part = at.and_then(|at| {
        let looked = looked(session)?;
        let point = Vec2::new(at.x, at.y) * scale;
        touched(
            &theatre.hall,
            &looked,
            &theatre.eyes,
            area_of(rect, scale),
            point,
        )
    });
    if let Some(part) = theatre.pointer.part {
        theatre.pointer.name = name_of(part, &session.words);
    }
    response
        .clicked()
        .then(|| response.interact_pointer_pos())
        .flatten()
}

/// What can be done with the part that was pressed: one thing is done, of several one is chosen.
fn press(session: &Session, theatre: &mut Theatre, at: egui::Pos2, drawn: &mut Drawn) {
    let (Screen::Play(play), Some(part)) = (&session.screen, theatre.pointer.part) else {
        return;
    };
    let offers = play.attempt().offers();
    let stand = play.attempt().state().world.person.stand;
    let intents = part.intents(stand, &offers);
    match intents.as_slice() {
        [] => {}
        [one] => drawn.wishes.push(Wish::Do(*one)),
        _ => theatre.pointer.menu = Some((at, intents)),
    }
}

fn menu(session: &Session, theatre: &mut Theatre, ui: &egui::Ui, drawn: &mut Drawn) {
    let Some((at, intents)) = &theatre.pointer.menu else {
        return;
    };
    let Screen::Play(play) = &session.screen else {
        theatre.pointer.menu = None;
        return;
    };
    let (world, state) = (play.attempt().world(), &play.attempt().state().world);
    let mut chosen = None;
    let shown = egui::Area::new(egui::Id::new("hall menu"))
        .fixed_pos(*at)
        .constrain(true)
        .show(ui.ctx(), |ui| {
            egui::Frame::popup(ui.style()).show(ui, |ui| {
                for intent in intents {
                    let label = text(&session.words, &of_intent(world, state, *intent));
                    if ui.button(label).clicked() {
                        chosen = Some(*intent);
                    }
                }
            });
        });
    let elsewhere = shown.response.clicked_elsewhere();
    if let Some(intent) = chosen {
        drawn.wishes.push(Wish::Do(intent));
    }
    if chosen.is_some() || elsewhere {
        theatre.pointer.menu = None;
    }
}

/// The parts of the hall as a list, while it is open.
fn parts_of(session: &Session, theatre: &Theatre) -> Vec<PartRow> {
    if session.over != Some(rackproof_panel::Over::Parts) {
        return Vec::new();
    }
    let Some(looked) = looked(session) else {
        return Vec::new();
    };
    let offers = match &session.screen {
        Screen::Play(play) if play.way() != Way::Watch => play.attempt().offers(),
        _ => Vec::new(),
    };
    rows_of(
        &theatre.hall,
        &looked,
        &theatre.eyes,
        &offers,
        &session.words,
    )
}
