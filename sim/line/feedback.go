package line

import "pascaline/sim/measure"

// tubs take packs when there is no place on the table or before the belt. They are fed back by hand, a tub at a time, when there is
// room again. A tub is a place of a bench like any other: its material are the packs in tubs.
type tubs struct {
	l     *Line
	node  int
	into  *inbox
	q     ring[unit]
	max   int64
	per   int
	below int64 // fed back when fewer packs than this are before the station
	level *measure.Level
}

// room tells whether n packs find room beside those in tubs and those for whom no other place is left of what was promised.
func (t *tubs) room(n int) bool {
	over := max(0, t.into.promised-max(0, t.into.places-int64(t.into.q.n)))
	return int64(t.q.n+n)+over <= t.max
}

func (t *tubs) holds() int64 { return int64(t.q.n) }

func (t *tubs) put(u unit) {
	t.q.push(u)
	t.level.Add(1, t.l.cal.Now())
	t.l.agenda.poke(t.node)
}

// alike is how many packs of one lot the next tub holds.
func (t *tubs) alike() int {
	n := 1
	for n < min(t.per, t.q.n) && t.q.at(n).lot == t.q.front().lot {
		n++
	}
	return n
}

// feedingBack is the job of bringing a tub back.
type feedingBack struct {
	passing
	t *tubs
}

func (f *feedingBack) ready(b *bench, asked int) bool {
	t := f.t
	if asked > 0 || t.q.n == 0 {
		return false
	}
	dry := b.l.dry(b.node)
	if lot := t.q.front().lot; lot != 0 && t.into.turn != nil && t.into.turn.restOf(lot) == 0 {
		dry = true // no more of its lot comes
	}
	full := t.q.n >= t.per || dry
	low := int64(t.into.q.n) < t.below || dry
	return full && low && t.mayFeed()
}

func (f *feedingBack) take(b *bench, p *place) {
	t := f.t
	n := t.alike()
	p.unit = unit{no: b.count, n: int32(n), box: b.l.boxes.open(), out: none, lot: t.q.front().lot}
	for range n {
		b.l.boxes.put(p.unit.box, t.q.drop())
	}
	t.level.Add(int64(-n), b.l.cal.Now())
	p.hand = b.paced(f.time[b.l.kindOf(p.unit.lot)].At(b.count) * ticksOf(b.least))
	p.given = 0
	if t.into.wanted {
		t.into.freed()
	}
}

// mayFeed tells whether there is a place for a pack that is fed back. Those that are promised to the next lot are not needed while that may not
// come.
func (t *tubs) mayFeed() bool {
	in := t.into
	return int64(in.q.n) < in.places && (in.free() > 0 || in.turn.shut())
}

// give puts the packs back one by one while there is room on the table itself.
func (f *feedingBack) give(b *bench, p *place) outcome {
	t := f.t
	for int(p.given) < int(p.unit.n) {
		if !t.mayFeed() {
			return noRoom
		}
		u := b.l.boxes.all[p.unit.box].packs[p.given]
		t.into.turn.back(u)
		t.into.lay(u)
		p.given++
	}
	b.l.boxes.close(p.unit.box)
	return given
}

func (f *feedingBack) drop(b *bench, p *place) {
	for _, u := range b.l.boxes.close(p.unit.box)[p.given:] {
		b.l.setAside(b.station, u)
	}
}
