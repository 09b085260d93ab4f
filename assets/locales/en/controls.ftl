### What names a control, a place or a part of the machine in pictures, buttons, help and debrief.
### All of it is on the machine or in the hall, so a site may put its own words in its place.

## The picture in the terminal

play-panel = PANEL
looks-all = Nothing. Rack, belts and mouths were all seen empty { $since }.
play-infeed = Infeed
play-outfeed = Outfeed
play-stand-at = At the { $place }.
play-hatch-open = Hatch open.
play-hatch-shut = Hatch shut.
play-isolator-on = Isolator on.
play-isolator-off = Isolator off.
play-lock-on = My lock is on.
play-prop-set = Prop set.
play-key-turned = Key in and turned.
play-declare-held = I hold the declare-empty button: it counts when the time is up.
play-emergency = Emergency stop latched.
play-cord-in = Wrist cord plugged in: I cannot walk or shut the hatch.
play-hand-in = My hand is in the rack: I cannot walk.
play-straps-tested = Shoe straps tested.
play-straps-untested = Shoe straps not tested.
play-torch-lit = Torch lit.
play-torch-out = Torch out.
play-panel-dark = Dark. It has no power.
play-unit = { $unit }, mode { $mode }, task { $task }
play-unit-no-alarm = { $unit }, mode { $mode }, task { $task }, no alarm
map-empty = { $slots } empty
map-full = { $slots } full
map-unknown = { $slots } unknown
map-old = { $map }: kept while the reference is lost
map-said-empty = { $slots } said empty
map-said-taken = { $slots } said taken
play-products = loaded { $loaded }, chosen { $chosen }
play-products-otherwise = loaded { $loaded } with { $width }, saved otherwise since, chosen { $chosen }
play-widths = commanded { $commanded }, by step count { $counted }, measured: no sensor
play-width-unknown = commanded { $commanded }, by step count unknown, measured: no sensor
play-lift-at = slot { $slot } at the belts, by step count
play-lift-between = between two slots, by step count
play-lift-unknown = unknown: the reference is lost
play-infeed-signals = Board Available from upstream { $available }, Machine Ready { $ready }
play-outfeed-signals = Board Available { $available }, Machine Ready from downstream { $ready }
signal-closed = closed
signal-open = open
looks-infeed = infeed half of { $slots }
looks-outfeed = outfeed half of { $slots }
looks-infeed-belt = infeed belt and mouth
looks-outfeed-belt = outfeed belt and mouth
play-take-somewhere = Take the board out of a slot: slot and half are asked for
play-put-somewhere = Put the board into a slot: slot and half are asked for
play-help-places = The list changes with the place. Panel: buttons, key, log. Isolator: power, my lock. Hatch: the leaning looks, prop, cord, hands in the rack. Infeed and outfeed: belt, mouth, the slot at the belts, answers at the outfeed.
play-which-slot = Slot 1 to { $slots } and half, such as “5 i” for infeed or “5 o” for outfeed:
sheet-infeed = Infeed halves marked: { $slots }
sheet-outfeed = Outfeed halves marked: { $slots }

## The page of the drill

notes-row = Slot { $slot }: infeed half { $infeed }, outfeed half { $outfeed }
card-page-press = On the panel’s page “{ $page }”. Use panel turns to it and goes to the button; Enter presses it.
card-page-hold = On the panel’s page “{ $page }”. Use panel turns to it and goes to the button; hold Space.
person-stand = I stand at the { $place }
person-cord-in = the cord holds me here
person-panel-in-reach = panel in reach
person-emergency = emergency stop, any time
there-infeed = At the infeed: look at belt and mouth, take a board off the belt, work one free.
there-hatch = At the hatch: open it, look into every slot, cord, prop, hands in the rack.
there-isolator = At the isolator: power off and on, my lock.
there-panel = At the panel: its buttons, the setter’s key, the log.
there-outfeed = At the outfeed: look along the slot, take a board off the belt, work one free.
me-straps-tested = Shoe straps, tested
me-straps-untested = Straps, not tested
me-torch-lit = Torch, lit
me-torch-off = Torch, off
me-hand-free = Other hand free
me-hand-in = Hand in the rack
me-board = { $board } in hand
me-board-inside = { $board } held inside
me-cord-in = Cord, plugged in
me-lock-on = Lock, on isolator
me-key-in = Key, in the panel
help-panel = Panel

## Acts, as short as a button

