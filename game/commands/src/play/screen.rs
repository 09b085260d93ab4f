//! The hall and the panel as plain text of 80 columns: what the person perceives, and no more.

use rackproof_attempt::{Attempt, Heard, Looks, PlayedAs, line_down};
use rackproof_buffer::{self as buffer, Alarm, Task};
use rackproof_drill::{
    Cue, Outcome, PanelView, Sign,
    message::{
        board_name, of_alarm, of_look, of_mode, of_question, of_sign, of_stand, of_task, of_unit,
        product_name, slot_ranges,
    },
};
use rackproof_grade::JudgedOutcome;
use rackproof_model::Micros;
use rackproof_words::{Arg, Words};

use super::looks::{Scope, looks_text};
use crate::{grade::mode_id, lines::wrapped};
use rackproof_phrases::text;

/// Where the text behind a label begins.
pub(super) const INDENT: usize = 9;

/// One picture of the dialog.
pub(super) struct Screen<'s> {
    pub(super) attempt: &'s Attempt,
    /// What was heard since the last picture.
    pub(super) new: &'s [Heard],
    pub(super) mode: PlayedAs,
    pub(super) words: &'s Words,
}

/// By which sense a sign comes.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Sense {
    See,
    Hear,
    Told,
    Panel,
}

fn sense(sign: &Sign) -> Sense {
    match sign {
        Sign::Machine(sign) => match sign.shown() {
            buffer::Outcome::Started(_)
            | buffer::Outcome::Stopped(_)
            | buffer::Outcome::MotorHummed
            | buffer::Outcome::BrakeTicked => Sense::Hear,
            _ => Sense::Panel,
        },
        Sign::LooksVoided(_) | Sign::Told(_) => Sense::Told,
        Sign::Crack | Sign::Cue(Cue::LiftJerks) => Sense::Hear,
        _ => Sense::See,
    }
}

