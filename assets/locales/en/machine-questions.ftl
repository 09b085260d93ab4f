### What the command `machine` asks about each figure and each choice of a machine file.
### An id is made from the fields on the way to the value: ask-measure-rack-pitch-mm, or from the
### last of them alone: ask-measure-speed-mm-s. A figure without a text here is told by its bound.

## Parts of the file

ask-part-rack = Rack
ask-part-rails = Rails
ask-part-belts = Belts and mouths
ask-part-mouth = What a mouth does to a board
ask-part-axes = Axes
ask-part-beams = Beams
ask-part-times = Times
ask-part-behaviours = Behaviours
ask-part-boards = Boards
ask-part-products = Products
ask-part-hall = Hall and person

## What it is, where the bound alone does not say it

ask-what-pitch-mm = slot pitch: from one slot to the next
ask-what-gap-mm = gap between a belt and the rack
ask-what-infeed-mm = length of the infeed belt
ask-what-outfeed-mm = length of the outfeed belt
ask-what-least-mm = least width between the rails
ask-what-most-mm = greatest width between the rails
ask-what-products-width-mm = width stored for this product
ask-what-boards-width-mm = width of this board
ask-what-bent-after-mm = lift travel that bends a board across a mouth beyond its limit
ask-what-sheared-after-mm = lift travel that cuts a board across a mouth
ask-what-braking-mm-s2 = how hard the axis brakes, at least as hard as it starts
ask-what-from-mm = where the beam starts: x along the flow from the rack’s infeed end, y from the fixed rail, z up from the belt
ask-what-at-mm = where the beam looks to, in the same order: x, y, z
ask-what-along-mm = where the window in the board begins and ends along the flow, from its leading edge
ask-what-across-mm = from where to where, across the flow, a place must be seen
ask-what-window-across-mm = where the window in the board begins and ends across the flow, from the fixed rail
ask-what-reflectance = the light that comes back from the board, in hundredths
ask-what-infeed-reflectance = the reflectance that the infeed beam needs, in hundredths
ask-what-outfeed-reflectance = the reflectance that the outfeed beam needs, in hundredths
ask-what-end-reflectance = the reflectance that the end beam needs, in hundredths
ask-what-strain-limit = strain at which solder joints crack
ask-what-strain-break = strain at which the board breaks
ask-what-machine-ready = when Machine Ready to upstream is closed
ask-what-rails-zero = which way the rails go first, to find their zero
ask-what-sweep-seen = what the controller still trusts after its sweep saw a board
ask-what-rails-asked = whether the panel asks before the rails move
ask-what-runs-after-changeover = whether the machine runs by itself after a changeover
ask-what-whole-cycle-if-same = whether the whole cycle runs when nothing changed
ask-what-panel-reach = a place from which the panel is reached
ask-what-emergency-stops = a place with an emergency stop
ask-what-hatch-eyes-mm = where the eye is that leans in at the hatch: x, y, z; first to the infeed side, then to the outfeed side
ask-what-mouth-eyes-mm = where the eye is that bends down at a mouth: x, y, z; first infeed, then outfeed
ask-what-posts-mm = where a post at the hatch begins and ends along the flow
ask-what-post-at-mm = how far the posts stand from the fixed rail; a minus is towards the hatch
ask-what-walk-s = walking from one place to the next
ask-what-look-mouth-s = a look along a belt and into the slot behind it
ask-what-look-hatch-s = a look into every slot from one side of the hatch
ask-what-press-s = pressing a button
ask-what-handle-s = one thing done with the hands
ask-what-talk-s = talking to a neighbour or the line lead
ask-what-write-s = writing into the log

## How to find it out

