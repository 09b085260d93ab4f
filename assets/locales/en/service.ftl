### What setters see and change at the panel: settings, saving, commands of the standard, alarms and
### what to do about them. A site may put its own words here.
### Unit states: ISA-TR88.00.02. Alarm states: ANSI/ISA-18.2.

mode-manual = Manual

## Questions

question-answer-half = Slot { $slot }, { $half }: look, then answer. The belts ran. Nothing reached the outfeed beam.
question-confirmation = The width was not confirmed within its time. Look where the rails stand. Start waits once more, Stop ends the changeover.

## Answers for a half

intent-answer-half-taken = Slot { $slot }, { $half }: answer taken by hand
intent-answer-half-seen-empty = Slot { $slot }, { $half }: answer seen empty
intent-answer-half-not-sure = Slot { $slot }, { $half }: answer not sure
sign-answered-half = Slot { $slot }, { $half }: { $answer }, on a person's word.

## Commands of the standard

command-reset = Reset
command-start = Start
command-stop = Stop
command-hold = Hold
command-unhold = Unhold
command-suspend = Suspend
command-unsuspend = Unsuspend
command-abort = Abort
command-clear = Clear
command-complete = Complete
command-states = { $before }, { $unit }
intent-order = Give the command { $command }
intent-mode-manual = Choose mode Manual

## Commands that had no effect

refusal-order = { $command } has no effect in { $unit }. Nothing changed. On this machine it is taken in: { $states }.
refusal-order-never = { $command } has no effect in { $unit }. Nothing changed. The edition of the standard that this machine keeps does not have it as a command.
refusal-board-on-its-way = The belts run. Nothing changed: a stop now would leave the board between two places. Wait until it has arrived, or press Stop.
refusal-mode-already = It is in that mode already. Nothing changed. Choose another mode, or go on.
refusal-manual = In mode Manual nothing runs by itself. Nothing changed. Choose mode Production or Changeover first.
refusal-setter-only = This is for setters, and the key is not turned. Nothing changed. Turn the setter's key, or ask a setter.
refusal-not-fitted = This machine does not have that fitting. Nothing changed. Leave the setting as it is.
refusal-board-too-long = The product's board is longer than half a slot. It is not loaded. Load a product with a board of at most { $most }.
refusal-slot-count = So many slots are not there. Nothing changed. Set { $least } to { $most } slots.
refusal-width-offset = The offset is beyond its bounds. Nothing changed. Set { $least } to { $most }.
refusal-side-play = The side play is beyond its bounds. Nothing changed. Set { $least } to { $most }.
refusal-confirm-within = The time is beyond its bounds. Nothing changed. Set { $least } to { $most }; nought waits for ever.
refusal-setting = The setting has no such value. Nothing changed. Choose one that is listed.

## Settings

setting-slot-count = { $count ->
    [one] 1 slot counted
   *[other] { $count } slots counted
}
setting-width-offset = width offset { $width }
setting-side-play = side play { $width }
setting-signals-on = Machine Ready of downstream read
setting-signals-off = Machine Ready of downstream not read
setting-priority-infeed = boards in come first
setting-priority-outfeed = boards out come first
setting-width-check-on = changeover waits for the width sensor
setting-width-check-off = changeover waits for no width sensor
setting-confirm-within = waits at most { $time }
setting-confirm-for-ever = waits without end
intent-set = Set: { $setting }
sign-setting-changed = Setting changed: { $setting }.
sign-setting-of-product = Setting changed: { $setting }, for the chosen product. It counts once that product is loaded.
sign-waits-for-width = The rails rest. The changeover waits for the width sensor.

## Products

sign-width-typed = Typed: { $width }. It is not saved and not loaded.
intent-save-over = Save { $product } over { $other }
level-operator = operator
level-setter = setter
saved-never = as delivered
saved-by = saved by the { $level }, change { $order }
slip-decimal-point = The decimal point was left out, or stands one digit off.
slip-tenths = Tenths of a millimetre were typed where millimetres belong, or the reverse.
slip-inch = Inches were typed where millimetres belong, or the reverse.
slip-digits = Two digits side by side changed places.
slip-neighbour = It is the width of product { $product }.

## Alarms

alarm-no-confirmation = The width was not confirmed within its time.
alarm-action-emergency-stop = Axes have no power, the reference is lost. Find out who pressed it and why. Turn the button out, look, then Clear.
alarm-action-hatch-opened = Axes have no power, the reference is lost. See who works there. Shut the hatch, look, then Clear.
alarm-action-board-seen = A board is where the slot map has none. Choose the clear-out and answer for each slot.
alarm-action-no-arrival = A board lies on the belt or across the mouth. Press Stop, look at both mouths, and free it before anything moves.
alarm-action-rails-no-zero = Something keeps the rails from their zero. Turn the isolator off, lock it, and look along the screw.
alarm-action-lift-drive = The lift counts no more, the reference is lost. Look, then Clear and Reset: it finds its reference with the next Start.
alarm-action-no-confirmation = The rails may stand wrong, or the sensor is not there. Measure between the rails, then Start once more or Stop.
alarm-state-normal = normal
alarm-state-unacknowledged = new
alarm-state-acknowledged = acknowledged
alarm-state-returned = cause gone, not acknowledged
alarm-state-latched-unacknowledged = cause gone, latched, not acknowledged
alarm-state-latched-acknowledged = cause gone, latched, press Reset
