package line

import (
	"pascaline/sim/clock"
	"pascaline/sim/measure"
	"pascaline/sim/random"
)

// feed is what comes into a stretch: without end, a quantity, a timetable, or one after another at drawn times. What came and found no
// place waits in the chilled store. Loading draws its packs from the store itself; to other stations units are pushed.
type feed struct {
	l       *Line
	node    int
	name    string
	endless bool  // there is always one
	left    int64 // still to come, where not endless
	store   int64 // came, not yet gone in
	next    taker // nil: somebody takes from the store
	make    func(no uint64, now clock.Tick) unit
	packs   int64      // in one unit
	gone    uint64     // units gone in
	at      clock.Tick // without end: when units went in last
	atOnce  int64      // and how many then
	drawn   random.Draw
	first   clock.Tick // of the first arrival, or none
	paced   bool
	batch   int64
	list    []arrival
	came    ring[clock.Tick] // when what is in the store came; kept for feeds with times only
	waits   measure.Tally
	level   *measure.Level
	reader  int      // node that takes from the store
	lots    *lotFeed // nil where no lots come
	task    *clock.Task
}

// arrival is n units that come at a tick.
type arrival struct {
	at clock.Tick
	n  int64
}

// live lets units come at their times. Feeds without times have all of it in the store from the start.
func (f *feed) live(t *clock.Task) {
	if f.lots != nil {
		f.lots.live(t)
		return
	}
	if f.paced {
		f.livePaced(t)
	} else {
		for _, a := range f.list {
			t.SleepUntil(a.at, clock.End)
			f.arrive(a.n)
		}
	}
	f.l.closingChanged()
}

// livePaced lets one come after the other, as a filler before the line would: between the shifts, and when nothing more is begun, it stands. Only
// the first may have a time of the calendar.
func (f *feed) livePaced(t *clock.Task) {
	for k := uint64(0); f.left > 0; k++ {
		if k == 0 && f.first != none {
			t.SleepUntil(f.first, clock.End)
		} else {
			t.Sleep(f.drawn.At(k))
		}
		f.arrive(min(f.batch, f.left))
	}
}

// pace lets what comes at intervals come, or stands it.
func (l *Line) pace() {
	for _, s := range l.stretchs {
		switch t := s.feed.task; {
		case t == nil || !s.feed.paced:
		case l.closed || l.off:
			t.Pause()
		default:
			t.Resume()
		}
	}
}

func (f *feed) arrive(n int64) {
	now := f.l.cal.Now()
	f.l.blame.settle(now)
	f.left -= n
	f.store += n
	for range n {
		f.came.push(now)
	}
	f.level.Add(n, now)
	f.l.agenda.poke(f.node)
	f.l.agenda.poke(f.reader)
}

// has is how many units could go in now.
func (f *feed) has() int64 {
	switch {
	case f.endless:
		return endless
	case f.lots != nil && f.lots.ready(0):
		return 1
	case f.lots != nil:
		return 0
	}
	return f.store
}

// stocked tells whether there was something until now. It only looks: a lot that could be chosen is not.
func (f *feed) stocked() bool {
	if f.lots != nil {
		return f.lots.stocked()
	}
	return f.endless || f.store > 0
}

// done tells that nothing more will come.
func (f *feed) done() bool {
	if f.lots != nil {
		return f.lots.done()
	}
	return !f.endless && f.left == 0 && f.store == 0
}

// draw takes n units from the store.
func (f *feed) draw(n int64) {
	f.gone += uint64(n)
	f.l.in += n * f.packs
	if f.endless {
		f.flooded(n)
		return
	}
	now := f.l.cal.Now()
	f.l.blame.settle(now)
	f.store -= n
	for range min(n, int64(f.came.n)) {
		f.waits.Add(now - f.came.pop())
		f.level.Add(-1, now)
	}
	if f.store == 0 && f.left == 0 {
		f.l.closingChanged()
	}
}

// try pushes units while there is room, but for the time before the end of a shift in which nothing more is begun, and after it.
func (f *feed) try() {
	if f.next == nil || f.l.closed {
		return
	}
	for f.has() > 0 && f.next.room(1) {
		f.next.take(f.one())
	}
}

// one takes the next unit out of the store.
func (f *feed) one() unit {
	u := f.make(f.gone, f.l.cal.Now())
	if f.lots != nil {
		lot := f.lots.take(u.born)
		f.gone++
		return lot
	}
	f.draw(1)
	return u
}