impl Screen<'_> {
    fn say(&self, id: &str, arguments: &[(&str, Arg<'_>)]) -> String {
        self.words.say(id, arguments)
    }

    /// All of it but the menu.
    pub(super) fn text(&self) -> String {
        [self.head(), self.person(), self.perceived(), self.panel()].concat()
    }

    fn head(&self) -> String {
        let world = self.attempt.world();
        let arguments = [
            ("drill", Arg::from(world.drill().id.as_str())),
            ("mode", Arg::from(self.say(mode_id(self.mode), &[]))),
            ("time", Arg::Clock(self.attempt.at())),
            ("down", Arg::Clock(line_down(self.attempt))),
        ];
        format!(
            "{}\n{}\n",
            self.say("play-head", &arguments),
            "-".repeat(80)
        )
    }

    fn person(&self) -> String {
        let (world, state) = (self.attempt.world(), &self.attempt.state().world);
        let (person, machine) = (&state.person, &state.machine);
        let stand = text(self.words, &of_stand(person.stand));
        let either = |is: bool, yes: &'static str, no: &'static str| {
            self.say(if is { yes } else { no }, &[])
        };
        let mut parts = vec![
            self.say("play-stand-at", &[("place", Arg::from(stand))]),
            either(machine.hatch_open(), "play-hatch-open", "play-hatch-shut"),
            either(machine.powered(), "play-isolator-on", "play-isolator-off"),
        ];
        let only = [
            (person.lock_on, "play-lock-on"),
            (machine.propped(), "play-prop-set"),
            (machine.key_turned(), "play-key-turned"),
            (machine.hold_left() > Micros(0), "play-declare-held"),
            (machine.emergency(), "play-emergency"),
            (person.cord, "play-cord-in"),
            (person.hand_in, "play-hand-in"),
            (state.upstream_held(), "play-upstream-holds"),
            (person.log_written, "play-log-written"),
        ];
        parts.extend(
            only.iter()
                .filter(|(is, _)| *is)
                .map(|(_, id)| self.say(id, &[])),
        );
        parts.push(either(
            person.straps_tested,
            "play-straps-tested",
            "play-straps-untested",
        ));
        parts.push(either(person.torch, "play-torch-lit", "play-torch-out"));
        parts.push(match person.board {
            Some(board) => {
                let name = Arg::from(board_name(world, board.kind));
                self.say("play-board-in-hand", &[("board", name)])
            }
            None => self.say("play-hands-free", &[]),
        });
        wrapped(&self.say("play-i-stand", &[]), INDENT, &parts.join(" "))
    }

    /// What was perceived since the last picture, by sense.
    fn perceived(&self) -> String {
        let nothing_moves = !self.attempt.state().world.machine.moves();
        let rows = [
            (Sense::See, "play-i-see", Some("play-see-nothing-new")),
            (
                Sense::Hear,
                "play-i-hear",
                Some(if nothing_moves {
                    "play-nothing-moves"
                } else {
                    "play-something-moves"
                }),
            ),
            (Sense::Told, "play-told", None),
        ];
        let mut out = String::new();
        for (sense, label, otherwise) in rows {
            let mut told = self.told(sense);
            if told.is_empty() {
                let Some(otherwise) = otherwise else { continue };
                told.push(self.say(otherwise, &[]));
            }
            // What is seen stands line by line; what is heard and told is short.
            let between = if sense == Sense::See { "\n" } else { " " };
            out.push_str(&wrapped(&self.say(label, &[]), INDENT, &told.join(between)));
        }
        if self.mode != PlayedAs::Exam {
            let slots = self.attempt.world().machine().slots();
            let looks = Looks::of(self.attempt.heard());
            let looks = looks_text(&looks, slots, &self.scope(), self.words);
            out.push_str(&wrapped(&self.say("play-looks", &[]), INDENT, &looks));
        }
        out
    }

    /// What the panel says of the slots that are asked about.
    fn scope(&self) -> Scope {
        let panel = self.attempt.world().panel(&self.attempt.state().world);
        let Some(panel) = panel.filter(|panel| panel.referenced) else {
            return Scope::default();
        };
        let clears = panel.task == Task::ClearOut;
        Scope {
            at_belts: panel.lift_slot.filter(|_| clears && !panel.moves),
            said: (panel.map.said_empty | panel.map.said_taken) & !panel.map.unknown,
        }
    }

    /// What came by one sense, each thing once, in the order in which it came last.
    fn told(&self, wanted: Sense) -> Vec<String> {
        let mut told: Vec<String> = Vec::new();
        for heard in self.new {
            let JudgedOutcome::World(Outcome::Sign(sign)) = &heard.outcome else {
                continue;
            };
            if sense(sign) != wanted || self.withheld(sign) {
                continue;
            }
            for one in self.sign(sign) {
                told.retain(|known| *known != one);
                told.push(one);
            }
        }
        told
    }

    /// In an exam nobody says that a look is void.
    fn withheld(&self, sign: &Sign) -> bool {
        self.mode == PlayedAs::Exam && matches!(sign, Sign::LooksVoided(_))
    }

    fn sign(&self, sign: &Sign) -> Vec<String> {
        let messages = match sign {
            Sign::Looked { empty, boards } => of_look(*empty, *boards),
            _ => of_sign(self.attempt.world(), sign).into_iter().collect(),
        };
        messages
            .iter()
            .map(|message| text(self.words, message))
            .collect()
    }

    fn panel(&self) -> String {
        let world = self.attempt.world();
        let label = self.say("play-panel", &[]);
        let Some(panel) = world.panel(&self.attempt.state().world) else {
            return format!(
                "\n{}",
                wrapped(&label, INDENT, &self.say("play-panel-dark", &[]))
            );
        };
        let asked = self.asked(&panel);
        let rows = [
            ("play-panel", self.unit(&panel)),
            (
                if panel.referenced {
                    "play-map"
                } else {
                    "play-old-map"
                },
                self.map(&panel),
            ),
            ("play-product", self.product(&panel)),
            ("play-width", self.width(&panel)),
            ("play-lift", self.lift(&panel)),
            (
                "play-infeed",
                self.signals("play-infeed-signals", panel.neighbours[0], panel.signals[0]),
            ),
            (
                "play-outfeed",
                self.signals(
                    "play-outfeed-signals",
                    panel.signals[1],
                    panel.neighbours[1],
                ),
            ),
            ("play-alarms", self.alarms(&panel)),
            ("play-shown", self.shown(&panel, &asked)),
            ("play-asked", asked),
        ];
        let mut out = String::from("\n");
        for (label, row) in rows.iter().filter(|(_, row)| !row.is_empty()) {
            out.push_str(&wrapped(&self.say(label, &[]), INDENT, row));
        }
        out
    }

    /// What the panel showed since the last picture, but not what it still asks or warns of.
    fn shown(&self, panel: &PanelView, asked: &str) -> String {
        let alarms = self.alarms(panel);
        let mut shown = self.told(Sense::Panel);
        shown.retain(|one| one != asked && !alarms.contains(one.as_str()));
        shown.join(" ")
    }

    fn unit(&self, panel: &PanelView) -> String {
        let named = |message| Arg::from(text(self.words, &message));
        let id = if panel.alarms.waiting() == 0 {
            "play-unit-no-alarm"
        } else {
            "play-unit"
        };
        self.say(
            id,
            &[
                ("unit", named(of_unit(panel.unit))),
                ("mode", named(of_mode(panel.mode))),
                ("task", named(of_task(panel.task))),
            ],
        )
    }

    fn map(&self, panel: &PanelView) -> String {
        let slots = self.attempt.world().machine().slots();
        let all = if slots >= 64 {
            u64::MAX
        } else {
            (1 << slots) - 1
        };
        let map = panel.map;
        let said = map.said_empty | map.said_taken;
        let parts = [
            ("map-empty", all & !(map.full | map.unknown | said)),
            ("map-full", map.full),
            ("map-unknown", map.unknown),
            ("map-said-empty", map.said_empty & !map.unknown),
            ("map-said-taken", map.said_taken & !map.unknown),
        ];
        let shown: Vec<String> = parts
            .iter()
            .filter(|(_, mask)| *mask != 0)
            .map(|(id, mask)| self.say(id, &[("slots", Arg::from(slot_ranges(*mask)))]))
            .collect();
        let map = shown.join(", ");
        if panel.referenced {
            map
        } else {
            self.say("map-old", &[("map", Arg::from(map))])
        }
    }

    fn product(&self, panel: &PanelView) -> String {
        let named = |number| Arg::from(product_name(self.attempt.world(), number));
        let arguments = [
            ("loaded", named(panel.loaded)),
            ("width", Arg::Micrometres(panel.loaded_width.0)),
            ("chosen", named(panel.chosen)),
        ];
        if panel.stored_otherwise {
            return self.say("play-products-otherwise", &arguments);
        }
        let [loaded, _, chosen] = arguments;
        self.say("play-products", &[loaded, chosen])
    }

    fn width(&self, panel: &PanelView) -> String {
        let commanded = ("commanded", Arg::Micrometres(panel.width_commanded.0));
        match panel.width_by_count {
            Some(width) => self.say(
                "play-widths",
                &[commanded, ("counted", Arg::Micrometres(width.0))],
            ),
            None => self.say("play-width-unknown", &[commanded]),
        }
    }

    fn lift(&self, panel: &PanelView) -> String {
        if panel.moves {
            return self.say("play-axes-move", &[]);
        }
        match panel.lift_slot {
            Some(slot) => self.say(
                "play-lift-at",
                &[("slot", Arg::Number(i64::from(slot) + 1))],
            ),
            None if panel.referenced => self.say("play-lift-between", &[]),
            None => self.say("play-lift-unknown", &[]),
        }
    }

    fn signals(&self, id: &str, available: bool, ready: bool) -> String {
        let state = |closed: bool| {
            let id = if closed {
                "signal-closed"
            } else {
                "signal-open"
            };
            Arg::from(self.say(id, &[]))
        };
        self.say(
            id,
            &[("available", state(available)), ("ready", state(ready))],
        )
    }

    fn alarms(&self, panel: &PanelView) -> String {
        let on = Alarm::ALL
            .into_iter()
            .map(|(_, alarm)| alarm)
            .filter(|alarm| panel.alarms.state(*alarm).waits());
        let shown: Vec<String> = on.map(|alarm| text(self.words, &of_alarm(alarm))).collect();
        shown.join(" ")
    }

    fn asked(&self, panel: &PanelView) -> String {
        match panel.question {
            Some(question) => text(self.words, &of_question(question)),
            None => self.say("play-nothing-asked", &[]),
        }
    }
}
