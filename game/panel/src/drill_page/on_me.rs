//! What I wear, hold and have left somewhere.

use egui::{Align2, Painter, Rect, Sense, Ui, WidgetInfo, WidgetType, pos2, vec2};
use rackproof_drill::message::board_name;
use rackproof_words::Arg;

use super::person::section;
use crate::marks::{self, Inks};
use crate::tokens::{self, Step, Weight};
use crate::{DrillView, fonts};

/// A mark with its words.
struct Row {
    mark: fn(&Painter, Rect),
    said: String,
}

pub(super) fn show(view: &DrillView<'_>, ui: &mut Ui) {
    let title = view.words.say("person-on-me", &[]);
    let rect = section(ui, ui.max_rect(), &title, "");
    let rows = rows(view);
    let count = u16::try_from(rows.len()).unwrap_or(u16::MAX);
    let pitch = (rect.height() / f32::from(count)).min(30.0);
    for (number, row) in (0u16..).zip(&rows) {
        let top = rect.top() + f32::from(number) * pitch;
        let place = Rect::from_min_size(pos2(rect.left(), top), vec2(rect.width(), pitch));
        let size = (pitch - 3.0).min(20.0);
        let mark = Rect::from_center_size(
            pos2(place.left() + 10.0, place.center().y),
            vec2(size, size),
        );
        (row.mark)(ui.painter(), mark);
        let font = fonts::text(Step::Note, Weight::Regular);
        let at = pos2(place.left() + 26.0, place.center().y);
        ui.painter()
            .text(at, Align2::LEFT_CENTER, &row.said, font, tokens::INK);
        let response = ui.interact(place, ui.id().with(number), Sense::hover());
        response.widget_info(|| WidgetInfo::labeled(WidgetType::Label, true, &row.said));
    }
}

fn rows(view: &DrillView<'_>) -> Vec<Row> {
    let (person, around) = (&view.person, &view.around);
    let say = |id: &str| view.words.say(id, &[]);
    let mut rows = vec![
        Row {
            mark: |painter, rect| marks::shoe(painter, rect, Inks::WINDOW),
            said: say(if person.straps_tested {
                "me-straps-tested"
            } else {
                "me-straps-untested"
            }),
        },
        if person.torch {
            Row {
                mark: |painter, rect| marks::torch(painter, rect, true, Inks::WINDOW),
                said: say("me-torch-lit"),
            }
        } else {
            Row {
                mark: |painter, rect| marks::torch(painter, rect, false, Inks::WINDOW),
                said: say("me-torch-off"),
            }
        },
        Row {
            mark: |painter, rect| marks::empty_hand(painter, rect, Inks::WINDOW),
            said: hand(view),
        },
    ];
    if person.cord {
        rows.push(Row {
            mark: |painter, rect| marks::cord(painter, rect, true, Inks::WINDOW),
            said: say("me-cord-in"),
        });
    }
    if person.lock_on {
        rows.push(Row {
            mark: |painter, rect| marks::padlock(painter, rect, Inks::WINDOW),
            said: say("me-lock-on"),
        });
    }
    if around.key_turned {
        rows.push(Row {
            mark: |painter, rect| marks::key_switch(painter, rect, true, Inks::WINDOW),
            said: say("me-key-in"),
        });
    }
    rows
}

fn hand(view: &DrillView<'_>) -> String {
    match (view.person.board, view.person.hand_in) {
        (Some(board), inside) => {
            let name = Arg::from(board_name(view.world, board.kind));
            let id = if inside {
                "me-board-inside"
            } else {
                "me-board"
            };
            view.words.say(id, &[("board", name)])
        }
        (None, true) => view.words.say("me-hand-in", &[]),
        (None, false) => view.words.say("me-hand-free", &[]),
    }
}
