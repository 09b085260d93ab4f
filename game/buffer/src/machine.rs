//! The constants of one machine, and the tables that follow from them.

use rackproof_model::{
    Micrometres, Micros,
    quantity::{Microstrain, Percent},
};

use crate::{
    Axis, Beam, BoardKind, Condition, Defect, Half, Motion, ProductStoring, ServiceParts, Storing,
    bow_at_curvature, bow_at_shortening, flow::Flow, heights::Reach, smooth::LoneRuns,
    smooth::may_be_smooth,
};

/// Most slots of a rack.
pub const SLOTS_MOST: usize = 40;
/// Most kinds of board, and most products.
pub const KINDS_MOST: usize = 8;

/// Which way the rails go for their zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FirstZero {
    /// They close to their least width.
    Closing,
    /// They open to their greatest width.
    Opening,
}

/// When Machine Ready closes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReadyRule {
    /// Only while the machine upstream offers a board.
    OnOffer,
    /// Whenever there is room.
    Room,
}

/// What a board seen by the sweep makes unknown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mistrust {
    /// That slot and those above.
    FromThereUp,
    /// Every slot.
    All,
}

/// Points at which makers and sites differ.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Behaviours {
    /// When Machine Ready closes.
    pub machine_ready: ReadyRule,
    /// Which way the rails go for their zero.
    pub rails_zero: FirstZero,
    /// What a board seen by the sweep makes unknown.
    pub sweep_seen: Mistrust,
    /// Whether the panel asks before the rails move, though the sweep saw nothing.
    pub rails_asked: bool,
    /// Whether the machine runs by itself after a changeover.
    pub runs_after_changeover: bool,
    /// Whether loading the product that is loaded already runs the whole cycle.
    pub whole_cycle_if_same: bool,
}

/// The three axes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Axes {
    /// The rack, up and down.
    pub lift: Axis,
    /// The moving rail.
    pub rails: Axis,
    /// The belts.
    pub belts: Axis,
}

/// A stored set of settings for one board type.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Product {
    /// The kind of board, a number into the kinds.
    pub kind: u8,
    /// Width of the board as stored, in µm. Side play is added to it.
    pub width: Micrometres,
    /// How its boards are stored and sent.
    pub storing: ProductStoring,
    /// Length of the board as stored, in µm. One beyond half a slot is not loaded.
    pub length: Micrometres,
}

/// Everything that a machine file says, checked. Lengths in µm.
#[derive(Clone, Debug)]
pub struct MachineParts {
    /// Slots of the rack, 2 to [`SLOTS_MOST`].
    pub slots: u8,
    /// From one slot to the next.
    pub pitch: Micrometres,
    /// Along the flow.
    pub rack_length: Micrometres,
    /// Between a belt and the rack.
    pub gap: Micrometres,
    /// Length of the infeed belt.
    pub infeed_length: Micrometres,
    /// Length of the outfeed belt.
    pub outfeed_length: Micrometres,
    /// How far a board at rest keeps from the end of its half.
    pub rest_clearance: Micrometres,
    /// How much of a board lies on each ledge.
    pub ledge: Micrometres,
    /// Least width between the rails.
    pub width_least: Micrometres,
    /// Greatest width between the rails.
    pub width_most: Micrometres,
    /// Width added to the board's own.
    pub side_play: Micrometres,
    /// From the lift's reference to slot 1 at belt height.
    pub reference_below: Micrometres,
    /// How far the end beam stands before the end of the outfeed belt.
    pub end_beam_before: Micrometres,
    /// Lift travel after which a board across a mouth is bent beyond its limit.
    pub mouth_bent_after: Micrometres,
    /// Lift travel after which it is cut.
    pub mouth_sheared_after: Micrometres,
    /// The axes.
    pub axes: Axes,
    /// The two beams at the mouths, infeed first.
    pub mouth_beams: [Beam; 2],
    /// Reflectance that the end beam needs, in hundredths.
    pub end_beam_reflectance: Percent,
    /// How long each signal stays open before the next closing.
    pub signal_open: Micros,
    /// How long the button is held to declare empty.
    pub declare_hold: Micros,
    /// Where makers and sites differ.
    pub behaviours: Behaviours,
    /// How boards are stored and sent.
    pub storing: Storing,
    /// Charge and heat.
    pub handling: crate::Handling,
    /// Where they differ in settings, alarms, clear-out and unit.
    pub service: ServiceParts,
    /// Kinds of board, at most [`KINDS_MOST`].
    pub kinds: Vec<BoardKind>,
    /// Products, at most [`KINDS_MOST`].
    pub products: Vec<Product>,
}

