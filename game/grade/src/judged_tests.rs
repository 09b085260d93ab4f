//! The first drill, judged: the shipped files, played by the guide.

use rackproof_buffer::{Half, HalfSlot};
use rackproof_drill::{Cause, Intent, Stand, World, file};
use rackproof_files::{Problems, render_plain};
use rackproof_model::{Model, Stride};

use crate::{
    Grade, GradeInput, GuideRun, Judged, JudgedState, Procedure, Rules, Severity, StepDone, Verdict,
};

const MACHINE: &str = include_str!("../../../assets/machines/alder-16.ron");
const DRILL: &str = include_str!("../../../scenarios/changeover/left-inside.ron");
const RULES: &str = include_str!("../../../assets/rules/changeover.ron");
const PROCEDURE: &str = include_str!("../../../assets/procedures/changeover.ron");

fn no_problems(problems: &Problems) {
    let plain = |problem| render_plain(problem, &|id, arguments| format!("{id} {arguments:?}"));
    let list: Vec<String> = problems.sorted().iter().map(plain).collect();
    assert!(list.is_empty(), "{list:#?}");
}

pub(crate) fn loaded() -> (Vec<Judged>, Procedure) {
    let problems = Problems::new();
    let machine = file::read_machine(problems.for_file("machine", MACHINE));
    no_problems(&problems);
    let machine = machine.expect("it has no problem");
    let drill = file::read_drill(problems.for_file("drill", DRILL), |_| Ok(&machine));
    no_problems(&problems);
    let drill = drill.expect("it has no problem");
    let slots = machine.0.slots();
    let rules = Rules::read(problems.for_file("rules", RULES), slots);
    no_problems(&problems);
    let rules = rules.expect("it has no problem");
    let report = problems.for_file("procedure", PROCEDURE);
    let procedure = Procedure::read(report, rules.definitions(), slots);
    no_problems(&problems);
    let worlds = (0..drill.variants.len())
        .map(|variant| World::new(machine.0.clone(), machine.1.clone(), drill.clone(), variant));
    (
        worlds
            .map(|world| Judged::new(world, rules.clone()))
            .collect(),
        procedure.expect("it has no problem"),
    )
}

fn grade(judged: &Judged, procedure: &Procedure, run: &GuideRun) -> Grade {
    let problems = Problems::new();
    let report = problems.for_file("drill", DRILL);
    let marks = judged
        .rules()
        .marks(judged.world().drill(), report)
        .expect("they compile");
    Grade::of(GradeInput {
        judged,
        procedure,
        marks: &marks,
        causes: &run.causes,
        after: 0,
        references: None,
    })
}

#[test]
fn the_guide_finishes_every_variant_by_each_way_and_passes() {
    let (variants, procedure) = loaded();
    for judged in &variants {
        for way in 0..procedure.ways.len() {
            let variant = &judged.world().variant().id;
            let run = GuideRun::play(judged, &procedure, way).unwrap_or_else(|stuck| {
                let step = stuck.step.map(|step| procedure.steps[step].name.clone());
                panic!(
                    "{variant}, way {way}: stuck at {step:?} after {:#?}",
                    stuck.causes
                )
            });
            let grade = grade(judged, &procedure, &run);
            let broken: Vec<_> = grade
                .breaches
                .iter()
                .map(|breach| (&judged.rules().list[breach.rule].name, breach.intent))
                .collect();
            assert_eq!(
                grade.verdict,
                Verdict::Passed,
                "{variant}, way {way}: {broken:?} {:?} {:?}",
                grade.harms,
                grade.unfinished
            );
            assert_eq!(
                grade.count(judged, Severity::Minor),
                0,
                "{variant}: {broken:?}"
            );
            assert_eq!(grade.way, way, "{variant}");
            assert_eq!(grade.reference, Some(run.time));
            let all_done = grade
                .steps
                .iter()
                .filter(|step| !matches!(step.done, StepDone::Done(_)))
                .map(|step| (&procedure.analysis.steps[step.step].name, step))
                .collect::<Vec<_>>();
            assert!(all_done.is_empty(), "{variant}, way {way}: {all_done:#?}");
            let fitness = grade.fitness.expect("it is short");
            assert_eq!(fitness.kept, fitness.most, "{variant}, way {way}");
        }
    }
}

