### The drill page of the window: top bar, cards, tick sheet, person bar, keys, what lies over it.

## Top bar

through-watch = Watch
through-guided = Guided
through-practice = Practice
through-exam = Exam, recorded
top-time = Drill time
top-down = Line down
top-minutes = { $minutes } min
top-pause = Pause
top-leave = Leave

## Cards

card-task = Task
card-allowed = Time allowed
card-allowed-short = { $time } allowed
card-reference = Reference time
card-fold = Fold the task
card-unfold = Whole task
card-guide = Guide, next step
card-how = How
card-now = Now
card-wait = Wait until the machine asks or rests
card-key = Key
card-page-press = On the panel’s page “{ $page }”. Use panel turns to it and goes to the button; Enter presses it.
card-page-hold = On the panel’s page “{ $page }”. Use panel turns to it and goes to the button; hold Space.
card-told = Told while you practise
card-void = At { $time }. Looks from before no longer count. Look again where you need it.
card-help = Help on demand
card-help-text = A hint names the next step and why. A safe way on names the steps until something new is seen. Both are listed in the report.
card-hint = Show a hint
card-way-on = A safe way on
card-perceived = Seen, heard, told
card-seen = Seen at { $time }
card-heard = Heard at { $time }
card-told-by = Told at { $time }
card-watch = Watch
card-at = Moment
card-play = Play
card-play-again = Again from 00:00
card-watched = The end: { $verdict }
card-more-below = Below there is more
card-stand-still = Stand still
card-speed = Times as fast
card-speed-times = { $times } times as fast

## Tick sheet and notes

sheet-title = Tick sheet
sheet-in = in
sheet-out = out
sheet-foot = My own marks, made by hand
notes-title = My notes: seen by me
notes-row = Slot { $slot }: infeed half { $infeed }, outfeed half { $outfeed }
notes-nothing = Nothing looked at yet
notes-hold = These looks still count
notes-partly = Struck through: void since { $time }. The others count.
notes-voided = { $cause } At { $time }.
seen-not-looked-at = not looked at
seen-empty = seen empty
seen-board = a board
seen-voided = look voided

## Person bar

person-stand = I stand at the { $place }
person-rack = rack
person-hand-in = my hand is in the rack
person-cord-in = the cord holds me here
person-panel-in-reach = panel in reach
person-stays = I cannot walk now
person-on-me = On me
person-can = I can, here
person-watching = An attempt plays
person-doing = I am doing
person-break-off = Break off
person-emergency = emergency stop, any time
person-more = More { $page }/{ $pages }
person-place = { $place } ({ $number })
person-go-to = { $act }: go to the { $places }.
person-not-now = { $act }: not possible now.
person-not-now-walk = Walking is not possible now.
there-infeed = At the infeed: look at belt and mouth, take a board off the belt, work one free.
there-hatch = At the hatch: open it, look into every slot, cord, prop, hands in the rack.
there-isolator = At the isolator: power off and on, my lock.
there-panel = At the panel: its buttons, the setter’s key, the log.
there-outfeed = At the outfeed: look along the slot, take a board off the belt, work one free.

me-straps-tested = Shoe straps, tested
me-straps-untested = Straps, not tested
me-torch-lit = Torch, lit
me-torch-off = Torch, off
me-hand-free = Other hand free
me-hand-in = Hand in the rack
me-board = { $board } in hand
me-board-inside = { $board } held inside
me-cord-in = Cord, plugged in
me-lock-on = Lock, on isolator
me-key-in = Key, in the panel

## Acts, as short as a button

