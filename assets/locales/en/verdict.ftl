### What a finding rests on, what an attempt left behind, and what would have been.

## What was so at a breach

finding-true = True was: { $text }
finding-believed = Believed: { $text }
finding-looked = Looked at: { $text }
finding-visible = To be seen: { $text }
finding-same = What was true, believed and to be seen: as at finding { $number }.
evidence-around = The person stood at the { $stand }, { $hand ->
    [0] hands outside
   *[other] a hand in the rack
}. { $isolator } { $hatch } { $moves ->
    [0] nothing moved
   *[other] something moved
}. The rails stood { $width } apart.
evidence-panel = The panel showed unit { $unit }, mode { $mode }, { $loaded } loaded, { $known ->
    [0] no width
   *[other] the rails at { $width }
}.
evidence-board = { $board }, { $place }
evidence-boards = { $boards }.
evidence-map-empty = the slot map showed every slot empty.
evidence-map = the slot map showed { $fulls ->
    [0] no board
    [one] a board in slot { $full }
   *[other] boards in slots { $full }
}{ $unknowns ->
    [0] { "" }
    [one] , and slot { $unknown } as not known
   *[other] , and slots { $unknown } as not known
}.
evidence-looked = { $seen } of { $all } half-slots, by looks that still counted then{ $boards ->
    [0] , with no board among them
    [one] , with { $boards } board among them
   *[other] , with { $boards } boards among them
}.
evidence-not-looked = none of { $all } half-slots, by a look that still counted then.
evidence-visible = { $board }: { $from }.
evidence-hidden = { $board }: from no place at that moment.
evidence-unlooked = A look { $from }, would have shown { $halves ->
    [one] { $halves } half-slot
   *[other] { $halves } half-slots
} more, of { $count ->
    [one] slot
   *[other] slots
} { $slots }.
evidence-all-looked = nothing but what had been looked at.

## Signs of guessing

head-guesses = Signs of guessing. The verdict does not rest on them.
guess-answered-at-once = { $done }, { $after } after the panel asked. To read, look and press is taken to need { $least } at least: a figure of this program, not a measured one.
guess-declared-unlooked = { $done }, without one look into the rack since something moved.

## What the attempt left behind

label-boards = Boards
label-order = Order
label-line = Line
outturn-boards = lost: { $lost }; left on the machine or in hand: { $left }; put into quarantine: { $quarantine }, with the good ones: { $good }, into the scrap bin: { $scrap }
outturn-traced = put into the rack by hand, so that their order is lost: { $put-in }; harmed and put with the good ones, so that nobody finds them: { $untraced }
outturn-line = stood for { $stood }: all time in which the unit did not run in mode Production

## What if

what-if-head = What if, for finding { $finding }: at { $at } not “{ $done }” but “{ $instead }”. The rest goes by the procedure, and the neighbours choose nothing more by themselves.
what-if-before = That is before the finding: from the finding itself the procedure knows no way on, because something earlier was wrong already.
what-if-nothing = waiting
what-if-ended = It would have ended: { $verdict }
what-if-earlier = What was broken before that moment stays broken.
what-if-breaks = Done by the procedure, a rule is broken after that moment.
what-if-journal = As a journal, from there on:
what-if-no-number = “{ $typed }” is no number of a finding. Write the number that stands at the finding, such as 1.
what-if-no-finding = There is no finding { $finding }. { $findings ->
    [0] This attempt has no finding.
    [one] This attempt has one finding.
   *[other] This attempt has { $findings } findings.
}
what-if-no-way = From finding { $finding } the procedure knows no way on.

## Many attempts, and grading again

grade-none = There is no attempt in { $path }: no file in it ends in .attempt. There is no verdict.
grade-file = { $path }: { $verdict }
grade-file-not-graded = not graded
grade-tally = Passed: { $passed }. Failed: { $failed }. Not ended: { $not-ended }. Not graded: { $not-graded }.
again-head = By the rules and the procedure of today { $attempts ->
    [one] { $attempts } attempt was graded again
   *[other] { $attempts } attempts were graded again
}. What happened stands as it was recorded, and so do the verdicts above. { $flips ->
    [0] No verdict flips.
    [one] One verdict flips:
   *[other] { $flips } verdicts flip:
}
again-unreadable = { $attempts ->
    [one] { $attempts } attempt
   *[other] { $attempts } attempts
} cannot be graded by the rules and the procedure of today: these have problems, or do not fit what the attempts keep. Put right what stands below, then grade again. The verdicts above stand.
again-flip = { $path }: { $before } becomes { $after }.
again-now = Broken now: { $rules }.
again-not-now = Not broken any more: { $rules }.
again-rule = { $rule } ({ $severity })
again-passed = passed
again-failed = failed
again-not-ended = not ended

## Attempts that come out otherwise in this version

differs-another-core = Another core recorded it: what machine, drill or rules compute has changed since. The recorded outcomes stand.
differs-this-core = It says that the core of this version recorded it, but that core computes something else. So it is not the record of a run: it was made up or changed. Its outcomes do not stand.
differs-unsaid-core = It does not say which core recorded it. The recorded outcomes stand.
differs-recorded = By the recorded outcomes: { $verdict }. This version cannot confirm them.
differs-recorded-open = The recorded outcomes show nothing that fails it. They do not show whether the finish was reached, so there is no verdict by the record.
differs-computed = The same doings in this version: { $verdict }.
differs-flips = By the same doings the verdict would flip. It does not flip.
differs-same = The verdict is the same.
differs-stuck = This version cannot run it to its end: what was done on line { $line } cannot be done there. It gives no verdict of its own.
differs-harms-now = Harm now: { $harms }.
differs-harms-not-now = No harm any more: { $harms }.
differs-open-now = Open now at the end: { $items }
differs-open-not-now = Not open any more: { $items }
differs-head = { $attempts ->
    [one] { $attempts } attempt comes out
   *[other] { $attempts } attempts come out
} otherwise in this version. { $unknown ->
    [0] {""}
    [one] Of one, a verdict is missing on one side.
   *[other] Of { $unknown }, a verdict is missing on one side.
} { $flips ->
    [0] No verdict would flip.
    [one] One verdict would flip:
   *[other] { $flips } verdicts would flip:
} What was recorded by another core stands.
