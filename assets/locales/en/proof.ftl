### How a drill stands to its proof, and what follows from it.

proof-proved = Proved: every claim holds for these files and this program.
proof-stale = The kept proof is out of date. Changed since: { $changed }. Nothing is shown about the drill as it is now.
proof-strayed = The kept proof shows nothing today. Attempts of the guide that it keeps do not come out as it says: { $runs }.
proof-failed = The kept proof failed. Claims that do not hold or were not shown: { $claims }.
proof-broken = The kept proof cannot be read, or was changed after it was written. It shows nothing.
proof-partial = The kept proof is of level 6: by it the rules suffice and the drill is fair. It says nothing of the other claims, and no exam is taken on it.
proof-missing = No proof is kept with this drill. Nobody has shown that keeping its rules does no harm.
proof-ground-machine = the machine file
proof-ground-drill = the drill file
proof-ground-rules = the rules file
proof-ground-procedure = the procedure file
proof-ground-core = the program’s own core
proof-renew = To prove the drill as it is now:
    rackproof prove { $path }
proof-exam-closed = No exam: a result would rest on a drill that is not proved. { $state } { proof-renew }

## check

check-proof = { $path }, its proof: { $state }
check-proof-renew = { check-proof } { proof-renew }
problem-exam-not-proved = No exam can be taken on this drill. { $state }
expected-proof = A proof in which every claim holds, made with these files and this program.
hint-proof-renew = Run “rackproof prove { $path }”.

## The file of a proof

problem-proof-hash = The value of “{ $field }” is not a hash.
problem-proof-verdict = The field “holds” does not say what the claims say.
problem-proof-claims-nothing = This proof claims nothing.
problem-proof-not-searched = No search of { $variant } on a rack of { $slots } slots is in this proof.
problem-proof-seal = The seal at the end is not that of this text: it was changed after it was written.
problem-proof-no-deed = There is no deed { $number }: the list has { $count }, counted from 0.
problem-proof-more-than-one = Here stand { $count } values, where one or none belongs.

## prove

prove-kept = { $drill }: nothing changed since it was proved. This is the kept proof, { $path }. To prove it again all the same, add “--again”.
prove-anew = { $drill } is proved anew. { $state }
prove-kept-more = { $path } is a proof of level { $kept } of these texts. Level { $level } shows less, and would take its place. Nothing was searched, and the kept proof stands. To have one of level { $level } all the same, move that file away first; to see how many states there are, add “--slots”.
prove-written = The proof is kept as { $path }.
prove-written-failed = What failed is kept as { $path }, so that no exam is taken on this drill.
prove-not-written = No proof is kept of a part: that takes a run without “--small” and “--variant”.
prove-not-written-bounded = No proof is kept of searches that stopped at the bound of “--states”. With a greater one they go farther.
prove-memory = { $workers ->
    [one] One search at a time
   *[other] { $workers } searches at a time
}, each of at most { $states } states. A state with its steps takes about { $bytes } bytes, so that no search takes more than about { $each } MB. Ctrl-C ends all and says what is known by then.
prove-far = { $slots } slots, { $variant }: { $states } states so far, { $depth } steps deep.
prove-interrupted = Ended before its time. What stands above is known; what is open was not searched to its end. No proof is kept.
prove-open = open
prove-way-attempt = { $path }: { $variant }. A way that breaks this claim at { $time }, as an attempt to be played, graded and looked at. { $claim }
prove-shown = { $count ->
    [one] One attempt that shows
   *[other] { $count } attempts that show
} how traps spring and how the guide goes on, in { $folder }: to be played, graded and looked at.
prove-way-small = { $slots } slots, { $variant }: this way is no attempt. An attempt has the whole machine, and its end there does not show that the claim is broken. { $claim }
prove-way-plain = The way by plain steps on { $slots } slots is no attempt: an attempt has the whole machine, and the way stands above.
prove-way-strays = { $slots } slots, { $variant }: this way cannot be played on the real machine, and is no attempt. { $claim }
grade-way = A proof found this way. It breaks a claim at { $time }. { $claim }
