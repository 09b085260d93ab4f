//! The panel in the words of a site, as its machine file has them.

use egui::accesskit::Role;
use egui_kittest::kittest::Queryable;
use rackproof_buffer::{Button, Mode};
use rackproof_drill::file::read_machine;
use rackproof_files::Problems;
use rackproof_phrases::{check_site_words, words_of};

use super::panel_tests::{click, pressed, shown};
use super::stage::{Stage, press};
use crate::PanelPage;

/// The panel of a machine whose file has these words.
fn site(entries: &str) -> Stage {
    let alder = rackproof_library::machines().remove(0);
    let words = format!("Machine(\n    words: {{{entries}}},");
    let text = alder.text.replacen("Machine(", &words, 1);
    let problems = Problems::new();
    let report = problems.for_file("alder-16.ron", &text);
    let (_, hall) = read_machine(report).expect("it has no problem");
    check_site_words(report);
    assert!(problems.is_empty(), "{:?}", problems.sorted());
    let changeover = [press(Button::Mode(Mode::Changeover)), press(Button::Reset)];
    let mut stage = Stage::new("green-middle").then(&changeover);
    stage.words = words_of(&hall);
    stage
}

#[test]
fn controls_have_the_names_of_the_site_and_do_what_ours_do() {
    let entries = "\"operator-start\": \"Cycle on\", \"operator-stop\": \"Cycle off\", \
                   \"mode-changeover\": \"Convert\", \"unit-idle\": \"Standby\"";
    let mut harness = shown(site(entries));
    assert_eq!(click(&mut harness, "Cycle on"), pressed(Button::Start));
    assert_eq!(click(&mut harness, "Cycle off"), pressed(Button::Stop));
    assert_eq!(click(&mut harness, "Reset"), pressed(Button::Reset));
    for ours in ["Start", "Stop"] {
        let found = harness.query_by_role_and_label(Role::Button, ours);
        assert!(found.is_none(), "{ours} is not what this machine says");
    }
    for said in ["Convert", "Standby"] {
        assert!(
            harness.query_all_by_label_contains(said).next().is_some(),
            "{said}"
        );
    }
    for ours in ["Changeover", "Idle"] {
        assert!(harness.query_all_by_label(ours).next().is_none(), "{ours}");
    }
}

/// The second machine is shipped with words of its own site, and the window says them.
#[test]
fn the_second_machine_says_the_words_of_its_site() {
    let machines = rackproof_library::machines();
    let rowan = machines.iter().find(|text| text.file == "rowan-40.ron");
    let rowan = rowan.expect("it is shipped");
    let problems = Problems::new();
    let report = problems.for_file(&rowan.file, &rowan.text);
    let (_, hall) = read_machine(report).expect("it has no problem");
    let mut stage = site("");
    stage.words = words_of(&hall);
    let mut harness = shown(stage);
    assert_eq!(click(&mut harness, "Go"), pressed(Button::Start));
    assert_eq!(click(&mut harness, "Halt"), pressed(Button::Stop));
    assert_eq!(click(&mut harness, "Renew"), pressed(Button::Reset));
    for ours in ["Start", "Stop", "Reset"] {
        let found = harness.query_by_role_and_label(Role::Button, ours);
        assert!(found.is_none(), "{ours} is not what this machine says");
    }
    let door = harness.query_all_by_label_contains("Door shut").next();
    assert!(door.is_some(), "the alarm line says it so");
}

#[test]
fn a_site_without_words_has_ours() {
    let mut stage = site("");
    stage.page = PanelPage::Values;
    let mut harness = shown(stage);
    assert_eq!(click(&mut harness, "Start"), pressed(Button::Start));
}
