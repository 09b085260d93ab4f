//! What a person has on: shoes, torch, lock, cord, key, or an empty hand.

use egui::{Painter, Rect};

use super::plate::{Inks, Plate};
use crate::tokens;

/// A shoe from the side, with its strap.
pub fn shoe(painter: &Painter, rect: Rect, inks: Inks) {
    let plate = Plate::new(painter, rect, 24.0, 20.0);
    let outline = [
        (3.0, 4.0),
        (10.0, 4.0),
        (12.6, 9.6),
        (20.0, 11.6),
        (21.6, 16.0),
        (3.0, 16.0),
    ];
    plate.outline(&outline, 1.8, inks.ink);
    plate.line(&[(3.0, 9.4), (9.6, 9.4), (9.6, 16.0)], 1.8, inks.ink);
}

/// A torch; lit, it has its light.
pub fn torch(painter: &Painter, rect: Rect, lit: bool, inks: Inks) {
    let plate = Plate::new(painter, rect, 24.0, 20.0);
    let head = [(7.0, 4.6), (12.0, 7.4), (12.0, 12.6), (7.0, 15.4)];
    plate.shape(&head, inks.ink, 0.0, tokens::CLEAR);
    plate.block(12.0, 7.6, 11.0, 4.8, inks.ink);
    if lit {
        plate.line(&[(5.0, 10.0), (0.6, 10.0)], 1.6, inks.ink);
        plate.line(&[(5.0, 6.0), (1.4, 3.4)], 1.6, inks.ink);
        plate.line(&[(5.0, 14.0), (1.4, 16.6)], 1.6, inks.ink);
    }
}

/// A hand that holds nothing.
pub fn empty_hand(painter: &Painter, rect: Rect, inks: Inks) {
    let plate = Plate::new(painter, rect, 20.0, 20.0);
    let frame = [(1.0, 1.0), (19.0, 1.0), (19.0, 19.0), (1.0, 19.0)];
    plate.shape(&frame, tokens::CLEAR, 1.4, inks.pencil);
}

/// A padlock, shut.
pub fn padlock(painter: &Painter, rect: Rect, inks: Inks) {
    let plate = Plate::new(painter, rect, 20.0, 20.0);
    plate.arc((10.0, 7.0), 4.4, [-180.0, 0.0], plate.stroke(2.2, inks.ink));
    plate.line(&[(5.6, 7.0), (5.6, 10.0)], 2.2, inks.ink);
    plate.line(&[(14.4, 7.0), (14.4, 10.0)], 2.2, inks.ink);
    plate.block(2.6, 9.4, 14.8, 10.0, inks.ink);
}

/// The bonding cord with its plug; plugged, it ends in the stud.
pub fn cord(painter: &Painter, rect: Rect, plugged: bool, inks: Inks) {
    let plate = Plate::new(painter, rect, 24.0, 20.0);
    plate.arc((6.0, 10.0), 4.6, [-90.0, 90.0], plate.stroke(1.8, inks.ink));
    plate.line(&[(6.0, 5.4), (1.0, 5.4)], 1.8, inks.ink);
    plate.line(&[(6.0, 14.6), (12.0, 14.6)], 1.8, inks.ink);
    plate.block(11.4, 12.2, 5.0, 4.8, inks.ink);
    let stud = if plugged { 16.4 } else { 19.4 };
    plate.block(stud, 13.6, 2.0, 2.0, inks.ink);
    plate.ring((stud + 3.4, 14.6), 2.0, 1.6, inks.ink);
}

/// The setter's key switch; turned, its slot lies across.
pub fn key_switch(painter: &Painter, rect: Rect, turned: bool, inks: Inks) {
    let plate = Plate::new(painter, rect, 32.0, 32.0);
    plate.disc(16.0, 16.0, 14.4, inks.ground);
    plate.ring((16.0, 16.0), 14.4, 2.0, inks.ink);
    if turned {
        plate.block(4.0, 14.0, 24.0, 4.0, inks.ink);
    } else {
        plate.block(14.0, 4.0, 4.0, 24.0, inks.ink);
    }
}
