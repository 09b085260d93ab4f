//! The one place of colours, type steps and spaces.
//!
//! Grey is the machine, plum is the teaching, any other colour is abnormal and comes with a shape
//! and a word. Colours without a prefix are the window's; `PANEL_...` are the operator panel's own
//! set, which never has plum. Sizes are in points: one point is one pixel at window scale 1.0.

use egui::Color32;

/// Opaque colour of the figures that a designer writes, `0xRRGGBB`.
const fn hex(rgb: u32) -> Color32 {
    let [_, red, green, blue] = rgb.to_be_bytes();
    Color32::from_rgb(red, green, blue)
}

/// Ground of the window.
pub const HALL: Color32 = hex(0x00E6_E6E4);
/// Raised area: bars, cards.
pub const SHEET: Color32 = hex(0x00F7_F7F5);
/// Field, or selected row.
pub const PAPER: Color32 = hex(0x00FF_FFFF);
/// Text; what is true, seen or passed; the primary button.
pub const INK: Color32 = hex(0x0023_1F2A);
/// Second text.
pub const INK_2: Color32 = hex(0x004B_4653);
/// What is believed: dashes and hatch.
pub const PENCIL: Color32 = hex(0x0062_5E69);
/// Edge of a field.
pub const EDGE: Color32 = hex(0x007E_7A86);
/// Dividing rules only, never a control.
pub const HAIR: Color32 = hex(0x00C9_C8CC);
/// The teaching layer. Never on the drill screen of an exam.
pub const PLUM: Color32 = hex(0x006B_2A6E);
/// Rule on the teaching layer.
pub const PLUM_TINT: Color32 = hex(0x00C9_A6C9);
/// Danger, high alarm, stop rule. With a shape and a word.
pub const RED: Color32 = hex(0x00A6_1C17);
/// Ground of a bar or cell in danger.
pub const RED_TINT: Color32 = hex(0x00F8_E3E0);
/// Abnormal. Its shapes have an ink outline.
pub const YELLOW: Color32 = hex(0x00F4_BC1C);
/// Ground of a row that differs.
pub const YELLOW_TINT: Color32 = hex(0x00FB_F0CF);
/// A person must act; Reset and Clear.
pub const BLUE: Color32 = hex(0x001A_5496);
/// Lit lamp in the hall and safe-condition signs. Never "normal" on a screen.
pub const GREEN: Color32 = hex(0x002C_7A4B);

/// Ground of the operator panel.
pub const PANEL: Color32 = hex(0x00C9_CBC9);
/// Raised area of the operator panel.
pub const PANEL_WELL: Color32 = hex(0x00DC_DEDC);
/// Message area of the operator panel.
pub const PANEL_MESSAGE: Color32 = PAPER;
/// Text of the operator panel, and its Stop button.
pub const PANEL_INK: Color32 = hex(0x0017_151A);
/// Second text of the operator panel.
pub const PANEL_INK_2: Color32 = hex(0x0038_353D);
/// What the controller believes, on the operator panel. Lines only.
pub const PANEL_PENCIL: Color32 = hex(0x004A_474F);
/// Dividing rules of the operator panel.
pub const PANEL_LINE: Color32 = hex(0x0074_7674);
/// Frame of the operator panel.
pub const BEZEL: Color32 = hex(0x003B_3941);

/// Board "Wren". A board's name always stands beside its colour.
pub const BOARD_WREN: Color32 = hex(0x005C_8A5E);
/// Board "Heron".
pub const BOARD_HERON: Color32 = hex(0x006C_8FA9);
/// Board "Kestrel".
pub const BOARD_KESTREL: Color32 = hex(0x00A9_623F);
/// Board "Plover".
pub const BOARD_PLOVER: Color32 = hex(0x00C9_AE69);
/// Board "Raven", the matt black one.
pub const BOARD_RAVEN: Color32 = hex(0x003A_3741);

/// Nothing: the ground shows.
pub const CLEAR: Color32 = Color32::TRANSPARENT;

