### The operator panel as a screen: what stands on it beside its questions and alarms. A site may
### put its own words here. Unit states: ISA-TR88.00.02. Signals: IPC-SMEMA-9851.

operator-panel = Operator panel
operator-reach = Out of reach. Go to: { $places }

## Commands

operator-start = Start
operator-stop = Stop
operator-reset = Reset
operator-clear = Clear
operator-pages = Pages
operator-acknowledge = Acknowledge

## State

operator-emergency-stop = emergency stop
operator-hatch-open = hatch open
operator-reference-lost = reference lost
operator-at-rest = at rest
operator-task-done = task done
operator-waits-outside = waits for a neighbour
operator-waits-for-a-person = waits for a person
operator-task = task: { $task }
operator-no-task = no task
operator-ready = ready for a command
operator-boards-run = boards in and out
operator-mode = Mode
operator-last-command = Last command
operator-confirmed = Confirmed
operator-none = none
operator-none-yet = none yet

## Last commands

operator-abort = Abort
operator-choose = Choose
operator-load = Load
operator-clear-out = Clear-out
operator-answer = Answer
operator-declare = Declare empty

## What was confirmed

operator-slot-in-place = slot { $slot } in place
operator-slot-answered = slot { $slot } answered
operator-product-chosen = { $product } chosen
operator-product-loaded = { $product } loaded
operator-map-set-empty = map set empty
operator-reference-found = reference found
operator-width-reached = width reached
operator-axes-without-power = axes without power

## Slot map

operator-map = Slot map, as believed
operator-old-map = Slot map, old belief
operator-empty = empty
operator-full = full
operator-was-empty = was empty
operator-was-full = was full
operator-unknown = unknown
operator-said-empty = said empty
operator-said-taken = said taken
operator-answer-now = answer now
operator-slot = Slot { $slot }: { $belief }
operator-slot-at-belts = Slot { $slot }: { $belief }, at the belts
operator-slot-asked = Slot { $slot }: { $belief }, at the belts, answer now
operator-overview = Whole rack: show other slots

## Values

operator-loaded = Loaded
operator-loaded-with = Loaded with
operator-stored-now = Stored now
operator-saved-otherwise = otherwise
operator-chosen = Chosen
operator-commanded = Commanded
operator-by-step-count = By step count
operator-measured = Measured
operator-no-sensor = no sensor
operator-axes = Axes
operator-powered = powered
operator-no-power = no power
operator-moving = moving
operator-on-its-way = on its way
operator-not-at-a-slot = not at a slot
operator-lift-slot = slot { $slot }
operator-board-available = Board Available
operator-machine-ready = Machine Ready
operator-beams = Beams
operator-last-sweep = Last sweep
operator-last-at-end = Last at outfeed end
operator-no-board = no board

## Messages

operator-emergency-means = Axes have no power. The lift has lost its reference, the task is forgotten. Turn the button out where it was pressed, look, then Clear.
operator-hatch-means = Axes have no power. The lift has lost its reference, the task is forgotten. Shut the hatch, look, then Clear.
operator-aborted-means = The cause is gone. The unit stays Aborted and nothing moves by itself. Look, then press Clear.
operator-declare-only = Only declare what you have seen empty
operator-declare-means = Each slot, both halves, since anything last moved. A sweep cannot see every board. The declaration is recorded.

## Alarms

operator-alarms = Alarms
operator-no-alarms = No alarms. Hatch shut, axes powered.
operator-no-alarm-here = No alarm waits to be acknowledged.
operator-alarm-since = since { $time }, not acknowledged
operator-alarms-not-acknowledged = { $count } alarms not acknowledged
operator-emergency-acknowledged = Emergency stop latched. Acknowledged.
operator-hatch-acknowledged = Hatch open. Acknowledged.

## Pages. What stands between two stars is heavier.

operator-product-and-task = Product and task
operator-chosen-now = Chosen: *{ $product }*
operator-choose-product = Choose { $product }
operator-load-product = Load { $product }
operator-to-mode = Mode { $mode }
operator-declare-text = On your word the slot map is set to *{ $slots } slots empty*. It empties the map and *does nothing else*.
operator-declare-after = After it: Reset, Start (reference), choose and load again, sweep. Only then do the rails move.
operator-key-turned = Key in and turned
operator-key-not-turned = Key not turned
operator-hold = Hold
operator-key-first = Put the setter’s key in and turn it first.
operator-held = { $done } of { $whole }
operator-let-go-early = Let go early: nothing happens.
operator-press-twice = Press once: it is held for you. Press again early: nothing happens.
operator-declare-not-now = Not offered now. It needs the unit at rest in Stopped or Aborted, with the reference lost.
operator-log = Log
operator-log-empty = Nothing is written yet.

## Products. What stands between two stars is heavier.

operator-stored = Stored: *{ $width }*, { $saved }
operator-loaded-width = Loaded: *{ $product }*, *{ $width }*
operator-loaded-otherwise = Loaded: *{ $product }*, *{ $width }*. It was saved otherwise since. Load it, and what is stored now counts.
operator-nothing-edited = Nothing typed that is not saved.
operator-edited = Typed: *{ $width }*, not saved
operator-width-field = Board width in mm
operator-width-unread = Digits and one point, such as 160.5.
operator-type-width = Type it
operator-save = Save
operator-save-over = Save over { $product }
operator-typed = Type
operator-saved = Save
operator-set = Set

## Settings

operator-settings = Machine settings
operator-level = Level: *{ $level }*
operator-settings-shut = To be read only: this page is not open here.
operator-settings-key = To be read only: the setter's key is not turned.
operator-settings-rest = To be read only: the unit must be Stopped, Idle or Aborted.

## Alarms and slot map

operator-alarm-stated = since { $time }, { $state }
operator-alarm-first = Came first: begin here.
operator-left = A clear-out was begun before this shift. Answered by badge *{ $badge }*: slots { $slots }.
operator-said-empty-before = said empty before
operator-said-taken-before = said taken before
