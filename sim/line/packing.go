package line

import "pascaline/sim/random"

// packing puts n packs into a case.
type packing struct {
	n       []int // by kind of product, as the others
	hand    []readings
	perCase []random.Draw
	rest    bool     // the last case is closed part full
	cases   []uint64 // begun, by lot
}

func (k *packing) ready(b *bench, asked int) bool {
	if b.l.lots != nil {
		return k.lotReady(b, asked)
	}
	have := b.in.ready() - asked*k.n[0]
	return have >= k.n[0] || have > 0 && k.rest && b.l.dry(b.node)
}

// lotReady tells whether there are packs of one lot for a case more than asked: a full case, or all that is left of the lot.
func (k *packing) lotReady(b *bench, asked int) bool {
	q, ripe := &b.in.q, b.in.ready()
	at, used, lot := 0, int64(0), int32(-1)
	for i := 0; at < ripe; i++ {
		u := &q.at(at).u
		if u.lot != lot {
			lot, used = u.lot, 0
		}
		if !b.station.turn.admits(lot) {
			return false
		}
		full := k.n[b.l.kindOf(lot)]
		n := b.in.alike(at, full)
		used += int64(n)
		if n < full && !(lot != 0 && used == b.station.turn.restOf(lot)) && !(k.rest && b.l.dry(b.node)) {
			return false
		}
		if i == asked {
			return true
		}
		at += n
	}
	return false
}

// alike is how many units from at on are of one lot and may go on, up to most.
func (b *inbox) alike(at, most int) int {
	most = min(most, b.ready()-at)
	lot := b.q.at(at).u.lot
	if b.q.at(at+most-1).u.lot == lot { // lots come one after the other
		return most
	}
	n := 1
	for n < most && b.q.at(at+n).u.lot == lot {
		n++
	}
	return n
}

func (k *packing) take(b *bench, p *place) {
	lot := b.in.q.front().u.lot
	kind := b.l.kindOf(lot)
	n := min(k.n[kind], b.in.ready())
	no := b.count
	if lot != 0 {
		n = b.in.alike(0, k.n[kind])
		no = b.l.lots.of(lot).no + k.cases[lot-1]
		k.cases[lot-1]++
	}
	p.unit = unit{no: no, out: none, n: int32(n), box: b.l.boxes.open(), lot: lot}
	if !b.l.boxes.pack(p.unit.box, &b.in.q, n) {
		b.l.fail(p.name, "packs of two lots came into one case")
	}
	b.in.outs(n)
	b.station.enter(&p.unit, b.l.cal.Now())
	p.hand = b.paced(k.hand[kind].work(no, n, b.least))
	p.swap = b.paced(k.perCase[kind].At(no))
}

func (k *packing) give(b *bench, p *place) outcome { return giveUnit(b, p) }
func (k *packing) drop(b *bench, p *place)         { b.l.setAside(b.station, p.unit) }
