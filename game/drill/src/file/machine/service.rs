//! What a machine file says of settings, alarms, clear-out and unit. All of it may be left out: a
//! machine then does what machines did before there was a choice.

use rackproof_buffer::{Alarm, Asks, Edition, Scope, ServiceParts, Unfitted};
use rackproof_files::Fields;

use super::bounds;

/// The choices, or the plain ones where the file has none.
pub(super) fn service_of(fields: &Fields<'_>) -> Option<ServiceParts> {
    fields.optional_record(
        "service",
        ServiceParts::PLAIN,
        "Service()",
        |value, report| Fields::of(value, "Service", report).and_then(read_service),
    )
}

fn read_service(fields: Fields<'_>) -> Option<ServiceParts> {
    let plain = ServiceParts::PLAIN;
    let scopes = [("Machine", Scope::Machine), ("Product", Scope::Product)];
    let scope = fields.optional_choice("side_play", plain.side_play_scope, &scopes);
    let unfitted = [("Refused", Unfitted::Refused), ("Waits", Unfitted::Waits)];
    let unfitted = fields.optional_choice("unfitted", plain.unfitted, &unfitted);
    let asks = [("Slot", Asks::Slot), ("Place", Asks::Place)];
    let asks = fields.optional_choice("clear_out_asks", plain.clear_out_asks, &asks);
    let unit_states = fields.optional_choice("unit_states", plain.unit_states, &Edition::ALL);
    let latching = fields.optional_several("latching", &Alarm::ALL);
    if let Some(alarms) = &latching {
        let (report, place) = (
            fields.report().about("latching"),
            fields.place_of("latching"),
        );
        report.within(place, alarms.len() as i64, &bounds::LATCHING);
    }
    let sensor = fields.optional_flag("width_sensor", plain.width_sensor);
    let takes = fields.optional_flag("downstream_takes", plain.downstream_takes);
    let key = fields.optional_flag("save_needs_key", plain.save_needs_key);
    let manual = fields.optional_flag("manual_mode", plain.manual_mode);
    fields.finish();
    Some(ServiceParts {
        side_play_scope: scope?,
        unfitted: unfitted?,
        width_sensor: sensor?,
        clear_out_asks: asks?,
        downstream_takes: takes?,
        save_needs_key: key?,
        latching: ServiceParts::mask(&latching?),
        unit_states: unit_states?,
        manual_mode: manual?,
    })
}
