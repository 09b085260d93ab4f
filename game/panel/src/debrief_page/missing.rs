//! What was open at the end, worded as what is missing.

use rackproof_drill::FinishItem;

/// The message for what does not hold.
pub(super) fn id(item: FinishItem) -> &'static str {
    match item {
        FinishItem::WidthTrueIsWanted => "open-width-true-is-wanted",
        FinishItem::MapTrueIsEmpty => "open-map-true-is-empty",
        FinishItem::BeltsClear => "open-belts-clear",
        FinishItem::HandsEmpty => "open-hands-empty",
        FinishItem::LockOff => "open-lock-off",
        FinishItem::PropOut => "open-prop-out",
        FinishItem::HatchShut => "open-hatch-shut",
        FinishItem::CordOut => "open-cord-out",
        FinishItem::KeyOut => "open-key-out",
        FinishItem::UnitReady => "open-unit-ready",
        FinishItem::LogWritten => "open-log-written",
        FinishItem::UpstreamLetGo => "open-upstream-let-go",
    }
}
