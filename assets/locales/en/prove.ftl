### What `prove` says.

prove-nothing = Nothing was proved.
prove-about = What was typed for { $words }:
prove-no-such = there is no such file, and no drill of that name. Known by name are: { $names }.
prove-no-such-near = there is no such file, and no drill of that name. Perhaps “{ $near }” is meant. Known by name are: { $names }.
prove-no-drill = There is no drill in { $paths }. Name a drill file, or a folder with one.
prove-other = { $path } is no drill: its record is “{ $kind }”. Name the file of a drill.
prove-not-begun = { $drill }: not begun, for somebody ended the searches before.
prove-no-variant = There is no variant “{ $name }”. Known are: { $names }.
prove-no-variant-near = There is no variant “{ $name }”. Perhaps “{ $near }” is meant. Known are: { $names }.
prove-rules-large = { $drill }: its rules have windows over sets that remember more than a key of a state can hold. Nothing was proved. Attempts are graded by them all the same. Put WholeSlots, Every or AtBelts inside the windows to have it proved.
prove-head = { $drill }: { $variants ->
    [one] variant { $names }
   *[other] { $variants } variants ({ $names })
}, racks of { $sizes } slots. Every offer at every event, at every point of no return, and once in each interval between. Bounds: at most { $notsure ->
    [one] 1 slot
   *[other] { $notsure } slots
} left “not sure” at a time, at most { $boards ->
    [one] 1 board
   *[other] { $boards } boards
} in all, those that upstream has left included.
prove-texts = The hashes of its texts begin with: machine { $name } { $machine }, drill { $drill }, rules { $rules }, procedure { $procedure }; that of the program’s own core with { $core }.
prove-head-unordered = { $drill }: { $variants ->
    [one] variant { $names }
   *[other] { $variants } variants ({ $names })
}, racks of { $sizes } slots. Every offer at every event, at every point of no return, and once in each interval between. Bounds: at most { $boards } boards in all, those that upstream has left included.
prove-levels = Level 4 is exact, level 5 squeezes runs of alike slots as well, level 6 forgets the order of slots.
prove-level-exact = Level 4, exact: what was merged behaves alike step by step, and every way that is found is played as it is.
prove-level-squeezed = Level 5, squeezed: how many slots that are empty and alike lie in a row does not count, nor at which of them the lift stands. A way that is found is played on the machine as it is, with as many rounds more as it has slots more. Where the lift is stopped on a long way, that may be at another slot: then the exact search is asked for a way.
prove-level-faults = Level 5 was asked for, and nothing was squeezed: what is wrong with the machine has its place, or a clock of a rule or of a neighbour runs beside the lift. Level 4, exact: what was merged behaves alike step by step.
prove-level-unordered = Level 6, the order of slots forgotten, slot 1 kept apart: for racks with many boards. More can be done here than on the machine, so that nothing found shows that there is nothing; it can show that the rules suffice and that the drill is fair. What is found counts once it was played on the machine as it is. How many slots are left “not sure” has no bound here.
prove-level-ordered = Level 6 was asked for, and the order of slots was kept: something hangs on their places. That is so with faults, windows in rules, neighbours that do something by themselves, rules that ask of a slot what it is or was, the pages for machine settings and for commands, tall parts, two boards in a slot, clear glass, and slots that a product passes over. Level 4, exact: what was merged behaves alike step by step. The claims are those of level 6.
prove-outside-forms = Outside the forms of evidence: the rule “{ $rule }”, at { $place } “{ $formula }”. It asks more than whether the evidence is whole (Every) and what it says of the slot at the belts (AtBelts). So level 1 is off for it: a search remembers it of all of its { $halves } half-slots on { $slots } slots, and each that can differ may double the states. The claims mean what they did. To mend it, ask Every(…) or AtBelts(…) of a Since or Once, without a window, of SeenEmpty, SeenBoard, Answered or ReachedFor alone.
prove-searched = { $slots } slots, { $variant }: { $states } states, { $steps } steps, { $memory } MB, { $seconds } s, complete.
prove-search-bound = { $slots } slots, { $variant }: stopped at { $states } states, { $steps } steps, { $memory } MB, { $seconds } s. Not proved within the bounds.
prove-search-ended = { $slots } slots, { $variant }: ended by somebody after { $states ->
    [one] 1 state
   *[other] { $states } states
}, { $steps } steps, { $memory } MB, { $seconds } s.
prove-search-incongruent = { $slots } slots, { $variant }: stopped at { $states } states, { $steps } steps, { $memory } MB, { $seconds } s. Two states that were merged behave differently.

