//! A gate that opens for a while, and something long that is begun only then.
//!
//! A clock runs for 10,000 µs. While it runs, but not at its first moment, the person may begin a
//! pull, which takes longer than the clock has left. Let go within 1,000 µs of its beginning, it
//! ends short; after that and before 1,100 µs, just right; later, long.
//!
//! The pull changes no next event, as the clock ends first. It has critical instants all the same,
//! inside an interval that was cut up before it began: without a new cut the right end is missed.

use rackproof_model::{
    Instants, Micros, Model,
    key::{Coder, Key, KeyReader, KeyWriter},
};

const CLOCK: u32 = 10_000;
const SHORT: u32 = 1_000;
const RIGHT: u32 = 1_100;

/// The world.
pub(crate) struct Gate;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Pull {
    Begin,
    LetGo,
    /// Something that begins nothing.
    Nod,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Way {
    /// What the clock has left; 0 when it has run out.
    clock: u32,
    /// For how long there has been a pull; 0 if there is none yet, else one more than that.
    pull: u32,
    /// 0 none yet, 1 short, 2 right, 3 long.
    end: u8,
    nodded: bool,
}

pub(crate) const START: Way = Way {
    clock: CLOCK,
    pull: 0,
    end: 0,
    nodded: false,
};

impl Gate {
    fn code(coder: &mut impl Coder, way: &mut Way) {
        coder.word(&mut way.clock, 14);
        coder.word(&mut way.pull, 14);
        coder.byte(&mut way.end, 2);
        coder.flag(&mut way.nodded);
    }
}

impl Model for Gate {
    type State = Way;
    type Cause = Pull;
    type Outcome = ();

    fn offers(&self, way: &Way, out: &mut Vec<Pull>) {
        let open = 0 < way.clock && way.clock < CLOCK && way.end == 0;
        out.extend((open && way.pull == 0).then_some(Pull::Begin));
        out.extend((way.pull > 0).then_some(Pull::LetGo));
        out.extend((open && !way.nodded).then_some(Pull::Nod));
    }

    fn chances(&self, _: &Way, _: &mut Vec<Pull>) {}

    fn act(&self, way: &mut Way, cause: Pull, _: &mut impl FnMut(())) {
        match cause {
            Pull::Begin => way.pull = 1,
            Pull::Nod => way.nodded = true,
            Pull::LetGo => {
                let pulled = way.pull - 1;
                way.end = 1 + u8::from(pulled > SHORT) + u8::from(pulled >= RIGHT);
                way.pull = 0;
            }
        }
    }

    fn next_event(&self, way: &Way) -> Option<Micros> {
        (way.clock > 0).then_some(Micros(way.clock))
    }

    fn critical_instants(&self, way: &Way, out: &mut Instants) {
        let pulled = way.pull.checked_sub(1);
        for last in [SHORT, RIGHT - 1] {
            let after = pulled.and_then(|pulled| last.checked_sub(pulled));
            after.into_iter().for_each(|after| out.push(Micros(after)));
        }
    }

    fn advance(&self, way: &mut Way, span: Micros, _: &mut impl FnMut(())) {
        way.clock -= span.0;
        if way.pull > 0 {
            way.pull += span.0;
        }
    }

    fn write_key(&self, way: &Way, out: &mut KeyWriter) {
        Gate::code(out, &mut { *way });
    }

    fn read_key(&self, key: &Key) -> Way {
        let mut way = START;
        Gate::code(&mut KeyReader::new(key), &mut way);
        way
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::toys::{all, end_of};

    #[test]
    fn what_begins_inside_an_interval_is_cut_up_from_there() {
        let found = all(&Gate, START, |way| 1 << way.end);
        assert_eq!(found.seen(), 0b1111);
        let witness = found.witness(2).expect("the right end is found");
        assert_eq!(end_of(&Gate, &START, &witness).end, 2);
        // The middle, begin, a moment in the pull, let go.
        assert_eq!(witness.moves, 4);
    }

    #[test]
    fn an_act_that_begins_nothing_does_not_cut_again() {
        let found = all(&Gate, START, |_| 0);
        // Only the start's middle lies between with no pull: once before a nod, once after it.
        let middles = found
            .states()
            .filter(|(_, way)| way.clock > 0 && way.pull == 0 && way.end == 0)
            .map(|(node, way)| (found.is_between(node), way.clock, way.nodded));
        let expected = [
            (false, CLOCK, false),
            (true, 5_000, false),
            (true, 5_000, true),
        ];
        assert_eq!(middles.collect::<Vec<_>>(), expected);
    }
}