#[test]
fn whatever_the_neighbours_choose_the_guide_finishes_and_passes() {
    let (variants, procedure) = loaded();
    let mut runs = 0;
    for judged in &variants {
        for way in 0..procedure.ways.len() {
            let all = GuideRun::play_all(judged, &procedure, way, &mut |run| {
                runs += 1;
                assert!(judged.kept(&run.end) && judged.passes(&run.end, 0));
            });
            assert!(all.is_ok(), "{:?}", all.err());
        }
    }
    assert!(runs > variants.len() * 2, "some neighbour chose something");
}

/// Whoever stood idle for ever can be gone on from as after an hour: an attempt's clock stands
/// then.
#[test]
fn the_guide_goes_on_from_however_long_nothing_was_done() {
    let (variants, procedure) = loaded();
    let judged = &variants[0];
    let hour = 3_600_000_000_u64;
    let run = |after| GuideRun::go_on(judged, &procedure, 0, (&[], after)).expect("it goes on");
    let at_once = run(0);
    for after in [hour - 1, hour, hour + 1, u64::from(u32::MAX), u64::MAX] {
        let run = run(after);
        assert_eq!(run.end, at_once.end, "{after}");
        let done = |run: &GuideRun| {
            run.causes
                .iter()
                .map(|(_, cause)| *cause)
                .collect::<Vec<_>>()
        };
        assert_eq!(done(&run), done(&at_once), "{after}");
        assert_eq!(run.causes[0].0.0, 3_600_000_000, "{after}");
    }
}

#[test]
fn state_and_monitors_are_small() {
    assert!(
        size_of::<JudgedState>() <= 1_088,
        "{}",
        size_of::<JudgedState>()
    );
    // All but the clocks of windows over sets: one of 32 bits for each of 80 half-slots, each of
    // which may have its own witness at any microsecond of half an hour.
    let set_clocks = size_of::<[u32; crate::limits::SET_CLOCKS_MOST]>();
    assert!(size_of::<JudgedState>() - set_clocks <= 768);
}

/// A formula that does not fit is worked out the slow way, and right all the same: that would pass
/// unseen.
#[test]
fn the_shipped_rules_are_laid_out_for_speed() {
    let (judged, _) = loaded();
    assert!(judged.iter().all(Judged::is_laid_out));
}

/// What was worked out after one act is taken up before the next.
#[test]
fn causes_in_turn_do_what_they_do_one_by_one() {
    let (all, procedure) = loaded();
    let mut strides_seen = 0;
    for judged in all.into_iter().map(Judged::prepared) {
        let run = GuideRun::play(&judged, &procedure, 0).expect("the guide finishes");
        let mut state = judged.start();
        for (_, cause) in run.causes {
            let mut strides = vec![reaching_in(&state)];
            judged.strides(&state, &mut strides);
            for stride in strides {
                let (mut one, mut other) = (state, state);
                let (mut apart, mut in_turn) = (Vec::new(), Vec::new());
                for cause in stride.causes() {
                    judged.act(&mut one, cause, &mut |outcome| apart.push(outcome));
                }
                judged.act_in_turn(&mut other, stride.causes(), &mut |it| in_turn.push(it));
                assert_eq!((one, apart), (other, in_turn), "{stride:?}");
                strides_seen += 1;
            }
            while let Some(next) = judged.next_event(&state) {
                judged.advance(&mut state, next, &mut |_| ());
            }
            judged.act(&mut state, cause, &mut |_| ());
        }
    }
    assert!(strides_seen > 1_000, "{strides_seen}");
}

/// Beside the lift, then under it: what a hand reaches for changes what its owner knows.
fn reaching_in(state: &JudgedState) -> Stride<Cause> {
    let under = HalfSlot {
        slot: 0,
        half: Half::Infeed,
    };
    let beside = HalfSlot { slot: 9, ..under };
    if state.world.person.hand_in {
        return Stride::one(Cause::Did(Intent::HandOut));
    }
    [
        Intent::Walk(Stand::Hatch),
        Intent::OpenHatch,
        Intent::HandIn,
        Intent::Take(beside),
        Intent::Take(under),
    ]
    .into_iter()
    .fold(Stride::none(), |path, intent| path.then(Cause::Did(intent)))
}
