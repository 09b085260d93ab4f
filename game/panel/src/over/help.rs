//! The keys, from the table itself.

use egui::Ui;
use rackproof_words::Words;

use crate::keys::{Does, KeyPart, KeyRow, TABLE};
use crate::tokens::{self, Step};
use crate::widgets::{head, key_row, note};

/// One line of the help.
enum Line {
    Head(&'static str),
    Key(&'static str, &'static KeyRow),
}

/// The least width of a column.
const COLUMN: f32 = 320.0;

pub(super) fn show(words: &Words, ui: &mut Ui) {
    note(ui, &words.say("over-help-note", &[]));
    let lines = lines();
    let room = ui.available_width();
    let columns = if room >= 3.0 * COLUMN {
        3
    } else if room >= 2.0 * COLUMN {
        2
    } else {
        1
    };
    let each = lines.len().div_ceil(columns);
    ui.columns(columns, |columns| {
        for (ui, lines) in columns.iter_mut().zip(lines.chunks(each)) {
            // At 1280 x 720 all of it is seen at once.
            ui.spacing_mut().item_spacing.y = 0.0;
            for line in lines {
                match line {
                    Line::Head(id) => {
                        ui.add_space(tokens::SPACE);
                        head(ui, &words.say(id, &[]));
                    }
                    Line::Key(cap, row) => {
                        key_row(ui, 84.0, cap, &words.say(row.says, &[]), Step::Small);
                    }
                }
            }
        }
    });
}

fn lines() -> Vec<Line> {
    let mut lines = Vec::new();
    for part in KeyPart::ALL {
        lines.push(Line::Head(part_id(part)));
        let rows = TABLE.iter().filter(|row| row.part == part);
        let rows = rows.filter(|row| row.does != Does::Nothing);
        // The four arrows do the same.
        let rows = rows.filter(|row| !row.is_arrow() || row.key == egui::Key::ArrowUp);
        lines.extend(rows.map(|row| match row.is_arrow() {
            true => Line::Key("Arrows", row),
            false => Line::Key(row.cap, row),
        }));
    }
    lines
}

fn part_id(part: KeyPart) -> &'static str {
    match part {
        KeyPart::Hands => "help-hands",
        KeyPart::Words => "help-words",
        KeyPart::Panel => "help-panel",
        KeyPart::Window => "help-window",
    }
}
