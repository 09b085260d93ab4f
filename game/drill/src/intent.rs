//! What can be done: by the person, and by the environment.

use rackproof_buffer::{Answer, Button, HalfSlot, Mode};

use crate::Stand;

/// Where a look goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Aim {
    /// Through the open hatch, leaning to the infeed side.
    LeanInfeed,
    /// Through the open hatch, leaning to the outfeed side.
    LeanOutfeed,
    /// At a mouth: that belt, that mouth, and the slot at the belts.
    Mouth,
}

/// Where a board is put down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tray {
    /// With the good ones.
    Good,
    /// In quarantine, to be judged.
    Quarantine,
    /// In the scrap bin.
    Scrap,
}

/// Something that the person does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Intent {
    /// Walk to a standing place.
    Walk(Stand),
    /// Test the shoe straps.
    TestStraps,
    /// Switch the torch on or off.
    Torch(bool),
    /// Look.
    Look(Aim),
    /// Open the hatch.
    OpenHatch,
    /// Shut the hatch.
    ShutHatch,
    /// Plug the wrist cord into the bonding stud.
    PlugCord,
    /// Unplug the wrist cord.
    UnplugCord,
    /// Set the prop under the lift.
    SetProp,
    /// Take the prop out.
    RemoveProp,
    /// Turn the isolator off.
    IsolatorOff,
    /// Turn the isolator on.
    IsolatorOn,
    /// Put my lock on the isolator.
    LockOn,
    /// Take my lock off.
    LockOff,
    /// Press Start with the isolator off, to see that nothing starts.
    TryStart,
    /// Reach into the rack.
    HandIn,
    /// Take the hand out of the rack.
    HandOut,
    /// Take the board out of a half-slot.
    Take(HalfSlot),
    /// Put the board in hand into a half-slot.
    PutIn(HalfSlot),
    /// Take a board off the belt where I stand.
    TakeFromBelt,
    /// Work a board free that lies across the mouth where I stand.
    TakeFromMouth,
    /// Put the board in hand down.
    PutDown(Tray),
    /// Press the emergency stop.
    PressEmergency,
    /// Turn the emergency stop out.
    ReleaseEmergency,
    /// Put the setter's key in and turn it.
    KeyIn,
    /// Turn the setter's key back and take it out.
    KeyOut,
    /// Press something on the panel.
    Press(Button),
    /// Ask upstream to hold all boards.
    AskUpstreamHold,
    /// Tell upstream to go on.
    LetUpstreamGo,
    /// Ask downstream to hold.
    AskDownstreamHold,
    /// Tell downstream to go on.
    LetDownstreamGo,
    /// Call the line lead.
    CallLead,
    /// Put gloves on against heat.
    WearGloves,
    /// Feel along the rails' screw, and clear it.
    ClearScrew,
    /// Wipe the lenses of the beams where I stand.
    WipeLenses,
    /// Look over the plug of the neighbour where I stand, and take out what does not belong there.
    ClearPlug,
    /// Write the log.
    WriteLog,
    /// Report the job done. Ends the attempt.
    Report,
}