ask-measure-any = From the machine’s manual or its plate. Where neither says it, ask its maker.
ask-measure-any-length = With a steel rule or a caliper, the machine at rest, the isolator off and locked where hands go in. The machine’s manual goes first.
ask-measure-any-time = With a stopwatch, three times, from outside the guard. Take the middle one. The machine’s manual goes first.
ask-measure-any-choice = From the machine’s manual, or watch the machine with an empty rack and the hatch shut.
ask-measure-slots = Count the slots from the bottom, hatch shut, by torch. The manual gives the same number, else ask which of them the controller visits.
ask-measure-pitch-mm = The manual first. Else with a caliper, isolator off and locked, prop set: from the top of one ledge to the top of the tenth above it, over ten.
ask-measure-rack-length-mm = The manual first. Else with a steel rule along a ledge, isolator off and locked, prop set: from the infeed end of the rack to its outfeed end.
ask-measure-rest-clearance-mm = Store a spare board, then isolator off and locked, prop set: with a steel rule from the board’s edge to the middle of the slot.
ask-measure-ledge-mm = With a caliper’s depth rod, isolator off and locked, prop set: how deep a ledge is from the side wall.
ask-measure-reference-below-mm = The manual first. Else read the lift’s position at slot 1 on the panel, or measure its way with a steel rule from outside the guard.
ask-measure-reached-from-under = Isolator off and locked, prop set: count the slots that your hand reaches with your arm under the lift.
ask-measure-least-mm = The manual first. Else move the rails to their least width from the panel, then isolator off and locked: with a caliper between the rails, at both ends.
ask-measure-most-mm = The manual first. Else move the rails to their greatest width from the panel, then isolator off and locked: with a steel rule between the rails, at both ends.
ask-measure-side-play-mm = From the page of settings. To check it: isolator off and locked, a feeler gauge between a known board and the moving rail.
ask-measure-gap-mm = With a feeler gauge or a caliper, isolator off and locked: between the end of the belt and the rack. IPC-SMEMA-9851 allows 9.5 mm.
ask-measure-infeed-mm = With a steel rule along the belt, isolator off and locked: from end roller to end roller.
ask-measure-outfeed-mm = With a steel rule along the belt, isolator off and locked: from end roller to end roller.
ask-measure-end-beam-before-mm = With a steel rule, isolator off and locked: from the middle of the end beam to the end of the outfeed belt.
ask-measure-bent-after-mm = Not to be tried at a machine. Keep the figure of the file, or ask the board’s maker what bow it bears.
ask-measure-sheared-after-mm = Not to be tried at a machine. Keep the figure of the file: it only has to be more than the travel that bends.
ask-measure-speed-mm-s = From the manual or the page of settings. Else time a long move with a stopwatch from outside the guard, and divide way by time.
ask-measure-acceleration-mm-s2 = From the manual or the page of settings. It cannot be read with a stopwatch: ask the machine’s maker.
ask-measure-braking-mm-s2 = From the manual. It is the braking of a stop in an emergency: ask the machine’s maker, or keep at least the acceleration.
ask-measure-from-mm = With a steel rule, isolator off and locked: from the rack’s infeed end, the fixed rail and the top of the belt to the lens.
ask-measure-at-mm = Isolator off and locked: move a white card along the slot until the spot of light shows on it, and measure to the spot.
ask-measure-range-mm = From the plate of the beam or its manual. To check it: move a white card away along the beam until its lamp goes out.
ask-measure-reflectance = From the manual of the beam or of the board’s mask. A white card has 90, a green board about 45, matt black about 4.
ask-measure-end-reflectance = From the manual of the beam. A white card has 90, a green board about 45, matt black about 4.
ask-measure-signal-open-s = From the manual. IPC-SMEMA-9851 asks for at least 50 ms. It cannot be read with a stopwatch.
ask-measure-declare-hold-s = With a stopwatch, in a proven empty rack and with the lead’s leave: from the press to the panel’s answer. The manual goes first.
ask-measure-machine-ready = Watch the lamp or the page of signals with an empty rack: is Machine Ready closed before upstream offers a board, or only after.
ask-measure-rails-zero = From the manual. Else watch one changeover with a proven empty rack, hatch shut: do the rails first close or first open.
ask-measure-sweep-seen = From the manual. Else leave a spare board inside, sweep, and read which slots the map then shows as unknown.
ask-measure-rails-asked = Watch one changeover with a proven empty rack: does the panel ask before the rails move.
ask-measure-runs-after-changeover = Watch one changeover with a proven empty rack: does the machine wait in Idle, or run.
ask-measure-whole-cycle-if-same = Load the product that is loaded already, with a proven empty rack: does the cycle run, or is nothing done.
ask-measure-boards-length-mm = With a steel rule or from the board’s drawing: along the flow.
ask-measure-boards-width-mm = With a caliper or from the board’s drawing: across the flow, at both ends.
ask-measure-thickness-mm = With a caliper, on the bare edge of the board, or from its drawing.
ask-measure-strain-limit = From the board’s maker or your own strain tests. Where nobody knows, keep the figure of the file.
ask-measure-strain-break = From the board’s maker. Where nobody knows, keep the figure of the file. Scored boards break early.
ask-measure-along-mm = With a steel rule or from the board’s drawing: from its leading edge to where the window begins, and to where it ends.
ask-measure-window-across-mm = With a steel rule or from the board’s drawing: from the edge at the fixed rail to where the window begins, and to where it ends.
ask-measure-products-width-mm = Read it from the product’s page on the panel, and measure the board with a caliper. If the two differ, tell the setter.
ask-measure-panel-reach = Stand at each place and reach for the panel without taking a step.
ask-measure-emergency-stops = Walk round the machine and note each emergency stop, and from where a hand reaches it.
ask-measure-hatch-eyes-mm = Isolator off and locked, hatch open: somebody leans in as for a look, another measures to the eye with a steel rule.
ask-measure-mouth-eyes-mm = From outside the guard: somebody bends down as for a look, another measures to the eye with a steel rule.
ask-measure-sight-across-mm = Isolator off and locked: with a steel rule from the fixed rail, how much of a board can be seen from the hatch at all.
ask-measure-torch-spread-mm-per-m = Shine the torch at a wall from 1 m away and measure half the width of the bright spot.
ask-measure-posts-mm = Isolator off and locked, hatch open: with a steel rule from the rack’s infeed end to where the post begins, and to where it ends.
ask-measure-post-at-mm = Isolator off and locked, hatch open: with a steel rule from the fixed rail out to the posts.
ask-measure-rail-height-mm = With a caliper’s depth rod, isolator off and locked: from the top of a board to the top of the fixed rail.
ask-measure-walk-s = With a stopwatch: one person at their own pace, three times. Take the middle one.
ask-measure-look-mouth-s = With a stopwatch: one person who looks with care, three times. Take the middle one.
ask-measure-look-hatch-s = With a stopwatch, isolator off and locked: one person who looks into every slot with a torch. Take the middle of three.
ask-measure-press-s = With a stopwatch: ten presses in a row, over ten.
ask-measure-handle-s = With a stopwatch, isolator off and locked: one person takes one board out with care. Take the middle of three.
ask-measure-talk-s = With a stopwatch: one question to a neighbour and the answer. Take the middle of three.
ask-measure-write-s = With a stopwatch: one entry in the site’s own log. Take the middle of three.

