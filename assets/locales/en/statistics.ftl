### Why there is no figure: problems of statistics. What was found, what it means, what helps.

## Proportions

problem-statistics-no-trials = No attempt is counted, so there is no rate. Count at least one.
problem-statistics-too-many-trials = { $found } attempts are more than one rate can have. Up to { $most } its interval was checked. Split them, by month or by drill.
problem-statistics-more-successes = { $successes } came out well of { $trials } attempts: more than were made. One of the two counts is wrong.
problem-statistics-confidence = A confidence of { $found } gives no interval. Give one from { $least } to { $most }: 0.95 is common.

## Sequential tests

problem-statistics-rate = A rate of { $found } cannot be tested for. Give one from { $least } to { $most }.
problem-statistics-rates-close = The rate to certify, { $good }, is not at least { $gap } above the rate not to certify, { $poor }. No number of attempts would tell the two apart. Set them further apart.
problem-statistics-risk = A risk of { $found } cannot be kept. Give one from { $least } to { $most }: 0.05 is common.

## Agreement

problem-statistics-ragged = Row { $row } has { $found } cells, and the table needs { $expected } in each. Fill it up, or leave out what is too much.
problem-statistics-few-raters = Agreement takes two raters, and here are { $found }. Let somebody else rate the same.
problem-statistics-unequal-raters = Subject { $subject } was rated { $found } times, and the first one { $expected } times. This measure needs the same number for each: rate the missing ones, or use the one that allows for gaps.
problem-statistics-nothing-to-compare = Nothing was rated by two raters, so there is nothing to compare. Let two people rate the same.
problem-statistics-all-alike = All ratings are the same. Chance alone would agree fully, so that agreement beyond chance says nothing. Rate things that differ.
problem-statistics-not-finite = Rater { $rater } gave unit { $unit } something that is no number. Correct it, or mark it as not rated.
problem-statistics-below-zero = Rater { $rater } gave unit { $unit } a figure below 0, and a scale of ratios begins at 0. Correct it, or take the scale of intervals.
