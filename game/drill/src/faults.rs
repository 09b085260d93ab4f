//! Faults of a drill: which there are, when each comes, and what has come.

use rackproof_buffer::{BoardPlace, Fault};
use rackproof_model::{Micros, key::Coder};

use crate::{Cause, Cue, Intent, IntentKind, Outcome, Sign, SignKind, State, World, act::Hear};

/// When a fault comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Comes {
    /// It is there from the start.
    Start,
    /// So long after the start.
    After(Micros),
    /// When a sign of this sort is given.
    OnSign(SignKind),
    /// When the person has done something of this sort.
    OnIntent(IntentKind),
    /// When it likes, or never: the environment's choice.
    Chance,
}

/// One fault of a drill.
#[derive(Clone, Debug)]
pub struct DrillFault {
    /// Its name.
    pub id: String,
    /// What is wrong.
    pub what: Fault,
    /// When it comes.
    pub comes: Comes,
}

/// What has come, and what is still to come.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct FaultClock {
    /// Bit n: the n-th fault of the variant has come.
    came: u16,
    /// Time until the next one that comes by time; nought if none does any more.
    left: Micros,
}

/// What the faults of one variant wait for. Numbers count the variant's faults.
#[derive(Clone, Debug, Default)]
pub(crate) struct FaultPlan {
    /// Those that come by time, the earliest first.
    timed: Vec<(Micros, u8)>,
    /// Those that come with a sign, and all such sorts as a mask.
    on_sign: Vec<(SignKind, u8)>,
    signs: u64,
    on_intent: Vec<(IntentKind, u8)>,
    by_chance: Vec<u8>,
    /// Mask of those that are there from the start.
    at_start: u16,
    /// Some fault is that of the lift's brake: where somebody stands then decides whether they see
    /// it come down.
    pub(crate) lift_may_sink: bool,
}

impl FaultPlan {
    pub(crate) fn of<'f>(faults: impl Iterator<Item = &'f DrillFault>) -> FaultPlan {
        let mut plan = FaultPlan::default();
        for (number, fault) in faults.enumerate() {
            let number = number as u8;
            plan.lift_may_sink |= matches!(fault.what, Fault::LiftSinks { .. } | Fault::BrakeFails);
            match fault.comes {
                Comes::Start => plan.at_start |= 1 << number,
                Comes::After(time) => plan.timed.push((time, number)),
                Comes::OnSign(kind) => {
                    plan.on_sign.push((kind, number));
                    plan.signs |= 1 << kind as u8;
                }
                Comes::OnIntent(kind) => plan.on_intent.push((kind, number)),
                Comes::Chance => plan.by_chance.push(number),
            }
        }
        plan.timed.sort();
        plan
    }

    fn comes_late(&self) -> bool {
        let lists = [self.timed.len(), self.on_sign.len(), self.on_intent.len()];
        lists.iter().any(|&count| count > 0) || !self.by_chance.is_empty()
    }
}

impl FaultClock {
    fn has(&self, number: u8) -> bool {
        self.came >> number & 1 == 1
    }
}

impl World {
    /// The faults of this variant. Bit n of the machine's present faults is for the n-th.
    pub fn faults(&self) -> impl Iterator<Item = &DrillFault> {
        let list = &self.drill().faults;
        self.variant().faults.iter().map(|&number| &list[number])
    }

    /// Whether the drill has faults at all: what may mend one is on offer then.
    pub fn has_faults(&self) -> bool {
        !self.drill().faults.is_empty()
    }

    /// Whether to walk changes nothing but where the person stands: no fault waits for it, and no
    /// neighbour.
    pub fn is_still_between_acts(&self) -> bool {
        !self.has_faults() && !self.has_neighbours()
    }

    /// Lets the faults come that are there from the start, and sets the clock for the others.
    pub(crate) fn begin_faults(&self, s: &mut State) {
        let first = self.plan().timed.first();
        s.faults.left = first.map_or(Micros(0), |&(time, _)| time);
        let at_start = self.faults().map(|fault| fault.comes == Comes::Start);
        for (number, _) in at_start.enumerate().filter(|&(_, comes)| comes) {
            self.fault_comes(s, number as u8, &mut |_| {});
        }
    }