## Why it counts

ask-why-any = The drills run on this figure. One that differs from the machine in the hall teaches what is not so there.
ask-why-rack = The rack decides which slots there are, which boards fit and what an eye can see. A slot that is missing here is a slot that nobody learns to look into.
ask-why-rails = The rails crush a board when they close and drop it when they open. At which width that happens follows from these figures.
ask-why-belts = The moving rail includes both belts, and a board across a mouth lies in the way of the lift. Whether one can lie there follows from these lengths.
ask-why-mouth = A lift that moves with a board across a mouth first bends it, then cuts it. These figures say how soon.
ask-why-axes = How long each move takes, and how far an axis still goes after a stop, follows from these figures. Times in a drill are only as right as they are.
ask-why-beams = What a beam sees is computed from where it looks, and so is what it misses. Every trap of an unseen board rests on this.
ask-why-times = Signals and the hold of the guarded button take their time. A trainee learns to wait as long as here.
ask-why-behaviours = Makers and sites differ here. A habit that is right at one machine does harm at another.
ask-why-boards = What a board is like decides whether beams see it, whether it falls between the rails and when it breaks.
ask-why-products = The width of a product is where the rails go. A wrong one crushes or drops.
ask-why-hall = What can be reached and seen from where decides what a look proves, and the pace decides how long a job takes.
ask-why-rails-zero = Rails that close first crush a board that was left inside. Rails that open first drop it.
ask-why-sweep-seen = What the map still says after a sweep is what a trainee is tempted to believe.

## What can be chosen

ask-choice-yes = yes
ask-choice-no = no
ask-choice-machine-ready-on-offer = only after upstream offers a board
ask-choice-machine-ready-room = whenever there is room
ask-choice-rails-zero-closing = they close first
ask-choice-rails-zero-opening = they open first
ask-choice-sweep-seen-from-there-up = unknown from the seen slot up
ask-choice-sweep-seen-all = all slots unknown
ask-choice-rails-asked-true = it asks, and Start moves them
ask-choice-rails-asked-false = they move without a question
ask-choice-runs-after-changeover-true = it runs by itself
ask-choice-runs-after-changeover-false = it waits in Idle
ask-choice-whole-cycle-if-same-true = the whole cycle runs
ask-choice-whole-cycle-if-same-false = nothing is done
ask-choice-panel-reach-panel = the place at the panel
ask-choice-panel-reach-infeed = the place at the infeed
ask-choice-panel-reach-outfeed = the place at the outfeed
ask-choice-panel-reach-hatch = the place at the hatch
ask-choice-panel-reach-isolator = the place at the isolator
ask-choice-emergency-stops-panel = the place at the panel
ask-choice-emergency-stops-infeed = the place at the infeed
ask-choice-emergency-stops-outfeed = the place at the outfeed
ask-choice-emergency-stops-hatch = the place at the hatch
ask-choice-emergency-stops-isolator = the place at the isolator
