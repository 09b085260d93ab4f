//! The task sheet of the chosen drill, over the course: what is asked, and by what it is judged.

use egui::Ui;
use rackproof_phrases::TaskSheet;
use rackproof_words::{Arg, Words};

use crate::tokens::{self, Step, Weight};
use crate::widgets::{head, say};

pub(super) fn show(words: &Words, sheet: &TaskSheet, ui: &mut Ui) {
    ui.spacing_mut().item_spacing.y = 3.0;
    let lists = [
        ("sheet-head-start", sheet.start.clone()),
        ("sheet-head-cue", vec![sheet.cue.clone()]),
        ("sheet-head-standard", sheet.standard.clone()),
        ("sheet-head-ways", sheet.ways.clone()),
        ("sheet-head-critical", critical(words, sheet)),
        ("sheet-head-time", vec![sheet.time.clone()]),
        ("sheet-head-criteria", criteria(words, sheet)),
        ("sheet-head-cautions", vec![sheet.cautions.clone()]),
    ];
    for (id, rows) in lists {
        head(ui, &words.say(id, &[]));
        for row in rows {
            say(ui, &row, Step::Small, Weight::Regular, tokens::INK);
        }
        ui.add_space(tokens::GAP);
    }
}

/// Each critical step with what stands behind it.
fn critical(words: &Words, sheet: &TaskSheet) -> Vec<String> {
    let steps = sheet.critical.iter().map(|step| {
        let arguments = [
            ("step", Arg::from(step.said.as_str())),
            ("order", Arg::from(step.order_said.as_str())),
        ];
        let said = words.say("sheet-step", &arguments);
        format!("{said} {}", step.because.join(" "))
    });
    steps.collect()
}

/// What passes and what fails, and then each rule.
fn criteria(words: &Words, sheet: &TaskSheet) -> Vec<String> {
    let rules = sheet.criteria.iter().map(|rule| {
        let arguments = [
            ("severity", Arg::from(rule.severity.as_str())),
            ("asks", Arg::from(rule.asks.as_str())),
            ("source", Arg::from(rule.source.as_str())),
        ];
        words.say("sheet-criterion", &arguments)
    });
    std::iter::once(sheet.verdict.clone())
        .chain(rules)
        .collect()
}
