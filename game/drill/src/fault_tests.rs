//! Each fault on alder-16: what can be perceived of it, and what it does.

use rackproof_buffer::{HarmKind, LiftPlace};
use rackproof_files::{Problems, render_plain};
use rackproof_model::{
    Micros, Model,
    key::{Key, KeyWriter},
};

use crate::{
    Cause, Chance, Hall, Intent, Outcome, State, World,
    fault_cases::{Case, cases},
    file,
    world_tests::{DRILL, MACHINE, no_problems},
};

/// One step of a case.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Step {
    /// The person does something that is on offer.
    Do(Intent),
    /// The environment chooses something that is open to it.
    Chose(Chance),
    /// So much time passes, in ms.
    Wait(u32),
    /// Time passes until nothing happens by itself any more.
    Rest,
}

/// The shipped machine: its site looks at charge.
fn machine() -> (rackproof_buffer::Machine, Hall) {
    let problems = Problems::new();
    let read = file::read_machine(problems.for_file("alder-16.ron", MACHINE));
    no_problems(&problems);
    read.expect("it has no problem")
}

fn drill_text(faults: &str) -> String {
    DRILL.replace(
        "    traps: [\n",
        &format!("    faults: [{faults}],\n    traps: [\n"),
    )
}

/// The world of left-inside with these faults, and a board in slot 16 or none.
pub(crate) fn world(faults: &str, board_inside: bool) -> World {
    let (machine, problems) = (machine(), Problems::new());
    let text = drill_text(faults);
    let report = problems.for_file("left-inside.ron", &text);
    let drill = file::read_drill(report, |_| Ok(&machine));
    no_problems(&problems);
    let mut drill = drill.expect("it has no problem");
    let variant = drill.variants.iter().position(|one| one.id == "green-top");
    let variant = variant.expect("it is listed");
    if !board_inside {
        drill.variants[variant].boards.clear();
    }
    World::new(machine.0, machine.1, drill, variant)
}

/// A run of one world.
pub(crate) struct Run {
    pub(crate) world: World,
    pub(crate) state: State,
    pub(crate) heard: Vec<String>,
}

impl Run {
    pub(crate) fn of(world: World) -> Run {
        let state = world.start();
        Run {
            world,
            state,
            heard: Vec::new(),
        }
    }

    pub(crate) fn step(&mut self, step: Step) {
        match step {
            Step::Do(intent) => {
                let mut offers = Vec::new();
                self.world.offered(&self.state, &mut offers);
                assert!(offers.contains(&intent), "{intent:?} is not on offer");
                self.cause(Cause::Did(intent));
            }
            Step::Chose(chance) => {
                let mut open = Vec::new();
                self.world.chosen(&self.state, &mut open);
                assert!(open.contains(&chance), "{chance:?} is not open: {open:?}");
                self.cause(Cause::Chose(chance));
            }
            Step::Wait(span) => self.wait(span * 1_000),
            Step::Rest => {
                for _ in 0..500 {
                    let Some(next) = self.world.next_event(&self.state) else {
                        return;
                    };
                    self.wait(next.0);
                }
                panic!("it never comes to rest");
            }
        }
    }

    fn cause(&mut self, cause: Cause) {
        let heard = &mut self.heard;
        self.world
            .act(&mut self.state, cause, &mut |outcome| note(heard, outcome));
        self.key_reads_back();
    }

    fn wait(&mut self, mut span: u32) {
        loop {
            let next = self.world.next_event(&self.state);
            let part = next.map_or(span, |next| next.0.min(span));
            let heard = &mut self.heard;
            self.world
                .advance(&mut self.state, Micros(part), &mut |outcome| {
                    note(heard, outcome)
                });
            self.key_reads_back();
            span -= part;
            if span == 0 {
                return;
            }
        }
    }

    fn key_reads_back(&self) {
        let write = |state: &State| {
            let mut writer = KeyWriter::new();
            self.world.write_key(state, &mut writer);
            Key::from_bytes(writer.finish())
        };
        let key = write(&self.state);
        let read = self.world.read_key(&key);
        assert_eq!(write(&read), key);
        assert_eq!(
            self.world.next_event(&read),
            self.world.next_event(&self.state)
        );
        // And what comes of both is the same.
        let later = |state: &State| {
            let (mut state, mut chances) = (*state, Vec::new());
            self.world.chosen(&state, &mut chances);
            if let Some(next) = self.world.next_event(&state) {
                self.world.advance(&mut state, next, &mut |_| {});
            }
            (write(&state), chances)
        };
        assert_eq!(later(&read), later(&self.state));
    }

    pub(crate) fn has_heard(&self, wanted: &str) -> bool {
        self.heard.iter().any(|heard| heard.contains(wanted))
    }

    pub(crate) fn harmed(&self, kind: HarmKind) -> bool {
        self.state.harms() >> kind as u8 & 1 == 1
    }
}

fn note(heard: &mut Vec<String>, outcome: Outcome) {
    heard.push(format!("{outcome:?}"));
}

fn play(case: &Case, faults: &str) -> Run {
    let mut run = Run::of(world(faults, case.board_inside));
    for &step in case.steps {
        run.step(step);
    }
    run
}

