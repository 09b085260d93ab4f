//! What a person asks of the window. Screens only ask; the window does.

use rackproof_buffer::HalfSlot;
use rackproof_drill::{Intent, IntentKind, Stand};

/// How a drill is gone through.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Way {
    /// A good attempt plays, with the reason of each step, and stops for talk.
    Watch,
    /// The next step is shown, and why.
    Guided,
    /// Help on demand, which is listed in the report.
    Practice,
    /// No help; recorded.
    Exam,
}

impl Way {
    /// All ways, in the order in which they are offered.
    pub const ALL: [Way; 4] = [Way::Watch, Way::Guided, Way::Practice, Way::Exam];
}

/// A page of the operator panel, in the column right of the slot map.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum PanelPage {
    /// Product, width, lift, signals: what stands there by itself.
    #[default]
    Values,
    /// Choosing and loading a product, mode, clear-out.
    Product,
    /// Alarms, and acknowledging them.
    Alarms,
    /// Declare empty.
    Declare,
    /// The log.
    Log,
    /// Machine settings, behind the setter's key.
    Settings,
}

impl PanelPage {
    /// All pages, in the order in which they are turned.
    pub const ALL: [PanelPage; 6] = [
        PanelPage::Values,
        PanelPage::Product,
        PanelPage::Alarms,
        PanelPage::Declare,
        PanelPage::Log,
        PanelPage::Settings,
    ];
}

/// What lies over the page until it is closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Over {
    /// Keys and what they do.
    Help,
    /// The parts of the hall as a list, with what can be done at each.
    Parts,
    /// Course: what was played before.
    Attempts,
    /// Course: the task sheet of the chosen drill.
    Sheet,
    /// Text size, motion, keys.
    Settings,
    /// The drill's clock stands. In an exam: whether to leave.
    Pause,
    /// For which slot and half: taking a board out, or putting one in.
    Slots(IntentKind),
    /// What to do with the board in hand.
    Trays,
    /// Whether to report the job done.
    Report,
    /// Rules and sources, in the debrief.
    Rules,
    /// Practice: a safe way on from here.
    WayOn,
    /// Debrief: the ways on from the moment shown.
    WaysOn,
}

/// Something that a person can set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Setting {
    /// Size of all text and marks, 0.9 to 2.0.
    Scale(f32),
    /// Cuts in place of camera moves, and no alternating marks.
    LessMotion(bool),
    /// Letter keys do nothing.
    NoLetters(bool),
    /// Press twice in place of holding.
    PressTwice(bool),
    /// Our own words in place of those of the site.
    PlainWords(bool),
    /// How many times as long everything takes outside exams: 1, 2 or 4.
    Stretch(u32),
}

/// One thing asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Wish {
    /// Do this.
    Do(Intent),
    /// Walk to the nearest emergency stop and press it.
    Emergency,
    /// Break off what I am doing.
    BreakOff,
    /// Practice: wait for the next event, or be done with what I am doing.
    Wait,
    /// Show the next step. It is listed in the report.
    Hint,
    /// Show a safe way on from here. It is listed in the report.
    WayOn,
    /// Make a mark on the tick sheet, or take it away.
    Tick(HalfSlot),
    /// Turn the panel to a page.
    Page(PanelPage),
    /// Lay something over the page.
    Over(Over),
    /// Take away what lies over the page.
    CloseOver,
    /// Turn the view, in degrees to the left and up.
    Turn(f32, f32),
    /// Turn the view back to where it was.
    TurnBack,
    /// Course: choose this drill, by its number.
    ChooseDrill(usize),
    /// Course: choose this variant, by its number. `None`: any.
    ChooseVariant(Option<usize>),
    /// Course: open the debrief of an attempt, by its number among those of the chosen drill.
    OpenAttempt(usize),
    /// Begin the chosen drill.
    Begin(Way),
    /// Begin the same variant again, in the same way.
    Again,
    /// Back to the course.
    Leave,
    /// End the program.
    Quit,
    /// Watch, debrief: play or stand still.
    Play(bool),
    /// Watch, debrief: so many times as fast.
    Speed(f32),
    /// Debrief: show this moment, in µs since the start.
    Scrub(u64),
    /// Debrief: choose a finding, by its number.
    Finding(usize),
    /// Debrief: begin a practice attempt at the moment shown.
    TakeOver,
    /// Debrief: show the ways on from the chosen finding, else from the moment shown.
    WaysOn,
    /// Change a setting.
    Set(Setting),
    /// Look at a standing place from a list of parts, without going there: nothing happens.
    Point(Option<Stand>),
}
