//! What the pages of the panel offer that a drill opens: typed widths, saving, settings, commands.
//!
//! A typed number is an offer with a domain: any number can be typed, and the explorer types one of
//! each class that the geometry can tell apart, and every slip that has a name.

use rackproof_buffer::{Button, Command, Mode, Priority, SIDE_PLAY, Setting, UnitState};
use rackproof_model::{Micrometres, Micros, Stride};

use crate::{Cause, Intent, Page, State, World, strides::Path};

/// How a width is typed wrong. Common practice: the slips that setters name first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum WidthSlip {
    /// The decimal point was left out, or stands one digit off.
    DecimalPoint,
    /// Tenths of a millimetre were typed where millimetres belong, or the reverse.
    Tenths,
    /// Inches were typed where millimetres belong, or the reverse.
    Inch,
    /// Two digits side by side changed places.
    Digits,
    /// The width is that of another product.
    Neighbour(u8),
}

/// Commands that a page can offer beside the buttons.
const ORDERS: [Command; 6] = [
    Command::Hold,
    Command::Unhold,
    Command::Suspend,
    Command::Unsuspend,
    Command::Complete,
    Command::Abort,
];

impl Intent {
    /// Whether another intent is the same but for the figure that is typed.
    pub fn is_same_but_for_figure(&self, other: &Intent) -> bool {
        match (self, other) {
            (Intent::Press(Button::EditWidth(_)), Intent::Press(Button::EditWidth(_))) => true,
            (Intent::Press(Button::Set(one)), Intent::Press(Button::Set(two))) => {
                std::mem::discriminant(one) == std::mem::discriminant(two)
            }
            _ => false,
        }
    }
}

impl World {
    /// Whether the drill opens a page of the panel.
    pub fn opens(&self, page: Page) -> bool {
        self.drill().pages.contains(&page)
    }

    /// Whether an intent is among the offers, or differs from one only by the figure that is typed.
    pub fn is_offered(&self, offers: &[Intent], intent: Intent) -> bool {
        let typed = |offer: &Intent| offer.is_same_but_for_figure(&intent);
        offers.contains(&intent) || offers.iter().any(typed)
    }

    pub(crate) fn offered_on_pages(&self, s: &State, out: &mut Vec<Intent>) {
        if self.drill().pages.is_empty() {
            return;
        }
        let machine = &s.machine;
        let idle = machine.unit() == UnitState::Idle && machine.mode() == Mode::Changeover;
        let mut press = |button| out.push(Intent::Press(button));
        if idle && self.opens(Page::Edit) {
            self.typed_widths(machine.chosen())
                .into_iter()
                .for_each(|width| press(Button::EditWidth(width)));
            if machine.edited().is_some() {
                press(Button::Save);
            }
            let products = 0..self.machine().parts().products.len() as u8;
            let others = products.filter(|&product| product != machine.chosen());
            others.for_each(|product| press(Button::SaveOver(product)));
        }
        if machine.unit().lets_mode_change() && self.opens(Page::Settings) {
            self.typed_settings(s)
                .into_iter()
                .for_each(|setting| press(Button::Set(setting)));
        }
        if self.opens(Page::Orders) {
            ORDERS
                .into_iter()
                .for_each(|command| press(Button::Order(command)));
        }
    }

    /// The steps of the explorer on open pages: what is typed is saved at once, and the key is
    /// turned for a setting and taken out after it. `ready`: at the panel, in mode Changeover.
    pub(crate) fn prepared_on_pages(&self, s: &State, ready: Path, out: &mut Vec<Stride<Cause>>) {
        if self.drill().pages.is_empty() {
            return;
        }
        let machine = &s.machine;
        let panel = Path::new(s).to(crate::Stand::Panel);
        let mut found = Vec::new();
        let mut copy = *s;
        if machine.unit() == UnitState::Idle && self.opens(Page::Edit) {
            let products = self.machine().parts().products.len() as u8;
            for product in 0..products {
                let choose = Intent::Press(Button::Choose(product));
                let chosen = ready.when(machine.chosen() != product, choose);
                for width in self.typed_widths(product) {
                    out.push(
                        chosen
                            .press(Button::EditWidth(width))
                            .press(Button::Save)
                            .done(),
                    );
                }
                let others = (0..products).filter(|&other| other != product);
                out.extend(others.map(|other| chosen.press(Button::SaveOver(other)).done()));
            }
        }
        if machine.unit().lets_mode_change() && self.opens(Page::Settings) {
            let key = panel.when(!machine.key_turned(), Intent::KeyIn);
            let settings = self.typed_settings(s).into_iter();
            out.extend(settings.map(|it| key.press(Button::Set(it)).then(Intent::KeyOut).done()));
        }
        if self.opens(Page::Orders) {
            copy.person.stand = crate::Stand::Panel;
            self.offered_here(&copy, crate::Stand::Panel, &mut found);
            let orders = found.into_iter().filter(|intent| {
                matches!(
                    intent,
                    Intent::Press(Button::Order(_) | Button::Mode(Mode::Manual))
                )
            });
            out.extend(orders.map(|intent| panel.then(intent).done()));
        }
    }

