### The drill “left-inside”.

drill-left-inside = A board left inside
drill-left-inside-task =
    The line changes over from Wren to Kestrel. The count of the last product does not add up: one board is not where the papers say. It may have been left inside the buffer. It may not be the only one.
    Get every board out and put it into quarantine. Prove the rack empty. Only then change over.
    When the rails stand at the width of Kestrel, let upstream go on, write the log, and report.
drill-left-inside-cautions = This is a training aid. The manual of the machine, the risk assessment of the site, local codes and licensed practice come first. Where they ask for more than this drill, do more.
drill-left-inside-debrief =
    The controller knows what its beams saw and what it was told. It does not know what is inside. A board with a window in the line of the beam, a matt black board, or a board on a belt leaves no trace on the panel.
    Two ways prove a rack. Under lock, look into both halves of every slot, take out what is there, look again, and declare it empty. Or let the clear-out bring every slot to the belts, look along each, and answer for it. The first is quicker. Both are right.
    Whatever moves afterwards makes the looks void. Whoever reaches in makes them void too. Then look again: it costs seconds.

## Traps: how each tempts, and what the debrief says

trap-sweep-believed = The sweep runs through and sees no board. The panel offers to go on, and then the rails move. One press saves many minutes.
trap-sweep-believed-debrief = The sweep looks where its beams look, and no further. In this variant a board lay where they see nothing: matt black, or with its window in their line. “No board seen” and “no board there” are two statements. Only looks or answers make the second one.

trap-half-a-look = One lean into the rack shows a clean row of empty slots from top to bottom. It looks like the whole rack. The declare-empty button is two seconds away.
trap-half-a-look-debrief = Each lean shows one half of every slot. The board lay in the other half. A slot is seen empty when both halves are.

trap-belt-forgotten = The rack is proven, and the proof was hard work. The infeed belt is not the rack, and no question on the panel asks about it.
trap-belt-forgotten-debrief = The moving rail includes both belts. A board lay on the infeed belt, where no sweep looks. Look at both belts while upstream holds, right before the rails move.

## Milestones: what some good attempts meet

milestone-sweep-saw-a-board = The sweep saw a board
milestone-map-outlived-power = The slot map outlived the loss of power
milestone-sweep-saw-nothing = The sweep saw no board
milestone-board-taken-under-lock = A board was taken out under lock
milestone-every-slot-seen-empty = Every slot was seen empty, both halves
milestone-declared-empty = The rack was declared empty
milestone-slot-answered = A slot was answered for
milestone-board-came-to-the-end = The clear-out brought a board to the outfeed end
milestone-cleared-out = The clear-out was done
milestone-width-reached = The rails reached the new width
