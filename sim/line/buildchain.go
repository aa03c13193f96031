package line

import (
	"slices"

	"pascaline/sim/clock"
)

// chains finds who can go ahead: belts that follow each other, with places before each, and the tip before them.
func (b *builder) chains() {
	l := b.l
	if b.o.lookAlways {
		for _, st := range l.stations {
			if st.in != nil {
				st.in.stirs = nil
			}
		}
	}
	if b.o.Pure || b.o.Trace != nil || b.o.stepwise {
		return
	}
	c := &chain{l: l, barred: none}
	for _, k := range b.belts {
		if !k.steady() {
			continue
		}
		if n := len(c.belts); n > 0 {
			up := c.belts[n-1]
			if up.next != taker(k) || len(up.lanes) > 1 {
				c.belts = c.belts[:0]
			} else {
				up.down = k
			}
		}
		c.belts = append(c.belts, k)
	}
	if len(c.belts) == 0 {
		return
	}
	c.belts[len(c.belts)-1].findBehind()
	b.join(c)
	if l.lots != nil && c.tip == nil { // which lot is on the chain is told by the tip
		return
	}
	l.chain = c
	l.cal.GoAhead(c, c.slots()...)
}

// slots are those that the chain moves itself.
func (c *chain) slots() (own []clock.Slot) {
	if c.tip != nil {
		own = append(own, c.tip.slot)
	}
	for _, k := range c.belts {
		own = append(own, k.gate)
		if k.rounds > 0 {
			own = append(own, k.backSlot)
		}
		for _, a := range k.lanes {
			own = append(own, a.slot)
		}
	}
	return own
}

// findBehind finds the places behind the last belt of a chain, if packs can come there without anybody else being concerned.
func (b *belt) findBehind() {
	switch next := b.next.(type) {
	case *belt:
		if next.in.places > 0 && next.in.tubs == nil {
			b.behind = next.in
		}
	case *inbox:
		for _, st := range b.l.stations {
			if st.bench != nil && st.bench.in == next && next.tubs == nil && !next.stays {
				b.behind, b.bench = next, st.bench
			}
		}
	}
}

// steady tells whether a belt can go ahead.
func (b *belt) steady() bool {
	for _, a := range b.lanes {
		if len(a.count) > 0 {
			return false
		}
	}
	return b.gap > 0 && b.pitch > 0 && b.in.places > 0 && b.in.tubs == nil
}

// join gives a chain its tip and the clocks of its servers.
func (b *builder) join(c *chain) {
	servers := []*server{}
	for _, st := range b.l.stations {
		if k := st.bench; k != nil && k.next == taker(c.belts[0]) && len(k.places) == 1 {
			if job, ok := k.job.(*tipping); ok {
				c.tip, c.job = k.places[0], job
				servers = append(servers, &c.tip.server)
			}
		}
	}
	c.plain = true
	for _, k := range c.belts {
		k.chain = c
		k.dry = !slices.ContainsFunc(k.wet, (*portion).any)
		k.plain = k.dry && !slices.ContainsFunc(k.leakers, (*portion).any)
		c.plain = c.plain && k.plain
		k.counts = slices.ContainsFunc(k.leakers, (*portion).byCount) || slices.ContainsFunc(k.wet, (*portion).byCount)
		for _, a := range k.lanes {
			servers = append(servers, &a.server)
		}
	}
	seen := map[*runClock]bool{}
	for _, s := range servers {
		for _, k := range s.runs {
			if !seen[k] {
				seen[k] = true
				c.clocks = append(c.clocks, k)
			}
		}
	}
}
