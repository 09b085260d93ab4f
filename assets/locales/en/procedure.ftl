### The procedures and what must hold at the end. A site may put its own words here: steps name the
### controls of its machine.
### step-NAME: what to do. step-NAME-why: why. way-NAME: a way through, by its name.

## Ways

way-by-hand = by hand, under lock
way-sweep-first = the sweep first, then by hand under lock
way-talk-first = look and talk first, then let it drain
way-by-clear-out = by clear-out, slot by slot

## Before anything else

step-wait-moving = Wait until everything rests.
step-wait-moving-why = Axes run down after they are stopped. What moves makes every look void.
step-test-straps = Test your shoe straps.
step-test-straps-why = Only somebody who is grounded touches boards.
step-hold-upstream = Ask upstream to hold all boards.
step-hold-upstream-why = A board that comes in now is a board that nobody has looked for.
step-hand-out = Take your hand out of the rack.
step-hand-out-why = A hand is inside only as long as it has something to do there.
step-take-board = Take out the lowest board that you saw.
step-take-board-why = Every board of the old product comes out before the rails move.
step-quarantine = Put the board into quarantine.
step-quarantine-why = Nobody knows how long it lay there and what it met. It is judged later.
step-light-torch = Light the torch.
step-light-torch-why = In the dark nothing counts as seen.
step-release-emergency = Turn the emergency stop out.
step-release-emergency-why = It stays latched until then. Turned out it starts nothing; Clear and Reset come after it.

## By hand under lock: search

step-stop = Press Stop.
step-stop-why = The unit must be at rest before its power is taken away.
step-isolate = Turn the isolator off.
step-isolate-why = What has no power does not start by itself.
step-lock = Put your lock on the isolator.
step-lock-why = Only you can give the power back while you are inside.
step-try-start = Try Start on the dark panel.
step-try-start-why = The try shows that this isolator is the right one and that it opened.
step-open-hatch = Open the hatch.
step-open-hatch-why = Through the hatch every slot can be seen.
step-plug-cord = Plug your wrist cord into the bonding stud.
step-plug-cord-why = At the hatch the cord grounds you while you reach for boards.
step-look-infeed-side = Lean to the infeed side and look.
step-look-infeed-side-why = This shows the infeed half of every slot. The other half takes a second look.
step-look-outfeed-side = Lean to the outfeed side and look.
step-look-outfeed-side-why = This shows the outfeed half of every slot. Both halves seen empty are a slot seen empty.
step-set-prop = Set the prop under the lift.
step-set-prop-why = A lift without power is held by its brake alone. The prop holds it for sure.
step-hand-in = Reach into the rack.
step-hand-in-why = You are locked out, tried, grounded and propped, and you know where the board is.

## By hand under lock: back, then declare

step-remove-prop = Take the prop out.
step-remove-prop-why = The lift would run against it.
step-unplug-cord = Unplug your wrist cord.
step-unplug-cord-why = It ties you to the machine that you are about to start.
step-shut-hatch = Shut the hatch.
step-shut-hatch-why = With the hatch open the unit does not reset.
step-unlock = Take your lock off.
step-unlock-why = The work inside is over, and nobody else is inside.
step-power = Turn the isolator on.
step-power-why = The panel needs power. Nothing moves by itself when it returns.
step-key-in = Put the setter's key in and turn it.
step-key-in-why = Declare empty is guarded: it takes the key and a held button.
step-declare-wait = Keep holding the button.
step-declare-wait-why = Letting go early leaves the slot map as it was.
step-declare = Hold the declare-empty button.
step-declare-why = Every slot was seen empty and nothing has moved since. Now your word may stand for the rack.
step-key-out = Turn the key back and take it out.
step-key-out-why = A key left in is a guard left open.

## The job is done

step-reset-complete = Press Reset.
step-reset-complete-why = The unit goes from Complete to Idle and is ready for the next start.
step-let-upstream-go = Tell upstream to go on.
step-let-upstream-go-why = The rails stand at the new width. New boards may come.
step-write-log = Write the log.
step-write-log-why = What was found, where and when: the next shift and quality need it.
step-report = Report the job done.
step-report-why = The line waits for your word.

## To Idle in mode Changeover

step-mode = Choose mode Changeover.
step-mode-why = The clear-out and the changeover are tasks of this mode.
step-stop-seen = Press Stop.
step-stop-seen-why = The sweep saw a board. The rack must be proven before the rails can move.
step-stop-unproven = Press Stop.
step-stop-unproven-why = The sweep saw no board, but the rack is not proven. Start would move the rails.
step-reset = Press Reset, or Clear while Aborted.
step-reset-why = Tasks are chosen and started from Idle.

## By clear-out: prove the rack slot by slot

