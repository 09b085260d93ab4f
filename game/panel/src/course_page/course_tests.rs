//! The course page by its accessible names and roles.

use std::cell::RefCell;
use std::rc::Rc;

use egui::accesskit::Role;
use egui::{Key, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT, Queryable};
use rackproof_files::Problems;
use rackproof_library::{built_in_drill, load};
use rackproof_phrases::TaskSheet;
use rackproof_words::Words;

use super::*;
use crate::{Setting, Way, fonts};

pub(super) struct Page<'h> {
    pub(super) harness: Harness<'h>,
    wishes: Rc<RefCell<Vec<Wish>>>,
}

/// What differs between the cases.
#[derive(Clone, Copy, Default)]
pub(super) struct Case {
    pub(super) tried: Tried,
    pub(super) drill: usize,
    pub(super) variant: Option<usize>,
    pub(super) over: Option<Over>,
    pub(super) no_letters: bool,
    pub(super) trouble: Option<&'static str>,
    /// Why no exam can be begun.
    pub(super) closed: Option<&'static str>,
}

pub(super) fn with_view<R>(
    words: &Words,
    case: Case,
    then: impl FnOnce(&CourseView<'_>) -> R,
) -> R {
    let variants = ["green-low", "black-low", "window-middle"].map(str::to_owned);
    let drills = [
        ("left-inside", case.tried),
        ("blocked-downstream", Tried::default()),
    ];
    let drills = drills.map(|(name, tried)| CourseDrill { name, tried });
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
        sheet: None,
        attempts: &[
            kept("left-inside-2.attempt", Way::Exam, Ending::Failed),
            kept("left-inside-1.attempt", Way::Practice, Ending::Open),
        ],
        attempts_kept: 2,
        trouble: case.trouble,
        over: case.over,
        preferences: Preferences {
            no_letters: case.no_letters,
            ..Preferences::default()
        },
    })
}

pub(super) fn kept(file: &str, way: Way, ending: Ending) -> AttemptRow {
    AttemptRow {
        file: file.to_owned(),
        way,
        ending,
    }
}

/// The course as it is with its drill: all starts, one of them chosen, with its reference time.
pub(super) fn with_all<R>(words: &Words, then: impl FnOnce(&CourseView<'_>) -> R) -> R {
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
pub(super) const STARTS: usize = 13;

pub(super) fn shown<'h>(
    size: Vec2,
    mut page: impl FnMut(&mut Ui, &mut Vec<Wish>) + 'h,
) -> Page<'h> {
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

pub(super) fn page<'h>(case: Case) -> Page<'h> {
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

    pub(super) fn click(&mut self, name: &str) -> Vec<Wish> {
        self.harness
            .get_by_role_and_label(Role::Button, name)
            .click();
        self.harness.run_steps(2);
        self.wishes.take()
    }

    pub(super) fn says(&self, text: &str) -> bool {
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
        ("Task sheet", Key::T, Wish::Over(Over::Sheet)),
        ("My attempts", Key::F2, Wish::Over(Over::Attempts)),
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
fn drills_are_chosen_by_hand_and_by_key_as_their_slots_stand() {
    let cases = [
        (0, Key::ArrowUp, Some(1)),
        (1, Key::ArrowDown, Some(0)),
        (0, Key::ArrowDown, None),
        (1, Key::ArrowUp, None),
    ];
    for (drill, key, next) in cases {
        let mut page = page(Case {
            drill,
            ..Case::default()
        });
        let wished: Vec<Wish> = next.map(Wish::ChooseDrill).into_iter().collect();
        assert_eq!(page.strike(key), wished, "{drill} {key:?}");
        let name = ["A board left inside", "Downstream is blocked"][1 - drill];
        let name = format!("{name}, not begun");
        page.harness.get_by_label(&name).click();
        page.harness.run_steps(2);
        assert_eq!(page.wishes.take(), [Wish::ChooseDrill(1 - drill)]);
    }
    // Task and cautions are those of the chosen one.
    let low = page(Case::default());
    let high = page(Case {
        drill: 1,
        ..Case::default()
    });
    assert!(low.says("place 1") && high.says("place 2"));
    assert!(low.says("Drill left-inside") && high.says("Drill blocked-downstream"));
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
fn the_task_sheet_says_what_is_asked() {
    let words = Words::english();
    let loaded = load(built_in_drill(), &Problems::new()).expect("it has no problem");
    let sheet = TaskSheet::of(&loaded.exercise, &words);
    let (start, standard) = (sheet.start[0].clone(), sheet.standard[0].clone());
    let page = shown(vec2(1280.0, 720.0), move |ui, wishes| {
        let case = Case {
            over: Some(Over::Sheet),
            ..Case::default()
        };
        with_view(&words, case, |view| {
            let view = CourseView {
                sheet: Some(&sheet),
                ..view.clone()
            };
            course_page(&view, ui, wishes);
        });
    });
    page.harness
        .get_by_role_and_label(Role::Dialog, "Task sheet");
    for text in ["Starting state", "Standard: all of this", &start, &standard] {
        assert!(page.says(text), "{text}");
    }
}
