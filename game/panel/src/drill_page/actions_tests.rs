//! Pages of what can be done here: none is wider than its place, and each attempt begins at the
//! first.

use egui::accesskit::Role;
use egui::{Rect, pos2, vec2};
use egui_kittest::kittest::{NodeT, Queryable};
use rackproof_drill::{Intent, Stand};

use super::frame::Frame;
use super::harness::{Page, page, sized};
use super::sample::Sample;
use crate::Way;

fn more(page: &Page<'_>) -> Option<String> {
    let node = page.harness.query_by_label_contains("More ");
    node.and_then(|node| node.accesskit_node().label())
}

/// Buttons that stand at least partly in a place.
fn buttons_in(page: &Page<'_>, place: Rect) -> Vec<(String, Rect)> {
    let nodes = page.harness.root().children_recursive();
    let buttons = nodes.filter(|node| node.accesskit_node().role() == Role::Button);
    buttons
        .map(|node| {
            (
                node.accesskit_node().label().unwrap_or_default(),
                node.rect(),
            )
        })
        .filter(|(_, rect)| rect.shrink(1.0).intersects(place))
        // Of a card, which is cut off where its place ends.
        .filter(|(name, _)| !["Show a hint", "A safe way on"].contains(&name.as_str()))
        .collect()
}

fn situations(way: Way) -> Vec<Sample> {
    let mut all = vec![
        Sample::new(way),
        Sample::looked(way),
        Sample::hand_in(way),
        Sample::board_in_hand(way),
        Sample::clear_out(way),
        Sample::emergency(way),
        Sample::dark(way),
    ];
    for stand in [Stand::Infeed, Stand::Hatch, Stand::Isolator, Stand::Outfeed] {
        all.push(Sample::emergency(way).at(stand));
    }
    all
}

#[test]
fn no_button_of_the_person_bar_leaves_it() {
    for way in [Way::Guided, Way::Practice] {
        for (width, height) in [(1280.0, 720.0), (1100.0, 640.0)] {
            for sample in situations(way) {
                let mut page = sized(sample, vec2(width, height));
                let whole = Rect::from_min_size(pos2(0.0, 0.0), vec2(width, height));
                let bar = Frame::of(whole).person;
                for _ in 0..6 {
                    for (name, rect) in buttons_in(&page, bar) {
                        assert!(
                            bar.expand(0.5).contains_rect(rect),
                            "{way:?} {width} {name} {rect:?}"
                        );
                    }
                    if let Some(more) = more(&page) {
                        page.click(&more);
                    }
                }
            }
        }
    }
}

#[test]
fn a_new_attempt_begins_at_the_first_page() {
    let mut page = page(Sample::emergency(Way::Practice));
    let first = more(&page).expect("there are pages");
    page.click(&first);
    assert_ne!(more(&page).as_ref(), Some(&first));
    // Something happens in the same attempt: the page stays.
    let later = Sample::emergency(Way::Practice).then(&[Intent::TestStraps]);
    page.sample.replace(later);
    page.step();
    assert_ne!(more(&page).as_ref(), Some(&first));
    page.sample.replace(Sample::emergency(Way::Practice));
    page.step();
    assert_eq!(more(&page), Some(first));
}
