### The debrief: verdict, evidence, what was true, timeline.

## Top bar

debrief-title = Debrief
debrief-badge = Badge { $badge }
debrief-attempt = Attempt { $attempt }
debrief-helped =
    { $hints ->
        [0] { $ways ->
            [0] no help
           *[other] {""}
        }
        [one] 1 hint{ $ways ->
            [0] {""}
           *[other] ,{" "}
        }
       *[other] { $hints } hints{ $ways ->
            [0] {""}
           *[other] ,{" "}
        }
    }{ $ways ->
        [0] {""}
        [one] a way on asked for once
       *[other] a way on asked for { $ways } times
    }
debrief-way-watch = Watched
debrief-way-guided = Guided
debrief-way-practice = Practice
debrief-way-exam = Exam, recorded
debrief-help = Help
debrief-close = Close

## Verdict and the three questions

debrief-passed = Passed
debrief-passed-why = The job is done, nothing is harmed, and no stop rule was broken.
debrief-not-passed = Not passed
debrief-not-passed-why =
    { $stops ->
        [0] {""}
        [one] One stop rule was broken.{" "}
       *[other] Stop rules were broken { $stops } times.{" "}
    }{ $harms ->
        [0] {""}
        [one] One harm was done.{" "}
       *[other] { $harms } harms were done.{" "}
    }{ $stops ->
        [0] { $harms ->
            [0] { $open ->
                [0] {""}
                [one] One thing is open at the end.{" "}
               *[other] { $open } things are open at the end.{" "}
            }{ $majors ->
                [0] { $open ->
                    [0] What the verdict rests on stands below.
                   *[other] {""}
                }
                [one] One major rule was broken.
               *[other] Major rules were broken { $majors } times.
            }
           *[other] Nothing else can make up for that.
        }
       *[other] Nothing else can make up for that.
    }
debrief-not-ended = Not ended
debrief-not-ended-why = The job was not reported done, so there is no verdict.
debrief-safety =
    { $stops ->
        [0] { $majors ->
            [0] { $minors ->
                [0] no rule broken
               *[other] { $minors } minor
            }
           *[other] { $majors } major
        }
       *[other] { $stops } stop{ $majors ->
            [0] {""}
           *[other] , { $majors } major
        }
    }
debrief-procedure = { $done } of { $asked } steps
debrief-result =
    { $harms ->
        [0] no harm
        [one] 1 harm
       *[other] { $harms } harms
    }, { $open ->
        [0] finished
       *[other] { $open } open
    }

## Evidence

debrief-breach = { $severity } rule: { $done }
debrief-right = Right:
debrief-why = Why:
debrief-looks-halves = Seen empty then: { $seen } of { $all } halves.
debrief-harm-overstrained = Harm: { $board } overstrained
debrief-harm-sprung-out = Harm: { $board } sprung out
debrief-harm-broken = Harm: { $board } broken
debrief-harm-dropped = Harm: { $board } fallen
debrief-harm-sheared = Harm: { $board } cut through
debrief-harm-collided = Harm: { $board } driven into another board
debrief-harm-parts-struck = Harm: { $board } driven against tall parts
debrief-harm-hand-injured = Harm: a hand injured
debrief-harm-no-rule = A fact, not a rule.
debrief-trap = Trap sprung
debrief-open = Open at the end
debrief-no-finding = No rule was broken, nothing was harmed
debrief-rules = Rules and sources
debrief-again = Again
debrief-ways = Ways on from here
debrief-ways-button = Ways on

## What the slot map did not know

debrief-because = What the verdict rests on
debrief-outturn = What came out of it
debrief-gaps = What the slot map did not know
debrief-gap-times = { $from } to { $to }
debrief-gap-missing =
    { $count ->
        [one] Slot { $slots } was shown empty.
       *[other] Slots { $slots } were shown empty.
    } { $boards ->
        [one] A board lay there.
       *[other] { $boards } boards lay there.
    }
debrief-gap-ghost =
    { $count ->
        [one] Slot { $slots } was shown full.
       *[other] Slots { $slots } were shown full.
    } No board lay there.
debrief-gap-seen = Seen there by { $time }.
debrief-gap-unseen = Nobody saw it there.
debrief-gap-short-seen =
    gap: { $boards ->
        [one] 1 board not in the map
       *[other] { $boards } boards not in the map
    }
debrief-gap-short-unseen =
    gap: { $boards ->
        [one] 1 board nobody saw
       *[other] { $boards } boards not all seen
    }
debrief-gap-short-ghost =
    gap: { $slots ->
        [one] 1 slot wrongly full
       *[other] { $slots } slots wrongly full
    }

## Over the hall

debrief-what-was-true = What was true at { $time }
debrief-true = True
debrief-believed = Believed
debrief-slot =
    Slot { $slot }: true, infeed half { $infeed ->
        [board] board
       *[empty] empty
    }, outfeed half { $outfeed ->
        [board] board
       *[empty] empty
    }; believed { $believed ->
        [unknown] unknown
        [full] full
        [said] empty, as a person said
       *[empty] empty
    }{ $differs ->
        [yes] . Differs
       *[no] {""}
    }
debrief-width = Width true
debrief-width-counted = By step count
debrief-width-unknown = unknown
debrief-section = Across the flow, to scale: { $place }
debrief-section-slot = Slot { $slot } across the flow, to scale
debrief-section-bows = { $board } bows up { $rise }
debrief-section-broken = { $board } broke, bowed up { $rise }
debrief-section-sprung-out = { $board } sprang out, bowed up { $rise }
debrief-section-widths = Rails { $rails }, board { $width } wide. Strain { $strain } microstrain, limit { $limit }.

## Playing and the timeline

debrief-play = Play
debrief-stand = Pause
debrief-before = Finding before
debrief-next = Next finding
debrief-speed = { $times }x
debrief-take-over = Take over from here
debrief-timeline = Timeline
debrief-moment = { $time } of { $end }
debrief-row-unit = Unit state
debrief-row-hands = Hands
debrief-row-boards = Boards in rack
debrief-row-true = true
debrief-row-believed = believed
debrief-row-findings = Findings
debrief-unit-span = { $unit }, { $from } to { $to }
debrief-unit-off = { $unit }, power off
debrief-hands-in = hands in
debrief-declared = declared empty
debrief-unknown = believed: slots { $slots } unknown
debrief-boards-now = Boards in the rack now: true { $truly }, believed { $believed }, slots unknown { $unknown }
debrief-mark = { $what }, { $time }
debrief-mark-harm = Harm

## Rules and keys

debrief-source = Source:
debrief-no-rule = No rule was broken.
debrief-drill-sources = What this drill rests on
debrief-keys = Keys
debrief-key-play = Play, or pause
debrief-key-finding = Finding before, next finding
debrief-key-second = One second back, on
debrief-key-event = One event back, on
debrief-key-ends = Start, end
debrief-key-take-over = Take over from here: a practice attempt begins at this moment
debrief-key-again = The same start again
debrief-key-rules = Rules and sources
debrief-key-ways = Ways on from the chosen finding or this moment
debrief-key-help = These keys
debrief-key-focus = The next thing that can be pressed
debrief-key-close = Close
