//! What may be done to the machine from outside, at random, and keys of what comes of it.

use rackproof_model::{
    Micrometres, Micros,
    key::{Key, KeyReader, KeyWriter},
};

use crate::{
    Answer, Board, Button, Command, Half, HalfSlot, Machine, Mode, Outcome, Phase, Priority,
    Question, Setting, Side, State, Task, UnitState,
};

/// A stream of numbers from a seed. Source: the generator splitmix64, published in the public
/// domain by its author.
pub(crate) struct Chance(pub(crate) u64);

impl Chance {
    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number below `bound`, which is not nought.
    pub(crate) fn below(&mut self, bound: u32) -> u32 {
        (self.next() % u64::from(bound)) as u32
    }
}

/// Something done to the machine from outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Deed {
    Press(Button),
    Isolator(bool),
    Emergency(bool),
    Hatch(bool),
    Prop(bool),
    Key(bool),
    Upstream(Option<u8>),
    Downstream(bool),
    TakeFromBelt(Side),
    TakeFromMouth(Side),
    TakeFromRack(HalfSlot),
    PutInRack(HalfSlot, u8),
    LayOnBelt(u8),
    Fault(u8),
    ClearScrew,
    WipeLenses(Side),
    /// Upstream's signal is closed whatever it has, or follows its boards again.
    Claims(bool),
    /// Downstream takes no board, and whether its rails have their old width.
    Stands(bool, bool),
    /// Upstream's belts stop in the middle of a hand-over.
    UpstreamDrops,
    /// The contact of downstream's signal opens and closes again.
    Chatters,
}

/// One step of a trial.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Step {
    Do(Deed),
    /// What a person would do who wants the machine to go on.
    GoOn(u32),
    /// Let at most so much time pass, not beyond an event.
    Wait(Micros),
    /// Let so many events pass.
    Events(u32),
}

impl Step {
    /// A step from two numbers, so that any list of numbers is a trial.
    pub(crate) fn from(which: u32, value: u32) -> Step {
        let (yes, kind) = (value.is_multiple_of(2), (value / 2 % 4) as u8);
        let side = [Side::Infeed, Side::Outfeed][value as usize % 2];
        let at = HalfSlot {
            slot: (value / 2 % 16) as u8,
            half: Half::BOTH[value as usize % 2],
        };
        let deed = match which % 32 {
            0..7 => return Step::GoOn(value),
            7..12 => return Step::Events(1 + value % 6),
            12..15 => return Step::Wait(Micros(1 << (value % 23))),
            15 => return Step::Wait(Micros(value % 3_000_000)),
            16 => Deed::Isolator(yes),
            17 => Deed::Emergency(yes),
            18 => Deed::Hatch(yes),
            19 => Deed::Prop(value.is_multiple_of(8)),
            20 => Deed::Key(yes),
            21 | 22 => Deed::Upstream((!value.is_multiple_of(3)).then_some(kind)),
            23 => Deed::Downstream(yes),
            24 => Deed::TakeFromBelt(side),
            25 => Deed::TakeFromMouth(side),
            26 => Deed::TakeFromRack(at),
            27 => Deed::PutInRack(at, kind),
            28 => Deed::LayOnBelt(kind),
            29 if value.is_multiple_of(8) => Deed::ClearScrew,
            29 if value % 8 == 1 => Deed::WipeLenses(side),
            29 if value % 8 == 2 => Deed::Claims((value / 8).is_multiple_of(2)),
            29 if value % 8 == 3 => Deed::Stands(
                (value / 8).is_multiple_of(2),
                (value / 16).is_multiple_of(2),
            ),
            29 if value % 8 == 4 => Deed::UpstreamDrops,
            29 if value % 8 == 5 => Deed::Chatters,
            29 => Deed::Fault((value / 8 % 16) as u8),
            _ => Deed::Press(any_button(value)),
        };
        Step::Do(deed)
    }
}

