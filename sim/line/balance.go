package line

import (
	"fmt"

	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// balance checks what must hold at every moment: packs in are finished, set aside or on the line; carriers owned are carriers
// everywhere; every server's state times add up; no level is below 0 or above its places.
func (l *Line) balance() error {
	now := l.cal.Now()
	bad := func(station, format string, a ...any) error {
		return &Imbalance{station, now, fmt.Sprintf(format, a...)}
	}
	if have := l.packsHeld(); have != l.onLine() {
		return bad("line", "%d packs came in, %d are finished, %d set aside, but %d are on the line", l.in, l.finished, l.aside, have)
	}
	if have := l.carriersHeld(); l.returns != nil && have != l.carriers {
		return bad("carriers", "%d are owned, but %d are there", l.carriers, have)
	}
	for _, s := range l.stations {
		for _, o := range s.servers {
			var sum clock.Tick
			for _, x := range o.base().st.Close(now) {
				sum += x
			}
			if sum != now {
				return bad(o.base().name, "states add up to %d of %d us", sum, now)
			}
		}
	}
	for _, b := range l.buffers {
		if err := b.level.Err(); err != nil {
			return bad(b.name, "%v", err)
		}
	}
	return l.peopleBalance(now)
}

func (l *Line) peopleBalance(now clock.Tick) error {
	for _, p := range l.pools {
		if p == nil {
			continue
		}
		var sum clock.Tick
		for _, x := range p.shares() {
			sum += x
		}
		if want := now * clock.Tick(len(p.people)); sum != want {
			return &Imbalance{p.name, now, fmt.Sprintf("people's times add up to %d of %d us", sum, want)}
		}
	}
	return nil
}

// packsHeld counts every pack on the line, where it stands.
func (l *Line) packsHeld() int64 {
	n := int64(0)
	l.each(func(u unit) { n += int64(u.n) })
	return n
}

// carriersHeld counts every carrier: standing somewhere, on its way back, in hand, in a vessel.
func (l *Line) carriersHeld() int64 {
	n := int64(0)
	for _, b := range l.buffers {
		if b.piece == "carriers" {
			b.each(func(unit) { n++ })
		}
	}
	if l.returns != nil {
		n += int64(len(l.returns.way))
	}
	for _, s := range l.stations {
		if s.piece == "carriers" && s.bench != nil {
			n += int64(s.bench.busyPlaces())
		}
	}
	if l.vessels != nil {
		for _, v := range l.vessels.each {
			n += int64(len(v.inside))
		}
	}
	return n
}

// each shows every unit on the line: waiting, in hand, riding, in tubs.
func (l *Line) each(f func(unit)) {
	for _, b := range l.buffers {
		b.each(f)
	}
	for _, s := range l.stations {
		for _, o := range s.servers {
			switch o := o.(type) {
			case *place:
				if o.busy() {
					f(o.inHand())
				}
			case *vessel:
				for _, u := range o.inside {
					f(u)
				}
			case *lane:
				for i := range o.on.past {
					f(o.on.kept(i).u)
				}
			}
		}
	}
}

// inHand is what a place still holds of its unit: a tip and a tub give their packs one by one, and may stand, or wait for their people to
// come back after a stop, in the middle of it.
func (p *place) inHand() unit {
	u := p.unit
	if (p.phase == giving || p.then == giving) && p.b.keeps {
		u.n -= max(0, p.given)
	}
	return u
}

// buffer is any place where units wait, as it is reported.
type buffer struct {
	name   string
	piece  string
	places int64 // 0: as many as come
	level  *measure.Level
	waits  *measure.Tally
	each   func(func(unit))
}
