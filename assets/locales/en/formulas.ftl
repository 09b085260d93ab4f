### What can be wrong in formulas with a window, what there can be too much of, and margins.
### problem-*: what was found. expected-*: what should stand there. hint-*: what may help.

## Windows

problem-window-two = This operator has two windows.
expected-window-one = Either within_s or ago_s.
problem-window-grid = This window is not a whole number of tenths of a second.
expected-window-grid = A time such as 0.4 or 12.0.
problem-window-set = A window stands over a set of half-slots. It would need a clock for each of them.
hint-window-set = Put Every, Some or AtBelts inside the window: Once(within_s: 5.0, of: Every(…)).

## Limits. Each names what to do.

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
problem-memory-large = The formulas remember more than { $most } bits in all.
hint-memory-large = Fewer sets help most: one set of the largest rack takes 80 bits, a window some 25.
problem-nesting-deep = Formulas stand in each other more than { $most } deep, definitions counted in.
hint-nesting-deep = Use And and Or with long lists instead of lists in lists.

## Margins

head-margins = Rules with a window: how near it was
margin-kept = { $rule } Time to spare at the nearest: { $time }.
margin-missed = { $rule } Missed by { $time }.
