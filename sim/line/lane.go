package line

import (
	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// step lets a pack step on. The caller saw that it fits.
func (a *lane) step(u unit) {
	if u.pass == 0 {
		a.b.station.enter(u)
	}
	own := a.own()
	a.lastIn = own
	a.on.push(riding{u, own + a.b.travel})
	if a.on.n == 1 {
		a.arm()
	}
	if !a.stuck {
		a.do(measure.Processing)
	}
}

// arm sets the slot for the first pack.
func (a *lane) arm() {
	due := max(a.on.front().due, a.lastOut+a.b.pitch)
	a.l.cal.Set(a.slot, due+a.lost, clock.End)
}

// Fire: the first pack is at the end of the lane.
func (a *lane) Fire(int) {
	if a.canLeave() {
		a.leave()
		return
	}
	a.stuck, a.since = true, a.l.cal.Now()
	a.do(measure.Blocked)
	if a.b.still {
		a.stand1()
	}
}

// canLeave settles what becomes of the first pack, once, and tells whether there is room for it.
func (a *lane) canLeave() bool {
	b, u := a.b, a.on.front().u
	if !b.station.turn.mayLeave(u.lot) {
		return false
	}
	if !a.fated {
		a.fated = true
		kind := b.l.kindOf(u.lot)
		switch {
		case b.leakers[kind].takes(u):
			a.to = b.station.out
		case (b.rounds == 0 || u.pass < b.rounds) && b.wet[kind].takes(u):
			a.to = b.wipe // nil: round again
		default:
			a.to = b.next
		}
	}
	if a.to == nil {
		return int64(b.back.n) < b.backMax
	}
	return a.to.room(1)
}

// leave hands the first pack on.
func (a *lane) leave() {
	b := a.b
	wasFull := a.on.n >= b.places
	u := a.on.pop().u
	to := a.to
	a.fated, a.to = false, nil
	if a.stuck {
		a.stuck = false
		if b.still {
			a.run1()
		}
	}
	a.lastOut = a.own()
	if a.on.n > 0 {
		a.arm()
		a.do(measure.Processing)
	} else {
		a.do(measure.Starved)
	}
	a.did(1)
	switch to {
	case nil:
		b.sendRound(u)
	case b.next:
		b.station.turn.leave(u)
		fallthrough
	default:
		to.take(u)
	}
	if wasFull {
		b.enter()
	}
}

// stand1 and run1 stop and start the lane's own clock. What is stopped is what any reason stops.
func (a *lane) stand1() {
	if !a.stands {
		a.stopped, a.stands = a.own(), true
		a.l.cal.Clear(a.slot)
	}
}

func (a *lane) run1() {
	if a.stands && a.stood == 0 && !(a.stuck && a.b.still) {
		a.lost = a.l.cal.Now() - a.stopped
		a.stands = false
	}
}

// hold adds a reason to stand. Packs on the lane stay where they are, or are set aside.
func (a *lane) hold(why measure.State, pol policy, _ bool) {
	a.stand(why)
	a.stand1()
	if pol == setAside && a.on.n > 0 {
		for a.on.n > 0 {
			a.l.setAside(a.b.station, a.on.pop().u)
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
	a.run1()
	if a.on.n > 0 && !a.stuck {
		a.arm()
	}
	a.l.agenda.poke(a.b.node)
}

func (a *lane) busy() bool { return a.on.n > 0 }

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
