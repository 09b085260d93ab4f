### The drill “left-inside-rowan”.

drill-left-inside-rowan = Left inside, no question asked
drill-left-inside-rowan-task =
    The line changes over from Wren to Kestrel. The count of the last product does not add up: one board is not where the papers say. It may have been left inside the buffer. It may not be the only one.
    This machine does not ask. Once the changeover is started it sweeps, and if the sweep sees no board the rails open at once. Then the unit runs on by itself. Kestrel has tall parts and uses every second slot.
    Get every board out and put it into quarantine. Prove the rack empty. Only then start the changeover. When the rails stand at the width of Kestrel, let upstream go on, write the log, and report.
drill-left-inside-rowan-cautions = This is a training aid. The manual of the machine, the risk assessment of the site, local codes and licensed practice come first. Where they ask for more than this drill, do more.
drill-left-inside-rowan-debrief =
    On a machine that asks, the sweep may come first, and the question is the moment to stop and think. On this one there is no such moment: the start is the last word, and the sweep is only a second witness to what you have proved already.
    So all that the rails need comes before it: the rack proven, upstream holding, both belts seen empty, both mouths seen free.
    The rails open first. A board that is still there falls, off both ledges at once and onto whatever lies below.
    Sweep and clear-out go where the loaded product goes. With Kestrel loaded they pass over every second slot. Choose the clear-out while Wren is loaded: then it asks about all of them.

## Traps: how each tempts, and what the debrief says. “half-a-look” has its texts with “left-inside”.

trap-sweep-first = The machine looks for itself. One press, and if a board is there the sweep will find it and stop. Looking first takes ten minutes.
trap-sweep-first-debrief = The sweep did not see the board: it lay with its window in the line of the beam, or in a slot that Kestrel does not use and the sweep does not visit. The rails moved at once. Here nothing stands between a sweep that saw nothing and rails that open.

trap-every-second-slot = Kestrel is loaded, and the clear-out is on offer there as well. It comes to its end, the slot map shows every slot empty, and it took half the time.
trap-every-second-slot-debrief = With Kestrel loaded the clear-out asks about every second slot. The board lay in a slot between. The map shows as empty what nobody was asked about. A slot is proven by an answer, not by the end of a clear-out.

trap-belt-not-asked = The rack is proven, and the proof was hard work. The infeed belt is not the rack, and no question on the panel asks about it, or about anything.
trap-belt-not-asked-debrief = The moving rail includes both belts. A board lay on the infeed belt, where no sweep looks, and fell when the rails opened. Look at both belts while upstream holds, right before the start: afterwards there is no other moment.

## Milestones: what some good attempts meet. The others have their texts with “left-inside”.

milestone-proven-before-start = The rack was proven before the one start
milestone-ran-on-by-itself = The unit ran on by itself
