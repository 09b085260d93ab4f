### The course page of the window.

course-help = Help
course-attempts = My attempts
course-attempts-told = Newest first. One opens its debrief; the attempt itself stays as it is.
course-attempts-newest = The newest { $listed } of { $kept }. One opens its debrief; the attempt itself stays as it is. An older one: rackproof open FILE.
course-attempts-none = No attempt at this drill is kept in this folder. Begin one.
course-attempt = { $file }: { $way }, { $ending }
course-attempt-passed = passed
course-attempt-failed = failed
course-attempt-open = not ended, or not to be graded
course-attempt-unread = { $file } cannot be shown: what happened then does not happen with the program of today. The command grade says more about it.
course-attempt-other = { $file } was played with other files of this drill than those of today. The commands grade and picture show it.
course-sheet = Task sheet
course-settings = Settings
course-leave = Leave
course-courses = Courses
course-all = All drills
course-passed-of = { $passed } of { $count } passed
course-rack = Every slot is a drill. Ink is passed in an exam, pencil is practice.
course-certified = Nobody is certified by this program alone. A supervisor decides, on passed exams and a supervised changeover on the real machine.
course-drill-place = Drill { $drill }, place { $place }
course-state-new = not begun
course-state-practised = { $times ->
    [one] practised once
    [2] practised twice
   *[other] practised { $times } times
}
course-state-failed = failed
course-state-passed = passed
course-allowed = Time allowed
course-reference = Reference time
course-variant = Start from
course-any = any
course-any-start = Start from any
course-start = Start { $number } of { $count }
course-ways = Watch plays a good attempt and stops for talk. Guided shows each step and why. Practice helps when asked. The exam draws any start and helps with nothing.
way-watch = Watch
way-guided = Guided
way-practice = Practice
way-exam = Exam
course-key-drill = Drill above, drill below
course-key-variant = Start before, start after
course-key-focus = From one thing to the next
course-key-back = Close, leave
