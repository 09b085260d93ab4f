//! On the timeline: the findings at their moments.

use egui::{Rect, Stroke, StrokeKind, Ui, pos2, vec2};
use rackproof_phrases::{Finding, Told};
use rackproof_words::Arg;

use super::{Chart, END, FINDINGS, MARK};
use crate::debrief_page::{DebriefView, clock, rows::trap_sign, steps};
use crate::widgets::{Pressable, press_area};
use crate::{Wish, marks, tokens};

/// The findings at their moments. Those of one moment stand side by side.
pub(super) fn show(view: &DebriefView<'_>, ui: &mut Ui, chart: &Chart, wishes: &mut Vec<Wish>) {
    let y = chart.y(FINDINGS);
    let all = steps::with_moment(view);
    for ((number, at), x) in all.iter().zip(places(chart, &all)) {
        let Some(finding) = view.findings.list.get(*number) else {
            continue;
        };
        let rect = Rect::from_center_size(pos2(x, y), vec2(MARK, MARK));
        // A thread to its own moment, for a mark that had to give way.
        let thread = [pos2(chart.x(*at), y - 20.0), rect.center_top()];
        ui.painter()
            .line_segment(thread, Stroke::new(1.0, tokens::INK));
        let chosen = view.chosen == Some(*number);
        if chosen {
            let around = Stroke::new(2.0, tokens::PLUM);
            let outer = rect.expand(2.0);
            ui.painter()
                .rect(outer, 0, tokens::PAPER, around, StrokeKind::Outside);
        }
        paint(ui, rect, finding);
        let name = name(view, finding, *at);
        let what = Pressable::Row { chosen };
        let response = press_area(ui, rect, ("mark", *number), &name, what);
        if response.on_hover_text(name).clicked() {
            wishes.extend(steps::go(Some(*number)));
        }
    }
}

/// Where the marks stand: as near to their moments as they can without one lying on the other.
fn places(chart: &Chart, all: &[(usize, u64)]) -> Vec<f32> {
    let wanted: Vec<f32> = all.iter().map(|(_, at)| chart.x(*at)).collect();
    let most = chart.rect.right() + END - MARK / 2.0 - 1.0;
    spread(&wanted, MARK + 2.0, most)
}

/// Places `apart` from one another in their order, none beyond `most`. Those that would touch stand
/// together about the middle of where they were wanted.
fn spread(wanted: &[f32], apart: f32, most: f32) -> Vec<f32> {
    // Runs of marks that touch: the sum of where each wants the run to begin, and how many.
    let mut runs: Vec<(f32, usize)> = Vec::new();
    for (number, place) in wanted.iter().enumerate() {
        runs.push((place - number as f32 * apart, 1));
        while let [.., before, last] = runs.as_mut_slice()
            && before.0 / before.1 as f32 > last.0 / last.1 as f32
        {
            *before = (before.0 + last.0, before.1 + last.1);
            runs.pop();
        }
    }
    let begins = runs
        .iter()
        .flat_map(|(sum, count)| vec![sum / *count as f32; *count]);
    let mut places: Vec<f32> = begins
        .enumerate()
        .map(|(number, begin)| begin + number as f32 * apart)
        .collect();
    let mut free = most;
    for place in places.iter_mut().rev() {
        *place = place.min(free);
        free = *place - apart;
    }
    places
}

fn paint(ui: &Ui, rect: Rect, finding: &Finding) {
    match &finding.told {
        Told::Breach(breach) => marks::finding(ui.painter(), rect, breach.severity),
        Told::Harm(_) => marks::harm(ui.painter(), rect),
        _ => trap_sign(ui.painter(), rect),
    }
}

fn name(view: &DebriefView<'_>, finding: &Finding, at: u64) -> String {
    let what = match &finding.told {
        Told::Breach(breach) => breach.severity_said.clone(),
        Told::Harm(_) => view.say("debrief-mark-harm"),
        _ => view.say("debrief-trap"),
    };
    let arguments = [("what", Arg::from(what)), ("time", Arg::from(clock(at)))];
    view.say_with("debrief-mark", &arguments)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_stand_about_their_moments_and_never_touch() {
        let cases: &[(&[f32], &[f32])] = &[
            (&[], &[]),
            (&[10.0, 90.0], &[10.0, 90.0]),
            (&[50.0, 50.0], &[45.0, 55.0]),
            (&[50.0, 50.0, 50.0], &[40.0, 50.0, 60.0]),
            (&[10.0, 48.0, 52.0], &[10.0, 45.0, 55.0]),
            // At the end they are pushed back.
            (&[99.0, 99.0], &[90.0, 100.0]),
        ];
        for (wanted, expected) in cases {
            assert_eq!(spread(wanted, 10.0, 100.0), *expected, "{wanted:?}");
        }
    }
}
