package line

import (
	"math"

	"pascaline/sim/clock"
)

// A scan looks along the packs on a lane that have not left yet.
type scan struct {
	a  *lane
	i  int
	at clock.Tick // when that pack is at the end at the earliest
}

// horizon is a tick before which nothing that leaves the belt concerns anybody outside the chain: before it the first pack would be there that is
// wiped, or that completes a case for which somebody is free. Packs that have not stepped on yet take the travel time at least.
func (b *belt) horizon(from, limit clock.Tick) clock.Tick {
	b.need = math.MaxInt
	if b.down == nil {
		b.need = b.needed()
	}
	if b.need == math.MaxInt && (b.plain || b.chain.leaks && b.dry) {
		return limit
	}
	limit = min(limit, from+b.travel)
	b.scans = b.scans[:0]
	for _, a := range b.lanes {
		switch {
		case a.waitsForRoom():
			b.scans = append(b.scans, scan{a, 0, from})
		case a.next != clock.Never:
			b.scans = append(b.scans, scan{a, 0, a.next})
		}
	}
	rounds := int64(b.back.n)
	for n, on := 1, 0; ; n++ {
		s := b.soonest()
		if s == nil || s.at >= limit {
			return limit
		}
		at := s.at
		switch b.fateAhead(s.a.on.kept(s.i), n) {
		case onward:
			if on++; on >= b.need {
				return at
			}
		case round:
			if rounds++; rounds >= b.backMax {
				return at
			}
		case leaks:
			if !b.chain.leaks {
				return at
			}
		default:
			return at
		}
		if s.i++; s.i == s.a.on.past {
			s.at = clock.Never
		} else {
			s.at = max(s.at+b.pitch, s.a.on.kept(s.i).ripe+s.a.lost)
		}
	}
}

// soonest is the scan whose pack is at the end first; nil where there is none.
func (b *belt) soonest() (first *scan) {
	for i := range b.scans {
		if s := &b.scans[i]; s.at != clock.Never && (first == nil || s.at < first.at) {
			first = s
		}
	}
	return first
}

// needed is with how many packs more whoever takes from the places behind the belt has something to do there.
func (b *belt) needed() int {
	switch {
	case b.behind == nil:
		return 1
	case b.behind.shut:
		return math.MaxInt
	case b.bench == nil:
		if b.behind.ripe == 0 {
			return 1
		}
		return math.MaxInt
	}
	kind := b.l.kindOf(b.chain.lot)
	enough := max(b.bench.full(kind), b.bench.enough(kind))
	if enough == math.MaxInt {
		return enough
	}
	return max(1, enough-b.behind.ripe)
}
