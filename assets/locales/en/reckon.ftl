### What the command `reckon` answers to a planner. Each figure stands behind its formula, in words
### and with the numbers put in.

reckon-head = { $machine }, product { $product }, { $boards ->
    [one] one board
   *[other] { $boards } boards
} inside, lowest slots first. { $order }
reckon-order-first = First in, first out.
reckon-order-last = Last in, first out.
reckon-order-through = Straight through; what is stored, first in, first out.

reckon-part-slots = Usable slots
reckon-slots = slots / interval = { $slots } / { $interval }, rounded up: { $used } slots
reckon-room = used slots · boards in a slot = { $used } · { $each } = { $boards } boards

reckon-part-drain = Drain, with nothing coming in, from downstream’s first call
reckon-board = One board: lift + draw-back + belts + way back + signal
reckon-quickest =
    The quickest, from slot { $slot }:
    { $index } + { $draw } + { $belts } + { $back } + { $signal } = { $time }
reckon-slowest =
    The slowest, from slot { $slot }:
    { $index } + { $draw } + { $belts } + { $back } + { $signal } = { $time }
reckon-drain-free =
    All: sum of the others + the last, until it has left
    = { $slower } ({ $others ->
        [one] one board
       *[other] { $others } boards
    }) + { $last } = { $time } ({ $clock })
reckon-drain-takt =
    All: sum of max(board, takt) + the last, until it has left
    = { $waiting } · { $takt } + { $slower } ({ $others ->
        [one] one board takes longer
       *[other] { $others } boards take longer
    }) + { $last } = { $time } ({ $clock })
reckon-stay =
    While as many come in as leave, a board stays on average, in any order (Little’s law):
    boards · takt = { $boards } · { $takt } = { $time } ({ $clock })

reckon-takt-short = The takt of { $takt } is less than the { $time } that the slowest board takes: the line does not keep it while it takes boards from the rack.

reckon-part-begin = When to begin draining
reckon-before = Before the changeover: drain = { $time }, rounded up: { $minutes } min
reckon-begin-at = changeover - drain = { $changeover } - { $time } = { $begin }
reckon-begin-day-before = changeover - drain = { $changeover } - { $time } = { $begin } on the day before
reckon-begin-within =
    time left - drain = { $minutes } min - { $time } = { $begin }
    Begin that many minutes and seconds from now.
reckon-begin-late =
    time left - drain = { $minutes } min - { $time } is less than nothing.
    It is too late. { $boards ->
        [one] One board
       *[other] { $boards } boards
    } will still be inside, for a clear-out.

reckon-part-belt = Clear-out by belt
reckon-belt-machine =
    The machine: ways of the lift + slots · running out + boards · way to the end
    = { $index } + { $slots } · { $run } + { $firsts } · { $first } = { $time }
reckon-belt-machine-pairs =
    The machine: ways of the lift + slots · running out + first boards · way to the end + second boards · way to the end
    = { $index } + { $slots } · { $run } + { $firsts } · { $first } + { $seconds } · { $second } = { $time }
reckon-belt-person =
    The person: beginning + slots · look and answer + boards · taking
    = { $before } + { $slots } · { $slot } + { $boards } · { $board } = { $time }
reckon-sum = Together: { $machine } + { $person } = { $time } ({ $clock })

reckon-part-hand = Clear-out by hand, under lock
reckon-hand-person =
    The person: lock and looks + boards · taking + looks and unlocking
    = { $before } + { $boards } · { $board } + { $after } = { $time }
reckon-hand-machine =
    The machine: declare empty + way to the reference
    = { $declare } + { $reference } = { $time }

reckon-part-changeover = The machine’s share of the changeover behind it, to { $next }
reckon-changeover = Way to slot 1 + sweep + rails to zero + rails to width
reckon-changeover-belt =
    After a clear-out by belt:
    { $way } + { $sweep } + { $zero } + { $width } = { $time }
reckon-changeover-hand =
    After a clear-out by hand:
    { $way } + { $sweep } + { $zero } + { $width } = { $time }

reckon-part-rests = What it rests on
reckon-rests = Nothing goes wrong, no slot is answered with not sure, and downstream takes no board in a clear-out. The person’s times are the pace in the machine file: measure it. Terms are rounded to a thousandth of a second, sums are made from the whole ones.

## What cannot be answered

reckon-no-machine = There is no file “{ $name }”, and no machine of ours has that name. Ours are: { $names }.
reckon-no-machine-near = There is no file “{ $name }”, and no machine of ours has that name. Perhaps “{ $near }” is meant. Ours are: { $names }.
reckon-folder = “{ $path }” is a folder. Name the file of a machine in it, such as { $path }/hall-3.ron, or a machine of ours: { $names }.
reckon-no-product = The machine has no product “{ $name }”. Its products are: { $names }.
reckon-no-product-near = The machine has no product “{ $name }”. Perhaps “{ $near }” is meant. Its products are: { $names }.
reckon-no-fit = Product “{ $product }” does not fit the machine: its board is { $length } long, and half a slot takes { $most }. Put right its length in the machine file, or choose another product.
reckon-no-time = “{ $typed }” is no time of a changeover. Write the time of day, such as 13:40, or the minutes until then, such as 25.
reckon-about = The { $words }:
reckon-file-wrong =
    Nothing was reckoned. Put right what is said above. This says it again:
    rackproof check { $path }
reckon-nothing = Nothing was reckoned. Put right what is said above; the command reckon --help lists all that can be asked.
