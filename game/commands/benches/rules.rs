//! What an event costs for forty rules with windows, and what rtamt asks for the same work.
//!
//! `cargo bench -p rackproof-commands --bench rules`
//!
//! It stands here because the core, benches too, names no clock.
//!
//! - forty rules over a whole attempt: windows of 0.1 s to 0.9 s and of half an hour, all clocks
//!   that a file may have, and one window over half-slots, on a rack of 16 slots and of 40. An
//!   event is an act, or the time up to the next thing that happens by itself in the world. What
//!   the rules cost is the attempt with them less the same attempt without a rule, for each event
//!   of the latter: what is stopped at because a window runs out is counted as theirs. The aim is
//!   less than 1,000 ns;
//! - one formula over 10,000 samples: ours, and rtamt's on-line and off-line monitors of
//!   `tests/outside/scripts/monitor_speed.py`, if the environment that it names is there.
//!
//! With `--walk N` case N alone is walked, once, and its events are counted: for
//! `tests/outside/scripts/rule_instructions`, which counts what one costs on a busy machine too.
#![expect(
    clippy::expect_used,
    clippy::print_stdout,
    reason = "a benchmark prints, and stops where it fails"
)]

use std::{env, hint::black_box, path::Path, process::Command, time::Instant};

use rackproof_drill::{Cause, Intent, World, file};
use rackproof_files::Problems;
use rackproof_grade::{GuideRun, Judged, Procedure, Rules, Timed};
use rackproof_model::{Micros, Model};

/// Machine, drill and procedure: of 16 slots, and of 40.
type Place = [&'static str; 3];
const ALDER: Place = [
    include_str!("../../../assets/machines/alder-16.ron"),
    include_str!("../../../scenarios/changeover/left-inside.ron"),
    include_str!("../../../assets/procedures/changeover.ron"),
];
const ROWAN: Place = [
    include_str!("../../../assets/machines/rowan-40.ron"),
    include_str!("../../../scenarios/changeover/left-inside-rowan.ron"),
    include_str!("../../../assets/procedures/changeover-unasked.ron"),
];
const RULES: &str = include_str!("../../../assets/rules/changeover.ron");

/// How often a measurement is made; the least counts.
const ROUNDS: usize = 7;

fn world([machine, drill, _]: Place) -> World {
    let problems = Problems::new();
    let machine = file::read_machine(problems.for_file("", machine)).expect("it has no problem");
    let drill = file::read_drill(problems.for_file("", drill), |_| Ok(&machine));
    World::new(machine.0, machine.1, drill.expect("it has no problem"), 0)
}

fn judged(place: Place, text: &str) -> Judged {
    let (problems, world) = (Problems::new(), world(place));
    let rules = Rules::read(problems.for_file("", text), world.machine().slots());
    assert!(problems.is_empty(), "{:?}", problems.sorted());
    Judged::new(world, rules.expect("it has no problem"))
}

/// The shipped rules, and as many with windows as make forty. Sixteen windows, all different; with
/// `over_sets` the first is one for each half-slot.
fn forty(first: &str, step: u32, over_sets: bool) -> String {
    let shipped = RULES.matches("Rule(name:").count();
    let signs = ["Took", "Crack", "LooksVoided", "HandEntered"];
    let windows: Vec<String> = (0..40 - shipped)
        .map(|at| {
            let (tenths, sign) = (at % 16, signs[at % 4]);
            let window = format!("{first}.{}", (tenths as u32 * step) % 10);
            let formula = match at % 4 {
                _ if at == 0 && over_sets => format!(
                    "Implies(Did(HoldDeclare), Every(Once(within_s: {window}, of: SeenEmpty)))"
                ),
                0 => format!("Implies(Did(Start), Once(within_s: {window}, of: Sign({sign})))"),
                1 => format!("Implies(Did(Stop), Once(ago_s: {window}, of: Sign({sign})))"),
                2 => format!(
                    "Not(Since(ago_s: {window}, held: Not(Did(HandOut)), since: Did(HandIn)))"
                ),
                _ => format!(
                    "Implies(Did(HandIn), Since(within_s: {window}, held: Is(LockOn), \
                     since: Did(TryStart)))"
                ),
            };
            format!(
                "Rule(name: \"w{at}\", severity: Major, source: \"made up\", always: {formula}),"
            )
        })
        .collect();
    let end = RULES.rfind("],").expect("the list ends");
    format!("{}{}{}", &RULES[..end], windows.concat(), &RULES[end..])
}

/// Nanoseconds of one round of `work`, the least of some.
fn least(mut work: impl FnMut()) -> f64 {
    let mut rounds = (0..ROUNDS).map(|_| {
        let start = Instant::now();
        work();
        start.elapsed().as_secs_f64() * 1e9
    });
    rounds.by_ref().fold(f64::INFINITY, f64::min)
}

/// The guide's attempt by hand: what is done, with the time before it.
fn attempt(place: Place) -> Vec<Timed> {
    let judged = judged(place, RULES);
    let problems = Problems::new();
    let report = problems.for_file("", place[2]);
    let slots = judged.rules().slots();
    let procedure = Procedure::read(report, judged.rules().definitions(), slots);
    let procedure = procedure.expect("it has no problem");
    GuideRun::play(&judged, &procedure, 0)
        .expect("it ends")
        .causes
}

/// Does a whole attempt: how many events it has. An event is an act, or time up to the next event.
#[inline(never)]
fn walk(judged: &Judged, attempt: &[Timed]) -> u32 {
    let (mut state, mut events) = (judged.start(), 0);
    for &(before, cause) in attempt {
        let mut left = before;
        while left > Micros(0) {
            let next = judged.next_event(&state);
            let part = next.map_or(left, |next| next.min(left));
            judged.advance(&mut state, part, &mut |outcome| {
                black_box(outcome);
            });
            left -= part;
            events += 1;
        }
        judged.act(&mut state, cause, &mut |outcome| {
            black_box(outcome);
        });
        events += 1;
    }
    black_box(state);
    events
}

/// An attempt under some rules.
struct Case {
    name: String,
    judged: Judged,
    /// Which of the attempts.
    attempt: usize,
}

/// The cases of one place. The world alone comes first.
fn cases_of(place: Place, attempt: usize, slots: &str) -> Vec<Case> {
    let plain = judged(place, RULES);
    let none = Judged::new(world(place), plain.rules().none());
    let windows = [
        ("0.1 s to 0.9 s", "0", false),
        ("half an hour", "1799", false),
        ("half an hour, one over half-slots", "1799", true),
    ];
    let forty = windows.map(|(name, first, over_sets)| {
        let judged = judged(place, &forty(first, 1, over_sets).replace("0.0,", "0.5,"));
        let count = judged.rules().list.len();
        (format!("{count} rules, windows of {name}"), judged)
    });
    let first = [
        ("no rule".to_owned(), none),
        ("shipped rules".to_owned(), plain),
    ];
    let cases = first.into_iter().chain(forty);
    let case = |(name, judged)| Case {
        name: format!("{slots} slots, {name}"),
        judged,
        attempt,
    };
    cases.map(case).collect()
}

/// Says what an event costs in each case. They are measured in turns.
fn tell(cases: &[Case], attempts: &[Vec<Timed>]) {
    let mut spent = vec![f64::INFINITY; cases.len()];
    for _ in 0..ROUNDS {
        for (least, case) in spent.iter_mut().zip(cases) {
            let start = Instant::now();
            for _ in 0..100 {
                black_box(walk(&case.judged, &attempts[case.attempt]));
            }
            *least = least.min(start.elapsed().as_nanos() as f64 / 100.0);
        }
    }
    let mut alone = (0.0, 1.0);
    for (case, spent) in cases.iter().zip(spent) {
        if case.judged.rules().list.is_empty() {
            let events = walk(&case.judged, &attempts[case.attempt]);
            alone = (spent, f64::from(events));
        }
        let (whole, rules) = (spent / alone.1, (spent - alone.0) / alone.1);
        println!(
            "{}: {whole:.0} ns an event, {rules:.0} of them for the rules",
            case.name
        );
    }
}

/// One formula over samples that come each tenth of a second, in nanoseconds for all.
fn samples(count: u32) -> f64 {
    let judged = judged(
        ALDER,
        "Rules(name: \"one\", define: {}, rules: [Rule(name: \"one\", severity: Minor,
            source: \"made up\", always: Implies(Is(TorchOn),
            Since(within_s: 5.0, held: Not(Is(HandIn)),
                since: Once(within_s: 2.0, of: Is(TorchOn)))))])",
    );
    let causes = [true, false].map(|lit| Cause::Did(Intent::Torch(lit)));
    least(|| {
        let mut state = judged.start();
        for number in 0..count {
            judged.advance(&mut state, Micros(100_000), &mut |_| {});
            if number % 7 == 0 {
                judged.act(&mut state, causes[number as usize / 7 % 2], &mut |_| {});
            }
        }
        black_box(state);
    })
}

