### What cannot be taken back, and what nobody was told: for the debrief.

## Harm

harm-overstrained = { $board }, { $place }: bent to { $number } microstrain, limit { $limit } microstrain. It springs back and looks good, but its joints are cracked. Quarantine is the place for it.
harm-overstrained-at-mouth = { $board }, { $place }: the lift moved { $number } with the board across the mouth, limit { $limit }. It looks good, but its joints are cracked. Quarantine is the place for it.
harm-sprung-out = { $board }, { $place }: pressed out of its ledges by { $number }, limit { $limit }. It is lost. Take it out under lock before anything moves.
harm-broken = { $board }, { $place }: bent to { $number } microstrain, it breaks at { $limit } microstrain. It is lost. Take out all its pieces under lock before anything moves.
harm-fell-over-end = { $board }: sent over the outfeed end, and nothing is there to take it. It fell. Find it, and put it into quarantine.
harm-fell-downstream = { $board }: the rails of the machine downstream gave it { $number } of clearance, its ledges hold { $limit }. It fell there. Tell downstream before anything runs.
harm-dropped = { $board }, { $place }: the rails gave it { $number } of clearance, its ledges hold { $limit }. It fell. Find it and take it out under lock.
harm-sheared = { $board }, { $place }: the lift moved { $number } with the board across the mouth, limit { $limit }. It is cut through. Take out both parts under lock.
harm-driven-into-downstream = { $board }: driven into the machine downstream, which did not take it. It is harmed. Take it out and put it into quarantine.
harm-collided = { $board }, { $place }: driven into another board, { $number } short of its place. Both are harmed. Take both out and put them into quarantine.
harm-parts-struck = { $board }, { $place }: driven against the parts of a board in another slot. The two need { $number } of height, there are { $limit }. Both are harmed. Take both out and put them into quarantine.
harm-hand-injured = A hand was where an axis moved, at { $speed } mm/s. The person is hurt. The attempt ends here: first aid, and the line lead.
harm-prop-struck = The lift ran { $number } against its prop. Lift and prop are harmed. The machine stays isolated until it is inspected.

## Hidden facts

fact-board-entered = A board came onto the infeed belt.
fact-failed-board-came = A board that had failed its test came from upstream: { $board }.
fact-failed-board-taken-away = Upstream took its failed board away: { $board }.
fact-board-laid = Upstream laid its left-over board on the infeed belt: { $board }.
fact-board-taken = { $board } was taken out of slot { $slot }, { $half }.
fact-board-put-in = { $board } was put into slot { $slot }, { $half }.
fact-good-board-put-down = { $board } was put down. It was good.
fact-harmed-board-put-down = { $board } was put down. It was not good, whether or not that showed.

## What the neighbours chose

chance-upstream-lays-board = Upstream lays its left-over board on the infeed belt by hand: { $board }.
chance-upstream-drops = Upstream's belts stop in the middle of a hand-over, and its Board Available opens.
chance-downstream-drops = Downstream's belts stop in the middle of a hand-over, and its Machine Ready opens.
chance-upstream-gives-two = Upstream gives two boards on one closing.
chance-downstream-makes-room = Downstream has room for a board again.
chance-upstream-offers-board = Upstream offers its left-over board by signal: { $board }.
