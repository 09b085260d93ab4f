//! All that must hold at the end. Finish reads truth: it is not a rule.

use rackproof_buffer::{Mode, UnitState};

use crate::{State, World};

macro_rules! items {
    ($($(#[$doc:meta])* $name:ident,)*) => {
        /// One thing that must hold at the end.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum FinishItem {
            $($(#[$doc])* $name,)*
        }

        impl FinishItem {
            /// All items with the names that files use.
            pub const ALL: &[(&'static str, FinishItem)] =
                &[$((stringify!($name), FinishItem::$name),)*];
        }
    };
}

items! {
    /// The rails truly stand at the width of the task's product, and it is loaded.
    WidthTrueIsWanted,
    /// The rack is truly empty, and the slot map says so.
    MapTrueIsEmpty,
    /// Nothing of the old product lies on belts or across mouths.
    BeltsClear,
    /// No board in hand.
    HandsEmpty,
    /// Lock off, isolator on.
    LockOff,
    /// Prop out.
    PropOut,
    /// Hatch shut.
    HatchShut,
    /// Cord unplugged.
    CordOut,
    /// Key out.
    KeyOut,
    /// The unit is Idle or Complete, ready for the next start; or in production, on a machine that
    /// runs by itself after a changeover.
    UnitReady,
    /// The log is written.
    LogWritten,
    /// Upstream is let go.
    UpstreamLetGo,
}

impl FinishItem {
    /// Whether it is an outcome: what the work is for. The others say that something was put back
    /// or said, and hold by doing that one step.
    pub fn is_outcome(self) -> bool {
        matches!(
            self,
            FinishItem::WidthTrueIsWanted
                | FinishItem::MapTrueIsEmpty
                | FinishItem::BeltsClear
                | FinishItem::UnitReady
        )
    }
}

impl World {
    /// Whether one item of the finish holds in truth.
    pub fn finish_holds(&self, s: &State, item: FinishItem) -> bool {
        let (machine, person) = (&s.machine, &s.person);
        match item {
            FinishItem::WidthTrueIsWanted => {
                let product = self.machine().parts().products[self.drill().next as usize];
                machine.loaded() == self.drill().next
                    && machine.width(self.machine()) == self.machine().rails_for(product.width)
            }
            FinishItem::MapTrueIsEmpty => {
                machine.rack.present().is_empty() && machine.map.is_empty()
            }
            FinishItem::BeltsClear => {
                machine.infeed_belt.is_none()
                    && machine.mouths == [None; 2]
                    && machine.outfeed_belt == [None; 2]
            }
            FinishItem::HandsEmpty => person.board.is_none() && !person.hand_in,
            FinishItem::LockOff => !person.lock_on && machine.powered(),
            FinishItem::PropOut => !machine.propped(),
            FinishItem::HatchShut => !machine.hatch_open(),
            FinishItem::CordOut => !person.cord,
            FinishItem::KeyOut => !machine.key_turned(),
            FinishItem::UnitReady => {
                let by_itself = self.machine().parts().behaviours.runs_after_changeover
                    && machine.mode() == Mode::Production;
                match machine.unit() {
                    UnitState::Idle | UnitState::Complete => true,
                    UnitState::Execute => by_itself,
                    _ => false,
                }
            }
            FinishItem::LogWritten => person.log_written,
            FinishItem::UpstreamLetGo => !s.upstream_held,
        }
    }

    /// The items of the drill's finish that do not hold.
    pub fn unfinished(&self, s: &State) -> impl Iterator<Item = FinishItem> {
        self.drill()
            .finish
            .iter()
            .copied()
            .filter(|&item| !self.finish_holds(s, item))
    }

    /// Whether the job was reported done with all of the finish true.
    pub fn finished(&self, s: &State) -> bool {
        s.person.reported && s.finish_held
    }
}