/// A step of type: what it is for, with its size and line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// Title of a report.
    Report,
    /// Title of a page, verdict.
    Page,
    /// Unit state.
    State,
    /// Head of a section.
    Section,
    /// Head of a card, a task.
    Task,
    /// Body.
    Text,
    /// Panel text, findings, tables.
    Small,
    /// Labels.
    Note,
    /// The smallest text that carries meaning.
    Least,
}

impl Step {
    /// All steps, largest first.
    pub const ALL: [Self; 9] = [
        Self::Report,
        Self::Page,
        Self::State,
        Self::Section,
        Self::Task,
        Self::Text,
        Self::Small,
        Self::Note,
        Self::Least,
    ];

    /// Size of the em, in points.
    #[must_use]
    pub const fn size(self) -> f32 {
        match self {
            Self::Report => 34.0,
            Self::Page => 26.0,
            Self::State => 24.0,
            Self::Section => 21.0,
            Self::Task => 16.0,
            Self::Text => 15.0,
            Self::Small => 14.0,
            Self::Note => 13.0,
            Self::Least => 12.5,
        }
    }

    /// Height of a line, in points.
    #[must_use]
    pub const fn line(self) -> f32 {
        let of_size = match self {
            Self::Report | Self::Page => 1.1,
            Self::State => 1.05,
            Self::Section | Self::Task => 1.2,
            Self::Text => 1.35,
            Self::Small => 1.3,
            Self::Note | Self::Least => 1.25,
        };
        self.size() * of_size
    }

    /// The weight that this step has if nothing else is said.
    #[must_use]
    pub const fn weight(self) -> Weight {
        match self {
            Self::Report | Self::Page => Weight::ExtraBold,
            Self::State | Self::Section | Self::Task => Weight::Bold,
            Self::Text | Self::Small | Self::Note | Self::Least => Weight::Regular,
        }
    }
}

/// Weight of type.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// 400: body.
    Regular,
    /// 600: values, buttons.
    SemiBold,
    /// 700: heads.
    Bold,
    /// 800: titles, verdicts.
    ExtraBold,
}

/// One step of space. All spaces are whole steps, but for edges.
pub const SPACE: f32 = 4.0;
/// Between things that belong together.
pub const GAP: f32 = 8.0;
/// Between things that do not. Also the outer margin of the window.
pub const MARGIN: f32 = 12.0;
/// Outer margin of a page.
pub const PAGE_MARGIN: f32 = 24.0;
/// Between the edge of a card and what is in it.
pub const PADDING: f32 = 12.0;
/// Thickness of an ink edge.
pub const EDGE_WIDTH: f32 = 1.5;
/// Thickness of the frame of a picture or a card in ink.
pub const RULE_WIDTH: f32 = 1.0;
/// Bar at the left of a teaching card or a selected row.
pub const BAR_WIDTH: f32 = 6.0;
/// Width of a scroll bar.
pub const SCROLL_BAR: f32 = 6.0;
/// Folded corner at the top right of a teaching card.
pub const FOLD: f32 = 14.0;
/// Corner of a button.
pub const CORNER: u8 = 2;
/// Corner of a button on the operator panel.
pub const PANEL_CORNER: u8 = 4;
/// Thickness of the focus ring.
pub const RING_WIDTH: f32 = 3.0;
/// Between a thing and its focus ring.
pub const RING_GAP: f32 = 2.0;
/// Height of an operator's button.
pub const OPERATOR_HEIGHT: f32 = 44.0;
/// Height of an action.
pub const ACTION_HEIGHT: f32 = 38.0;
/// Least height of anything else that can be pressed.
pub const LEAST_HEIGHT: f32 = 24.0;
/// Length of a dash of what is believed.
pub const DASH: f32 = 4.0;
/// Gap between two dashes.
pub const DASH_GAP: f32 = 3.0;

#[cfg(test)]
#[path = "tokens/one_place_tests.rs"]
mod one_place_tests;

#[cfg(test)]
#[path = "tokens/contrast_tests.rs"]
mod contrast_tests;
