//! One random trial. Three copies of the state run side by side: one from event to event, one in
//! pieces, one written into its key and read back after every step.

use rackproof_model::{Instants, Micros};

use crate::{
    Answer, Asks, Button, Command, Machine, Outcome, Setting, State, Unfitted,
    deeds::{Chance, Deed, Step, apply, key, next_deed, read},
};

/// A machine in three copies, and what must hold of it.
pub(crate) struct Trial {
    pub(crate) machine: Machine,
    pub(crate) state: State,
    /// The same, with time passed in pieces.
    pieces: State,
    /// The same, written and read back after every step.
    shadow: State,
    /// A state to read over.
    spoilt: State,
    chance: Chance,
    pub(crate) clock: u64,
    /// Boards that must be in the machine.
    pub(crate) boards: i64,
    /// Start was pressed, and took effect, since power, emergency stop or hatch stopped all.
    pub(crate) armed: bool,
    /// Since when nothing may be driven.
    pub(crate) stopped_at: Option<u64>,
    pub(crate) opened_at: [Option<u64>; 2],
    no_time_steps: u32,
    pub(crate) heard: Vec<Outcome>,
}

impl Trial {
    pub(crate) fn new(seed: u64, machine: Machine) -> Trial {
        let mut state = machine.at_rest(0);
        if machine.parts.service.unfitted == Unfitted::Waits {
            machine.put_setting(&mut state, Setting::WidthCheck(true));
            let most = [0, 20][usize::from(machine.parts.service.manual_mode)];
            machine.put_setting(
                &mut state,
                Setting::ConfirmWithin(Micros::from_seconds(most)),
            );
        }
        Trial {
            machine,
            state,
            pieces: state,
            shadow: state,
            spoilt: state,
            chance: Chance(seed),
            clock: 0,
            boards: 0,
            armed: true,
            stopped_at: None,
            opened_at: [None; 2],
            no_time_steps: 0,
            heard: Vec::new(),
        }
    }

    pub(crate) fn step(&mut self, step: Step) {
        match step {
            Step::Do(deed) => self.act(deed),
            Step::GoOn(value) => {
                let deed = next_deed(&self.machine, &self.state, value);
                self.act(deed);
            }
            Step::Wait(span) => self.pass(span),
            Step::Events(events) => {
                for _ in 0..events {
                    self.pass(Micros(60_000_000));
                }
            }
        }
    }

    fn act(&mut self, deed: Deed) {
        let before = self.state;
        let mut heard = [Vec::new(), Vec::new(), Vec::new()];
        let mut boards = [0; 3];
        let states = [&mut self.state, &mut self.pieces, &mut self.shadow];
        for ((s, heard), boards) in states.into_iter().zip(&mut heard).zip(&mut boards) {
            *boards = apply(&self.machine, s, deed, &mut |outcome| heard.push(outcome));
        }
        assert_eq!(heard[0], heard[1], "{deed:?} in pieces");
        let [whole, shadow] = [0, 2].map(|copy| self.as_keys_tell(&heard[copy]));
        assert_eq!(whole, shadow, "{deed:?} read back");
        self.boards += i64::from(boards[0]);
        self.note_deed(deed, &before, &heard[0]);
        self.check(&before, &heard[0], Some(deed));
    }

    /// What was heard, without what no key keeps: of a half that was answered for, whether its
    /// board was taken or it was seen to be empty. No sign that a rule reads tells these apart.
    fn as_keys_tell(&self, heard: &[Outcome]) -> Vec<Outcome> {
        let by_half = self.machine.parts.service.clear_out_asks == Asks::Place;
        let told = |outcome: &Outcome| match *outcome {
            Outcome::Answered(slot, Answer::Taken) if by_half => {
                Outcome::Answered(slot, Answer::SeenEmpty)
            }
            other => other,
        };
        heard.iter().map(told).collect()
    }

    fn note_deed(&mut self, deed: Deed, before: &State, heard: &[Outcome]) {
        let refused = heard
            .iter()
            .any(|outcome| matches!(outcome, Outcome::Refused(_)));
        let must_rest = |s: &State| s.emergency || s.hatch_open || !s.powered;
        let starts = [Button::Start, Button::Order(Command::Start)].map(Deed::Press);
        if starts.contains(&deed) && before.powered && !refused {
            self.armed = true;
        } else if must_rest(before) || must_rest(&self.state) {
            self.armed = false;
        }
        let since = self.stopped_at.unwrap_or(self.clock);
        self.stopped_at = must_rest(&self.state).then_some(since);
    }

    /// Lets time pass: to the next event in one copy, in pieces in the other.
    fn pass(&mut self, most: Micros) {
        let before = self.state;
        let Some(next) = self.machine.next_event(&self.state) else {
            return;
        };
        self.no_time_steps = if next.0 == 0 {
            self.no_time_steps + 1
        } else {
            0
        };
        assert!(
            self.no_time_steps <= 50,
            "time stands still: {:?}",
            self.state
        );
        self.machine
            .critical_instants(&self.state, &mut Instants::new());
        let span = next.min(most);
        let mut heard = [Vec::new(), Vec::new(), Vec::new()];
        let [whole, pieces, shadow] = &mut heard;
        self.machine
            .advance(&mut self.state, span, &mut |outcome| whole.push(outcome));
        let mut left = span.0;
        loop {
            let piece = if left == 0 {
                0
            } else {
                self.chance.below(left) + 1
            };
            self.machine
                .advance(&mut self.pieces, Micros(piece), &mut |o| pieces.push(o));
            self.machine
                .advance(&mut self.shadow, Micros(piece), &mut |o| shadow.push(o));
            left -= piece;
            if left == 0 {
                break;
            }
            self.read_back();
        }
        assert_eq!(heard[0], heard[1], "after {span} in pieces");
        assert_eq!(heard[0], heard[2], "after {span} read back");
        self.clock += u64::from(span.0);
        self.check(&before, &heard[0], None);
    }

    fn read_back(&mut self) {
        let written = key(&self.machine, &self.shadow);
        self.shadow = read(&self.machine, &written, &self.spoilt);
        let again = key(&self.machine, &self.shadow);
        assert_eq!(
            written, again,
            "a key is another when read and written again"
        );
        self.spoilt = self.pieces;
    }

    fn check(&mut self, before: &State, heard: &[Outcome], deed: Option<Deed>) {
        assert_eq!(self.state, self.pieces, "in pieces");
        self.read_back();
        assert_eq!(
            key(&self.machine, &self.state),
            key(&self.machine, &self.shadow)
        );
        let canon = read(&self.machine, &key(&self.machine, &self.state), &self.state);
        assert_eq!(canon, self.shadow, "read back over another state");
        self.check_boards(before, heard, deed);
        self.check_motions(before, heard, deed);
        self.check_signals(heard);
        self.check_visits(heard);
        self.check_parts(heard);
        self.check_belief(before, heard, deed);
        self.check_service(before, heard);
        self.heard.extend_from_slice(heard);
        let s = &self.state;
        let order = s.order[..s.order_len as usize].iter();
        let ordered = order.fold(0_u64, |mask, slot| mask | 1 << slot);
        assert_eq!(ordered, s.map.full, "the order of leaving and the slot map");
        assert_eq!(ordered.count_ones(), u32::from(s.order_len));
        assert_eq!(s.map.full & s.map.unknown, 0);
    }
}