    /// The widths that stand for all that can be typed for a product, in µm, in rising order: its
    /// own, every named slip, the greatest of each class that boards between the rails can tell
    /// apart, and one beyond either end of the travel.
    pub fn typed_widths(&self, product: u8) -> Vec<Micrometres> {
        let own = self.own_width(product);
        let mut widths = vec![own];
        widths.extend(self.slips(product).into_iter().map(|(width, _)| width));
        let parts = self.machine().parts();
        let (least, most) = (parts.width_least, parts.width_most);
        let limits = (0..parts.kinds.len() as u8).flat_map(|kind| {
            let press = self.machine().press_limits(kind);
            let short = parts.kinds[kind as usize].width - Micrometres(1);
            [
                press.gone_at,
                press.overstrained_at,
                short,
                press.dropped_over,
            ]
        });
        let one = Micrometres(1);
        let ends = [least - one, least, most, most + one];
        let within = limits.filter(|limit| (least..=most).contains(limit));
        widths.extend(within.chain(ends).map(|rails| rails - parts.side_play));
        widths.sort();
        widths.dedup();
        widths
    }

    /// Which slip a typed width is, if it is one of those with a name.
    pub fn slip_of(&self, product: u8, typed: Micrometres) -> Option<WidthSlip> {
        let slips = self.slips(product);
        let found = slips.into_iter().find(|(width, _)| *width == typed);
        found.map(|(_, slip)| slip)
    }

    fn own_width(&self, product: u8) -> Micrometres {
        self.machine().parts().products[product as usize].width
    }

    /// The named slips of a product's width. A width that two slips give has the first name.
    fn slips(&self, product: u8) -> Vec<(Micrometres, WidthSlip)> {
        let own = self.own_width(product);
        let mut slips: Vec<(Micrometres, WidthSlip)> = Vec::new();
        let mut found = |width: i64, slip| {
            let width = i32::try_from(width).ok().map(Micrometres);
            let new = |width: &Micrometres| {
                *width != own && slips.iter().all(|(known, _)| known != width)
            };
            if let Some(width) = width.filter(new) {
                slips.push((width, slip));
            }
        };
        for (number, other) in (0_u8..).zip(&self.machine().parts().products) {
            found(i64::from(other.width.0), WidthSlip::Neighbour(number));
        }
        let width = i64::from(own.0);
        // A width in whole millimetres has no point to leave out: ten times it is tenths.
        let larger = if width % 1_000 == 0 {
            WidthSlip::Tenths
        } else {
            WidthSlip::DecimalPoint
        };
        found(width * 10, larger);
        found(width / 10, WidthSlip::DecimalPoint);
        // One inch is 25.4 mm exactly; both are typed to a hundredth.
        found((width * 100 / 254 + 50) / 100 * 10, WidthSlip::Inch);
        found((width * 254 + 500) / 1_000 * 100, WidthSlip::Inch);
        for swapped in swaps(width / 100) {
            found(swapped * 100, WidthSlip::Digits);
        }
        slips
    }

    /// The settings that stand for all that can be set: for each, what is not set now.
    fn typed_settings(&self, s: &State) -> Vec<Setting> {
        let slots = self.machine().slots();
        let um = |number| Micrometres(number);
        let all = [
            Setting::SlotCount(2),
            Setting::SlotCount(slots / 2),
            Setting::SlotCount(slots - 1),
            Setting::SlotCount(slots),
            Setting::SlotCount(slots + 1),
            Setting::WidthOffset(um(-1_000)),
            Setting::WidthOffset(um(0)),
            Setting::WidthOffset(um(1_000)),
            Setting::SidePlay(um(SIDE_PLAY[0])),
            Setting::SidePlay(self.machine().parts().side_play),
            Setting::SidePlay(um(SIDE_PLAY[1])),
            Setting::Signals(true),
            Setting::Signals(false),
            Setting::Priority(Priority::Filling),
            Setting::Priority(Priority::Emptying),
            Setting::WidthCheck(true),
            Setting::WidthCheck(false),
            Setting::ConfirmWithin(Micros(0)),
            Setting::ConfirmWithin(Micros::from_seconds(30)),
        ];
        let settings = &s.machine.service.settings;
        let chosen = s.machine.chosen();
        let mut new: Vec<Setting> = all.into();
        new.retain(|setting| settings.now(*setting, chosen) != *setting);
        new.dedup();
        new
    }
}

/// The numbers that come of swapping two digits side by side, leading noughts left out.
fn swaps(number: i64) -> Vec<i64> {
    let digits: Vec<char> = number.to_string().chars().collect();
    let mut swapped = Vec::new();
    for at in 1..digits.len() {
        let mut other = digits.clone();
        other.swap(at - 1, at);
        if other != digits && other[0] != '0' {
            let text: String = other.into_iter().collect();
            swapped.extend(text.parse::<i64>());
        }
    }
    swapped
}

#[cfg(test)]
#[path = "typed_tests.rs"]
mod tests;
