//! Every bound of machine and drill files, declared once.

use rackproof_files::Bound;

pub(crate) const SLOTS: Bound = Bound::whole("slots", "slots", 2, 40, "slots of the rack");
pub(crate) const PITCH: Bound =
    Bound::millimetres("pitch_mm", 5_000, 60_000, "from one slot to the next");
pub(crate) const RACK_LENGTH: Bound = Bound::millimetres(
    "length_mm",
    200_000,
    900_000,
    "length of the rack along the flow",
);
pub(crate) const REST_CLEARANCE: Bound = Bound::millimetres(
    "rest_clearance_mm",
    1_000,
    50_000,
    "from a board at rest to its half's end",
);
pub(crate) const LEDGE: Bound = Bound::millimetres(
    "ledge_mm",
    1_000,
    10_000,
    "how much of a board lies on each ledge",
);
pub(crate) const REFERENCE_BELOW: Bound = Bound::millimetres(
    "reference_below_mm",
    5_000,
    200_000,
    "from the reference up to slot 1",
);
pub(crate) const REACHED_FROM_UNDER: Bound = Bound::whole(
    "reached_from_under",
    "slots",
    0,
    40,
    "lowest slots reached from under the lift",
);
pub(crate) const WIDTH: Bound =
    Bound::millimetres("width_mm", 40_000, 600_000, "a width between the rails");
pub(crate) const SIDE_PLAY: Bound = Bound::millimetres(
    "side_play_mm",
    200,
    1_500,
    "width added so that a board runs free",
);
pub(crate) const GAP: Bound = Bound::millimetres("gap_mm", 1_000, 9_500, "between belt and rack");
pub(crate) const BELT: Bound =
    Bound::millimetres("length_mm", 200_000, 1_500_000, "length of a belt");
pub(crate) const END_BEAM_BEFORE: Bound = Bound::millimetres(
    "end_beam_before_mm",
    10_000,
    100_000,
    "from the end beam to the belt's end",
);
pub(crate) const MOUTH_TRAVEL: Bound = Bound::millimetres(
    "travel_mm",
    100,
    10_000,
    "lift travel with a board across a mouth",
);
pub(crate) const SPEED: Bound = Bound::whole("speed_mm_s", "mm/s", 1, 1_000, "speed of an axis");
pub(crate) const ACCELERATION: Bound = Bound::whole(
    "acceleration_mm_s2",
    "mm/s²",
    20,
    20_000,
    "acceleration of an axis",
);
pub(crate) const JERK: Bound = Bound::whole(
    "jerk_mm_s3",
    "mm/s³",
    100,
    1_000_000,
    "how fast the acceleration of an axis changes",
);
pub(crate) const BEAM_PLACE: Bound =
    Bound::millimetres("place_mm", -1_000_000, 2_000_000, "a place near the rack");
pub(crate) const BEAM_RANGE: Bound =
    Bound::millimetres("range_mm", 10_000, 1_000_000, "how far a beam reaches");
pub(crate) const REFLECTANCE: Bound =
    Bound::whole("reflectance", "%", 1, 100, "light that comes back");
pub(crate) const SIGNAL_OPEN: Bound = Bound::seconds(
    "signal_open_s",
    50_000,
    1_000_000,
    "how long a signal stays open",
);
pub(crate) const DECLARE_HOLD: Bound = Bound::seconds(
    "declare_hold_s",
    500_000,
    10_000_000,
    "how long the button is held",
);
pub(crate) const RELEASE_INTERVAL: Bound = Bound::seconds(
    "release_interval_s",
    0,
    600_000_000,
    "least time from one board sent to the next offer",
);
pub(crate) const ARRIVAL_TIME_OUT: Bound = Bound::seconds(
    "arrival_time_out_s",
    0,
    120_000_000,
    "how long a board is waited for",
);
pub(crate) const PART_MARGIN: Bound = Bound::millimetres(
    "part_margin_mm",
    0,
    20_000,
    "room kept free over tall parts",
);
pub(crate) const PART_HEIGHT: Bound =
    Bound::millimetres("part_height_mm", 0, 100_000, "height of a board's parts");
pub(crate) const BEAM_CLEARANCE: Bound = Bound::millimetres(
    "clearance_mm",
    0,
    50_000,
    "from the middle beam to a board at rest",
);
pub(crate) const PAST_MOUTH: Bound = Bound::millimetres(
    "past_mm",
    1_000,
    50_000,
    "how far past the rack's end a board runs before it is drawn back",
);
pub(crate) const INTERVAL: Bound = Bound::whole(
    "interval",
    "slots",
    1,
    rackproof_buffer::INTERVAL_MOST as i64,
    "every so many slots is used",
);
pub(crate) const LIGHT_REACH: Bound = Bound::millimetres(
    "light_reach_mm",
    10_000,
    1_000_000,
    "how far behind clear glass the light of the hall reaches",
);
pub(crate) const BOARDS: Bound = Bound::whole("boards", "kinds", 1, 8, "kinds of board");
pub(crate) const PRODUCTS: Bound = Bound::whole("products", "products", 1, 8, "stored products");
pub(crate) const BOARD_LENGTH: Bound =
    Bound::millimetres("length_mm", 50_000, 400_000, "length of a board");
pub(crate) const THICKNESS: Bound =
    Bound::millimetres("thickness_mm", 500, 5_000, "thickness of a board");
