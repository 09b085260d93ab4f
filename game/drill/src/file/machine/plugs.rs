//! The plugs of a machine file: what a site has where the sources of the interface disagree.

use rackproof_files::{Fields, Report, Value};

use crate::{FailedLine, Plugs, ShieldPin};

/// The plugs as they are first written: [`Plugs::default`].
pub(super) const PLUGS: &str = "Plugs(shield_pin: Pin14, failed_board: Both)";

/// The plugs. A file that says nothing of them means [`Plugs::default`].
pub(super) fn read_plugs(value: &Value, report: Report<'_>) -> Option<Plugs> {
    let fields = Fields::of(value, "Plugs", report)?;
    let shield = fields.choice("shield_pin", &ShieldPin::ALL);
    let failed_board = fields.choice("failed_board", &FailedLine::ALL);
    fields.finish();
    Some(Plugs {
        shield: shield?,
        failed_board: failed_board?,
    })
}
