//! What the machine publishes: facts in the past tense.

use rackproof_model::Micrometres;

use crate::{Answer, Command, HalfSlot, Mode, Setting, Task, UnitState};

/// Who listens to outcomes.
pub type Hear<'h> = dyn FnMut(Outcome) + 'h;

/// Who listens to what happens most: boards handed over. It is known where it is built, so that
/// what nobody makes use of costs nothing. What is seldom goes to whoever it is.
pub trait Listener: FnMut(Outcome) {}

impl<T: FnMut(Outcome) + ?Sized> Listener for T {}

/// Towards the machine before, or the machine behind.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// Upstream: the infeed.
    Infeed,
    /// Downstream: the outfeed.
    Outfeed,
}

/// One of the three axes that can be heard and seen to move.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum AxisName {
    /// The rack, up and down.
    Lift,
    /// The moving rail of rack and belts.
    Rails,
    /// The belts, those of the slot at belt height included.
    Belts,
}

/// What the panel asks a person.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Question {
    /// The sweep saw nothing. Start moves the rails.
    Rails,
    /// The sweep saw a board in this slot.
    Seen(u8),
    /// A board is at the outfeed end: take it, then Start.
    Take(u8),
    /// Nothing reached the outfeed beam: look, then answer for this slot.
    Answer(u8),
    /// A board did not arrive within its time.
    Arrival(u8),
    /// Nothing reached the outfeed beam: look, then answer for this half of a slot.
    AnswerHalf(HalfSlot),
    /// The width was not confirmed within its time.
    Confirmation,
}

/// Why a command had no effect.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Refusal {
    /// Not possible in this unit state.
    State(UnitState),
    /// The button of this command has no effect in this unit state.
    Button(Command, UnitState),
    /// The emergency stop is latched.
    EmergencyLatched,
    /// The hatch is open.
    HatchOpen,
    /// No task is chosen.
    NoTask,
    /// No product is chosen, or none is loaded.
    NoProduct,
    /// The slot map is not empty.
    MapNotEmpty,
    /// The slot map has unknown slots.
    MapUnknown,
    /// The sweep saw a board; clear-out is the only way on.
    BoardSeen,
    /// The mode does not have this task.
    Mode,
    /// A question is open.
    Question,
    /// Declare empty is offered only while stopped with the reference lost.
    Reference,
    /// The setter's key is not turned.
    Key,
    /// The width is beyond the rails' travel.
    WidthBeyondTravel,
    /// The rails do not stand at the loaded product's width.
    WidthNotReached,
    /// This command has no effect in this unit state, by the edition that the machine keeps.
    Order(Command, UnitState),
    /// Belts run: a board is on its way, and a stop on the way would lay it anywhere.
    BoardOnItsWay,
    /// It is that mode already.
    ModeAlready,
    /// In mode Manual nothing runs by itself.
    Manual,
    /// This is a setter's: the key is not turned.
    SetterOnly,
    /// The setting is beyond its bounds.
    SettingBeyondBounds(Setting),
    /// The setting is for a fitting that is not there.
    NotFitted,
    /// The product's board is longer than half a slot.
    BoardTooLong,
}

/// What calls for a person.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Alarm {
    /// The emergency stop was pressed.
    EmergencyStop,
    /// The hatch was opened.
    HatchOpened,
    /// The sweep saw a board.
    BoardSeen,
    /// A board did not arrive in time.
    NoArrival,
    /// The rails ran for their zero and did not find it.
    RailsNoZero,
    /// The lift's drive lost its count.
    LiftDrive,
    /// The width was not confirmed in time.
    NoConfirmation,
}

/// Where a board is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// In a half of a slot; slots from 0.
    Slot(HalfSlot),
    /// On the infeed or outfeed belt.
    Belt(Side),
    /// Across the mouth at that side.
    Mouth(Side),
}

/// What cannot be taken back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum HarmKind {
    /// A board was bent beyond its strain limit (µε).
    Overstrained,
    /// A board was pressed out of its ledges (µm of shortening).
    SprungOut,
    /// A board was bent until it broke (µε).
    Broken,
    /// A board fell between rails that stand too wide (µm of side clearance).
    Dropped,
    /// A board across a mouth was cut by the lift (µm of lift travel).
    Sheared,
    /// A board was driven into another (µm that it was short of its place).
    Collided,
    /// A hand was where an axis moved (nm/s of that axis).
    HandInjured,
    /// The lift ran against its prop (µm of lift travel).
    PropStruck,
    /// A board was driven or pushed under or over tall parts (µm of height that both boards need).
    PartsStruck,
    /// The lift fell (µm/s at the end of its fall).
    LiftFell,
    /// A hand was in the rack while the lift came down on its own (µm/s of the lift).
    CaughtUnderLift,
    /// A board was touched by somebody who carried a charge: it looks good, and a part of it may
    /// fail later (V on the body).
    Charged,
    /// A hand held a board that was too hot (°C).
    Burned,
}

