package line

import (
	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// unload hands the load on, carrier by carrier, as there is room.
func (v *vessel) unload(t *clock.Task) {
	for len(v.inside) > 0 {
		for !v.canHand() || !v.mayUnload(1) {
			v.rests()
			v.do(measure.Blocked)
			t.Wait(&v.news)
		}
		u := v.inside[0]
		v.inside = v.inside[1:]
		v.handOut(u, false)
	}
	v.done = false
	v.c.in.freed()
}

// drawOut takes the last load out of a push-through vessel.
func (v *vessel) drawOut(t *clock.Task) {
	c := v.c
	c.next.promise(len(v.inside))
	v.working, v.at = true, phDrawOut
	v.people(t, c.drawers, c.drawCrew)
	v.run(t, phDrawOut)
	v.letGo()
	v.working, v.done = false, false
	if v.server.due > 0 { // a planned stop waits for the end of this
		v.rest.Raise()
	}
	out := v.inside
	v.inside = nil
	for _, u := range out {
		v.handOut(u, true)
	}
}

func (v *vessel) handOut(u unit, promised bool) {
	if promised {
		v.c.next.promise(-1)
	}
	v.c.packsOut += int64(u.n)
	if t := v.c.station.turn; t != nil {
		t.leave(&u, v.l.cal.Now())
		v.c.try() // another load may be the next of its lot to leave
	}
	v.c.next.take(u)
}
