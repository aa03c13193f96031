package line

import (
	"pascaline/sim/clock"
	"pascaline/sim/measure"
	"pascaline/sim/random"
)

// belt is lanes side by side behind common waiting places. A lane takes a pack each gap while it has a place, and brings it out after
// the travel time. Packs that come back (wet) wait in places of their own and step on before new ones, so that the exit never waits
// for the entry.
type belt struct {
	l        *Line
	node     int
	station  *station
	in       *inbox
	back     ring[waiting] // on their way round, in order of coming
	backMax  int64
	backTime random.Draw
	backSlot clock.Slot
	gate     clock.Slot // when a lane can take the next pack
	lanes    []*lane
	gap      clock.Tick // between packs stepping on one lane
	travel   clock.Tick
	pitch    clock.Tick // between packs that leave closed up: travel / places
	places   int
	still    bool // the lane stands still while its first pack cannot leave
	next     taker
	leakers  []*portion // by kind of product
	wet      []*portion
	wipe     taker // wet packs are wiped there
	rounds   int32 // how often a pack is sent round at most; 0: never
	backLev  *measure.Level
	arms     uint64 // exits set so far, over all lanes
	chain    *chain // it goes ahead with others; nil: it does not
	plain    bool   // no pack leaks or is wet
	down     *belt  // where it gives to in the chain, if that is a belt,
	behind   *inbox // or places, of
	bench    *bench // this bench, or of a belt that does not go ahead
	need     int    // the bench is concerned with so many packs more there, the belt with the first
	dry      bool   // no pack is wet
	counts   bool   // leakers or wet packs are picked by count
	scans    []scan
	at       clock.Tick // of the last thing that happened ahead
	first    *lane      // whose first pack is at the end next,
	out      int64      // at this key
	on       int64      // key at which a pack can step on
	held     bool       // the first pack waits for room downstream
}

// lane is one lane of a belt. All its times are its own: they stand still while it is stopped, so that a stop costs one cleared slot
// however many packs are on it.
type lane struct {
	server
	b       *belt
	slot    clock.Slot
	on      *ring[waiting] // the packs on it are those kept: in a ring of its own, or in that of the places before the belt
	lost    clock.Tick     // time stood so far: own time = now - lost
	stands  bool
	stopped clock.Tick // own time at which it stands
	stuck   bool       // the first pack cannot leave
	since   clock.Tick // stuck since
	fated   bool       // what becomes of the first pack is settled:
	to      taker      // where it goes; nil: round again
	lastIn  clock.Tick
	lastOut clock.Tick
	next    clock.Tick // when the first pack is at the end, as set; Never when it is there or the lane stands
	armed   clock.Tick // when that was set,
	arm     uint64     // and which of all settings of the belt it was
	moved   bool       // it was set ahead of time: the slot does not know yet
}

const longAgo = -clock.Week

func (a *lane) own(now clock.Tick) clock.Tick {
	if a.stands {
		return a.stopped
	}
	return now - a.lost
}

// fits tells whether a pack can step on now, or at which tick it can; Never where only an exit or the end of a stop brings room.
func (a *lane) fits(now clock.Tick) (bool, clock.Tick) {
	if a.stands || a.stood > 0 || a.on.past >= a.b.places {
		return false, clock.Never
	}
	if at := a.lastIn + a.b.gap; at > a.own(now) {
		return false, at + a.lost
	}
	return true, 0
}

// lane is the running lane with the fewest packs that can take one now; else the tick at which one can.
func (b *belt) lane(now clock.Tick) (best *lane, at clock.Tick) {
	at = clock.Never
	for _, a := range b.lanes {
		ok, when := a.fits(now)
		switch {
		case ok && (best == nil || a.on.past < best.on.past):
			best = a
		case !ok:
			at = min(at, when)
		}
	}
	return best, at
}

// room: in the waiting places, or on a lane where there are none.
func (b *belt) room(n int) bool {
	if b.in.places > 0 || b.in.tubs != nil {
		return b.in.room(n)
	}
	if !b.in.shut && n == 1 && b.in.q.n == 0 && !b.waitsBack() && !b.station.turn.shut() {
		best, at := b.lane(b.l.cal.Now())
		if best != nil {
			return true
		}
		b.arm(at)
	}
	b.in.wanted = true
	return false
}

func (b *belt) promise(n int) { b.in.promise(n) }

