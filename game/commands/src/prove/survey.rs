//! What the acts on offer come to, over the states that a search found: which of them the rules
//! allow, which rules are broken by leaving something out, whether a stop latches.

use std::collections::BTreeSet;

use rackproof_drill::{Cause, Chance, Intent};
use rackproof_grade::{Judged, JudgedState};
use rackproof_model::{Model, Stride};
use rackproof_prove::{Exploration, Hands, Node, Step};

use super::{
    job::flags,
    lines::{WayFrom, lines},
    races::Races,
    sound::is_unsound,
};

/// Of so many states one is asked what becomes of leaving a preparation out: that costs tens of
/// steps each time, and it is enough to find a rule broken once.
const OMITTED_OF: usize = 101;

/// What was found. Kinds and rules are masks.
#[derive(Clone, Debug, Default)]
pub(crate) struct Survey {
    /// Kinds of intent that are on offer in some state.
    pub(crate) offered: u64,
    /// Kinds of intent that keep the rules in some state.
    pub(crate) allowed: u64,
    /// Rules that are the first to be broken by an act, or by what follows when one preparation of
    /// a step is left out.
    pub(crate) broken: u64,
    /// A way to a state in which the emergency stop is pressed and does not latch (ISO 13850), and
    /// the number of the start in which it begins.
    pub(crate) unlatched: Option<WayFrom>,
    /// A way to an end that passes and should not, and the number of the start in which it begins.
    pub(crate) unsound: Option<WayFrom>,
    /// Which timers run at once, and where a moment decides.
    pub(crate) races: Races,
    /// What the environment could choose in some state. Faults have the numbers of the one variant
    /// that was searched: where there are faults no two are searched together.
    pub(crate) chances: BTreeSet<Chance>,
}

/// The states of a search fall into so many parts that are looked at each by itself, however many
/// hands there are: what is found must not hang on them.
const PARTS: usize = 32;

/// Looks at states one by one, with its lists kept.
struct Surveyor<'j> {
    judged: &'j Judged,
    survey: Survey,
    /// The first state in which a stop does not latch.
    unlatched: Option<Node>,
    /// The first state from which a step leads to an end that passes and should not.
    unsound: Option<(Node, Stride<Cause>)>,
    /// Choices that the drill speaks of and that did not come up so far.
    awaited: Vec<Chance>,
    offers: Vec<Cause>,
    strides: Vec<Stride<Cause>>,
}

