### What the commands say in a terminal.

## The command line

help-rackproof = A training simulator for the people who run a board buffer. Without a command: the window, or the first drill in the terminal where there is none.
help-open = Open the window on drills of yours, or on the debrief of an attempt
help-open-files = Drills, each by its file or name, the first one chosen; or one attempt. Without any, the drills that come with the program
help-check = Read files and say all that is wrong in them
help-check-paths = Files, or folders with files that end in .ron
help-check-json = Answer with one JSON object
help-check-exam = A drill that is not proved is a problem: for drills that are used for exams
help-machine = Make the file of your own machine, one question at a time
help-machine-file = The machine file, such as hall-3.ron; one that is there is changed
help-machine-from = The machine of ours that a new file begins from
help-machine-words = List the words that a machine file can replace by those of a site
help-play = Play a drill in the terminal, or a journal to an attempt
help-play-drill = The drill: its file, or its name
help-play-variant = The variant; without it, the first, and in an exam one that is drawn
help-play-journal = Play this journal instead of asking
help-play-out = The file for the attempt; it must not be there yet
help-play-mode = How to play
help-play-resume = Go on with an attempt that was cut off
help-play-plain-words = Our own words, and not those of the site in the machine file
help-grade = Say the verdict on attempts, with its evidence
help-grade-attempts = Files of attempts, or folders with files that end in .attempt
help-grade-what-if = Run on from finding N with the right action, and say how it would have ended
help-grade-way-on = Ways on from a moment, as mm:ss, or from finding N: by the procedure, and the shortest with the truth known
help-grade-keep = The folder for the ways on, as attempts
help-grade-rules = Grade again by this rules file, in place of the one on disk
help-grade-procedure = Grade again by this procedure file, in place of the one on disk
help-grade-json = Answer with one JSON object for each attempt, a line each
help-grade-plain-words = Our own words, and not those of the site in the machine file
help-sheet = Write the task sheet of a drill: starting state, cue, standard, critical steps, criteria
help-sheet-drill = The drill: its file, or its name
help-sheet-json = Answer with one JSON object
help-reckon = Reckon what a planner asks: usable slots, drain, clear-out by belt and by hand, when to begin
help-reckon-product = The product inside
help-reckon-machine = The machine file, or the name of a machine of ours
help-reckon-takt = Takt of the line: working time over boards wanted, (480 − 30) min / 900 = 30 s; without it, the next machine asks again at once
help-reckon-boards = Boards inside; without it, as many as fit
help-reckon-next = The product that comes next; without it, the first other one
help-reckon-changeover = When the changeover is: a time of day such as 13:40, or the minutes until then
help-reckon-json = Answer with one JSON object, times in microseconds
help-prove = Explore every variant of a drill completely and say which claims hold
help-prove-paths = Drills, or folders with drills
help-prove-json = Answer with one JSON object for each drill, a line each
help-prove-small = Explore the small rack only; quick, and no proof of the drill
help-prove-variant = Explore one variant only
help-prove-slots = Search racks of these sizes side by side, such as 8,16,24,40, and prove nothing
help-prove-level = How much is merged: 4 is exact; 5 squeezes runs of alike slots as well, so that the size of the rack matters less; 6 forgets the order of slots, for full racks, and shows only that the rules suffice and that the drill is fair
help-prove-states = The most states of each search; the fewer, the less memory, and what was not searched to its end is open
help-prove-again = Prove it though nothing changed since it was proved
help-prove-ways = The folder for attempts that break a claim; without it, that of the drill. If it is named, attempts go there too that spring each trap, and those of the guide

help-picture = Draw one moment of an attempt without a window
help-picture-attempt = The file of the attempt
help-picture-at = The moment, as mm:ss; without it, the end
help-picture-out = The file for the picture; it must not be there yet
help-picture-debrief = What was true, with the findings, in place of what was seen
help-picture-size = Width and height in pixels
help-tour = Show the main job without a window: graded attempts and pictures in a folder
help-tour-out = The folder; it must not be there yet
help-measure = Say what the window costs on this machine

## The window

missing-display =
    There is no display that a window could be opened on.
    A window needs a desktop: X11 or Wayland on Linux.
    Without one, rackproof tour draws the drill into pictures.
