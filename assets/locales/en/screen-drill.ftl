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
notes-nothing = Nothing looked at yet
notes-hold = These looks still count
notes-partly = Struck through: void since { $time }. The others count.
notes-voided = { $cause } At { $time }.
seen-not-looked-at = not looked at
seen-empty = seen empty
seen-board = a board
seen-voided = look voided

## Person bar

person-rack = rack
person-hand-in = my hand is in the rack
person-stays = I cannot walk now
person-on-me = On me
person-can = I can, here
person-watching = An attempt plays
person-doing = I am doing
person-break-off = Break off
person-more = More { $page }/{ $pages }
person-place = { $place } ({ $number })
person-go-to = { $act }: go to the { $places }.
person-not-now = { $act }: not possible now.
person-not-now-walk = Walking is not possible now.

## Keys

key-sheet = Tick sheet: arrows, Space
key-hint = Show a hint
key-way-on = A safe way on from here
key-wait = Wait for the next event
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
