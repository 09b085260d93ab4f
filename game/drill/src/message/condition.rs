//! What holds at a moment, and what must hold at the end, in words.

use super::{Message, product};
use crate::{Condition, FinishItem, World};

/// A condition, as a short statement.
pub fn of_condition(world: &World, condition: Condition) -> Message {
    let id = condition_id(condition);
    match condition {
        Condition::NextChosen | Condition::NextLoaded | Condition::WidthShown => {
            Message::with(id, [product(world, world.drill().next)])
        }
        _ => Message::plain(id),
    }
}

fn condition_id(condition: Condition) -> &'static str {
    match condition {
        Condition::StrapsTested => "condition-straps-tested",
        Condition::TorchOn => "condition-torch-on",
        Condition::CordPlugged => "condition-cord-plugged",
        Condition::HatchOpen => "condition-hatch-open",
        Condition::IsolatorOff => "condition-isolator-off",
        Condition::LockOn => "condition-lock-on",
        Condition::PropSet => "condition-prop-set",
        Condition::HandIn => "condition-hand-in",
        Condition::BoardInHand => "condition-board-in-hand",
        Condition::BoardInHandDamaged => "condition-board-in-hand-damaged",
        Condition::UpstreamHeld => "condition-upstream-held",
        Condition::Moving => "condition-moving",
        Condition::KeyTurned => "condition-key-turned",
        Condition::EmergencyLatched => "condition-emergency-latched",
        Condition::PanelOn => "condition-panel-on",
        Condition::ModeChangeover => "condition-mode-changeover",
        Condition::ModeProduction => "condition-mode-production",
        Condition::TaskChangeover => "condition-task-changeover",
        Condition::TaskClearOut => "condition-task-clear-out",
        Condition::AskedRails => "condition-asked-rails",
        Condition::StartMovesRails => "condition-start-moves-rails",
        Condition::AskedSeen => "condition-asked-seen",
        Condition::AskedTake => "condition-asked-take",
        Condition::AskedAnswer => "condition-asked-answer",
        Condition::Idle => "condition-idle",
        Condition::UnitStopped => "condition-unit-stopped",
        Condition::Held => "condition-held",
        Condition::Execute => "condition-execute",
        Condition::Complete => "condition-complete",
        Condition::Aborted => "condition-aborted",
        Condition::ReferenceLost => "condition-reference-lost",
        Condition::NextChosen => "condition-next-chosen",
        Condition::NextLoaded => "condition-next-loaded",
        Condition::WidthShown => "condition-width-shown",
        Condition::MapShownEmpty => "condition-map-shown-empty",
        Condition::LogWritten => "condition-log-written",
        Condition::DeclareHeld => "condition-declare-held",
        Condition::ReachesUnder => "condition-reaches-under",
    }
}

/// An item of the finish, as what must hold.
pub fn of_finish_item(world: &World, item: FinishItem) -> Message {
    Message::plain(match item {
        FinishItem::WidthTrueIsWanted => {
            let next = product(world, world.drill().next);
            return Message::with("finish-width-true-is-wanted", [next]);
        }
        FinishItem::MapTrueIsEmpty => "finish-map-true-is-empty",
        FinishItem::BeltsClear => "finish-belts-clear",
        FinishItem::HandsEmpty => "finish-hands-empty",
        FinishItem::LockOff => "finish-lock-off",
        FinishItem::PropOut => "finish-prop-out",
        FinishItem::HatchShut => "finish-hatch-shut",
        FinishItem::CordOut => "finish-cord-out",
        FinishItem::KeyOut => "finish-key-out",
        FinishItem::UnitReady => "finish-unit-ready",
        FinishItem::LogWritten => "finish-log-written",
        FinishItem::UpstreamLetGo => "finish-upstream-let-go",
    })
}
