package line

import (
	"pascaline/sim/clock"
)

// hasRoom tells whether a pack finds a place before the belt.
func (b *belt) hasRoom() bool { return b.in.fits(1) }

// arrive lets a pack come to the belt ahead of time.
func (b *belt) arrive(u unit, at clock.Tick) {
	b.in.put(u, at)
	b.at = at
	if b.in.q.n == 1 {
		b.calm = 0
	}
}

// upTo does all that happens on the belt up to a key, those downstream first. With step it ends when a pack has left the places before the
// belt, and tells whether one did; b.at is then when.
func (b *belt) upTo(bound int64, step bool) bool {
	c := b.chain
	for bound >= b.calm {
		a, exit := b.firstExit()
		on := stepKey(b.nextStep())
		stuck := a == nil && b.down != nil && b.lanes[0].stuck && b.lanes[0].stood == 0
		if stuck {
			if b.down.upTo(min(on, bound), true) {
				if b.down.hasRoom() {
					b.pass(b.lanes[0], b.down.at)
				}
				continue
			}
		}
		key := min(exit, on)
		if key > bound && !stuck {
			b.calm = key
			return false
		}
		if key > bound || key>>1 >= c.limit {
			return false
		}
		if b.down != nil {
			b.down.upTo(key, false)
			if key>>1 >= c.limit {
				return false
			}
		}
		switch {
		case key == exit:
			b.leaveAhead(a, exit>>1)
		case b.stepAhead(on>>1) && step:
			return true
		}
	}
	return false
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
	a.settle()
	switch {
	case a.to == nil && int64(b.back.n) < b.backMax:
		b.chain.did, b.at = true, at
		b.sendRound(a.leave(at), at)
	case a.to != b.next || b.down == nil && b.sink == nil:
		b.chain.bar(at)
	case b.down != nil && b.down.hasRoom():
		b.pass(a, at)
	case b.down != nil:
		b.down.in.wanted = true
		b.chain.did = true
		a.stick(at)
	case b.sink.shut || !b.sink.fits(1):
		b.sink.wanted = true
		b.chain.did = true
		a.stick(at)
	case b.sink.stirs(1):
		b.chain.bar(at)
	default:
		b.pass(a, at)
	}
}

// pass hands the first pack of a lane on.
func (b *belt) pass(a *lane, at clock.Tick) {
	b.chain.did, b.at = true, at
	u := a.leave(at)
	if b.down != nil {
		b.down.arrive(u, at)
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
	best, _ := b.lane(at)
	if best == nil {
		b.l.fail(b.station.name, "a pack steps on ahead of time where no lane can take it")
		c.bar(at)
		return false
	}
	c.did, b.at = true, at
	if back {
		best.step(b.drawBack(at), at)
		return false
	}
	best.step(b.in.draw(at), at)
	return true
}

// chains finds who can go ahead: belts that follow each other, with places before each, and the tip before them.
func (b *builder) chains() {
	l := b.l
	if b.o.Pure || b.o.Trace != nil || b.o.stepwise || l.lots != nil { // lots wait for their turn at every station
		return
	}
	c := &chain{l: l, barred: none}
	for _, k := range b.belts {
		if !k.steady() {
			continue
		}
		if n := len(c.belts); n > 0 {
			up := c.belts[n-1]
			if up.next != taker(k) || len(up.lanes) > 1 {
				c.belts = c.belts[:0]
			} else {
				up.down = k
			}
		}
		c.belts = append(c.belts, k)
	}
	if len(c.belts) == 0 {
		return
	}
	last := c.belts[len(c.belts)-1]
	in, _ := last.next.(*inbox)
	if k, ok := last.next.(*belt); ok && k.in.places > 0 {
		in = k.in
	}
	if in != nil && in.tubs == nil && !in.stays && in.stirs != nil {
		last.sink = in
	}
	b.join(c)
	l.chain = c
	var own []clock.Slot
	if c.tip != nil {
		own = append(own, c.tip.slot)
	}
	for _, k := range c.belts {
		own = append(own, k.gate)
		if k.rounds > 0 {
			own = append(own, k.backSlot)
		}
		for _, a := range k.lanes {
			own = append(own, a.slot)
		}
	}
	l.cal.GoAhead(c, own...)
}

// steady tells whether a belt can go ahead.
func (b *belt) steady() bool {
	for _, a := range b.lanes {
		if len(a.count) > 0 {
			return false
		}
	}
	return b.gap > 0 && b.pitch > 0 && b.in.places > 0 && b.in.tubs == nil
}

// join gives a chain its tip and the clocks of its servers.
func (b *builder) join(c *chain) {
	servers := []*server{}
	for _, st := range b.l.stations {
		if k := st.bench; k != nil && k.next == taker(c.belts[0]) && len(k.places) == 1 {
			if job, ok := k.job.(*tipping); ok {
				c.tip, c.job = k.places[0], job
				servers = append(servers, &c.tip.server)
			}
		}
	}
	for _, k := range c.belts {
		k.chain = c
		for _, a := range k.lanes {
			servers = append(servers, &a.server)
		}
	}
	seen := map[*runClock]bool{}
	for _, s := range servers {
		for _, k := range s.runs {
			if !seen[k] {
				seen[k] = true
				c.clocks = append(c.clocks, k)
			}
		}
	}
}
