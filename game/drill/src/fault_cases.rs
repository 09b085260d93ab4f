//! The faults, one after the other: what is done, what must be heard of it, and what it leads to.
//! Figures are those of alder-16: rack 500 mm, gap 9, infeed belt 400, a wren 180 × 160 mm, side
//! play 0.8, slot 1 at 30 mm above the lift's reference.

mod axes;
mod beams;
mod boards;

use rackproof_buffer::{Button, Mode};

use crate::{
    Aim, Chance, Intent, Stand, Tray,
    fault_tests::{Run, Step},
};

/// One case.
pub(crate) struct Case {
    pub(crate) name: &'static str,
    /// The fault, as a drill file has it.
    pub(crate) fault: &'static str,
    /// A wren lies in slot 16, outfeed half.
    pub(crate) board_inside: bool,
    pub(crate) steps: &'static [Step],
    /// What must be heard: the cue first.
    pub(crate) heard: &'static [&'static str],
    pub(crate) unheard: &'static [&'static str],
    /// The steps can be done without the fault as well.
    pub(crate) plays_without_fault: bool,
    pub(crate) then: fn(&Run),
}

const NONE: Case = Case {
    name: "",
    fault: "",
    board_inside: false,
    steps: &[],
    heard: &[],
    unheard: &[],
    plays_without_fault: true,
    then: |_| {},
};

const fn press(button: Button) -> Step {
    Step::Do(Intent::Press(button))
}

const fn go(stand: Stand) -> Step {
    Step::Do(Intent::Walk(stand))
}

const LOOK: Step = Step::Do(Intent::Look(Aim::Mouth));
const OFFERS: Step = Step::Chose(Chance::UpstreamOffersBoard);
const RESET: Step = press(Button::Reset);
const START: Step = press(Button::Start);
const CHANGEOVER: Step = press(Button::Mode(Mode::Changeover));
const CHOOSE: Step = press(Button::Choose(1));
const LOAD: Step = press(Button::Load);

/// A changeover to Kestrel (220 mm wide) up to its end.
const CHANGE: &[Step] = &[
    CHANGEOVER,
    RESET,
    CHOOSE,
    LOAD,
    START,
    Step::Rest,
    START,
    Step::Rest,
];
/// Production, a board from upstream, then a look at the infeed mouth.
const TAKE_IN: &[Step] = &[
    RESET,
    START,
    Step::Rest,
    OFFERS,
    Step::Rest,
    go(Stand::Infeed),
    LOOK,
];
/// The same, with a look while the belts run.
const TAKE_IN_SEEN: &[Step] = &[
    RESET,
    START,
    Step::Rest,
    OFFERS,
    Step::Wait(1_000),
    go(Stand::Infeed),
    LOOK,
    Step::Rest,
];
/// A sweep, then a look at both mouths.
const SWEEP: &[Step] = &[
    CHANGEOVER,
    RESET,
    CHOOSE,
    LOAD,
    START,
    Step::Rest,
    go(Stand::Infeed),
    LOOK,
    go(Stand::Outfeed),
    LOOK,
];
/// The emergency stop, and a look at the infeed mouth.
const STOP_AT_INFEED: &[Step] = &[
    Step::Do(Intent::PressEmergency),
    go(Stand::Infeed),
    Step::Rest,
    LOOK,
];

fn width(run: &Run) -> (&crate::World, &rackproof_buffer::State) {
    (&run.world, &run.state.machine)
}

fn widths(run: &Run) -> (i32, Option<i32>) {
    let (world, machine) = width(run);
    let counted = machine.width_by_count(world.machine());
    (
        machine.width(world.machine()).0,
        counted.map(|width| width.0),
    )
}

/// All cases.
pub(crate) fn cases() -> impl Iterator<Item = &'static Case> {
    [axes::CASES, beams::CASES, boards::CASES]
        .into_iter()
        .flatten()
}