act-walk = Walk
act-torch-on = Torch on
act-torch-off = Torch off
act-look-infeed-side = Lean infeed
act-look-outfeed-side = Lean outfeed
act-look-mouth = Look along slot
act-plug-cord = Plug cord
act-unplug-cord = Unplug cord
act-set-prop = Set prop
act-remove-prop = Prop out
act-open-hatch = Open hatch
act-shut-hatch = Shut hatch
act-hand-in = Hands in
act-test-straps = Test straps
act-call-lead = Call lead
act-wear-gloves = Put on gloves
act-clear-screw = Clear the screw
act-wipe-lenses = Wipe lenses
act-clear-plug = Clear their plug
act-write-log = Write log
act-isolator-off = Isolator off
act-isolator-on = Isolator on
act-lock-on = Lock on
act-lock-off = Lock off
act-try-start = Try to start
act-hand-out = Hands out
act-take = Take board out
act-put-in = Put board in
act-take-from-belt = Take off belt
act-take-from-mouth = Work free
act-put-down = Put board down
act-release-emergency = Turn button out
act-key-in = Key in
act-key-out = Key out
act-ask-upstream = Ask upstream
act-let-upstream-go = Let upstream go
act-ask-downstream = Ask downstream
act-let-downstream-go = Let downstream go
act-report = Report
act-use-panel = Use panel
act-wait = Next event
act-answer = Answer for the slot
act-declare = Declare empty
act-next = next

## Keys

key-look = Look; at the hatch: infeed side
key-lean-infeed = Lean to the infeed side
key-lean-outfeed = Lean to the outfeed side
key-put-in = Put the board into a slot
key-torch = Torch on or off
key-torch-up = View and torch up one slot
key-torch-down = View and torch down one slot
key-hand = Reach into the rack, hand out
key-take = Take a board out, or off the belt
key-work-free = Work a board free at the mouth
key-put-down = Put the board in hand down
key-try-board = Try a board between the rails
key-hatch = Open or shut the hatch
key-isolator = Isolator off or on
key-lock = My lock on or off
key-prop = Set the prop, take it out
key-cord = Plug the cord in, unplug it
key-key = Setter’s key in or out
key-emergency = Emergency stop, from anywhere
key-upstream = Ask upstream to hold, let it go
key-downstream = Ask downstream to hold, let it go
key-panel = Into the panel
key-answer-taken = Answer: taken by hand
key-answer-seen-empty = Answer: seen empty
key-answer-not-sure = Answer: not sure
key-reset = Press Reset, or Clear
key-pages = Next page of the panel

## The debrief

open-width-true-is-wanted = The next product is not loaded, or the rails do not stand at its width.
open-map-true-is-empty = The rack is not empty, or the slot map does not say so.
open-belts-clear = A belt or a mouth is not clear.
open-hands-empty = A hand holds a board, or is still inside.
open-lock-off = The lock is still on, or the isolator off.
open-prop-out = The prop is still set.
open-hatch-shut = The hatch is still open.
open-cord-out = The wrist cord is still plugged in.
open-key-out = The setter’s key is still in.
open-unit-ready = The unit is neither Idle nor Complete.
open-log-written = The log is not written.
open-upstream-let-go = Upstream still holds its boards.
debrief-gap-either-lean = A lean to either side through the open hatch, with the torch lit, would have shown it.
debrief-gap-infeed-lean = A lean to the infeed side through the open hatch, with the torch lit, would have shown it.
debrief-gap-outfeed-lean = A lean to the outfeed side through the open hatch, with the torch lit, would have shown it.
debrief-gap-no-lean = No single lean through the hatch would have shown all of it.
debrief-looks-belts = Seen clear then: infeed belt { $infeed }, outfeed belt { $outfeed }, infeed mouth { $in }, outfeed mouth { $out }.
debrief-harm-prop-struck = Harm: lift and prop struck

## What a finding rests on

evidence-no-board = no board lay in the rack, on a belt or across a mouth.
evidence-panel-dark = The panel was dark.
vantage-lean-infeed = through the open hatch, leaning to the infeed side
vantage-lean-outfeed = through the open hatch, leaning to the outfeed side
vantage-infeed-mouth = at the infeed, into the mouth
vantage-outfeed-mouth = at the outfeed, into the mouth
evidence-isolator-on = The isolator was on, with no lock on it.
evidence-isolator-off = The isolator was off, with no lock on it.
evidence-isolator-locked = The isolator was off, with their own lock on it.
evidence-hatch-open = The hatch was open, no prop was set,
evidence-hatch-open-propped = The hatch was open, the prop was set,
evidence-hatch-shut = The hatch was shut, no prop was set,
evidence-hatch-shut-propped = The hatch was shut, the prop was set,

## The task sheet

sheet-harm-sheared = A board is cut at a mouth.
sheet-harm-prop-struck = The lift runs against its prop.
