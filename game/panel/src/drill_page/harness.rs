//! A drill page in a harness: what is pressed, what has the focus, what is painted.

use std::cell::RefCell;
use std::rc::Rc;

use egui::accesskit::Role;
use egui::epaint::Shape;
use egui::{Color32, Key, Rect, Vec2, pos2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};

use super::sample::Sample;
use crate::{Wish, drill_page, fonts};

/// A page with a situation in it.
pub(crate) struct Page<'h> {
    pub(crate) harness: Harness<'h>,
    pub(crate) sample: Rc<RefCell<Sample>>,
    wishes: Rc<RefCell<Vec<Wish>>>,
    pub(crate) hall: Rc<RefCell<Rect>>,
}

pub(crate) fn page<'h>(sample: Sample) -> Page<'h> {
    sized(sample, egui::vec2(1280.0, 720.0))
}

pub(crate) fn sized<'h>(sample: Sample, size: Vec2) -> Page<'h> {
    let sample = Rc::new(RefCell::new(sample));
    let wishes = Rc::new(RefCell::new(Vec::new()));
    let hall = Rc::new(RefCell::new(Rect::NOTHING));
    let (shown, asked, place) = (sample.clone(), wishes.clone(), hall.clone());
    let mut harness = Harness::builder().with_size(size).build_ui(move |ui| {
        if fonts::ready(ui.ctx()) {
            let all = ui.ctx().content_rect();
            let mut ui = ui.new_child(egui::UiBuilder::new().max_rect(all));
            ui.set_clip_rect(all);
            let sample = shown.borrow();
            *place.borrow_mut() = drill_page(&sample.view(), &mut ui, &mut asked.borrow_mut());
        }
    });
    harness.run_steps(3);
    Page {
        harness,
        sample,
        wishes,
        hall,
    }
}

impl Page<'_> {
    pub(crate) fn step(&mut self) {
        self.harness.run_steps(2);
    }

    pub(crate) fn asked(&mut self) -> Vec<Wish> {
        self.step();
        self.wishes.take()
    }

    pub(crate) fn strike(&mut self, key: Key) -> Vec<Wish> {
        self.wishes.take();
        self.harness.key_press(key);
        self.asked()
    }

    /// Clicks what can be pressed under this name.
    pub(crate) fn click(&mut self, name: &str) -> Vec<Wish> {
        self.wishes.take();
        self.pressable(name).click();
        self.asked()
    }

    pub(crate) fn focus(&mut self, name: &str) {
        self.pressable(name).focus();
        self.step();
    }

    fn pressable(&self, name: &str) -> egui_kittest::Node<'_> {
        self.harness
            .root()
            .children_recursive()
            .filter(|node| {
                let node = node.accesskit_node();
                let role = node.role();
                let pressed = [Role::Button, Role::CheckBox, Role::ListItem].contains(&role);
                pressed && node.label().as_deref() == Some(name)
            })
            .last()
            .unwrap_or_else(|| panic!("nothing is called “{name}”"))
    }

    pub(crate) fn click_at(&mut self, x: f32, y: f32) -> Vec<Wish> {
        self.wishes.take();
        self.harness.hover_at(pos2(x, y));
        self.harness.drag_at(pos2(x, y));
        self.harness.run_steps(1);
        self.harness.drop_at(pos2(x, y));
        self.asked()
    }

    pub(crate) fn focused(&self) -> (Role, String) {
        let mut nodes = self.harness.root().children_recursive();
        let found = nodes.find(|node| node.accesskit_node().is_focused());
        found.map_or((Role::Unknown, String::new()), |node| {
            let node = node.accesskit_node();
            (node.role(), node.label().unwrap_or_default())
        })
    }

    /// Every colour that is painted.
    pub(crate) fn colours(&self) -> Vec<Color32> {
        let mut colours = Vec::new();
        for clipped in &self.harness.output().shapes {
            colours_of(&clipped.shape, &mut colours);
        }
        colours
    }

    pub(crate) fn says(&self, text: &str) -> bool {
        self.harness
            .query_all_by_label_contains(text)
            .next()
            .is_some()
    }
}

fn colours_of(shape: &Shape, colours: &mut Vec<Color32>) {
    use egui::epaint::ColorMode;
    match shape {
        Shape::Noop | Shape::Callback(_) => {}
        Shape::Vec(shapes) => shapes.iter().for_each(|shape| colours_of(shape, colours)),
        Shape::Circle(circle) => colours.extend([circle.fill, circle.stroke.color]),
        Shape::Ellipse(ellipse) => colours.extend([ellipse.fill, ellipse.stroke.color]),
        Shape::LineSegment { stroke, .. } => colours.push(stroke.color),
        Shape::Rect(rect) => colours.extend([rect.fill, rect.stroke.color]),
        Shape::Path(path) => {
            colours.push(path.fill);
            if let ColorMode::Solid(colour) = path.stroke.color {
                colours.push(colour);
            }
        }
        Shape::Text(text) => {
            colours.push(text.fallback_color);
            let sections = text.galley.job.sections.iter();
            colours.extend(sections.map(|section| section.format.color));
        }
        Shape::Mesh(mesh) => colours.extend(mesh.vertices.iter().map(|vertex| vertex.color)),
        Shape::QuadraticBezier(curve) => colours.push(curve.fill),
        Shape::CubicBezier(curve) => colours.push(curve.fill),
    }
}
