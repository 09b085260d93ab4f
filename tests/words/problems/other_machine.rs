//! What is broken in the file of the machine with the other choices.

/// What stands in the file, what is put in its place, and what is then said.
pub(super) const OTHER_MACHINE: &[(&str, &str, &str)] = &[
    (
        "at_mm: 300.0, clearance_mm: 6.0",
        "at_mm: 295.0, clearance_mm: 6.0",
        "The middle beam at 295 mm is outside the rack or not clear of a board that rests in one \
         of the halves. Expected: From 296 mm, where a board in the infeed half ends with the \
         clearance, to less than 584 mm.",
    ),
    (
        "middle_beam: MiddleBeam(at_mm: 300.0, clearance_mm: 6.0, reflectance: 1),",
        "",
        "Product “wren” stores two boards in one slot, and the machine has no middle beam to stop \
         the second one by. Hint: Give storing a middle_beam, or write tandem: false.",
    ),
    (
        "interval: 3, tandem: false",
        "interval: 3, tandem: true",
        "Product “plover”: its board is 285 mm long. Two in one slot would not both lie in the \
         rack and stop clear of the middle beam. Expected: A board of at most 280 mm. Hint: The \
         length follows from the rack's length, the clearance of boards at rest, and the middle \
         beam's place and clearance. One board in each slot fits: tandem: false.",
    ),
    (
        "interval: 2, tandem: true",
        "interval: 1, tandem: true",
        "Product “kestrel”: one board with its parts and the margin needs 21.6 mm, and its slots \
         are 12 mm apart. Expected: An interval of at least 2.",
    ),
    (
        "above_mm: 25.0",
        "above_mm: 100.0",
        "Product “plover”: one board with its parts and the margin needs 108 mm, and its slots are \
         36 mm apart. Expected: A pitch at which an interval of at most 8 is enough.",
    ),
    (
        "from_mm: [-18, 40, 9], to_mm: [225, 130, -2]",
        "from_mm: [-118, 40, 9], to_mm: [-25, 130, -2]",
        "The infeed beam meets the plane of the boards -41.91 mm along the flow, outside the rack: \
         no board in a slot can break it. Expected: A place from 0 to 600 mm.",
    ),
    (
        "from_mm: [-18, 40, 9], to_mm: [225, 130, -2]",
        "from_mm: [0, 40, 9], to_mm: [-0.5, 130, 0]",
        "The infeed beam meets the plane of the boards -0.5 mm along the flow, outside the rack: \
         no board in a slot can break it. Expected: A place from 0 to 600 mm.",
    ),
    // All but level: further away than can be told.
    (
        "infeed: Pair(from_mm: [-18, 40, 9], to_mm: [225, 130, -2])",
        "infeed: Beam(from_mm: [-1000, 0, 2000], at_mm: [2000, 0, 1999.999], range_mm: 99,
            reflectance: 9)",
        "The infeed beam meets the plane of the boards 2147483.647 mm along the flow, outside the \
         rack: no board in a slot can break it. Expected: A place from 0 to 600 mm.",
    ),
    (
        "infeed: Pair(from_mm: [-18, 40, 9], to_mm: [225, 130, -2])",
        "infeed: Beam(from_mm: [-18, 40, -1], at_mm: [225, 130, -2], range_mm: 99, reflectance: 9)",
        "The infeed beam stands below the plane of the boards and looks down: it sees no board at \
         all. Expected: A start above the boards: third place 0 or more.",
    ),
    (
        "to_mm: [225, 130, -2]",
        "to_mm: [225, 130, 2]",
        "The line from the sender to the receiver does not cross the plane in which boards lie. \
         Expected: A sender above the boards (third place over 0) and a receiver in their plane or \
         below it (third place 0 or less).",
    ),
    (
        "infeed: Pair(from_mm: [-18, 40, 9], to_mm: [225, 130, -2])",
        "infeed: Beam(from_mm: [-18, 40, 9], at_mm: [225, 130, -2], range_mm: 99, reflectance: 9)",
        "The infeed beam ends before it meets the plane of the boards: its range is 99 mm, so it \
         sees no board at all. Expected: A range of at least 212.207 mm.",
    ),
];