macro_rules! kinds {
    ($($(#[$doc:meta])* $name:ident = $pattern:pat,)*) => {
        /// What sort of intent it is: what rules and procedures name.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum IntentKind {
            $($(#[$doc])* $name,)*
        }

        impl IntentKind {
            /// All kinds with the names that files use.
            pub const ALL: &[(&'static str, IntentKind)] =
                &[$((stringify!($name), IntentKind::$name),)*];
        }

        impl Intent {
            /// What sort of intent this is.
            pub fn kind(&self) -> IntentKind {
                match self {
                    $($pattern => IntentKind::$name,)*
                }
            }
        }
    };
}

kinds! {
    /// Walking.
    Walk = Intent::Walk(_),
    /// Testing the straps.
    TestStraps = Intent::TestStraps,
    /// Switching the torch.
    Torch = Intent::Torch(_),
    /// Looking through the hatch to the infeed side.
    LookInfeedSide = Intent::Look(Aim::LeanInfeed),
    /// Looking through the hatch to the outfeed side.
    LookOutfeedSide = Intent::Look(Aim::LeanOutfeed),
    /// Looking into a mouth.
    LookMouth = Intent::Look(Aim::Mouth),
    /// Opening the hatch.
    OpenHatch = Intent::OpenHatch,
    /// Shutting the hatch.
    ShutHatch = Intent::ShutHatch,
    /// Plugging the cord in.
    PlugCord = Intent::PlugCord,
    /// Unplugging the cord.
    UnplugCord = Intent::UnplugCord,
    /// Setting the prop.
    SetProp = Intent::SetProp,
    /// Taking the prop out.
    RemoveProp = Intent::RemoveProp,
    /// Isolating.
    IsolatorOff = Intent::IsolatorOff,
    /// Giving power.
    IsolatorOn = Intent::IsolatorOn,
    /// Locking.
    LockOn = Intent::LockOn,
    /// Taking the lock off.
    LockOff = Intent::LockOff,
    /// Trying to start.
    TryStart = Intent::TryStart,
    /// Reaching in.
    HandIn = Intent::HandIn,
    /// Hand out.
    HandOut = Intent::HandOut,
    /// Taking a board out of the rack.
    Take = Intent::Take(_),
    /// Putting a board into the rack.
    PutIn = Intent::PutIn(_),
    /// Taking a board off a belt.
    TakeFromBelt = Intent::TakeFromBelt,
    /// Working a board free at a mouth.
    TakeFromMouth = Intent::TakeFromMouth,
    /// Putting a board with the good ones.
    PutDownGood = Intent::PutDown(Tray::Good),
    /// Putting a board into quarantine.
    PutDownQuarantine = Intent::PutDown(Tray::Quarantine),
    /// Putting a board into the scrap bin.
    PutDownScrap = Intent::PutDown(Tray::Scrap),
    /// Pressing the emergency stop.
    PressEmergency = Intent::PressEmergency,
    /// Turning the emergency stop out.
    ReleaseEmergency = Intent::ReleaseEmergency,
    /// Key in.
    KeyIn = Intent::KeyIn,
    /// Key out.
    KeyOut = Intent::KeyOut,
    /// Pressing Start.
    Start = Intent::Press(Button::Start),
    /// Pressing Stop.
    Stop = Intent::Press(Button::Stop),
    /// Pressing Reset, or Clear.
    Reset = Intent::Press(Button::Reset),
    /// Choosing mode Production.
    ModeProduction = Intent::Press(Button::Mode(Mode::Production)),
    /// Choosing mode Changeover.
    ModeChangeover = Intent::Press(Button::Mode(Mode::Changeover)),
    /// Choosing mode Manual.
    ModeManual = Intent::Press(Button::Mode(Mode::Manual)),
    /// Choosing a product.
    Choose = Intent::Press(Button::Choose(_)),
    /// Typing a width.
    EditWidth = Intent::Press(Button::EditWidth(_)),
    /// Saving the product.
    Save = Intent::Press(Button::Save),
    /// Loading the product.
    Load = Intent::Press(Button::Load),
    /// Choosing the clear-out.
    ClearOut = Intent::Press(Button::ClearOut),
    /// Answering: taken.
    AnswerTaken = Intent::Press(Button::Answer(Answer::Taken)),
    /// Answering: seen empty.
    AnswerSeenEmpty = Intent::Press(Button::Answer(Answer::SeenEmpty)),
    /// Answering: not sure.
    AnswerNotSure = Intent::Press(Button::Answer(Answer::NotSure)),
    /// Beginning to hold the declare button.
    HoldDeclare = Intent::Press(Button::HoldDeclare),
    /// Letting go of the declare button.
    LetGoDeclare = Intent::Press(Button::LetGoDeclare),
    /// Acknowledging alarms.
    Acknowledge = Intent::Press(Button::Acknowledge),
    /// Saving over another product's number.
    SaveOver = Intent::Press(Button::SaveOver(_)),
    /// Changing a machine setting.
    Set = Intent::Press(Button::Set(_)),
    /// Giving the unit a command that has no button of its own.
    Order = Intent::Press(Button::Order(_)),
    /// Asking upstream to hold.
    AskUpstreamHold = Intent::AskUpstreamHold,
    /// Letting upstream go on.
    LetUpstreamGo = Intent::LetUpstreamGo,
    /// Asking downstream to hold.
    AskDownstreamHold = Intent::AskDownstreamHold,
    /// Letting downstream go on.
    LetDownstreamGo = Intent::LetDownstreamGo,
    /// Calling the line lead.
    CallLead = Intent::CallLead,
    /// Putting gloves on.
    WearGloves = Intent::WearGloves,
    /// Clearing the screw.
    ClearScrew = Intent::ClearScrew,
    /// Wiping lenses.
    WipeLenses = Intent::WipeLenses,
    /// Clearing a neighbour's plug.
    ClearPlug = Intent::ClearPlug,
    /// Writing the log.
    WriteLog = Intent::WriteLog,
    /// Reporting the job done.
    Report = Intent::Report,
}

/// Something that the environment chooses.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Chance {
    /// Upstream, not asked to hold, lays its left-over board on the infeed belt by hand.
    UpstreamLaysBoard,
    /// Upstream, not asked to hold, offers its left-over board by signal.
    UpstreamOffersBoard,
    /// Downstream, which makes room when it likes, has room for a board.
    DownstreamMakesRoom,
    /// Upstream's belts stop and its signal opens in the middle of a hand-over.
    UpstreamDrops,
    /// Downstream's belts stop and its signal opens in the middle of a hand-over.
    DownstreamDrops,
    /// Upstream gives two boards on one closing.
    UpstreamGivesTwo,
    /// The variant's fault with this number comes.
    FaultComes(u8),
}

/// What makes the world change.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// The person did something.
    Did(Intent),
    /// The environment chose something.
    Chose(Chance),
}
