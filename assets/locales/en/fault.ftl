### Faults: what is seen, heard and felt of them, what they harm, and what may be done. A site may put its own words here.

## What can be done

intent-wear-gloves = Put on gloves against heat
intent-clear-screw = Feel along the rails' screw and clear it
intent-wipe-infeed-lenses = Wipe the lens at the infeed mouth
intent-wipe-outfeed-lenses = Wipe the lenses at the outfeed mouth and at the belt's end
intent-clear-upstream-plug = Look over upstream's plug, and take out what does not belong there
intent-clear-downstream-plug = Look over downstream's plug, and take out what does not belong there

## Cues

cue-motor-hums = A motor hums softly, and its rails stand still.
cue-brake-ticks = The lift's brake ticks.
cue-strip-on-screw = A strip of board lies on the rails' screw.
cue-screw-cleared = A strip lay on the screw. It is off now.
cue-screw-was-clear = Nothing lies on the screw.
cue-infeed-belt-slips = The infeed belt runs, and slips under its board.
cue-outfeed-belt-slips = The outfeed belt runs, and slips under its board.
cue-lens-filmed = A film lies on the lens of the { $beam }.
cue-beam-out-of-line = The { $beam } stands out of line. Its spot is not where it should be.
cue-beam-lit = The lamp of the { $beam } is lit, and nothing is before it.
cue-lenses-wiped = A film was on a lens. It is clean now.
cue-lenses-were-clean = The lenses here were clean.
cue-lift-sinks = The lift comes down, and nothing drives it.
cue-lift-jerks = The lift jerks and stands, and its drive goes off.
cue-lamps-differ = The lamps at the two ends of the cable for { $signal } differ.
cue-heat = The board is warm: about { $degrees } °C.
cue-bowed = { $place }: seen edge-on, the board is bowed.
cue-upstream-stands = The machine upstream stands.
cue-downstream-stands = The machine downstream stands.
cue-jumper-upstream = A jumper is in upstream's plug. Its Board Available is closed whether a board is there or not.
cue-jumper-downstream = A jumper is in downstream's plug. Its Machine Ready is closed whether there is room or not.
cue-downstream-takes-always = Behind the outfeed runs a plain link without a signal of its own. It takes whatever comes.
cue-test-box-upstream = A test box hangs in upstream's socket. It says that a board is there, and no machine gives one.
cue-test-box-downstream = A test box hangs in downstream's socket. It says that there is room, and no machine takes a board.
cue-no-machine-upstream = No machine stands upstream, and nothing hangs in its socket.
cue-no-machine-downstream = No machine stands downstream, and nothing hangs in its socket.
cue-jumper-out-upstream = A jumper was in upstream's plug. It is out: from now on Board Available says whether a board is there.
cue-jumper-out-downstream = A jumper was in downstream's plug. It is out: from now on Machine Ready says whether there is room.
cue-test-box-off-upstream = The test box is off upstream's socket. Board Available is open: no machine is there to close it.
cue-test-box-off-downstream = The test box is off downstream's socket. Machine Ready is open: no machine is there to close it.
cue-plug-in-order-upstream = Upstream's plug is in order, its shield on pin { $pin }. Nothing was taken out.
cue-plug-in-order-downstream = Downstream's plug is in order, its shield on pin { $pin }. Nothing was taken out.
cue-other-width-upstream = The rails of the machine upstream stand at another width than ours.
cue-other-width-downstream = The rails of the machine downstream stand at another width than ours.
cue-fed-by-hand = No machine upstream: a person lays each board on our belt and presses a button.
cue-failed-lamp-lit = Upstream's lamp for a failed board is lit. On this line its Board Available closes as well.
cue-failed-lamp-lit-alone = Upstream's lamp for a failed board is lit. On this line its Board Available stays open for such a board.
cue-lamp-flickers = The lamp of downstream's Machine Ready flickers.
cue-turned = { $place }: the board lies turned by 90 degrees.
cue-board-waits-upstream = A board stands at upstream's exit, and upstream's Board Available is open.
cue-stands-against-rails = A board stands at upstream's exit, against our rails: it is wider than they stand apart.
cue-askew = { $place }: the board lies askew, one edge on the divider.

## Beams and signals by name

beam-infeed-mouth = beam at the infeed mouth
beam-outfeed-mouth = beam at the outfeed mouth
beam-end = beam at the outfeed end
contact-upstream-available = upstream's Board Available
contact-downstream-ready = downstream's Machine Ready
contact-own-ready = our Machine Ready
contact-own-available = our Board Available

## Alarms

alarm-rails-no-zero = The rails did not find their zero.
alarm-lift-drive = The lift's drive lost its count.

## Harm

harm-lift-fell = The lift fell, and struck at { $speed } mm/s. The machine stays isolated until it is inspected.
harm-caught-under-lift = The lift came down on a hand, at { $speed } mm/s. The person is hurt. The attempt ends here: first aid, and the line lead.
harm-charged = { $board }: touched by somebody with { $number } V on the body, limit { $limit } V. It looks good, but a part of it may fail later. Quarantine is the place for it.
harm-burned = { $board }: at { $number } °C in a bare hand, limit { $limit } °C. The hand is burned: cool it under water, and tell the line lead.

debrief-harm-lift-fell = Harm: the lift fell
debrief-harm-caught-under-lift = Harm: a hand caught under the lift
debrief-harm-charged = Harm: { $board } charged
debrief-harm-burned = Harm: a hand burned

## Hidden facts, and what the environment chose

fact-lift-sank = The lift came down on its own.
chance-goes-wrong = From here on something is wrong: { $name }.

## Problems of a file

problem-odd-boards = With its odd boards this drill has { $kinds } kinds of board.
expected-odd-boards = At most { $most } odd boards on this machine.
problem-strip-beyond-travel = The strip does not lie within the travel of the rails.
expected-strip = It begins above { $least } mm and ends below { $most } mm.
