### The drill “blocked-downstream”.

drill-blocked-downstream = Downstream is blocked
drill-blocked-downstream-task =
    You take over the buffer at the start of the shift. The unit is stopped, and boards of the last shift are in the rack. The rack has filled up because nothing went out any more.
    Find out why. Let the boards go out in their order, by the belts, to a machine that can take them.
    When the rack is empty, stop the unit and make it ready for the next start, let upstream go on, write the log, and report.
drill-blocked-downstream-cautions = This is a training aid. The manual of the machine, the risk assessment of the site, local codes and licensed practice come first. Where they ask for more than this drill, do more.
drill-blocked-downstream-debrief =
    Machine Ready says that a contact is closed. It does not say who closed it. A jumper in a plug closes it for nobody, and a board that is sent then is pushed against a machine that stands.
    A rack that fills up is doing its work. It fills because the machine behind it takes nothing. Look at that machine, and talk to the people there: they know why they stand, and when they go on.
    Once they go on, the rack drains by itself, the oldest board first. Boards that are fetched by hand are out of their order, and the slot map still counts them.

## Traps: how each tempts, and what the debrief says

trap-lamp-believed = The lamp of Machine Ready is lit. Somebody downstream is ready, it says. One press, and the rack drains.
trap-lamp-believed-debrief = Downstream stood, and a jumper kept its contact closed. The lamp shows the contact. Whether anybody takes a board is seen at the outfeed, and heard from the people there.

trap-fetched-by-hand = Nothing goes out, and the boards are needed downstream. The rack is right here: two boards are fetched by hand in a minute.
trap-fetched-by-hand-debrief = The slot map still counts what was taken by hand, and the machine will send an empty slot. The order is lost, and with it the trace of each board. Boards leave by the belts.

## Milestones: what some good attempts meet

milestone-neighbour-seen = It was seen that a neighbour stands
milestone-downstream-told = Downstream was asked, and answered
milestone-board-stored = A board from upstream was stored
milestone-board-sent = A board was sent
