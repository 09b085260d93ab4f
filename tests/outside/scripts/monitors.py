"""Writes ../monitors-rtamt.txt: what rtamt gives for formulas over time, on made-up traces.

    python3 -m venv venv && venv/bin/pip install rtamt==0.4.10
    venv/bin/python monitors.py > ../monitors-rtamt.txt

Each row: logic, formula in our notation, one trace of 0 and 1 for each of Is(Moving), Is(Held) and
the third atom, and what the formula is at each step. The third atom is Sign(Crack) over samples
and Is(Idle) over dense time, where a sign would be a single moment.

Rows of the logic "sets" come in fours: one formula over sets on a rack of two slots, and for each
half-slot the trace of SeenEmpty there, those of Is(Held) and Is(Moving), and whether the half-slot is
in the set at each sample. To rtamt they are four formulas over samples, one for each half-slot.

A - is a step for which rtamt gives nothing: some of its windows say nothing before they are full.

A step is a tenth of a second. Over samples a step is a sample. Over dense time a trace holds its
value for the whole step, and so does every formula: the script stops if it does not.

Three things are written otherwise for rtamt, so that both mean the same:
- rtamt's prev is true at the first sample, ours is false: not(prev(not(a)));
- rtamt's since over dense time asks for its left side at the witness too. Over steps that hold
  from their beginning on that leaves out only a witness at this very moment: b or (a since b);
- rtamt knows no window without an end: [a, steps of the trace].
"""

import importlib.metadata
import random

import rtamt

STEPS = 30
FOREVER = STEPS
# As many as there is room for.
WINDOWS_OVER_SETS = 1
SETS_REMEMBERED = 6


def comparison(name):
    return f"({name} > 0.5)"


def atom(chance, dense):
    third = "Is(Idle)" if dense else "Sign(Crack)"
    ours, name = chance.choice([("Is(Moving)", "p"), ("Is(Held)", "q"), (third, "r")])
    return ours, comparison(name)


def window(chance):
    """Our field, rtamt's interval, and whether this very moment is in it."""
    steps = chance.randint(1, 9)
    if chance.random() < 0.5:
        return f"within_s: 0.{steps}", f"[0:{steps}]", True
    return f"ago_s: 0.{steps}", f"[{steps}:{FOREVER}]", False


def one(name, chance, depth, dense):
    """A formula with one argument."""
    ours, theirs = formula(chance, depth - 1, dense)
    if name == "Not":
        return f"Not({ours})", f"(not {theirs})"
    if name == "Previously":
        return f"Previously({ours})", f"(not (prev (not {theirs})))"
    if chance.random() < 0.3:
        return f"{name}({ours})", f"({name.lower()} {theirs})"
    field, interval, _ = window(chance)
    return f"{name}({field}, of: {ours})", f"({name.lower()}{interval} {theirs})"


def two(name, chance, depth, dense):
    """A formula with two arguments."""
    (a, their_a), (b, their_b) = (formula(chance, depth - 1, dense) for _ in range(2))
    if name == "And":
        return f"And([{a}, {b}])", f"({their_a} and {their_b})"
    if name == "Or":
        return f"Or([{a}, {b}])", f"({their_a} or {their_b})"
    if name == "Implies":
        return f"Implies({a}, {b})", f"({their_a} -> {their_b})"
    field, interval, now = window(chance) if chance.random() < 0.7 else (None, "", True)
    theirs = f"({their_a} since{interval} {their_b})"
    if dense and now:
        theirs = f"({their_b} or {theirs})"
    if field is None:
        return f"Since({a}, {b})", theirs
    return f"Since({field}, held: {a}, since: {b})", theirs


def formula(chance, depth, dense):
    if depth == 0 or chance.random() < 0.1:
        return atom(chance, dense)
    ones = ["Not", "Once", "Historically"] + ([] if dense else ["Previously"])
    name = chance.choice(ones + ["And", "Or", "Implies", "Since", "Since"])
    return (one if name in ones else two)(name, chance, depth, dense)


def trace(chance):
    """Runs of some steps, as things are that go on for a while."""
    values, value = [], chance.randint(0, 1)
    while len(values) < STEPS:
        values += [value] * chance.randint(1, 6)
        value = 1 - value
    return values[:STEPS]


