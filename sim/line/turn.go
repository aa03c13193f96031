package line

import (
	"slices"

	"pascaline/sim/clock"
)

// A turn sees to it that lots go through a station in their order. It lets the next lot in at once, or, where lots are kept apart or the
// station is changed over, when the lot before has left. Where units can overtake each other on their way through a station, those of the
// next lot leave it when the lot before is out. A nil turn lets everything pass: there are no lots.
type turn struct {
	ls      *lots
	no      int // of the turn
	name    string
	station *station
	places  *inbox // those before the station, where lots are kept apart there
	apart   bool
	ordered bool
	rules   []rule
	in      int // rank of the last lot that may come in
	out     int // rank of the lot that leaves
	change  *changeover
}

// admits tells whether units of a lot may come in.
func (t *turn) admits(n int32) bool { return t == nil || n == 0 || t.ls.of(n).rank <= t.in }

// mayLeave tells whether units of a lot may go out.
func (t *turn) mayLeave(n int32) bool {
	return t == nil || n == 0 || !t.ordered || t.ls.of(n).rank <= t.out
}

// mayLeaveInOne tells whether all units of a load may go out, one after the other: those of the next lot do if with this load the lot before
// is out.
func (t *turn) mayLeaveInOne(load []unit) bool {
	if t == nil || !t.ordered {
		return true
	}
	out, packs := t.out, int64(0) // packs of the lot of that rank in the load so far
	for i := range load {
		if load[i].lot == 0 {
			continue
		}
		for rank := t.ls.of(load[i].lot).rank; out < rank; out++ {
			if x := &t.ls.list[t.ls.seq[out]]; x.legs[t.no].past+packs < x.packs {
				return false
			}
			packs = 0
		}
		packs += int64(load[i].n)
	}
	return true
}

// shut tells whether whatever comes next must wait: all of the lots that may come in are in.
func (t *turn) shut() bool {
	switch {
	case t == nil || t.in >= len(t.ls.seq)-1 && !t.ls.any:
		return false
	case t.in < 0:
		return true
	case t.in >= len(t.ls.seq)-1:
		return false
	}
	x := &t.ls.list[t.ls.seq[t.in]]
	return t.rest(x) == 0
}

// rest is how many packs of a lot have not come in yet, and will.
func (t *turn) rest(x *lot) int64 { return x.packs - x.legs[t.no].in - x.legs[t.no].lost }

// restOf is rest by the lot's number.
func (t *turn) restOf(n int32) int64 { return t.rest(t.ls.of(n)) }

// enter counts a unit that comes in.
func (t *turn) enter(u *unit, now clock.Tick) {
	if t == nil || u.lot == 0 {
		return
	}
	x := t.ls.of(u.lot)
	if x.begun == none {
		x.begun = now
	}
	g := &x.legs[t.no]
	if g.in == 0 {
		g.first = now
	}
	g.in += int64(u.n)
	g.sumIn += float64(float64(u.n) * float64(now-x.begun))
	if t.rest(x) > 0 {
		return
	}
	t.ls.l.agenda.poke(t.station.node) // a load that waits to be pushed out is the last of its lot now
	if t.places != nil && t.places.tubs != nil {
		t.ls.l.agenda.poke(t.places.tubs.node) // so is a tub that is not full
	}
}

// back takes back that a unit came in: from a tub it comes in again.
func (t *turn) back(u unit) {
	if t == nil || u.lot == 0 {
		return
	}
	x := t.ls.of(u.lot)
	g := &x.legs[t.no]
	g.in -= int64(u.n)
	g.sumIn -= float64(float64(u.n) * float64(t.ls.l.cal.Now()-x.begun))
}

// enter counts a unit that comes into a station, out of the places before it.
func (s *station) enter(u *unit, now clock.Tick) {
	s.before.leave(u, now)
	s.turn.enter(u, now)
}

// leave counts a unit that goes out; with the last of a lot the next has its turn.
func (t *turn) leave(u *unit, now clock.Tick) {
	if t == nil || u.lot == 0 || u.n == 0 {
		return
	}
	x := t.ls.of(u.lot)
	g := &x.legs[t.no]
	g.gone += int64(u.n)
	g.past += int64(u.n)
	g.last = now
	g.sumOut += float64(float64(u.n) * float64(now-x.begun))
	if g.past >= x.packs {
		t.advance()
	}
}

// advance passes the turn on when a lot is out of the station.
func (t *turn) advance() {
	was := t.out
	for t.out < len(t.ls.seq) && t.past(t.out) {
		t.out++
	}
	if t.out == was {
		return
	}
	t.ls.l.agenda.poke(t.station.node)
	t.letIn()
	if t.no == len(t.ls.turns)-1 && t.no > 0 {
		t.ls.turns[0].letIn() // a changeover of the whole line waits until it is empty
	}
}

func (t *turn) past(rank int) bool {
	x := &t.ls.list[t.ls.seq[rank]]
	return x.legs[t.no].past >= x.packs
}

// letIn lets the next lots in as far as that may be.
func (t *turn) letIn() {
	ls := t.ls
	was := t.in
	for t.in >= 0 && t.in < len(ls.seq)-1 {
		due := t.between(t.in)
		switch {
		case len(due) == 0 && !t.apart:
		case t.clearOf(due) <= t.in:
			if len(due) > 0 { // part of it may be done already
				t.change.news.Raise()
			}
			t.poke(was)
			return
		case len(due) == 0:
		default:
			t.change.begin()
			t.poke(was)
			return
		}
		t.in++
	}
	t.poke(was)
}

// poke lets those look again who waited for the next lot to be let in.
func (t *turn) poke(was int) {
	if t.in == was {
		return
	}
	a := t.ls.l.agenda
	a.poke(t.station.node)
	if t.places != nil {
		t.places.freed()
	} else if t.station.in != nil {
		t.station.in.freed()
	}
	if t.no == 0 {
		a.poke(t.station.stretch.feed.reader)
		a.poke(t.station.stretch.feed.node)
	}
}

// clearOf is the rank of the lot that leaves the station, or the line where a changeover of the whole line is due.
func (t *turn) clearOf(due []*rule) int {
	for _, r := range due {
		if r.whole {
			return t.ls.turns[len(t.ls.turns)-1].out
		}
	}
	return t.out
}

// between is the changeovers after the lot of a rank.
func (t *turn) between(rank int) []*rule {
	return t.due(t.ls.kindNames(rank), t.ls.kindNames(rank+1))
}

// parts tells whether the lot after the one of a rank does not come in before that one is out: lots are kept apart, or there is a changeover
// between the two, here or of the whole line.
func (t *turn) parts(rank int) bool {
	if t.apart || len(t.between(rank)) > 0 {
		return true
	}
	return slices.ContainsFunc(t.ls.turns[0].between(rank), func(r *rule) bool { return r.whole })
}

// kindOfLot is what changeovers are told by.
type kindOfLot struct{ product, group string }

func (ls *lots) kindNames(rank int) kindOfLot {
	x := &ls.list[ls.seq[rank]]
	return kindOfLot{x.product, x.group}
}

// tickOf is a time since the lot was begun, on average over packs.
func tickOf(sum float64, packs int64) clock.Tick {
	if packs == 0 {
		return 0
	}
	return clock.Tick(sum / float64(packs))
}
