"""The parts of a packing line in SimPy 3: servers whose states are timed, buffers, people, belts.

Written from the words of the design and of the scenario file, as a model of its own: it shares no code with the program it checks.
Times are seconds, as floats.
"""

from collections import deque

import simpy

# The states of a server, the one that holds before the others first; what the server does of itself comes last.
OFF, PLANNED, REPAIR, WAIT_REPAIR, PROCESSING, BLOCKED, STARVED, OPERATOR = range(8)
NAMES = ["off shift", "planned stop", "under repair", "waiting for repair", "processing", "blocked", "starved", "waiting for operator"]
TINY = 1e-9


class Server:
    """One thing whose states are told apart. Reasons to stand overlap; while any holds, the work in hand stands still."""

    def __init__(self, env, name):
        self.env, self.name = env, name
        self.does = STARVED
        self.why = [0] * 4
        self.shown, self.since = STARVED, 0.0
        self.times = [0.0] * 8
        self.process = None  # the process that works here
        self.working = False  # it sleeps in work(): may be interrupted
        self.broken = False  # a stop made the work in hand worthless: work() ends early
        self.go = env.event()  # the last reason to stand is gone
        self.watch = []  # run clocks that count its processing
        self.due = 0  # stops that wait for the end of the work in hand: nothing new is begun

    @property
    def stood(self):
        return any(self.why)

    def show(self):
        x = next((k for k in range(4) if self.why[k]), self.does)
        if x == self.shown:
            return
        now = self.env.now
        self.times[self.shown] += now - self.since
        self.shown, self.since = x, now
        for clock in self.watch:
            clock.look()

    def do(self, x):
        if self.does != x:
            self.does = x
            self.show()

    def hold(self, why):
        first = not self.stood
        self.why[why] += 1
        self.show()
        if first and self.working:
            self.process.interrupt("stands")

    def release(self, why):
        self.why[why] -= 1
        self.show()
        if not self.stood:
            self.go, was = self.env.event(), self.go
            was.succeed()

    def work(self, left):
        """Time that passes only while nothing holds the server."""
        while left > TINY:
            while self.stood:
                yield self.go
            began = self.env.now
            self.working = True
            try:
                yield self.env.timeout(left)
                left = 0.0
            except simpy.Interrupt:
                left -= self.env.now - began
            self.working = False
            if self.broken:
                return

    def close(self):
        self.times[self.shown] += self.env.now - self.since
        self.since = self.env.now


class RunClock:
    """Time in which at least one of some servers is processing."""

    def __init__(self, env, servers):
        self.env, self.servers = env, servers
        self.total, self.since = 0.0, None
        self.started = env.event()
        for s in servers:
            s.watch.append(self)

    def look(self):
        on = any(s.shown == PROCESSING for s in self.servers)
        if on and self.since is None:
            self.since = self.env.now
            self.started, was = self.env.event(), self.started
            was.succeed()
        elif not on and self.since is not None:
            self.total += self.env.now - self.since
            self.since = None

    def until(self, due):
        """Wait until so much more time was counted."""
        end = self.so() + due
        while end - self.so() > TINY:
            if self.since is None:
                yield self.started
            else:
                yield self.env.timeout(end - self.so())

    def so(self):
        return self.total + (self.env.now - self.since if self.since is not None else 0.0)


class Buffer:
    """Waiting places, first come, first gone. Whoever looks for a unit or for room waits for the event `changed`."""

    def __init__(self, env, places=float("inf"), stay=0.0):
        self.env, self.places, self.stay = env, places, stay
        self.items = deque()  # (ripe at, came at, what)
        self.promised = 0
        self.shut = False
        self.changed = env.event()

    def tell(self, _=None):
        if self.changed.callbacks:
            self.changed, was = self.env.event(), self.changed
            was.succeed()

    def room(self, n=1):
        return not self.shut and len(self.items) + self.promised + n <= self.places

    def put(self, what):
        now = self.env.now
        self.items.append((now + self.stay, now, what))
        if self.stay > 0:
            self.env.timeout(self.stay).callbacks.append(self.tell)
        else:
            self.tell()

    def ready(self):
        if self.shut:
            return 0
        if self.stay == 0:
            return len(self.items)
        now = self.env.now + TINY
        return sum(1 for ripe, _, _ in self.items if ripe <= now)

    def get(self):
        what = self.items.popleft()[2]
        self.tell()
        return what

    def __len__(self):
        return len(self.items)


class Ask:
    """A task's wish for people: it takes all it needs at once; more may join while the task lets them."""

    def __init__(self, pool, rank, least, most=None, joined=None):
        self.pool, self.rank, self.least, self.most = pool, rank, least, most or least
        self.joined, self.may = joined, False
        self.who, self.come = [], None
        self.waits = None  # told whether the people are away on a break


