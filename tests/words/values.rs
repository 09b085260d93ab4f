//! Every value that the drill can be asked to say. A value that is new in the core does not
//! compile, or fails the test below, until it is here.

use rackproof_buffer::{
    Answer, AxisName, BeamName, Button, Command, Contact, Half, HalfSlot, Halves, Harm, HarmKind,
    Mode, Outcome as Shown, Place, Question, Side, Task, UnitState,
};
use rackproof_drill::{
    Aim, Chance, Cue, Fact, Intent, IntentKind, MachineSign, Sign, SignKind, Stand, Told, Tray,
    VoidCause,
};
use rackproof_model::Micrometres;

/// All values of an enum without data. A value that is new there does not compile until it is here.
macro_rules! every {
    ($kind:ident: $($name:ident),+ $(,)?) => {{
        no_other!($kind: $($name),+);
        [$($kind::$name),+]
    }};
}

/// Does not compile when the enum has a variant that is not listed here.
macro_rules! no_other {
    ($kind:ident: $($name:ident),+ $(,)?) => {{
        let _ = |value: $kind| match value {
            $($kind::$name { .. } => {})+
        };
    }};
}

mod panel;

pub(crate) use self::panel::{alarm_states, alarms, refusals, saved, settings, slips};

pub(crate) const PLACE: HalfSlot = HalfSlot {
    slot: 6,
    half: Half::Outfeed,
};
pub(crate) const OTHER: HalfSlot = HalfSlot {
    slot: 0,
    half: Half::Infeed,
};

pub(crate) fn modes() -> [Mode; 3] {
    every!(Mode: Production, Changeover, Manual)
}

pub(crate) fn tasks() -> [Task; 3] {
    every!(Task: None, Changeover, ClearOut)
}

pub(crate) fn answers() -> [Answer; 3] {
    every!(Answer: Taken, SeenEmpty, NotSure)
}

fn axes() -> [AxisName; 3] {
    every!(AxisName: Lift, Rails, Belts)
}

fn sides() -> [Side; 2] {
    every!(Side: Infeed, Outfeed)
}

pub(crate) fn told() -> [Told; 7] {
    every!(Told: UpstreamHolds, UpstreamGoesOn, DownstreamHolds, DownstreamGoesOn, DownstreamStands,
        DownstreamMends, LeadKnows)
}

pub(crate) fn chances() -> [Chance; 7] {
    no_other!(
        Chance: UpstreamLaysBoard, UpstreamOffersBoard, DownstreamMakesRoom, UpstreamDrops,
        DownstreamDrops, UpstreamGivesTwo, FaultComes,
    );
    [
        Chance::UpstreamLaysBoard,
        Chance::UpstreamOffersBoard,
        Chance::DownstreamMakesRoom,
        Chance::UpstreamDrops,
        Chance::DownstreamDrops,
        Chance::UpstreamGivesTwo,
        Chance::FaultComes(0),
    ]
}

pub(crate) fn questions() -> [Question; 7] {
    no_other!(Question: Rails, Seen, Take, Answer, Arrival, AnswerHalf, Confirmation);
    [
        Question::Rails,
        Question::Seen(6),
        Question::Take(6),
        Question::Answer(6),
        Question::Arrival(6),
        Question::AnswerHalf(PLACE),
        Question::Confirmation,
    ]
}

pub(crate) fn places() -> [Place; 5] {
    no_other!(Place: Slot, Belt, Mouth);
    let [infeed, outfeed] = sides();
    [
        Place::Slot(PLACE),
        Place::Belt(infeed),
        Place::Belt(outfeed),
        Place::Mouth(infeed),
        Place::Mouth(outfeed),
    ]
}

pub(crate) fn voids() -> Vec<VoidCause> {
    no_other!(VoidCause: Moved, HandEntered, UpstreamLetGo);
    let others = [VoidCause::HandEntered, VoidCause::UpstreamLetGo];
    axes()
        .map(VoidCause::Moved)
        .into_iter()
        .chain(others)
        .collect()
}

fn buttons() -> Vec<Button> {
    no_other!(
        Button: Start, Stop, Reset, Mode, Choose, EditWidth, Save, Load, ClearOut, Answer,
        HoldDeclare, LetGoDeclare, Acknowledge, SaveOver, Set, Order,
    );
    let mut buttons = vec![
        Button::Start,
        Button::Stop,
        Button::Reset,
        Button::Choose(0),
        Button::EditWidth(Micrometres(170_800)),
        Button::Save,
        Button::Load,
        Button::ClearOut,
        Button::HoldDeclare,
        Button::LetGoDeclare,
        Button::Acknowledge,
    ];
    buttons.push(Button::SaveOver(0));
    buttons.extend(settings().into_iter().map(Button::Set));
    buttons.extend(Command::ALL.map(Button::Order));
    buttons.extend(modes().map(Button::Mode));
    buttons.extend(answers().map(Button::Answer));
    buttons
}

