"""An independent model in SimPy 3 of the plain example line (scenarios/examples/plain.yaml), pack by pack.

    plain.py [--replications N] [--first K] [--seed S] [--saturated] [--often]

prints one JSON object a replication and line: packs/h, cycles/h, seconds in each state by station, the 95th percentile of the time out of the
chilled store. --saturated leaves out roster, breaks, stops, part loads and the pace of shifts (plain-saturated.yaml); --often lets stops come far more often
(plain-often.yaml), so that their rules can be seen in a few replications.
"""

import argparse
import json
import math
import random
import sys

import simpy

from parts import BLOCKED, NAMES, OFF, OPERATOR, PLANNED, PROCESSING, REPAIR, STARVED, WAIT_REPAIR, Ask, Belt, Buffer, Pool, RunClock, Server

HOUR, MINUTE = 3600.0, 60.0
PACKS, LOAD, CASE = 148, 5, 12
# name: (interval, sd of a Weibull or None: exponential), (repair mean, sd of a lognormal)
RARE = {"seals": 3000, "intensifier": (500 * HOUR, 170 * HOUR), "jam": 60 * HOUR, "belt": 200 * HOUR, "blower": 1500 * HOUR}
OFTEN = {"seals": 60, "intensifier": (5 * HOUR, 1.7 * HOUR), "jam": 2 * HOUR, "belt": 3 * HOUR, "blower": 5 * HOUR}


def lognormal(r, mean, sd):
    """Lognormal by the mean and sd of the time itself."""
    v = math.log(1 + (sd / mean) ** 2)
    return r.lognormvariate(math.log(mean) - v / 2, math.sqrt(v))


def weibull_shape(cv):
    """Shape of the Weibull law whose sd is cv times its mean, by halving."""
    low, high = 0.2, 50.0
    for _ in range(200):
        k = (low + high) / 2
        if math.gamma(1 + 2 / k) / math.gamma(1 + 1 / k) ** 2 - 1 > cv * cv:
            low = k
        else:
            high = k
    return k


