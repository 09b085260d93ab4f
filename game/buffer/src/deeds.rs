//! What may be done to the machine from outside, at random, and keys of what comes of it.

use rackproof_model::{
    Micrometres, Micros,
    key::{Key, KeyReader, KeyWriter},
    quantity::Percent,
};

use crate::{
    Alarm, Answer, Asks, Board, Button, Command, DrawBack, Edition, FirstZero, Half, HalfSlot,
    Machine, MachineParts, MiddleBeam, Mistrust, Mode, Order, Outcome, Phase, Priority, Question,
    ReadyRule, Scope, ServiceParts, Setting, Side, State, Task, Unfitted, UnitState, sample,
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

/// A machine whose site differs in all that may differ, by the bits of `variant`.
pub(crate) fn variant(variant: u32) -> Machine {
    let mut parts = sample::parts();
    let is = |bit: u32| variant >> bit & 1 == 1;
    let behaviours = &mut parts.behaviours;
    if is(0) {
        behaviours.machine_ready = ReadyRule::OnOffer;
    }
    if is(1) {
        behaviours.rails_zero = FirstZero::Opening;
    }
    if is(2) {
        behaviours.sweep_seen = Mistrust::All;
    }
    behaviours.rails_asked = !is(3);
    behaviours.runs_after_changeover = is(4);
    behaviours.whole_cycle_if_same = !is(5);
    if is(6) {
        parts.slots = 40;
    }
    if is(7) {
        // The longest and the shortest boards that a machine of this size takes.
        for (kind, length) in parts.kinds.iter_mut().zip([240, 168, 200, 168]) {
            kind.length = Micrometres::from_millimetres(length);
        }
    }
    vary_storing(&mut parts, variant >> 8);
    vary_service(&mut parts.service, variant >> 18);
    let machine = Machine::new(parts);
    if is(VARIANT_BITS - 1) {
        machine.with_faults(crate::faults::sample::faults())
    } else {
        machine
    }
}

/// How many bits [`variant`] reads. The last one is for faults.
pub(crate) const VARIANT_BITS: u32 = 25;

/// Settings, alarms, clear-out and unit as they may differ, by six bits.
fn vary_service(service: &mut ServiceParts, variant: u32) {
    let is = |bit: u32| variant >> bit & 1 == 1;
    if is(0) {
        service.clear_out_asks = Asks::Place;
        service.side_play_scope = Scope::Product;
    }
    service.downstream_takes = is(1);
    service.manual_mode = is(1);
    if is(2) {
        service.latching = ServiceParts::mask(&Alarm::ALL.map(|(_, alarm)| alarm));
    }
    service.unit_states = Edition::ALL[(variant >> 3) as usize % 3].1;
    if is(5) {
        service.unfitted = Unfitted::Waits;
        service.width_sensor = is(0);
    }
}

/// Storing and sending as they may differ, by ten bits.
fn vary_storing(parts: &mut MachineParts, variant: u32) {
    let is = |bit: u32| variant >> bit & 1 == 1;
    let orders = [
        Order::FirstInFirstOut,
        Order::LastInFirstOut,
        Order::StraightThrough,
        Order::FirstInFirstOut,
    ];
    let storing = &mut parts.storing;
    storing.order = orders[variant as usize % 4];
    if is(2) {
        storing.order_scope = Scope::Product;
    }
    if is(3) {
        storing.priority = Priority::Emptying;
    }
    if is(4) {
        storing.middle_beam = Some(MiddleBeam {
            at: Micrometres::from_millimetres(250),
            clearance: Micrometres::from_millimetres(5),
            reflectance: Percent(18),
        });
    }
    if is(5) {
        storing.draw_back = Some(DrawBack {
            past: Micrometres::from_millimetres(15),
            reflectance: Percent(18),
        });
    }
    if is(6) {
        storing.release_interval = Micros::from_seconds(12);
    }
    if is(7) {
        storing.arrival_time_out = Micros::from_seconds(15);
    }
    if is(8) {
        parts.kinds[2].above = Micrometres::from_millimetres(25);
        parts.kinds[2].below = Micrometres::from_millimetres(3);
    }
    for (number, product) in parts.products.iter_mut().enumerate() {
        product.storing.order = orders[(variant as usize + number) % 4];
        product.storing.tandem = true;
        product.storing.interval = if is(9) { 1 + number as u8 } else { 1 };
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
