package line

import (
	"slices"

	"pascaline/sim/clock"
	"pascaline/sim/measure"
	"pascaline/sim/random"
)

// presence is what a person does.
type presence uint8

const (
	offShift presence = iota
	free
	kept // free, but kept for a task that needs more people than are free
	busy
	away     // on a break
	standing // the line as a whole stands: start-up, wash-down
	overtime // busy, or still needed, after the end of the shift
	presences
)

// person is one head of a pool.
type person struct {
	is      presence
	since   clock.Tick
	until   clock.Tick // end of the break in hand
	brk     *pause     // a break that waits for the task in hand
	task    *ask
	at      int        // station of the last task, or none
	working clock.Tick // since when without an idle moment
	stopped clock.Tick // when the last task ended
}

// An asker wants people for a task. Granted is called in phase Begin when they come; waits while they do not, with away set
// where a break keeps them from coming; halt and resume when a break pauses the task.
type asker interface {
	granted(a *ask)
	waits(away bool)
	halt()
	resume()
	joined(a *ask)
}

// ask is a task's wish for people. A task that has begun keeps its people until it gives them back.
type ask struct {
	by          asker
	station     int // number of the station, then mending and changeovers, for priority, walking and the table of tasks
	least, most int
	since       clock.Tick
	who         []int // persons who do it
	pausing     int   // of them, on a break that pauses the task
	may         bool  // others may join now
	walked      bool  // somebody had to walk here
}

// pool is a number of people who can do the same things.
type pool struct {
	l       *Line
	node    int
	name    string
	people  []person
	heads   int   // on shift now
	rank    []int // priority by station, the lowest is served first
	walk    clock.Tick
	pace    float64 // factor of this shift on times of hand work
	paces   random.Draw
	paced   bool
	shiftNo uint64
	asks    []*ask // waiting, by priority and then who asked first
	active  []*ask // at work, in the order in which they began
	shift   int    // row of byShift
	byShift [][presences]clock.Tick
	walking clock.Tick
	busyAt  []clock.Tick // by station, person-ticks
	waitSum []clock.Tick // by station
	waitN   []int64
	longest clock.Tick

	longestIn []clock.Tick   // by shift, as byShift
	waitedIn  [][]clock.Tick // by shift and station
}

// be is the one place where a person's time is accounted.
func (p *pool) be(i int, x presence) {
	h := &p.people[i]
	now := p.l.cal.Now()
	d := now - h.since
	p.byShift[p.shift][h.is] += d
	if h.task != nil && (h.is == busy || h.is == overtime) {
		p.busyAt[h.task.station] += d
	}
	worked := h.is == busy || h.is == overtime
	works := x == busy || x == overtime
	switch {
	case works && !worked && (h.stopped != now || h.is == away):
		h.working = now
	case worked && !works:
		h.stopped = now
		p.longest = max(p.longest, now-h.working)
		p.longestIn[p.shift] = max(p.longestIn[p.shift], now-h.working)
	}
	h.since, h.is = now, x
}

// settle brings all accounts up to now.
func (p *pool) settle() {
	for i := range p.people {
		p.be(i, p.people[i].is)
	}
}

// want asks for people; the answer comes by granted.
func (p *pool) want(a *ask) {
	a.since = p.l.cal.Now()
	i := len(p.asks)
	p.asks = append(p.asks, a)
	for ; i > 0 && p.rank[p.asks[i-1].station] > p.rank[a.station]; i-- {
		p.asks[i] = p.asks[i-1]
	}
	p.asks[i] = a
	p.l.agenda.poke(p.node)
}

// withdraw takes back an ask that was not granted yet.
func (p *pool) withdraw(a *ask) {
	if i := slices.Index(p.asks, a); i >= 0 {
		p.asks = without(p.asks, i)
		p.l.agenda.poke(p.node)
	}
}

// without is a list without its ith entry: a loop, since lists are short and this is done for every task.
func without(list []*ask, i int) []*ask {
	last := len(list) - 1
	for ; i < last; i++ {
		list[i] = list[i+1]
	}
	list[last] = nil
	return list[:last]
}

// give returns the people of a task.
func (p *pool) give(a *ask) {
	if i := slices.Index(p.active, a); i >= 0 {
		p.active = without(p.active, i)
	}
	for _, i := range a.who {
		p.be(i, p.people[i].is) // the time until now belongs to this task
		h := &p.people[i]
		h.task, h.at = nil, a.station
		switch {
		case i >= p.heads && !p.l.lingers():
			p.be(i, offShift)
		case h.is == away: // a break paused this task, and it was given up meanwhile
		case h.brk != nil:
			p.leave(i, h.brk)
		case i >= p.heads:
			p.be(i, overtime)
		default:
			p.be(i, free)
		}
	}
	a.who, a.pausing = a.who[:0], 0
	p.l.agenda.poke(p.node)
}

