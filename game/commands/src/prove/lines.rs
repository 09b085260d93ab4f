//! Ways of searches as lines of a journal.

use rackproof_attempt::{Deed, cause_text};
use rackproof_drill::Cause;
use rackproof_grade::{Judged, Timed};
use rackproof_prove::{Exploration, Step, Witness};

/// A way to a state that should not be, as lines of a journal.
pub(crate) type Way = Vec<String>;

/// A way, and the variant in which it begins.
pub(crate) type WayFrom = (usize, Way);

pub(super) fn way(judged: &Judged, found: &Exploration<'_, Judged>, bit: u32) -> Option<Way> {
    found.witness(bit).map(|witness| lines(judged, &witness))
}

/// Causes with the time before each, as a proof keeps them.
pub(super) fn deeds_of(judged: &Judged, causes: &[Timed]) -> Vec<Deed> {
    let deed = |&(span, cause): &Timed| Deed {
        after: u64::from(span.0),
        cause: cause_text(judged.world(), cause),
    };
    causes.iter().map(deed).collect()
}

/// Causes with the time before each, as lines of a journal.
pub(super) fn lines_of(judged: &Judged, causes: &[Timed]) -> Way {
    let mut at = 0;
    let line = |&(span, cause): &Timed| {
        at += u64::from(span.0);
        line_at(at, &cause_text(judged.world(), cause))
    };
    causes.iter().map(line).collect()
}

fn line_at(at: u64, cause: &str) -> String {
    format!("At({}.{:06}, {cause})", at / 1_000_000, at % 1_000_000)
}

pub(super) fn lines(judged: &Judged, witness: &Witness<Cause>) -> Way {
    let (mut waited, mut done_at) = (0_u64, 0_u64);
    let mut lines = Vec::new();
    for step in &witness.steps {
        match step {
            Step::Waited(span) => waited += u64::from(span.0),
            Step::Did(cause) | Step::Chose(cause) => {
                done_at = waited;
                lines.push(line_at(waited, &cause_text(judged.world(), *cause)));
            }
        }
    }
    let since = waited - done_at;
    if since > 0 {
        lines.push(format!(
            "Wait({}.{:06})",
            since / 1_000_000,
            since % 1_000_000
        ));
    }
    lines
}