prove-sizes = { $count ->
    [one] Variant { $variants }, every rule kept:
   *[other] { $count } variants at once ({ $variants }), every rule kept:
}
prove-sizes-whole = { $searches ->
    [one] One search on { $workers } cores, { $seconds } s in all.
   *[other] { $searches } searches one after the other, each on { $workers } cores, { $seconds } s in all.
}
prove-size = { $slots } slots: { $states } states ({ $factor } times the first), { $steps } steps, { $memory } MB, { $seconds } s.
prove-size-bound = { $slots } slots: stopped at { $states } states ({ $factor } times the first), { $steps } steps, { $memory } MB, { $seconds } s. Beyond the bounds.
prove-size-ended = { $slots } slots: ended by somebody at { $states } states ({ $factor } times the first), { $steps } steps, { $memory } MB, { $seconds } s.
prove-sizes-ended = Ended before its time: { $done } of { $searches } searches were done to their end.
prove-size-incongruent = { $slots } slots: stopped at { $states } states ({ $factor } times the first), { $steps } steps, { $memory } MB, { $seconds } s. Two states that were merged behave differently.

prove-facts = What each fact multiplies the states of { $variant } by, on { $slots } slots: { $list }.
prove-facts-many = On { $slots } slots { $variant } has too many states to count them without each fact.

prove-holds = holds
prove-fails = fails
prove-doubt = not proved by level 6
prove-not-asked = Not shown at level 6, whatever comes out: { $claims }.
prove-claim-rules-suffice = Rules suffice: no attempt that keeps the rules does harm, whatever the neighbours do.
prove-claim-fair = Fair: every attempt that keeps the rules and finishes passes, and there are some.
prove-claim-sound = Sound: no attempt passes that broke a stop rule or did harm, and all that the drill wants at the end is true then.
prove-claim-fair-start = Fair start: the neighbours alone do no harm before the trainee acts.
prove-claim-no-corner = No corner: from wherever the rules were kept the trainee can still finish, whatever the neighbours choose.
prove-claim-machine = Machine: nothing is driven when stopped, Machine Ready is open while lift or rails move, declare needs the key; by plain steps too, on the smallest rack and within their bound.
prove-claim-guide = Guide: it knows signs only, and finishes and passes every variant by each way, whatever the neighbours choose.
prove-claim-congruent = Congruent: states that were merged behave alike, wherever it was checked.
prove-claim-milestones = Milestones: each thing that the drill is about happens in an attempt that passes.
prove-claim-harms = Harms: each harm that the drill speaks of can happen when the rules are off.
prove-milestones = Milestones, and how many of the guide’s runs that pass meet them:
prove-milestone = { $name } { $visits } of { $runs }.
prove-milestone-missing = Not met: { $name }
prove-harm-missing = Not reached with the rules off: { $kind }

prove-claim-needed = Needed: without each rule that can be broken harm is done, or a corner is reached, or it rests on a source from outside, or it names a mistake early.
prove-claim-offers = Offers: what is on offer is allowed somewhere, but for what the drill lists as always wrong.
prove-claim-traps = Live traps: each trap is armed in some variant, and springs.
prove-claim-choices = Choices: what the neighbours may do when they like, and what may go wrong by chance, can come up in each variant that has it.
prove-claim-races = Races: no two timers of the machine run at once but those that the drill names.
prove-races = Timers of the machine that run at once:
prove-race = { $one } and { $other }: in { $states } states, named by the drill.
prove-race-undeclared = { $one } and { $other }: in { $states } states, and the drill does not name them. Find out which may end first and what comes of it, then add Both({ $one }, { $other }) to its races.
prove-race-none = None.
prove-race-unmet = { $one } and { $other }: named by the drill, and never met. Take them out.
prove-decisive = Moments between two events that decide what an act comes to:
prove-decisive-lift = Lift
prove-decisive-rails = Rails
prove-decisive-belts = Belts
prove-decisive-upstream = Upstream’s board
prove-decisive-line = { $source }: ahead of { $states } states, at most { $most } at a time. Broken off by: { $list }.
prove-decisive-chance = { $source }: ahead of { $states } states, at most { $most } at a time.
prove-decisive-none = { $source }: none.
prove-needs = Without each rule, all others kept but those that only name a mistake early:
prove-need-harm = “{ $rule }” First broken in { $states } states; without it harm is done in { $variant }.
prove-need-corner = “{ $rule }” First broken in { $states } states; without it a corner is reached in { $variant }, and no harm was found.
prove-need-source = “{ $rule }” First broken in { $states } states; without it no harm was found on the smallest rack, it rests on its source.
prove-need-early = “{ $rule }” First broken in { $states } states; the others would keep harm away, it names the mistake early.
prove-need-incongruent = Without “{ $rule }” two states that were merged behave differently, in { $variant }: the proof merges what it must not.
prove-need-untested = “{ $rule }” Not tested here, no attempt that keeps the others breaks it.
prove-need-none = “{ $rule }” First broken in { $states } states; without it nothing turns. Take it out, or name its source.
prove-traps = Traps:
prove-trap-sprung = “{ $trap }” Armed in { $count ->
    [one] 1 variant
   *[other] { $count } variants
}, sprung in { $variant } on { $slots } slots by { $steps ->
    [one] 1 cause
   *[other] { $steps } causes
}.
prove-trap-dead = { $trap }: listed by { $count ->
    [0] no variant
    [one] 1 variant
   *[other] { $count } variants
}, and no way was found that springs it.
prove-always-wrong = On offer, and against a rule wherever it is: { $list }.
prove-choices = What may happen by choice of the neighbours, or go wrong by chance:
prove-choice = { $chance }: comes up in { $count ->
    [one] 1 variant
   *[other] { $count } variants
}.
prove-choice-never = { $chance }: never comes up in { $never }, while the rules are kept.
prove-choice-unlisted = { $chance }: no variant has it.
prove-way-harm = { $slots } slots, { $variant }: a harm with every rule kept. A shortest way to it:
prove-way-unplayed = { $slots } slots, { $variant }: found with the order of slots forgotten, and no way to it was found on the machine as it is. Not proved by level 6: it may be no more than what was forgotten. Level 4 or 5 can tell, on a smaller rack.
prove-way-unfair = { $slots } slots, { $variant }: finished with every rule kept, and not passed. A shortest way to it:
prove-way-incongruent = { $slots } slots, { $variant }: two states that were merged behave differently. A way to it:
prove-way-unsound = { $slots } slots, { $variant }: passed, and it should not. A shortest way to it:
prove-way-start = { $slots } slots, { $variant }: the neighbours alone do harm. A shortest way to it:
prove-way-machine = { $slots } slots, { $variant }: the machine is as no machine may be. A shortest way to it:
prove-way-machine-plain = { $slots } slots, by plain steps: the machine is as no machine may be. A shortest way to it, on one of the variants:
prove-way-corner = { $slots } slots, { $variant }: every rule was kept, and no safe finish can be reached for sure any more. A shortest way to it:

