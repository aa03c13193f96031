package line

import (
	"pascaline/sim/clock"
	"pascaline/sim/measure"
	"pascaline/sim/random"
)

// endless is a number of places that is never reached.
const endless = int64(1) << 40

// waiting is a unit in waiting places.
type waiting struct {
	u    unit
	at   clock.Tick // it came
	ripe clock.Tick // it may go on; on a lane: it is due at its end, by the lane's own time
	fate fate       // on a lane
}

// inbox is the waiting places before a station. Where a bench has a free server, a unit may stand there even with no waiting place
// (extra): so a station without places before it takes one unit while it is idle, and one that stands idle under repair too.
type inbox struct {
	l        *Line
	name     string
	places   int64
	promised int64
	owner    int          // node to poke when a unit may go on
	givers   []int        // nodes to poke when a place came free
	wanted   bool         // a giver found no room
	extra    func() int64 // places at free servers, if any
	shut     bool         // a stop: nothing comes in or goes out
	q        ring[waiting]
	keeps    bool // packs that step on the only lane stay in the same ring
	ripe     int  // units of q that may go on
	stay     random.Draw
	stays    bool
	slot     clock.Slot
	level    *measure.Level
	waits    measure.Tally
	tubs     *tubs
	turn     *turn       // of the packing table, where lots are kept apart on it
	stirs    func() bool // whether the unit that came last makes a difference to the owner; nil: always
}

func (b *inbox) held() int64 {
	n := int64(b.q.n)
	if b.tubs != nil {
		n += b.tubs.holds()
	}
	return n
}

// room tells whether n units may be given.
func (b *inbox) room(n int) bool {
	if !b.shut && !b.turn.shut() && (b.fits(n) || b.tubs != nil && b.tubs.room(n)) {
		return true
	}
	b.wanted = true
	return false
}

// fits tells whether n units have a place here or at a free server; what does not fit goes into tubs, if there are any.
func (b *inbox) fits(n int) bool {
	have := b.free()
	return have >= int64(n) || b.extra != nil && have+b.extra() >= int64(n)
}

// free is how many places are neither taken nor promised.
func (b *inbox) free() int64 { return b.places - int64(b.q.n) - b.promised }

func (b *inbox) promise(n int) { b.promised += int64(n) }

func (b *inbox) take(u unit) {
	if b == b.l.empties {
		b.l.blame.settle(b.l.cal.Now())
	}
	if b.tubs != nil && !b.fits(1) && b.tubs.room(1) { // a place at a free bench may have gone off shift since it was promised
		b.turn.enter(&u, b.l.cal.Now())
		b.tubs.put(u)
		return
	}
	b.lay(u)
}

// lay takes a unit into the places themselves.
func (b *inbox) lay(u unit) {
	now := b.l.cal.Now()
	b.turn.enter(&u, now)
	if !b.stays {
		b.put(&u, now)
		if b.stirs == nil || b.stirs() {
			b.l.agenda.poke(b.owner)
		}
		return
	}
	w := waiting{u: u, at: now, ripe: now + b.stay.At(u.no)}
	if b.ripe < b.q.n { // first come, first gone
		w.ripe = max(w.ripe, b.q.at(b.q.n-1).ripe)
	}
	b.q.push(w)
	if int64(b.q.n) <= b.places {
		b.level.Add(1, now)
	}
	switch {
	case w.ripe <= now && b.ripe == b.q.n-1:
		b.ripe++
		b.l.agenda.poke(b.owner)
	case b.ripe == b.q.n-1:
		b.l.cal.Set(b.slot, w.ripe, clock.End)
	}
}

// put lays a unit into places in which it may go on at once, and tells nobody.
func (b *inbox) put(u *unit, now clock.Tick) {
	w := b.q.next()
	w.u = *u
	w.at, w.ripe = now, now
	b.came(now)
}

// came counts the unit that was put last.
func (b *inbox) came(now clock.Tick) {
	b.ripe++
	if int64(b.q.n) <= b.places {
		b.level.Add(1, now)
	}
}

// Fire: the unit that stayed longest may go on.
func (b *inbox) Fire(int) {
	now := b.l.cal.Now()
	for b.ripe < b.q.n && b.q.at(b.ripe).ripe <= now {
		b.ripe++
	}
	if b.ripe < b.q.n {
		b.l.cal.Set(b.slot, b.q.at(b.ripe).ripe, clock.End)
	}
	b.l.agenda.poke(b.owner)
}

// ready is how many units may go on.
func (b *inbox) ready() int {
	if b.shut {
		return 0
	}
	return b.ripe
}

// pop takes the first unit out; whoever waits for a place looks again.
func (b *inbox) pop() unit { return *b.out() }

// out is pop; the unit can be read until another comes in.
func (b *inbox) out() *unit {
	now := b.l.cal.Now()
	if b == b.l.empties {
		b.l.blame.settle(now)
	}
	u := b.draw(now)
	b.freed()
	return u
}

// outs takes the first n units out.
func (b *inbox) outs(n int) {
	now := b.l.cal.Now()
	over := max(0, int64(b.q.n)-b.places) // that stand at free servers
	for range n {
		b.waits.Add(now - b.q.drop().at)
	}
	b.ripe -= n
	if gone := int64(n) - over; gone > 0 {
		b.level.Add(-gone, now)
	}
	b.freed()
}

// draw takes the first unit out and tells nobody.
func (b *inbox) draw(now clock.Tick) *unit {
	w := b.q.front()
	if b.keeps {
		b.q.keep()
	} else {
		b.q.drop()
	}
	b.ripe--
	b.waits.Add(now - w.at)
	if int64(b.q.n) < b.places {
		b.level.Add(-1, now)
	}
	return &w.u
}

// freed tells those who found no room, and the tubs.
func (b *inbox) freed() {
	if b.wanted {
		b.wanted = false
		for _, g := range b.givers {
			b.l.agenda.poke(g)
		}
	}
	if b.tubs != nil {
		b.l.agenda.poke(b.tubs.node)
	}
}

// close and open are the two ends of a stop of the places themselves.
func (b *inbox) close(shut bool) {
	b.shut = shut
	if !shut {
		b.wanted = true
		b.freed()
		b.l.agenda.poke(b.owner)
	}
}
