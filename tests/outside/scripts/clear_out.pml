/* A clear-out, written anew for SPIN. The rack is filled slot by slot: nothing, a loose board, or
   one that is stuck. Then slot by slot the belts run out; a loose board is taken at the end; if
   nothing comes, a person answers, with or without a look. Who looks and sees a stuck board may
   take it by hand. "Not sure" keeps the slot unknown.

   Every step is one d_step, so that SPIN's states are the moments between steps. */
#ifndef SLOTS
#define SLOTS 3
#endif
#define FILL 0
#define INDEX 1
#define RUNOUT 2
#define TAKE 3
#define ASK 4
#define DONE 5
#define HERE (1 << slot)

byte phase = FILL;
byte slot = 0;
byte loose = 0;
byte stuck = 0;
byte unknown = 0;
bit looked = 0;
byte i = 0;

/* The next unknown slot behind this one, the same one last; none: done. */
inline next() {
    looked = 0;
    if
    :: unknown == 0 -> phase = DONE; slot = 0
    :: else ->
        do
        :: slot = (slot + 1) % SLOTS;
           if
           :: unknown & HERE -> break
           :: else
           fi
        od;
        phase = INDEX
    fi
}

inline filled() {
    if
    :: slot + 1 < SLOTS -> slot++
    :: else -> slot = 0; unknown = (1 << SLOTS) - 1; phase = INDEX
    fi
}

active proctype clear_out() {
end:
    do
    :: d_step { phase == FILL -> filled() }
    :: d_step { phase == FILL -> loose = loose | HERE; filled() }
    :: d_step { phase == FILL -> stuck = stuck | HERE; filled() }
    :: d_step { phase == INDEX -> phase = RUNOUT }
    :: d_step { phase == RUNOUT ->
         if
         :: loose & HERE -> phase = TAKE
         :: else -> phase = ASK
         fi }
    :: d_step { phase == TAKE -> loose = loose & ~HERE; phase = RUNOUT }
    :: d_step { phase == ASK && !looked -> looked = 1 }
    :: d_step { phase == ASK && looked && (stuck & HERE) -> stuck = stuck & ~HERE; looked = 0 }
    :: d_step { phase == ASK -> unknown = unknown & ~HERE; next() }
    :: d_step { phase == ASK -> next() }
    od
}
