package clock

// An Aheader carries out what is due on its own slots without an entry of the calendar for each. It is asked when the next entry is on one
// of them, due at tick from. Until the tick limit nothing else is due, so whatever it does before limit happens as it would entry by entry, if it keeps
// the order of what touches the same thing. Then it sets its slots (SetAsOf) for what comes next. It says false when it did
// nothing: the entry is then carried out as any other.
type Aheader interface{ Ahead(from, limit Tick) bool }

// GoAhead makes a the one who goes ahead, with slots of its own. It never does in pure mode and while a trace is kept: both want every
// entry. It is called before Run.
func (c *Calendar) GoAhead(a Aheader, own ...Slot) {
	if c.running {
		panic("clock: slots given away within a run")
	}
	c.goes = a
	for _, s := range own {
		c.ahead[s] = true
	}
	c.built = false
}

// SetAsOf makes slot s due, as Set does, in the order it would have if it had been set at a tick that may be later than the present one. For
// slots of the one who went ahead, before Ahead returns true.
func (c *Calendar) SetAsOf(s Slot, tick Tick, p Phase, set Tick) {
	if tick >= maxTick {
		c.stamps[s].key = never
		return
	}
	c.seq++
	c.stamps[s] = stamp{tick<<phaseBits + int64(p), set, c.seq}
}

// Pass lets time go by to a tick, after what comes Begin, to which somebody went ahead.
func (c *Calendar) Pass(tick Tick) {
	if tick > c.now {
		c.to(tick<<phaseBits + int64(Begin))
	}
}

// wentAhead tells whether slot s, due next at key, is one of those who go ahead, and they did.
func (c *Calendar) wentAhead(s int32, key, stop int64) bool {
	if !c.ahead[s] || c.trace != nil || key>>phaseBits == c.now { // never from the middle of a tick
		return false
	}
	limit := min(stop, c.stamps[c.win[others]].key)
	if len(c.mirror) > 0 {
		limit = min(limit, c.mirror[0].key)
	}
	if c.soon != nil {
		limit = min(limit, c.soon.stamp.key)
	}
	if limit>>phaseBits <= key>>phaseBits || !c.goes.Ahead(key>>phaseBits, limit>>phaseBits) {
		return false
	}
	c.replayAhead()
	return true
}
