### What can be wrong in the words of a site: the map `words` of a machine file.
### problem-*: what was found. expected-*: what should stand there.

problem-site-unknown = There is no message “{ $id }”.
problem-site-own = “{ $id }” is a message in which the program speaks of itself.
problem-site-empty = The text for “{ $id }” is empty.
problem-site-unprintable = The text for “{ $id }” has a line break, or a character without a shape.
problem-site-brace = A brace stands alone in the text for “{ $id }”.
problem-site-value = “{ $found }” stands between braces in the text for “{ $id }”.
problem-site-unknown-value = The text for “{ $id }” has a value { "{" } ${ $name } { "}" }, which the message does not have.
problem-site-lacks = The text for “{ $id }” lacks the value { "{" } ${ $name } { "}" }.
problem-site-long = The text for “{ $id }” has { $characters } characters, without its values.

expected-site-id = The id of a word on the machine or in the hall, or of a step. The command machine --words lists them.
expected-site-line = One line of plain text.
expected-site-brace = Braces only around a value, as in { "{ $slot }" }.
expected-site-values = A text with each of these values: { $values }.
expected-site-no-value = A text without a value.
expected-site-short = At most { $most } characters: its place has no more room.
