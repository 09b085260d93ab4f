### What the commands say in a terminal.

## The command line

help-rackproof = A training simulator for the people who run a board buffer. Without a command: the first drill, in the terminal.
help-check = Read files and say all that is wrong in them
help-check-paths = Files, or folders with files that end in .ron
help-check-json = Answer with one JSON object
help-play = Play a drill in the terminal, or a journal to an attempt
help-play-drill = The drill: its file, or its name
help-play-variant = The variant; without it, the first
help-play-journal = Play this journal instead of asking
help-play-out = The file for the attempt; it must not be there yet
help-play-mode = How to play
help-play-resume = Go on with an attempt that was cut off
help-grade = Say the verdict on attempts, with its evidence
help-grade-attempts = Files of attempts
help-grade-json = Answer with one JSON object for each attempt, a line each
help-prove = Explore every variant of a drill completely and say which claims hold
help-prove-paths = Drills, or folders with drills
help-prove-json = Answer with one JSON object for each drill, a line each
help-prove-small = Explore the small rack only; quick, and no proof of the drill
help-prove-variant = Explore one variant only

## check

check-read-machine = { $path }: a machine.
check-read-drill = { $path }: a drill.
check-read-rules = { $path }: rules.
check-read-procedure = { $path }: a procedure.
check-read-journal = { $path }: a journal, played to its end or to its first problem.
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

file-not-read = { $path } cannot be read: { $reason }
file-not-written = { $path } cannot be written: { $reason }

## Problems that a command finds between files

problem-no-file = There is no file for “{ $name }”.
expected-file = A file { $path } in the tree of this drill.
problem-no-drill = There is no drill “{ $name }” in the scenarios beside this file.
problem-name-not-file = The name “{ $name }” is not the name of its file.
expected-name-of-file = “{ $name }”. Files are found by their names.
