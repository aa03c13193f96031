package measure

import (
	"slices"

	"pascaline/sim/clock"
)

// Moving follows which server holds the line at each moment: the one whose uninterrupted active period is longest, the part still to come
// included. Where the period of one holder overlaps that of the next, the hold is shifting from one to the other; the rest of a holder's
// period it holds alone (Roser, Nakano and Tanaka 2002, Winter Simulation Conference; 2003: from memory).
//
// A period is judged when it has ended and nothing that is still open could change the verdict, so that few ended periods are remembered:
// one that ended while an older one was open is shorter than that everywhere and is dropped at once. The zero Moving is not ready; use
// NewMoving.
type Moving struct {
	servers []mover
	// oldest is the start of the oldest open period of those whose changes come in order, clock.Never without any.
	oldest clock.Tick
	due    clock.Tick // a period that may hold the line ended at this tick, clock.Never: none
	done   clock.Tick // moments before it are judged
	ended  []period
	last   held
	any    bool
	sole   []clock.Tick
	shift  []clock.Tick
	all    clock.Tick
}

// mover is one server.
type mover struct {
	open, shut clock.Tick // start and end of its last period; a start alone while it is active
	group      int32      // servers of one station do not take over from each other
	is         bool       // active now
	early      bool       // its changes may be told ahead of time
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

// NewMoving begins with all servers inactive. Group is the station of each server, numbered from 0; early tells those whose changes may be
// told ahead of time, nil for none.
func NewMoving(group []int, early []bool) *Moving {
	n := 0
	m := &Moving{servers: make([]mover, len(group)), oldest: clock.Never, due: clock.Never}
	for k, g := range group {
		n = max(n, g+1)
		m.servers[k] = mover{shut: -1, group: int32(g), early: early != nil && early[k]}
	}
	m.sole, m.shift = make([]clock.Tick, n), make([]clock.Tick, n)
	return m
}

// Set says that a server is active from now on, or is not. A server's own changes come in order of time, those of all servers too but for the
// early ones while somebody goes ahead: until nobody does, no other may change. Several changes of a server at one tick count as the last.
func (m *Moving) Set(server int, active bool, now clock.Tick, ahead bool) {
	if now > m.due && !ahead {
		m.judge(now)
	}
	x := &m.servers[server]
	if x.is == active {
		return
	}
	x.is = active
	if active {
		if x.shut == now { // left and begun again at one tick is no pause
			p := period{server, x.open, now}
			m.ended = slices.DeleteFunc(m.ended, func(q period) bool { return q == p })
		} else {
			x.open = now
		}
		if !x.early && x.open < m.oldest {
			m.oldest = x.open
		}
		return
	}
	if !x.early && x.open == m.oldest {
		m.oldest = m.oldestOf(false)
	}
	if x.open == now { // no time at all
		return
	}
	x.shut = now
	if x.open <= m.oldest {
		m.ended = append(m.ended, period{server, x.open, now})
		m.due = min(m.due, now)
	}
}

// oldestOf is the start of the oldest open period, of all servers or of those whose changes come in order.
func (m *Moving) oldestOf(all bool) clock.Tick {
	oldest := clock.Never
	for k := range m.servers {
		if x := &m.servers[k]; x.is && (all || !x.early) {
			oldest = min(oldest, x.open)
		}
	}
	return oldest
}

// judge settles who held the line up to the start of the oldest period that is open, or that ended just now and may yet go on, or up to now.
func (m *Moving) judge(now clock.Tick) {
	m.due = clock.Never
	until := min(now, m.oldestOf(true))
	for _, p := range m.ended {
		if p.end >= now {
			until, m.due = min(until, p.start), min(m.due, p.end)
		}
	}
	m.ended = slices.DeleteFunc(m.ended, func(p period) bool { return p.start >= until && p.end < now })
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
		if m.servers[m.last.server].group == m.servers[p.server].group {
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
	g := m.servers[x.server].group
	length := x.end - x.same // what it shares with a holder of its own station counts once
	shifts := max(0, x.before-x.start)
	if m.servers[next.server].group != g {
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
	for k := range m.servers {
		m.Set(k, false, now, false)
	}
	m.judge(now + 1) // nothing goes on
	if m.any {
		m.credit(period{m.last.server, m.last.end, m.last.end})
		m.any = false
	}
	return m.sole, m.shift, m.all
}