step-choose-clear-out = Choose the clear-out.
step-choose-clear-out-why = It brings every slot to the belts and asks a person about each one.
step-take-at-end = Take the board at the outfeed end.
step-take-at-end-why = The unit goes on only when it is gone.
step-go-on-after-taking = Press Start.
step-go-on-after-taking-why = The slot may hold a second board. The belts run again to bring it.
step-take-from-outfeed-belt = Take the board off the outfeed belt.
step-take-from-outfeed-belt-why = A board on the belt would be crushed when the rails close.
step-look-for-answer = Look along the slot from the outfeed mouth.
step-look-for-answer-why = An answer needs a look: nothing reached the beam, but something may be stuck.
step-answer-taken = Answer “taken by hand”.
step-answer-taken-why = You took a board of this slot, and now it is seen empty.
step-answer-seen-empty = Answer “seen empty”.
step-answer-seen-empty-why = The slot was seen empty along its whole length, and the mouth is free.

## Proven: choose, load, sweep, rails

step-choose-next = Choose the next product.
step-choose-next-why = Choosing shows its settings. Nothing changes yet.
step-load = Load the product.
step-load-why = Loading makes the changeover the task.
step-take-from-infeed-belt = Take the board off the infeed belt.
step-take-from-infeed-belt-why = A board on the belt is crushed when the rails close, and no sweep sees it.
step-look-infeed = Look at the infeed belt and into its mouth.
step-look-infeed-why = The belt must be seen empty while upstream holds, and the mouth seen free.
step-look-outfeed = Look at the outfeed belt and into its mouth.
step-look-outfeed-why = The belt must be seen empty, and the mouth seen free.
step-start = Press Start.
step-start-why = Upstream holds, and belts and mouths were seen since anything moved.
step-start-unasked = Press Start. After it nothing is asked.
step-start-unasked-why = The rack is proven, upstream holds, and belts and mouths were seen since anything moved. After a sweep that sees no board the rails move at once, and then the unit runs on by itself.
step-wait = Wait.
step-wait-why = The machine is at work. There is nothing to do until it asks or rests.

## Production with boards in the rack

step-look-downstream = Look at the outfeed, and at the machine behind it.
step-look-downstream-why = A lamp says that a contact is closed. Whether the machine runs is seen.
step-ask-downstream = Ask downstream to hold.
step-ask-downstream-why = Who is asked looks at their own machine and says how it is. Now nothing is sent before they are ready.
step-reset-unit = Press Reset.
step-reset-unit-why = From Stopped the unit comes to Idle. Nothing moves.
step-produce = Press Start.
step-produce-why = The lift finds its reference, and the unit is ready to take boards in and to send them.
step-let-downstream-go = Tell downstream to go on.
step-let-downstream-go-why = Its signal closes when it can take a board, and the oldest board goes out.
step-drain = Let the rack drain.
step-drain-why = Each board goes when downstream is ready for it, the oldest first.
step-hold-upstream-last = Ask upstream to hold.
step-hold-upstream-last-why = A board that comes in while the unit is stopped stays across the mouth.
step-stop-production = Press Stop.
step-stop-production-why = Everything rests and nothing comes in: no board is on its way.
step-let-upstream-go-on = Tell upstream to go on.
step-let-upstream-go-on-why = The buffer is empty and handed over. The line is upstream’s again.

## What must hold at the end

finish-width-true-is-wanted = { $product } is loaded, and the rails stand at its width.
finish-map-true-is-empty = The rack is empty, and the slot map says so.
finish-belts-clear = Belts and mouths are clear.
finish-hands-empty = Hands are empty and outside.
finish-lock-off = The lock is off, the isolator on.
finish-prop-out = The prop is out.
finish-hatch-shut = The hatch is shut.
finish-cord-out = The wrist cord is unplugged.
finish-key-out = The setter's key is out.
finish-unit-ready = The unit is Idle or Complete, or in production where the machine goes on by itself.
finish-log-written = The log is written.
finish-upstream-let-go = Upstream goes on.

## Steps of the analysis alone: what is completed, not what is done

step-take-out = Take a board out.
step-take-out-why = What is in hand cannot be crushed when the rails close.
step-see-slot-empty = Have both halves of the slot seen empty when it counts.
step-see-slot-empty-why = A slot counts as empty when both halves were seen, and nothing moved since.
step-look-before-start = Have both belts seen empty and both mouths free when Start is pressed.
step-look-before-start-why = On this machine that Start moves the lift and then the rails. No later moment is left in which to look.
step-look-before-clear-out = Have both ends seen free when the clear-out starts.
step-look-before-clear-out-why = The first thing that the clear-out moves is the lift. A board across a mouth would be cut.
step-answer-for-slot = Answer for the slot.
step-answer-for-slot-why = The controller cannot see into the slot. It goes by what you saw.
step-look-before-sweep = Have both ends seen free when the sweep starts.
step-look-before-sweep-why = The lift moves in the sweep. A board across a mouth would be cut.
step-sweep = Let the lift sweep the rack.
step-sweep-why = It is a second witness, and finds the reference. It is no proof.
step-look-before-rails = Have both ends seen free when the rails start.
step-look-before-rails-why = The moving rail takes both belts with it, and no sweep looks there.
step-set-rails = Bring the rails to the width of the task.
step-set-rails-why = This is what the job is for: the line can run the next product.
