//! The world's fields in a key. What no rule, trap or finish can ask any more is left out.

use rackproof_buffer::{Board, Condition, HarmKind, KINDS_MOST};
use rackproof_model::key::Coder;

use crate::{Mergers, Stand, State, World, offers::free_to_walk};

/// All that is asked of a world in which nothing more is explored.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ending {
    reported: bool,
    finish_held: bool,
    harms: u16,
}

impl World {
    /// Codes a state: writes its key with a writer, reads one back with a reader.
    ///
    /// Left out: the torch (whoever looks lights it first: level 4), the standing place while the
    /// hands are out and the cord is unplugged (walk and act are one: level 3), and what downstream
    /// was told, unless it would take boards.
    ///
    /// With prepared steps also: straps, log, key, and the chosen product; they are seen to right
    /// before they are needed. The mode, while it may be changed and no task hangs on it. Where a
    /// body without straps charges boards, the straps count as long as a hand with its cord is in
    /// the rack. Without the cord, straps that were left tested ground nobody there, and at the
    /// belts they are tested anew.
    pub fn code(&self, s: &mut State, mergers: Mergers, coder: &mut impl Coder) {
        if mergers == Mergers::Prepared {
            let person = &mut s.person;
            person.straps_tested &= person.hand_in && person.cord && self.charges();
            s.person.log_written = false;
            self.machine().forget_preparations(&mut s.machine);
        }
        self.machine().code(&mut s.machine, coder);
        let person = &mut s.person;
        coder.flags([
            &mut person.straps_tested,
            &mut person.cord,
            &mut person.hand_in,
            &mut person.lock_on,
            &mut person.log_written,
            &mut person.reported,
            &mut s.upstream_held,
            &mut s.finish_held,
        ]);
        let kinds = self.machine().kinds().len();
        code_board(&mut person.board, kinds, coder);
        code_board(&mut s.leftover, kinds, coder);
        self.code_harms(&mut s.harms, coder);
        self.code_faults(s, coder);
        self.code_neighbours(s, coder);
        if self.has_faults() {
            coder.flag(&mut s.person.gloves);
        } else {
            s.person.gloves = false;
        }
        let neighbours = &self.drill().neighbours;
        if neighbours.downstream_ready || neighbours.downstream.is_some() {
            coder.flag(&mut s.downstream_held);
        } else {
            s.downstream_held = false;
        }
        s.person.torch = false;
        // Hands in or tied: at the hatch. A held button: at the panel, where all stand for whom it
        // does not matter.
        if self.plan().lift_may_sink {
            // Who stands at a mouth or at the hatch sees it, and from the panel nobody does.
            self.code_stand(s, coder);
        } else if free_to_walk(s) {
            s.person.stand = Stand::Panel;
        } else {
            s.person.stand = Stand::Hatch;
        }
    }

    /// Whether the keys of two states are the same for sure: they differ in what no key holds, the
    /// light of the torch, and the place of a person who can walk.
    pub fn same_class(&self, one: &State, other: &State) -> bool {
        let State {
            machine,
            person,
            leftover,
            upstream_held,
            downstream_held,
            harms,
            next_door,
            faults,
            finish_held,
        } = one;
        if machine.differs_at_a_glance(&other.machine) {
            return false;
        }
        let mut other_person = other.person;
        other_person.torch = person.torch;
        if !self.plan().lift_may_sink {
            other_person.stand = person.stand;
        }
        *person == other_person
            && *leftover == other.leftover
            && (*upstream_held, *downstream_held) == (other.upstream_held, other.downstream_held)
            && (*harms, *finish_held) == (other.harms, other.finish_held)
            && *next_door == other.next_door
            && *faults == other.faults
            && *machine == other.machine
    }

    fn code_stand(&self, s: &mut State, coder: &mut impl Coder) {
        let mut stand = s.person.stand as u8;
        coder.byte(&mut stand, 3);
        s.person.stand = Stand::ALL[stand as usize % Stand::ALL.len()].1;
    }

    /// Whether the site looks at charge: a hand of a person without straps harms a board.
    pub fn charges(&self) -> bool {
        self.machine().parts().handling.body_volts > 0
    }

    /// Harms that only faults, charge or tall parts do take bits only where there are such.
    fn code_harms(&self, harms: &mut u16, coder: &mut impl Coder) {
        let machine = self.machine();
        let bits = if self.has_faults() {
            HarmKind::ALL.len() as u32
        } else if machine.parts_may_meet() {
            HarmKind::PartsStruck as u32 + 1
        } else {
            HarmKind::PartsStruck as u32
        };
        let charged = 1 << HarmKind::Charged as u16;
        let apart = self.charges() && !self.has_faults();
        let mut is_charged = apart && *harms & charged != 0;
        if apart {
            *harms &= !charged;
            coder.flag(&mut is_charged);
        }
        assert!(*harms >> bits == 0, "a harm that the key does not hold");
        coder.short(harms, bits);
        *harms |= charged * u16::from(is_charged);
    }

    /// Codes all that is asked of a world in which nothing more is explored.
    pub fn code_ending(&self, ending: &mut Ending, coder: &mut impl Coder) {
        coder.flags([&mut ending.reported, &mut ending.finish_held]);
        self.code_harms(&mut ending.harms, coder);
    }
}

impl State {
    /// What is asked of it when nothing more is explored.
    pub fn ending(&self) -> Ending {
        Ending {
            reported: self.person.reported,
            finish_held: self.finish_held,
            harms: self.harms,
        }
    }

    /// The same state with another ending: of a start it makes a world that has ended so.
    #[must_use]
    pub fn ended(mut self, ending: Ending) -> State {
        self.person.reported = ending.reported;
        self.finish_held = ending.finish_held;
        self.harms = ending.harms;
        self
    }
}

fn code_board(board: &mut Option<Board>, kinds: usize, coder: &mut impl Coder) {
    let bits = if kinds < KINDS_MOST { 6 } else { 7 };
    let number = board.map_or(0, |board| 1 + board.kind + 8 * board.condition as u8);
    let number = coder.bits(u64::from(number), bits) as u8;
    *board = number.checked_sub(1).map(|number| Board {
        kind: number % 8,
        condition: Condition::ALL[(number / 8) as usize % Condition::ALL.len()],
    });
}
