### A safe way on: in practice by what can be known, in the debrief also with the truth known.

## In practice, on request

way-on-head = By what can be known: what you did, saw and heard, and not where boards really lie.
way-on-cannot-pass = A rule was broken that fails this attempt. It cannot pass any more. This way ends the job without doing more harm, and is worth the practice.
way-on-way = Way: { $way }
# Words that carry no meaning of their own: if a doing and its step differ in these alone, they say the same.
way-on-small-words = the a an my your i you it
way-on-wait = Wait until it rests or asks
way-on-then-ask = What comes after that depends on what you then see or hear. Ask again there.
way-on-ends = That is all: the last step reports the job done.
way-on-to-end = From here to the end the written procedure takes { $least }, if the neighbours do nothing.
way-on-to-end-between = From here to the end the written procedure takes { $least } to { $most }, by what is still unseen, if the neighbours do nothing.
way-on-over = Nothing can be done any more: the attempt is over. The debrief shows ways on from its earlier moments.
way-on-no-step = No safe way on is known from here: the written procedure has no step for this moment or for one that follows. That does not mean that none is left. Put back what you did last, then ask again; on a real line, call the lead.
way-on-stuck = No safe way on is known from here: the written procedure would wait for ever at “{ $step }” That does not mean that none is left. Do what else is on offer, then ask again; on a real line, call the lead.
way-on-open = No safe way on is known from here: the written procedure comes to its end, and something of the job is still open. It does not know how to undo what you did last. Undo it, then ask again. What cannot be undone here, such as a broken board, it does not mend: on a real line, stop and call the lead.
way-on-breaks = No safe way on is known from here: by the written procedure a rule would be broken. Undo what you did last, then ask again. If that does not help, stop the machine, make it safe and report; the debrief shows where a way was still open.
way-on-noted = That you asked is listed in the report.
way-on-not-in-exam = There is no help in an exam.

## In the debrief

ways-guide = By the written procedure, from { $time } on. It goes by signs only: what could be known.
ways-guide-none = By the written procedure: it knows no way on from this moment. Choose an earlier one.
ways-shortest = The shortest, from { $time } on, with the truth known. Nobody who stands there could know that it suffices. A search of { $states } states found no way with fewer of its steps.
ways-shortest-none = The shortest, with the truth known: no safe way on is left from this moment. A search of all { $states } states found none that keeps the rules and finishes, with the neighbours quiet.
ways-shortest-bound = The shortest, with the truth known: not found. The search reached its bound of { $states } states. There may be one.
ways-shortest-strayed = The shortest, with the truth known: a search of { $states } states found a way, but not one that a person is quick enough for. It is not shown.
ways-shortest-broken-off = The shortest, with the truth known: the search was broken off after { $states } states.
ways-passes = Passes. { $steps } { $steps ->
    [one] doing
   *[other] doings
}, { $takes } from there, { $whole } in all.
ways-safe-not-passed = Ends safely, and does not pass: what was broken before that moment stays broken. { $steps } { $steps ->
    [one] doing
   *[other] doings
}, { $takes } from there, { $whole } in all.
ways-not-passed = Does not pass. { $steps } { $steps ->
    [one] doing
   *[other] doings
}, { $takes } from there, { $whole } in all.
ways-no-moment = “{ $typed }” is no moment. Write minutes and seconds, such as 03:49, or the number of a finding.
ways-kept = This way is kept as an attempt in { $path }.
ways-shortest-searched = The shortest, with the truth known, is being searched. That takes up to a minute.