act-walk = Walk
act-torch-on = Torch on
act-torch-off = Torch off
act-look-infeed-side = Lean infeed
act-look-outfeed-side = Lean outfeed
act-look-mouth = Look along slot
act-plug-cord = Plug cord
act-unplug-cord = Unplug cord
act-set-prop = Set prop
act-remove-prop = Prop out
act-open-hatch = Open hatch
act-shut-hatch = Shut hatch
act-hand-in = Hands in
act-test-straps = Test straps
act-call-lead = Call lead
act-wear-gloves = Put on gloves
act-clear-screw = Clear the screw
act-wipe-lenses = Wipe lenses
act-clear-plug = Clear their plug
act-write-log = Write log
act-isolator-off = Isolator off
act-isolator-on = Isolator on
act-lock-on = Lock on
act-lock-off = Lock off
act-try-start = Try to start
act-hand-out = Hands out
act-take = Take board out
act-put-in = Put board in
act-take-from-belt = Take off belt
act-take-from-mouth = Work free
act-put-down = Put board down
act-release-emergency = Turn button out
act-key-in = Key in
act-key-out = Key out
act-ask-upstream = Ask upstream
act-let-upstream-go = Let upstream go
act-ask-downstream = Ask downstream
act-let-downstream-go = Let downstream go
act-report = Report
act-use-panel = Use panel
act-wait = Next event
act-answer = Answer for the slot
act-declare = Declare empty
act-next = next

## Keys

key-look = Look; at the hatch: infeed side
key-lean-infeed = Lean to the infeed side
key-lean-outfeed = Lean to the outfeed side
key-put-in = Put the board into a slot
key-torch = Torch on or off
key-torch-up = View and torch up one slot
key-torch-down = View and torch down one slot
key-hand = Reach into the rack, hand out
key-take = Take a board out, or off the belt
key-work-free = Work a board free at the mouth
key-put-down = Put the board in hand down
key-try-board = Try a board between the rails
key-hatch = Open or shut the hatch
key-isolator = Isolator off or on
key-lock = My lock on or off
key-prop = Set the prop, take it out
key-cord = Plug the cord in, unplug it
key-key = Setter’s key in or out
key-emergency = Emergency stop, from anywhere
key-upstream = Ask upstream to hold, let it go
key-downstream = Ask downstream to hold, let it go
key-sheet = Tick sheet: arrows, Space
key-hint = Show a hint
key-way-on = A safe way on from here
key-wait = Wait for the next event
key-panel = Into the panel
key-answer-taken = Answer: taken by hand
key-answer-seen-empty = Answer: seen empty
key-answer-not-sure = Answer: not sure
key-reset = Press Reset, or Clear
key-pages = Next page of the panel
key-next-group = Next part of the page
key-group-before = Part before
key-arrows = Inside a part; in the hall: turn the view
key-turn-back = In the hall: turn the view back
key-enter = Does what has the focus
key-space = The same; watch: play, stand still
key-help = Help
key-parts = Parts
key-settings = Settings
key-back = Close, break off, pause

## What lies over the page

over-close = Close
over-help-note = A key does nothing where its act is not possible. Keys of one letter can be switched off in the settings.
help-hands = Hands, feet, eyes
help-words = Words
help-panel = Panel
help-window = Window
over-parts = Parts of the hall
over-parts-note = What stands in the hall, and what can be done with it from here.
over-parts-none = No part of the hall is known yet.
over-parts-nothing = Nothing from here.
over-way-on = A safe way on from here
over-pause = The drill’s clock stands
over-pause-text = Nothing moves while this is open.
over-pause-watch = The attempt stands still.
over-go-on = Go on
over-again = Begin the same start again
over-leave = Leave to the course
over-leave-exam = Leave the exam?
over-leave-exam-text = The attempt is kept. It has not ended, so it has no verdict.
over-stay = Stay in the exam
over-slots-take = Take the board out of which slot?
over-slots-put = Put the board into which slot?
over-slots-note = Arrows choose, Enter does it.
over-trays = Where does the board go?
over-report = Report the job done?
over-report-text = A report ends the attempt and brings the verdict.
over-report-no = Not yet
over-rules = Rules

settings-size = Size of text and marks
settings-size-note = A larger page scrolls where it needs to.
settings-times = { $times }
settings-time = Time outside exams
settings-time-note = More time to think and to reach, guided and in practice. Figures and limits of the drill stay as they are, and a button is held as long as ever.
settings-stretch = { $times ->
    [1] as it is
    [2] twice as long
   *[other] { $times } times as long
}
settings-less-motion = Less motion: cuts in place of camera moves, no alternating marks
settings-no-letters = Letter and figure keys off
settings-press-twice = Press twice in place of holding
settings-plain-words = Plain words in place of those of this site
