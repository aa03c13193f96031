package line

// ofOneLot tells whether all packs on the chain and in the places behind it are of one lot that has its turn at every station there, and of
// which more packs are to come over the tip. Then no turn passes on while the chain goes ahead: the last pack of a lot comes after all others.
func (c *chain) ofOneLot() bool {
	ls, lot := c.l.lots, c.tip.unit.lot // of the carrier in hand, or of the one before it
	if lot == 0 {
		return false
	}
	t := c.tip.b.station.turn
	if x := ls.of(lot); x.legs[t.no].past >= x.packs || !t.mayLeave(lot) {
		return false
	}
	c.lot = lot
	for _, b := range c.belts {
		if !b.onlyOf(lot) {
			return false
		}
	}
	last := c.belts[len(c.belts)-1]
	in := last.behind
	return in == nil || in.turn.admits(lot) && (in.q.n == 0 || in.q.front().u.lot == lot)
}

// onlyOf tells whether all packs on the belt and before it are of a lot that has its turn there. They come lot by lot.
func (b *belt) onlyOf(lot int32) bool {
	t := b.station.turn
	if !t.admits(lot) || !t.mayLeave(lot) || !b.in.turn.admits(lot) {
		return false
	}
	if b.in.q.n > 0 && b.in.q.front().u.lot != lot || b.back.n > 0 && b.back.front().u.lot != lot {
		return false
	}
	for _, a := range b.lanes {
		if a.on.past > 0 && a.on.kept(0).u.lot != lot {
			return false
		}
	}
	return true
}
