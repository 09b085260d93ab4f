//! What cannot be in the geometry of a machine file: one thing changed in that of the first
//! machine.

/// What stands in the file, what is put in its place, and what is then said.
pub(super) const GEOMETRY: &[(&str, &str, &str)] = &[
    // The line meets the plane of the boards where it ends, at a height of nought.
    (
        "from_mm: [-20, 30, 12], at_mm: [150, 100, 0]",
        "from_mm: [-20, 30, 12], at_mm: [150, 220, 0]",
        "The infeed beam meets the plane of the boards 220 mm from the fixed rail, where none of \
         these boards lies: no board can break it. Expected: A place from 0 to less than 220 mm, \
         the width of the widest board.",
    ),
    (
        "from_mm: [520, 30, 12], at_mm: [400, 100, 0]",
        "from_mm: [520, 30, 12], at_mm: [400, -0.001, 0]",
        "The outfeed beam meets the plane of the boards -0.001 mm from the fixed rail, where none \
         of these boards lies",
    ),
    (
        "name: \"raven\", length_mm: 180.0, width_mm: 160.0, thickness_mm: 1.6",
        "name: \"raven\", length_mm: 180.0, width_mm: 300.001, thickness_mm: 1.6",
        "The board “raven” is 300.001 mm wide: it lies between the rails at no width that they \
         reach. Expected: A width from 47 mm, at which it just lies on both ledges, to 300 mm.",
    ),
    (
        "name: \"raven\", length_mm: 180.0, width_mm: 160.0, thickness_mm: 1.6",
        "name: \"raven\", length_mm: 180.0, width_mm: 46.999, thickness_mm: 1.6",
        "The board “raven” is 46.999 mm wide",
    ),
    (
        "along_mm: [40, 140]",
        "along_mm: [0, 180]",
        "The window goes through its board from edge to edge: the board would be in pieces. \
         Expected: A window that is shorter than 180 mm along the flow and narrower than 160 mm \
         across it.",
    ),
    (
        "emergency_stops: [Panel, Infeed]",
        "emergency_stops: []",
        "An emergency stop is reached from no place. Expected: At least one place, such as Panel.",
    ),
    (
        "[375, -500, 500]",
        "[375, 0, 500]",
        "The eye that leans in to the outfeed side is 0 mm behind the fixed rail, inside the rack. \
         Expected: A place below 0: the hatch is before the fixed rail.",
    ),
    (
        "post_at_mm: -40.0",
        "post_at_mm: 0.0",
        "The posts of the hatch stand 0 mm behind the fixed rail, inside the rack.",
    ),
    (
        "[[-450, 80, 36], [1050, 80, 36]]",
        "[[0, 80, 36], [1050, 80, 36]]",
        "The eye at the infeed mouth is 0 mm along the flow, not outside the rack at that end. \
         Expected: A first place below 0, before the rack.",
    ),
    (
        "[[-450, 80, 36], [1050, 80, 36]]",
        "[[-450, 80, 36], [500, 80, 36]]",
        "The eye at the outfeed mouth is 500 mm along the flow, not outside the rack at that end. \
         Expected: A first place of more than 500 mm, behind the rack.",
    ),
    (
        "[[-450, 80, 36], [1050, 80, 36]]",
        "[[-450, 80, 36], [1050, 80, 0]]",
        "The eye at the outfeed mouth is 0 mm above the slot at the belts: from there no board is \
         seen. Expected: A third place of more than 0 mm.",
    ),
    (
        "across_mm: [12, 45]",
        "across_mm: [12, 300]",
        "A look tests places from 12 mm to 300 mm from the fixed rail, and not all of them lie in \
         the rack. Expected: Two places from 0 to less than 300 mm, the greatest width between the \
         rails.",
    ),
    (
        "across_mm: [12, 45]",
        "across_mm: [-1, 45]",
        "A look tests places from -1 mm to 45 mm from the fixed rail",
    ),
    (
        "across_mm: [12, 45]",
        "across_mm: [160, 165]",
        "No look through the hatch shows the board “raven” where it rests in the infeed half of a \
         slot: it covers none of the places that a look tests. Expected: A board that covers one \
         of them: 62.5, 187.5 mm along the flow, 160, 165 mm from the fixed rail.",
    ),
];
