package line

import (
	"fmt"

	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// rosterKind is what happens at a time of the roster; at one tick in this order.
type rosterKind uint8

const (
	shiftEnds rosterKind = iota
	shiftStarts
	lineReady // start-up is over
	lastCarrier
	washDown
	breakBegins
)

// rosterEvent is one line of the roster, worked out for the replication.
type rosterEvent struct {
	at     clock.Tick
	kind   rosterKind
	shift  int  // row of roster.shifts
	more   bool // shiftEnds: another shift follows at once; shiftStarts: the line was on before
	pause  *pause
	group  int
	groups int
	pools  []*pool
}

// shiftPlan is one shift of the roster as the line sees it.
type shiftPlan struct {
	name     string
	hours    string
	heads    []int // by pool
	startUp  clock.Tick
	wash     clock.Tick
	last     clock.Tick
	packs    measureList
	overtime clock.Tick
}

// measureList holds what each turn of a shift brought.
type measureList []int64

// roster lets shifts begin and end. At the end of a working day the line is run empty and washed, people stay on for that; or packs
// stay where they are.
type roster struct {
	l         *Line
	node      int
	events    []rosterEvent
	shifts    []shiftPlan
	stays     bool // packs stay on the line over night
	present   int  // shift on now or last, or none
	wash      clock.Tick
	washes    bool // wash-down is due or goes on
	washing   bool
	slot      clock.Slot
	ended     clock.Tick // end of the last shift while the line is not off yet, or none
	lingering bool
	counted   int64 // packs finished when the present shift began
	starting  bool
	hours     []span // that are rostered, within the longest time of the replication
}

// span is a stretch of time.
type span struct{ from, to clock.Tick }

// rostered is the time up to now in which a shift was on.
func (r *roster) rostered(now clock.Tick) (sum clock.Tick) {
	for _, h := range r.hours {
		sum += max(0, min(h.to, now)-h.from)
	}
	return sum
}

// live carries the roster out.
func (r *roster) live(t *clock.Task) {
	for _, e := range r.events {
		t.SleepUntil(e.at, clock.Roster)
		switch e.kind {
		case shiftEnds:
			r.end(e)
		case shiftStarts:
			r.start(e)
		case lineReady:
			r.ready()
		case lastCarrier:
			r.l.close(true)
			r.l.closingChanged()
		case washDown:
			r.washes, r.wash = true, r.shifts[e.shift].wash
			r.try()
		case breakBegins:
			for _, p := range e.pools {
				p.rest(e.pause, e.group, e.groups)
			}
		}
	}
}

func (r *roster) start(e rosterEvent) {
	l := r.l
	if r.ended != none { // the line was still not empty: it goes on with the next shift
		l.warn("overrun", "the line was not empty and washed before the next shift began; its wash-down was left out")
		r.finishDay()
	}
	r.turn()
	r.present = e.shift
	l.off = false
	l.close(false)
	for i, p := range l.pools {
		if p != nil {
			p.staff(r.shifts[e.shift].heads[i], e.shift)
		}
	}
	l.setOff(false)
	if s := r.shifts[e.shift].startUp; s > 0 && !e.more {
		r.starting = true
		l.stand(true)
	}
	l.closingChanged()
}

func (r *roster) ready() {
	if r.starting {
		r.starting = false
		r.l.stand(false)
	}
}

// turn books what the shift that ends now brought.
func (r *roster) turn() {
	if r.present != none {
		s := &r.shifts[r.present]
		s.packs = append(s.packs, r.l.finished-r.counted)
	}
	r.counted = r.l.finished
}

func (r *roster) end(e rosterEvent) {
	if e.more {
		return // the next shift begins at this tick
	}
	l := r.l
	l.entangled("at the end of a shift", true)
	r.ready()
	r.ended = l.cal.Now()
	r.lingering = !r.stays
	if !r.stays {
		l.close(true)
	}
	for _, p := range l.pools {
		if p != nil {
			p.staff(0, len(r.shifts))
		}
	}
	if r.stays { // tasks and cycles in hand are finished, and nothing is begun
		l.off = true
		l.setOff(true)
	}
	l.closingChanged()
	r.try()
}

// try looks whether the wash-down can begin and whether the day is over.
func (r *roster) try() {
	l := r.l
	empty := r.stays && l.emptyVessels() || l.idleLine()
	if r.washes && !r.washing && empty {
		r.washing = true
		l.stand(true)
		l.cal.Set(r.slot, l.cal.Now()+r.wash, clock.Roster)
	}
	if r.ended != none && empty && !r.washes {
		r.finishDay()
	}
}

// Fire: the wash-down is over.
func (r *roster) Fire(int) {
	if r.washing {
		r.washing, r.washes = false, false
		r.l.stand(false)
		r.try()
	}
}

// finishDay turns the line off.
func (r *roster) finishDay() {
	l := r.l
	now := l.cal.Now()
	if r.washing {
		l.cal.Clear(r.slot)
		l.stand(false)
	}
	r.washes, r.washing, r.lingering = false, false, false
	if r.present != none {
		r.shifts[r.present].overtime += now - r.ended // what a task in hand still brings is booked for this shift too
	}
	r.ended = none
	l.off = true
	for _, p := range l.pools {
		if p != nil {
			p.home()
		}
	}
	l.setOff(true)
}

// finish books the shift that was on at the end of the replication.
func (r *roster) finish(now clock.Tick) {
	if r.ended != none && r.present != none {
		r.shifts[r.present].overtime += now - r.ended
	}
	r.turn()
	r.present = none
}

// setOff sends every server off shift or back on. Loading and other hand work finish the task in hand.
func (l *Line) setOff(off bool) {
	l.pace()
	for _, s := range l.stations {
		if s.bench != nil && s.bench.pool != nil {
			heads := s.bench.pool.heads
			if off {
				heads = 0
			}
			s.bench.staffed(heads)
			continue
		}
		for _, o := range s.servers {
			o.wantOff(off)
		}
	}
}

// stand lets the whole line stand, or run again: start-up and wash-down.
func (l *Line) stand(stands bool) {
	if l.still == stands {
		return
	}
	l.still = stands
	for _, s := range l.stations {
		for _, o := range s.servers {
			if stands {
				o.hold(measure.PlannedStop, goOn, false)
			} else {
				o.release(measure.PlannedStop)
			}
		}
	}
	l.agenda.pokeAll()
}

// idleLine tells whether nothing on the line can still move: it is empty but for an open case and a rest that by the user's word stays.
func (l *Line) idleLine() bool {
	if l.onLine() == 0 {
		return l.emptyVessels()
	}
	stays := int64(0)
	for _, s := range l.stations {
		if s.bench != nil && s.in != nil {
			if k, ok := s.bench.job.(*packing); ok && !k.rest && s.in.q.n < k.n[0] {
				stays += int64(s.in.q.n)
			}
		}
	}
	if c := l.vessels; c != nil && !c.rest && c.in.q.n < c.load && c.after == clock.Never {
		for i := range c.in.q.n {
			stays += int64(c.in.q.at(i).u.n)
		}
	}
	return stays == l.onLine() && l.emptyVessels()
}

func (l *Line) emptyVessels() bool {
	if l.vessels == nil {
		return true
	}
	for _, v := range l.vessels.each {
		if v.working {
			return false
		}
	}
	return true
}

func hoursText(from, to clock.Tick) string {
	hm := func(t clock.Tick) string {
		t %= clock.Day
		return fmt.Sprintf("%02d:%02d", t/clock.Hour, t%clock.Hour/clock.Minute)
	}
	return hm(from) + " to " + hm(to)
}
