//! The course page by its accessible names and roles.

use std::cell::RefCell;
use std::rc::Rc;

use egui::accesskit::Role;
use egui::{Key, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use rackproof_attempt::{Ground, ProofState};
use rackproof_phrases::exam_closed;
use rackproof_words::Words;

use super::*;
use crate::{Setting, Way, fonts};

struct Page<'h> {
    harness: Harness<'h>,
    wishes: Rc<RefCell<Vec<Wish>>>,
}

/// What differs between the cases.
#[derive(Clone, Copy, Default)]
struct Case {
    tried: Tried,
    /// The number of the chosen drill, of two.
    drill: usize,
    variant: Option<usize>,
    over: Option<Over>,
    no_letters: bool,
    trouble: Option<&'static str>,
    /// Why no exam can be begun.
    closed: Option<&'static str>,
}

fn with_view<R>(words: &Words, case: Case, then: impl FnOnce(&CourseView<'_>) -> R) -> R {
    let variants = ["green-low", "black-low", "window-middle"].map(str::to_owned);
    let drills = [
        Listed {
            name: "left-inside",
            tried: case.tried,
        },
        Listed {
            name: "left-inside-rowan",
            tried: Tried::default(),
        },
    ];
    then(&CourseView {
        words,
        drills: &drills,
        drill: case.drill,
        variants: &variants,
        variant: case.variant,
        allowed: 2_700_000_000,
        reference: None,
        proof: case.closed.unwrap_or("Proved: every claim holds."),
        exam_open: case.closed.is_none(),
        trouble: case.trouble,
        over: case.over,
        preferences: Preferences {
            no_letters: case.no_letters,
            ..Preferences::default()
        },
    })
}

/// The course as it is with its drill: all starts, one of them chosen, with its reference time.
fn with_all<R>(words: &Words, then: impl FnOnce(&CourseView<'_>) -> R) -> R {
    let variants: Vec<String> = (0..STARTS).map(|number| number.to_string()).collect();
    let case = Case {
        variant: Some(3),
        ..Case::default()
    };
    with_view(words, case, |view| {
        then(&CourseView {
            variants: &variants,
            reference: Some(550_000_000),
            ..view.clone()
        })
    })
}

/// So many starts has the first drill.
const STARTS: usize = 13;

fn shown<'h>(size: Vec2, mut page: impl FnMut(&mut Ui, &mut Vec<Wish>) + 'h) -> Page<'h> {
    let wishes = Rc::new(RefCell::new(Vec::new()));
    let asked = wishes.clone();
    let mut harness = Harness::builder().with_size(size).build_ui(move |ui| {
        if fonts::ready(ui.ctx()) {
            let all = ui.ctx().content_rect();
            let mut ui = ui.new_child(egui::UiBuilder::new().max_rect(all));
            ui.set_clip_rect(all);
            page(&mut ui, &mut asked.borrow_mut());
        }
    });
    harness.run_steps(3);
    Page { harness, wishes }
}

fn page<'h>(case: Case) -> Page<'h> {
    let words = Words::english();
    shown(vec2(1280.0, 720.0), move |ui, wishes| {
        with_view(&words, case, |view| {
            course_page(view, ui, wishes);
        });
    })
}

impl Page<'_> {
    fn strike(&mut self, key: Key) -> Vec<Wish> {
        self.harness.key_press(key);
        self.harness.run_steps(2);
        self.wishes.take()
    }

    fn click(&mut self, name: &str) -> Vec<Wish> {
        self.harness
            .get_by_role_and_label(Role::Button, name)
            .click();
        self.harness.run_steps(2);
        self.wishes.take()
    }

    fn says(&self, text: &str) -> bool {
        self.harness
            .query_all_by_label_contains(text)
            .next()
            .is_some()
    }
}

#[test]
fn each_way_by_button_and_by_key_is_the_same_wish() {
    let cases = [
        ("Watch", Key::W, Wish::Begin(Way::Watch)),
        ("Guided", Key::G, Wish::Begin(Way::Guided)),
        ("Practice", Key::P, Wish::Begin(Way::Practice)),
        ("Exam", Key::X, Wish::Begin(Way::Exam)),
        ("Help", Key::F1, Wish::Over(Over::Help)),
        ("Settings", Key::F4, Wish::Over(Over::Settings)),
        ("Leave", Key::Escape, Wish::Quit),
    ];
    let mut page = page(Case::default());
    for (name, key, wish) in cases {
        let by_key = page.strike(key);
        assert_eq!(by_key, [wish], "{name}");
        assert_eq!(page.click(name), by_key, "{name}");
    }
    let mut quiet = self::page(Case {
        no_letters: true,
        ..Case::default()
    });
    assert_eq!(quiet.strike(Key::P), []);
    assert_eq!(quiet.strike(Key::F4), [Wish::Over(Over::Settings)]);
}

