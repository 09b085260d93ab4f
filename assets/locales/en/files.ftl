# What can be said about a file that was written by hand.
# problem-*: what was found. expected-*: what should stand there. hint-*: what may help.
# Style: one short sentence each. Name the thing, the number and the unit. Stay calm.

## Around the parts of a problem

label-problem = problem
label-expected = Expected: { $text }
label-hint = Hint: { $text }

## The form of the text

problem-text-large = The text has { $bytes } bytes.
problem-empty = The file is empty.
problem-trailing = There is more text after the value.
problem-unexpected = “{ $found }” cannot stand here.
problem-ends = The file ends here.
problem-not-closed = The bracket “{ $open }” is not closed.
problem-wrong-bracket = “{ $found }” does not close “{ $open }”.
problem-no-comma = There is no comma before “{ $found }”.
problem-no-field-name = This value has no field name.
problem-comment-not-closed = This comment does not end.
problem-text-not-closed = This text has no closing quote.
problem-escape = “{ $found }” is not a known escape.
problem-nesting = Too many brackets stand inside each other.
problem-too-many = There are more than { $count } problems. Reading stops here.
problem-number-form = “{ $found }” is not written as a number.
problem-number-long = The number { $found } has too many digits.

expected-value = One value, such as a number, a text in quotes, a list or a record.
expected-end = The end of the file.
expected-token = “{ $token }”.
expected-comma = A comma or “{ $close }”.
expected-field = A field name, a colon and a value.
expected-escape = One of \n, \r, \t, \0, \\, \", \', \x41, \u{"{"}1F600{"}"}.
expected-text-short = At most { $most } bytes.
expected-nesting = At most { $most } brackets inside each other.
expected-number = Digits, with at most one point between them, such as 12 or 170.8.
expected-number-short = A number from { $least } to { $most }, with at most { $decimals } decimals.

## The meaning of the text

problem-wrong-kind =
    { $thing ->
        [this-value] This value
       *[other] The field “{ $thing }”
    } is { $kind ->
        [unit] empty
        [flag] true or false
        [integer] a whole number
        [decimal] a number with decimals
        [text] a text
        [tagged] a choice
        [tuple] a row of values in parentheses
        [list] a list
        [record] a record
        [map] a map
       *[other] something else
    }.
problem-wrong-record-name = The record is called “{ $found }”.
problem-missing-field = { $record } has no field “{ $field }”.
problem-unknown-field = { $record } has a field “{ $field }” that is not known.
problem-repeated-field = The field “{ $field }” stands here again. It is already on line { $line }.
problem-repeated-key = The key “{ $key }” stands here again. It is already on line { $line }.
problem-out-of-bounds =
    { $thing ->
        [this-value] This value
       *[other] The field “{ $thing }”
    } is { $number } { $unit }.
problem-too-many-decimals =
    { $thing ->
        [this-value] This value
       *[other] The field “{ $thing }”
    } is { $number } { $unit }, which has too many decimals.
problem-unknown-choice =
    { $thing ->
        [this-value] This value
       *[other] The field “{ $thing }”
    } is “{ $found }”, which is not known.
problem-choice-values = Number of values behind “{ $found }”: { $count }.
problem-name-form =
    { $thing ->
        [this-value] This value
       *[other] The field “{ $thing }”
    } is “{ $found }”.

expected-whole = A whole number from { $least } to { $most } { $unit }: { $words }.
expected-decimal = A number from { $least } to { $most } { $unit } with at most { $decimals } decimals: { $words }.
expected-text = A text in quotes.
expected-name = A name in quotes: 1 to { $most } characters, only a to z, 0 to 9 and -, not starting with -.
expected-flag = true or false.
expected-list = A list in square brackets.
expected-map = A map in braces, with texts as keys.
expected-record = { $record }, with its fields in parentheses.
expected-any = A value.
expected-choice = One of { $choices }.
expected-choice-values = { $choice }, with this number of values in parentheses: { $count }.
expected-known-field = Only the fields { $fields }.
expected-once = One of the two.

## Hints

hint-did-you-mean = Perhaps “{ $name }” is meant.
hint-without-quotes = Leave the quotes away.
hint-with-quotes = Put it in quotes.
hint-write-name = Write “{ $name }”.
hint-colon = A colon stands between a field and its value.
hint-opened = “{ $open }” is on line { $line }.
