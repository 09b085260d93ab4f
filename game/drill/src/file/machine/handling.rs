//! Charge and heat in a machine file.

use rackproof_buffer::Handling;
use rackproof_files::{Fields, Report, Value};

use super::bounds;

/// What the site knows as it is first written: [`Handling::default`].
pub(super) const HANDLING: &str = "Handling(body_volts: 0, volts_limit: 100, burn_degrees: 51)";

/// What the site knows of charge and heat.
pub(super) fn read_handling(value: &Value, report: Report<'_>) -> Option<Handling> {
    let fields = Fields::of(value, "Handling", report)?;
    let body = fields.integer("body_volts", &bounds::BODY_VOLTS);
    let limit = fields.integer("volts_limit", &bounds::VOLTS_LIMIT);
    let burn = fields.integer("burn_degrees", &bounds::BURN_DEGREES);
    fields.finish();
    Some(Handling {
        body_volts: body? as u16,
        volts_limit: limit? as u16,
        burn_degrees: burn? as u8,
    })
}
