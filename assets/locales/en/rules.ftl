### The rules, by the names that rule files use.
### rule-NAME: what it asks, in plain words. -reason: why. -right: what would have been right.

## Changeover: before the rails move

rule-rails-unproven = Start moves the rails only when the rack is proven empty.
rule-rails-unproven-reason = Rails that close bend any board between them. It can look good afterwards and have cracked joints. A sweep is a witness, not a proof: it misses what its beams do not reach.
rule-rails-unproven-right = Prove the rack first. Either see every slot empty and declare it empty, or answer for every slot in one clear-out. A hand in the rack, a board let in or upstream let go ends the proof.

rule-production-unproven = Production starts only with the rack proven empty and the infeed belt seen empty while upstream holds.
rule-production-unproven-reason = The unit in Production moves boards of the old product as if they were new ones. A board in a slot that counts as free is driven into.
rule-production-unproven-right = Prove the rack empty, look at the infeed belt while upstream holds, then start.

rule-production-width = With the rack proven, Production starts only with the rails set for the next product: the width shown is its stored width with 0.4 mm to 2 mm of play.
rule-production-width-reason = Rails that are too close bend the first board or jam it. Rails too far apart let it fall. In Production nobody looks at the first one.
rule-production-width-right = Finish the changeover, then read the width on the panel. If it is right, choose Production and press Start.

rule-declared-unseen = Declare empty only with every slot seen empty, both halves, since anything last moved.
rule-declared-unseen-reason = The button sets the slot map to empty and does nothing else. From then on your word is the only guard. What was not seen is not known.
rule-declared-unseen-right = Look from both sides until every half of every slot is seen empty. If lift, rails or belts moved, or a hand went in, look again. Then hold the button.

rule-belts-unseen = The rails move only with both belts seen empty since anything last moved, and the infeed belt while upstream holds.
rule-belts-unseen-reason = The moving rail includes both belts. A board on a belt is crushed like one in the rack, and no sweep looks there.
rule-belts-unseen-right = Ask upstream to hold. Look at the infeed belt and at the outfeed belt. Then press Start.

rule-upstream-not-held = In mode Changeover, Start is pressed only while upstream holds.
rule-upstream-not-held-reason = The machine upstream knows nothing of your changeover. A board that comes now lies where the rails will close.
rule-upstream-not-held-right = Ask upstream to hold all boards and hear the answer. Then press Start.

rule-upstream-let-go-early = Upstream goes on only when nothing moves and, once the rails have moved, they stand at the new width.
rule-upstream-let-go-early-reason = A board of the old product would come in while the rails are on their way, or at rest at no width at all.
rule-upstream-let-go-early-right = Wait until the panel shows the new width and everything rests. Then let upstream go on.

rule-started-mouths-unseen = Start only with both mouths seen free since anything last moved. Going on after a board was taken at the outfeed end is the one exception.
rule-started-mouths-unseen-reason = The first lift travel bends a board that lies across a mouth, and a little more cuts it. No beam tells it apart from a board that runs.
rule-started-mouths-unseen-right = Look into the infeed mouth and into the outfeed mouth. Work free what lies across. Look again, then press Start.

rule-started-hands-full = Start only with both hands free and outside, and with the prop out.
rule-started-hands-full-reason = A board in the hand is a board that is not accounted for. A lift that runs against its prop breaks both. A hand inside is hurt.
rule-started-hands-full-right = Take the hand out, put the board down, take the prop out. Then press Start.

## Hands

rule-hands-without-lock = A hand goes in only with the isolator off and your own lock on it.
rule-hands-without-lock-reason = Stop and an open hatch hold an axis back only as long as nobody and nothing resets them. A lock that only you can open does.
rule-hands-without-lock-right = Stop, isolator off, lock on, try Start. Then reach in.

rule-hands-untried = A hand goes in only after Start was tried under lock and nothing moved.
rule-hands-untried-reason = A wrong isolator, or one that does not open, looks just like the right one. Only the try tells.
rule-hands-untried-right = With the lock on, walk to the panel and try Start. If nothing moves, reach in.

rule-hands-while-moving = No hand in the rack, at a mouth or on a belt while anything moves.
rule-hands-while-moving-reason = Axes run down for a while after they are stopped. A lift that coasts can still crush a hand.
rule-hands-while-moving-right = Wait until lift, rails and belts rest. Then reach out.

