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
	group []int  // of each server: servers of one station do not take over from each other
	early []bool // of each server: its changes may be told ahead of time
	is    []bool // an active period is open
	open  []clock.Tick
	shut  []clock.Tick // end of the last period
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
	for _, g := range group {
		n = max(n, g+1)
	}
	if early == nil {
		early = make([]bool, len(group))
	}
	m := &Moving{group: group, early: early, is: make([]bool, len(group)), open: make([]clock.Tick, len(group)), shut: make([]clock.Tick, len(group)),
		oldest: clock.Never, due: clock.Never, sole: make([]clock.Tick, n), shift: make([]clock.Tick, n)}
	for k := range m.shut {
		m.shut[k] = -1
	}
	return m
}

// Set says that a server is active from now on, or is not. A server's own changes come in order of time, those of all servers too but for the
// early ones while somebody goes ahead: until nobody does, no other may change. Several changes of a server at one tick count as the last.
func (m *Moving) Set(server int, active bool, now clock.Tick, ahead bool) {
	if !ahead && now > m.due {
		m.judge(now)
	}
	switch {
	case m.is[server] == active:
	case active:
		m.begin(server, now)
	default:
		m.end(server, now)
	}
}

func (m *Moving) begin(k int, now clock.Tick) {
	m.is[k] = true
	if m.shut[k] != now {
		m.open[k] = now
	} else { // left and begun again at one tick is no pause
		p := period{k, m.open[k], now}
		m.ended = slices.DeleteFunc(m.ended, func(q period) bool { return q == p })
	}
	if !m.early[k] {
		m.oldest = min(m.oldest, m.open[k])
	}
}

func (m *Moving) end(k int, now clock.Tick) {
	m.is[k] = false
	if !m.early[k] && m.open[k] == m.oldest {
		m.oldest = m.oldestOf(false)
	}
	if m.open[k] == now { // no time at all
		return
	}
	m.shut[k] = now
	if m.open[k] <= m.oldest {
		m.ended = append(m.ended, period{k, m.open[k], now})
		m.due = min(m.due, now)
	}
}

// oldestOf is the start of the oldest open period, of all servers or of those whose changes come in order.
func (m *Moving) oldestOf(all bool) clock.Tick {
	oldest := clock.Never
	for k, is := range m.is {
		if is && (all || !m.early[k]) {
			oldest = min(oldest, m.open[k])
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
	for k := range m.is {
		m.Set(k, false, now, false)
	}
	m.judge(now + 1) // nothing goes on
	if m.any {
		m.credit(period{m.last.server, m.last.end, m.last.end})
		m.any = false
	}
	return m.sole, m.shift, m.all
}
