//! From finding to finding.

use rackproof_phrases::{Finding, Told};

use super::DebriefView;
use crate::Wish;

/// Whether a finding stands in the list of findings: steps have a list of their own.
pub(super) fn is_listed(finding: &Finding) -> bool {
    !matches!(finding.told, Told::Step(..))
}

/// The findings that have a moment, by number.
pub(super) fn with_moment(view: &DebriefView<'_>) -> Vec<(usize, u64)> {
    let all = view.findings.list.iter().enumerate();
    all.filter(|(_, finding)| is_listed(finding))
        .filter_map(|(number, finding)| finding.moment.map(|moment| (number, moment.at)))
        .collect()
}

/// The finding before the chosen one, or before this moment.
pub(super) fn before(view: &DebriefView<'_>) -> Option<usize> {
    let all = with_moment(view);
    let is_before = |(number, at): &&(usize, u64)| match view.chosen {
        Some(chosen) => *number < chosen,
        None => *at < view.at,
    };
    all.iter().rfind(is_before).map(|(number, _)| *number)
}

/// The finding after the chosen one, or after this moment.
pub(super) fn after(view: &DebriefView<'_>) -> Option<usize> {
    let all = with_moment(view);
    let is_after = |(number, at): &&(usize, u64)| match view.chosen {
        Some(chosen) => *number > chosen,
        None => *at > view.at,
    };
    all.iter().find(is_after).map(|(number, _)| *number)
}

/// Choose a finding. The window then shows its moment, if it has one.
pub(super) fn go(finding: Option<usize>) -> Option<Wish> {
    finding.map(Wish::Finding)
}
