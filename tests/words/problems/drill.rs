//! The first drill with something broken in it.

/// What stands in the drill file, what is put in its place, and what is then said.
pub(super) const DRILL: &[(&str, &str, &str)] = &[
    (
        "downstream_ready: false",
        "downstream_ready: false, downstream: Downstream(works: Stopped)",
        "Here “downstream_ready” says when downstream's Machine Ready is closed, and “downstream” \
         says it too. Hint: Leave “downstream_ready” out where “downstream” is described.",
    ),
    (
        "leftover: \"wren\"",
        "upstream: Upstream(boards: 2, works: Chance)",
        "Upstream is described, and no kind of board is left over there. \
         Expected: The kind of its boards under “leftover”.",
    ),
    (
        "downstream_ready: false",
        "downstream: Downstream(works: Chance, opens_late_s: 1.0)",
        "Downstream's signal opens later than its next board may come. \
         Expected: At most its cycle. Only a neighbour that works by the clock opens late.",
    ),
    (
        "leftover: \"wren\"",
        "leftover: \"wren\", upstream: Upstream(boards: 2, works: Every(cycle_s: 20.25))",
        "20.25 s is no time of a drill. Expected: Times of a drill in whole steps of \
         0.1 s: 20.2 or 20.3. Hint: Clocks of neighbours and faults that never meet the same way \
         twice give a proof new states for ever. For a trainee rounded ones are the same.",
    ),
    (
        "leftover: \"wren\"",
        "leftover: \"wren\", upstream: Upstream(boards: 2,
            works: Every(cycle_s: 20.0, first_s: 0.01))",
        "0.01 s is no time of a drill.",
    ),
    (
        "leftover: \"wren\"",
        "leftover: \"wren\", upstream: Upstream(boards: 2, works: Chance,
            drops: Board(number: 1, after_s: 0.725))",
        "0.725 s is no time of a drill.",
    ),
    (
        "downstream_ready: false",
        "downstream: Downstream(works: Every(cycle_s: 25.0), opens_late_s: 2.000001)",
        "2.000001 s is no time of a drill.",
    ),
    (
        "next: \"kestrel\"",
        "faults: [Fault(name: \"brake\", what: BrakeFails, comes: After(60.05))],
            next: \"kestrel\"",
        "60.05 s is no time of a drill.",
    ),
    (
        "machine: \"alder-16\"",
        "machine: \"alder-17\"",
        "There is no machine “alder-17”. Hint: A machine has the name of its file: alder-17.ron.",
    ),
    (
        "slot: 16, half: Outfeed",
        "slot: 17, half: Outfeed",
        "There is no slot 17 in this rack. Expected: A slot from 1 to 16.",
    ),
    (
        "\"green-low\", traps: [\"half-a-look\"]",
        "\"green-low\", traps: []",
        "The variant “green-low” lists no trap. Expected: At least one trap in each variant.",
    ),
    (
        "\"green-low\", traps: [\"half-a-look\"]",
        "\"green-low\", traps: [\"half-a-look\", \"belt-forgotten\"]",
        "The variant “green-low” lists the trap “belt-forgotten”, but its boards do not arm it.",
    ),
    (
        "mode: Production)",
        "mode: Production, settings: Settings(width_check: true))",
        "The machine refuses a setting. Expected: Settings that this machine takes: \
         at most 16 slots, and nothing for a fitting that is not there.",
    ),
    (
        "mode: Production)",
        "mode: Production, left: Left(by: \"17\", asked: 2,
            said: [Said(slot: 2, answer: Taken)]))",
        "The panel asks about slot 2, and that was answered for.",
    ),
    (
        "next: \"kestrel\"",
        "early: [\"board-put-in\", \"board-put-in\"], next: \"kestrel\"",
        "The name “board-put-in” is given twice.",
    ),
    (
        "next: \"kestrel\"",
        "panel: [Edits], next: \"kestrel\"",
        "“Edit”",
    ),
    (
        "\"green-low\", traps: [\"half-a-look\"]",
        "\"green-low\", traps: []",
        "The boards of the variant “green-low” arm the trap “half-a-look”, but it is not listed.",
    ),
];
