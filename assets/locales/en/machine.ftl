### What the machine does, and its parts. A site may put its own words here.

## Parts and places

half-infeed = infeed half
half-outfeed = outfeed half
place-slot = slot { $slot }, { $half }
place-infeed-belt = the infeed belt
place-outfeed-belt = the outfeed belt
place-infeed-mouth = the infeed mouth
place-outfeed-mouth = the outfeed mouth
place-between = the way between belt and rack
board-some = One board

## What the machine shows

sign-unit = Unit: { $unit }.
sign-mode = Mode: { $mode }.
sign-task = Task: { $task }.
sign-no-task = Task: none.
sign-lift-started = The lift moves.
sign-rails-started = The rails move.
sign-belts-started = The belts run.
sign-lift-stopped = The lift rests.
sign-rails-stopped = The rails rest.
sign-belts-stopped = The belts rest.
sign-sweep-saw = Sweep: a board seen in slot { $slot }.
sign-sweep-saw-nothing = Sweep: no board seen.
sign-answered = Slot { $slot }: { $answer }, on a person's word.
sign-cleared-out = Clear-out done: every slot that was unknown is answered.
sign-declared-empty = Slot map set to empty, on a person's word.
sign-product-chosen = Product { $product } is chosen. It is not loaded yet.
sign-product-loaded = Product { $product } is loaded. The rails have not moved yet.
sign-product-saved = Product { $product } is saved with the new width. Nothing moves to it before the product is loaded.
sign-reference-found = The lift found its reference.
sign-reference-lost = The reference of the lift is lost.
sign-powered = The panel lights up.
sign-unpowered = The panel is dark.
sign-width-reached = By step count, the rails stand at the width of the loaded product.
sign-machine-ready-closed = Machine Ready to upstream: closed.
sign-machine-ready-open = Machine Ready to upstream: open.
sign-board-available-closed = Board Available to downstream: closed.
sign-board-available-open = Board Available to downstream: open.
sign-board-stored = Slot { $slot }: a board is stored.
sign-board-sent = Slot { $slot }: its board left for downstream.
sign-board-reached-end = Slot { $slot }: a board reached the outfeed beam.

## What is done at the machine

intent-open-hatch = Open the hatch
intent-shut-hatch = Shut the hatch
intent-set-prop = Set the prop under the lift
intent-remove-prop = Take the prop out
intent-isolator-off = Turn the isolator off
intent-isolator-on = Turn the isolator on
intent-lock-on = Put my lock on the isolator
intent-lock-off = Take my lock off the isolator
intent-press-emergency = Press the emergency stop
intent-release-emergency = Turn the emergency stop out
