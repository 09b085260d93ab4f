#!/usr/bin/env bash
# States and transitions of the clear-out as SPIN counts them. Needs spin and gcc.
# Run in tests/outside: scripts/clear_out.sh > clear-out-spin.txt
set -euo pipefail
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
model="$(cd "$(dirname "$0")" && pwd)/clear_out.pml"
cd "$work"
printf '# slots, states stored, transitions; %s (Debian), by scripts/clear_out.sh\n' "$(spin -V)"
printf '# from scripts/clear_out.pml, without partial order reduction\n'
for slots in 1 2 3 4 5; do
    spin -DSLOTS="$slots" -a "$model"
    gcc -O1 -w -DNOREDUCE -DSAFETY -o pan pan.c
    ./pan -m100000 | awk -v slots="$slots" '
        /states, stored/ { states = $1 }
        / transitions/ { print slots, states, $1 }'
done
