package line

import "pascaline/sim/clock"

// hasRoom tells whether a pack finds a place before the belt.
func (b *belt) hasRoom() bool { return int64(b.in.q.n)+b.in.promised < b.in.places }

// arrive lets the pack that was put before the belt last have come there ahead of time.
func (b *belt) arrive(at clock.Tick) {
	b.in.came(at)
	b.at = at
	if b.in.q.n == 1 {
		b.lookIn()
	}
}

// look works out what happens next on the belt, as far as that depends on nobody else.
func (b *belt) look() {
	b.lookIn()
	b.lookOut()
}

// lookIn works out when the next pack that waits can step on.
func (b *belt) lookIn() {
	b.on = stepKey(b.nextStep())
	b.calm = min(b.out, b.on)
	if b.held {
		b.calm = 0
	}
}

// lookOut works out which pack is at the end of the belt next. One that waits there for room depends on those downstream.
func (b *belt) lookOut() {
	if len(b.lanes) > 1 {
		b.first, b.out = b.firstExit()
	} else {
		a := b.lanes[0]
		b.first, b.out = a, exitKey(a.next)
		b.held = a.stuck && b.down != nil && a.stood == 0
	}
	b.calm = min(b.out, b.on)
	if b.held {
		b.calm = 0
	}
}

// upTo does all that happens on the belt up to a key, those downstream first. With step it ends when a pack has left the places before the
// belt, and tells whether one did; b.at is then when.
func (b *belt) upTo(bound int64, step bool) bool {
	c := b.chain
	for {
		if bound < b.calm {
			if b.down != nil && (bound >= b.down.calm || b.down.down != nil) {
				b.down.upTo(bound, false)
			}
			return false
		}
		if b.held && b.down.upTo(min(b.on, bound), true) {
			if b.down.hasRoom() {
				b.pass(b.lanes[0], b.down.at)
			}
			continue
		}
		key := min(b.out, b.on)
		if key > bound || key>>1 >= c.limit {
			return false
		}
		if b.down != nil && (key >= b.down.calm || b.down.down != nil) {
			b.down.upTo(key, false)
			if key>>1 >= c.limit {
				return false
			}
		}
		switch {
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
	waits := b.at
	switch {
	case b.in.q.n > 0:
	case b.back.n > 0:
		waits = max(waits, b.back.front().ripe)
	default:
		return clock.Never
	}
	at := clock.Never
	for _, a := range b.lanes {
		if !a.stands && a.stood == 0 && a.on.n < b.places {
			at = min(at, max(a.lastIn+b.gap+a.lost, waits))
		}
	}
	return at
}

// leaveAhead lets the first pack of a lane leave, or stand where there is no room; what concerns others is left to the calendar.
func (b *belt) leaveAhead(a *lane, at clock.Tick) {
	if !b.plain && !b.settled(a, at) {
		return
	}
	if b.down != nil {
		if b.down.hasRoom() {
			b.pass(a, at)
			return
		}
		b.down.in.wanted = true
		b.stick(a, at)
		return
	}
	switch {
	case b.sink == nil:
		b.chain.bar(at)
	case b.sink.shut || !b.sink.fits(1):
		b.sink.wanted = true
		b.stick(a, at)
	case b.concerns():
		b.chain.bar(at)
	default:
		b.pass(a, at)
	}
}

// settled settles what becomes of the first pack of a lane, and tells whether it goes on to the next station. One that is sent round is
// sent; what concerns others is left to the calendar.
func (b *belt) settled(a *lane, at clock.Tick) bool {
	a.settle()
	switch {
	case a.to == b.next:
		return true
	case a.to == nil && int64(b.back.n) < b.backMax:
		b.chain.did, b.at = true, at
		b.sendRound(*a.leave(at), at)
		b.look()
	default:
		b.chain.bar(at)
	}
	return false
}

// concerns tells whether whoever takes from the places behind the belt has something to do with one more pack there.
func (b *belt) concerns() bool {
	n := b.sink.ripe + 1
	if b.bench == nil {
		return n == 1
	}
	if n < b.bench.needs {
		return false
	}
	if b.enough == none { // nothing there changes on the way ahead
		b.enough = b.bench.enough()
	}
	return n >= b.enough
}

// left looks again after a pack has left a lane: only a lane that was full can take one that it could not take before.
func (b *belt) left(a *lane) {
	b.lookOut()
	if a.on.n == b.places-1 || b.still {
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
	if b.down != nil {
		w := b.down.in.q.next()
		w.u = *u
		w.at, w.ripe = at, at
		b.down.arrive(at)
	} else {
		b.sink.put(u, at)
	}
}

// stepAhead lets the first pack that waits step on, unless somebody outside waits for its place.
func (b *belt) stepAhead(at clock.Tick) bool {
	c := b.chain
	back := b.waitsBackAt(at)
	switch {
	case back && int64(b.back.n) == b.backMax: // a lane may wait for that place
		c.bar(at)
		return false
	case !back && b.in.wanted:
		if b == c.belts[0] && (!c.tips || c.tip.given >= c.tip.unit.n-1) {
			c.bar(at)
			return false
		}
		b.in.wanted = false
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
	best.step(b.in.draw(at), at)
	b.lookIn()
	if best.on.n == 1 {
		b.lookOut()
	}
	return true
}