prove-too-large = The search stopped at its most states. What fails above was found before that; what is open was not searched to its end. Fewer states come of fewer boards, of a lower bound on slots left “not sure”, and of fewer products, faults and open pages.
prove-too-large-exact = Where slots are alike, “--level 5” squeezes them, and for a full rack “--level 6” shows that the rules suffice and that the drill is fair.
prove-too-large-squeezed = For a full rack “--level 6” shows that the rules suffice and that the drill is fair.
prove-stopped-incongruent = The search stopped where two states that were merged behave differently; a way to them stands below. The program merges there what it must not, so that what was searched shows nothing, and what is open was not searched to its end. Report it with the drill. Another “--level” merges other states.
prove-too-large-forms = Mend first what lies outside the forms of evidence.

prove-mend-rules-suffice = To mend: the way to the harm stands below. Add a rule that forbids its last free choice, or make the machine or the start one that cannot come to it.
prove-mend-fair = To mend: where a way stands below, the finish asks for what the rules do not let come about, or the limits are too tight. Where none does, nobody who keeps the rules can finish: look at “No corner” and “Guide”.
prove-mend-sound = To mend: the way stands below. What it ends with must be a stop rule, or part of the finish.
prove-mend-fair-start = To mend: the way stands below. Begin the variant with other boards, or let the neighbours do less.
prove-mend-no-corner = To mend: the way stands below. At its end some rule forbids the only way on, or a neighbour never lets it come: make the rule let it pass, or forbid the step that leads there.
prove-mend-machine = To mend: the way stands below. The machine does what no machine may: look at its behaviours, then at the program.
prove-mend-races = To mend: see the timers below.
prove-mend-guide = To mend: see the reference times below. The procedure lacks a step there, or its conditions read a sign that does not come.
prove-mend-congruent = To mend: the program is wrong here, not the drill. Nothing else here can be relied on; report it with the drill.
prove-mend-milestones = To mend: see what is not met below. Add a variant or a way in which it happens, or take the milestone out.
prove-mend-harms = To mend: see what is not reached below. Name in “harms” what the drill speaks of, or let it be possible: with a start or a product that can come to it.
prove-mend-needed = To mend: see the rules below.
prove-mend-traps = To mend: see the traps below. Let a variant arm it, or write “sprung” so that a trainee can come to it.
prove-mend-offers = To mend: see below what is on offer and never right. List it in “always_wrong”, or mend the rule that forbids it everywhere.
prove-mend-choices = To mend: see below what never comes up. Begin the variant so that it can, list it in one, or take it out of the drill: nobody trains for it here.

prove-total = { $states } states, { $steps } steps. { $checked } landings checked for congruence. { $beyond } states lie beyond the bound of slots left “not sure” and were not followed.
prove-times = Reference times, by the guide with the neighbours quiet:
prove-time = { $variant }, { $way }: { $time } ({ $runs ->
    [one] 1 run
   *[other] { $runs } runs
} against the neighbours)
prove-guide-failed = { $variant }, { $way }: the guide did not finish or did not pass in one of { $runs } runs.
prove-took = { $seconds } s in all.
prove-proved = { $drill }: every claim holds within the bounds.
prove-proved-unordered = { $drill }: by level 6 the rules suffice and the drill is fair, within the bounds. The rest is not shown, and no exam is taken on this alone.
prove-not-proved = { $drill }: not proved. See what fails or is open above.
prove-scope = What this shows: the claims above, within the bounds above, for these rules, this procedure and this machine file. What it does not show: that the machine in the hall is as its file says; and that a machine made wrong would be found out, which the tests of this program try, not this proof.
