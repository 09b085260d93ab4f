### The verdict on an attempt, with its evidence.

## Files that are not graded

# The same words; the name is the state that a program is told.
grade-unread = { file-not-read }
grade-cut-off =
    { $path } was cut off. { $causes ->
        [one] { $causes } cause is whole.
       *[other] { $causes } causes are whole.
    } It has not ended, so there is no verdict. Go on with:
    rackproof play --resume { $path }
grade-cut-off-head = { $path } is empty, or was cut off in its first line. What was played is not in it, so there is no verdict, and nothing to go on with.
grade-edited = { $path } was changed after it was written: { $line ->
    [1] its first line is not the one that was written
   *[other] line { $line } does not fit the lines before it
}. There is no verdict.
grade-foreign = { $path } is not an attempt: it does not begin like one. There is no verdict.
grade-later = { $path } is an attempt in form { $format }, which is later than this program. There is no verdict. Use a later version.
grade-unreadable = { $path } keeps texts that this program cannot read. There is no verdict.
grade-differs = { $path } comes out otherwise in this version, first on line { $line }. It was written by version { $program }. There is no new verdict. Recorded: { $recorded ->
    [nothing] nothing
   *[other] “{ $recorded }”
}. Computed: { $computed ->
    [nothing] nothing
   *[other] “{ $computed }”
}.
grade-other-drill = { $path } says that it is of drill “{ $drill }”, variant “{ $variant }”. The texts that it keeps are of another drill, or have no such variant. So it is not the record of a run: it was made up or changed. There is no verdict.

## Head and verdict

grade-head = { $drill }, variant { $variant }, { $mode }, { $proved }{ $hints ->
    [0] {""}
    [one] , { $hints } hint
   *[other] , { $hints } hints
}{ $ways ->
    [0] {""}
    [one] , a way on asked for once
   *[other] , a way on asked for { $ways } times
}
grade-proved = proved
grade-not-proved = not proved
verdict-passed = PASSED
verdict-failed = FAILED
verdict-because-passed = The finish was reached, nobody and nothing was harmed, no stop rule was broken{ $majors ->
    [0] , and no major rule
    [one] . A major rule was broken once: this drill allows { $allowed }
   *[other] . Major rules were broken { $majors } times: this drill allows { $allowed }
}.
verdict-because-stop = { $stops ->
    [one] A stop rule was broken.
   *[other] Stop rules were broken { $stops } times.
} { $harms ->
    [0] That nothing came of it makes no difference.
   *[other] {""}
}
verdict-because-harm = Harm was done.
verdict-because-harm-kept = Harm was done, and no stop rule and no major rule was broken before it. So the rules do not show whose harm it is: the trainee’s, a neighbour’s, or that of something broken. Look at the findings before you hold it against anybody.
verdict-because-majors = { $majors ->
    [one] A major rule was broken
   *[other] Major rules were broken { $majors } times
}: this drill allows { $allowed ->
    [0] none
    [one] it once
   *[other] it { $allowed } times
}.
verdict-because-open = The finish was not reached: { $open ->
    [one] one thing is open
   *[other] { $open } things are open
} at the end.
verdict-not-ended = NOT ENDED. The job was not reported done, so there is no verdict.

## The three questions

label-safety = Safety
label-procedure = Procedure
label-result = Result
label-time = Time
question-safety = { $stops ->
    [0] rules broken: 0 stop, { $majors } major, { $minors } minor
   *[other] rules broken: { $stops } stop, { $majors } major, { $minors } minor. One stop fails an attempt.
}
question-procedure = nearest way, { $way }: { $done } { $done ->
    [one] step
   *[other] steps
} done, { $missing } missing{ $moved ->
    [0] {""}
   *[other] , { $moved } out of order
}{ $unneeded ->
    [0] {""}
   *[other] , { $unneeded } not needed
}
question-procedure-too-long = more than 1,000 steps were completed. So many are not laid beside a way: nothing is said of missing or moved steps, certain or possible.
question-result = { $open ->
    [0] { $reported ->
        [0] nothing open, but the job was not reported done
       *[other] finish reached
    }
    [one] { $open } thing open at the end
   *[other] { $open } things open at the end
}, { $harms ->
    [0] no harm
   *[other] harms: { $harms }
}
grade-time = { $time }, reference time { $reference }
grade-time-longer = { $time }, { $over } longer than the reference time { $reference }
grade-time-over-line = Finding: that is { $over } longer than the { $minutes } minutes that the line gives. It fails nobody.
grade-time-alone = { $time }, no reference time

## Evidence

head-findings = Findings
finding = Finding { $number }: { $severity } rule broken. Done: { $done }.
finding-by-itself = nothing at that moment
finding-rule = Rule: { $text }
finding-right = Right would have been: { $text }
finding-reason = Why: { $text }
finding-source = Source: { $text }
severity-stop = Stop
severity-major = Major
severity-minor = Minor
head-harms = Harm
head-unfinished = Open at the end: this must hold and does not
head-traps = Traps sprung
head-steps-done = Steps done, each the first time
# $times: the moments of the findings, with a comma between them.
right-but-broken = { $broken ->
    [one] But in doing it a rule was broken: see the finding at { $times }.
   *[other] But { $broken } rules were broken in doing it: see the findings at { $times }.
}
right-and-broken = { $broken ->
    [one] With it a rule was broken: see the finding at { $times }.
   *[other] With it { $broken } rules were broken: see the findings at { $times }.
}
head-steps-moved = Steps done out of their order
head-steps-missing = Steps missing on this way
head-steps-not-needed = Steps done that this way does not need
step-of-slots = { $step } Slots: { $slots }.
step-possible = { $step } Possible: another way is just as near.
