### What the command `machine` says around its questions.

## Words that are typed

ask-word-back = back
ask-word-skip = skip
ask-word-next = next
ask-word-why = why
ask-word-open = open
ask-word-quit = quit
ask-word-go = go
ask-word-none = none

## Beginning

ask-help =
    Type a figure, with its unit if it is another: 20, 2 cm, 0.5 in, 50 ms. Or the number of a choice; where several may be chosen, their numbers with blanks between them, or none. Enter alone keeps what is there.
    why says why it counts, back goes back, skip leaves it for later, next leaves the whole part, go and a word finds a figure, open finds what is not answered, quit keeps all answers until you come back, ? says this again.
ask-begins = { $name } begins as a copy of { $of }. Its figures are invented: each that you do not measure stays invented.
ask-begins-others = Others to begin from, by --from NAME: { $names }. Take the one that is most like yours: all can be changed.
ask-template-head =
    { $name }: begun from { $of } by questions.
    A figure that nobody measured is still the one of { $of }.
ask-goes-on = What was answered before is in { $part }. It goes on from there.
ask-problems-first = { $problems ->
    [one] This is wrong in the file now. Its question comes.
   *[other] These { $problems } things are wrong in the file now. Their questions come.
} Nothing is written before all is right.
ask-no-ron = “{ $path }” cannot hold a machine. A machine is found by its file: write a name that ends in .ron, such as hall-3.ron.
ask-no-folder = There is no folder “{ $folder }”, so that { $path } could not be kept. Make the folder first, or name a file in one that is there.
ask-name-first = Nothing was begun: a machine has the name of its file. Choose another name than { $path }.
ask-no-machine = { $path } is not a machine file that can be asked about. Put right by hand what is said above, or choose a name that is not there yet.
ask-no-template = There is no machine “{ $name }” here to begin from. These are: { $names }.
ask-no-template-near = There is no machine “{ $name }” here to begin from. Perhaps “{ $near }” is meant. These are: { $names }.
ask-kept-other = { $path } was changed after the questions of { $part } began. Nothing is written. Look at both, then delete or rename one of them.
ask-kept-foreign = { $part } is not a file of answers that can be gone on with. Nothing is written. Rename it or delete it.

## Words of a site

ask-site-head =
    All words on the machine and in the hall. Copy those that your site calls otherwise into the
    machine file, behind its name, and put your own in place of ours. Every value in braces stays.
ask-site-most = at most { $most } characters

## One question

ask-place = { $number } of { $all }: { $way }
ask-label-what = What
ask-label-range = Range
ask-label-measure = Measure
ask-label-now = Now
ask-range-decimal = { $least } to { $most } { $unit }, with at most { $decimals } decimals. Units: { $units }.
ask-range-whole = { $least } to { $most } { $unit }, whole. Units: { $units }.
ask-range-bare = { $least } to { $most }, whole.
ask-range-count = { $least } to { $most } { $unit }, whole.
ask-range-choice = one of these, by its number
ask-range-name = 1 to { $most } of a to z, 0 to 9 and -, the first not -
ask-range-several = any of these, by their numbers, or none
ask-now-left-out = { $now }: the file says nothing of it
ask-prompt = Answer:

## After a line

ask-changed = Noted: { $value }.
ask-problem-now = This answer is noted, but it does not go with the rest. Change it with back, or a later figure until all fit.
ask-problem-gone = { $problems ->
    [0] Now all fits together.
    [one] That is right now. One thing is still wrong.
   *[other] That is right now. { $problems } things are still wrong.
}
ask-no-number = “{ $typed }” is not a number with a unit.
ask-comma = “{ $typed }” has a comma, which could part thousands or decimals. Decimals stand behind a point.
ask-decimals = “{ $typed }” has too many decimals: at most { $decimals }.
ask-out-of-range = { $number } { $unit } is out of range.
ask-wrong-unit = “{ $found }” is not a unit of this figure. Its units: { $units }.
ask-no-name = “{ $typed }” is no name. Expected: { $range }. For example: wren
ask-no-choice = “{ $typed }” is none of these.
ask-no-choice-near = “{ $typed }” is none of these. Perhaps “{ $near }” is meant: { $number }.
ask-beyond-range = Nothing was noted. See that figure and unit are right. If the machine in your hall is like that all the same, drills cannot reckon with it: press Enter for the figure that stands here, and put the difference on your site’s list.
ask-expected-figure = Expected: { $range } For example: { $example } { $unit }
ask-expected-choice = Expected: a number from 1 to { $choices }. For example: 1
ask-expected-several = Expected: numbers from 1 to { $choices } with blanks between them, or none. For example: 1 2
ask-first = This is the first question.
ask-last = There is no further question.
ask-none-open = Every question is answered.
ask-not-found = No figure has “{ $word }” in its way. For example: go pitch

## The end

ask-end = All questions are through. Changed: { $changed }. Kept: { $kept }. Not answered: { $open }.
ask-end-open = Not answered, and as before: { $open }. Type open to go there.
ask-end-open-part = { $part } { $open }
ask-end-write = Nothing is wrong. Type yes to write { $path }; go and a word to change a figure; quit to leave.
ask-end-problems = { $problems ->
    [one] One thing is wrong
   *[other] { $problems } things are wrong
}, so { $path } is not written. Type go and a word to change a figure, or quit to leave.
ask-end-not = “{ $typed }” is nothing that can be done here. Type yes, go and a word, back, or quit.
ask-left = You left. { $path } is as it was. All answers are in { $part }; the same command goes on with them.
ask-left-new = You left. { $path } is not there yet. All answers are in { $part }; the same command goes on with them.
ask-left-nothing = You left. Nothing was answered, and nothing is written.
ask-written = { $path } is written, with its comments as they were.
ask-written-new = { $path } is written. A drill that names this machine is played on it.