#[test]
fn variants_go_round_with_any_among_them() {
    let chosen = |variant| [Wish::ChooseVariant(variant)];
    let cases = [
        (None, Key::ArrowRight, Some(0)),
        (None, Key::ArrowLeft, Some(2)),
        (Some(0), Key::ArrowLeft, None),
        (Some(2), Key::ArrowRight, None),
    ];
    for (variant, key, next) in cases {
        let mut page = page(Case {
            variant,
            ..Case::default()
        });
        assert_eq!(page.strike(key), chosen(next), "{variant:?}");
    }
    let mut page = page(Case::default());
    assert_eq!(page.click("Start 2 of 3"), chosen(Some(1)));
    // What a start is called would say what lies where.
    assert!(!page.says("black-low"));
}

#[test]
fn each_drill_is_chosen_by_its_slot_and_by_key() {
    let called = [
        "A board left inside",
        "A board left inside, and no question asked",
    ];
    let slot = |number: usize| format!("{}, not begun", called[number]);
    let case = |drill| Case {
        drill,
        ..Case::default()
    };
    for drill in [0, 1] {
        let mut page = page(case(drill));
        for number in [1, 0] {
            page.harness.get_by_label(&slot(number)).click();
            page.harness.run_steps(2);
            assert_eq!(page.wishes.take(), [Wish::ChooseDrill(number)]);
        }
        // Up is towards the greater number, and there is an end both ways.
        let up = (drill == 0).then_some(Wish::ChooseDrill(1));
        let down = (drill == 1).then_some(Wish::ChooseDrill(0));
        let mut fresh = self::page(case(drill));
        assert_eq!(fresh.strike(Key::ArrowUp), Vec::from_iter(up));
        assert_eq!(fresh.strike(Key::ArrowDown), Vec::from_iter(down));
        let place = format!("place {}", drill + 1);
        assert!(fresh.says(&place), "{place}");
    }
    // The task is that of the chosen one.
    let asks = "This machine does not ask.";
    assert!(!page(case(0)).says(asks) && page(case(1)).says(asks));
}

#[test]
fn what_became_of_the_drill_is_said() {
    let tried = |practised, passed, failed| Tried {
        practised,
        passed,
        failed,
    };
    let cases = [
        (tried(0, 0, 0), "not begun", "0 of 2 passed"),
        (tried(1, 0, 0), "practised once", "0 of 2 passed"),
        (tried(3, 0, 0), "practised 3 times", "0 of 2 passed"),
        (tried(3, 0, 1), "failed", "0 of 2 passed"),
        (tried(3, 1, 1), "passed", "1 of 2 passed"),
    ];
    for (tried, state, course) in cases {
        let page = page(Case {
            tried,
            ..Case::default()
        });
        assert!(
            page.says(&format!("A board left inside, {state}")),
            "{state}"
        );
        assert!(page.says(course), "{state}");
    }
}

/// No exam on a drill that is not proved, by hand or by key; everything else stays open.
#[test]
fn an_exam_on_a_drill_that_is_not_proved_is_closed_and_says_why() {
    let closed = "No exam: this is not proved.\nrackproof prove a.ron";
    let mut page = page(Case {
        closed: Some(closed),
        ..Case::default()
    });
    assert!(page.says(closed));
    let exam = page.harness.get_by_role_and_label(Role::Button, "Exam");
    assert!(exam.accesskit_node().is_disabled());
    assert_eq!(page.click("Exam"), []);
    assert_eq!(page.strike(Key::X), []);
    for (name, way) in [
        ("Watch", Way::Watch),
        ("Guided", Way::Guided),
        ("Practice", Way::Practice),
    ] {
        assert_eq!(page.click(name), [Wish::Begin(way)]);
    }
    let mut open = self::page(Case::default());
    assert!(open.says("Proved: every claim holds."));
    assert_eq!(open.strike(Key::X), [Wish::Begin(Way::Exam)]);
}

#[test]
fn what_went_wrong_and_the_cautions_are_there() {
    let page = page(Case {
        trouble: Some("There is nothing to watch."),
        ..Case::default()
    });
    assert!(page.says("This is a training aid."));
    assert!(page.says("There is nothing to watch."));
}