rule-hands-under-lift = A slot that is reached from under the lift is reached only with the prop set.
rule-hands-under-lift-reason = A vertical axis without power is held by its brake alone. If that slips, the rack comes down on the hand.
rule-hands-under-lift-right = Set the prop under the lift. Then reach for the lowest slots.

rule-hands-ungrounded = Boards are touched only by somebody who is grounded: straps tested, and at the hatch the wrist cord plugged in.
rule-hands-ungrounded-reason = A discharge too small to feel can harm a part. The board passes its test and comes back months later.
rule-hands-ungrounded-right = Test the shoe straps at the start of the shift. Plug the cord into the bonding stud before reaching in.

rule-power-given-early = The lock comes off and the isolator goes on only with the hatch shut and the prop out.
rule-power-given-early-reason = Power makes every axis live. An open hatch says that the work inside is not over. A prop left in is struck by the lift.
rule-power-given-early-right = Prop out, cord out, hatch shut. Then lock off, then isolator on.

## Answers in a clear-out

rule-answered-unseen = Give an answer only with the outfeed mouth seen free since the belts ran. Answer “taken” or “seen empty” only if the slot was seen empty along its whole length.
rule-answered-unseen-reason = “Nothing reached the beam” says nothing of a board that is stuck, turned or matt black. The slot map believes your answer, and every answer sends the lift on: a board across the mouth is cut.
rule-answered-unseen-right = Bend down at the outfeed mouth and look along the slot. What you cannot see, answer “not sure”: it comes round again. If a board lies across the mouth, press Stop and free it by hand, under lock.

rule-answered-untaken = Answer “taken” only if you took a board since the lift came to this slot.
rule-answered-untaken-reason = The answers are the record of where boards were found. A board that nobody took is then looked for in the wrong place.
rule-answered-untaken-right = If no board came and the slot was seen empty, answer “seen empty”.

## Boards

rule-board-put-in = No board is put into the rack during a changeover.
rule-board-put-in-reason = The slot map does not learn of a board that was put in by hand. It lies there until the rails close on it.
rule-board-put-in-right = Put the board into quarantine.

rule-doubtful-board-good = A board goes with the good ones only if no damage shows, the rails have not moved and nothing has cracked.
rule-doubtful-board-good-reason = A board that was bent too far springs back and looks good. Its joints are cracked, and the customer finds out.
rule-doubtful-board-good-right = Put it into quarantine. Somebody with the means to tell will judge it.

## Buttons

rule-emergency-for-stop = The emergency stop is for danger. At rest it is not pressed.
rule-emergency-for-stop-reason = It latches, the reference is lost and the task is forgotten. Used as a switch it wears out, and nobody takes it seriously any more.
rule-emergency-for-stop-right = Press Stop. To work inside, turn the isolator off and lock it.

## Production with a neighbour that may be blocked

rule-started-unasked = Production starts only after downstream was asked to hold, and answered.
rule-started-unasked-reason = Machine Ready is a contact. A jumper, a stuck contact or a wrong plug closes it for nobody. With boards in the rack the first one is sent as soon as the unit runs, against a machine that stands.
rule-started-unasked-right = Look at the machine downstream, then ask its people to hold. Start, and let them go on when they are ready.

rule-production-broken-off = Production is stopped only when nothing moves, upstream holds and the panel shows the rack empty.
rule-production-broken-off-reason = A board that is on its way when the unit stops stays across a mouth, half in one machine and half in the other. The next travel of the lift bends it, and a little more cuts it.
rule-production-broken-off-right = Let the rack drain, ask upstream to hold, wait until everything rests. Then press Stop.

rule-reference-given-up = No emergency stop, no isolator and no hatch while anything moves or boards are in the rack.
rule-reference-given-up-reason = Each of them loses the reference of lift and rails. Production does not start any more then, and the boards inside come out only by a clear-out. Nobody is in danger here: a hand in the machine is a breach of its own.
rule-reference-given-up-right = Look from the outfeed and talk. Let the rack drain first.

rule-hand-in-production = Boards leave by the belts: no hand in the rack, at a mouth or on a belt.
rule-hand-in-production-reason = The slot map still counts a board that was taken by hand. Order and trace are lost. A hand in a machine that runs is hurt.
rule-hand-in-production-right = Talk to downstream, and let the rack drain in its order.

rule-left-production = No product is loaded and no clear-out is chosen while boards are to go out.
rule-left-production-reason = Either makes a changeover the task. The boards are in its way, and nothing sends them.
rule-left-production-right = Stay in mode Production.