pub(crate) const STRAIN: Bound = Bound::whole("strain", "µε", 100, 50_000, "a strain of a board");
pub(crate) const SPREAD: Bound = Bound::millimetres(
    "torch_spread_mm_per_m",
    20_000,
    2_000_000,
    "half the torch's width at 1 m",
);
pub(crate) const RAIL_HEIGHT: Bound = Bound::millimetres(
    "rail_height_mm",
    0,
    20_000,
    "height of the fixed rail above the boards",
);
pub(crate) const PACE: Bound = Bound::seconds("pace_s", 100_000, 120_000_000, "time of a doing");
pub(crate) const SLOT: Bound = Bound::whole("slot", "", 1, 40, "a slot, 1 at the bottom");
pub(crate) const MINUTES: Bound = Bound::whole("minutes", "min", 1, 240, "time for the drill");
pub(crate) const MAJORS: Bound = Bound::whole(
    "majors",
    "breaches",
    0,
    10,
    "major breaches of an attempt that passes",
);
pub(crate) const NOT_SURE: Bound = Bound::whole(
    "not_sure",
    "slots",
    0,
    40,
    "slots left not sure at a time, in the proof",
);
// Charge and heat.
pub(crate) const BODY_VOLTS: Bound = Bound::whole(
    "body_volts",
    "V",
    0,
    30_000,
    "voltage of a body without straps or cord; 0 to leave charge out",
);
pub(crate) const VOLTS_LIMIT: Bound = Bound::whole(
    "volts_limit",
    "V",
    1,
    1_000,
    "voltage of a body that is allowed",
);
pub(crate) const BURN_DEGREES: Bound = Bound::whole(
    "burn_degrees",
    "°C",
    40,
    90,
    "temperature up to which a bare hand may hold a board",
);
// Faults.
pub(crate) const FAULT_AFTER: Bound = Bound::seconds(
    "after_s",
    100_000,
    3_600_000_000,
    "from the start until a fault comes",
);
pub(crate) const STEPS_LOST: Bound = Bound::millimetres(
    "lost_mm",
    10,
    50_000,
    "width that a move of the rails is short of",
);
pub(crate) const STRIP_WIDE: Bound =
    Bound::millimetres("wide_mm", 100, 20_000, "how wide a strip on the screw is");
pub(crate) const SLIP: Bound = Bound::whole(
    "percent",
    "%",
    1,
    99,
    "by how much less far boards come on belts that slip",
);
pub(crate) const SINK_SPEED: Bound = Bound::whole(
    "speed_mm_s",
    "mm/s",
    1,
    50,
    "how fast a lift sinks on a worn brake",
);
pub(crate) const SINK_BY: Bound = Bound::millimetres(
    "by_mm",
    500,
    1_000_000,
    "how far a lift sinks until its brake grips",
);
pub(crate) const BEAM_OFF: Bound = Bound::millimetres(
    "off_mm",
    -500_000,
    500_000,
    "how far the spot of a beam is off",
);
pub(crate) const BOARD_DEGREES: Bound =
    Bound::whole("degrees", "°C", 30, 150, "temperature of a warm board");
pub(crate) const BOARD_GROWN: Bound =
    Bound::millimetres("grown_mm", 0, 3_000, "how much wider a warm board is");
pub(crate) const BOARD_BOW: Bound = Bound::millimetres(
    "bow_mm",
    100,
    20_000,
    "how far a board is bowed along its length",
);
pub(crate) const BOARD_ASKEW: Bound = Bound::millimetres(
    "more_mm",
    100,
    20_000,
    "how much more width a board takes that lies askew",
);
pub(crate) const FAULTS: Bound = Bound::whole("faults", "faults", 0, 16, "faults of a drill");
pub(crate) const LATCHING: Bound = Bound::whole("latching", "alarms", 0, 8, "alarms that latch");
pub(crate) const WIDTH_OFFSET: Bound =
    Bound::millimetres("width_offset_mm", -5_000, 5_000, "added to every width");
pub(crate) const CONFIRM: Bound = Bound::seconds(
    "confirm_within_s",
    0,
    120_000_000,
    "how long the width sensor is waited for",
);
/// Times of a drill file are whole steps of so many µs, see `time_grid`, and so are their bounds.
pub(crate) const TIME_GRID: u32 = 100_000;
// Neighbours.
pub(crate) const UPSTREAM_BOARDS: Bound =
    Bound::whole("boards", "boards", 1, 40, "boards that upstream has in all");
pub(crate) const CYCLE: Bound = Bound::seconds(
    "cycle_s",
    100_000,
    3_600_000_000,
    "a neighbour's time from one board to the next",
);
pub(crate) const FIRST: Bound = Bound::seconds(
    "first_s",
    0,
    3_600_000_000,
    "from the start to a neighbour's first board, or first room",
);
pub(crate) const BOARD_NUMBER: Bound = Bound::whole(
    "number",
    "boards",
    1,
    40,
    "the number of a neighbour's board",
);
pub(crate) const OPENS_LATE: Bound = Bound::seconds(
    "opens_late_s",
    0,
    60_000_000,
    "from a board that left us until downstream's signal opens",
);
pub(crate) const DROPS_AFTER: Bound = Bound::seconds(
    "after_s",
    100_000,
    60_000_000,
    "from the start of a hand-over until a neighbour drops it",
);
pub(crate) const VARIANTS: Bound = Bound::whole("variants", "variants", 1, 64, "listed starts");
pub(crate) const SITE_WORDS: Bound =
    Bound::whole("site_words", "words", 0, 1_000, "words of the site");
pub(crate) const SITE_CHARACTERS: Bound = Bound::whole(
    "site_characters",
    "characters",
    1,
    400,
    "length of a word of the site",
);
