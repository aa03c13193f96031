package line

import (
	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// store is the chilled store at the end of a stretch: what arrives there is finished.
type store struct {
	l        *Line
	from, to string // first and last station of the stretch
	piece    string
	pieces   int64
	cases    int64
	packs    int64
	carriers int64
	last     bool // the headline counts here
	steps    *measure.Counts
	start    measure.Tally // time since the start of its carrier
	vessel   measure.Tally // time since it left the vessel
}

func (s *store) room(int) bool { return true }
func (s *store) promise(int)   {}

// take finishes a pack, a case or a carrier.
func (s *store) take(u unit) {
	now := s.l.cal.Now()
	s.pieces++
	switch {
	case u.box != none:
		s.cases++
		packs := s.l.boxes.close(u.box)
		for i := range packs {
			s.time(&packs[i], packs[i].n, now)
		}
	case s.piece == "carriers":
		s.carriers++
		s.time(&u, u.n, now)
		defer s.l.carrierBack(u)
	case s.piece == "cases": // cases that came in as such
		s.cases++
		s.time(&u, u.n, now)
	default:
		s.time(&u, 1, now)
	}
	s.packs += int64(u.n)
	if u.lot != 0 {
		s.l.lots.finished(u.lot, int64(u.n), now)
	}
	if s.last {
		s.steps.Add(int64(u.n), now)
	}
	s.l.leaves(int64(u.n), now)
}

// time takes the times of n packs that came together.
func (s *store) time(u *unit, n int32, now clock.Tick) {
	if u.lot != 0 {
		s.l.lots.time(u, n, now)
	}
	if u.born == none { // it stood on the line at the start
		return
	}
	s.start.AddTimes(now-u.born, int64(n))
	if u.out != none {
		s.vessel.AddTimes(now-u.out, int64(n))
	}
}

// asides takes what is set aside at a station.
type asides struct {
	l *Line
	s *station
}

func (a asides) room(int) bool { return true }
func (a asides) promise(int)   {}
func (a asides) take(u unit)   { a.l.setAside(a.s, u) }

// returns brings empty carriers back to loading after the return time.
type returns struct {
	l    *Line
	slot clock.Slot
	way  []waiting // by when they arrive
	to   *inbox
	time func(no uint64) clock.Tick
	n    uint64
}

func (r *returns) put(u unit) {
	now := r.l.cal.Now()
	at := now + r.time(r.n)
	r.n++
	if at == now {
		r.to.take(u)
		return
	}
	i := len(r.way)
	for i > 0 && r.way[i-1].ripe > at {
		i--
	}
	r.way = append(r.way, waiting{})
	copy(r.way[i+1:], r.way[i:])
	r.way[i] = waiting{u: u, at: now, ripe: at}
	r.l.cal.Set(r.slot, r.way[0].ripe, clock.End)
}

// Fire: the first carrier on the way is back.
func (r *returns) Fire(int) {
	now := r.l.cal.Now()
	for len(r.way) > 0 && r.way[0].ripe <= now {
		u := r.way[0].u
		r.way = r.way[:copy(r.way, r.way[1:])]
		r.to.take(u)
	}
	if len(r.way) > 0 {
		r.l.cal.Set(r.slot, r.way[0].ripe, clock.End)
	}
}

// passage moves units on from places that no station of its own empties: drain places at the end of a stretch, say.
type passage struct {
	l    *Line
	node int
	in   *inbox
	next taker
}

func (p *passage) try() {
	for !p.l.still && p.in.ready() > 0 && p.next.room(1) {
		p.next.take(p.in.pop())
	}
}