/// Any button, with figures that make sense and figures that do not.
fn any_button(value: u32) -> Button {
    let rest = value / 20;
    match value % 20 {
        0 => Button::Start,
        1 | 2 => Button::Stop,
        3 => Button::Reset,
        4 => Button::Mode(Mode::Production),
        5 => Button::Mode(Mode::Changeover),
        6 => Button::Choose((rest % 9) as u8),
        7 => Button::EditWidth(Micrometres(rest as i32 % 400_000)),
        8 => Button::EditWidth(Micrometres(
            [i32::MAX, i32::MIN, 160_000][rest as usize % 3],
        )),
        9 => Button::Save,
        10 => Button::Load,
        11 => Button::ClearOut,
        12 => {
            let answers = [Answer::Taken, Answer::SeenEmpty, Answer::NotSure];
            Button::Answer(answers[rest as usize % 3])
        }
        13 => Button::HoldDeclare,
        14 => Button::LetGoDeclare,
        15 => Button::SaveOver((rest % 9) as u8),
        16 => Button::Order(Command::ALL[rest as usize % 10]),
        17 => Button::Mode(Mode::Manual),
        18 => Button::Set(any_setting(rest)),
        _ => Button::Acknowledge,
    }
}

/// Any setting, within its bounds and beyond them.
fn any_setting(value: u32) -> Setting {
    let (rest, yes) = (value / 7, (value / 7).is_multiple_of(2));
    match value % 7 {
        0 => Setting::SlotCount((rest % 44) as u8),
        1 => Setting::WidthOffset(Micrometres(rest as i32 % 12_000 - 6_000)),
        2 => Setting::SidePlay(Micrometres(rest as i32 % 2_000)),
        3 => Setting::Signals(yes),
        4 => Setting::Priority(if yes {
            Priority::Filling
        } else {
            Priority::Emptying
        }),
        5 => Setting::WidthCheck(yes),
        _ => Setting::ConfirmWithin(Micros(rest % 150 * 1_000_000)),
    }
}

/// What a person would press or switch to get on.
pub(crate) fn next_deed(machine: &Machine, s: &State, value: u32) -> Deed {
    if !s.powered {
        return Deed::Isolator(true);
    }
    if s.emergency {
        return Deed::Emergency(false);
    }
    if s.hatch_open {
        return Deed::Hatch(false);
    }
    if machine.may_declare(s) && value % 4 == 3 {
        return if s.key_turned {
            Deed::Press(Button::HoldDeclare)
        } else {
            Deed::Key(true)
        };
    }
    let button = match (s.unit, s.question()) {
        (UnitState::Aborted | UnitState::Stopped | UnitState::Complete, _) => Button::Reset,
        (UnitState::Idle, _) => next_in_idle(machine, s, value),
        (_, Some(Question::Rails)) => Button::Start,
        (_, Some(Question::Seen(_))) if s.task == Task::ClearOut => Button::Start,
        (_, Some(Question::Seen(_))) => Button::ClearOut,
        (_, Some(Question::Take(_))) if s.outfeed_belt[0].is_some() => {
            return Deed::TakeFromBelt(Side::Outfeed);
        }
        (_, Some(Question::Take(_))) => Button::Start,
        (_, Some(Question::Answer(_) | Question::AnswerHalf(_))) => {
            Button::Answer(Answer::SeenEmpty)
        }
        (_, Some(Question::Confirmation)) if value.is_multiple_of(2) => Button::Start,
        (_, Some(Question::Confirmation)) => Button::Stop,
        (UnitState::Held, None) if value.is_multiple_of(2) => Button::Start,
        (UnitState::Suspended, None) if value.is_multiple_of(2) => {
            Button::Order(Command::Unsuspend)
        }
        (UnitState::Held | UnitState::Suspended, None) => Button::Stop,
        (UnitState::Execute, None) if s.phase == Phase::AwaitWidth && value % 4 == 1 => {
            Button::Stop
        }
        (_, Some(Question::Arrival(_))) => Button::Stop,
        (UnitState::Execute, _) if value % 32 == 7 => Button::Order(Command::Hold),
        _ if value.is_multiple_of(2) => return Deed::Downstream(!s.downstream_ready),
        _ => return Deed::Upstream(Some((value / 2 % 4) as u8)),
    };
    Deed::Press(button)
}

