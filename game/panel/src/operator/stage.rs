//! Situations of the panel, reached by doing what a person does.

use rackproof_attempt::{Attempt, Looks, Sheet};
use rackproof_buffer::{Answer, Button, Mode};
use rackproof_drill::{Aim, Intent, Stand};
use rackproof_files::Problems;
use rackproof_words::Words;

use crate::{Around, Doing, DrillView, Over, PanelPage, Preferences, Way};

/// The first drill, with all that a view of it needs.
pub(crate) struct Stage {
    pub(crate) attempt: Attempt,
    pub(crate) words: Words,
    pub(crate) page: PanelPage,
    pub(crate) over: Option<Over>,
    pub(crate) doing: Option<Doing>,
    pub(crate) preferences: Preferences,
    pub(crate) seconds: f64,
    pub(crate) log: Vec<String>,
    offers: Vec<Intent>,
    looks: Looks,
    sheet: Sheet,
}

pub(crate) fn press(button: Button) -> Intent {
    Intent::Press(button)
}

impl Stage {
    /// At the start of a variant.
    pub(crate) fn new(variant: &str) -> Stage {
        Stage::with_slots(variant, 16)
    }

    /// The same with a rack of so many slots.
    pub(crate) fn with_slots(variant: &str, slots: u8) -> Stage {
        Stage::with(variant, slots, "")
    }

    /// The same with all pages of the panel open.
    pub(crate) fn opened(variant: &str) -> Stage {
        Stage::with(variant, 16, "panel: [Edit, Settings, Orders],")
    }

    /// Taken over from a shift that left a clear-out half done.
    pub(crate) fn left(variant: &str) -> Stage {
        let left = "Production, left: Left(by: \"17\", asked: 4, said: [
            Said(slot: 1, answer: SeenEmpty), Said(slot: 3, answer: Taken)])";
        Stage::changed(variant, 16, &[("Production", left)])
    }

    fn with(variant: &str, slots: u8, pages: &str) -> Stage {
        let next = format!("    {pages} next:");
        Stage::changed(variant, slots, &[("    next:", &next)])
    }

    /// With texts of the drill file put in place of others.
    fn changed(variant: &str, slots: u8, changes: &[(&str, &str)]) -> Stage {
        let problems = Problems::new();
        let drill = rackproof_library::built_in_drill();
        let loaded = rackproof_library::load(drill, &problems).expect("it loads");
        let mut material = loaded.material;
        let text = &material.machine.text;
        let text = text.replace("slots: 16,", &format!("slots: {slots},"));
        // So many slots fit into the hall if they stand closer.
        material.machine.text = if slots > 16 {
            text.replace("pitch_mm: 20.0", "pitch_mm: 10.0")
        } else {
            text
        };
        for (from, to) in changes {
            material.drill.text = material.drill.text.replacen(from, to, 1);
        }
        let exercise = material.read(&problems);
        let plain: Vec<String> = problems.sorted().iter().map(|p| format!("{p:?}")).collect();
        assert_eq!(plain, [""; 0]);
        let exercise = exercise.expect("it has no problem");
        let number = exercise.variant(variant).expect("it is there");
        let attempt = Attempt::new(exercise.judged(number).expect("it is there"));
        let mut stage = Stage {
            attempt,
            words: Words::english(),
            page: PanelPage::Values,
            over: None,
            doing: None,
            preferences: Preferences::default(),
            seconds: 0.0,
            log: Vec::new(),
            offers: Vec::new(),
            looks: Looks::default(),
            sheet: Sheet::default(),
        };
        stage.refresh();
        stage
    }

    pub(crate) fn refresh(&mut self) {
        self.offers = self.attempt.offers();
        self.looks = Looks::of(self.attempt.heard());
    }

    /// Does these one after the other, and waits for rest after each.
    pub(crate) fn then(mut self, intents: &[Intent]) -> Stage {
        for intent in intents {
            let done = self.attempt.do_intent(*intent);
            assert_eq!(done, Ok(()), "{intent:?}");
            self.attempt.wait_for_rest();
        }
        self.refresh();
        self
    }

    pub(crate) fn on_page(mut self, page: PanelPage) -> Stage {
        self.page = page;
        self
    }

    /// At work with the slot to be answered for before the outfeed: slots below were answered.
    pub(crate) fn clear_out(variant: &str, answered: &[Answer]) -> Stage {
        let begin = [
            Intent::AskUpstreamHold,
            press(Button::Mode(Mode::Changeover)),
            press(Button::Reset),
            press(Button::ClearOut),
            press(Button::Start),
            Intent::Walk(Stand::Outfeed),
            Intent::Torch(true),
            Intent::Look(Aim::Mouth),
        ];
        let answers: Vec<Intent> = answered
            .iter()
            .map(|answer| press(Button::Answer(*answer)))
            .collect();
        Stage::new(variant).then(&begin).then(&answers)
    }

    /// After the emergency stop was pressed, and the unit came to rest.
    pub(crate) fn emergency() -> Stage {
        Stage::new("green-middle").then(&[Intent::PressEmergency])
    }

    /// Stopped with the reference lost and the key turned: empty can be declared.
    pub(crate) fn declaring() -> Stage {
        let way = [
            Intent::PressEmergency,
            Intent::ReleaseEmergency,
            press(Button::Reset),
            Intent::KeyIn,
        ];
        Stage::new("green-middle")
            .then(&way)
            .on_page(PanelPage::Declare)
    }

    pub(crate) fn view(&self) -> DrillView<'_> {
        let (world, state) = (self.attempt.world(), &self.attempt.state().world);
        DrillView {
            words: &self.words,
            world,
            way: Way::Practice,
            at: self.attempt.at(),
            down: 0,
            in_minutes: false,
            reference: None,
            panel: world.panel(state),
            person: state.person,
            around: Around::of(state),
            offers: &self.offers,
            heard: self.attempt.heard(),
            looks: &self.looks,
            sheet: &self.sheet,
            ahead: None,
            way_on: None,
            doing: self.doing,
            gone: None,
            page: self.page,
            over: self.over,
            pointed: None,
            parts: &[],
            preferences: self.preferences,
            watching: None,
            log: &self.log,
            seconds: self.seconds,
        }
    }
}

/// What the panel says, in words as long as a site may have them: a third longer than ours, and
/// nine characters at least.
pub(crate) fn long_words() -> Words {
    let files = [
        include_str!("../../../../assets/locales/en/panel.ftl"),
        include_str!("../../../../assets/locales/en/screen-panel.ftl"),
    ];
    let lines = files.iter().flat_map(|file| file.lines());
    let longer: Vec<(&str, String)> = lines
        .filter(|line| !line.starts_with('#'))
        .filter_map(|line| line.split_once(" = "))
        .map(|(id, text)| {
            let long = text.chars().count();
            let more = (long * 35).div_ceil(100).max(9_usize.saturating_sub(long));
            let more: String = " quoth ravens aloft".chars().cycle().take(more).collect();
            (id, format!("{text}{more}"))
        })
        .collect();
    let texts: Vec<(&str, &str)> = longer
        .iter()
        .map(|(id, text)| (*id, text.as_str()))
        .collect();
    let (words, refused) = Words::english().with_site(&texts);
    assert_eq!(refused, [""; 0]);
    words
}