missing-driver =
    There is no Vulkan driver, and no other that draws: nothing can be drawn.
    The hall needs one; a driver that draws in software will do.
    On Debian: apt install mesa-vulkan-drivers.
missing-picture =
    The driver gave no picture: what was asked for is not drawn.
    There is a driver that draws, but it did not finish.
    Try a smaller size, or another driver.
missing-window =
    The window was closed before the end: there are no figures.
    Begin again, and leave the window open until the figures are told.
missing-other =
    The window cannot be opened: { $reason }
    A window needs a desktop and a driver that draws: Vulkan, or Direct3D 12 on Windows.
    On Debian: apt install mesa-vulkan-drivers libx11-6 libx11-xcb1 libxcursor1 libxi6 libxkbcommon-x11-0.
open-terminal-instead = The drill { $drill } can be played in the terminal. Type yes to play it:
open-only-one = This program was built without its window. The terminal plays one drill, { $drill }: the others are not opened.
open-attempt-instead =
    What became of the attempt can be read in the terminal:
    rackproof grade { $path }
open-attempt-alone = { $path } is an attempt, and it stands among others. One attempt is opened at a time, without drills: its own lies in it.
open-not-now = Nothing was played. In the terminal: rackproof play

## picture, tour, measure

picture-no-window = This program was built without its window: it cannot draw. Build it with the window (cargo build --release). In the terminal, play and grade need none.
picture-no-time = “{ $typed }” is no time. Write minutes and seconds: 03:49, or 03:49.5.
picture-no-size = “{ $typed }” is no size. Write width and height from { $least } to { $most } pixels: 1280x720.
picture-unread = { $path } is no attempt that this program can play again. The command grade says why.
picture-after-end = The attempt ended at { $end }; { $at } is later.
picture-made = The picture is in { $path }.
tour-begins = Four attempts at left-inside are played, graded and drawn. All goes into { $folder }.
tour-attempt = { $name }: { $verdict } { $time }
tour-picture = { $path }
tour-ended-undrawn = Look into { $folder }: attempts, and their verdicts as text. The pictures are missing.
tour-ended = Look into { $folder }: attempts, their verdicts as text, and pictures.

## check

check-read-machine = { $path }: a machine.
check-read-machine-words = { $path }: a machine, with { $words ->
    [one] one word
   *[other] { $words } words
} of its site.
check-read-drill = { $path }: a drill.
check-read-rules = { $path }: rules.
check-read-procedure = { $path }: a procedure.
check-read-journal = { $path }: a journal, played to its end or to its first problem.
check-read-proof = { $path }: a proof.
check-nothing-wrong = { $files ->
    [one] { $files } file read. Nothing is wrong.
   *[other] { $files } files read. Nothing is wrong.
}
check-problems = { $problems ->
    [one] { $problems } problem.
   *[other] { $problems } problems.
} { $files ->
    [one] { $files } file read.
   *[other] { $files } files read.
}
check-no-file = There is no file that ends in .ron here. Nothing was checked.

## any command that reads or writes a file

file-not-read = { $path } cannot be read: { $reason ->
    [not-found] there is no such file. Look how its name is written, and in which folder you are.
    [folder] it is a folder. Name a file in it.
    [not-text] it is not text in UTF-8. Name another file, or save it as UTF-8.
    [denied] it may not be read by you. Ask who owns it.
   *[other] { $reason }
}
file-not-written = { $path } cannot be written: { $reason ->
    [not-found] its folder is not there. Make it, or name another.
    [folder] it is a folder. Name a file in it.
    [there] it is there already, and nothing is written over. Name another.
    [denied] it may not be written by you. Name another folder.
    [read-only] its disk takes no new files. Name another folder.
    [full] the disk is full. Make room, or name another.
   *[other] { $reason }
}

## Problems that a command finds between files

problem-no-file = There is no file for “{ $name }”.
expected-file = A file { $path } in the tree of this drill.
problem-no-drill = There is no drill “{ $name }” in the scenarios beside this file.
problem-name-not-file = The name “{ $name }” is not the name of its file.
expected-name-of-file = “{ $name }”. Files are found by their names.
