//! Situations of the drill page, reached by doing what a person does.

use rackproof_attempt::{Ahead, Attempt, Exercise, Looks, Sheet, ahead, way_on};
use rackproof_buffer::{Button, HalfSlot, Mode};
use rackproof_drill::{Aim, Intent, Stand};
use rackproof_files::Problems;
use rackproof_phrases::{WayOnTold, way_on_told};
use rackproof_words::Words;

use crate::{Around, Doing, DrillView, Over, PanelPage, PartRow, Preferences, Watching, Way};

/// The first drill, with all that a view of it needs.
pub(crate) struct Sample {
    pub(crate) exercise: Exercise,
    pub(crate) attempt: Attempt,
    pub(crate) words: Words,
    pub(crate) way: Way,
    pub(crate) page: PanelPage,
    pub(crate) over: Option<Over>,
    pub(crate) doing: Option<Doing>,
    pub(crate) gone: Option<Intent>,
    pub(crate) pointed: Option<&'static str>,
    pub(crate) parts: Vec<PartRow>,
    pub(crate) preferences: Preferences,
    pub(crate) watching: Option<Watching>,
    pub(crate) sheet: Sheet,
    pub(crate) seconds: f64,
    pub(crate) offers: Vec<Intent>,
    pub(crate) hinted: bool,
    way_on: Option<WayOnTold>,
    looks: Looks,
    ahead: Option<Ahead>,
}

impl Sample {
    /// At the start of a variant.
    pub(crate) fn new(way: Way) -> Sample {
        let problems = Problems::new();
        let drill = rackproof_library::built_in_drill();
        let loaded = rackproof_library::load(drill, &problems).expect("it loads");
        let exercise = loaded.exercise;
        let number = exercise.variant("black-high").expect("it is there");
        let attempt = Attempt::new(exercise.judged(number).expect("it is there"));
        let mut sample = Sample {
            exercise,
            attempt,
            words: Words::english(),
            way,
            page: PanelPage::Values,
            over: None,
            doing: None,
            gone: None,
            pointed: None,
            parts: Vec::new(),
            preferences: Preferences::default(),
            watching: None,
            sheet: Sheet::default(),
            seconds: 0.0,
            offers: Vec::new(),
            hinted: false,
            way_on: None,
            looks: Looks::default(),
            ahead: None,
        };
        sample.refresh();
        sample
    }

    fn refresh(&mut self) {
        self.offers = self.attempt.offers();
        self.looks = Looks::of(self.attempt.heard());
        self.ahead = ahead(&self.attempt, &self.exercise);
    }

    /// The guide says that this is to be done now.
    pub(crate) fn next_is(&mut self, intent: Intent) {
        let step = "declare".to_owned();
        let intent = Some(intent);
        self.ahead = Some(Ahead { step, intent });
    }

    /// Does these one after the other, and waits for rest after each.
    pub(crate) fn then(mut self, intents: &[Intent]) -> Sample {
        for intent in intents {
            let done = self.attempt.do_intent(*intent);
            assert_eq!(done, Ok(()), "{intent:?}");
            self.attempt.wait_for_rest();
        }
        self.refresh();
        self
    }

    /// Under lock at the open hatch, tied by the cord.
    pub(crate) fn at_the_hatch(way: Way) -> Sample {
        Sample::new(way).then(&[
            Intent::TestStraps,
            Intent::AskUpstreamHold,
            Intent::Press(Button::Mode(Mode::Changeover)),
            Intent::Press(Button::Stop),
            Intent::Walk(Stand::Isolator),
            Intent::IsolatorOff,
            Intent::LockOn,
            Intent::Walk(Stand::Panel),
            Intent::TryStart,
            Intent::Walk(Stand::Hatch),
            Intent::OpenHatch,
            Intent::PlugCord,
            Intent::Torch(true),
        ])
    }

    /// The same after both looks.
    pub(crate) fn looked(way: Way) -> Sample {
        Sample::at_the_hatch(way).then(&[
            Intent::Look(Aim::LeanInfeed),
            Intent::Look(Aim::LeanOutfeed),
        ])
    }

    /// The same with a hand in the rack: all looks are void.
    pub(crate) fn hand_in(way: Way) -> Sample {
        Sample::looked(way).then(&[Intent::SetProp, Intent::HandIn])
    }

    /// With the board in hand, outside.
    pub(crate) fn board_in_hand(way: Way) -> Sample {
        let sample = Sample::hand_in(way);
        let boards = sample.attempt.world().variant().boards.clone();
        let takes: Vec<Intent> = boards.iter().map(|(at, _)| Intent::Take(*at)).collect();
        sample.then(&takes).then(&[Intent::HandOut])
    }

    /// With the isolator off, at the dark panel.
    pub(crate) fn dark(way: Way) -> Sample {
        Sample::new(way).then(&[
            Intent::Press(Button::Stop),
            Intent::Walk(Stand::Isolator),
            Intent::IsolatorOff,
            Intent::LockOn,
            Intent::Walk(Stand::Panel),
        ])
    }

    /// In a clear-out, at the outfeed, with the torch lit.
    pub(crate) fn clear_out(way: Way) -> Sample {
        Sample::new(way).then(&[
            Intent::TestStraps,
            Intent::AskUpstreamHold,
            Intent::Press(Button::Mode(Mode::Changeover)),
            Intent::Press(Button::Reset),
            Intent::Press(Button::ClearOut),
            Intent::Press(Button::Start),
            Intent::Walk(Stand::Outfeed),
            Intent::Torch(true),
            Intent::Look(Aim::Mouth),
        ])
    }

    /// After the emergency stop.
    pub(crate) fn emergency(way: Way) -> Sample {
        Sample::new(way).then(&[Intent::PressEmergency])
    }

    /// Somewhere else.
    pub(crate) fn at(self, stand: Stand) -> Sample {
        self.then(&[Intent::Walk(stand)])
    }

    /// With a safe way on from here, told.
    pub(crate) fn told_way_on(mut self) -> Sample {
        let answer = way_on(&self.attempt, &self.exercise);
        let told = way_on_told(&self.words, &self.exercise, &answer);
        self.way_on = Some(told);
        self.under(Over::WayOn)
    }

    pub(crate) fn under(mut self, over: Over) -> Sample {
        self.over = Some(over);
        self
    }

    pub(crate) fn ticked(mut self, all: &[HalfSlot]) -> Sample {
        for at in all {
            self.sheet.toggle(*at);
        }
        self
    }

    pub(crate) fn view(&self) -> DrillView<'_> {
        let state = &self.attempt.state().world;
        let guides = matches!(self.way, Way::Guided | Way::Watch) || self.hinted;
        DrillView {
            words: &self.words,
            world: self.attempt.world(),
            way: self.way,
            at: self.attempt.at(),
            down: rackproof_attempt::line_down(&self.attempt),
            in_minutes: self.way != Way::Watch,
            reference: (self.way != Way::Exam).then_some(550_000_000),
            panel: self.attempt.world().panel(state),
            person: state.person,
            around: Around::of(state),
            offers: if self.way == Way::Watch {
                &[]
            } else {
                &self.offers
            },
            heard: self.attempt.heard(),
            looks: &self.looks,
            sheet: &self.sheet,
            ahead: self.ahead.as_ref().filter(|_| guides),
            way_on: self.way_on.as_ref(),
            doing: self.doing,
            gone: self.gone,
            page: self.page,
            over: self.over,
            pointed: self.pointed,
            parts: &self.parts,
            preferences: self.preferences,
            watching: self.watching,
            log: &[],
            seconds: self.seconds,
        }
    }
}
