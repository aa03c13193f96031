package clock

// Soon is one more slot that is only ever set for the present tick, phase Begin. It is looked at beside the tournament instead of taking
// part in it, since whoever is told again and again within one tick to look around would else play two rounds of matches each time. Its
// place in the order of all entries is that of any slot.
type Soon struct {
	c     *Calendar
	slot  Slot // used in pure mode, and for its name
	stamp stamp
}

// Soon makes the one such slot of a calendar, before Run. A second call panics.
func (c *Calendar) Soon(name string, f Firer, what int) *Soon {
	if c.soon != nil {
		panic("clock: a second Soon, " + name)
	}
	c.soon = &Soon{c: c, slot: c.Add(name, f, what), stamp: stamp{key: never}}
	return c.soon
}

// Set makes it due at the present tick in phase Begin, or in the present phase when Begin is past.
func (s *Soon) Set() {
	c := s.c
	if c.pure != nil {
		c.Set(s.slot, c.now, Begin)
		return
	}
	c.seq++
	s.stamp = stamp{max(c.now<<phaseBits+int64(Begin), c.key), c.now, c.seq}
}

// due tells whether it comes before the slots' winner and simgo's first event.
func (s *Soon) due(next stamp) bool {
	if s == nil || s.stamp.key == never || !s.stamp.before(next) {
		return false
	}
	m := s.c.mirror
	return len(m) == 0 || s.stamp.before(m[0])
}
