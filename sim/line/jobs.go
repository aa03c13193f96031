package line

import (
	"pascaline/sim/clock"
	"pascaline/sim/random"
)

// per is what one reading of a hand time was taken of.
type per uint8

const (
	perPackAndPerson per = iota // shared by the crew
	perPack
	perTask // a carrier or a case
	perCase // of packs that come in cases
)

// readings is a time of hand work, kept as it was measured.
type readings struct {
	per  per
	draw random.Draw
	size int // packs of a full task
}

// work is the work in person-ticks of task no with n packs for a crew that begins with least people.
func (r *readings) work(no uint64, n, least int) clock.Tick {
	switch r.per {
	case perTask:
		t := r.draw.At(no) * clock.Tick(least)
		if n < r.size {
			t = t * clock.Tick(n) / clock.Tick(r.size)
		}
		return t
	case perCase:
		return r.sum(no, (n+r.size-1)/r.size) * clock.Tick(least)
	case perPack:
		return r.sum(no, n) * clock.Tick(least)
	}
	return r.sum(no, n)
}

func (r *readings) sum(no uint64, n int) clock.Tick {
	return r.draw.Sum(no*uint64(max(r.size, n)), uint64(n))
}

// filling is hand loading: an empty carrier and packs from the store make a full carrier.
type filling struct {
	feed    *feed
	empties *inbox     // nil: as many carriers as wanted
	packs   int        // in a full carrier, where there are no lots
	hand    []readings // by kind of product, as the swap
	swap    []random.Draw
}

func (f *filling) ready(b *bench, asked int) bool {
	if b.l.closed {
		return false
	}
	if f.empties != nil && f.empties.ready() <= asked {
		return false
	}
	if f.feed.lots != nil {
		return f.feed.lots.ready(asked)
	}
	have := f.feed.has() - int64(asked*f.packs)
	return have >= int64(f.packs) || have > 0 && f.feed.left == 0
}

func (f *filling) take(b *bench, p *place) {
	if f.empties != nil {
		f.empties.pop()
	}
	if f.feed.lots != nil {
		p.unit = f.feed.lots.take(b.l.cal.Now())
		b.station.turn.enter(&p.unit, b.l.cal.Now())
	} else {
		n := min(int64(f.packs), f.feed.has())
		f.feed.draw(n)
		p.unit = unit{no: b.count, born: b.l.cal.Now(), out: none, box: none, n: int32(n)}
	}
	kind := b.l.kindOf(p.unit.lot)
	p.hand = b.paced(f.hand[kind].work(p.unit.no, int(p.unit.n), b.least))
	p.swap = f.swap[kind].At(p.unit.no)
}

func (f *filling) give(b *bench, p *place) outcome { return giveUnit(b, p) }
func (f *filling) drop(b *bench, p *place) {
	b.l.setAside(b.station, p.unit)
	b.l.carrierBack(p.unit)
}

// paced is work as long as the crew's pace of the shift makes it.
func (b *bench) paced(work clock.Tick) clock.Tick {
	if b.pool == nil || !b.pool.paced {
		return work
	}
	return clock.Tick(float64(work) * b.pool.pace)
}

// tipping empties a carrier: its packs go out one by one, the carrier goes back.
type tipping struct {
	swap, gap []random.Draw // by kind of product
	packs     int           // of a full carrier, the most of any product
}

func (t *tipping) ready(b *bench, asked int) bool { return b.waits(asked) }

func (t *tipping) take(b *bench, p *place) {
	p.unit = b.in.pop()
	b.station.turn.enter(&p.unit, b.l.cal.Now())
	p.swap = t.swap[b.l.kindOf(p.unit.lot)].At(p.unit.no)
	p.given = none
}

func (t *tipping) give(b *bench, p *place) outcome {
	now := b.l.cal.Now()
	gap := &t.gap[b.l.kindOf(p.unit.lot)]
	if p.given == none { // the first pack is on its way
		p.given = 0
		if p.unit.n > 0 {
			p.set(now + gap.At(t.number(p)))
			return later
		}
	}
	for p.given < p.unit.n {
		if !b.station.turn.mayLeave(p.unit.lot) || !b.hasRoom(p) {
			return noRoom
		}
		u := unit{no: t.number(p), born: p.unit.born, out: p.unit.out, box: none, n: 1, lot: p.unit.lot}
		b.station.turn.leave(&u, now)
		b.next.take(u)
		p.given++
		if p.given < p.unit.n {
			p.set(now + gap.At(t.number(p)))
			return later
		}
	}
	b.unkeep(p)
	b.l.carrierBack(p.unit)
	return given
}

// number is that of the next pack.
func (t *tipping) number(p *place) uint64 {
	return p.unit.no*uint64(t.packs) + uint64(p.given)
}

func (t *tipping) drop(b *bench, p *place) {
	u := p.unit
	u.n -= max(0, p.given)
	b.l.setAside(b.station, u)
	b.l.carrierBack(p.unit)
}

// passing works on one piece and hands it on: labeller, checkweigher, sealer, palletiser, wiping.
type passing struct {
	time    []random.Draw // by kind of product
	rejects *portion
}

func (k *passing) ready(b *bench, asked int) bool { return b.waits(asked) }

func (k *passing) take(b *bench, p *place) {
	p.unit = b.in.pop()
	if !b.station.side {
		b.station.turn.enter(&p.unit, b.l.cal.Now())
	}
	p.hand = b.paced(k.time[b.l.kindOf(p.unit.lot)].At(p.unit.no) * clock.Tick(b.least))
}

func (k *passing) give(b *bench, p *place) outcome {
	if p.given == 0 && k.rejects.takes(p.unit) {
		b.l.setAside(b.station, p.unit)
		b.unkeep(p)
		return given
	}
	p.given = none // fate is settled
	return giveUnit(b, p)
}

func (k *passing) drop(b *bench, p *place) { b.l.setAside(b.station, p.unit) }

// waits tells whether more than asked units wait that may come in.
func (b *bench) waits(asked int) bool {
	if b.in.ready() <= asked {
		return false
	}
	t := b.station.turn
	return t == nil || b.station.side || t.admits(b.in.q.at(asked).u.lot)
}

// portion picks a share of packs, by chance or evenly by count.
type portion struct {
	share  float64
	count  bool
	stream random.Stream
	seen   float64
}

func (q *portion) any() bool { return q != nil && q.share > 0 }

func (q *portion) byCount() bool { return q.any() && q.count }

// within tells whether one of the next n that are asked for would be picked by count.
func (q *portion) within(n int) bool {
	return q.byCount() && int64((q.seen+float64(n))*q.share) > int64(q.seen*q.share)
}

// takes tells whether u is one of them. It is asked once for a pack and pass.
func (q *portion) takes(u unit) bool {
	if q == nil || q.share == 0 {
		return false
	}
	if q.count {
		was := int64(q.seen * q.share)
		q.seen++
		return int64(q.seen*q.share) > was
	}
	return q.stream.At(u.no<<8|uint64(u.pass&255)) < q.share
}
