### The course page of the window.

course-help = Help
course-settings = Settings
course-leave = Leave
course-courses = Courses
course-changeover = Changeover
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
