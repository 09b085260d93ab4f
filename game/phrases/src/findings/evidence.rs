//! What was true at a breach, what was believed, and what could have been seen from where.

use rackproof_buffer::Halves;
use rackproof_drill::{
    Aim, Stand, Vantage, Width,
    message::{board_name, of_mode, of_place, of_stand, of_unit, product_name, slot_ranges},
};
use rackproof_grade::{Breach, Evidence, Sighted};
use rackproof_words::Arg;

use super::{EvidenceTold, teller::Teller};
use crate::text;

/// The words for a look: from where, and whereto.
fn vantage_id(from: Vantage) -> &'static str {
    match (from.stand, from.aim) {
        (_, Aim::LeanInfeed) => "vantage-lean-infeed",
        (_, Aim::LeanOutfeed) => "vantage-lean-outfeed",
        (Stand::Infeed, Aim::Mouth) => "vantage-infeed-mouth",
        (_, Aim::Mouth) => "vantage-outfeed-mouth",
    }
}

/// Slots of which a half is in a set.
fn within(set: Halves) -> u64 {
    set.infeed | set.outfeed
}

impl Teller<'_> {
    pub(super) fn evidence(&self, breach: &Breach) -> EvidenceTold {
        let evidence = breach.evidence(self.judged.world());
        EvidenceTold {
            was_true: self.was_true(&evidence),
            around: self.around(breach),
            believed: self.believed(breach),
            panel: self.panel(breach),
            looked: self.looked(breach, &evidence),
            visible: self.visible(&evidence),
        }
    }

    fn board(&self, sighted: &Sighted) -> String {
        let name = board_name(self.judged.world(), sighted.kind);
        let place = text(self.words, &of_place(sighted.place));
        let arguments = [("board", Arg::from(name)), ("place", Arg::from(place))];
        self.words.say("evidence-board", &arguments)
    }

    fn was_true(&self, evidence: &Evidence) -> String {
        let boards: Vec<String> = evidence.boards.iter().map(|one| self.board(one)).collect();
        if boards.is_empty() {
            return self.words.say("evidence-no-board", &[]);
        }
        let boards = ("boards", Arg::from(boards.join("; ")));
        self.words.say("evidence-boards", &[boards])
    }

    /// Where the person stood, and how the machine stood: what a rule on hands and locks is about.
    fn around(&self, breach: &Breach) -> String {
        let (world, state) = (self.judged.world(), &breach.state.world);
        let (person, machine) = (&state.person, &state.machine);
        let flag = |holds: bool| Arg::Number(i64::from(holds));
        let width = machine.width(world.machine());
        let isolator = match (machine.powered(), person.lock_on) {
            (true, _) => "evidence-isolator-on",
            (false, false) => "evidence-isolator-off",
            (false, true) => "evidence-isolator-locked",
        };
        let hatch = match (machine.hatch_open(), machine.propped()) {
            (true, false) => "evidence-hatch-open",
            (true, true) => "evidence-hatch-open-propped",
            (false, false) => "evidence-hatch-shut",
            (false, true) => "evidence-hatch-shut-propped",
        };
        let arguments = [
            (
                "stand",
                Arg::from(text(self.words, &of_stand(person.stand))),
            ),
            ("hand", flag(person.hand_in)),
            ("isolator", Arg::from(self.words.say(isolator, &[]))),
            ("hatch", Arg::from(self.words.say(hatch, &[]))),
            ("moves", flag(machine.moves())),
            ("width", Arg::Micrometres(width.0)),
        ];
        self.words.say("evidence-around", &arguments)
    }

    /// What the panel showed beside the slot map.
    fn panel(&self, breach: &Breach) -> String {
        let (world, state) = (self.judged.world(), &breach.state.world);
        let machine = &state.machine;
        if !machine.powered() {
            return self.words.say("evidence-panel-dark", &[]);
        }
        let counted = world.widths(state).of(Width::Counted);
        let known = ("known", Arg::Number(i64::from(counted.is_some())));
        let arguments = [
            (
                "unit",
                Arg::from(text(self.words, &of_unit(machine.unit()))),
            ),
            (
                "mode",
                Arg::from(text(self.words, &of_mode(machine.mode()))),
            ),
            ("loaded", Arg::from(product_name(world, machine.loaded()))),
            ("width", Arg::Micrometres(counted.unwrap_or_default().0)),
            known,
        ];
        self.words.say("evidence-panel", &arguments)
    }

    /// The slot map: what the controller believed, and whoever trusted it.
    fn believed(&self, breach: &Breach) -> String {
        let map = &breach.state.world.machine.map;
        if map.is_empty() {
            return self.words.say("evidence-map-empty", &[]);
        }
        let count = |set: u64| Arg::Number(i64::from(set.count_ones()));
        let arguments = [
            ("full", Arg::from(slot_ranges(map.full))),
            ("fulls", count(map.full)),
            ("unknown", Arg::from(slot_ranges(map.unknown))),
            ("unknowns", count(map.unknown)),
        ];
        self.words.say("evidence-map", &arguments)
    }

    fn looked(&self, breach: &Breach, evidence: &Evidence) -> String {
        let all = 2 * i64::from(self.judged.world().machine().slots());
        let unlooked = i64::from(evidence.unlooked.len());
        let boards = i64::from(breach.looked.boards.len());
        if (all - unlooked, boards) == (0, 0) {
            let all = ("all", Arg::Number(all));
            return self.words.say("evidence-not-looked", &[all]);
        }
        let arguments = [
            ("seen", Arg::Number(all - unlooked)),
            ("all", Arg::Number(all)),
            ("boards", Arg::Number(boards)),
        ];
        self.words.say("evidence-looked", &arguments)
    }

    /// From where what was there could be seen, and what nobody had looked at.
    fn visible(&self, evidence: &Evidence) -> String {
        let mut said: Vec<String> = evidence
            .boards
            .iter()
            .map(|one| self.seen_from(one))
            .collect();
        for (from, shown) in &evidence.shown_by {
            let arguments = [
                ("from", Arg::from(self.words.say(vantage_id(*from), &[]))),
                ("halves", Arg::Number(i64::from(shown.len()))),
                ("count", Arg::Number(i64::from(within(*shown).count_ones()))),
                ("slots", Arg::from(slot_ranges(within(*shown)))),
            ];
            said.push(self.words.say("evidence-unlooked", &arguments));
        }
        if said.is_empty() {
            return self.words.say("evidence-all-looked", &[]);
        }
        said.join(" ")
    }

    fn seen_from(&self, sighted: &Sighted) -> String {
        let board = ("board", Arg::from(self.board(sighted)));
        if sighted.from.is_empty() {
            return self.words.say("evidence-hidden", &[board]);
        }
        let from = sighted.from.iter();
        let from: Vec<String> = from
            .map(|from| self.words.say(vantage_id(*from), &[]))
            .collect();
        let from = ("from", Arg::from(from.join("; ")));
        self.words.say("evidence-visible", &[board, from])
    }
}