/// At which widths the rails harm a board of one kind, in µm. A limit that is never reached on this
/// machine is the least width less one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Press {
    /// At this width its strain is at the limit.
    pub overstrained_at: Micrometres,
    /// At this width it breaks or springs out.
    pub gone_at: Micrometres,
    /// What it is then.
    pub gone: Condition,
    /// Strain there (µε) if it breaks, shortening (µm) if it springs out.
    pub gone_number: i32,
    /// Over this width it falls.
    pub dropped_over: Micrometres,
}

/// One machine: what its file says, and the tables that follow.
#[derive(Clone, Debug)]
pub struct Machine {
    pub(crate) parts: MachineParts,
    pub(crate) presses: Vec<Press>,
    /// For each mouth beam and half: the mask of kinds that it sees at rest.
    pub(crate) sees: [[u8; 2]; 2],
    /// Kinds that the infeed beam sees running past.
    pub(crate) infeed_sees: u8,
    /// Kinds that the end beam sees.
    pub(crate) end_sees: u8,
    /// In which point it is made wrong. None of the machines that a file describes is.
    pub(crate) defect: Option<Defect>,
    /// For each product: the slots that it uses.
    pub(crate) used: [u64; KINDS_MOST],
    /// Which boards touch in which slots.
    pub(crate) reach: Reach,
    /// Nothing is odd about it, its boards and its neighbours: mostly its work goes smoothly.
    pub(crate) smooth: bool,
    /// What its belts do then.
    pub(crate) lone_runs: LoneRuns,
    /// Places along the flow.
    pub(crate) flow: Flow,
    /// Time that the lift takes from slot to slot, by how many slots they are apart.
    pub(crate) lift_times: [Micros; SLOTS_MOST],
    /// Faults that it may come to have.
    pub(crate) faults: Vec<crate::Fault>,
    /// For each kind: the kind that it is in truth, and what is odd about it.
    pub(crate) odds: Vec<Option<(u8, crate::BoardFault)>>,
    /// Its neighbours, where they may not do what their signals say.
    pub(crate) neighbouring: Option<crate::Neighbouring>,
}

impl Machine {
    /// A machine of these parts, which must keep the bounds of the file (a bug of the caller
    /// otherwise: it stops with an assertion).
    pub fn new(parts: MachineParts) -> Machine {
        assert!(
            (2..=SLOTS_MOST).contains(&(parts.slots as usize)),
            "slots out of bounds"
        );
        assert!(parts.kinds.len() <= KINDS_MOST && parts.products.len() <= KINDS_MOST);
        let rest = rest_leads(&parts);
        let mask = |sees: &dyn Fn(&BoardKind) -> bool| {
            let bits = parts.kinds.iter().enumerate();
            bits.fold(0, |mask, (number, kind)| {
                mask | u8::from(sees(kind)) << number
            })
        };
        let sees = parts
            .mouth_beams
            .map(|beam| Half::BOTH.map(|half| mask(&|kind| beam.sees_at_rest(kind, rest, half))));
        let infeed_sees = mask(&|kind| parts.mouth_beams[0].sees_running(kind));
        let end_sees = mask(&|kind| kind.reflectance >= parts.end_beam_reflectance);
        let mut used = [0; KINDS_MOST];
        for (used, product) in used.iter_mut().zip(&parts.products) {
            *used = parts.slots_at(product.storing.interval);
        }
        let presses = parts.kinds.iter().map(|kind| press(&parts, kind)).collect();
        let (reach, flow) = (Reach::of(&parts), Flow::of(&parts));
        Machine {
            presses,
            sees,
            infeed_sees,
            end_sees,
            defect: None,
            used,
            smooth: may_be_smooth(&parts, reach.parts_may_meet()),
            reach,
            lone_runs: LoneRuns::of(&parts, &flow),
            flow,
            lift_times: std::array::from_fn(|apart| {
                let way = Micrometres(apart as i32 * parts.pitch.0);
                Motion::begin(&parts.axes.lift, way).left()
            }),
            parts,
            faults: Vec::new(),
            odds: Vec::new(),
            neighbouring: None,
        }
    }

    /// What the file says.
    pub fn parts(&self) -> &MachineParts {
        &self.parts
    }

    /// How many slots the rack has.
    pub fn slots(&self) -> u8 {
        self.parts.slots
    }

    /// The kinds of board.
    pub fn kinds(&self) -> &[BoardKind] {
        &self.parts.kinds
    }

    /// The beams at the mouths, infeed first.
    pub fn mouth_beams(&self) -> [Beam; 2] {
        self.parts.mouth_beams
    }

    /// At which widths the rails harm a board of `kind`.
    pub fn press_limits(&self, kind: u8) -> Press {
        self.presses[kind as usize]
    }

