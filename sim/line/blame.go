package line

import (
	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// blame says, for every vessel second that is starved or blocked, who held it: the nearest station upstream that is not itself
// starved, or downstream that is not itself blocked. States, and what else the cause is told by (empty carriers, the store, whether carriers are
// still begun), are constant between two changes: whoever changes them settles before, so that an interval is charged by what held in it.
type blame struct {
	l     *Line
	since clock.Tick
	at    int // station number of the vessel, or none
	rows  []charge
	byKey map[chargeKey]int
}

type chargeKey struct {
	way     measure.State // starved or blocked
	station int           // number, or one of the causes below
	state   measure.State // of that station
}

// Causes that are no station.
const (
	ofSupply  = -1 // no packs come
	ofCarrier = -2 // no empty carrier is there
	ofClosing = -3 // no carrier is begun any more before the end of the shift
	ofStore   = -4 // nothing further down is blocked: the vessel waits for itself
)

type charge struct {
	key  chargeKey
	time clock.Tick
}

// settle charges the time since the last change.
func (b *blame) settle(now clock.Tick) {
	if b == nil || b.at == none || now == b.since {
		return
	}
	for _, o := range b.l.stations[b.at].servers {
		if x := o.base().st.Now(); x == measure.Starved || x == measure.Blocked {
			b.add(b.find(x), now-b.since)
		}
	}
	b.since = now
}

func (b *blame) add(k chargeKey, d clock.Tick) {
	i, ok := b.byKey[k]
	if !ok {
		i = len(b.rows)
		b.rows = append(b.rows, charge{key: k})
		b.byKey[k] = i
	}
	b.rows[i].time += d
}

// find is the nearest station that is not itself in state way.
func (b *blame) find(way measure.State) chargeKey {
	step := -1
	if way == measure.Blocked {
		step = 1
	}
	s := b.l.stations[b.at]
	for i := b.at + step; i >= 0 && i < len(b.l.stations) && b.l.stations[i].stretch == s.stretch; i += step {
		if x, held := b.l.stations[i].holds(way); held && !b.l.stations[i].side {
			return chargeKey{way, i, x}
		}
	}
	if way == measure.Blocked {
		return chargeKey{way, ofStore, way}
	}
	return chargeKey{way, b.cause(s.stretch), way}
}

// cause is why the first station of a stretch is starved.
func (b *blame) cause(s *stretch) int {
	switch {
	case b.l.closed:
		return ofClosing
	case s.loading != nil && s.loading.empties != nil && s.loading.empties.ready() == 0 && s.feed.stocked():
		return ofCarrier
	}
	return ofSupply
}

// holds tells whether a station is not itself in state way, and what it does instead: the strongest of its servers' states.
func (s *station) holds(way measure.State) (x measure.State, held bool) {
	for _, o := range s.servers {
		if y := o.base().st.Now(); y != way && y != measure.OffShift {
			x, held = max(x, y), true
		}
	}
	return x, held
}
