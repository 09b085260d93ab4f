### The window itself.

window-title = Rackproof
window-nothing-to-watch = There is nothing to watch: the written procedure does not finish this start. Practise it.
window-nothing-left-to-do = Nothing can be done any more at this moment. Choose an earlier one.
window-log-line = { $time }  { $done }
window-hall = The hall

## measure

measured-first = From the start to the first picture: { $value }
measured-picture = Time of all processors a picture, everything moves, 1280x720: { $value }
measured-rate = Pictures a second, as fast as they come: { $value }
measured-course = Course page, nothing moves, share of one processor and pictures in 30 s: { $value }
measured-drill = Drill page, nothing moves, share of one processor and pictures in 30 s: { $value }
measured-again = From “Again” to the first picture of the new attempt, the middle and the longest of nine: { $value }
