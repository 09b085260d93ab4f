//! Where the person stands, what the signals say, and the rack of the product's name.

use egui::{Color32, Painter, Rect};

use super::plate::{Inks, Plate};

/// A signal contact: bridged when closed, its arm raised when open. The word stands beside it.
pub fn contact(painter: &Painter, rect: Rect, closed: bool, inks: Inks) {
    let plate = Plate::new(painter, rect, 46.0, 18.0);
    let ink = inks.ink;
    let (left, right, y) = (14.0, 32.0, 11.0);
    if closed {
        plate.line(&[(0.0, y), (46.0, y)], 2.0, ink);
        plate.line(&[(left, y), (right, y)], 3.0, ink);
        plate.disc(left, y, 4.2, ink);
        plate.disc(right, y, 4.2, ink);
    } else {
        plate.line(&[(0.0, y), (left - 3.0, y)], 2.0, ink);
        plate.line(&[(right + 3.0, y), (46.0, y)], 2.0, ink);
        plate.ring((left, y), 3.2, 2.0, ink);
        plate.ring((right, y), 3.2, 2.0, ink);
        plate.line(&[(left + 2.4, y - 2.0), (right - 2.0, 1.6)], 2.6, ink);
    }
}

/// A place to stand: its number in a circle, or my footprints if I stand there.
pub fn standing_place(painter: &Painter, rect: Rect, number: u8, mine: bool, inks: Inks) {
    let plate = Plate::new(painter, rect, 28.0, 28.0);
    if mine {
        plate.disc(14.0, 14.0, 13.0, inks.ink);
        let inside = Rect::from_two_pos(plate.at(6.0, 5.0), plate.at(22.0, 23.0));
        footprints(painter, inside, inks.ground);
    } else {
        plate.disc(14.0, 14.0, 12.2, inks.ground);
        plate.ring((14.0, 14.0), 12.2, 1.8, inks.ink);
        plate.text((14.0, 14.0), &number.to_string(), 15.0, inks.ink);
    }
}

/// Two footprints, seen from above, toes up.
pub fn footprints(painter: &Painter, rect: Rect, colour: Color32) {
    let plate = Plate::new(painter, rect, 16.0, 18.0);
    for (x, lean) in [(4.2, 0.4), (11.8, -0.4)] {
        plate.oval((x + lean, 5.6), (2.6, 5.2), colour);
        plate.oval((x, 14.6), (2.0, 2.8), colour);
    }
}

/// The rack of the top bar: two uprights, a board seen, a slot believed above and below.
pub fn logo(painter: &Painter, rect: Rect, colour: Color32) {
    let plate = Plate::new(painter, rect, 22.0, 22.0);
    for x in [1.0, 18.6] {
        plate.block(x, 0.0, 2.4, 22.0, colour);
    }
    plate.block(5.4, 8.8, 11.2, 4.4, colour);
    for y in [2.6, 17.6] {
        for x in [5.4, 9.6, 13.8] {
            plate.block(x, y, 2.8, 1.8, colour);
        }
    }
}
