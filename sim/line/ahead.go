package line

import "pascaline/sim/clock"

// hasRoom tells whether a pack surely finds a place before the belt: what has happened there since the belt was brought up to date only makes
// room.
func (b *belt) hasRoom() bool { return b.in.free() > 0 }

// findsRoom tells whether a pack that comes at a tick finds a place.
func (b *belt) findsRoom(at clock.Tick) bool {
	if b.hasRoom() {
		return true
	}
	if a := b.lanes[0]; b.in.keeps && a.lastIn+b.gap+a.lost >= at { // no pack steps on before
		return false
	}
	b.upTo(exitKey(at), false)
	return b.hasRoom()
}

// arrived lets the belt know of a pack that was put before it last, perhaps later than up to when the belt was brought up to date.
func (b *belt) arrived() {
	if b.in.q.n == 1 && !b.in.keeps {
		b.lookIn()
	}
}

// count counts the packs that have come before the belt up to a tick.
func (b *inbox) count(until clock.Tick) {
	for b.ripe < b.q.n {
		at := b.q.at(b.ripe).at
		if at > until {
			return
		}
		b.ripe++
		b.level.Add(1, at)
	}
}

// look works out what happens next on the belt, as far as that depends on nobody else.
func (b *belt) look() {
	b.lookIn()
	b.lookOut()
}

// lookIn works out when the next pack that waits can step on.
func (b *belt) lookIn() { b.on = stepKey(b.nextStep()) }

// lookOut works out which pack is at the end of the belt next. One that waits there for room depends on those downstream.
func (b *belt) lookOut() {
	if len(b.lanes) > 1 {
		b.first, b.out = b.firstExit()
		return
	}
	a := b.lanes[0]
	b.first, b.out = a, exitKey(a.next)
	b.held = a.waitsForRoom()
}

// waitsForRoom tells whether the first pack stands at the end of a lane that would run, until there is room on the next belt.
func (a *lane) waitsForRoom() bool { return a.stuck && a.b.down != nil && a.stood == 0 }

// upTo does all that happens on the belt up to a key. With step it ends when a pack has left the places before the belt, and tells whether one
// did; b.at is then when.
func (b *belt) upTo(bound int64, step bool) bool {
	if b.in.keeps {
		return b.upToAlone(bound, step)
	}
	for {
		if b.held && b.down.upTo(min(b.on, bound), true) {
			if b.down.hasRoom() {
				b.pass(b.lanes[0], b.down.at)
			}
			continue
		}
		key := min(b.out, b.on)
		switch {
		case key > bound || key>>1 >= b.chain.limit:
			return false
		case key == b.out:
			b.leaveAhead(b.first, key>>1)
		case b.stepAhead(key>>1) && step:
			return true
		}
	}
}

// firstExit is the lane whose first pack is at the end next, and the key.
func (b *belt) firstExit() (first *lane, key int64) {
	key = noKey
	for _, a := range b.lanes {
		if k := exitKey(a.next); k < key || k == key && k < noKey && (a.armed < first.armed || a.armed == first.armed && a.arm < first.arm) {
			first, key = a, k
		}
	}
	return first, key
}

// nextStep is when the next pack that waits can step on, as far as is known.
func (b *belt) nextStep() clock.Tick {
	waits := clock.Never
	if b.in.q.n > 0 {
		waits = b.in.q.front().at
	}
	if b.back.n > 0 {
		waits = min(waits, b.back.front().ripe)
	}
	if waits == clock.Never {
		return clock.Never
	}
	waits = max(waits, b.at)
	at := clock.Never
	for _, a := range b.lanes {
		if !a.stands && a.stood == 0 && a.on.past < b.places {
			at = min(at, max(a.lastIn+b.gap+a.lost, waits))
		}
	}
	return at
}

