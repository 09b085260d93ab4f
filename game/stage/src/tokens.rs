//! Colours of the hall and widths of its ink: the only place where they stand.

/// A colour: red, green, blue, each 0 to 255 (sRGB).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour(pub [u8; 3]);

/// A colour as it is written: `0xRRGGBB`.
const fn hex(code: u32) -> Colour {
    Colour([(code >> 16) as u8, (code >> 8) as u8, code as u8])
}

/// Faces that look up.
pub const TOP: Colour = hex(0xF8F8F5);
/// Faces of covers.
pub const FRONT: Colour = hex(0xECECE8);
/// Extruded profiles, plinths.
pub const SIDE: Colour = hex(0xD8D8D4);
/// The floor.
pub const FLOOR: Colour = hex(0xE0E0DC);
/// The wall.
pub const WALL: Colour = hex(0xEFEFEC);
/// What no light reaches.
pub const DARK: Colour = hex(0x77747E);
/// What the torch lights.
pub const TORCHLIGHT: Colour = hex(0xFFF6D2);
/// The tinted hatch.
pub const TINTED: Colour = hex(0x56535E);
/// How much of what is behind it the tinted hatch covers, 0 to 1.
pub const TINTED_COVERS: f32 = 0.88;
/// How much of what is behind it clear glass covers, 0 to 1.
pub const CLEAR_COVERS: f32 = 0.10;
/// Clear glass.
pub const CLEAR: Colour = hex(0xC9CBC9);
/// Outlines, black parts, wheels, belts.
pub const INK: Colour = hex(0x231F2A);
/// Belts and plastic parts.
pub const RUBBER: Colour = hex(0x4B4653);
/// Drawn steel: screws, columns, ledges.
pub const STEEL: Colour = hex(0xC4C4C6);
/// The ledges of the rack: darker than what is behind them, so that slots can be counted.
pub const LEDGE: Colour = hex(0xA9A8AE);
/// Floor marking.
pub const MARKING: Colour = hex(0xC9C8CC);
/// The ground of signs and discs.
pub const SHEET: Colour = hex(0xF7F7F5);
/// Emergency stop, and the lamp that goes with an alarm.
pub const RED: Colour = hex(0xA61C17);
/// Under an emergency stop, and the lamp for what is abnormal.
pub const YELLOW: Colour = hex(0xF4BC1C);
/// The lamp that calls for a person; the tray for boards in doubt.
pub const BLUE: Colour = hex(0x1A5496);
/// The lamp of a machine at work.
pub const GREEN: Colour = hex(0x2C7A4B);
/// A lamp that is out.
pub const LAMP_OUT: Colour = hex(0xB9B8BC);
/// The panel's housing.
pub const PANEL: Colour = hex(0xC9CBC9);
/// The panel's screen while it is lit.
pub const SCREEN: Colour = hex(0xDCDEDC);
/// The panel's screen while it is dark, and its frame.
pub const BEZEL: Colour = hex(0x3B3941);
/// Copper: the bonding stud.
pub const COPPER: Colour = hex(0xA9623F);

/// Colours of boards by the names of their kinds. A kind of another name is grey.
const BOARDS: [(&str, Colour); 5] = [
    ("wren", hex(0x5C8A5E)),
    ("heron", hex(0x6C8FA9)),
    ("kestrel", hex(0xA9623F)),
    ("plover", hex(0xC9AE69)),
    ("raven", hex(0x3A3741)),
];

/// The colour of a kind of board.
pub fn board(name: &str) -> Colour {
    let found = BOARDS.iter().find(|(known, _)| *known == name);
    found.map_or(hex(0x7E7A86), |(_, colour)| *colour)
}

/// Width of ink at an outline, in px at scale 1.
pub const OUTLINE_PX: f32 = 2.4;
/// Width of ink inside an outline, in px at scale 1.
pub const INSIDE_PX: f32 = 1.1;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_of_board_has_its_own_colour() {
        for (at, (name, colour)) in BOARDS.iter().enumerate() {
            assert_eq!(board(name), *colour);
            assert!(
                BOARDS[..at].iter().all(|(_, other)| other != colour),
                "{name}"
            );
        }
        assert_eq!(board("robin"), hex(0x7E7A86));
    }
}
