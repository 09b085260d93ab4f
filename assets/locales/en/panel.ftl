### What the panel of the machine shows, asks and takes. A site may put its own words here.
### Unit states: ISA-TR88.00.02. Signals: IPC-SMEMA-9851.

## Unit states

unit-clearing = Clearing
unit-stopped = Stopped
unit-starting = Starting
unit-idle = Idle
unit-suspended = Suspended
unit-execute = Execute
unit-stopping = Stopping
unit-aborting = Aborting
unit-aborted = Aborted
unit-holding = Holding
unit-held = Held
unit-unholding = Unholding
unit-suspending = Suspending
unit-unsuspending = Unsuspending
unit-resetting = Resetting
unit-completing = Completing
unit-complete = Complete

## Modes and tasks

mode-production = Production
mode-changeover = Changeover
task-none = none
task-changeover = changeover
task-clear-out = clear-out

## Questions

question-rails = The sweep saw no board. Start moves the rails. The sweep sees only what its beams reach.
question-seen = Slot { $slot }: the sweep saw a board. The slot map is no longer trusted. Choose the clear-out, or Stop.
question-take = Slot { $slot }: a board is at the outfeed end. Take it, then press Start.
question-answer = Slot { $slot }: look, then answer. The belts ran. Nothing reached the outfeed beam.
question-arrival = Slot { $slot }: the board did not arrive within its time. It may lie on the belt or across the mouth. Look before anything moves.

## Answers

answer-taken = taken by hand
answer-seen-empty = seen empty
answer-not-sure = not sure

## Commands that had no effect

refusal-state = This has no effect in { $unit }. Nothing changed. Bring the unit on with Stop, Reset or Start, then try again.
refusal-button-start = { $command } has no effect in { $unit }. Nothing changed. It starts from Idle and goes on from Held. Reset leads to Idle; while at work, press Stop first.
refusal-button-stop = { $command } has no effect in { $unit }. Nothing changed: the unit stands, or is about to. Reset brings it on.
refusal-button-reset = { $command } has no effect in { $unit }. Nothing changed. It brings the unit on from Stopped, Complete and Aborted. While at work, press Stop first.
refusal-emergency-latched = The emergency stop is latched. The unit stays Aborted. Turn the button out first.
refusal-hatch-open = The hatch is open. The unit does not reset. Shut the hatch first.
refusal-no-task = No task is chosen. Start has nothing to do in mode Changeover. Load a product, or choose the clear-out.
refusal-no-product = There is nothing to take: no product is chosen, or no width was typed. Nothing changed. Choose a product first.
refusal-map-not-empty = The slot map is not empty. The rails stay where they are. Clear out the rack, or declare it empty once every slot is seen empty.
refusal-map-unknown = The slot map has unknown slots. Nothing is stored and nothing is sent. Clear out the rack, or declare it empty once every slot is seen empty.
refusal-board-seen = The sweep saw a board. The rails stay where they are. Clear-out is the only way on.
refusal-mode = This mode does not have this task. Nothing changed. Choose mode Changeover.
refusal-question = A question is open. Start waits for it. Answer first.
refusal-reference = Declare empty is not offered now. It needs the unit at rest in Stopped or Aborted, with the reference lost. Nothing changed.
refusal-key = The setter's key is not turned. The slot map stays as it is. Turn the key, then hold the button again.
refusal-width-beyond-travel = The width is beyond the travel of the rails. A board can be { $least } to { $most } wide. Type a width in that range.
refusal-width-not-reached = The rails do not stand at the width of the loaded product. Boards would not run. Do the changeover first.

## Alarms

alarm-emergency-stop = Emergency stop pressed.
alarm-hatch-opened = Hatch opened.
alarm-board-seen = The sweep saw a board.
alarm-no-arrival = A board did not arrive within its time.

## What can be pressed

intent-start = Press Start
intent-stop = Press Stop
intent-reset = Press Reset
intent-clear = Press Clear
intent-mode-production = Choose mode Production
intent-mode-changeover = Choose mode Changeover
intent-choose = Choose product { $product }
intent-edit-width = Type board width { $width } for { $product }
intent-save = Save product { $product }
intent-load = Load product { $product }
intent-clear-out = Choose the clear-out
intent-answer-taken = Slot { $slot }: answer taken by hand
intent-answer-seen-empty = Slot { $slot }: answer seen empty
intent-answer-not-sure = Slot { $slot }: answer not sure
intent-hold-declare = Hold the declare-empty button for { $time }
intent-let-go-declare = Let go of the declare-empty button
intent-acknowledge = Acknowledge the alarms
intent-try-start = Try Start on the dark panel
intent-key-in = Put the setter's key in and turn it
intent-key-out = Turn the setter's key back and take it out
