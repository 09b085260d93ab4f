//! Which harms a drill speaks of: each must be reachable with the rules off, or the drill teaches
//! nothing about it.

use rackproof_attempt::Exercise;
use rackproof_buffer::{Board, Condition, HarmKind};

/// Harms that no width of the rails decides on.
const ANYWHERE: [HarmKind; 4] = [
    HarmKind::Sheared,
    HarmKind::Collided,
    HarmKind::HandInjured,
    HarmKind::PropStruck,
];

/// The harms that the drill speaks of, bit n for the n-th kind: those that it names. If it names
/// none: of what rails do to boards only what these rails can do to boards of this drill. If they
/// are never sent to a width at which one is overstrained, gone or dropped, no attempt can show it.
/// Where faults, settings or open pages send rails elsewhere, all of it counts.
pub(crate) fn spoken_of(exercise: &Exercise) -> u64 {
    let (machine, drill) = (&exercise.machine, &exercise.drill);
    let bit = |kind: HarmKind| 1_u64 << kind as u8;
    if !drill.harms.is_empty() {
        let named = drill.harms.iter();
        return named.fold(0, |mask, &kind| mask | bit(kind));
    }
    let products = machine.parts().products.iter();
    let widths = products.map(|product| machine.rails_for(product.width));
    let zero = machine.zero_width();
    let (narrowest, widest) = widths.fold((zero, zero), |(narrowest, widest), width| {
        (narrowest.min(width), widest.max(width))
    });
    let as_set = drill.start.settings.is_empty() && drill.faults.is_empty();
    let elsewhere = !(as_set && drill.pages.is_empty());
    let handling = machine.parts().handling;
    let charged = (handling.body_volts > handling.volts_limit).then_some(HarmKind::Charged);
    let anywhere = ANYWHERE.into_iter().chain(charged);
    let anywhere = anywhere.fold(0, |mask, kind| mask | bit(kind));
    boards_of(exercise).fold(anywhere, |mask, board| {
        let press = machine.press_limits(board.kind);
        let gone = match press.gone {
            Condition::Broken => HarmKind::Broken,
            _ => HarmKind::SprungOut,
        };
        let done = [
            (HarmKind::Overstrained, narrowest <= press.overstrained_at),
            (gone, narrowest <= press.gone_at),
            (HarmKind::Dropped, widest > press.dropped_over),
        ];
        let done = done.into_iter().filter(|(_, can)| *can || elsewhere);
        done.fold(mask, |mask, (kind, _)| mask | bit(kind))
    })
}

/// Every board that a variant begins with, and those that upstream has left over.
fn boards_of(exercise: &Exercise) -> impl Iterator<Item = Board> {
    let drill = &exercise.drill;
    drill.variants.iter().flat_map(|one| {
        let lying = one.boards.iter().chain(&one.stored);
        let line = one.line.unwrap_or(drill.neighbours);
        let left = line.leftover.map(Board::good);
        let lying = lying.map(|(_, board)| *board);
        lying.chain(one.infeed_belt).chain(left)
    })
}

#[cfg(test)]
mod tests {
    use rackproof_files::Problems;
    use rackproof_library::{built_in_drills, load};

    use super::*;

    fn spoken(drill: &str) -> Vec<HarmKind> {
        let file = format!("{drill}.ron");
        let mut texts = built_in_drills().into_iter();
        let text = texts
            .find(|text| text.file == file)
            .expect("it is compiled in");
        let loaded = load(text, &Problems::new()).expect("it has no problem");
        let mask = spoken_of(&loaded.exercise);
        HarmKind::ALL
            .into_iter()
            .filter(|&kind| mask >> kind as u8 & 1 == 1)
            .collect()
    }

    /// Source: the machine files. Rails that close to 50 mm press boards of 160 mm, and at 220 mm
    /// drop them; rails that open to 260 mm and come back to 160.6 mm at the narrowest only drop
    /// them.
    #[test]
    fn rails_that_open_first_press_no_board() {
        let on_alder = spoken("left-inside");
        let on_rowan = spoken("left-inside-rowan");
        let pressed = [
            HarmKind::Overstrained,
            HarmKind::SprungOut,
            HarmKind::Broken,
        ];
        assert!(pressed.iter().all(|kind| on_alder.contains(kind)));
        assert!(!pressed.iter().any(|kind| on_rowan.contains(kind)));
        // Both look at charge.
        assert!(on_alder.contains(&HarmKind::Charged) && on_rowan.contains(&HarmKind::Charged));
        assert!(on_alder.contains(&HarmKind::Dropped) && on_rowan.contains(&HarmKind::Dropped));
        // No board runs into another there, and the drill says so itself.
        let named = |kind: &HarmKind| on_rowan.contains(kind) == (*kind != HarmKind::Collided);
        assert!(ANYWHERE.iter().all(named));
    }
}
