### The task sheet of a drill.

sheet-head-start = Starting state
sheet-head-cue = Cue
sheet-head-standard = Standard: all of this holds at the end
sheet-head-ways = Ways, each as good as the others
sheet-head-critical = Critical steps
sheet-head-time = Time
sheet-head-criteria = Criteria
sheet-head-cautions = Cautions
sheet-start-unit = { $machine }, unit { $unit }, mode { $mode }.
sheet-start-products = { $loaded } is loaded. { $next } is next.
sheet-start-product = { $loaded } is loaded, and runs on.
sheet-start-stand = You stand at the { $place }.
sheet-start-variants = { $variants ->
    [one] There is one start.
   *[other] One of { $variants } starts is drawn. They differ in what you will find.
}
sheet-in-order = In its order
sheet-any-order = In any order
sheet-step = { $step } { $order }. Behind it:
sheet-time = At most { $minutes } { $minutes ->
    [one] minute
   *[other] minutes
}. Longer is a finding. It does not fail you.
sheet-verdict = You pass if all of the standard holds, no stop rule was broken, you harmed nobody and nothing, and { $majors ->
    [0] no major rule was broken
    [one] major rules were broken at most once
   *[other] major rules were broken at most { $majors } times
}. There are no points. Nothing makes up for a stop rule. Luck is no excuse.
sheet-criterion = { $severity }. { $asks } Source: { $source }.
sheet-without = Without it: { $harm }
sheet-harm-overstrained = A board is bent too far.
sheet-harm-sprung-out = A board is pressed out of its ledges.
sheet-harm-broken = A board is broken.
sheet-harm-dropped = A board falls between the rails.
sheet-harm-collided = Two boards run into each other.
sheet-harm-hand-injured = A hand is injured.
sheet-harm-parts-struck = A board is driven against the parts of another.
sheet-harm-lift-fell = The lift falls.
sheet-harm-caught-under-lift = A hand is caught under the lift.
sheet-harm-charged = A board is touched by somebody who carries a charge.
sheet-harm-burned = A hand is burned.