def declared(specification, theirs):
    for name in "pqro":
        specification.declare_var(name, "float")
    specification.spec = f"o = {theirs}"
    specification.parse()
    return specification


def over_samples(theirs, traces):
    specification = declared(rtamt.StlDiscreteTimeSpecification(), theirs)
    given = dict(zip("pqr", traces), time=list(range(len(traces[0]))))
    return [int(value > 0) for _, value in specification.evaluate(given)]


def over_dense_time(theirs, traces):
    specification = declared(rtamt.StlDenseTimeSpecification(), theirs)
    given = [
        [name, [[time, value] for time, value in enumerate(values + [values[-1]])]]
        for name, values in zip("pqr", traces)
    ]
    changes = specification.evaluate(*given)

    def at(time):
        values = [value for begin, value in changes if begin <= time]
        return int(values[-1] > 0) if values else "-"

    result = [at(step) for step in range(STEPS)]
    assert result == [at(step + 0.5) for step in range(STEPS)], theirs
    return result


def set_formula(chance, depth, clocks):
    """A formula over sets. `clocks` is how many windows it may still have."""
    if depth == 0 or chance.random() < 0.1:
        atoms = [("SeenEmpty", "p"), ("SeenEmpty", "p"), ("Is(Held)", "q"), ("Is(Moving)", "r")]
        ours, name = chance.choice(atoms)
        return ours, comparison(name)
    name = chance.choice(["Not", "Once", "Historically", "And", "Or", "Since", "Since"])
    timed = name in ("Once", "Historically", "Since") and clocks[0] > 0 and chance.random() < 0.8
    clocks[0] -= timed
    field, interval, _ = window(chance) if timed else ("", "", True)
    a, their_a = set_formula(chance, depth - 1, clocks)
    if name == "Not":
        return f"Not({a})", f"(not {their_a})"
    if name in ("Once", "Historically"):
        theirs = f"({name.lower()}{interval} {their_a})"
        return (f"{name}({field}, of: {a})" if timed else f"{name}({a})"), theirs
    b, their_b = set_formula(chance, depth - 1, clocks)
    if name == "Since":
        theirs = f"({their_a} since{interval} {their_b})"
        return (f"Since({field}, held: {a}, since: {b})" if timed else f"Since({a}, {b})"), theirs
    return f"{name}([{a}, {b}])", f"({their_a} {name.lower()} {their_b})"


def set_rows(chance, rows):
    made = 0
    while made < rows:
        clocks = [WINDOWS_OVER_SETS]
        ours, theirs = set_formula(chance, chance.randint(2, 4), clocks)
        remembers = sum(ours.count(name + "(") for name in ("Once", "Historically", "Since"))
        fits = remembers <= SETS_REMEMBERED and clocks[0] < WINDOWS_OVER_SETS
        if "SeenEmpty" not in ours or not fits:
            continue
        shared = [trace(chance) for _ in range(2)]
        own = [trace(chance) for _ in range(4)]
        found = [over_samples(theirs, [seen, *shared]) for seen in own]
        if all(0 in result and 1 in result for result in found) or chance.random() < 0.1:
            for seen, result in zip(own, found):
                row("sets", ours, [seen, *shared], result)
            made += 1


def row(logic, ours, traces, result):
    print(logic, ours, *("".join(map(str, bits)) for bits in [*traces, result]), sep="\t")


def main():
    version = importlib.metadata.version("rtamt")
    print(f"# rtamt {version} (BSD-3-Clause), by scripts/monitors.py")
    print("# logic, formula, Is(Moving), Is(Held), third atom, what the formula is at each step")
    chance = random.Random(20)
    for logic, evaluate in [("samples", over_samples), ("dense", over_dense_time)]:
        rows = 0
        while rows < 400:
            ours, theirs = formula(chance, chance.randint(1, 4), logic == "dense")
            traces = [trace(chance) for _ in range(3)]
            result = evaluate(theirs, traces)
            # Most formulas with something to say on their trace.
            if (0 in result and 1 in result) or chance.random() < 0.1:
                row(logic, ours, traces, result)
                rows += 1
    set_rows(chance, 150)


if __name__ == "__main__":
    main()
