//! Figures of a textbook and of another aligner, by hand.

use super::{
    events,
    notation::{Notation, numbers},
    prepared,
};
use crate::{Alignment, Became, Event, Label, Task};

const PERFECT: &str = "stop lock look1 answer1 look2 answer2 look3 answer3 declare unlock reset";

/// Changes of the perfect trace, with cost, greatest cost less cost and greatest cost, and what
/// departs. Source: pm4py 2.7.23.11, costs and fitness.
const CASES: &[(&str, &str, u32, u32, u32, &str)] = &[
    ("perfect", PERFECT, 0, 0, 0, ""),
    (
        "interleaved",
        "stop lock torch look2 look1 answer2 look3 answer1 answer3 clearout unlock reset",
        0,
        0,
        0,
        "",
    ),
    (
        "not looked at",
        "stop lock look1 answer1 answer2 look3 answer3 declare unlock reset",
        1,
        20,
        21,
        "missing look2",
    ),
    (
        "skipped",
        "stop lock look1 answer1 look3 answer3 declare unlock reset",
        2,
        18,
        20,
        "missing look2, missing answer2",
    ),
    (
        "lock late",
        "stop look1 lock answer1 look2 answer2 look3 answer3 declare unlock reset",
        2,
        20,
        22,
        "moved lock",
    ),
    (
        "no lock",
        "stop look1 answer1 look2 answer2 look3 answer3 declare unlock reset",
        1,
        20,
        21,
        "missing lock",
    ),
    (
        "looked twice",
        "stop lock look1 look1 answer1 look2 answer2 look3 answer3 declare unlock reset",
        1,
        22,
        23,
        "not needed look1",
    ),
    (
        "both ends",
        "stop lock look1 answer1 look2 answer2 look3 answer3 declare clearout unlock reset",
        1,
        22,
        23,
        "not needed clearout",
    ),
    (
        "declared first",
        "stop lock declare look1 answer1 look2 answer2 look3 answer3 unlock reset",
        2,
        20,
        22,
        "moved declare",
    ),
    ("nothing", "", 11, 0, 11, ""),
];

fn departures(found: &Alignment, words: &[String]) -> String {
    let told = found.findings.iter().filter_map(|finding| {
        let sort = match finding.became {
            Became::Done(_) => return None,
            Became::Moved { .. } => "moved",
            Became::Missing(_) => "missing",
            Became::NotNeeded(_) => "not needed",
        };
        let word = words.get(usize::from(finding.label.step));
        Some(format!("{sort} {}", word.map_or("?", String::as_str)))
    });
    told.collect::<Vec<_>>().join(", ")
}

#[test]
fn three_slots_cost_what_the_table_says() {
    let (task, words) = Notation::read(
        "->( 'stop', 'lock', X( 'torch', tau ), +( ->( 'look1', 'answer1' ), \
         ->( 'look2', 'answer2' ), ->( 'look3', 'answer3' ) ), X( 'declare', 'clearout' ), \
         'unlock', 'reset' )",
    );
    let tasks = prepared(&task);
    for &(name, trace, cost, kept, most, told) in CASES {
        let trace: Vec<&str> = trace.split_whitespace().collect();
        let trace = events(&numbers(&words, &trace));
        let found = tasks.align(&trace).expect("it is short");
        assert_eq!(found.cost, cost, "{name}");
        if most > 0 {
            // Kept by most is the printed fitness: 20/21 = .952381, and so on.
            let (one, other) = (found.fitness.kept * most, kept * found.fitness.most);
            assert_eq!(one, other, "{name}: {:?}", found.fitness);
        } else {
            assert_eq!(found.fitness.kept, found.fitness.most, "{name}");
        }
        if name != "nothing" {
            assert_eq!(departures(&found, &words), told, "{name}");
        }
    }
}

/// The same three slots, as one part for each slot.
#[test]
fn for_each_equals_what_stands_in_any_order() {
    let step = Task::Step;
    let frame = |slots: Task| {
        let torch = Task::Optional(Box::new(step(2)));
        let end = Task::Choice(vec![step(5), step(6)]);
        Task::Sequence(vec![step(0), step(1), torch, slots, end, step(7), step(8)])
    };
    let slots = Task::ForEach {
        instances: vec![1, 2, 3],
        body: Box::new(Task::Sequence(vec![step(3), step(4)])),
    };
    let tasks = prepared(&frame(slots));
    let names = "stop lock torch look answer declare clearout unlock reset";
    let names: Vec<&str> = names.split_whitespace().collect();
    for &(name, trace, cost, ..) in CASES {
        let event = |word: &str| {
            let bare = word.trim_end_matches(|letter: char| letter.is_ascii_digit());
            let instance = word[bare.len()..].parse().ok();
            let step = names.iter().position(|known| *known == bare);
            let step = step.expect("it is a step") as u16;
            Event::of(Label { step, instance })
        };
        let trace: Vec<Event> = trace.split_whitespace().map(event).collect();
        assert_eq!(
            tasks.align(&trace).expect("it is short").cost,
            cost,
            "{name}"
        );
    }
}

/// Whether a departure is in every nearest way. By hand.
#[test]
fn certain_is_told_from_possible() {
    let sequence = Task::Sequence((0..3).map(Task::Step).collect());
    // Trace; then of each finding: its label, what became of it, certain, placed.
    type Told = (u16, Became, bool, bool);
    let cases: &[(&[u16], &[Told])] = &[
        (
            &[0, 2],
            &[
                (0, Became::Done(0), true, true),
                (1, Became::Missing(1), true, true),
                (2, Became::Done(1), true, true),
            ],
        ),
        // One of the two was needed, whichever.
        (
            &[0, 1, 1, 2],
            &[
                (0, Became::Done(0), true, true),
                (1, Became::Done(1), true, false),
                (1, Became::NotNeeded(2), true, false),
                (2, Became::Done(3), true, true),
            ],
        ),
        // Step 1 came late, or step 2 came early: either is as near.
        (
            &[0, 2, 1],
            &[
                (0, Became::Done(0), true, true),
                (2, Became::Done(1), false, false),
                (1, Became::Moved { at: 2, before: 1 }, false, false),
            ],
        ),
        // Step 2 came much too early: only that is near.
        (
            &[2, 0, 1],
            &[
                (2, Became::Moved { at: 0, before: 3 }, true, true),
                (0, Became::Done(1), true, true),
                (1, Became::Done(2), true, true),
            ],
        ),
    ];
    for (trace, told) in cases {
        let found = prepared(&sequence)
            .align(&events(trace))
            .expect("it is short");
        let mut findings: Vec<Told> = found
            .findings
            .iter()
            .map(|one| (one.label.step, one.became, one.certain, one.placed))
            .collect();
        let mut told = told.to_vec();
        findings.sort_by_key(|told| (told.1, told.0));
        told.sort_by_key(|told| (told.1, told.0));
        assert_eq!(findings, told, "{trace:?}");
    }
}