class Line:
    def __init__(self, rng, full, every):
        self.env = env = simpy.Environment()
        self.r, self.full, self.every = rng, full, every
        self.closed = self.washes = False
        self.packs_in = self.finished = self.aside = self.cycles = 0
        self.out = []  # packs: time out of the chilled store
        self.news = env.event()
        self.loaders, self.packers, self.fitter = Pool(env, 3, 0.06 if full else 0.0), Pool(env, 5, 0.05 if full else 0.0), Pool(env, 1, 0.0)
        self.pools = [self.loaders, self.packers, self.fitter]
        self.new_pace()
        self.empties = Buffer(env)
        for i in range(18):
            self.empties.put(i)
        self.infeed, self.drain = Buffer(env, 5), Buffer(env, 5, stay=20.0)
        self.table, self.wet, self.cases = Table(self), Wet(self), Buffer(env, 10)
        leak = Sink(self, self.leaks)
        self.dryer = Belt(env, "lane", 2, 65 / MINUTE, 25.0, 40, 160, True, lambda _: self.wet if rng.random() < 0.08 else self.table)
        self.shaker = Belt(env, "shaker", 1, 180 / MINUTE, 20.0, 90, 120, False, lambda _: leak if rng.random() < 0.002 else self.dryer.before)
        self.stations = {
            "loading": self.servers(1, self.loading), "vessel": self.servers(1, self.vessel), "tip": self.servers(1, self.tip),
            "shaker": self.shaker.lanes, "dryer": self.dryer.lanes, "wiping": self.servers(5, self.wiping),
            "packing": self.servers(5, self.packing), "sealer": self.servers(1, self.sealer),
        }
        self.to_seals = math.inf
        for p in self.pools:
            p.here = True
        if full:
            self.begin_stops()
            self.hold_all(PLANNED)  # start-up
            env.process(self.roster())

    def servers(self, n, live):
        made = []
        for _ in range(n):
            s = Server(self.env, live.__name__)
            s.idle = None
            s.process = self.env.process(live(s))
            made.append(s)
        return made

    def every_server(self):
        return [s for servers in self.stations.values() for s in servers]

    def new_pace(self):
        for p in self.pools:
            p.factor = lognormal(self.r, 1.0, p.pace) if p.pace else 1.0

    def tell(self):
        """Something seldom changed: everybody looks again."""
        self.news, was = self.env.event(), self.news
        was.succeed()
        self.table.serve()

    # -- what is upstream: nothing more comes when the line is closed and all of it is empty

    def loading_done(self):
        return self.closed and not self.stations["loading"][0].busy

    def vessel_done(self):
        return self.loading_done() and not len(self.infeed) and not self.stations["vessel"][0].inside

    def packing_alone(self):
        """No pack can come to the table any more."""
        return (self.vessel_done() and not len(self.drain) and not self.stations["tip"][0].busy
                and not self.shaker.holds() and not self.dryer.holds() and not len(self.wet) and not any(s.busy for s in self.stations["wiping"]))

    def on_line(self):
        return self.packs_in - self.finished - self.aside

    def leaks(self, _):
        self.aside += 1
        self.look_empty()

    def look_empty(self):
        if self.closed:
            self.tell()

    # -- stations

    def loading(self, s):
        s.busy = False
        ask = Ask(self.loaders, 2, 2, 3, joined=lambda: s.working and s.process.interrupt("joined"))
        ask.waits = lambda away: s.do(PLANNED if away else OPERATOR)
        while True:
            s.do(STARVED)
            if s.stood:
                yield s.go
                continue
            if self.closed or not self.empties.ready():
                yield self.empties.changed | self.news
                continue
            s.do(OPERATOR)
            yield self.loaders.want(ask)
            if self.closed or s.stood:
                self.loaders.give(ask)
                continue
            self.empties.get()
            s.busy, born = True, self.env.now
            self.packs_in += PACKS
            left = sum(self.r.triangular(1.0, 2.1, 1.4) for _ in range(PACKS)) * self.loaders.factor
            s.do(PROCESSING)
            ask.may = True
            self.loaders.dispatch()
            while left > 1e-9:
                while s.stood:
                    yield s.go
                crew, began, s.working = len(ask.who), self.env.now, True
                try:
                    yield self.env.timeout(left / crew)
                    left = 0.0
                except simpy.Interrupt:
                    left -= (self.env.now - began) * crew
                s.working = False
            ask.may = False
            yield from s.work(self.r.triangular(12.0, 30.0, 18.0))
            self.loaders.give(ask)
            while not self.infeed.room():
                s.do(BLOCKED)
                yield self.infeed.changed
            s.busy = False
            self.infeed.put(born)
            self.look_empty()

    def loadable(self):
        """Carriers that could be taken now, and how long to wait for more."""
        have = self.infeed.ready()
        if have >= LOAD:
            return LOAD, None
        if not have:
            return 0, None
        if self.loading_done():
            return have, None
        if self.full:
            left = self.infeed.items[0][1] + 15 * MINUTE - self.env.now
            return (have, None) if left <= 1e-9 else (0, left)
        return 0, None

    def vessel(self, v):
        v.inside, v.busy, v.at = [], False, None
        while True:
            n, wait = self.loadable()
            load = v.inside
            v.do(STARVED)
            if n and load and not v.stood and not v.due and not self.drain.room(len(load)):
                v.do(BLOCKED)
                n = 0
            if v.stood or v.due or not n and not (load and self.loading_done() and not len(self.infeed) and self.drain.room(len(load))):
                again = self.infeed.changed | self.drain.changed | self.news | v.go
                if wait is not None:
                    again = again | self.env.timeout(wait)
                yield again
                continue
            v.busy = True
            if not n:
                yield from self.draw_out(v)
            else:
                yield from self.cycle(v, n)
            v.busy = False
            self.look_empty()

    def draw_out(self, v):
        """The last load is drawn out by hand."""
        ask = Ask(self.loaders, 1, 1)
        ask.waits = lambda away: v.do(PLANNED if away else OPERATOR)
        self.drain.promised += len(v.inside)
        v.do(OPERATOR)
        yield self.loaders.want(ask)
        v.do(PROCESSING)
        yield from v.work(4 * MINUTE)
        self.loaders.give(ask)
        self.out_of(v, v.inside)
        v.inside = []

    def out_of(self, v, load):
        self.drain.promised -= len(load)
        for carrier in load:
            self.drain.put(carrier)

    def cycle(self, v, n):
        """The stroke brings the new load in and the finished one out; then the phases, the hold never shortened."""
        old = v.inside
        self.drain.promised += len(old)
        v.inside = [(self.infeed.get(), PACKS) for _ in range(n)] + old
        v.do(PROCESSING)
        yield from v.work(25.0)
        v.inside = v.inside[:n]
        self.out_of(v, old)
        yield from v.work(25.0)
        repeats, good = 0, False
        while not good:
            yield from v.work(28.0)
            good = yield from self.pressure(v)
            if not good and repeats == 1:
                break
            repeats += not good
        for phase in (3.0, 15.0, 20.0):
            yield from v.work(phase)
        self.cycles += 1
        if not good:
            self.aside += PACKS * n
            v.inside = [(born, 0) for born, _ in v.inside]
        self.counted()

    def pressure(self, v):
        """Come-up and hold: false where a stop broke them or the pressure was not reached."""
        for phase in (self.r.triangular(112.0, 132.0, 120.0), 180.0):
            v.at = "pressure"
            yield from v.work(phase)
            v.at = None
            if v.broken:
                v.broken = False
                while v.stood:
                    yield v.go
                return False
            if phase != 180.0 and self.r.random() < 0.01:
                return False
        return True

    def tip(self, s):
        s.busy = False
        while True:
            s.do(STARVED)
            if s.stood:
                yield s.go
                continue
            if not self.drain.ready():
                yield self.drain.changed
                continue
            s.busy = True
            born, n = self.drain.get()
            s.do(PROCESSING)
            yield from s.work(20.0)
            for _ in range(n):
                yield from s.work(0.1)
                while not self.shaker.before.room():
                    s.do(BLOCKED)
                    yield self.shaker.before.changed
                s.do(PROCESSING)
                self.shaker.before.put(born)
            s.busy = False
            self.env.timeout(60.0).callbacks.append(lambda _: self.empties.put(0))
            self.look_empty()

    def wiping(self, s):
        s.busy = False
        ask = Ask(self.packers, 0, 1)
        ask.waits = lambda away: s.do(PLANNED if away else OPERATOR)
        while True:
            yield from self.wet.called(s)
            s.do(OPERATOR)
            yield self.packers.want(ask)
            self.wet.asked -= 1
            pack = self.wet.get()
            s.busy = True
            s.do(PROCESSING)
            yield from s.work(4.0 * self.packers.factor)
            self.packers.give(ask)
            while not self.table.room():
                s.do(BLOCKED)
                yield self.table.changed
            s.busy = False
            self.table.put(pack)
            self.look_empty()

    def packing(self, s):
        ask = Ask(self.packers, 1, 1)
        ask.waits = lambda away: s.do(PLANNED if away else OPERATOR)
        while True:
            yield from self.table.called(s)
            s.do(OPERATOR)
            yield self.packers.want(ask)
            self.table.asked -= 1
            n = min(CASE, len(self.table))
            if not n:
                self.packers.give(ask)
                continue
            case = [self.table.get() for _ in range(n)]
            s.do(PROCESSING)
            yield from s.work(self.r.triangular(20.0, 40.0, 26.0) * n / CASE * self.packers.factor)
            self.packers.give(ask)
            while not self.cases.room():
                s.do(BLOCKED)
                yield self.cases.changed
            self.cases.put(case)

    def sealer(self, s):
        while True:
            s.do(STARVED)
            if s.stood:
                yield s.go
                continue
            if not len(self.cases):
                yield self.cases.changed
                continue
            case = self.cases.get()
            s.do(PROCESSING)
            yield from s.work(60.0 / 25)
            self.finished += len(case)
            self.out.extend(self.env.now - born for born in case)
            self.look_empty()

    # -- stops

    def begin_stops(self):
        """Each clock starts at a random age from its stationary law."""
        e, r, env = self.every, self.r, self.env
        vessel = self.stations["vessel"]
        self.to_seals, self.seals_due = r.uniform(0, e["seals"]), env.event()
        env.process(self.seals(vessel[0]))
        mean, sd = e["intensifier"]
        k = weibull_shape(sd / mean)
        scale = mean / math.gamma(1 + 1 / k)
        first = scale * r.gammavariate(1 + 1 / k, 1.0) ** (1 / k) * r.random()  # the rest of an interval that is drawn in proportion to its length
        env.process(self.stop(vessel, first, lambda: r.weibullvariate(scale, k), (60, 25), self.fitter, breaks=vessel[0]))
        for where, name, takes in ((self.shaker.lanes, "belt", (20, 10)), (self.dryer.lanes, "blower", (60, 30))):
            gap = lambda m=e[name]: r.expovariate(1 / m)
            env.process(self.stop(where, gap(), gap, takes, self.fitter))
        env.process(self.jam(lambda: r.expovariate(1 / e["jam"])))

    def counted(self):
        self.to_seals -= 1
        if self.to_seals <= 0 and not self.seals_due.triggered:
            self.stations["vessel"][0].due += 1
            self.seals_due.succeed()

    def seals(self, v):
        """Plug seals: planned, between two cycles."""
        while True:
            yield self.seals_due
            v.hold(PLANNED)
            v.due -= 1
            ask = Ask(self.fitter, 0, 1)
            yield self.fitter.want(ask)
            yield self.env.timeout(45 * MINUTE)
            self.fitter.give(ask)
            v.release(PLANNED)
            self.to_seals, self.seals_due = self.every["seals"], self.env.event()
            self.tell()

    def stop(self, servers, first, every, takes, menders, breaks=None):
        """A stop of a whole station, by its running time."""
        clock = RunClock(self.env, servers)
        due = first
        while True:
            yield from clock.until(due)
            if breaks is not None and breaks.at == "pressure":
                breaks.broken = True
            for s in servers:
                s.hold(WAIT_REPAIR)
            ask = Ask(menders, 0, 1)
            yield menders.want(ask)
            for s in servers:
                s.hold(REPAIR)
                s.release(WAIT_REPAIR)
            yield self.env.timeout(lognormal(self.r, takes[0] * MINUTE, takes[1] * MINUTE))
            menders.give(ask)
            for s in servers:
                s.release(REPAIR)
            due = every()

    def jam(self, every):
        """A carrier jam at the infeed: nothing comes in or out. Its clock is time on shift."""
        while True:
            yield self.env.timeout(every())
            ask = Ask(self.loaders, 0, 1)
            self.infeed.shut = True
            yield self.loaders.want(ask)
            yield self.env.timeout(lognormal(self.r, 5 * MINUTE, 4 * MINUTE))
            self.loaders.give(ask)
            self.infeed.shut = False
            self.infeed.tell()

    # -- the day from Monday 06:00

    def roster(self):
        env = self.env
        for at, minutes in ((2.5, 15), (4.25, 30), (6, 15), (10, 15), (12.25, 15)):
            env.process(self.break_at(at * HOUR, minutes * MINUTE))
        yield env.timeout(30 * MINUTE)
        self.release_all(PLANNED)
        yield env.timeout(8 * HOUR - env.now)
        self.new_pace()
        yield env.timeout(13.5 * HOUR - env.now)
        self.closed = True
        self.tell()
        yield env.timeout(14 * HOUR - env.now)
        while self.on_line() or self.stations["vessel"][0].busy:  # the line is run empty
            yield self.news
        self.hold_all(PLANNED)
        yield env.timeout(120 * MINUTE)
        self.hold_all(OFF)

    def break_at(self, at, length):
        yield self.env.timeout(at)
        for p in self.pools:
            p.rest(length)

    def hold_all(self, why):
        for s in self.every_server():
            s.hold(why)

    def release_all(self, why):
        for s in self.every_server():
            s.release(why)
        self.tell()

    def run(self):
        self.env.run(until=24 * HOUR)
        hours = 16.0 if self.full else 24.0
        states = {}
        for name, servers in self.stations.items():
            for s in servers:
                s.close()
            states[name] = {NAMES[k]: sum(s.times[k] for s in servers) for k in range(8)}
        self.out.sort()
        return {"packs_per_h": self.finished / hours, "cycles_per_h": self.cycles / hours, "states_s": states,
                "mean_out_s": sum(self.out) / len(self.out), "p95_out_s": self.out[math.ceil(0.95 * len(self.out)) - 1], "balance": self.on_line()}


