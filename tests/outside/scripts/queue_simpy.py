"""M/M/1/K by simpy, a process a customer: boards that came, boards lost, seconds, version.

Run: python queue_simpy.py BOARDS SEED
"""

import random
import sys
import time

import simpy

RATE, ROOM, WORK = 0.8, 5, 1_000.0


class Queue:
    def __init__(self, env, chance):
        self.env, self.chance = env, chance
        self.server = simpy.Resource(env)
        self.inside = self.came = self.lost = 0

    def customer(self):
        if self.inside == ROOM:
            self.lost += 1
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


def main():
    boards, seed = int(sys.argv[1]), int(sys.argv[2])
    env = simpy.Environment()
    queue = Queue(env, random.Random(seed))
    done = env.process(queue.source(boards))
    begun = time.perf_counter()
    env.run(until=done)
    seconds = time.perf_counter() - begun
    print(queue.came, queue.lost, f"{seconds:.6f}", simpy.__version__)


main()