#[test]
fn each_fault_shows_its_cue_and_its_consequence() {
    for case in cases() {
        let run = play(case, case.fault);
        for wanted in case.heard {
            let all = run.heard.join("\n");
            assert!(
                run.has_heard(wanted),
                "{}: no {wanted} in\n{all}",
                case.name
            );
        }
        for other in case.unheard {
            assert!(!run.has_heard(other), "{}: {other}", case.name);
        }
        (case.then)(&run);
    }
}

/// Without its fault no case gives a cue, and none a harm.
#[test]
fn without_its_fault_no_case_gives_a_cue() {
    for case in cases().filter(|case| case.plays_without_fault) {
        let run = play(case, "");
        let cues = ["Cue(", "MotorHummed", "BrakeTicked", "LiftSank"];
        for cue in cues {
            assert!(!run.has_heard(cue), "{}: {cue}", case.name);
        }
    }
}

/// Steps lost change nothing that the controller can know: word for word it publishes the same.
#[test]
fn the_controller_cannot_tell_that_steps_were_lost() {
    let case = cases().find(|case| case.name == "steps lost");
    let case = case.expect("it is a case");
    let without_hum = |mut run: Run| {
        run.heard.retain(|heard| !heard.contains("MotorHummed"));
        (run.world.panel(&run.state), run.heard)
    };
    assert_eq!(
        without_hum(play(case, case.fault)),
        without_hum(play(case, ""))
    );
}

#[test]
fn a_fault_comes_when_it_is_said_to_come() {
    let fault = |comes| {
        format!(
            "Fault(name: \"brake\", what: LiftSinks(speed_mm_s: 4, by_mm: 12.0), comes: {comes})"
        )
    };
    let stop = [Step::Do(Intent::PressEmergency), Step::Rest];
    let ticks = |comes, steps: &[Step]| {
        let mut run = Run::of(world(&fault(comes), false));
        steps.iter().for_each(|&step| run.step(step));
        (run.has_heard("BrakeTicked"), run.state.machine.lift_place)
    };
    let sunk = (true, LiftPlace::BelowFirst);
    let held = (false, LiftPlace::At(0));
    assert_eq!(ticks("Start", &stop), sunk);
    assert_eq!(ticks("OnIntent(PressEmergency)", &stop), sunk);
    assert_eq!(ticks("OnSign(Alarmed)", &stop), sunk);
    assert_eq!(ticks("OnSign(SweepSaw)", &stop), held);
    assert_eq!(ticks("Chance", &stop), held);
    let chosen = [stop[0], Step::Chose(Chance::FaultComes(0)), Step::Rest];
    assert_eq!(ticks("Chance", &chosen), sunk);
    // After 2 s: not before, and to the microsecond.
    let early = [stop[0], Step::Wait(1_999)];
    assert_eq!(ticks("After(2.0)", &early), held);
    let late = [stop[0], Step::Wait(2_000)];
    assert!(ticks("After(2.0)", &late).0);
}

#[test]
fn a_variant_may_have_some_of_the_faults_only() {
    let two = "Fault(name: \"brake\", what: BrakeFails, comes: Start),
        Fault(name: \"strip\", what: Debris(at_mm: 200.0, wide_mm: 5.0), comes: Start)";
    let (machine, problems) = (machine(), Problems::new());
    let text = drill_text(two).replace(
        "name: \"green-top\",",
        "name: \"green-top\", faults: [\"strip\"],",
    );
    let drill = file::read_drill(problems.for_file("left-inside.ron", &text), |_| {
        Ok(&machine)
    });
    no_problems(&problems);
    let drill = drill.expect("it has no problem");
    let names = |variant: usize| {
        let (machine, hall) = (machine.0.clone(), machine.1.clone());
        let world = World::new(machine, hall, drill.clone(), variant);
        let names: Vec<String> = world.faults().map(|fault| fault.id.clone()).collect();
        names
    };
    assert_eq!(names(0), ["brake", "strip"]);
    assert_eq!(names(2), ["strip"]);
}

#[test]
fn all_problems_of_faults_are_told_at_once() {
    let wrong = "
        Fault(name: \"strip\", what: Debris(at_mm: 299.0, wide_mm: 5.0), comes: Start),
        Fault(name: \"strip\", what: BeltsSlip(percent: 100), comes: Start),
        Fault(name: \"board\", comes: Start,
            what: Bowed(board: \"wren\", place: Slot(slot: 17, half: Infeed), bow_mm: 2.0)),
        Fault(name: \"beam\", what: Beam(beam: End, sees: Nothin), comes: OnSign(Crak)),
        Fault(name: \"later\", what: BrakeFails, comes: After(4000.0))";
    let (machine, problems) = (machine(), Problems::new());
    let text = drill_text(wrong);
    let _ = file::read_drill(problems.for_file("left-inside.ron", &text), |_| {
        Ok(&machine)
    });
    let ids = problems.sorted();
    let plain = |problem| render_plain(problem, &|id, arguments| format!("{id} {arguments:?}"));
    let all = ids.iter().map(plain).collect::<Vec<_>>().join("\n");
    assert_eq!(ids.len(), 6, "{all}");
    for wanted in [
        "problem-strip-beyond-travel",
        "problem-slot-beyond-rack",
        "Nothin",
        "Crak",
    ] {
        assert!(all.contains(wanted), "{wanted}: {all}");
    }
}
