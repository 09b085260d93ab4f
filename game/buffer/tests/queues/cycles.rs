//! Two machines that work in step, with the real machine as the buffer between them.

use crate::{fast::Fast, times::Times};

/// One cycle, in µs. All moves and open signals of a cycle are over well before half of it.
const CYCLE: u64 = 4_000_000;

/// Shares of the cycles, and the mean level at their beginnings.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Shares {
    pub(crate) made: f64,
    pub(crate) level: f64,
    pub(crate) blocked: f64,
    pub(crate) starved: f64,
}

/// What was counted in some cycles.
#[derive(Default)]
struct Count {
    made: u32,
    level: u32,
    blocked: u32,
    starved: u32,
}

impl Count {
    fn shares(&self, cycles: u32) -> Shares {
        let share = |count: u32| f64::from(count) / f64::from(cycles);
        Shares {
            made: share(self.made),
            level: share(self.level),
            blocked: share(self.blocked),
            starved: share(self.starved),
        }
    }
}

/// Each machine is up in each cycle with its own chance. The second acts first: it takes nothing
/// that comes in the same cycle, and what it takes makes room for the first.
pub(crate) fn bernoulli<const COUNTED: bool>(
    line: &mut Fast<COUNTED>,
    times: &mut Times,
    up: [f64; 2],
    cycles: u32,
) -> Shares {
    let mut count = Count::default();
    for _ in 0..cycles {
        let begun = line.clock;
        count.level += line.level();
        let [first_up, second_up] = up.map(|up| times.share() <= up);
        if second_up {
            line.call(true);
        }
        let [_, sent] = line.wait(begun + CYCLE / 2);
        count.made += u32::from(sent);
        count.starved += u32::from(second_up && !sent);
        if second_up {
            line.call(false);
        }
        if first_up {
            line.offer(true);
        }
        let [entered, _] = line.wait(begun + CYCLE);
        if first_up && !entered {
            count.blocked += 1;
            line.offer(false);
        }
    }
    count.shares(cycles)
}

/// Two machines that fail and are repaired.
#[derive(Clone, Copy)]
pub(crate) struct Failing {
    /// Chance to fail in a cycle in which it could work.
    pub(crate) fails: [f64; 2],
    /// Chance to be repaired in a cycle.
    pub(crate) repaired: [f64; 2],
}

/// Both machines fail or are repaired first, then a board moves in and one moves out, each by what
/// our signals said at the beginning of the cycle. `up` is carried from cycle to cycle.
pub(crate) fn failing<const COUNTED: bool>(
    line: &mut Fast<COUNTED>,
    times: &mut Times,
    machines: Failing,
    up: &mut [bool; 2],
    cycles: u32,
) -> Shares {
    let mut count = Count::default();
    for _ in 0..cycles {
        let begun = line.clock;
        count.level += line.level();
        let signals = line.signals();
        for at in 0..2 {
            let chance = times.share();
            up[at] = if up[at] {
                !(signals[at] && chance <= machines.fails[at])
            } else {
                chance <= machines.repaired[at]
            };
        }
        let [room, board] = [up[0] && signals[0], up[1] && signals[1]];
        if room {
            line.offer(true);
        }
        let [entered, _] = line.wait(begun + CYCLE / 2);
        assert_eq!(entered, room, "Machine Ready did not keep its word");
        if board {
            line.call(true);
        }
        let [_, sent] = line.wait(begun + CYCLE);
        assert_eq!(sent, board, "Board Available did not keep its word");
        if board {
            line.call(false);
        }
        count.made += u32::from(sent);
        count.blocked += u32::from(up[0] && !signals[0]);
        count.starved += u32::from(up[1] && !signals[1]);
    }
    count.shares(cycles)
}