    /// Whether the beams at the mouths see a board of `kind` at rest in `half`.
    pub fn sweep_sees(&self, kind: u8, half: Half) -> bool {
        (self.sees[0][half as usize] | self.sees[1][half as usize]) >> kind & 1 == 1
    }

    /// Whether the end beam sees a board of `kind` that reaches it.
    pub fn end_beam_sees(&self, kind: u8) -> bool {
        self.end_sees >> kind & 1 == 1
    }

    /// The width for a stored board width, in µm.
    pub fn rails_for(&self, width: Micrometres) -> Micrometres {
        width + self.parts.side_play
    }
}

pub(crate) fn rest_leads(parts: &MachineParts) -> [Micrometres; 2] {
    let half = Micrometres(parts.rack_length.0 / 2);
    [
        half - parts.rest_clearance,
        parts.rack_length - parts.rest_clearance,
    ]
}

fn press(parts: &MachineParts, kind: &BoardKind) -> Press {
    let never = parts.width_least - Micrometres(1);
    let at_strain = |strain: Microstrain| {
        let curvature = 2 * u64::from(strain.0) * kind.width.0 as u64 / kind.thickness.0 as u64;
        bow_at_curvature(kind.width, kind.thickness, curvature)
    };
    // Out of the ledges at 3 % shortening, or as soon as the middle meets the slot above.
    let room = parts.pitch.0 - kind.thickness.0;
    let most = kind.width.0 * 3 / 100;
    let shortening = (1..=most)
        .step_by(10)
        .find(|&short| {
            bow_at_shortening(kind.width, kind.thickness, Micrometres(short))
                .is_none_or(|bow| bow.rise.0 >= room)
        })
        .unwrap_or(most);
    let (gone, gone_short, gone_number) = match at_strain(kind.strain_break) {
        Some(bow) if bow.shortening.0 < shortening => (
            Condition::Broken,
            bow.shortening.0,
            kind.strain_break.0 as i32,
        ),
        _ => (Condition::SprungOut, shortening, shortening),
    };
    let width_at = |short: i32| Micrometres((kind.width.0 - short).max(never.0));
    let overstrained = at_strain(kind.strain_limit).map_or(gone_short, |bow| bow.shortening.0);
    Press {
        overstrained_at: width_at(overstrained.min(gone_short)),
        gone_at: width_at(gone_short),
        gone,
        gone_number,
        dropped_over: kind.width + parts.ledge,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Board, sample};

    #[test]
    fn a_wren_is_overstrained_before_it_springs_out() {
        let machine = sample::machine();
        let wren = machine.press_limits(sample::WREN);
        // 160 × 1.6 mm, 1000 µε: shortening = (2·ε·w/t)² w/4π² = 0.162 mm (small-angle formula).
        let shortening = 160_000 - wren.overstrained_at.0;
        assert!((155..170).contains(&shortening), "{shortening}");
        assert_eq!(wren.gone, Condition::SprungOut);
        assert_eq!(wren.gone_at.0, 160_000 - wren.gone_number);
        assert!(wren.gone_number <= 4_800);
    }

    /// Source: geometry. Shifted to one side a board loses its other ledge when the clearance is
    /// more than a ledge is deep: 3 mm.
    #[test]
    fn a_board_falls_from_the_first_micrometre_beyond_its_ledge() {
        let machine = sample::machine();
        assert_eq!(machine.parts().ledge.0, 3_000);
        for (width, falls) in [(163_000, false), (163_001, true)] {
            let (mut board, mut harms) = (Board::good(sample::WREN), Vec::new());
            let place = crate::Place::Belt(crate::Side::Infeed);
            let hear = &mut |outcome| harms.push(outcome);
            machine.press_board(&mut board, place, Micrometres(width), hear);
            assert_eq!(board.condition == Condition::Dropped, falls, "{width}");
            assert_eq!(harms.len(), usize::from(falls), "{width}: {harms:?}");
        }
    }

    #[test]
    fn a_brittle_board_breaks_before_it_springs_out() {
        let mut parts = sample::parts();
        parts.kinds[0].strain_break = Microstrain(2_000);
        let wren = Machine::new(parts).press_limits(0);
        assert_eq!((wren.gone, wren.gone_number), (Condition::Broken, 2_000));
        assert!(wren.gone_at < wren.overstrained_at);
    }

    #[test]
    fn the_sweep_sees_wren_and_neither_raven_nor_heron() {
        let machine = sample::machine();
        for half in Half::BOTH {
            assert!(machine.sweep_sees(sample::WREN, half));
            assert!(!machine.sweep_sees(sample::RAVEN, half));
            assert!(!machine.sweep_sees(sample::HERON, half));
        }
        assert!(machine.end_beam_sees(sample::HERON));
        assert!(!machine.end_beam_sees(sample::RAVEN));
    }
}
