//! What happened when: spans and gaps, computed once from all moments of an attempt.

use rackproof_attempt::{History, Span};
use rackproof_buffer::{Half, HalfSlot, Halves, UnitState};
use rackproof_drill::sight::SightTable;
use rackproof_drill::{Cause, Fact, Intent, Outcome, Sign};
use rackproof_grade::{JudgedOutcome, JudgedState};

/// What the timeline shows.
#[derive(Clone, Debug, PartialEq)]
pub struct Timeline {
    /// How long the attempt took, in µs.
    pub end: u64,
    /// The unit over the whole time.
    pub units: Vec<Span<UnitThen>>,
    /// What the person did, each with its moment in µs.
    pub doings: Vec<(u64, Intent)>,
    /// When a hand was in the rack.
    pub hands_in: Vec<Span<bool>>,
    /// Boards in the rack over the whole time.
    pub boards: Vec<Span<BoardsThen>>,
    /// When the slot map was wrong.
    pub gaps: Vec<Gap>,
    /// When the slot map was set to empty on a person's word, in µs.
    pub declared: Vec<u64>,
}

/// The unit at a moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct UnitThen {
    /// Its state.
    pub unit: UnitState,
    /// Whether the isolator was on.
    pub powered: bool,
}

/// The boards in the rack at a moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BoardsThen {
    /// How many there truly were.
    pub truly: u32,
    /// In how many slots the slot map showed one.
    pub believed: u32,
    /// Slots that it showed as unknown, one bit each.
    pub unknown: u64,
}

/// A time in which the slot map said what was not so.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Gap {
    /// From when, in µs.
    pub from: u64,
    /// Until when, in µs.
    pub to: u64,
    /// Boards in slots that the slot map showed empty.
    pub missing: Halves,
    /// Slots that it showed full and that held no board, one bit each.
    pub ghosts: u64,
    /// When somebody had seen all the missing boards where they lay, in µs. `None`: never.
    pub seen: Option<u64>,
    /// Whether a lean to this side, through the open hatch with the torch lit, would have shown all
    /// the missing boards, as the rack stood when the gap began. Infeed first.
    pub shown_by: [bool; 2],
}

/// What of the slot map is wrong: boards in slots shown empty, slots shown full without a board.
fn wrong(state: &JudgedState) -> (Halves, u64) {
    let machine = &state.world.machine;
    let (present, map) = (machine.rack.present(), machine.map);
    let counted = map.full | map.unknown;
    let missing = Halves {
        infeed: present.infeed & !counted,
        outfeed: present.outfeed & !counted,
    };
    (
        missing,
        map.full & !map.unknown & !(present.infeed | present.outfeed),
    )
}

impl Timeline {
    /// The timeline of an attempt.
    pub fn of(history: &History) -> Timeline {
        let end = history.end();
        let mut hands_in = history.spans(|state| state.world.person.hand_in);
        hands_in.retain(|span| span.what);
        let did = |cause: Cause| match cause {
            Cause::Did(intent) => Some(intent),
            Cause::Chose(_) => None,
        };
        let done = history.done_until(end).iter();
        Timeline {
            end,
            units: history.spans(|state| UnitThen {
                unit: state.world.machine.unit(),
                powered: state.world.machine.powered(),
            }),
            doings: done
                .filter_map(|done| did(done.cause).map(|intent| (done.at, intent)))
                .collect(),
            hands_in,
            boards: history.spans(boards),
            gaps: gaps(history),
            declared: declared(history),
        }
    }

    /// The gap at a moment.
    pub fn gap_at(&self, at: u64) -> Option<&Gap> {
        self.gaps.iter().find(|gap| gap.from <= at && at < gap.to)
    }

    /// The boards at a moment.
    pub fn boards_at(&self, at: u64) -> Option<BoardsThen> {
        at_moment(&self.boards, at)
    }

    /// The unit at a moment.
    pub fn unit_at(&self, at: u64) -> Option<UnitThen> {
        at_moment(&self.units, at)
    }
}

fn at_moment<T: Copy>(spans: &[Span<T>], at: u64) -> Option<T> {
    let after = spans.partition_point(|span| span.from <= at);
    spans.get(after.checked_sub(1)?).map(|span| span.what)
}

fn boards(state: &JudgedState) -> BoardsThen {
    let machine = &state.world.machine;
    BoardsThen {
        truly: machine.rack.present().len(),
        believed: (machine.map.full & !machine.map.unknown).count_ones(),
        unknown: machine.map.unknown,
    }
}

fn declared(history: &History) -> Vec<u64> {
    let heard = history.heard_until(history.end()).iter();
    let is = |outcome: &JudgedOutcome| match outcome {
        JudgedOutcome::World(Outcome::Sign(Sign::Machine(sign))) => {
            sign.shown() == rackproof_buffer::Outcome::DeclaredEmpty
        }
        _ => false,
    };
    heard
        .filter(|heard| is(&heard.outcome))
        .map(|heard| heard.at)
        .collect()
}

fn gaps(history: &History) -> Vec<Gap> {
    let world = history.judged().world();
    let sight = SightTable::new(world.machine(), &world.hall().sight);
    let spans = history.spans(wrong);
    let is_gap =
        |span: &&Span<(Halves, u64)>| span.what != (Halves::NONE, 0) && span.from < span.to;
    spans
        .iter()
        .filter(is_gap)
        .map(|span| {
            let (missing, ghosts) = span.what;
            let rack = history.state_at(span.from).world.machine.rack;
            let shows = |lean| {
                missing
                    .without(sight.through_hatch(lean, &rack).1)
                    .is_empty()
            };
            Gap {
                from: span.from,
                to: span.to,
                missing,
                ghosts,
                seen: seen(history, missing, span.from, span.to),
                shown_by: Half::BOTH.map(|lean| !missing.is_empty() && shows(lean)),
            }
        })
        .collect()
}

/// When the last of these boards had been seen where it lay, or was put there by hand.
fn seen(history: &History, missing: Halves, from: u64, to: u64) -> Option<u64> {
    let mut last = None;
    for at in missing.iter() {
        let lay = history.spans(|state| state.world.machine.rack.present().contains(at));
        let since = lay
            .iter()
            .rfind(|span| span.what && span.from <= from)?
            .from;
        let heard = history.heard_until(to).iter();
        let first = heard
            .filter(|heard| heard.at >= since && knows(&heard.outcome, at))
            .map(|heard| heard.at)
            .next()?;
        last = last.max(Some(first));
    }
    last
}

fn knows(outcome: &JudgedOutcome, board: HalfSlot) -> bool {
    match outcome {
        JudgedOutcome::World(Outcome::Sign(Sign::SawBoard { at, .. })) => *at == board,
        JudgedOutcome::World(Outcome::Fact(Fact::BoardPutIn(at, _))) => *at == board,
        _ => false,
    }
}

#[cfg(test)]
#[path = "timeline_tests.rs"]
mod timeline_tests;
