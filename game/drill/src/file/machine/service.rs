//! What a machine file says of settings, alarms, clear-out and unit. All of it may be left out: a
//! machine then does what machines did before there was a choice.

use rackproof_buffer::{Alarm, Asks, Edition, Scope, ServiceParts, Unfitted};
use rackproof_files::Fields;

use super::bounds;

/// The choices, or the plain ones where the file has none.
pub(super) fn service_of(fields: &Fields<'_>) -> Option<ServiceParts> {
    fields.optional("service", ServiceParts::PLAIN, |value, report| {
        Fields::of(value, "Service", report).and_then(read_service)
    })
}

fn read_service(fields: Fields<'_>) -> Option<ServiceParts> {
    let plain = ServiceParts::PLAIN;
    let flag = |field, default| fields.optional(field, default, |value, report| report.flag(value));
    let scope = fields.optional("side_play", plain.side_play_scope, |value, report| {
        report.choice(
            value,
            &[("Machine", Scope::Machine), ("Product", Scope::Product)],
        )
    });
    let unfitted = fields.optional("unfitted", plain.unfitted, |value, report| {
        report.choice(
            value,
            &[("Refused", Unfitted::Refused), ("Waits", Unfitted::Waits)],
        )
    });
    let asks = fields.optional("clear_out_asks", plain.clear_out_asks, |value, report| {
        report.choice(value, &[("Slot", Asks::Slot), ("Place", Asks::Place)])
    });
    let editions = Edition::ALL;
    let unit_states = fields.optional("unit_states", plain.unit_states, |value, report| {
        report.choice(value, &editions)
    });
    let latching = fields.optional("latching", plain.latching, |value, report| {
        let alarms = report.each(value, |one, report| report.choice(one, &Alarm::ALL))?;
        report.within(value.place, alarms.len() as i64, &bounds::LATCHING);
        Some(ServiceParts::mask(&alarms))
    });
    let sensor = flag("width_sensor", plain.width_sensor);
    let takes = flag("downstream_takes", plain.downstream_takes);
    let key = flag("save_needs_key", plain.save_needs_key);
    let manual = flag("manual_mode", plain.manual_mode);
    fields.finish();
    Some(ServiceParts {
        side_play_scope: scope?,
        unfitted: unfitted?,
        width_sensor: sensor?,
        clear_out_asks: asks?,
        downstream_takes: takes?,
        save_needs_key: key?,
        latching: latching?,
        unit_states: unit_states?,
        manual_mode: manual?,
    })
}
