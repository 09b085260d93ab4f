### What can be wrong in formulas with a window or a width, what there can be too much of, and margins.
### problem-*: what was found. expected-*: what should stand there. hint-*: what may help.

## Windows

problem-window-two = This operator has two windows.
expected-window-one = Either within_s or ago_s.
problem-window-none = This operator has no window, though it is written like one that has.
hint-window-none = Without a window it is written { $form }.
problem-window-grid = This window is not a whole number of tenths of a second.
expected-window-grid = A time such as 0.4 or 12.0.

## Widths

problem-width-itself = A width is compared with itself.
expected-width-other = Another width to count from, or none.
hint-width-itself = Without over the width is compared with mm alone: AtLeast(width: Counted, mm: 50.0).

## What judges nothing

problem-rules-none = There is no rule here.
hint-rules-none = Without a rule every attempt that reaches the finish without harm passes, however it got there.
problem-rule-unbreakable = Nobody can break the rule “{ $name }”: its formula holds whatever is done and whatever comes.
hint-rule-unbreakable = Such a rule judges nothing. Perhaps a Not is missing, or two parts never hold at one moment: an intent comes alone, and a sign comes after it. Previously, Once and Since look back.
problem-rule-unkeepable = Nobody can keep the rule “{ $name }”: its formula does not hold after anything that is done.
hint-rule-unkeepable = Every attempt would break it. What is asked of one intent alone is written Implies(Did(Start), a).
problem-no-steps = There is no step here: nobody can be guided by this procedure.
hint-no-steps = Write each step as Step(name: "NAME", when: FORMULA, do: INTENT). The last one reports the job done.
problem-no-done = Nothing here says when a step is done: no attempt can be laid beside this procedure.
hint-no-done = Write each step as Done(step: "NAME", when: FORMULA), and its order under “analysis”.
problem-step-always = Nobody can complete the step “{ $name }”: its condition always holds, and a step is completed when its condition begins to hold.
hint-step-always = Ask for what begins: something that is done, a sign, or a condition that does not hold from the start.
problem-step-never = Nobody can complete the step “{ $name }”: its condition never holds.
hint-step-never = An intent and a sign never come at one moment: an intent comes alone, and a sign comes after it. Previously, Once and Since look back.

## Limits. Each names what to do.

problem-no-source = A rule rests on a source, and none is named here.
expected-source = A standard, a handbook, “common practice”, or “from memory”.
problem-rules-many = There are more than { $most } rules.
hint-rules-many = Join rules of one severity and one reason, or make two rule files.
hint-formula-too-large = Write a part that returns in the same words each time, or take something out: equal parts count once.
problem-set-operators-many = The formulas have more than { $most } operators over sets in all.
hint-set-operators-many = Turn a set into a yes or no early, with Every, Some or AtBelts.
problem-bits-many = The formulas have more than { $most } operators over time in all.
hint-bits-many = Let rules share definitions: equal operators over the same formulas remember once.
problem-sets-many = The formulas remember more than { $most } sets of half-slots.
hint-sets-many = Let rules share definitions, or put Every, Some or AtBelts inside Since.
problem-windows-many = The formulas have more than { $most } windows in all.
hint-windows-many = Let rules share windows: equal ones over the same formulas count once.
problem-set-windows-many = Windows over sets need more than { $most } clocks in all: one over half-slots takes 80, over whole slots 40, over whole sides 2.
hint-set-windows-many = Put WholeSlots or PartSlots inside the window, or Every, Some or AtBelts: then it needs fewer clocks, or one.
problem-comparisons-many = The formulas compare widths in more than { $most } ways.
hint-comparisons-many = Let rules share comparisons: equal ones count once.
problem-memory-large = The formulas remember more than { $most } bits in all.
hint-memory-large = Fewer sets help most: one set of the largest rack takes 80 bits, a window some 25.
problem-nesting-deep = Formulas stand in each other more than { $most } deep, definitions counted in.
hint-nesting-deep = Use And and Or with long lists instead of lists in lists.

## Margins

head-margins = Rules with a time or a width: how near it was
margin-kept = { $rule } Time to spare at the nearest: { $time }.
margin-missed = { $rule } Missed by { $time }.
margin-width-kept = { $rule } At the nearest { $read }: { $by } to spare, { $limit }.
margin-width-missed = { $rule } Missed at { $read }: { $beyond }.
# In the two above, and by itself in a finding. $by is a length without a sign.
margin-beyond-least = { $by } under the limit of { $limit }
margin-beyond-most = { $by } over the limit of { $limit }
margin-limit-least = at least { $limit }
margin-limit-most = at most { $limit }
finding-missed-width = { $read } was read: { $beyond }.
finding-missed-time = Missed by { $time }.
finding-unread-width = Not kept, because { $width } could not be read: { $why }. A width that nobody can read is neither large enough nor small enough.
width-counted = the width by step count
width-measured = the width by the width sensor
width-wanted = the width that the rails are sent to
width-loaded-stored = the stored width of the loaded product
width-next-stored = the stored width of the next product
width-typed = the width on the page
unread-panel-dark = the panel was dark
unread-rails-move = the rails moved
unread-count-unknown = the step count was lost, by a stop or without power, and the rails had not been to zero since
unread-no-sensor = this machine has no width sensor
unread-nothing-typed = nothing was typed there
