"""Prints how long rtamt takes for one formula over so many samples: name, nanoseconds.

Run by `cargo bench -p rackproof-commands --bench rules`. The formula is that of the bench; the traces
are made up. A step is a tenth of a second, so that windows are 50 and 20 steps.
"""

import sys
import time

import rtamt

FORMULA = "o = (p > 0.5) -> ((not (h > 0.5)) since[0:50] (once[0:20] (p > 0.5)))"


def specification():
    made = rtamt.StlDiscreteTimeSpecification()
    for name in "pho":
        made.declare_var(name, "float")
    made.spec = FORMULA
    made.parse()
    return made


def least(work):
    """The least of three rounds."""
    rounds = []
    for _ in range(3):
        start = time.perf_counter_ns()
        work()
        rounds.append(time.perf_counter_ns() - start)
    return min(rounds)


def main():
    count = int(sys.argv[1])
    steps = list(range(count))
    traces = {"p": [float(step // 7 % 2 == 0) for step in steps], "h": [0.0] * count}

    def off_line():
        specification().evaluate({"time": steps, **traces})

    def on_line():
        monitor = specification()
        monitor.pastify()
        for step in steps:
            monitor.update(step, [(name, values[step]) for name, values in traces.items()])

    print("rtamt off-line", least(off_line), sep="\t")
    print("rtamt on-line", least(on_line), sep="\t")


if __name__ == "__main__":
    main()