fn next_in_idle(machine: &Machine, s: &State, value: u32) -> Button {
    let produces = machine.width_is_wanted(s) && !value.is_multiple_of(4);
    match (s.mode, s.task) {
        (Mode::Production, _) if produces => Button::Start,
        (Mode::Production, _) => Button::Mode(Mode::Changeover),
        (Mode::Changeover, Task::None) if produces => Button::Mode(Mode::Production),
        (Mode::Changeover, Task::None) if !s.map.is_empty() || value % 8 == 1 => Button::ClearOut,
        (Mode::Changeover, Task::None) => Button::Load,
        (Mode::Manual, _) if value.is_multiple_of(2) => Button::Start,
        (Mode::Manual, _) => Button::Mode(Mode::Changeover),
        _ => Button::Start,
    }
}

/// Does a deed. True if a board came from outside or went there by it: +1, −1.
pub(crate) fn apply(
    machine: &Machine,
    s: &mut State,
    deed: Deed,
    hear: &mut dyn FnMut(Outcome),
) -> i32 {
    let mut boards = 0;
    match deed {
        Deed::Press(button) => machine.press(s, button, hear),
        Deed::Isolator(on) => machine.turn_isolator(s, on, hear),
        Deed::Emergency(true) => machine.press_emergency(s, hear),
        Deed::Emergency(false) => machine.release_emergency(s),
        Deed::Hatch(true) => machine.open_hatch(s, hear),
        Deed::Hatch(false) => machine.shut_hatch(s),
        Deed::Prop(set) => machine.set_prop(s, set, hear),
        Deed::Key(turned) => machine.turn_key(s, turned),
        Deed::Upstream(kind) => {
            // Once both signals are closed, the machine upstream keeps its word.
            if !matches!(s.phase, Phase::TakingIn | Phase::PassingThrough) {
                machine.upstream_signal(s, kind.map(Board::good), hear);
            }
        }
        Deed::Downstream(ready) => machine.downstream_signal(s, ready, hear),
        Deed::TakeFromBelt(side) => boards -= i32::from(machine.take_from_belt(s, side).is_some()),
        Deed::TakeFromMouth(side) => {
            boards -= i32::from(machine.take_from_mouth(s, side).is_some())
        }
        Deed::TakeFromRack(at) => boards -= i32::from(s.take_from_rack(at).is_some()),
        Deed::PutInRack(at, kind) => {
            boards += i32::from(machine.put_in_rack(s, at, Board::good(kind), hear))
        }
        Deed::Fault(number) if (number as usize) < machine.faults().len() => {
            machine.fault_comes(s, number, hear);
        }
        Deed::Fault(_) => {}
        Deed::ClearScrew => {
            machine.clear_screw(s);
        }
        Deed::WipeLenses(side) => {
            machine.wipe_lenses(s, side);
        }
        // Without such neighbours nothing is beyond the contacts.
        Deed::Claims(_) | Deed::Stands(..) | Deed::UpstreamDrops
            if machine.neighbouring.is_none() => {}
        Deed::Claims(claims) => machine.upstream_claims(s, claims, hear),
        Deed::Stands(stands, is_old) => machine.downstream_stands(s, stands, is_old),
        Deed::UpstreamDrops => machine.upstream_drops(s, hear),
        Deed::Chatters => {
            let closed = s.downstream_ready;
            machine.downstream_signal(s, !closed, hear);
            machine.downstream_signal(s, closed, hear);
        }
        Deed::LayOnBelt(kind) => {
            boards += i32::from(machine.lay_on_infeed_belt(s, Board::good(kind), hear))
        }
    }
    boards
}

/// The key of a state.
pub(crate) fn key(machine: &Machine, state: &State) -> Key {
    let (mut copy, mut writer) = (*state, KeyWriter::new());
    machine.code(&mut copy, &mut writer);
    Key::from_bytes(writer.finish())
}

/// The state that a key names, read over a state that is as far from it as can be.
pub(crate) fn read(machine: &Machine, key: &Key, over: &State) -> State {
    let mut state = *over;
    machine.code(&mut state, &mut KeyReader::new(key));
    state
}
