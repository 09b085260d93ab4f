//! How settings are changed, what they do, and how they stand in a key.

use rackproof_model::{Micrometres, Micros, key::Coder};

use crate::{
    Alarm, CONFIRM_MOST, Half, Hear, KINDS_MOST, Level, Machine, Outcome, Phase, Priority, Refusal,
    SIDE_PLAY, Saved, Scope, Service, Setting, Settings, State, Unfitted, WIDTH_OFFSET_MOST,
};

impl Machine {
    /// The settings of the machine file.
    pub fn plain_settings(&self) -> Settings {
        Settings {
            slot_count: self.parts.slots,
            width_offset: Micrometres(0),
            side_play: [self.plain_play(); KINDS_MOST],
            signals: true,
            priority: self.parts.storing.priority,
            width_check: false,
            confirm_within: Micros(0),
        }
    }

    /// The side play of the machine file, in µm.
    pub(crate) fn plain_play(&self) -> u16 {
        self.parts.side_play.0.clamp(0, i32::from(u16::MAX)) as u16
    }

    /// Changes a setting on the panel.
    pub(crate) fn set(
        &self,
        s: &mut State,
        setting: Setting,
        hear: &mut Hear,
    ) -> Result<(), Refusal> {
        if !s.key_turned {
            return Err(Refusal::SetterOnly);
        }
        if !s.unit.lets_mode_change() {
            return Err(Refusal::State(s.unit));
        }
        self.check_setting(setting)?;
        let counts = matches!(setting, Setting::SlotCount(_));
        if counts && !s.map.is_empty() {
            return Err(Refusal::MapNotEmpty);
        }
        self.put_setting(s, setting);
        if matches!(setting, Setting::WidthOffset(_)) {
            // The count no longer says where the rails are: they must go by their zero.
            self.forget_width(s);
        }
        hear(Outcome::SettingChanged(setting));
        Ok(())
    }

    /// Whether a setting keeps its bounds, and its fitting is there.
    pub fn check_setting(&self, setting: Setting) -> Result<(), Refusal> {
        let within = match setting {
            Setting::SlotCount(count) => (2..=self.parts.slots).contains(&count),
            Setting::WidthOffset(offset) => {
                (-WIDTH_OFFSET_MOST..=WIDTH_OFFSET_MOST).contains(&offset.0)
            }
            Setting::SidePlay(play) => (SIDE_PLAY[0]..=SIDE_PLAY[1]).contains(&play.0),
            Setting::ConfirmWithin(time) => time <= CONFIRM_MOST,
            Setting::Signals(_) | Setting::Priority(_) | Setting::WidthCheck(_) => true,
        };
        if !within {
            return Err(Refusal::SettingBeyondBounds(setting));
        }
        let service = &self.parts.service;
        let unfitted = setting == Setting::WidthCheck(true) && !service.width_sensor;
        if unfitted && service.unfitted == Unfitted::Refused {
            return Err(Refusal::NotFitted);
        }
        Ok(())
    }

    /// Puts a setting as it stands when a drill begins, or when it is changed. Nothing is checked.
    pub fn put_setting(&self, s: &mut State, setting: Setting) {
        let chosen = s.chosen as usize;
        let settings = &mut s.service.settings;
        match setting {
            Setting::SlotCount(count) => settings.slot_count = count,
            Setting::WidthOffset(offset) => settings.width_offset = offset,
            Setting::SidePlay(play) => {
                let play = play.0.clamp(0, i32::from(u16::MAX)) as u16;
                match self.parts.service.side_play_scope {
                    Scope::Machine => settings.side_play = [play; KINDS_MOST],
                    Scope::Product => settings.side_play[chosen] = play,
                }
            }
            Setting::Signals(read) => settings.signals = read,
            Setting::Priority(first) => settings.priority = first,
            Setting::WidthCheck(waits) => settings.width_check = waits,
            Setting::ConfirmWithin(time) => settings.confirm_within = time,
        }
    }

    /// Puts settings as somebody left them before a drill begins, with the rails where a changeover
    /// under these settings brought them. For a rack without boards.
    pub fn begin_with(&self, s: &mut State, settings: &[Setting]) {
        for &setting in settings {
            self.put_setting(s, setting);
        }
        self.load_figures(s);
        s.width_from = self.width_in_truth(s, self.wanted_width(s));
    }

