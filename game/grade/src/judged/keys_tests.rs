//! What prepared steps forget with which rules, on which machine.

use rackproof_buffer::Fault;
use rackproof_drill::{Comes, Drill, DrillFault, Page, World};
use rackproof_files::Problems;
use rackproof_model::Micrometres;

use super::*;
use crate::{Rules, judged_tests::loaded};

/// Of the first drill, changed, under one rule: whether the way of a stop, and the loaded product,
/// are forgotten.
fn forgotten(rule: &str, change: fn(&mut Drill)) -> [bool; 2] {
    let base = &loaded().0[0];
    let world = base.world();
    let mut drill = world.drill().clone();
    change(&mut drill);
    let text = format!(
        "Rules(name: \"one\", define: {{}}, rules: [Rule(name: \"one\", severity: Major, \
         source: \"common practice\", always: {rule})])"
    );
    let problems = Problems::new();
    let rules = Rules::read(problems.for_file("", &text), world.machine().slots());
    let world = World::new(world.machine().clone(), world.hall().clone(), drill, 0);
    let pair = Judged::new(world, rules.expect("it has no problem")).prepared();
    [pair.forgets.braking, pair.forgets.loaded]
}

#[test]
fn what_a_rule_asks_for_is_not_forgotten() {
    let plain: fn(&mut Drill) = |_| ();
    let cases: [(&str, [bool; 2]); 10] = [
        ("Is(PanelOn)", [true, true]),
        // Whether the rails are known to stand right is no question about the product alone.
        ("Is(WidthShown)", [true, true]),
        ("Is(NextLoaded)", [true, false]),
        ("Once(Is(NextChosen))", [true, false]),
        ("AtLeast(width: Counted, mm: 100.0)", [true, true]),
        ("AtLeast(width: Wanted, mm: 100.0)", [true, false]),
        ("AtLeast(width: LoadedStored, mm: 100.0)", [true, false]),
        (
            "AtLeast(width: Counted, over: Wanted, mm: 0.4)",
            [true, false],
        ),
        (
            "AtLeast(width: Counted, over: NextStored, mm: 0.4)",
            [true, true],
        ),
        (
            "Implies(Did(Walk), Once(within_s: 5.0, of: Did(Torch)))",
            [false, true],
        ),
    ];
    for (rule, expected) in cases {
        assert_eq!(forgotten(rule, plain), expected, "{rule}");
    }
    // Plain steps forget nothing.
    assert!(!loaded().0[0].forgets.braking);
}

#[test]
fn with_faults_or_pages_that_ask_for_it_nothing_of_it_is_forgotten() {
    let faulty: fn(&mut Drill) = |drill| {
        drill.faults.push(DrillFault {
            id: "stiff".to_owned(),
            what: Fault::StepsLost(Micrometres(400)),
            comes: Comes::Start,
        });
    };
    assert_eq!(forgotten("Is(PanelOn)", faulty), [false, false]);
    let typed: fn(&mut Drill) = |drill| drill.pages.push(Page::Settings);
    assert_eq!(forgotten("Is(PanelOn)", typed), [true, false]);
}
