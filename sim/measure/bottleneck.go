package measure

import (
	"slices"

	"pascaline/sim/clock"
)

// Moving follows which server holds the line at each moment: the one whose uninterrupted active period is longest, the part still to come
// included. Where the period of one holder overlaps that of the next, the hold is shifting from one to the other; the rest of a holder's
// period it holds alone (Roser, Nakano and Tanaka 2002, Winter Simulation Conference; 2003: from memory).
//
// A period is judged when it has ended and nothing that is still open could change the verdict, so that at most one ended period of each
// server is remembered: one that ended while an older one was open is shorter than that everywhere and is dropped at once. The zero
// Moving is not ready; use NewMoving.
type Moving struct {
	group []int // of each server: servers of one station do not take over from each other
	open  []clock.Tick
	// oldest is the start of the oldest open period, clock.Never without any. One that ends and began later is shorter than it everywhere.
	oldest clock.Tick
	is     []bool // an active period is open
	want   []bool // what holds at tick
	dirty  []int
	tick   clock.Tick
	done   clock.Tick // moments before it are judged
	ended  []period
	last   held
	any    bool
	sole   []clock.Tick
	shift  []clock.Tick
	all    clock.Tick
}

type period struct {
	server     int
	start, end clock.Tick
}

// held is a period that held the line, with the end of what held it before.
type held struct {
	period
	before clock.Tick // end of the holder before it, of another group
	same   clock.Tick // end of the holder before it, of the same group
}

// NewMoving begins with all servers inactive. Group is the station of each server, numbered from 0.
func NewMoving(group []int) *Moving {
	n := 0
	for _, g := range group {
		n = max(n, g+1)
	}
	return &Moving{group: group, open: make([]clock.Tick, len(group)), is: make([]bool, len(group)), want: make([]bool, len(group)), oldest: clock.Never,
		sole: make([]clock.Tick, n), shift: make([]clock.Tick, n)}
}

// Set says that a server is active from now on, or is not. Several changes at one tick count as the last of them; time must not run
// backwards.
func (m *Moving) Set(server int, active bool, now clock.Tick) {
	if now != m.tick {
		m.settle()
		m.tick = now
	}
	if m.want[server] == active {
		return
	}
	m.want[server] = active
	m.dirty = append(m.dirty, server)
}

// settle takes in what changed at tick.
func (m *Moving) settle() {
	was := len(m.ended)
	for _, k := range m.dirty {
		switch {
		case m.want[k] && !m.is[k]:
			m.is[k], m.open[k] = true, m.tick
			m.oldest = min(m.oldest, m.tick)
		case !m.want[k] && m.is[k]:
			m.is[k] = false
			if m.open[k] == m.oldest {
				m.ended = append(m.ended, period{k, m.open[k], m.tick})
			}
		}
	}
	m.dirty = m.dirty[:0]
	if len(m.ended) > was {
		m.judge()
	}
}

// judge settles who held the line up to the start of the oldest open period.
func (m *Moving) judge() {
	m.oldest = clock.Never
	for k, is := range m.is {
		if is {
			m.oldest = min(m.oldest, m.open[k])
		}
	}
	until := min(m.tick, m.oldest)
	m.ended = slices.DeleteFunc(m.ended, func(p period) bool { return p.start >= until && until < m.tick })
	for m.done < until {
		best, next := -1, until
		for i, p := range m.ended {
			switch {
			case p.end <= m.done:
			case p.start > m.done:
				next = min(next, p.start)
			case best < 0 || longer(p, m.ended[best]):
				best = i
			}
		}
		if best < 0 {
			m.done = next
			continue
		}
		b := m.ended[best]
		m.hold(b)
		to := min(b.end, until)
		for _, p := range m.ended { // a longer one that begins meanwhile takes over
			if p.start > m.done && p.start < to && longer(p, b) {
				to = p.start
			}
		}
		m.done = to
	}
	m.ended = slices.DeleteFunc(m.ended, func(p period) bool { return p.end <= m.done })
}

// longer tells whether p holds the line rather than q where both are active: the longer one, else the one that began first, else the first in
// the order of the line.
func longer(p, q period) bool {
	if a, b := p.end-p.start, q.end-q.start; a != b {
		return a > b
	}
	if p.start != q.start {
		return p.start < q.start
	}
	return p.server < q.server
}

// hold adds the next period that held the line.
func (m *Moving) hold(p period) {
	if m.any && m.last.period == p {
		return
	}
	next := held{period: p, before: p.start, same: p.start}
	if m.any {
		if m.group[m.last.server] == m.group[p.server] {
			next.same = max(p.start, m.last.end)
		} else {
			next.before = max(p.start, m.last.end)
		}
		m.credit(p)
	}
	m.last, m.any = next, true
}

// credit parts the last holder's period, once the next is known.
func (m *Moving) credit(next period) {
	x := m.last
	g := m.group[x.server]
	length := x.end - x.same // what it shares with a holder of its own station counts once
	shifts := max(0, x.before-x.start)
	if m.group[next.server] != g {
		shifts += max(0, x.end-next.start)
	}
	shifts = min(shifts, length)
	m.sole[g] += length - shifts
	m.shift[g] += shifts
	m.all += max(0, x.end-max(x.start, x.before))
	if x.same > x.start {
		m.all -= min(x.same, x.end) - x.start
	}
}

// Close ends all periods now and gives, for each group, the time in which it held the line alone and in which the hold was shifting from or to
// it, and the time in which any did. Shifting time counts for both, so the sums of all groups may exceed it.
func (m *Moving) Close(now clock.Tick) (sole, shifting []clock.Tick, all clock.Tick) {
	for k := range m.want {
		m.Set(k, false, now)
	}
	m.settle()
	m.judge()
	if m.any {
		m.credit(period{m.last.server, m.last.end, m.last.end})
		m.any = false
	}
	return m.sole, m.shift, m.all
}
