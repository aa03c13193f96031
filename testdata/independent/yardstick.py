"""The yardstick line (scenarios/examples/yardstick.yaml) in plain SimPy 3, as somebody would write it who does without this program.

    yardstick.py [--hours H] [--seed S]

prints one JSON object: packs finished, vessel cycles, the seconds that the run itself took. It keeps what a careful model keeps (time of each pack out of
the chilled store, seconds in work of each station), but no states, levels and waits, as this program does.
"""

import argparse
import json
import random
import time

import simpy

PACKS, LOAD, CASE = 148, 5, 12


class Belt:
    """Places, then a lane that takes a pack each gap and brings it out after the travel time."""

    def __init__(self, env, places, per_minute, travel, after):
        self.env, self.gap, self.travel, self.after = env, 60.0 / per_minute, travel, after
        self.before = simpy.Store(env, places)
        self.lane = simpy.Store(env)
        env.process(self.entry())
        env.process(self.exit())

    def entry(self):
        while True:
            pack = yield self.before.get()
            yield self.lane.put((self.env.now + self.travel, pack))
            yield self.env.timeout(self.gap)

    def exit(self):
        while True:
            due, pack = yield self.lane.get()
            if due > self.env.now:
                yield self.env.timeout(due - self.env.now)
            yield self.after.put(pack)


class Line:
    def __init__(self, rng):
        self.env = env = simpy.Environment()
        self.rng, self.cycles, self.finished, self.busy, self.out = rng, 0, 0, {}, []
        self.empties, self.infeed, self.drain = simpy.Store(env, 18), simpy.Store(env, LOAD), simpy.Store(env, LOAD)
        self.empties.items.extend([None] * 18)
        self.table, self.turn = simpy.Store(env, 600), simpy.Resource(env)  # a case is collected by one packer at a time
        self.dryer = Belt(env, 160, 130, 25.0, self.table)
        self.shaker = Belt(env, 120, 180, 20.0, self.dryer.before)
        for life in [self.loading(), self.vessel(), self.tip()] + [self.packer() for _ in range(5)]:
            env.process(life)

    def work(self, station, seconds):
        self.busy[station] = self.busy.get(station, 0.0) + seconds
        return self.env.timeout(seconds)

    def loading(self):
        while True:
            yield self.empties.get()
            born = self.env.now
            hand = sum(self.rng.triangular(1.0, 2.1, 1.4) for _ in range(PACKS)) / 3
            yield self.work("loading", hand)
            yield self.work("loading", self.rng.triangular(12, 30, 18))
            yield self.infeed.put(born)

    def vessel(self):
        while True:
            load = []
            for _ in range(LOAD):
                load.append((yield self.infeed.get()))
            yield self.work("vessel", 296 + self.rng.triangular(112, 132, 120))
            self.cycles += 1
            for born in load:
                yield self.drain.put((born, self.env.now))

    def tip(self):
        while True:
            carrier = yield self.drain.get()
            yield self.work("tip", 20)
            for _ in range(PACKS):
                yield self.work("tip", 0.1)
                yield self.shaker.before.put(carrier)
            yield self.empties.put(None)

    def packer(self):
        while True:
            case = []
            with self.turn.request() as mine:
                yield mine
                for _ in range(CASE):
                    case.append((yield self.table.get()))
            yield self.work("packing", self.rng.triangular(20, 40, 26))
            self.finished += CASE
            self.out.extend(self.env.now - born for born, _ in case)


def main():
    ask = argparse.ArgumentParser()
    ask.add_argument("--hours", type=float, default=40)
    ask.add_argument("--seed", type=int, default=1)
    want = ask.parse_args()
    line = Line(random.Random(want.seed))
    began = time.process_time()
    line.env.run(until=want.hours * 3600)
    took = time.process_time() - began
    print(json.dumps({"packs": line.finished, "cycles": line.cycles, "seconds": took, "mean_out_s": sum(line.out) / max(1, len(line.out))}))


if __name__ == "__main__":
    main()
