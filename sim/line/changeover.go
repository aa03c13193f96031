package line

import (
	"pascaline/scenarios"
	"pascaline/sim/clock"
	"pascaline/sim/measure"
	"pascaline/sim/random"
)

// rule is one line of the list of changeovers.
type rule struct {
	from, to string
	takes    random.Draw
	before   clock.Tick // part of it, done while the lot before runs
	pool     *pool
	crew     int
	whole    bool // the whole line is empty first
}

// due is the first rule of the whole line that fits and the first of the station itself: one after the other.
func (t *turn) due(from, to kindOfLot) (list []*rule) {
	for _, whole := range []bool{true, false} {
		for i := range t.rules {
			if r := &t.rules[i]; r.whole == whole && r.fits(from, to) {
				list = append(list, r)
				break
			}
		}
	}
	return list
}

func (r *rule) fits(from, to kindOfLot) bool {
	if r.from != "any" && r.from != from.product && r.from != from.group {
		return false
	}
	switch r.to {
	case "any":
		return true
	case "same product":
		return from.product == to.product
	case "other product":
		return from.product != to.product
	case "other group":
		return from.group != to.group
	}
	return (r.to == to.product || r.to == to.group) && (from.product != to.product || from.group != to.group)
}

// changeover is the work between two lots at one station: a task that does what can be done before the stop, waits until the lot before
// has left, and then lets the station stand for the rest.
type changeover struct {
	l       *Line
	t       *turn
	news    clock.Signal
	task    *clock.Task
	ask     ask
	here    bool
	stands  bool
	atFirst []*rule // the line is set for something else at the start
	times   int64
	stood   clock.Tick
	waited  clock.Tick // of that, for people
	since   clock.Tick
}

// begin lets the station stand: the lot before has left.
func (c *changeover) begin() {
	if c.stands {
		return
	}
	c.stands, c.since = true, c.l.cal.Now()
	for _, o := range c.t.station.servers {
		o.hold(measure.Changeover, goOn, false)
	}
	c.news.Raise()
}

// live is the life of the changeovers of a station.
func (c *changeover) live(t *clock.Task) {
	if len(c.atFirst) > 0 {
		c.begin()
		for _, r := range c.atFirst {
			c.work(t, r, r.takes.At(0))
		}
		c.end(-1)
	}
	for k := uint64(1); ; k++ {
		due := c.next(t)
		for _, r := range due {
			c.prepare(t, r, k)
		}
		for !c.stands {
			t.Wait(&c.news)
		}
		for _, r := range due {
			takes := r.takes.At(k)
			c.work(t, r, takes-min(r.before, takes))
		}
		c.end(c.t.in)
	}
}

// prepare does what can be done while the lot before still runs.
func (c *changeover) prepare(t *clock.Task, r *rule, k uint64) {
	if before := min(r.before, r.takes.At(k)); before > 0 {
		c.people(t, r)
		t.Sleep(before)
		c.letGo(r)
	}
}

// next waits until it is settled which changeovers come next.
func (c *changeover) next(t *clock.Task) []*rule {
	for {
		if c.t.in >= 0 && c.t.in < len(c.t.ls.seq)-1 {
			if due := c.t.between(c.t.in); len(due) > 0 {
				return due
			}
		}
		t.Wait(&c.news)
	}
}

// work is the part for which the station stands.
func (c *changeover) work(t *clock.Task, r *rule, d clock.Tick) {
	if d > 0 {
		from := t.Now()
		c.people(t, r)
		c.waited += t.Now() - from
		t.Sleep(d)
		c.letGo(r)
	}
	c.times++
}

// end lets the station run again, for the lot after rank.
func (c *changeover) end(rank int) {
	c.stood += c.l.cal.Now() - c.since
	c.stands = false
	for _, o := range c.t.station.servers {
		o.release(measure.Changeover)
	}
	was := c.t.in
	c.t.in = rank + 1
	c.t.poke(was)
	c.t.letIn()
}

func (c *changeover) people(t *clock.Task, r *rule) {
	if r.pool == nil {
		return
	}
	c.here = false
	c.ask.least, c.ask.most = r.crew, r.crew
	r.pool.want(&c.ask)
	for !c.here {
		t.Wait(&c.news)
	}
	if c.ask.walked && r.pool.walk > 0 {
		r.pool.walking += r.pool.walk * clock.Tick(r.crew)
		t.Sleep(r.pool.walk)
	}
}

func (c *changeover) letGo(r *rule) {
	if r.pool != nil {
		r.pool.give(&c.ask)
	}
}

func (c *changeover) granted(*ask) {
	c.here = true
	c.news.Raise()
}
func (c *changeover) waits(bool)  {}
func (c *changeover) joined(*ask) {}

// halt and resume: a break of those at work pauses it.
func (c *changeover) halt()   { c.task.Pause() }
func (c *changeover) resume() { c.task.Resume() }

// Fits tells whether a changeover of the scenario is due between two of its lots. Whether an earlier line of the list fits as well is
// not looked at.
func Fits(s *scenarios.Scenario, x *scenarios.Changeover, from, to *scenarios.Lot) bool {
	r := rule{from: string(x.From), to: string(x.To)}
	return r.fits(kindOfLot{string(from.Product), s.GroupOf(from)}, kindOfLot{string(to.Product), s.GroupOf(to)})
}