// leaveAhead lets the first pack of a lane leave, or stand where there is no room.
func (b *belt) leaveAhead(a *lane, at clock.Tick) {
	if !b.plain && !b.settled(a, at) {
		return
	}
	switch {
	case b.down != nil && b.down.findsRoom(at):
		b.pass(a, at)
	case b.down != nil:
		b.down.in.wanted = true
		b.stick(a, at)
	case b.behind == nil || !b.behind.shut && b.behind.fits(1) && b.need == 1:
		b.bars(at)
	case b.behind.shut || !b.behind.fits(1):
		b.behind.wanted = true
		b.stick(a, at)
	default:
		b.pass(a, at)
	}
}

// settled settles what becomes of the first pack of a lane, and tells whether it goes on to the next station. One that is sent round or leaks
// has left.
func (b *belt) settled(a *lane, at clock.Tick) bool {
	a.settle()
	to := a.to
	switch {
	case to == b.next:
		return true
	case to == nil && int64(b.back.n) < b.backMax:
		b.chain.did, b.at = true, at
		b.sendRound(*a.leave(at), at)
	case to == b.station.out && b.chain.leaks:
		b.chain.did, b.at = true, at
		b.l.setAside(b.station, *a.leave(at))
	default:
		b.bars(at)
		return false
	}
	b.look()
	return false
}

// bars is for what the horizon should have kept the chain from.
func (b *belt) bars(at clock.Tick) {
	b.l.fail(b.station.name, "what concerns others is done ahead of time")
	b.chain.bar(at)
}

// left looks again after a pack has left a lane: only a lane that was full can take one that it could not take before.
func (b *belt) left(a *lane) {
	if b.in.keeps {
		return
	}
	b.lookOut()
	if a.on.past == b.places-1 || b.still {
		b.lookIn()
	}
}

// stick lets the first pack of a lane stand at the end.
func (b *belt) stick(a *lane, at clock.Tick) {
	b.chain.did = true
	a.stick(at)
	b.look()
}

// pass hands the first pack of a lane on.
func (b *belt) pass(a *lane, at clock.Tick) {
	b.chain.did, b.at = true, at
	u := a.leave(at)
	b.left(a)
	b.gives(u, at)
}

// gives puts a pack that has left a lane where it goes.
func (b *belt) gives(u *unit, at clock.Tick) {
	if b.down == nil {
		b.need--
		if u.lot != 0 {
			b.passes(u, b.behind, at)
		}
		b.behind.put(u, at)
		return
	}
	w := b.down.in.q.next()
	w.u = *u
	w.at, w.ripe = at, at
	if u.lot != 0 {
		b.passes(&w.u, b.down.in, at)
	}
	b.down.arrived()
}

// passes lets the turns of lots know.
func (b *belt) passes(u *unit, to *inbox, at clock.Tick) {
	b.station.turn.leave(u, at)
	to.turn.enter(u, at)
}

// tells tells those in the chain that a place comes free, if nobody else waits for it.
func (b *belt) tells(at clock.Tick) bool {
	c := b.chain
	if b == c.belts[0] && (!c.tips || c.tip.given >= c.tip.unit.n-1) {
		c.bar(at) // nobody has gone further
		return false
	}
	b.in.wanted = false
	return true
}

// stepAhead lets the first pack that waits step on, unless somebody outside waits for its place.
func (b *belt) stepAhead(at clock.Tick) bool {
	c := b.chain
	back := b.waitsBackAt(at)
	if !back && b.in.wanted && !b.tells(at) {
		return false
	}
	best := b.lanes[0]
	if len(b.lanes) > 1 {
		best, _ = b.lane(at)
	}
	if best == nil {
		b.l.fail(b.station.name, "a pack steps on ahead of time where no lane can take it")
		c.bar(at)
		return false
	}
	c.did, b.at = true, at
	if back {
		best.step(b.drawBack(at), at)
		b.look()
		return false
	}
	b.in.count(at)
	best.step(b.in.draw(at), at)
	b.lookIn()
	if best.on.past == 1 {
		b.lookOut()
	}
	return true
}