    /// The fault with this number comes, unless it has come before.
    pub(crate) fn fault_comes(&self, s: &mut State, number: u8, hear: &mut Hear) {
        if s.faults.has(number) {
            return;
        }
        s.faults.came |= 1 << number;
        if let Some(Fault::Board { place, kind, .. }) = self.machine().faults().get(number as usize)
            && *place == BoardPlace::Upstream
            && let Some(board) = &mut s.leftover
            && board.kind == *kind
            && let Some(becomes) = self.machine().odd_kind(number)
        {
            board.kind = becomes;
        }
        let what = self.machine().faults().get(number as usize);
        if what == Some(&Fault::ReferenceLost) && s.machine.powered() {
            hear(Outcome::Sign(Sign::Cue(Cue::LiftJerks)));
        }
        self.with_machine(s, hear, |world, machine, tell| {
            world.machine().fault_comes(machine, number, tell);
        });
    }

    /// Time until the next fault that comes by time.
    pub(crate) fn fault_due(&self, s: &State) -> Option<Micros> {
        let waits = |&(_, number): &(Micros, u8)| !s.faults.has(number);
        let timed = &self.plan().timed;
        (!timed.is_empty() && timed.iter().any(waits)).then_some(s.faults.left)
    }

    /// Lets the clock of the faults run on, and those come whose time it is.
    pub(crate) fn faults_pass(&self, s: &mut State, span: Micros, hear: &mut Hear) {
        let Some(left) = self.fault_due(s) else {
            return;
        };
        s.faults.left = Micros(left.0.saturating_sub(span.0));
        if s.faults.left.0 > 0 {
            return;
        }
        let waiting = self.plan().timed.iter();
        let mut waiting = waiting.filter(|&&(_, number)| !s.faults.has(number));
        let Some(&(now, _)) = waiting.clone().next() else {
            return;
        };
        let later = waiting.find(|&&(time, _)| time > now);
        s.faults.left = later.map_or(Micros(0), |&(time, _)| time - now);
        for &(_, number) in self.plan().timed.iter().filter(|&&(time, _)| time == now) {
            self.fault_comes(s, number, hear);
        }
    }

    /// Whether some fault still waits for a sign.
    pub(crate) fn waits_for_signs(&self, s: &State) -> bool {
        let mut waiting = self.plan().on_sign.iter();
        waiting.any(|&(_, number)| !s.faults.has(number))
    }

    /// The sorts of sign that faults wait for, among those of an outcome.
    pub(crate) fn sorts_waited_for(&self, outcome: Outcome) -> u64 {
        let mut sorts = 0;
        if let Outcome::Sign(sign) = outcome {
            sign.kinds(&mut |kind| sorts |= 1 << kind as u8);
        }
        sorts & self.plan().signs
    }

    /// Lets the faults come that waited for signs of these sorts.
    pub(crate) fn faults_on_signs(&self, s: &mut State, sorts: u64, hear: &mut Hear) {
        for &(kind, number) in &self.plan().on_sign {
            if sorts >> kind as u8 & 1 == 1 {
                self.fault_comes(s, number, hear);
            }
        }
    }

    /// Lets the faults come that waited for what was done.
    pub(crate) fn faults_on_cause(&self, s: &mut State, cause: Cause, hear: &mut Hear) {
        let Cause::Did(intent) = cause else { return };
        for &(kind, number) in &self.plan().on_intent {
            if Intent::kind(&intent) == kind {
                self.fault_comes(s, number, hear);
            }
        }
    }

    /// The faults that the environment may let come now.
    pub(crate) fn faults_by_chance(&self, s: &State) -> impl Iterator<Item = u8> {
        let came = s.faults;
        let list = self.plan().by_chance.iter().copied();
        list.filter(move |&number| !came.has(number))
    }

    /// The clock's fields in a key: none where all faults are there from the start.
    pub(crate) fn code_faults(&self, s: &mut State, coder: &mut impl Coder) {
        if self.plan().comes_late() {
            coder.short(&mut s.faults.came, 16);
            coder.word(&mut s.faults.left.0, 32);
        } else {
            s.faults = FaultClock {
                came: self.plan().at_start,
                left: Micros(0),
            };
        }
    }
}
