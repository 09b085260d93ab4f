//! A world with a variable that its key forgets, in ways that are wrong.
//!
//! There is a lamp, a fuse and a spare. A press with a whole fuse turns the lamp; the environment
//! may blow the fuse. All verdicts about the lamp alone come out the same with a key that forgets
//! the fuse: only the check tells.

use rackproof_model::{
    Instants, Micros, Model,
    key::{Coder, Key, KeyReader, KeyWriter},
};

/// What is wrong with the key.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Fault {
    /// Nothing.
    None,
    /// It forgets the fuse, which the press needs.
    ForgetsFuse,
    /// It forgets the spare, which no step needs.
    ForgetsSpare,
    /// It reads back with the lamp lit.
    ReadsLit,
}

/// The world.
pub(crate) struct Secret {
    pub(crate) fault: Fault,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Cause {
    Press,
    TakeSpare,
    Blow,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub(crate) struct Lamp {
    lit: bool,
    blown: bool,
    taken: bool,
}

impl Secret {
    fn code(&self, coder: &mut impl Coder, lamp: &mut Lamp) {
        coder.flag(&mut lamp.lit);
        if self.fault != Fault::ForgetsFuse {
            coder.flag(&mut lamp.blown);
        }
        if self.fault != Fault::ForgetsSpare {
            coder.flag(&mut lamp.taken);
        }
    }
}

impl Model for Secret {
    type State = Lamp;
    type Cause = Cause;
    type Outcome = ();

    fn offers(&self, lamp: &Lamp, out: &mut Vec<Cause>) {
        // The spare changes the order of the offers, and the number of ways to one class, but
        // not the set of classes that follow.
        if lamp.taken {
            out.extend((!lamp.lit && !lamp.blown).then_some(Cause::TakeSpare));
            out.push(Cause::Press);
        } else {
            out.push(Cause::Press);
            out.extend((!lamp.lit).then_some(Cause::TakeSpare));
        }
    }

    fn chances(&self, _: &Lamp, out: &mut Vec<Cause>) {
        out.push(Cause::Blow);
    }

    fn act(&self, lamp: &mut Lamp, cause: Cause, _: &mut impl FnMut(())) {
        match cause {
            Cause::Press => lamp.lit ^= !lamp.blown,
            Cause::TakeSpare => lamp.taken = true,
            Cause::Blow => lamp.blown = true,
        }
    }

    fn next_event(&self, _: &Lamp) -> Option<Micros> {
        None
    }

    fn critical_instants(&self, _: &Lamp, _: &mut Instants) {}

    fn advance(&self, _: &mut Lamp, _: Micros, _: &mut impl FnMut(())) {}

    fn write_key(&self, lamp: &Lamp, out: &mut KeyWriter) {
        self.code(out, &mut { *lamp });
    }

    fn read_key(&self, key: &Key) -> Lamp {
        let mut lamp = Lamp::default();
        self.code(&mut KeyReader::new(key), &mut lamp);
        lamp.lit |= self.fault == Fault::ReadsLit;
        lamp
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        By, Congruence, Difference, End, Settings, Step, explore,
        toys::{deeds, end_of, unchecked},
    };

    fn lit(lamp: &Lamp) -> u64 {
        u64::from(lamp.lit)
    }

    fn taken(lamp: &Lamp) -> u64 {
        u64::from(lamp.taken)
    }

    type Flags = fn(&Lamp) -> u64;

    /// The kind of difference that a search finds, and the steps to it.
    fn found(
        fault: Fault,
        congruence: Congruence,
        flags: Flags,
    ) -> Option<(&'static str, Vec<Step<Cause>>)> {
        let world = Secret { fault };
        let settings = Settings {
            congruence,
            ..Settings::default()
        };
        let found = explore(&world, &[Lamp::default()], &settings, flags);
        let end = if found.incongruence.is_some() {
            End::Incongruent
        } else {
            End::Complete
        };
        assert_eq!(found.end, end);
        found.incongruence.map(|incongruence| {
            let name = match incongruence.difference {
                Difference::Key { .. } => "key",
                Difference::Flags { .. } => "flags",
                Difference::Successors { .. } => "successors",
            };
            (name, incongruence.witness.steps)
        })
    }

    #[test]
    fn the_check_finds_each_wrong_key() {
        let (did, chose) = (Step::Did, Step::Chose);
        let cases: [(Fault, Flags, _); 8] = [
            (Fault::None, lit, None),
            (Fault::None, taken, None),
            (
                Fault::ForgetsFuse,
                lit,
                Some(("successors", vec![chose(Cause::Blow)])),
            ),
            // Nothing asks for the spare: a key may forget it.
            (Fault::ForgetsSpare, lit, None),
            (
                Fault::ForgetsSpare,
                taken,
                Some(("flags", vec![did(Cause::TakeSpare)])),
            ),
            (
                Fault::ForgetsFuse,
                taken,
                Some(("successors", vec![chose(Cause::Blow)])),
            ),
            // The start itself is checked.
            (Fault::ReadsLit, lit, Some(("key", vec![]))),
            (Fault::ReadsLit, taken, Some(("key", vec![]))),
        ];
        for (fault, flags, expected) in cases {
            assert_eq!(
                found(fault, Congruence::Always, flags),
                expected,
                "{fault:?}"
            );
            assert_eq!(found(fault, Congruence::Off, flags), None, "{fault:?}");
        }
    }

    #[test]
    fn the_classes_that_tell_the_two_apart_are_named() {
        let world = Secret {
            fault: Fault::ForgetsFuse,
        };
        let found = explore(&world, &[Lamp::default()], &Settings::default(), lit);
        let incongruence = found.incongruence.expect("the key is wrong");
        let Difference::Successors { reached, read } = incongruence.difference else {
            panic!("the successors differ");
        };
        // With the fuse blown a press leads back to the dark lamp, with a whole one to the lit one.
        let lit_by = |key: &Key| world.read_key(key).lit;
        let names = |list: &[crate::Successor]| -> Vec<_> {
            list.iter()
                .map(|s| (s.by, s.between, lit_by(&s.key)))
                .collect()
        };
        assert_eq!(names(&reached), [(By::Person, false, false)]);
        assert_eq!(names(&read), [(By::Person, false, true)]);
    }

    #[test]
    fn what_would_follow_a_pruned_state_does_not_count() {
        let world = Secret {
            fault: Fault::ForgetsFuse,
        };
        let starts = [
            Lamp::default(),
            Lamp {
                blown: true,
                ..Lamp::default()
            },
        ];
        for (prune, end) in [(0, End::Incongruent), (1, End::Complete)] {
            let settings = Settings {
                prune,
                ..Settings::default()
            };
            assert_eq!(
                explore(&world, &starts, &settings, |_| 1).end,
                end,
                "{prune}"
            );
        }
    }

    #[test]
    fn a_sample_finds_what_it_looks_at() {
        // The blown fuse is the third step of the start, and no state has 1,000 steps.
        let cases = [(1, true), (3, true), (1_000, false)];
        for (every, finds) in cases {
            let found = found(Fault::ForgetsFuse, Congruence::Every(every), lit);
            assert_eq!(found.is_some(), finds, "{every}");
        }
    }

    #[test]
    fn a_wrong_key_has_witnesses_that_stray() {
        // The key of the start reads back as lit, so that the search lights the lamp by nothing.
        let wrong = Secret {
            fault: Fault::ReadsLit,
        };
        let start = Lamp::default();
        let found = explore(&wrong, &[start], &unchecked(), |lamp| {
            u64::from(lamp.blown && lamp.lit)
        });
        let witness = found.witness(0).expect("the wrong key leads there");
        assert_eq!((witness.strayed, witness.moves), (Some(0), 1));
        assert_eq!(witness.steps, [Step::Chose(Cause::Blow)]);
        // With a right key it is a run.
        let right = Secret { fault: Fault::None };
        let found = explore(&right, &[start], &Settings::default(), |lamp| {
            u64::from(lamp.blown && lamp.lit)
        });
        let witness = found.witness(0).expect("a lit lamp stays lit");
        assert_eq!(deeds(&witness), [Cause::Press]);
        assert!(end_of(&right, &start, &witness).lit);
    }
}
