### What can be wrong in machine, drill, rule and procedure files, beyond their form.
### problem-*: what was found. expected-*: what should stand there. hint-*: what may help.

## Any of them

problem-unknown-name = “{ $name }” is not known here.
problem-name-twice = The name “{ $name }” is given twice.
expected-one-of = One of { $names }.

## Machine files

problem-braking = The braking is { $braking } mm/s², less than the acceleration.
expected-braking = At least the acceleration: { $acceleration } mm/s².
problem-ramp = The ramp up to { $speed } mm/s takes more than 4 s.
expected-ramp = A speed of at most { $most } mm/s at this acceleration.
problem-jerk = With a jerk of { $jerk } mm/s³ the ramp up to { $speed } mm/s takes more than 4 s.
expected-jerk = A jerk of at least { $least } mm/s³ at this speed and acceleration.
expected-jerk-none = No limit of jerk, or a speed below { $speed } mm/s at this acceleration.
problem-beam-up = This beam does not look down.
expected-beam-down = A start that is higher than the place it looks at.
problem-places = The number of values is { $count }.
expected-places = Number of values: { $count }.
problem-board-too-long = The board “{ $board }” is { $length } mm long, too long for a half of a slot.
expected-board-length = A length of at most { $most } mm in this rack.
problem-board-and-belts = The board “{ $board }” is { $length } mm long, which does not go with the belts.
expected-board-and-belts = It fits on the infeed belt with its clearance at both ends, and three of them in a row are longer than the outfeed belt.
hint-board-and-belts = Change the length of the board or of a belt.
problem-width-beyond-travel = Product “{ $product }” is { $width } mm wide, beyond the travel of the rails.
expected-width-travel = A width that with its side play is from { $least } mm to { $most } mm.
problem-rails-order = The least width between the rails is { $least } mm, and the greatest { $most } mm: they have no travel.
expected-rails-order = A least width that is smaller than the greatest.
problem-play-over-ledge = The side play of { $play } mm is more than the ledge of { $ledge } mm: between rails at their right width each board would fall.
expected-play = A side play of at most { $most } mm, as much as the ledge.
hint-play-over-ledge = Measure both again. The ledge stands under rack, in ledge_mm.
problem-strain-order = The board breaks at { $break } microstrain, before its joints crack.
expected-strain-order = At least { $least } microstrain, more than the strain limit.
problem-window-outside-board = The window does not lie inside its board, or a side of it ends before it begins.
expected-window = Along the flow two places from 0 to { $length } mm, across it from 0 to { $width } mm, the smaller first.
problem-window-through = The window goes through its board from edge to edge: the board would be in pieces.
expected-window-inside = A window that is shorter than { $length } mm along the flow and narrower than { $width } mm across it.
problem-ends-first = It begins at { $from } mm and ends at { $to } mm.
expected-ends-behind = Two places, the smaller first.
problem-reached-beyond-rack = Hands reach { $reached } slots from under the lift, more than there are.
expected-slots-reached = At most { $most } slots.
problem-no-panel = The panel is reached from no place: nothing could be pressed.
expected-panel = At least one place, such as Panel.
problem-no-emergency-stop = An emergency stop is reached from no place.
problem-board-thicker-than-pitch = The board “{ $board }” is { $thickness } mm thick, and the slots are { $pitch } mm apart: a board in one slot would lie in the next as well.
expected-pitch-over-board = A pitch of more than { $thickness } mm.
problem-board-and-rails = The board “{ $board }” is { $width } mm wide: it lies between the rails at no width that they reach.
expected-board-and-rails = A width from { $least } mm, at which it just lies on both ledges, to { $most } mm.
problem-hatch-eye-in-rack = The eye that leans in to the { $side } side is { $at } mm behind the fixed rail, inside the rack.
problem-posts-in-rack = The posts of the hatch stand { $at } mm behind the fixed rail, inside the rack.
expected-before-rack = A place below 0: the hatch is before the fixed rail.
problem-mouth-eye-in-rack = The eye at the { $side } mouth is { $at } mm along the flow, not outside the rack at that end.
expected-eye-before-end = A first place below 0, before the rack.
expected-eye-behind-end = A first place of more than { $end } mm, behind the rack.
problem-mouth-eye-below = The eye at the { $side } mouth is { $at } mm above the slot at the belts: from there no board is seen.
expected-eye-above = A third place of more than 0 mm.
problem-looks-beside-rack = A look tests places from { $from } mm to { $to } mm from the fixed rail, and not all of them lie in the rack.
expected-looks-in-rack = Two places from 0 to less than { $most } mm, the greatest width between the rails.
problem-board-never-seen = No look through the hatch shows the board “{ $board }” where it rests in the { $side } half of a slot: it covers none of the places that a look tests.
expected-board-seen = A board that covers one of them: { $along } mm along the flow, { $across } mm from the fixed rail.
problem-mouth-order = At a mouth a board is cut before it is bent.

## Drill files