class Pool:
    """People who can do the same things. The waiting task of highest priority that those present can staff keeps who is free."""

    def __init__(self, env, heads, pace):
        self.env, self.heads, self.pace = env, heads, pace
        self.here = False  # on shift
        self.task = [None] * heads
        self.pause = [None] * heads  # a break that waits for the task in hand
        self.away = [False] * heads
        self.asks, self.active, self.seq = [], [], 0

    def want(self, ask):
        self.seq += 1
        ask.seq, ask.come = self.seq, self.env.event()
        self.asks.append(ask)
        self.asks.sort(key=lambda a: (a.rank, a.seq))
        self.dispatch()
        return ask.come

    def withdraw(self, ask):
        if ask in self.asks:
            self.asks.remove(ask)
            self.dispatch()

    def give(self, ask):
        self.active.remove(ask)
        who, ask.who, ask.may = ask.who, [], False
        for i in who:
            self.task[i] = None
            if self.pause[i]:
                self.leave(i, self.pause[i])
        self.dispatch()

    def present(self):
        return sum(1 for i in range(self.heads) if self.here and not self.away[i] and not self.pause[i])

    def idle(self):
        return [i for i in range(self.heads) if self.here and not self.away[i] and not self.pause[i] and self.task[i] is None]

    def dispatch(self):
        idle, keeping, present = self.idle(), False, self.present()
        for ask in list(self.asks):
            if not keeping and ask.least <= len(idle):
                self.asks.remove(ask)
                ask.who = idle[: ask.least]
                idle = idle[ask.least:]
                for i in ask.who:
                    self.task[i] = ask
                self.active.append(ask)
                ask.come.succeed()
                continue
            if ask.least <= present:
                keeping = True
            if ask.waits:
                ask.waits(ask.least > present and self.here)
        while idle and not keeping:
            more = [a for a in self.active if a.may and len(a.who) < a.most]
            if not more:
                return
            ask = min(more, key=lambda a: a.rank)
            self.task[idle[0]] = ask
            ask.who.append(idle.pop(0))
            ask.joined()

    def rest(self, length):
        """A break: the task in hand is finished first, the break is whole."""
        for i in range(self.heads):
            if not self.here or self.away[i] or self.pause[i]:
                continue
            if self.task[i] is None:
                self.leave(i, length)
            else:
                self.pause[i] = length
        self.dispatch()

    def leave(self, i, length):
        self.pause[i], self.away[i] = None, True
        self.env.process(self.back(i, length))

    def back(self, i, length):
        yield self.env.timeout(length)
        self.away[i] = False
        self.dispatch()


class Lane(Server):
    """One lane of a belt. Its own time stands while it is stopped, or while its first pack cannot leave if the belt then stands still."""

    def __init__(self, env, name, belt):
        super().__init__(env, name)
        self.belt = belt
        self.packs = deque()  # (due in own time, pack)
        self.lost, self.stopped = 0.0, None
        self.stuck = False
        self.last_in = self.last_out = -1e9
        self.came = env.event()
        self.process = env.process(self.live())

    def own(self):
        return (self.env.now if self.stopped is None else self.stopped) - self.lost

    def clock(self):
        """Stop or start the own clock as the reasons are."""
        stands = self.stood or self.stuck and self.belt.still
        if stands and self.stopped is None:
            self.stopped = self.env.now
        elif not stands and self.stopped is not None:
            self.lost += self.env.now - self.stopped
            self.stopped = None

    def hold(self, why):
        super().hold(why)
        self.clock()

    def release(self, why):
        super().release(why)
        self.clock()
        self.belt.look()

    def fits(self):
        """Seconds until a pack can step on, or None where only an exit or the end of a stop brings room."""
        if self.stopped is not None or len(self.packs) >= self.belt.places:
            return None
        return max(0.0, self.last_in + self.belt.gap - self.own())

    def step(self, pack):
        self.last_in = self.own()
        self.packs.append((self.last_in + self.belt.travel, pack))
        if len(self.packs) == 1:
            self.came, was = self.env.event(), self.came
            was.succeed()

    def live(self):
        while True:
            while not self.packs:
                self.do(STARVED)
                yield self.came
            self.do(PROCESSING)
            while True:
                left = max(self.packs[0][0], self.last_out + self.belt.pitch) - self.own()
                if left <= TINY:
                    break
                yield from self.work(left)
            pack = self.packs[0][1]
            to = self.belt.fate(pack)
            while self.stood or not to.room():
                if self.stood:
                    yield self.go
                    continue
                self.stuck = True
                self.do(BLOCKED)
                self.clock()
                yield to.changed
            if self.stuck:
                self.stuck = False
                self.clock()
            self.packs.popleft()
            self.last_out = self.own()
            to.put(pack)
            self.belt.look()


class Belt:
    """Lanes behind common waiting places. A pack takes the running lane with the fewest packs, then the lowest number."""

    def __init__(self, env, name, lanes, rate, travel, places, before, still, fate):
        self.env, self.gap, self.travel, self.places = env, 1.0 / rate, travel, places
        self.pitch, self.still, self.fate = travel / places, still, fate
        self.before = Buffer(env, before)
        self.lanes = [Lane(env, f"{name} {i}", self) for i in range(lanes)]
        self.moved = env.event()
        env.process(self.enter())

    def look(self):
        """Something changed: a pack left, a stop ended."""
        if self.moved.callbacks:
            self.moved, was = self.env.event(), self.moved
            was.succeed()

    def enter(self):
        while True:
            while not len(self.before):
                yield self.before.changed
            waits = [(lane.fits(), lane) for lane in self.lanes]
            can = [lane for w, lane in waits if w is not None and w <= TINY]
            if can:
                min(can, key=lambda x: len(x.packs)).step(self.before.get())
                continue
            soon = [w for w, _ in waits if w is not None]
            if soon:
                yield self.env.timeout(min(soon)) | self.moved
            else:
                yield self.moved

    def holds(self):
        return len(self.before) + sum(len(lane.packs) for lane in self.lanes)