fn peer(count: u32, ours: f64) {
    let folder = env::var("RTAMT").unwrap_or_else(|_| {
        let home = env::var("HOME").unwrap_or_default();
        format!("{home}/.cache/rackproof/venv-rtamt")
    });
    let python = Path::new(&folder).join("bin/python");
    if !python.exists() {
        println!("rtamt: not there. To compare, install it and name its folder in RTAMT:");
        println!("    python3 -m venv {folder} && {folder}/bin/pip install rtamt==0.4.10");
        return;
    }
    let script = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../tests/outside/scripts/monitor_speed.py"
    );
    let ran = Command::new(python)
        .args([script, &count.to_string()])
        .output()
        .expect("it starts");
    let said = String::from_utf8_lossy(&ran.stdout);
    assert!(
        ran.status.success(),
        "{}",
        String::from_utf8_lossy(&ran.stderr)
    );
    for line in said.lines() {
        let (name, nanoseconds) = line.split_once('\t').expect("a name and a time");
        let theirs: f64 = nanoseconds.parse().expect("a number");
        let times = theirs / ours;
        println!("{name}: {:.1} ms, {times:.0} times ours", theirs / 1e6);
    }
}

fn main() {
    let attempts = [ALDER, ROWAN].map(attempt);
    let mut cases = cases_of(ALDER, 0, "16");
    cases.extend(cases_of(ROWAN, 1, "40"));
    let mut arguments = env::args().skip_while(|argument| argument != "--walk");
    if let Some(number) = arguments.nth(1) {
        let number: usize = number.parse().expect("the number of a case");
        let Some(case) = cases.get(number) else {
            return;
        };
        println!(
            "{}\t{}",
            walk(&case.judged, &attempts[case.attempt]),
            case.name
        );
        return;
    }
    tell(&cases, &attempts);
    let count = 10_000;
    let ours = samples(count);
    println!("one formula, {count} samples: {:.3} ms", ours / 1e6);
    peer(count, ours);
}