// take lets a pack wait; it steps on in phase Begin, when all that leaves the belt at this tick has left. Where there are no waiting
// places it steps on at once: it was let in because a lane can take it.
func (b *belt) take(u unit) {
	if b.in.places == 0 && b.in.q.n == 0 && !b.waitsBack() && !b.in.shut && b.station.turn.admits(u.lot) {
		if best, _ := b.lane(b.l.cal.Now()); best != nil {
			b.in.waits.Add(0)
			b.in.turn.enter(&u, b.l.cal.Now())
			best.step(&u, b.l.cal.Now())
			return
		}
	}
	b.in.take(u)
}

// try lets packs step on and those at the end leave.
func (b *belt) try() {
	for {
		var first *lane
		for _, a := range b.lanes {
			if a.stuck && a.stood == 0 && (first == nil || a.since < first.since) && a.canLeave() {
				first = a
			}
		}
		if first == nil {
			break
		}
		to := first.to
		first.hand(*first.leave(b.l.cal.Now()), to)
	}
	b.enter()
}

// enter lets waiting packs step on while a lane can take one, and arms the gate for the next.
func (b *belt) enter() {
	for {
		back := b.waitsBack()
		if !back && b.in.ready() == 0 {
			if b.in.wanted && b.in.places == 0 && b.in.tubs == nil && !b.station.turn.shut() {
				if best, at := b.lane(b.l.cal.Now()); best != nil {
					b.in.freed()
				} else {
					b.arm(at)
				}
			}
			return
		}
		if !back && !b.station.turn.admits(b.in.q.front().u.lot) {
			return
		}
		best, at := b.lane(b.l.cal.Now())
		if best == nil {
			b.arm(at)
			return
		}
		if back {
			now := b.l.cal.Now()
			best.step(b.drawBack(now), now)
			b.rearmBack()
			b.backFreed()
		} else {
			best.step(b.in.out(), b.l.cal.Now())
		}
	}
}

func (b *belt) arm(at clock.Tick) {
	if at < clock.Never {
		b.l.cal.Set(b.gate, at, clock.End)
	}
}

const (
	fireGate = -1
	fireBack = -2
)

// Fire: the gate is open for the next pack, or one that was sent round is back.
func (b *belt) Fire(what int) {
	if what == fireBack {
		b.rearmBack()
	}
	b.l.agenda.poke(b.node)
}

// stirs tells whether the pack that came last makes a difference: who waited before it, waits for something else.
func (b *belt) stirs() bool { return b.in.q.n == 1 || b.l.lots != nil }

// waitsBack tells whether a pack that was sent round waits to step on.
func (b *belt) waitsBack() bool { return b.waitsBackAt(b.l.cal.Now()) }

func (b *belt) waitsBackAt(now clock.Tick) bool { return b.back.n > 0 && b.back.front().ripe <= now }

func (b *belt) rearmBack() {
	if b.back.n > 0 && b.back.front().ripe > b.l.cal.Now() {
		b.l.cal.Set(b.backSlot, b.back.front().ripe, clock.End)
	}
}

// backFreed lets lanes go on that waited for a return place.
func (b *belt) backFreed() {
	if int64(b.back.n) == b.backMax-1 {
		b.l.agenda.poke(b.node)
	}
}

// drawBack takes the first pack out that waits to step on again.
func (b *belt) drawBack(now clock.Tick) *unit {
	b.backLev.Add(-1, now)
	return &b.back.drop().u
}

// sendRound takes a wet pack back before the lanes.
func (b *belt) sendRound(u unit, now clock.Tick) {
	w := waiting{u: u, at: now, ripe: now + b.backTime.At(u.no<<8|uint64(u.pass&255))}
	w.u.pass++
	if b.back.n > 0 { // first come, first gone
		w.ripe = max(w.ripe, b.back.at(b.back.n-1).ripe)
	}
	b.back.push(w)
	b.backLev.Add(1, now)
	if b.back.n == 1 && !b.l.ahead {
		b.l.cal.Set(b.backSlot, w.ripe, clock.End)
	}
}

// wedged tells whether the belt moves no more: all lanes are full or stand still, the first pack of each is to be sent round, and the return places are full of
// packs that wait for a lane.
func (b *belt) wedged() bool {
	if b.rounds == 0 || int64(b.back.n) < b.backMax || !b.waitsBack() {
		return false
	}
	for _, a := range b.lanes {
		if !a.stuck || a.to != nil || a.on.past < b.places && !b.still {
			return false
		}
	}
	return true
}

func (b *belt) holds() int64 {
	n := b.in.held() + int64(b.back.n)
	for _, a := range b.lanes {
		n += int64(a.on.past)
	}
	return n
}
