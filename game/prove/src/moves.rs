//! What can follow a state, and which moments inside an interval are tried.

use std::ops::ControlFlow;

use rackproof_model::{Instants, Micros, Model, Stride};

/// One step of the explorer.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Move<C> {
    /// The person took a stride.
    Stride(Stride<C>),
    /// The environment chose.
    Chance(C),
    /// Time passed.
    Wait(Micros),
}

/// Lists the successors of states. Kept from state to state, so that its lists are allocated once.
pub(crate) struct Successors<C> {
    persons: bool,
    strides: Vec<Stride<C>>,
    chances: Vec<C>,
    critical: Vec<Micros>,
    spans: Vec<Micros>,
}

impl<C: Copy + PartialEq> Successors<C> {
    /// Lists the person's steps only if `persons`.
    pub(crate) fn new(persons: bool) -> Successors<C> {
        Successors {
            persons,
            strides: Vec::new(),
            chances: Vec::new(),
            critical: Vec::new(),
            spans: Vec::new(),
        }
    }

    /// Shows each successor of `state` to `landed`: the move, the state that it leads to, and
    /// whether that lies between two events. Who is shown the state may change it. Stops as soon as
    /// `landed` breaks.
    ///
    /// Between two events (`between`), nothing but acts and the next event follow: the interval
    /// was cut up where it began.
    pub(crate) fn visit<M: Model<Cause = C>>(
        &mut self,
        model: &M,
        state: &M::State,
        between: bool,
        landed: &mut impl FnMut(&Move<C>, &mut M::State, bool) -> ControlFlow<()>,
    ) -> ControlFlow<()> {
        let event = model.next_event(state);
        let mut instants = Instants::new();
        if event.is_some() {
            model.critical_instants(state, &mut instants);
        }
        let acted_between = |child: &M::State| {
            between
                && (model.same_ahead(state, child) || !has_begun(model, child, event, &instants))
        };
        if self.persons {
            self.strides.clear();
            model.strides(state, &mut self.strides);
            // Strides that begin alike stand side by side: what they share is done once.
            let (mut begun, mut begun_state) = (0, *state);
            for (number, stride) in self.strides.iter().enumerate() {
                let next = self.strides.get(number + 1);
                let shared = next.map_or(0, |next| stride.shared(next));
                let mut child = if begun > 0 { begun_state } else { *state };
                let done = std::mem::take(&mut begun);
                if shared > 0 && shared >= done {
                    let first = stride.causes().take(shared).skip(done);
                    model.act_in_turn(&mut child, first, &mut |_| ());
                    (begun, begun_state) = (shared, child);
                }
                let rest = stride.causes().skip(done.max(begun));
                model.act_in_turn(&mut child, rest, &mut |_| ());
                let inside = acted_between(&child);
                landed(&Move::Stride(*stride), &mut child, inside)?;
            }
        }
        self.chances.clear();
        model.chances(state, &mut self.chances);
        for &cause in &self.chances {
            let mut child = *state;
            model.act(&mut child, cause, &mut |_| ());
            let inside = acted_between(&child);
            landed(&Move::Chance(cause), &mut child, inside)?;
        }
        let Some(event) = event else {
            return ControlFlow::Continue(());
        };
        self.spans.clear();
        if !between {
            self.critical.clear();
            self.critical.extend_from_slice(instants.as_slice());
            cut(&mut self.critical, event, &mut self.spans);
        }
        self.spans.push(event);
        for &span in &self.spans {
            let mut child = *state;
            model.advance(&mut child, span, &mut |_| ());
            landed(&Move::Wait(span), &mut child, span < event)?;
        }
        ControlFlow::Continue(())
    }
}

/// Whether `child`, reached by an act, has something ahead that its parent had not: another next
/// event, or a critical instant that is new. The event alone does not tell: what has just begun
/// may end only after it, and be critical before it.
fn has_begun<M: Model>(
    model: &M,
    child: &M::State,
    event: Option<Micros>,
    instants: &Instants,
) -> bool {
    if model.next_event(child) != event {
        return true;
    }
    let mut after = Instants::new();
    if event.is_some() {
        model.critical_instants(child, &mut after);
    }
    after
        .as_slice()
        .iter()
        .any(|instant| !instants.as_slice().contains(instant))
}

/// Adds the moments inside the interval from now to `event` that are tried, in order: both sides
/// of each critical instant, and one inside each part that these cut the interval into. Sorts the
/// instants.
fn cut(instants: &mut [Micros], event: Micros, out: &mut Vec<Micros>) {
    instants.sort_unstable();
    let mut from = Micros(0);
    for &instant in instants.iter().filter(|&&i| Micros(0) < i && i < event) {
        if from < instant {
            push_inside(from, instant, out);
            out.push(instant);
        }
        from = instant + Micros(1);
        if from < event {
            out.push(from);
        }
    }
    push_inside(from, event, out);
}

/// Adds the middle of the open interval, if a whole microsecond lies inside it.
fn push_inside(from: Micros, to: Micros, out: &mut Vec<Micros>) {
    if to.0 - from.0 >= 2 {
        out.push(Micros(from.0 + (to.0 - from.0) / 2));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_interval_is_cut_at_both_sides_and_once_inside_each_part() {
        let cases: [(&[u32], u32, &[u32]); 12] = [
            (&[], 0, &[]),
            (&[], 1, &[]),
            (&[], 2, &[1]),
            (&[], 1_000, &[500]),
            (&[1], 2, &[1]),
            (&[1], 3, &[1, 2]),
            (&[100], 1_000, &[50, 100, 101, 550]),
            // Not inside: now, the event, and what lies behind it.
            (&[0, 1_000, 1_001], 1_000, &[500]),
            // In any order.
            (&[500, 100], 1_000, &[50, 100, 101, 300, 500, 501, 750]),
            // Neighbours are tried once.
            (&[100, 101], 1_000, &[50, 100, 101, 102, 551]),
            (&[999], 1_000, &[499, 999]),
            (&[998], 1_000, &[499, 998, 999]),
        ];
        for (critical, event, expected) in cases {
            let mut instants: Vec<Micros> = critical.iter().copied().map(Micros).collect();
            let mut spans = Vec::new();
            cut(&mut instants, Micros(event), &mut spans);
            let spans: Vec<u32> = spans.iter().map(|s| s.0).collect();
            assert_eq!(spans, expected, "{critical:?} before {event}");
        }
    }
}
