//! A machine in production between two neighbours, for tests.

use rackproof_buffer::Button;
use rackproof_files::Problems;
use rackproof_model::Model;

use crate::{
    Aim, Intent, Stand, World,
    fault_tests::{Run, Step},
    file,
    world_tests::{DRILL, MACHINE, no_problems},
};

const LINE: &str = "line: Line(leftover: \"wren\", lays_by_hand: true, downstream_ready: false)";

/// The drill with this line, and the problems of its text.
pub(crate) fn read(machine: &str, line: &str) -> (Option<World>, Problems) {
    read_in(DRILL, machine, line)
}

fn read_in(drill: &str, machine: &str, line: &str) -> (Option<World>, Problems) {
    let problems = Problems::new();
    let machine = file::read_machine(problems.for_file("machine", machine));
    no_problems(&problems);
    let machine = machine.expect("it has no problem");
    assert!(drill.contains(LINE));
    let text = drill.replace(LINE, &format!("line: Line({line})"));
    let drill = file::read_drill(problems.for_file("left-inside.ron", &text), |_| {
        Ok(&machine)
    });
    let world = drill.map(|mut drill| {
        drill.variants[0].boards.clear();
        World::new(machine.0, machine.1, drill, 0)
    });
    (world, problems)
}

/// A machine in production in this line.
pub(crate) fn producing(machine: &str, line: &str) -> Run {
    started(read(machine, line))
}

/// The same with another start, and towards another product.
pub(crate) fn producing_with(machine: &str, line: &str, start: &str, next: &str) -> Run {
    started(read_in(&of_start(start, next), machine, line))
}

/// The drill with another start, towards another product, in one variant.
fn of_start(start: &str, next: &str) -> String {
    let (before, rest) = DRILL
        .split_once("    variants: [")
        .expect("it has variants");
    let (_, behind) = rest.split_once("    finish: [").expect("it has a finish");
    let board = if start.contains("kestrel") {
        "kestrel"
    } else {
        "wren"
    };
    let variant = format!(
        "    variants: [Variant(name: \"one\", traps: [\"half-a-look\"],
        boards: [Lying(slot: 2, half: Outfeed, board: \"{board}\")])],\n    finish: ["
    );
    format!("{before}{variant}{behind}")
        .replace(
            "start: Start(product: \"wren\", mode: Production)",
            &format!("start: Start({start})"),
        )
        .replace("next: \"kestrel\"", &format!("next: \"{next}\""))
}

/// The same with a fault.
pub(crate) fn producing_fault(line: &str, fault: &str, start: &str) -> Run {
    let faults = format!("    faults: [{fault}],\n    traps: [\n");
    let drill = of_start(start, "kestrel").replace("    traps: [\n", &faults);
    started(read_in(&drill, MACHINE, line))
}

fn started((world, problems): (Option<World>, Problems)) -> Run {
    no_problems(&problems);
    let mut run = Run::of(world.expect("it has no problem"));
    for button in [Button::Reset, Button::Start] {
        run.step(Step::Do(Intent::Press(button)));
    }
    run
}

/// The same machine, but for its Machine Ready: it waits for an offer.
pub(crate) fn on_offer() -> String {
    MACHINE.replace("machine_ready: Room", "machine_ready: OnOffer")
}

/// How often something of this name was published.
pub(crate) fn count(run: &Run, name: &str) -> usize {
    run.heard
        .iter()
        .filter(|heard| heard.contains(name))
        .count()
}

pub(crate) fn looks_at(run: &mut Run, stand: Stand) {
    run.step(Step::Do(Intent::Walk(stand)));
    run.step(Step::Do(Intent::Look(Aim::Mouth)));
}

pub(crate) fn next(run: &mut Run) {
    let next = run
        .world
        .next_event(&run.state)
        .expect("something is to come");
    run.step(Step::Wait(next.0.div_ceil(1_000)));
}
