"""Lines with a buffer as two programs simulate them: mean and standard error over independent runs.

Made with: pip install simpy==4.1.2 ciw==3.2.7. The script `lines` beside this one does all of it.
"""
import random
import statistics
import sys
from importlib.metadata import version

import ciw
import simpy

POISSON = [(0.8, 5), (1.0, 5), (1.2, 10), (0.9, 20)]
BERNOULLI = [(0.9, 0.9, 3), (0.9, 0.9, 10), (0.95, 0.9, 5), (0.8, 0.9, 4)]
FAILING = [
    (0.01, 0.01, 0.1, 0.1, 4),
    (0.01, 0.01, 0.1, 0.1, 10),
    (0.01, 0.01, 0.1, 0.1, 20),
    (0.01, 0.009, 0.1, 0.08, 10),
    (0.02, 0.02, 0.2, 0.1, 10),
]


class PoissonLine:
    """M/M/1/K: a process a board, one server; times in mean times of work."""

    def __init__(self, env, chance, rate, room):
        self.env, self.chance, self.rate, self.room = env, chance, rate, room
        self.server = simpy.Resource(env)
        self.inside = 0
        self.clear()
        env.process(self.source())

    def clear(self):
        self.came = self.lost = self.made = 0
        self.filled, self.since = 0.0, self.env.now

    def changes(self, by):
        self.filled += self.inside * (self.env.now - self.since)
        self.since = self.env.now
        self.inside += by

    def source(self):
        while True:
            yield self.env.timeout(self.chance.expovariate(self.rate))
            self.came += 1
            if self.inside == self.room:
                self.lost += 1
            else:
                self.changes(1)
                self.env.process(self.board())

    def board(self):
        with self.server.request() as turn:
            yield turn
            yield self.env.timeout(self.chance.expovariate(1.0))
        self.changes(-1)
        self.made += 1


def poisson_simpy(chance, rate, room, span=12_000):
    env = simpy.Environment()
    line = PoissonLine(env, chance, rate, room)
    env.run(until=500)
    line.changes(0)
    line.clear()
    env.run(until=500 + span)
    line.changes(0)
    return line.lost / line.came, line.filled / span, line.made / span


def poisson_ciw(chance, rate, room, span=4_000):
    ciw.seed(chance.randrange(1 << 30))
    network = ciw.create_network(
        arrival_distributions=[ciw.dists.Exponential(rate=rate)],
        service_distributions=[ciw.dists.Exponential(rate=1.0)],
        number_of_servers=[1],
        queue_capacities=[room - 1],
    )
    begin, end = 300, 300 + span
    queue = ciw.Simulation(network)
    # Long enough behind the end that whoever was inside then has left.
    queue.simulate_until_max_time(end + 300)
    came = lost = made = 0
    filled = 0.0
    for record in queue.get_all_records(only=["service", "rejection"]):
        came += begin <= record.arrival_date < end
        if record.record_type == "rejection":
            lost += begin <= record.arrival_date < end
            continue
        made += begin <= record.exit_date < end
        filled += max(0.0, min(end, record.exit_date) - max(begin, record.arrival_date))
    return lost / came, filled / span, made / span


class Count:
    def __init__(self):
        self.made = self.level = self.blocked = self.starved = 0


def bernoulli_simpy(chance, first, second, room, cycles=20_000, before=500):
    """Two machines, each up in a cycle by chance. The second one acts first in a cycle."""
    env = simpy.Environment()
    buffer = simpy.Container(env, capacity=room)
    count = Count()

    def second_machine():
        while True:
            counts = env.now >= before
            count.level += buffer.level * counts
            if chance.random() < second:
                if buffer.level > 0:
                    yield buffer.get(1)
                    count.made += counts
                else:
                    count.starved += counts
            yield env.timeout(1)

    def first_machine():
        yield env.timeout(0.5)
        while True:
            if chance.random() < first:
                if buffer.level < room:
                    yield buffer.put(1)
                else:
                    count.blocked += env.now >= before
            yield env.timeout(1)

    env.process(second_machine())
    env.process(first_machine())
    env.run(until=before + cycles)
    return tuple(one / cycles for one in (count.made, count.level, count.blocked, count.starved))


def failing_simpy(chance, fail1, fail2, repair1, repair2, room, cycles=20_000, before=1_000):
    """Two machines that fail while they work. Each decides by the level at a cycle's beginning."""
    env = simpy.Environment()
    buffer = simpy.Container(env, capacity=room)
    count = Count()

    def machine(fails, repaired, may_work, works):
        up = True
        while True:
            could = may_work()
            up = not (could and chance.random() < fails) if up else chance.random() < repaired
            yield env.timeout(0.5)
            if up and could:
                yield works()
            yield env.timeout(0.5)

    def takes():
        count.made += env.now >= before
        return buffer.get(1)

    def watch():
        while True:
            count.level += buffer.level * (env.now >= before)
            yield env.timeout(1)

    env.process(watch())
    env.process(machine(fail1, repair1, lambda: buffer.level < room, lambda: buffer.put(1)))
    env.process(machine(fail2, repair2, lambda: buffer.level > 0, takes))
    env.run(until=before + cycles)
    return count.made / cycles, count.level / cycles


def told(tool, line, runs, simulate, rows, quantities):
    for number, row in enumerate(rows):
        found = [simulate(random.Random(f"{tool} {line} {row} {run}"), *row) for run in range(runs)]
        for quantity, values in zip(quantities, zip(*found)):
            error = statistics.stdev(values) / runs**0.5
            figures = ",".join(str(figure) for figure in row)
            print(tool, line, figures, quantity, f"{statistics.mean(values):.6f}", f"{error:.6f}")
        print(f"{tool} {line}: {number + 1} of {len(rows)}", file=sys.stderr)


def main():
    python = ".".join(str(part) for part in sys.version_info[:3])
    print("# Lines with a buffer as two other programs simulate them: mean and standard error of 40 runs, each")
    print("# after a start that does not count. Made by: tests/outside/scripts/lines")
    print(f"# Tools: simpy {version('simpy')} (PyPI, MIT), ciw {version('ciw')} (PyPI, MIT), Python {python}")
    print("# poisson: rate of boards in mean times of work, room in all; shares lost, mean inside, made in a time of work")
    print("# bernoulli: chances of both machines to be up, room between; for each cycle")
    print("# failing: chances of both to fail, of both to be repaired, room between; for each cycle")
    print("# Columns: tool line figures quantity mean error")
    poisson = ["lost", "inside", "made"]
    told("simpy", "poisson", 40, poisson_simpy, POISSON, poisson)
    told("ciw", "poisson", 40, poisson_ciw, POISSON, poisson)
    told("simpy", "bernoulli", 40, bernoulli_simpy, BERNOULLI, ["made", "level", "blocked", "starved"])
    told("simpy", "failing", 40, failing_simpy, FAILING, ["made", "level"])


main()
