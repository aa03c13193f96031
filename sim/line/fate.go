package line

// fate is what becomes of a pack at the end of a lane.
type fate uint8

const (
	open   fate = iota // not settled
	onward             // to the next station
	leaks              // set aside
	wiped              // wet, wiped by hand
	round              // wet, sent round
)

// settle settles what becomes of a pack. By chance that may be done at any time, by count only when it leaves.
func (b *belt) settle(u *unit) fate {
	kind := b.l.kindOf(u.lot)
	switch {
	case b.leakers[kind].takes(*u):
		return leaks
	case b.rounds != 0 && u.pass >= b.rounds || !b.wet[kind].takes(*u):
		return onward
	case b.wipe != nil:
		return wiped
	}
	return round
}

// to is where a pack goes; nil: round again.
func (b *belt) to(f fate) taker {
	switch f {
	case leaks:
		return b.station.out
	case wiped:
		return b.wipe
	case round:
		return nil
	}
	return b.next
}

// fateAhead is what will become of a pack on a lane that is the nth to leave the belt from now on; open where it might be among those picked by
// count.
func (b *belt) fateAhead(r *waiting, n int) fate {
	switch {
	case b.plain:
		return onward
	case r.fate != open || !b.counts:
		return b.fateOf(r)
	}
	return b.foresee(&r.u, n)
}

// foresee is settle without counting the pack: what is picked by count is counted when the pack leaves.
func (b *belt) foresee(u *unit, n int) fate {
	kind := b.l.kindOf(u.lot)
	leakers, wet := b.leakers[kind], b.wet[kind]
	switch {
	case leakers.within(n):
		return open
	case !leakers.byCount() && leakers.takes(*u):
		return leaks
	case b.rounds != 0 && u.pass >= b.rounds:
		return onward
	case wet.within(n):
		return open
	case wet.byCount() || !wet.takes(*u):
		return onward
	case b.wipe != nil:
		return wiped
	}
	return round
}

// fateOf settles what becomes of a pack, once.
func (b *belt) fateOf(r *waiting) fate {
	if r.fate == open {
		r.fate = b.settle(&r.u)
	}
	return r.fate
}