class Table(Buffer):
    """The packing table. A free bench begins when the packs of a case are there."""

    def __init__(self, line):
        super().__init__(line.env, 600)
        self.line, self.asked, self.idle = line, 0, []

    def enough(self):
        have = len(self) - self.asked * CASE
        return have >= CASE or have > 0 and self.line.packing_alone()

    def called(self, s):
        """Wait until there is work for one more."""
        while s.stood or not self.enough():
            s.do(STARVED)
            if s.stood:
                yield s.go
                continue
            s.idle = self.env.event()
            self.idle.append(s)
            yield s.idle
        self.asked += 1

    def put(self, what):
        super().put(what)
        self.serve()

    def serve(self):
        if self.idle and self.enough():
            waiting, self.idle = self.idle, []
            for s in waiting:
                s.idle.succeed()


class Wet(Table):
    """Packs that wait to be wiped: as many as come."""

    def __init__(self, line):
        super().__init__(line)
        self.places = math.inf

    def enough(self):
        return len(self) > self.asked


class Sink:
    """Takes packs out of the line."""

    def __init__(self, line, count):
        self.line, self.count = line, count
        self.changed = line.env.event()

    def room(self):
        return True

    def put(self, what):
        self.count(what)


def main():
    a = argparse.ArgumentParser()
    a.add_argument("--replications", type=int, default=4)
    a.add_argument("--first", type=int, default=1)
    a.add_argument("--seed", type=int, default=1)
    a.add_argument("--saturated", action="store_true")
    a.add_argument("--often", action="store_true")
    o = a.parse_args()
    for n in range(o.first, o.first + o.replications):
        line = Line(random.Random(f"{o.seed}/{n}"), not o.saturated, OFTEN if o.often else RARE)
        print(json.dumps(line.run()))
        sys.stdout.flush()


if __name__ == "__main__":
    main()