    /// Where the rails really go for a width that the controller counts.
    pub(crate) fn width_in_truth(&self, s: &State, counted: Micrometres) -> Micrometres {
        let width = counted + s.service.settings.width_offset;
        width.clamp(self.parts.width_least, self.parts.width_most)
    }

    /// The side play that counts now, in µm: that of the machine as it is set, that of a product as
    /// it was loaded.
    pub fn play_in_force(&self, s: &State) -> Micrometres {
        match self.parts.service.side_play_scope {
            Scope::Machine => self.side_play_of(s, s.loaded),
            Scope::Product => Micrometres(i32::from(s.service.loaded_play)),
        }
    }

    /// The side play of a product as it is set, in µm.
    pub fn side_play_of(&self, s: &State, product: u8) -> Micrometres {
        Micrometres(i32::from(s.service.settings.side_play[product as usize]))
    }

    /// Notes who saved a product.
    pub(crate) fn note_saved(&self, s: &mut State, product: u8) {
        let by = if s.key_turned {
            Level::Setter
        } else {
            Level::Operator
        };
        let saved = s.service.saved.iter().flatten();
        let last = saved.map(|saved| saved.order).max().unwrap_or(0);
        let order = last.saturating_add(1);
        s.service.saved[product as usize] = Some(Saved { by, order });
    }

    /// Whether the settings differ from those of the machine file.
    pub(crate) fn is_set_otherwise(&self, s: &State) -> bool {
        s.service.settings != self.plain_settings()
    }

    /// Codes what a machine of this file can change. Who saved what, and who said what, nothing
    /// but the panel asks for; nor whether a half was said to be taken or empty. `changed`: the
    /// settings differ from the file's.
    pub(crate) fn code_service(&self, s: &mut State, changed: bool, coder: &mut impl Coder) {
        let plain = Service::new(self);
        let Service {
            settings,
            asked,
            halves,
            confirm_left,
            loaded_play,
            ..
        } = s.service;
        s.service = Service {
            loaded_play,
            ..plain
        };
        if changed {
            s.service.settings = settings;
            self.code_settings(&mut s.service.settings, coder);
        }
        if s.phase == Phase::AskHalf {
            let [mut outfeed, mut unsure] = [asked == Half::Outfeed, halves[0]];
            for flag in [&mut outfeed, &mut unsure] {
                coder.flag(flag);
            }
            s.service.asked = Half::BOTH[usize::from(outfeed)];
            s.service.halves = [unsure, false];
        }
        if s.phase == Phase::AwaitWidth {
            s.service.confirm_left = confirm_left;
            coder.word(&mut s.service.confirm_left.0, 32);
        }
    }

    fn code_settings(&self, settings: &mut Settings, coder: &mut impl Coder) {
        coder.byte(&mut settings.slot_count, 6);
        coder.signed(&mut settings.width_offset.0);
        match self.parts.service.side_play_scope {
            Scope::Machine => {
                let mut play = settings.side_play[0];
                coder.short(&mut play, 16);
                settings.side_play = [play; KINDS_MOST];
            }
            Scope::Product => {
                for play in &mut settings.side_play {
                    coder.short(play, 16);
                }
            }
        }
        let mut emptying = settings.priority == Priority::Emptying;
        for flag in [
            &mut settings.signals,
            &mut emptying,
            &mut settings.width_check,
        ] {
            coder.flag(flag);
        }
        settings.priority = if emptying {
            Priority::Emptying
        } else {
            Priority::Filling
        };
        coder.word(&mut settings.confirm_within.0, 32);
    }

    /// Time ran out while the width was waited for.
    pub(crate) fn not_confirmed(&self, s: &mut State, hear: &mut Hear) {
        hear(Outcome::Alarmed(Alarm::NoConfirmation));
        self.hold(s, Phase::AskConfirmation, hear);
    }

    /// The rails came to rest at the width that was counted: either that is that, or the sensor is
    /// waited for.
    pub(crate) fn confirm_width(&self, s: &mut State, hear: &mut Hear) {
        let confirmed = self.parts.service.width_sensor && s.width_from == self.wanted_width(s);
        if !s.service.settings.width_check || confirmed {
            return self.width_reached(s, hear);
        }
        s.phase = Phase::AwaitWidth;
        s.service.confirm_left = s.service.settings.confirm_within;
        hear(Outcome::WaitsForWidth);
    }
}

#[cfg(test)]
#[path = "settings_tests.rs"]
mod tests;
