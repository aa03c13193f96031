package line

// alike is how many of the carriers that wait may go into one load, and whether they are all that is left of their lot. Loads are never
// mixed from two lots, unless that is allowed and both have the same hold and pressure.
func (c *chambers) alike(have int) (n int, rest bool) {
	t := c.station.turn
	first := c.in.q.at(c.claimed).u.lot
	if !t.admits(first) {
		return 0, false
	}
	for n < min(have, c.load) {
		lot := c.in.q.at(c.claimed + n).u.lot
		if lot != first && !(c.mixed && t.admits(lot) && c.sameCycle(first, lot)) {
			break
		}
		n++
	}
	return n, n == 0 || c.complete(n)
}

func (c *chambers) sameCycle(a, b int32) bool {
	x, y := &c.kinds[c.l.kindOf(a)], &c.kinds[c.l.kindOf(b)]
	return x.hold == y.hold && x.pressure == y.pressure
}

// complete tells whether no other carrier can come to the first n that wait: with them their lot is complete, and the next does not mix.
func (c *chambers) complete(n int) bool {
	last := c.in.q.at(c.claimed + n - 1).u.lot
	if last == 0 {
		return false
	}
	waiting := int64(0)
	for i := range c.claimed + n {
		if u := &c.in.q.at(i).u; u.lot == last {
			waiting += int64(u.n)
		}
	}
	return waiting == c.station.turn.restOf(last) && !c.nextMixes(last)
}

// nextMixes tells whether carriers of the lot after this one may still come into its load.
func (c *chambers) nextMixes(lot int32) bool {
	ls := c.l.lots
	rank := ls.of(lot).rank
	if !c.mixed || rank+1 >= len(ls.seq) || c.station.turn.parts(rank) {
		return false
	}
	return c.sameCycle(lot, int32(ls.seq[rank+1]+1))
}

// mayUnload tells whether n finished carriers may leave: there is room, and it is their lot's turn.
func (v *vessel) mayUnload(n int) bool {
	return v.c.station.turn.mayLeaveInOne(v.inside[:n]) && v.c.next.room(n)
}

// lotEnds tells whether the finished load was the last of its lot, and of those that mix with it, and no load waits that would push it out.
func (v *vessel) lotEnds() bool {
	if len(v.inside) == 0 || v.inside[len(v.inside)-1].lot == 0 {
		return false
	}
	ls := v.c.l.lots
	for lot := v.inside[len(v.inside)-1].lot; v.c.station.turn.restOf(lot) == 0; lot = int32(ls.seq[ls.of(lot).rank+1] + 1) {
		if !v.c.nextMixes(lot) {
			return true
		}
	}
	return false
}

// bring moves the first unit of a lot to the front of those that wait; the others keep their order.
func (b *inbox) bring(lot int32) {
	i := 0
	for b.q.at(i).u.lot != lot {
		i++
	}
	first := *b.q.at(i)
	for ; i > 0; i-- {
		*b.q.at(i) = *b.q.at(i - 1)
	}
	*b.q.at(0) = first
}