/// All intents; the test below finds one that is not here.
pub(crate) fn intents() -> Vec<Intent> {
    let mut intents = vec![
        Intent::TestStraps,
        Intent::OpenHatch,
        Intent::ShutHatch,
        Intent::PlugCord,
        Intent::UnplugCord,
        Intent::SetProp,
        Intent::RemoveProp,
        Intent::IsolatorOff,
        Intent::IsolatorOn,
        Intent::LockOn,
        Intent::LockOff,
        Intent::TryStart,
        Intent::HandIn,
        Intent::HandOut,
        Intent::Take(PLACE),
        Intent::PutIn(PLACE),
        Intent::TakeFromBelt,
        Intent::TakeFromMouth,
        Intent::PressEmergency,
        Intent::ReleaseEmergency,
        Intent::KeyIn,
        Intent::KeyOut,
        Intent::AskUpstreamHold,
        Intent::LetUpstreamGo,
        Intent::AskDownstreamHold,
        Intent::LetDownstreamGo,
        Intent::CallLead,
        Intent::WearGloves,
        Intent::ClearScrew,
        Intent::WipeLenses,
        Intent::ClearPlug,
        Intent::WriteLog,
        Intent::Report,
    ];
    intents.extend(Stand::ALL.map(|(_, stand)| Intent::Walk(stand)));
    intents.extend([true, false].map(Intent::Torch));
    intents.extend(every!(Aim: LeanInfeed, LeanOutfeed, Mouth).map(Intent::Look));
    intents.extend(every!(Tray: Good, Quarantine, Scrap).map(Intent::PutDown));
    intents.extend(buttons().into_iter().map(Intent::Press));
    intents
}

pub(crate) fn signs() -> Vec<Sign> {
    no_other!(
        Sign: Machine, LooksVoided, Looked, Dark, SawBoard, SawBelt, SawMouth, Took, NothingThere,
        NoRoom, NothingStarted, Told, StrapsTested, HandEntered, Crack, BoardLaid, Cue,
    );
    let mut signs = vec![
        Sign::Looked {
            empty: Halves::all(3),
            boards: Halves::NONE,
        },
        Sign::Dark,
        Sign::NothingThere,
        Sign::NoRoom(PLACE),
        Sign::NothingStarted,
        Sign::StrapsTested,
        Sign::HandEntered,
        Sign::Crack,
        Sign::BoardLaid,
    ];
    for damaged in [true, false] {
        let (at, kind) = (PLACE, 0);
        signs.extend([
            Sign::SawBoard { at, kind, damaged },
            Sign::Took { kind, damaged },
        ]);
        let belt = |side| Sign::SawBelt(side, u8::from(damaged));
        signs.extend(sides().map(belt));
        signs.extend(sides().map(|side| Sign::SawMouth(side, damaged)));
    }
    signs.extend(voids().into_iter().map(Sign::LooksVoided));
    signs.extend(told().map(Sign::Told));
    signs.extend(cues().into_iter().map(Sign::Cue));
    signs.extend(
        shown()
            .into_iter()
            .filter_map(MachineSign::of)
            .map(Sign::Machine),
    );
    signs
}

fn cues() -> Vec<Cue> {
    no_other!(
        Cue: StripOnScrew, ScrewCleared, BeltSlips, LensFilmed, BeamOutOfLine, BeamLit,
        LensesWiped, LiftSinks, LiftJerks, LampsDiffer, Heat, Bowed, Askew, NeighbourStands, Jumper,
        TakesAlways, BoardWaitsUpstream, TestBox, OtherWidth, FedByHand, FailedLampLit,
        LampFlickers, Turned, NoMachine, JumperOut, TestBoxOff, PlugInOrder, StandsAgainstRails,
    );
    let mut cues = vec![
        Cue::StripOnScrew,
        Cue::LiftSinks,
        Cue::LiftJerks,
        Cue::Heat(80),
    ];
    cues.extend([true, false].map(Cue::ScrewCleared));
    cues.extend([true, false].map(Cue::LensesWiped));
    cues.extend(sides().map(Cue::BeltSlips));
    for (_, beam) in BeamName::ALL {
        cues.extend([Cue::LensFilmed, Cue::BeamOutOfLine, Cue::BeamLit].map(|cue| cue(beam)));
    }
    cues.extend(Contact::ALL.map(|(_, contact)| Cue::LampsDiffer(contact)));
    cues.extend(places().map(Cue::Bowed));
    cues.extend(places().map(Cue::Askew));
    cues.extend([Cue::TakesAlways, Cue::BoardWaitsUpstream, Cue::FedByHand]);
    cues.extend([
        Cue::FailedLampLit,
        Cue::LampFlickers,
        Cue::StandsAgainstRails,
    ]);
    cues.extend(places().map(Cue::Turned));
    cues.extend(sides().map(Cue::TestBox));
    cues.extend(sides().map(Cue::OtherWidth));
    cues.extend(sides().map(Cue::NeighbourStands));
    cues.extend(sides().map(Cue::Jumper));
    for cue in [
        Cue::NoMachine,
        Cue::JumperOut,
        Cue::TestBoxOff,
        Cue::PlugInOrder,
    ] {
        cues.extend(sides().map(cue));
    }
    cues
}

