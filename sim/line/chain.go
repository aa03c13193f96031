package line

import (
	"math"
	"slices"

	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// A chain is a tip and the belts behind it, which go ahead: until the next tick at which anything else is due, nobody can interrupt them,
// so they carry their packs on without an entry of the calendar for each step. What happens is what would happen entry by entry, to the
// last digit; only the order among things that do not touch each other differs. The rules:
//
//   - How far it may go is settled first: up to the next entry, and to the first pack that would wake somebody outside the chain (horizon): one that
//     is wiped, or that completes a case for which somebody is free. The calendar carries that out, and the last pack of a carrier.
//   - Then each goes that far, those upstream first. A belt that seems to have room for a pack has it, since what has not been done there yet
//     only makes room; one that seems full is brought up to the tick of the pack before it is asked again (findsRoom). At one tick all
//     exits come before all packs that step on.
//   - Each account (level, state, tally) sees its own changes in order of time. A pack that was put before a belt early is counted when the belt
//     has come to that tick (count).
type chain struct {
	l       *Line
	lot     int32  // of all packs on it; 0 where there are no lots
	tip     *place // nil: packs come from elsewhere
	job     *tipping
	tips    bool // the tip goes ahead now
	tipSet  clock.Tick
	tipped  bool // the tip's slot does not know yet
	belts   []*belt
	clocks  []*runClock
	limit   clock.Tick // nothing at or after this tick is done ahead
	barred  clock.Tick // at this tick everything is done entry by entry
	did     bool       // something was
	plain   bool       // no pack leaks or is wet
	leaks   bool       // leakers can be set aside ahead: packs are left on the line then
	changed clock.Tick // last change of a state
}

// Keys order what happens on a chain: exits at an even key, packs that step on at the odd key behind it.
const noKey = math.MaxInt64

func exitKey(at clock.Tick) int64 {
	if at == clock.Never {
		return noKey
	}
	return 2 * at
}

func stepKey(at clock.Tick) int64 {
	if at == clock.Never {
		return noKey
	}
	return 2*at + 1
}

// Ahead does all that is due on the chain before limit, as far as nobody else has to know.
func (c *chain) Ahead(from, limit clock.Tick) bool {
	if from == c.barred || !c.calm() {
		return false
	}
	c.limit, c.did, c.changed = limit, false, none
	for _, k := range c.clocks { // a stop that waits until its clock runs cannot be due before this
		if k.told = k.total; k.until != clock.Never && k.on == 0 {
			c.bar(from + max(0, k.until-k.total))
		}
	}
	c.l.ahead = true
	for i := len(c.belts) - 1; i >= 0; i-- {
		b := c.belts[i]
		b.at = max(b.at, from)
		if !b.in.keeps {
			b.look()
		}
		c.bar(b.horizon(from, c.limit))
	}
	c.tipOn()
	for _, b := range c.belts { // none is ever further than the one before it
		b.upTo(2*c.limit-1, false)
		b.in.count(clock.Never) // also who came at the very tick at which a step on was barred
	}
	c.l.ahead = false
	if c.limit < limit {
		c.barred = c.limit
	}
	if c.did {
		c.catchUp()
	}
	return c.did
}

// has tells whether a server may go ahead.
func (c *chain) has(o stander) bool {
	if c == nil {
		return false
	}
	if p, ok := o.(*place); ok {
		return p == c.tip
	}
	a, ok := o.(*lane)
	return ok && slices.Contains(c.belts, a.b)
}

// bar lets nobody go further ahead than to just before a tick.
func (c *chain) bar(at clock.Tick) { c.limit = min(c.limit, at) }

// calm tells whether the chain may go ahead, and settles whether the tip does.
func (c *chain) calm() bool {
	l := c.l
	if l.closing() { // a last case or load may be due with any pack
		return false
	}
	for _, b := range c.belts {
		if b.in.shut || b.rounds > 0 && int64(b.back.n) >= b.backMax { // a lane may wait for that place
			return false
		}
	}
	if l.vessels != nil {
		for _, v := range l.vessels.each {
			if v.st.Now() == measure.Blocked { // who holds it depends on states downstream, moment by moment
				return false
			}
		}
	}
	p := c.tip
	if l.lots != nil && !c.ofOneLot() {
		return false
	}
	c.leaks = !c.plain && l.lots == nil && l.onLine() > c.riding()
	c.tips = p != nil && p.phase == giving && p.stood == 0 && p.given >= 0 && !p.goesOff && p.kept == 0 && p.swap == 0
	return true
}

// riding is the number of packs on the belts.
func (c *chain) riding() (n int64) {
	for _, b := range c.belts {
		for _, a := range b.lanes {
			n += int64(a.on.past)
		}
	}
	return n
}

// tipOn lets the tip give pack after pack, all but the last of its carrier.
func (c *chain) tipOn() {
	p := c.tip
	switch {
	case p == nil:
		return
	case !c.tips:
		c.bar(p.due)
		return
	}
	b := c.belts[0]
	for {
		at := p.due
		last := p.given >= p.unit.n-1
		switch {
		case at == clock.Never: // blocked
			if last || !b.upTo(2*c.limit-1, true) {
				return
			}
			at = b.at
		case last:
			c.bar(at)
			return
		default:
			if at >= c.limit {
				return
			}
		}
		if b.findsRoom(at) {
			c.give(p, b, at)
		} else if p.due != clock.Never {
			c.did, c.tipped, p.due = true, true, clock.Never
			b.in.wanted = true
			p.doAt(measure.Blocked, at)
		}
	}
}

// give lets the tip give one pack.
func (c *chain) give(p *place, b *belt, at clock.Tick) {
	c.did, c.tipped, c.tipSet = true, true, at
	w := b.in.q.next()
	u := &w.u
	u.no, u.born, u.out, u.box, u.n, u.pass, u.lot = c.job.number(p), p.unit.born, p.unit.out, none, 1, 0, c.lot
	w.at, w.ripe = at, at
	if c.lot != 0 {
		p.b.station.turn.leave(u, at)
		b.in.turn.enter(u, at)
	}
	b.arrived()
	p.given++
	p.due = at + c.job.gap[c.l.kindOf(c.lot)].At(c.job.number(p))
	p.doAt(measure.Processing, at)
}

// catchUp sets the slots for what comes next, settles accounts of several stations and wakes who waits for a clock that has run.
func (c *chain) catchUp() {
	l := c.l
	if c.tipped {
		c.tipped = false
		l.cal.SetAsOf(c.tip.slot, c.tip.due, clock.End, c.tipSet)
	}
	for _, b := range c.belts {
		b.setSlots()
	}
	for _, k := range c.clocks {
		if k.until != clock.Never && (k.on > 0 || k.total > k.told) {
			l.cal.Pass(c.changed)
			k.runs.Raise()
		}
	}
}

// setSlots tells the calendar what is next on the belt.
func (b *belt) setSlots() {
	for { // in the order in which they were set
		var a *lane
		for _, x := range b.lanes {
			if x.moved && (a == nil || x.arm < a.arm) {
				a = x
			}
		}
		if a == nil {
			break
		}
		a.moved = false
		b.l.cal.SetAsOf(a.slot, a.next, clock.End, a.armed)
	}
	if b.rounds > 0 {
		at := clock.Never
		if b.back.n > 0 && b.back.front().ripe >= b.chain.limit {
			at = b.back.front().ripe
		}
		b.l.cal.SetAsOf(b.backSlot, at, clock.End, b.l.cal.Now())
	}
	if at := b.nextStep(); at != b.l.cal.Due(b.gate) {
		b.l.cal.SetAsOf(b.gate, at, clock.End, b.l.cal.Now())
	}
}
