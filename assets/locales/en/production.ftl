# Storing and sending: what is seen of it.

sign-board-passed = Slot { $slot }: a board went straight through to downstream.
sign-board-ran-past = Slot { $slot }: its board ran a little past the outfeed mouth, the beam there saw it, and the belts draw it back.

## What a machine file cannot say of it

problem-pair-misses-boards = The line from the sender to the receiver does not cross the plane in which boards lie.
expected-pair-crosses-boards = A sender above the boards (third place over 0) and a receiver in their plane or below it (third place 0 or less).
problem-beam-outside-rack = The { $side } beam meets the plane of the boards { $at } mm along the flow, outside the rack: no board in a slot can break it.
expected-beam-in-rack = A place from 0 to { $most } mm.
problem-beam-below = The { $side } beam stands below the plane of the boards and looks down: it sees no board at all.
expected-beam-above = A start above the boards: third place 0 or more.
problem-beam-short = The { $side } beam ends before it meets the plane of the boards: its range is { $range } mm, so it sees no board at all.
expected-beam-range = A range of at least { $least } mm.
problem-beam-beside-boards = The { $side } beam meets the plane of the boards { $at } mm from the fixed rail, where none of these boards lies: no board can break it.
expected-beam-over-boards = A place from 0 to less than { $most } mm, the width of the widest board.
problem-middle-beam-place = The middle beam at { $at } mm is outside the rack or not clear of a board that rests in one of the halves.
expected-middle-beam-place = From { $least } mm, where a board in the infeed half ends with the clearance, to less than { $most } mm.
problem-tandem-without-beam = Product “{ $product }” stores two boards in one slot, and the machine has no middle beam to stop the second one by.
hint-tandem-without-beam = Give storing a middle_beam, or write tandem: false.
problem-tandem-too-long = Product “{ $product }”: its board is { $length } mm long. Two in one slot would not both lie in the rack and stop clear of the middle beam.
expected-tandem-length = A board of at most { $most } mm.
hint-tandem-too-long = The length follows from the rack's length, the clearance of boards at rest, and the middle beam's place and clearance. One board in each slot fits: tandem: false.
problem-interval-too-small = Product “{ $product }”: one board with its parts and the margin needs { $height } mm, and its slots are { $room } mm apart.
expected-interval = An interval of at least { $least }.
expected-pitch = A pitch at which an interval of at most { $most } is enough.
