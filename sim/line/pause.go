package line

import "pascaline/sim/clock"

// breakRule is what becomes of the task in hand when a break begins.
type breakRule uint8

const (
	finishFirst breakRule = iota // and then the whole break
	finishShort                  // the break ends on time however late it began
	pauseTask                    // the task waits
)

// pause is one break of one group of a pool.
type pause struct {
	end    clock.Tick // as rostered
	length clock.Tick
	rule   breakRule
}

// rest begins a break for every person i of the pool on shift with i mod groups = group.
func (p *pool) rest(b *pause, group, groups int) {
	for i := group; i < min(p.heads, len(p.people)); i += groups {
		h := &p.people[i]
		switch {
		case h.is == offShift || h.is == away || h.brk != nil:
		case h.task == nil:
			p.leave(i, b)
		case b.rule == pauseTask:
			a := h.task
			p.leave(i, b)
			a.pausing++
			if a.pausing == 1 {
				a.by.halt()
			}
		default:
			h.brk = b
		}
	}
	p.l.agenda.poke(p.node)
}

// leave sends a person on a break.
func (p *pool) leave(i int, b *pause) {
	now := p.l.cal.Now()
	h := &p.people[i]
	h.brk = nil
	h.until = b.end
	if b.rule == finishFirst {
		h.until = now + b.length
	}
	if h.until <= now { // the task in hand took the whole break
		p.be(i, free)
		return
	}
	p.be(i, away)
	p.l.back.at(h.until, p.node)
}

// back takes those back whose break is over, and lets a paused task go on when all its people are there.
func (p *pool) back() {
	now := p.l.cal.Now()
	for i := range p.people {
		h := &p.people[i]
		if h.is != away || h.until > now {
			continue
		}
		a := h.task
		switch {
		case a != nil && i >= p.heads:
			p.be(i, overtime)
		case a != nil:
			p.be(i, busy)
		case i >= p.heads && !p.l.lingers():
			p.be(i, offShift)
		case i >= p.heads:
			p.be(i, overtime)
		default:
			p.be(i, free)
		}
		if a != nil {
			a.pausing--
			if a.pausing == 0 {
				a.by.resume()
			}
		}
	}
	p.l.agenda.poke(p.node)
}

// alarm calls pools at the ticks at which somebody's break is over. One slot for all: breaks are few.
type alarm struct {
	l    *Line
	slot clock.Slot
	when []clock.Tick // by node of a pool; Never where nothing is due
}

func (a *alarm) at(tick clock.Tick, node int) {
	for len(a.when) <= node {
		a.when = append(a.when, clock.Never)
	}
	a.when[node] = min(a.when[node], tick)
	a.arm()
}

func (a *alarm) arm() {
	next := clock.Never
	for _, t := range a.when {
		next = min(next, t)
	}
	if next < clock.Never {
		a.l.cal.Set(a.slot, next, clock.Roster)
	}
}

// Fire calls the pools that are due; each names its next tick.
func (a *alarm) Fire(int) {
	now := a.l.cal.Now()
	for node, t := range a.when {
		if t > now {
			continue
		}
		a.when[node] = clock.Never
		p := a.l.pools[node]
		p.back()
		for i := range p.people {
			if h := &p.people[i]; h.is == away && h.until < a.when[node] {
				a.when[node] = h.until
			}
		}
	}
	a.arm()
}