problem-no-machine = There is no machine “{ $name }”.
hint-no-machine = A machine has the name of its file: { $name }.ron.
problem-no-rules = There are no rules “{ $name }”.
hint-no-rules = Rules have the name of their file, in assets/rules: { $name }.ron.
problem-no-trap = The variant “{ $variant }” lists no trap.
expected-trap = At least one trap in each variant.
problem-trap-not-armed = The variant “{ $variant }” lists the trap “{ $trap }”, but its boards do not arm it.
problem-trap-not-listed = The boards of the variant “{ $variant }” arm the trap “{ $trap }”, but it is not listed.
problem-ready-twice = Here “downstream_ready” says when downstream's Machine Ready is closed, and “downstream” says it too.
hint-ready-twice = Leave “downstream_ready” out where “downstream” is described.
problem-opens-too-late = Downstream's signal opens later than its next board may come.
expected-opens-late = At most its cycle. Only a neighbour that works by the clock opens late.
problem-time-off-grid = { $time } s is no time of a drill.
expected-time-on-grid = Times of a drill in whole steps of { $grid } s: { $below } or { $above }.
hint-time-on-grid = Clocks of neighbours and faults that never meet the same way twice give a proof new states for ever. For a trainee rounded ones are the same.
problem-upstream-no-board = Upstream is described, and no kind of board is left over there.
expected-upstream-board = The kind of its boards under “leftover”.
problem-slot-beyond-rack = There is no slot { $slot } in this rack.
expected-slot = A slot from 1 to { $most }.
problem-place-taken = The variant “{ $variant }” puts two boards into one half of slot { $slot }.
problem-parts-meet = In the variant “{ $variant }” the parts of a board in slot { $slot } meet those of one in slot { $other }.
expected-parts-free = Slots so far apart that thickness, parts above and parts below fit between them.
problem-board-does-not-fit = In the variant “{ $variant }” a { $board } does not lie between the rails of the start.
expected-board-fits = A board that fits a width of { $width } mm and does not fall.
problem-setting-refused = The machine refuses a setting.
expected-setting = Settings that this machine takes: at most { $slots } slots, and nothing for a fitting that is not there.
problem-asked-answered = The panel asks about slot { $slot }, and that was answered for.

## Rule and procedure files

problem-unknown-operator = “{ $operator }” is not an operator of formulas.
problem-operator-form = “{ $operator }” is not written like this.
expected-form = { $form }
expected-forms = { $form }, or with a window { $window }
problem-no-formula = This is not a formula.
expected-operator = One of { $names }.
problem-formula-kind = This gives a set of half-slots.
expected-truth = A yes or a no, such as Every, Some or AtBelts of the set.
problem-unknown-definition = There is no definition “{ $name }”.
problem-definition-circle = The definition “{ $name }” leads back to itself.
problem-formula-too-large = The formulas have more than { $most } operators in all.
problem-no-part = This is not a part of a task analysis.
expected-part = One of { $names }.
problem-part-form = “{ $part }” is not written like this.
problem-unknown-step = There is no step “{ $name }” under “done”.
problem-step-unused = The step “{ $name }” stands nowhere in the analysis.
problem-step-for-some = The step “{ $name }” stands inside ForEach and outside it.
expected-step-for-some = A step of its own for what is done for each slot.
problem-step-shared = The step “{ $name }” stands in two parts of one AnyOrder.
expected-step-shared = Parts without a step in common, so that each step shows which part it belongs to.
problem-one-of-none = There is nothing to choose from.
problem-each-in-each = A ForEach stands inside another.
problem-analysis-deep = The parts of the task analysis stand in each other more than { $most } deep.
hint-analysis-deep = A Sequence inside a Sequence, or a OneOf inside a OneOf, can be one longer list.
problem-analysis-steps = The task analysis has more than { $most } parts where order counts.
hint-analysis-steps = What is done for each slot stands once, in ForEach. What is done again stands once, in Repeat.
problem-analysis-labels = The task analysis has more than { $most } steps, those for each slot counted for every slot.
hint-analysis-labels = Join steps that are only ever done together.
problem-analysis-blocks = AnyOrder and ForEach stand in the task analysis more than { $most } times. Inside ForEach they count once for each group of slots for which other conditions may hold, and each When there doubles the groups.
hint-analysis-blocks = Take AnyOrder out of ForEach, or have fewer When beside it.
problem-no-way = This procedure has no way.
expected-way = At least one name, such as “by-hand”. Where there is one way alone, every step belongs to it.
problem-unknown-way = There is no way “{ $name }” in this procedure.

## Standards, limits, critical steps

problem-finish-steps-only = The standard names steps alone. Who did them would pass, whatever became of the job.
expected-finish-outcome = At least one outcome: { $names }.
problem-limit-too-short = Nobody can keep this limit of time.
expected-limit-from = At least { $minutes } min: so long the guide takes at its slowest.
problem-critical-without = Nothing stands behind this critical step.
problem-no-backing = This is nothing that makes a step critical.
expected-backing = Rule("NAME") with a rule of severity Stop, or Harm(KIND).
problem-unknown-rule = There is no rule “{ $name }”.
problem-critical-not-stop = The rule “{ $name }” does not fail who breaks it, so that it makes no step critical.
problem-race = This names no two timers.
expected-race = Both(Lift, ReadyOpen): two timers of the machine that may run at once.
problem-race-none = These are no race.
hint-race-none = A race is between two different timers of the machine. Declare is the person’s, and may run beside any.