impl Survey {
    /// Looks at all states that were found and not pruned.
    pub(crate) fn of(
        hands: &impl Hands,
        (judged, found): (&Judged, &Exploration<'_, Judged>),
        prune: u64,
    ) -> Survey {
        let nodes: Vec<Node> = found.nodes().collect();
        let parts = nodes.chunks(nodes.len().div_ceil(PARTS).max(1));
        let mut parts: Vec<_> = parts.map(|nodes| (nodes, Surveyor::new(judged))).collect();
        let work = |(nodes, surveyor): &mut (&[Node], Surveyor<'_>)| {
            for (number, &node) in nodes.iter().enumerate() {
                surveyor.see(node, &found.state(node), prune, number);
            }
        };
        hands.each(&mut parts, work, || ());
        let mut survey = Survey::default();
        for (_, surveyor) in &parts {
            survey.join(&surveyor.survey);
        }
        let way = |node: Node, then: &mut dyn Iterator<Item = Cause>| {
            let mut witness = found.witness_to(node);
            witness.steps.extend(then.map(Step::Did));
            (witness.start, lines(judged, &witness))
        };
        let first = parts.iter().find_map(|(_, surveyor)| surveyor.unlatched);
        let press = Cause::Did(Intent::PressEmergency);
        survey.unlatched = first.map(|node| way(node, &mut [press].into_iter()));
        let first = parts.iter().find_map(|(_, surveyor)| surveyor.unsound);
        survey.unsound = first.map(|(node, stride)| way(node, &mut stride.causes()));
        survey
    }

    /// Both together.
    pub(crate) fn join(&mut self, other: &Survey) {
        self.offered |= other.offered;
        self.allowed |= other.allowed;
        self.broken |= other.broken;
        self.races.join(&other.races);
        self.chances.extend(&other.chances);
        if self.unlatched.is_none() {
            self.unlatched.clone_from(&other.unlatched);
        }
        if self.unsound.is_none() {
            self.unsound.clone_from(&other.unsound);
        }
    }
}

impl<'j> Surveyor<'j> {
    fn new(judged: &'j Judged) -> Surveyor<'j> {
        Surveyor {
            judged,
            survey: Survey::default(),
            unlatched: None,
            unsound: None,
            awaited: judged.world().choices(),
            offers: Vec::new(),
            strides: Vec::new(),
        }
    }

    /// Looks at one state, the `number`-th of those that it looks at.
    fn see(&mut self, node: Node, state: &JudgedState, prune: u64, number: usize) {
        if flags(self.judged, state) & prune != 0 {
            return;
        }
        if self.look(state) {
            self.unlatched.get_or_insert(node);
        }
        self.await_chances(state);
        let mut strides = std::mem::take(&mut self.strides);
        strides.clear();
        self.judged.strides(state, &mut strides);
        self.survey.races.note(self.judged, state, &strides);
        for stride in &strides {
            self.stride(state, stride);
            if self.unsound.is_none() && is_unsound(self.judged, state, stride) {
                self.unsound = Some((node, *stride));
            }
            if number.is_multiple_of(OMITTED_OF) {
                self.omit(state, stride);
            }
        }
        self.strides = strides;
    }

    /// Notes which of the choices that did not come up so far come up here.
    fn await_chances(&mut self, state: &JudgedState) {
        if self.awaited.is_empty() {
            return;
        }
        let mut open = Vec::new();
        self.judged.world().chosen(&state.world, &mut open);
        self.survey.chances.extend(open);
        let met = &self.survey.chances;
        self.awaited.retain(|chance| !met.contains(chance));
    }

    /// Tries the acts on offer whose kind is not known to be allowed. Whether a stop fails to
    /// latch.
    fn look(&mut self, state: &JudgedState) -> bool {
        let mut offers = std::mem::take(&mut self.offers);
        offers.clear();
        self.judged.offers(state, &mut offers);
        let mut unlatched = false;
        for &cause in &offers {
            let kind = kind_bit(cause);
            self.survey.offered |= kind;
            let stops = cause == Cause::Did(Intent::PressEmergency);
            if stops || kind & !self.survey.allowed != 0 {
                let mut child = *state;
                self.judged.act(&mut child, cause, &mut |_| {});
                unlatched |= stops && !child.world.machine.emergency();
                self.note(kind, &child);
            }
        }
        self.offers = offers;
        unlatched
    }

    /// Tries a stride that has a kind not known to be allowed.
    fn stride(&mut self, state: &JudgedState, stride: &Stride<Cause>) {
        let kinds = stride
            .causes()
            .fold(0, |mask, cause| mask | kind_bit(cause));
        if kinds & !self.survey.allowed == 0 {
            return;
        }
        if let Some(child) = self.walk(state, stride.causes()) {
            self.note(kinds, &child);
        }
    }

    /// Leaves each cause of a stride out but the last, and then tries all that is on offer.
    fn omit(&mut self, state: &JudgedState, stride: &Stride<Cause>) {
        let causes: Vec<Cause> = stride.causes().collect();
        for left_out in 0..causes.len() {
            let rest = causes.iter().enumerate();
            let rest = rest
                .filter(|(at, _)| *at != left_out)
                .map(|(_, cause)| *cause);
            let Some(child) = self.walk(state, rest) else {
                continue;
            };
            self.survey.broken |= child.broken;
            if child.broken != 0 {
                continue;
            }
            let mut offers = Vec::new();
            self.judged.offers(&child, &mut offers);
            for cause in offers {
                let mut after = child;
                self.judged.act(&mut after, cause, &mut |_| {});
                self.survey.broken |= after.broken;
            }
        }
    }

    /// Does causes one after the other. `None` if one is not on offer there.
    fn walk(
        &mut self,
        state: &JudgedState,
        causes: impl Iterator<Item = Cause>,
    ) -> Option<JudgedState> {
        let mut child = *state;
        for cause in causes {
            self.offers.clear();
            self.judged.offers(&child, &mut self.offers);
            if !self.offers.contains(&cause) {
                return None;
            }
            self.judged.act(&mut child, cause, &mut |_| {});
            if child.broken != 0 {
                break;
            }
        }
        Some(child)
    }

    fn note(&mut self, kinds: u64, child: &JudgedState) {
        if self.judged.kept(child) {
            self.survey.allowed |= kinds;
        } else {
            self.survey.broken |= child.broken;
        }
    }
}

fn kind_bit(cause: Cause) -> u64 {
    match cause {
        Cause::Did(intent) => 1 << intent.kind() as u8,
        Cause::Chose(_) => 0,
    }
}
