"""Two lines by simpy: boards or cycles, how many were lost or made, events, seconds:
of processor for all rounds, each as quick as the best.

Run: python queue_simpy.py poisson|boards|bernoulli COUNT ROUNDS SEED
"""

import collections
import random
import sys
import time

import simpy

RATE, ROOM, WORK = 0.8, 5, 1_000.0
UP, BUFFER = (0.95, 0.9), 5


class Queue:
    """M/M/1/K, a process a customer."""

    def __init__(self, env, chance, boards):
        self.env, self.chance = env, chance
        self.server = simpy.Resource(env)
        self.inside = self.came = self.counted = 0
        self.done = env.process(self.source(boards))

    def customer(self):
        if self.inside == ROOM:
            self.counted += 1
            return
        self.inside += 1
        with self.server.request() as turn:
            yield turn
            yield self.env.timeout(self.chance.expovariate(1 / WORK))
        self.inside -= 1

    def source(self, boards):
        while self.came < boards:
            yield self.env.timeout(self.chance.expovariate(RATE / WORK))
            self.came += 1
            self.env.process(self.customer())


class Cycles:
    """Two machines, each up in a cycle by chance. The second one acts first in a cycle."""

    def __init__(self, env, chance, cycles):
        self.env, self.chance = env, chance
        self.buffer = simpy.Container(env, capacity=BUFFER)
        self.counted = 0
        env.process(self.second())
        self.done = env.process(self.first(cycles))

    def second(self):
        while True:
            if self.chance.random() < UP[1] and self.buffer.level > 0:
                yield self.buffer.get(1)
                self.counted += 1
            yield self.env.timeout(1)

    def first(self, cycles):
        yield self.env.timeout(0.5)
        for _ in range(cycles):
            if self.chance.random() < UP[0] and self.buffer.level < BUFFER:
                yield self.buffer.put(1)
            yield self.env.timeout(1)


class Boards:
    """The same two machines, a process a board: it takes a place, waits until the second machine
    takes it, and leaves its place."""

    def __init__(self, env, chance, cycles):
        self.env, self.chance = env, chance
        self.places = simpy.Resource(env, capacity=BUFFER)
        self.waiting = collections.deque()
        self.counted = 0
        env.process(self.second())
        self.done = env.process(self.first(cycles))

    def board(self):
        with self.places.request() as place:
            yield place
            taken = self.env.event()
            self.waiting.append(taken)
            yield taken
        self.counted += 1

    def second(self):
        while True:
            if self.chance.random() < UP[1] and self.waiting:
                self.waiting.popleft().succeed()
            yield self.env.timeout(1)

    def first(self, cycles):
        yield self.env.timeout(0.5)
        for _ in range(cycles):
            if self.chance.random() < UP[0] and self.places.count < BUFFER:
                self.env.process(self.board())
            yield self.env.timeout(1)


def events(line, count, seed):
    """How many events there are: counted apart, so that counting costs the timed run nothing."""
    env = simpy.Environment()
    run = line(env, random.Random(seed), count)
    steps = 0
    while run.done.callbacks is not None:
        env.step()
        steps += 1
    return steps


def timed(line, count, seed):
    env = simpy.Environment()
    run = line(env, random.Random(seed), count)
    begun = time.process_time()
    env.run(until=run.done)
    return run.counted, time.process_time() - begun


def main():
    line = {"poisson": Queue, "boards": Boards, "bernoulli": Cycles}[sys.argv[1]]
    count, rounds, seed = (int(word) for word in sys.argv[2:])
    ran = [timed(line, count, seed + number) for number in range(rounds)]
    counted = sum(one for one, _ in ran)
    # The best round stands for all: on a busy machine some are left alone.
    seconds = rounds * min(one for _, one in ran)
    print(rounds * count, counted, rounds * events(line, count, seed), f"{seconds:.6f}")


main()
