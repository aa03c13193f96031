package line

import (
	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// finished is the place that has waited longest to hand on.
func (b *bench) finished() *place {
	var first *place
	for _, p := range b.places {
		if p.phase == giving && p.due == clock.Never && (b.station.inside || b.station.turn.mayLeave(p.unit.lot)) && p.canHand() && (p.stood == 0 || !b.keeps) && (first == nil || p.done < first.done) {
			first = p
		}
	}
	return first
}

// givesWay tells whether another place has waited longer to hand on: what is finished at the tick at which room comes does not go before it.
func (b *bench) givesWay(p *place) bool {
	if len(b.places) == 1 {
		return false
	}
	first := b.finished()
	if first == nil || first.done >= p.done {
		return false
	}
	b.l.agenda.poke(b.node) // both look again when all of this tick is over
	return true
}

// handOn tries to give what is finished.
func (b *bench) handOn(p *place) outcome {
	o := b.job.give(b, p)
	switch o {
	case noRoom:
		p.do(measure.Blocked)
		p.wantOff(p.goesOff)
	case later:
		p.do(measure.Processing)
	case given:
		if b.keeps {
			p.free()
			p.did(p.unit.n)
		}
		b.clear(p)
	}
	return o
}

func (b *bench) keep(p *place) {
	if b.before && p.kept == 0 {
		b.next.promise(b.out)
		p.kept = b.out
	}
}

func (b *bench) unkeep(p *place) {
	if p.kept > 0 {
		b.next.promise(-p.kept)
		p.kept = 0
		b.l.agenda.pokeAll()
	}
}

func giveUnit(b *bench, p *place) outcome {
	t := b.station.turn
	if !t.mayLeave(p.unit.lot) || b.givesWay(p) || !b.hasRoom(p) {
		return noRoom
	}
	t.leave(&p.unit, b.l.cal.Now())
	b.next.take(p.unit)
	return given
}

// hasRoom tells whether one unit can be given now: into a place that was kept for it, or a free one. A place may have been kept for a unit of
// the next lot before the last of the lot in work had come.
func (b *bench) hasRoom(p *place) bool {
	if p.kept > 0 {
		if in := placesOfTaker(b.next); in != nil && in.turn.shut() {
			in.wanted = true
			return false
		}
		p.kept--
		b.next.promise(-1)
		return true
	}
	return b.next.room(1)
}

// placesOfTaker are the places that units come into there; nil where there are none.
func placesOfTaker(t taker) *inbox {
	switch t := t.(type) {
	case *inbox:
		return t
	case *belt:
		return t.in
	}
	return nil
}
