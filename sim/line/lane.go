package line

import (
	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// step lets a pack step on. The caller saw that it fits.
func (a *lane) step(u *unit, now clock.Tick) {
	if u.lot != 0 && u.pass == 0 {
		a.b.station.enter(u, now)
	}
	own := a.own(now)
	a.lastIn = own
	if !a.b.in.keeps {
		a.on.next().u = *u
		a.on.keep()
	}
	r := a.on.kept(a.on.past - 1)
	r.ripe, r.fate = own+a.b.travel, open
	if a.on.past == 1 {
		a.set(now)
	}
	if !a.stuck {
		a.doAt(measure.Processing, now)
	}
}

// set sets the slot for the first pack.
func (a *lane) set(now clock.Tick) {
	a.next = max(a.on.kept(0).ripe, a.lastOut+a.b.pitch) + a.lost
	a.b.arms++
	a.armed, a.arm = now, a.b.arms
	if a.moved = a.l.ahead; !a.moved {
		a.l.cal.Set(a.slot, a.next, clock.End)
	}
}

// unset takes the slot off.
func (a *lane) unset() {
	a.next = clock.Never
	if a.moved = a.l.ahead; !a.moved {
		a.l.cal.Clear(a.slot)
	}
}

// Fire: the first pack is at the end of the lane.
func (a *lane) Fire(int) {
	now := a.l.cal.Now()
	if a.canLeave() && !a.givesWay() {
		to := a.to
		a.hand(*a.leave(now), to)
		return
	}
	a.stick(now)
}

// givesWay tells whether another lane has waited for this room: a pack that comes to the end at the tick at which there is room does not go before its.
func (a *lane) givesWay() bool {
	for _, o := range a.b.lanes {
		if o != a && o.stuck && o.stood == 0 && o.to == a.to && o.canLeave() {
			a.b.l.agenda.poke(a.b.node) // both look again when all of this tick is over
			return true
		}
	}
	return false
}

// stick: the first pack is at the end and there is no room for it.
func (a *lane) stick(now clock.Tick) {
	a.stuck, a.since = true, now
	a.doAt(measure.Blocked, now)
	a.unset()
	if a.b.still {
		a.stand1(now)
	}
}

// canLeave tells whether there is room for the first pack where it goes.
func (a *lane) canLeave() bool {
	if !a.b.station.turn.mayLeave(a.on.kept(0).u.lot) {
		return false
	}
	a.settle()
	if a.to == nil {
		return int64(a.b.back.n) < a.b.backMax
	}
	return a.to.room(1)
}

// settle settles what becomes of the first pack, once.
func (a *lane) settle() {
	if a.fated {
		return
	}
	a.fated = true
	a.to = a.b.to(a.b.fateOf(a.on.kept(0)))
}

// leave takes the first pack off the lane; it can be read until another steps on.
func (a *lane) leave(now clock.Tick) *unit {
	b := a.b
	u := &a.on.release().u
	if a.fated {
		a.fated, a.to = false, nil
	}
	if a.stuck {
		a.stuck = false
		if b.still {
			a.run1(now)
		}
	}
	a.lastOut = a.own(now)
	if a.on.past > 0 {
		a.set(now)
		a.doAt(measure.Processing, now)
	} else {
		a.unset()
		a.doAt(measure.Starved, now)
	}
	a.did(1)
	return u
}

// hand gives a pack that has left to where it goes. If the lane was full, one that waits may step on.
func (a *lane) hand(u unit, to taker) {
	b := a.b
	switch to {
	case nil:
		b.sendRound(u, b.l.cal.Now())
	case b.next:
		b.station.turn.leave(&u, b.l.cal.Now())
		fallthrough
	default:
		to.take(u)
	}
	if a.on.past == b.places-1 {
		b.l.agenda.poke(b.node)
	}
}

// stand1 and run1 stop and start the lane's own clock. What is stopped is what any reason stops.
func (a *lane) stand1(now clock.Tick) {
	if !a.stands {
		a.stopped, a.stands = a.own(now), true
		a.unset()
	}
}

func (a *lane) run1(now clock.Tick) {
	if a.stands && a.stood == 0 && !(a.stuck && a.b.still) {
		a.lost = now - a.stopped
		a.stands = false
	}
}

// hold adds a reason to stand. Packs on the lane stay where they are, or are set aside.
func (a *lane) hold(why measure.State, pol policy, _ bool) {
	a.stand(why)
	a.stand1(a.l.cal.Now())
	if pol == setAside && a.on.past > 0 {
		for a.on.past > 0 {
			a.l.setAside(a.b.station, a.on.release().u)
		}
		a.fated, a.stuck = false, false
		a.do(measure.Starved)
	}
}

// release takes a reason away; with the last one the lane runs again.
func (a *lane) release(why measure.State) {
	if !a.unstand(why) {
		return
	}
	now := a.l.cal.Now()
	a.run1(now)
	if a.on.past > 0 && !a.stuck {
		a.set(now)
	}
	a.l.agenda.poke(a.b.node)
}

func (a *lane) busy() bool { return a.on.past > 0 }

// wantOff sends the lane off shift, packs and all, or back on.
func (a *lane) wantOff(off bool) {
	is := a.why[measure.OffShift] > 0
	switch {
	case off && !is:
		a.hold(measure.OffShift, goOn, false)
	case !off && is:
		a.release(measure.OffShift)
	}
}
