### What the trainee does, perceives and is told. A site may put its own words here.

## Headings of the menu

group-walk = Walk
group-look = Look
group-hands = Hands
group-machine = Machine
group-panel = Panel
group-people = People
group-end = Close

## Standing places

stand-panel = panel
stand-infeed = infeed
stand-outfeed = outfeed
stand-hatch = hatch
stand-isolator = isolator

## What can be done

intent-walk-panel = Walk to the panel
intent-walk-infeed = Walk to the infeed
intent-walk-outfeed = Walk to the outfeed
intent-walk-hatch = Walk to the hatch
intent-walk-isolator = Walk to the isolator
intent-torch-on = Light the torch
intent-torch-off = Put the torch out
intent-look-infeed-side = Lean to the infeed side and look into every slot
intent-look-outfeed-side = Lean to the outfeed side and look into every slot
intent-look-infeed-mouth = Look at the infeed belt and along the slot behind it
intent-look-outfeed-mouth = Look at the outfeed belt and along the slot behind it
intent-test-straps = Test my shoe straps
intent-plug-cord = Plug my wrist cord into the bonding stud
intent-unplug-cord = Unplug my wrist cord
intent-hand-in = Reach into the rack
intent-hand-out = Take my hand out of the rack
intent-take = Take the board out of slot { $slot }, { $half }
intent-put-in = Put the board into slot { $slot }, { $half }
intent-take-from-infeed-belt = Take a board off the infeed belt
intent-take-from-outfeed-belt = Take a board off the outfeed belt
intent-take-from-infeed-mouth = Work a board free at the infeed mouth
intent-take-from-outfeed-mouth = Work a board free at the outfeed mouth
intent-put-down-good = Put the board with the good ones
intent-put-down-quarantine = Put the board into quarantine
intent-put-down-scrap = Put the board into the scrap bin
intent-ask-upstream-hold = Ask upstream to hold all boards
intent-let-upstream-go = Tell upstream to go on
intent-ask-downstream-hold = Ask downstream to hold
intent-let-downstream-go = Tell downstream to go on
intent-call-lead = Call the line lead
intent-write-log = Write the log
intent-report = Report the job done and end the attempt

## What is seen

look-whole-seen-empty = Slots seen empty, both halves: { $slots }.
look-infeed-seen-empty = Slots seen empty, infeed half alone: { $slots }.
look-outfeed-seen-empty = Slots seen empty, outfeed half alone: { $slots }.
look-nothing-seen = No slot can be judged from here.
sign-dark = It is dark in the rack. Nothing in it was seen. The torch gives light.
sign-saw-board = Slot { $slot }, { $half }: { $board }.
sign-saw-board-damaged = Slot { $slot }, { $half }: { $board }, damage shows.
sign-infeed-belt-seen-empty = Infeed belt: nothing on it.
sign-infeed-belt-taken = Infeed belt: a board lies on it, or it runs.
sign-outfeed-belt-seen-empty = Outfeed belt: nothing on it.
sign-outfeed-belt-taken = Outfeed belt: a board lies on it, or it runs.
sign-infeed-mouth-seen-free = Infeed mouth: free.
sign-infeed-mouth-taken = Infeed mouth: a board lies across it, or the belts run.
sign-outfeed-mouth-seen-free = Outfeed mouth: free.
sign-outfeed-mouth-taken = Outfeed mouth: a board lies across it, or the belts run.

## What hands and ears tell

sign-took = In my hand: { $board }. No damage shows.
sign-took-damaged = In my hand: { $board }. Damage shows.
sign-nothing-there = There is nothing to take here.
sign-no-room = Slot { $slot }, { $half }: taken. The board does not go in.
sign-nothing-started = Start was tried. Nothing moved. The isolator holds.
sign-straps-tested = Shoe straps tested: they ground me.
sign-crack = Something cracked or fell. A board or the machine may be harmed. Stop and look before anything else moves.
sign-board-laid = Upstream laid a board on the infeed belt.

## What is said

told-upstream-holds = Upstream: “I hold all boards.”
told-upstream-goes-on = Upstream: “I go on.”
told-downstream-holds = Downstream: “I hold.”
told-downstream-goes-on = Downstream: “I go on.”
told-downstream-stands = Downstream: “We stand, a board is stuck. We hold until you tell us to go on.”
told-downstream-mends = Downstream: “We stand, a board is stuck. There was a jumper in our plug; it is out now. We hold until you tell us to go on.”
told-lead-knows = Line lead: “Thank you. I know now.”

## What makes looks void

void-lift-moved = All looks are void, by the lift.
void-rails-moved = All looks are void, by the rails.
void-belts-moved = All looks are void, by the belts.
void-hand-entered = All looks are void, by a hand in the rack.
void-upstream-let-go = All looks are void: upstream was let go.

## What holds at a moment

condition-straps-tested = Shoe straps tested
condition-torch-on = Torch lit
condition-cord-plugged = Wrist cord plugged in
condition-hatch-open = Hatch open
condition-isolator-off = Isolator off
condition-lock-on = My lock on the isolator
condition-prop-set = Prop set under the lift
condition-hand-in = My hand in the rack
condition-board-in-hand = A board in my hand
condition-board-in-hand-damaged = Damage shows on the board in my hand
condition-upstream-held = Upstream said that it holds
condition-moving = Something moves
condition-key-turned = Setter's key turned
condition-emergency-latched = Emergency stop latched
condition-panel-on = Panel has power
condition-mode-changeover = Mode Changeover
condition-mode-production = Mode Production
condition-task-changeover = Task changeover
condition-task-clear-out = Task clear-out
condition-asked-rails = The panel says that Start moves the rails
condition-start-moves-rails = Start leads to the rails, and nothing is asked on the way
condition-asked-seen = The panel says that the sweep saw a board
condition-asked-take = The panel says to take the board at the outfeed end
condition-asked-answer = The panel asks for an answer
condition-idle = Unit Idle
condition-unit-stopped = Unit Stopped
condition-held = Unit Held
condition-execute = Unit in Execute
condition-complete = Unit Complete
condition-aborted = Unit Aborted
condition-reference-lost = Reference of the lift lost
condition-next-chosen = { $product } chosen
condition-next-loaded = { $product } loaded
condition-width-shown = By step count, the rails at the width of { $product }
condition-map-shown-empty = Slot map shows every slot empty
condition-log-written = Log written
condition-declare-held = Declare-empty button held
condition-reaches-under = This slot is reached from under the lift
