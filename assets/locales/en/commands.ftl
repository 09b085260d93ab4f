### What the commands say in a terminal.

## check

check-nothing-wrong = { $files ->
    [one] { $files } file read. Nothing is wrong.
   *[other] { $files } files read. Nothing is wrong.
}
check-problems = { $problems ->
    [one] { $problems } problem.
   *[other] { $problems } problems.
}

## any command that reads a file

file-not-read = { $path } cannot be read: { $reason }
