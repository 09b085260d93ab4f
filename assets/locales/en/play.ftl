### The dialog in the terminal, and journals.

## Ways to play

played-guided = guided
played-practice = practice
played-exam = exam

## Before and after

play-kept-in = The attempt is kept in { $path } as you go.
play-begin = Drill time runs only while you act or wait. Type ? for help, h for the next step, or o for a safe way on.
play-begin-guided = Guided: each picture ends with the next step, why, and what to do now. Drill time runs only while you act or wait. Type ? for help.
play-begin-exam = This is an exam: there are no hints. Drill time runs only while you act or wait. Type ? for help.
play-left =
    You left. The attempt is kept. Go on with:
    rackproof play --resume { $path }
play-ended =
    The attempt is kept. Read this again with:
    rackproof grade { $path }
play-problems = { $problems ->
    [one] { $problems } problem. Nothing was played to its end.
   *[other] { $problems } problems. Nothing was played to its end.
}
play-journal-done = { $causes ->
    [one] { $causes } cause, { $time }. The attempt is kept in { $path }.
   *[other] { $causes } causes, { $time }. The attempt is kept in { $path }.
}
play-no-drill = { $name } cannot be read: there is no such file, and no drill of that name. Drills of ours: { $names }.
play-no-drill-near = { $name } cannot be read: there is no such file, and no drill of that name. Perhaps “{ $near }” is meant. Drills of ours: { $names }.
play-out-there = { $path } cannot be written: it is there already, and nothing is written over. Give another name after --out, or leave --out away.
play-exam-drawn = In an exam the start is drawn, for the names of starts say where boards lie. Leave --variant out; or practise with it: --mode practice.
play-exam-no-journal = An exam is played by somebody, and not by a journal: an attempt that says “exam” is to show what a person can do. Play the journal as practice: leave --mode out.
play-no-variant = There is no variant “{ $name }”. Known are: { $names }.
play-no-variant-near = There is no variant “{ $name }”. Perhaps “{ $near }” is meant. Known are: { $names }.
resume-whole =
    { $path } is whole: it has ended. There is nothing to go on with. Read it with:
    rackproof grade { $path }
resume-nothing = { $path } holds no whole line. There is nothing to go on with. Begin a new attempt.
resume-edited = { $path } was changed after it was written. It cannot be gone on with.
resume-foreign = { $path } is not an attempt that this program can read.
resume-differs = { $path } comes out otherwise in this version of the program. It cannot be gone on with.

## The picture

play-head = { $drill }, { $mode }    drill time { $time }    line down { $down }
play-i-stand = I stand
play-i-see = I see
play-i-hear = I hear
play-told = Told
play-looks = Unseen
play-shown = Shown
play-map = Map
play-old-map = Old map
play-product = Product
play-width = Width
play-lift = Lift
play-alarms = Alarms
play-asked = Asked
play-i-can = I can

play-upstream-holds = Upstream said that it holds.
play-log-written = Log written.
play-hands-free = Hands free.
play-board-in-hand = A { $board } in my hand.
play-see-nothing-new = Nothing new. Rack and belts show only when I look.
play-nothing-moves = Nothing moves.
play-something-moves = Something moves.

play-axes-move = shown again when all axes rest
play-nothing-asked = Nothing to answer.

## Not seen since looks became void: practice and guided alone

looks-since = since { $time }
looks-since-start = since the start
looks-unseen = Not seen empty { $since }: { $places }.
looks-whole = slots { $slots }
looks-said = slots { $slots }, answered for in the clear-out

## The list and the line to type

play-prompt = Number, or ? for help >
# One word, in small letters.
play-yes = yes
play-report-sure = A report ends the attempt and brings the verdict. Type yes to report:
play-not-reported = Nothing was reported. The attempt goes on.
play-rests-already = Nothing moves, and no button is held. No time has passed. To wait, type w.
play-empty-line = Nothing was typed, so nothing was done. Type a number from the list, or ? for help.
play-help =
    Type the number of what you want to do. It takes the time that it takes a person.
    For a board in a slot you can type all at once: number, slot, half (i or o).
    r waits until all rests. w waits for the next event, w 10 waits ten seconds.
    t shows your tick sheet, t 5 i makes or takes away a mark: slot 5, infeed half.
    h says the next step and why; that is listed in the report.
    o says a safe way on from here, by what can be known; that is listed in the report.
    s shows picture and list again.
    q leaves. The attempt is kept and can be gone on with.
    { $places }
    Unseen: what you have not seen empty since the looks became void. Lift, rails or belts that move make looks void; so do a hand in the rack and upstream let go.
    Shown: what the panel showed since the last picture. Asked: what it asks now.
play-help-exam =
    Type the number of what you want to do. It takes the time that it takes a person.
    For a board in a slot you can type all at once: number, slot, half (i or o).
    r waits until all rests. w waits five seconds, w 10 waits ten seconds.
    t shows your tick sheet, t 5 i makes or takes away a mark: slot 5, infeed half.
    s shows picture and list again.
    q leaves. The attempt is kept and can be gone on with.
    { $places }
    Shown: what the panel showed since the last picture. Asked: what it asks now.
play-not-a-number = “{ $typed }” is none of these. Type a number from 1 to { $most }, or ? for help.
play-number-alone = “{ $typed }” is more than a number. Nothing was done. Type a number from 1 to { $most } alone; t 5 i marks the tick sheet.
play-no-slot = “{ $typed }” names no half of a slot. Nothing was done. Slots are 1 to { $slots }, halves i and o, such as “5 i”.
play-no-time = “{ $typed }” is no time to wait. Type whole seconds, at most { $most }.
play-did = Done: { $done }.
play-gone = Not done: { $done }. It was no longer possible when you came to it. The time has passed.
play-not-on-offer = Not done: { $done }. It is not possible now.

## Hints and the next step

play-next = Next
play-why = Why
play-now = Now
play-now-rest = Wait: type r.
play-now-wait = Wait: type w.
play-no-step = The procedure has no step for this moment.
play-no-hint-in-exam = There are no hints in an exam.

## The tick sheet

sheet-head = Tick sheet: your own marks. The program neither fills nor reads it.
sheet-none = none

## What can be wrong in a journal

problem-other-drill = This journal is for the drill “{ $name }”.
problem-not-on-offer = “{ $cause }” is not on offer at { $time } s.
problem-no-longer-on-offer = “{ $cause }” is no longer on offer at { $time } s, when the person came to it.
problem-not-among-chances = “{ $cause }” cannot happen at { $time } s.
problem-never-rests = Something goes on for more than an hour here.
problem-time-past = { $time } s is over already.
expected-time-from = A time from { $time } s on.
expected-on-offer = One of { $offers }.
hint-first = First “{ $first }”.