impl HarmKind {
    /// All kinds, each at the place of its number.
    pub const ALL: [HarmKind; 13] = [
        HarmKind::Overstrained,
        HarmKind::SprungOut,
        HarmKind::Broken,
        HarmKind::Dropped,
        HarmKind::Sheared,
        HarmKind::Collided,
        HarmKind::HandInjured,
        HarmKind::PropStruck,
        HarmKind::PartsStruck,
        HarmKind::LiftFell,
        HarmKind::CaughtUnderLift,
        HarmKind::Charged,
        HarmKind::Burned,
    ];

    /// All kinds with the names that files use.
    pub const NAMED: &[(&'static str, HarmKind)] = &[
        ("Overstrained", HarmKind::Overstrained),
        ("SprungOut", HarmKind::SprungOut),
        ("Broken", HarmKind::Broken),
        ("Dropped", HarmKind::Dropped),
        ("Sheared", HarmKind::Sheared),
        ("Collided", HarmKind::Collided),
        ("HandInjured", HarmKind::HandInjured),
        ("PropStruck", HarmKind::PropStruck),
        ("PartsStruck", HarmKind::PartsStruck),
        ("LiftFell", HarmKind::LiftFell),
        ("CaughtUnderLift", HarmKind::CaughtUnderLift),
        ("Charged", HarmKind::Charged),
        ("Burned", HarmKind::Burned),
    ];

    /// Whether nobody perceives it when it happens.
    pub fn is_latent(self) -> bool {
        matches!(self, HarmKind::Overstrained | HarmKind::Charged)
    }
}

/// One harm, with the number that passed its limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Harm {
    /// What happened.
    pub kind: HarmKind,
    /// Which kind of board, if a board.
    pub board: Option<u8>,
    /// Where, if a board.
    pub place: Option<Place>,
    /// The number, in the unit that [`HarmKind`] names.
    pub number: i32,
    /// The limit that it passed, in the same unit.
    pub limit: i32,
}

/// A fact that the machine publishes. All slots count from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)] // a tag in a byte of its own: each listener asks for it, many times for each board
pub enum Outcome {
    /// The unit went to a state.
    UnitChanged(UnitState),
    /// The mode was changed.
    ModeChanged(Mode),
    /// A task was chosen, or forgotten.
    TaskChanged(Task),
    /// An axis began to move.
    Started(AxisName),
    /// An axis came to rest.
    Stopped(AxisName),
    /// The panel asks.
    Asked(Question),
    /// A command had no effect.
    Refused(Refusal),
    /// An alarm came.
    Alarmed(Alarm),
    /// The sweep saw a board in a slot.
    SweepSaw(u8),
    /// The sweep ran through and saw nothing.
    SweepSawNothing,
    /// A person answered for a slot.
    Answered(u8, Answer),
    /// The clear-out has an answer for every slot that was unknown.
    ClearedOut,
    /// The slot map was set to empty on a person's word.
    DeclaredEmpty,
    /// A product was chosen.
    ProductChosen(u8),
    /// The chosen product was loaded.
    ProductLoaded(u8),
    /// The edited width was saved.
    ProductSaved(u8),
    /// The lift found its reference.
    ReferenceFound,
    /// The lift's reference was lost.
    ReferenceLost,
    /// The panel has power, or has none.
    Powered(bool),
    /// The rails stand at the width of the loaded product.
    WidthReached,
    /// Machine Ready closed or opened.
    MachineReady(bool),
    /// Board Available closed or opened.
    BoardAvailable(bool),
    /// A board left the machine upstream and is on the infeed belt.
    BoardEntered,
    /// A board was stored in a slot.
    BoardStored(u8),
    /// A board left for the machine downstream.
    BoardSent(u8),
    /// A board went straight through to the machine downstream, by this slot.
    BoardPassed(u8),
    /// The board of a slot ran a little past the outfeed mouth, was seen by the beam there, and is
    /// drawn back before it is sent: normal.
    BoardRanPast(u8),
    /// A board reached the outfeed beam in a clear-out.
    BoardReachedEnd(u8),
    /// The rails' motor stalled: it hums, and its rails stand still.
    MotorHummed,
    /// The lift's brake took the load with a tick, and does not hold it.
    BrakeTicked,
    /// The lift came down on its own.
    LiftSank,
    /// A person answered for a half of a slot.
    AnsweredHalf(HalfSlot, Answer),
    /// A width was typed for the chosen product. It is neither saved nor loaded.
    WidthTyped(Micrometres),
    /// A setting was changed.
    SettingChanged(Setting),
    /// The changeover waits until the width sensor confirms the width.
    WaitsForWidth,
    /// Somebody or something was harmed.
    Harmed(Harm),
}