#[test]
fn settings_lie_over_the_page_and_nothing_behind_is_reached() {
    let mut page = page(Case {
        over: Some(Over::Settings),
        ..Case::default()
    });
    page.harness.get_by_role_and_label(Role::Dialog, "Settings");
    assert_eq!(page.click("2.0"), [Wish::Set(Setting::Scale(2.0))]);
    assert_eq!(page.strike(Key::P), []);
    page.harness.get_by_label("Practice").click_accesskit();
    page.harness.run_steps(2);
    assert_eq!(page.wishes.take(), []);
    for _ in 0..14 {
        page.strike(Key::Tab);
        let mut nodes = page.harness.root().children_recursive();
        let focused = nodes.find(|node| node.accesskit_node().is_focused());
        let name = focused.and_then(|node| node.accesskit_node().label());
        assert!(!["Watch", "Exam", "Start from any"].contains(&name.as_deref().unwrap_or("Watch")));
    }
    assert_eq!(page.strike(Key::Escape), [Wish::CloseOver]);
    let help = self::page(Case {
        over: Some(Over::Help),
        ..Case::default()
    });
    assert!(help.says("From one thing to the next"));
}

#[test]
fn a_small_page_scrolls() {
    let words = Words::english();
    let mut page = shown(vec2(640.0, 360.0), move |ui, wishes| {
        with_view(&words, Case::default(), |view| {
            let picture = course_page(view, ui, wishes);
            assert!(picture.right() <= 640.0);
        });
    });
    page.harness
        .get_by_role_and_label(Role::Button, "Exam")
        .focus();
    page.harness.run_steps(4);
    let rect = page
        .harness
        .get_by_role_and_label(Role::Button, "Exam")
        .rect();
    assert!(rect.right() <= 641.0 && rect.left() >= 0.0, "{rect:?}");
}

/// The longest reason that closes an exam: why, and how that is changed, on a long path.
#[test]
fn a_closed_exam_has_room_for_its_reason() {
    let words = Words::english();
    let state = ProofState::Stale(vec![
        Ground::Machine,
        Ground::Drill,
        Ground::Rules,
        Ground::Procedure,
        Ground::Core,
    ]);
    let path = "./scenarios/changeover/left-inside.ron";
    let closed = exam_closed(&words, &state, path).expect("it is closed");
    let page = shown(vec2(1536.0, 864.0), move |ui, wishes| {
        with_all(&words, |view| {
            let view = CourseView {
                proof: &closed,
                exam_open: false,
                ..view.clone()
            };
            course_page(&view, ui, wishes);
        });
    });
    let start = format!("Start {STARTS} of {STARTS}");
    let rect = page.harness.get_by_label(&start).rect();
    assert!(rect.bottom() <= 864.0 - 22.0 - 6.0, "{rect:?}");
    assert!(!has_bar(&page));
}

#[test]
fn nothing_of_the_chosen_drill_is_cut_off() {
    for (width, height) in [(1280.0, 720.0), (1536.0, 864.0)] {
        let words = Words::english();
        let page = shown(vec2(width, height), move |ui, wishes| {
            with_all(&words, |view| {
                course_page(view, ui, wishes);
            });
        });
        let start = format!("Start {STARTS} of {STARTS}");
        let rect = page.harness.get_by_label(&start).rect();
        // The card ends 22 over the edge of the window.
        assert!(rect.bottom() <= height - 22.0 - 6.0, "{width}: {rect:?}");
        assert!(!has_bar(&page), "{width}");
    }
    // In less room a bar says that there is more, and nothing stands out at the side.
    let words = Words::english();
    let mut page = shown(vec2(1100.0, 640.0), move |ui, wishes| {
        with_all(&words, |view| {
            course_page(view, ui, wishes);
        });
    });
    assert!(has_bar(&page));
    for name in ["Watch", "Guided", "Practice", "Exam"] {
        let button = page.harness.get_by_role_and_label(Role::Button, name);
        assert!(button.rect().right() <= 1100.0 - 24.0 - 18.0, "{name}");
    }
    // What has the focus is scrolled to.
    let last = format!("Start {STARTS} of {STARTS}");
    page.harness.get_by_label(&last).focus();
    page.harness.run_steps(4);
    let rect = page.harness.get_by_label(&last).rect();
    assert!(rect.bottom() <= 640.0 - 22.0 - 6.0, "{rect:?}");
}

/// Whether a scroll bar is painted in the margin of the card.
fn has_bar(page: &Page<'_>) -> bool {
    let right = page.harness.ctx.content_rect().right();
    page.harness.output().shapes.iter().any(|clipped| {
        let egui::Shape::Rect(rect) = &clipped.shape else {
            return false;
        };
        let in_margin = rect.rect.left() > right - 24.0 - 18.0 && rect.rect.right() < right - 24.0;
        in_margin && rect.fill == tokens::INK && rect.rect.height() > 20.0
    })
}
