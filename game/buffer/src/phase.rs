//! What the unit is set to, and what its controller is about.

/// The mode of the unit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mode {
    /// Boards are stored and sent.
    #[default]
    Production,
    /// The product is changed, the rack is cleared out.
    Changeover,
    /// Nothing runs by itself. Only where the machine has this mode.
    Manual,
}

/// What Start would do in mode Changeover.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Task {
    /// Nothing: a task must be chosen.
    #[default]
    None,
    /// Sweep, then rails to the loaded product's width.
    Changeover,
    /// Slot by slot, each answered by a person.
    ClearOut,
}

/// What the controller is about within its unit state.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
#[repr(u8)]
pub enum Phase {
    /// Nothing.
    #[default]
    Rest,
    /// The lift runs to its reference.
    Referencing,
    /// The lift runs to the lowest slot before the sweep.
    ToSweep,
    /// The rack runs past the beams.
    Sweeping,
    /// The sweep saw a board; the lift comes to rest.
    SweepSaw,
    /// Held: the sweep saw a board.
    AskSeen,
    /// Held: the sweep saw nothing, Start moves the rails.
    AskRails,
    /// The rails run to their zero.
    RailsToZero,
    /// The rails run to the product's width.
    RailsToWidth,
    /// The lift runs to the next unknown slot.
    Indexing,
    /// The slot's belts run out.
    RunningOut,
    /// A board is at the end beam; the belts come to rest.
    ReachedEnd,
    /// Held: take the board at the outfeed end.
    AskTake,
    /// Held: answer for the slot.
    AskAnswer,
    /// Production: the lift runs to a free slot.
    Seeking,
    /// Production: waiting at a slot.
    Waiting,
    /// Production: a board comes in.
    TakingIn,
    /// Production: the lift runs to the slot to be sent.
    ToSend,
    /// Production: a board goes out.
    Sending,
    /// Held: a board did not arrive.
    AskArrival,
    /// Production: the board to be sent runs a little past the outfeed mouth.
    RunningPast,
    /// Production: it is drawn back.
    DrawingBack,
    /// Production: no board was seen past the mouth; the belts run back.
    NothingPast,
    /// Production: a board goes straight through.
    PassingThrough,
    /// Production: the belts have run, and a board is still waited for.
    AwaitingArrival,
    /// Held: answer for a half of the slot.
    AskHalf,
    /// Clear-out: the machine downstream takes the board.
    SendingOff,
    /// The rails rest; the width sensor is waited for.
    AwaitWidth,
    /// Held: the width was not confirmed in time.
    AskConfirmation,
}

impl Phase {
    /// All phases, each at the place of its number.
    pub(crate) const ALL: [Phase; 29] = [
        Phase::Rest,
        Phase::Referencing,
        Phase::ToSweep,
        Phase::Sweeping,
        Phase::SweepSaw,
        Phase::AskSeen,
        Phase::AskRails,
        Phase::RailsToZero,
        Phase::RailsToWidth,
        Phase::Indexing,
        Phase::RunningOut,
        Phase::ReachedEnd,
        Phase::AskTake,
        Phase::AskAnswer,
        Phase::Seeking,
        Phase::Waiting,
        Phase::TakingIn,
        Phase::ToSend,
        Phase::Sending,
        Phase::AskArrival,
        Phase::RunningPast,
        Phase::DrawingBack,
        Phase::NothingPast,
        Phase::PassingThrough,
        Phase::AwaitingArrival,
        Phase::AskHalf,
        Phase::SendingOff,
        Phase::AwaitWidth,
        Phase::AskConfirmation,
    ];
}
