//! A machine for this crate's tests. All figures invented.

use rackproof_model::{
    Micrometres, Micros,
    quantity::{MicrometresPerSecond, Microstrain, MillimetresPerSecondSquared, Percent},
};

use crate::{
    Axes, Axis, Beam, BeamSort, Behaviours, BoardKind, Cutout, FirstZero, Handling, Machine,
    MachineParts, Mistrust, Product, ProductStoring, ReadyRule, ServiceParts, Storing,
};

pub(crate) const WREN: u8 = 0;
pub(crate) const HERON: u8 = 1;
pub(crate) const KESTREL: u8 = 2;
pub(crate) const RAVEN: u8 = 3;

fn mm(millimetres: i32) -> Micrometres {
    Micrometres::from_millimetres(millimetres)
}

fn axis(speed: u32, acceleration: u32) -> Axis {
    Axis {
        speed: MicrometresPerSecond(speed * 1_000),
        acceleration: MillimetresPerSecondSquared(acceleration),
        braking: MillimetresPerSecondSquared(acceleration * 2),
        jerk: None,
    }
}

fn kind(width: i32, reflectance: u8, cutout: Option<Cutout>) -> BoardKind {
    BoardKind {
        length: mm(180),
        width: mm(width),
        thickness: Micrometres(1_600),
        above: Micrometres(0),
        below: Micrometres(0),
        reflectance: Percent(reflectance),
        cutout,
        strain_limit: Microstrain(1_000),
        strain_break: Microstrain(15_000),
    }
}

fn beam(origin: [i32; 3], aim: [i32; 3]) -> Beam {
    Beam {
        sort: BeamSort::Reflex,
        origin: origin.map(mm),
        aim: aim.map(mm),
        range: mm(260),
        reflectance: Percent(18),
    }
}

pub(crate) fn parts() -> MachineParts {
    let window = Cutout {
        along_from: mm(40),
        along_to: mm(140),
        across_from: mm(60),
        across_to: mm(130),
    };
    MachineParts {
        slots: 16,
        pitch: mm(20),
        rack_length: mm(500),
        gap: mm(9),
        infeed_length: mm(400),
        outfeed_length: mm(500),
        rest_clearance: mm(10),
        ledge: mm(3),
        width_least: mm(50),
        width_most: mm(300),
        side_play: Micrometres(800),
        reference_below: mm(30),
        end_beam_before: mm(25),
        mouth_bent_after: Micrometres(500),
        mouth_sheared_after: mm(3),
        axes: Axes {
            lift: axis(200, 400),
            rails: axis(40, 100),
            belts: axis(150, 600),
        },
        mouth_beams: [
            beam([-20, 30, 12], [150, 100, 0]),
            beam([520, 30, 12], [400, 100, 0]),
        ],
        end_beam_reflectance: Percent(18),
        signal_open: Micros::from_millis(50),
        declare_hold: Micros::from_seconds(2),
        behaviours: Behaviours {
            machine_ready: ReadyRule::Room,
            rails_zero: FirstZero::Closing,
            sweep_seen: Mistrust::FromThereUp,
            rails_asked: true,
            runs_after_changeover: false,
            whole_cycle_if_same: true,
        },
        storing: Storing::PLAIN,
        handling: Handling::default(),
        service: ServiceParts::PLAIN,
        kinds: vec![
            kind(160, 45, None),
            kind(160, 45, Some(window)),
            kind(220, 45, None),
            kind(160, 4, None),
        ],
        products: (0..4)
            .map(|kind| Product {
                kind,
                width: mm([160, 160, 220, 160][kind as usize]),
                storing: ProductStoring::PLAIN,
                length: mm(180),
            })
            .collect(),
    }
}

pub(crate) fn machine() -> Machine {
    Machine::new(parts())
}
