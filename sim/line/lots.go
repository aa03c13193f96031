package line

import (
	"hash/fnv"
	"math"

	"pascaline/scenarios"
	"pascaline/sim/clock"
)

// A lot is a quantity of one product that is treated together. Units carry the number of their lot, counted from 1.
type lot struct {
	name     string
	kind     int // of the product: what its draws are listed by
	product  string
	group    string
	no       uint64 // the first number of its carriers or pieces; by its name, so that another order leaves its draws as they are
	packs    int64  // to be treated in this replication
	standing int64  // of them, on the line at the start
	ready    clock.Tick
	rank     int // in the order of treatment; unranked until it is chosen
	begun    clock.Tick
	done     clock.Tick
	out      int64 // packs finished
	aside    int64
	over     int64 // packs that were out of the chilled store beyond the limit
	longest  clock.Tick
	legs     []leg // by turn
}

// toCome is how many packs of it are not on the line at the start.
func (x *lot) toCome() int64 { return x.packs - x.standing }

// leg is a lot's way through one station.
type leg struct {
	in, gone      int64 // packs that went in, and that left it
	lost          int64 // packs set aside before it
	past          int64 // packs that left it or were set aside in it or before
	first, last   clock.Tick
	sumIn, sumOut float64 // of ticks since the lot was begun, over packs
}

const (
	unranked = math.MaxInt
	lotShift = 24 // a lot's things are numbered within 2^24
)

// lots is the list of a line, and the order in which it is treated.
type lots struct {
	l     *Line
	list  []lot
	seq   []int // lots in the order in which they are let in, as far as it is settled
	any   bool  // the next ready lot is taken, not the next in the list
	turns []*turn
	limit clock.Tick // of the cold chain; 0: none
	since bool       // it counts from leaving the vessel
}

// of is lot number n, counted from 1.
func (ls *lots) of(n int32) *lot { return &ls.list[n-1] }

// kindOf is the row of a unit's product in lists of draws.
func (l *Line) kindOf(n int32) int {
	if n == 0 || l.lots == nil {
		return 0
	}
	return l.lots.list[n-1].kind
}

// lotList makes the list of lots; those before the one in work are done already and left out.
func (b *builder) lotList() {
	s := b.s
	if !s.Several() {
		return
	}
	ls := &lots{l: b.l, any: s.LotOrder == "next ready lot"}
	b.l.lots = ls
	if c := s.ColdChain; c != nil {
		ls.limit, ls.since = clock.Tick(c.Limit), c.From == "leaving the vessel"
	}
	inWork := s.Run.Starts.Lot == ""
	for i := range s.Lots {
		x := &s.Lots[i]
		inWork = inWork || x.Lot == s.Run.Starts.Lot
		if !inWork {
			continue
		}
		h := fnv.New32a()
		h.Write([]byte(x.Lot))
		ls.list = append(ls.list, lot{
			name: string(x.Lot), product: string(x.Product), group: s.GroupOf(x), kind: b.kindNo(string(x.Product)), no: uint64(h.Sum32()>>8) << lotShift,
			packs: int64(x.Quantity), ready: max(0, clock.Tick(x.Ready.After(s.Run.Starts.At.At))), rank: unranked, begun: none, done: none,
		})
	}
	if len(ls.list) == 0 {
		b.fail("no lot is left to be treated")
		return
	}
	for i := range ls.list {
		if ls.any {
			break
		}
		ls.choose(i)
	}
}

// kindNo is the row of a product.
func (b *builder) kindNo(name string) int {
	for i := range b.s.Products {
		if b.s.Products[i].Name == name {
			return i
		}
	}
	return 0
}

// kinds are the scenarios of all products; the scenario itself where there is one product only.
func (b *builder) kinds() []*scenarios.Scenario {
	if len(b.s.Products) == 0 {
		return []*scenarios.Scenario{b.s}
	}
	var list []*scenarios.Scenario
	for i := range b.s.Products {
		list = append(list, b.s.Products[i].Line)
	}
	return list
}

// choose makes lot i the next to be treated.
func (ls *lots) choose(i int) {
	ls.list[i].rank = len(ls.seq)
	ls.seq = append(ls.seq, i)
	for _, t := range ls.turns {
		t.letIn()
	}
}

// chooseReady takes the first in the list that is ready, if it is not settled which lot comes next.
func (ls *lots) chooseReady(now clock.Tick) {
	for i := range ls.list {
		if ls.list[i].rank == unranked && ls.list[i].ready <= now {
			ls.choose(i)
			return
		}
	}
}

// finished counts packs of a lot that came to the store.
func (ls *lots) finished(n int32, packs int64, now clock.Tick) {
	x := ls.of(n)
	x.out += packs
	x.close(now)
}

// close notes when the last pack of a lot was finished or set aside.
func (x *lot) close(now clock.Tick) {
	if x.done == none && x.out+x.aside == x.packs {
		x.done = now
	}
}

// time notes how long a pack of a lot was out of the chilled store.
func (ls *lots) time(u *unit, n int32, now clock.Tick) {
	from := u.born
	if ls.since {
		from = u.out
	}
	if from == none {
		return
	}
	x := ls.of(u.lot)
	x.longest = max(x.longest, now-from)
	if ls.limit > 0 && now-from > ls.limit {
		x.over += int64(n)
	}
}

// setAside counts packs that were taken out at a station: they will come to none after it.
func (ls *lots) setAside(t *turn, u unit, now clock.Tick) {
	x := ls.of(u.lot)
	x.aside += int64(u.n)
	for i := range x.legs {
		switch {
		case t == nil || i > t.no:
			x.legs[i].lost += int64(u.n)
			x.legs[i].past += int64(u.n)
		case i == t.no:
			x.legs[i].past += int64(u.n)
		}
	}
	x.close(now)
	for _, t := range ls.turns {
		t.advance()
		ls.l.agenda.poke(t.station.node) // what waits there may be all that is left of the lot
		if t.places != nil && t.places.tubs != nil {
			ls.l.agenda.poke(t.places.tubs.node)
		}
	}
}
