package line

import (
	"fmt"
	"slices"

	"pascaline/sim/measure"
)

// entangled tells of people who stand at a station that is blocked and are missing elsewhere, so that nothing moves any more: for good, or until
// other people come. With asked only if somebody waits for them just now.
func (l *Line) entangled(when string, asked bool) {
	const code = "people wait for each other"
	if !l.quiet() || slices.ContainsFunc(l.warnings, func(w Warning) bool { return w.Code == code }) {
		return
	}
	for _, s := range l.stations {
		b := s.bench
		if b == nil || !b.keeps || b.pool == nil || b.busyPlaces() == 0 || asked && !(b.blocked() && b.pool.isAsked(s.no)) {
			continue
		}
		l.warn(code, fmt.Sprintf("%s %s stood at %s, which could hand nothing on, while the stations after it wanted people; give %s one more, or let a machine do one of the two",
			when, b.pool.name, s.name, b.pool.name))
	}
}

// blocked tells whether a place of the bench cannot hand on what it made.
func (b *bench) blocked() bool {
	for _, p := range b.places {
		if p.st.Now() == measure.Blocked {
			return true
		}
	}
	return false
}

// isAsked tells whether a station other than one waits for people of the pool, none of whom is on a break.
func (p *pool) isAsked(other int) (is bool) {
	for i := range p.people {
		if p.people[i].brk != nil || p.people[i].is == away {
			return false
		}
	}
	for _, a := range p.asks {
		is = is || a.station != other
	}
	return is
}

// quiet tells whether no server works.
func (l *Line) quiet() bool {
	for _, s := range l.stations {
		for _, o := range s.servers {
			if x := o.base().st.Now(); x == measure.Processing || x == measure.UnderRepair || x == measure.WaitRepair {
				return false
			}
		}
	}
	return true
}