// present are the heads on shift and not on a break.
func (p *pool) present() int {
	n := 0
	for i := range p.people {
		if p.there(i) {
			n++
		}
	}
	return n
}

func (p *pool) there(i int) bool {
	h := &p.people[i]
	return h.is != offShift && h.is != away && h.brk == nil && (i < p.heads || p.l.lingers())
}

// idle tells whether person i could begin a task.
func (p *pool) idle(i int) bool { return p.people[i].task == nil && p.there(i) }

// try gives people out: the waiting task of highest priority that the heads present can staff takes all it needs at once or
// keeps those who are free. What is left may join tasks that can use more.
func (p *pool) try() {
	idle, present := 0, p.present()
	for i := range p.people {
		if p.idle(i) {
			idle++
		}
	}
	keeping := false
	for k := 0; k < len(p.asks); {
		a := p.asks[k]
		switch {
		case !keeping && a.least <= idle:
			p.asks = without(p.asks, k)
			idle -= a.least
			p.grant(a)
			continue
		case a.least <= present:
			keeping = true
		}
		a.by.waits(a.least > present && a.least <= p.heads)
		k++
	}
	if !keeping {
		p.join(idle)
	}
	state := free
	switch {
	case p.l.still:
		state = standing
	case keeping:
		state = kept
	}
	for i := range p.people {
		if p.idle(i) && p.people[i].is != overtime && p.people[i].is != state {
			p.be(i, state)
		}
	}
}

// grant gives a task its people, those with the lowest numbers, and lets it begin.
func (p *pool) grant(a *ask) {
	p.waitSum[a.station] += p.l.cal.Now() - a.since
	p.waitedIn[p.shift][a.station] += p.l.cal.Now() - a.since
	p.waitN[a.station]++
	a.walked = false
	for i := range p.people {
		if len(a.who) == a.least {
			break
		}
		if p.idle(i) {
			p.put(a, i)
		}
	}
	p.active = append(p.active, a)
	a.by.granted(a)
}

func (p *pool) put(a *ask, i int) {
	h := &p.people[i]
	a.who = append(a.who, i)
	a.walked = a.walked || h.at != none && h.at != a.station
	if i >= p.heads {
		p.be(i, overtime)
	} else {
		p.be(i, busy)
	}
	h.task = a
}

// join lets free people join tasks at work that can use more, the one of highest priority first.
func (p *pool) join(idle int) {
	for idle > 0 {
		var best *ask
		for _, a := range p.active {
			if a.may && len(a.who) < a.most && (best == nil || p.rank[a.station] < p.rank[best.station]) {
				best = a
			}
		}
		if best == nil {
			return
		}
		for i := range p.people {
			if p.idle(i) {
				p.put(best, i)
				break
			}
		}
		idle--
		best.by.joined(best)
	}
}

// staff sets how many are on shift from now on, in row shift of the table of shifts.
func (p *pool) staff(heads, shift int) {
	p.settle()
	p.heads, p.shift = heads, shift
	p.shiftNo++
	if p.paced {
		p.pace = p.paces.Seconds(p.shiftNo)
	}
	for i := range p.people {
		h := &p.people[i]
		switch {
		case i < heads && (h.is == offShift || h.is == overtime && h.task == nil):
			p.be(i, free)
		case i < heads && h.is == overtime:
			p.be(i, busy)
		case i >= heads && h.task != nil && h.is != away:
			p.be(i, overtime)
		case i >= heads && p.l.lingers() && h.is != offShift:
			p.be(i, overtime)
		case i >= heads:
			p.be(i, offShift)
		}
	}
	p.l.agenda.poke(p.node)
}

// home sends those home who stayed on after the end of the shift.
func (p *pool) home() {
	for i := p.heads; i < len(p.people); i++ {
		if h := &p.people[i]; h.task == nil && h.is != offShift {
			h.brk = nil
			p.be(i, offShift)
		}
	}
	p.l.agenda.poke(p.node)
}

// shares sums a pool's time over all shifts.
func (p *pool) shares() (sum [presences]clock.Tick) {
	for _, row := range p.byShift {
		for i, x := range row {
			sum[i] += x
		}
	}
	return sum
}

// waitState is how a server shows that it waits for people.
func waitState(away bool) measure.State {
	if away {
		return measure.PlannedStop
	}
	return measure.WaitOperator
}