/// All that the machine publishes.
fn shown() -> Vec<Shown> {
    no_other!(
        Shown: UnitChanged, ModeChanged, TaskChanged, Started, Stopped, Asked, Refused, Alarmed,
        SweepSaw, SweepSawNothing, Answered, ClearedOut, DeclaredEmpty, ProductChosen,
        ProductLoaded, ProductSaved, ReferenceFound, ReferenceLost, Powered, WidthReached,
        MachineReady, BoardAvailable, BoardEntered, BoardStored, BoardSent, BoardPassed,
        BoardRanPast, BoardReachedEnd, Harmed, MotorHummed, BrakeTicked, LiftSank, AnsweredHalf,
        WidthTyped, SettingChanged, WaitsForWidth,
    );
    let mut shown = vec![
        Shown::MotorHummed,
        Shown::BrakeTicked,
        Shown::LiftSank,
        Shown::SweepSaw(6),
        Shown::SweepSawNothing,
        Shown::ClearedOut,
        Shown::DeclaredEmpty,
        Shown::ProductChosen(0),
        Shown::ProductLoaded(0),
        Shown::ProductSaved(0),
        Shown::ReferenceFound,
        Shown::ReferenceLost,
        Shown::WidthReached,
        Shown::BoardEntered,
        Shown::BoardStored(6),
        Shown::BoardSent(6),
        Shown::BoardPassed(6),
        Shown::BoardRanPast(6),
        Shown::BoardReachedEnd(6),
        Shown::WidthTyped(Micrometres(170_800)),
        Shown::WaitsForWidth,
    ];
    shown.extend(answers().map(|answer| Shown::AnsweredHalf(PLACE, answer)));
    shown.extend(settings().into_iter().map(Shown::SettingChanged));
    for closed in [true, false] {
        let signals = [Shown::Powered, Shown::MachineReady, Shown::BoardAvailable];
        shown.extend(signals.map(|signal| signal(closed)));
    }
    shown.extend(UnitState::ALL.map(Shown::UnitChanged));
    shown.extend(modes().map(Shown::ModeChanged));
    shown.extend(tasks().map(Shown::TaskChanged));
    shown.extend(axes().map(Shown::Started));
    shown.extend(axes().map(Shown::Stopped));
    shown.extend(questions().map(Shown::Asked));
    shown.extend(refusals().into_iter().map(Shown::Refused));
    shown.extend(alarms().map(Shown::Alarmed));
    shown.extend(answers().map(|answer| Shown::Answered(6, answer)));
    shown.extend(harms().into_iter().map(Shown::Harmed));
    shown
}

pub(crate) fn harms() -> Vec<Harm> {
    let over_end = Harm {
        kind: HarmKind::Dropped,
        board: Some(0),
        place: None,
        number: 180_000,
        limit: 0,
    };
    let places = places().map(Some).into_iter().chain([None]);
    let boards = [Some(0), None];
    let each = |(place, board)| {
        HarmKind::ALL.map(|kind| Harm {
            kind,
            board,
            place,
            number: 1_200_000,
            limit: 1_000_000,
        })
    };
    places
        .flat_map(|place| boards.map(|board| (place, board)))
        .flat_map(each)
        .chain([over_end])
        .collect()
}

pub(crate) fn facts() -> Vec<Fact> {
    no_other!(
        Fact: BoardEntered, LiftSank, BoardLaid, BoardTaken, BoardPutIn, BoardPutDown,
        FailedBoardCame, FailedBoardTakenAway,
    );
    let down = [true, false].map(|good| Fact::BoardPutDown { kind: 0, good });
    let others = [
        Fact::BoardEntered,
        Fact::LiftSank,
        Fact::BoardLaid(0),
        Fact::FailedBoardCame(0),
        Fact::FailedBoardTakenAway(0),
        Fact::BoardTaken(PLACE, 0),
        Fact::BoardPutIn(PLACE, 0),
    ];
    others.into_iter().chain(down).collect()
}

#[test]
fn every_kind_of_intent_and_of_sign_is_in_the_lists() {
    let intents: Vec<IntentKind> = intents().iter().map(Intent::kind).collect();
    let missing = IntentKind::ALL
        .iter()
        .filter(|(_, kind)| !intents.contains(kind));
    assert_eq!(missing.map(|(name, _)| *name).collect::<Vec<_>>(), [""; 0]);
    let mut kinds = Vec::new();
    signs()
        .iter()
        .for_each(|sign| sign.kinds(&mut |kind| kinds.push(kind)));
    let missing = SignKind::ALL
        .iter()
        .filter(|(_, kind)| !kinds.contains(kind));
    assert_eq!(missing.map(|(name, _)| *name).collect::<Vec<_>>(), [""; 0]);
}
