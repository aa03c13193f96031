package line

import (
	"slices"

	"pascaline/scenarios"
	"pascaline/sim/clock"
	"pascaline/sim/measure"
	"pascaline/sim/press"
	"pascaline/sim/random"
)

// pumps bring vessels to pressure. A come-up is work, counted in the ticks it takes with all intensifiers and the whole flow; it goes on at the
// share of both that it has, and looks again whenever that share changes.
type pumps struct {
	of     int  // intensifiers
	lost   int  // of them
	one    bool // one vessel at a time; else those that come up share the flow
	using  []*vessel
	queue  []*vessel // in the order in which they came
	shared bool      // by all vessels
}

// left is how many intensifiers work.
func (p *pumps) left() int { return max(0, p.of-p.lost) }

// lose takes intensifiers away or gives them back. With none left a come-up is broken, as by any other stop.
func (p *pumps) lose(n int) {
	p.lost += n
	for _, v := range p.using {
		v.broken = v.broken || p.left() == 0
	}
	p.look()
	for _, v := range p.queue {
		v.news.Raise()
	}
}

// look lets all that are coming up look again at their share.
func (p *pumps) look() {
	for _, v := range p.using {
		v.task.Wake()
	}
}

// free tells whether a vessel may begin to come up.
func (p *pumps) free(v *vessel) bool {
	return p.left() > 0 && (!p.one || len(p.using) == 0 && p.queue[0] == v)
}

// leave takes a vessel off, so that the next may begin or the others have more.
func (p *pumps) leave(v *vessel) {
	p.using = slices.DeleteFunc(p.using, func(o *vessel) bool { return o == v })
	if !p.one {
		p.look()
	}
	for _, o := range p.queue {
		o.news.Raise()
	}
}

// onePumps tells whether all vessels are served by one set.
func (b *builder) onePumps() bool {
	v := b.l.vessels
	return v != nil && len(v.each) > 0 && v.each[0].pumps.shared
}

// pumpsOf are the pumps of the next vessel: its own, or those of the first.
func (b *builder) pumpsOf(c *chambers, s *scenarios.Pumps) *pumps {
	p := &pumps{of: 1}
	if s == nil {
		return p
	}
	p.of, p.one, p.shared = int(s.Intensifiers), s.Serve == "one vessel at a time", s.Serve != "each vessel has its own"
	if p.shared && len(c.each) > 0 {
		return c.each[0].pumps
	}
	return p
}

// worked gives the times of the vessel that nobody took, worked out once for a model.
func (b *builder) worked(own *scenarios.Scenario) press.Worked {
	name := string(own.Product.Name)
	if w, ok := b.m.worked[name]; ok {
		return w
	}
	w, err := press.WorkedOut(own)
	if err != nil {
		b.fail("vessel.pumps: %w", err)
	}
	if !b.m.frozen {
		b.m.worked[name] = w
	}
	return w
}

// ticksOf are the seconds of a named time as ticks, less where its station works faster.
func (b *builder) ticksOf(name string, seconds []float64) []clock.Tick {
	var all []clock.Tick
	for _, s := range seconds {
		d, err := random.Ticks(s*b.m.quicker.factor(name), name)
		if err != nil {
			b.fail("%s: %w", name, err)
		}
		all = append(all, d)
	}
	return all
}

// comeUp waits for the pumps and brings the vessel to pressure. It is false where a stop broke it.
func (v *vessel) comeUp(t *clock.Task) bool {
	p := v.pumps
	v.waitPumps(t)
	p.using = append(p.using, v)
	if !p.one {
		p.look() // the others have less now; v itself has not begun to sleep
	}
	whole := v.pumped(t)
	p.leave(v)
	return whole
}

// waitPumps waits until the pumps are free. It is a phase of the cycle: the load is in the vessel and nothing else can be done with it.
func (v *vessel) waitPumps(t *clock.Task) {
	c, p := v.c, v.pumps
	p.queue = append(p.queue, v)
	if !p.free(v) {
		v.at = phPumps
		v.do(measure.Processing)
		began := v.st.So(measure.Processing, t.Now())
		for !p.free(v) || v.stood > 0 {
			t.Wait(&v.news)
		}
		c.phaseSum[phPumps] += v.st.So(measure.Processing, t.Now()) - began
		c.phaseN[phPumps]++
	}
	p.queue = slices.DeleteFunc(p.queue, func(o *vessel) bool { return o == v })
}

// pumped lets the come-up go by at the share of the pumps that the vessel has.
func (v *vessel) pumped(t *clock.Task) bool {
	c, p := v.c, v.pumps
	v.at = phComeUp
	left := v.long(phComeUp)
	if left == 0 {
		return true
	}
	v.do(measure.Processing)
	began := v.st.So(measure.Processing, t.Now())
	for left > 0 && !v.broken {
		has, of, k := clock.Tick(p.left()), clock.Tick(p.of*len(p.using)), clock.Tick(len(p.using))
		needs := upTo(left*of, has)
		whole := t.Sleep(needs)
		took := needs
		if whole {
			left = 0
		} else {
			took -= t.Left()
			left = upTo(t.Left()*has, of)
		}
		slow := took * (clock.Tick(p.of) - has) / clock.Tick(p.of)
		c.slowLost += slow
		c.slowShared += (took - slow) * (k - 1) / k
	}
	c.phaseSum[phComeUp] += v.st.So(measure.Processing, t.Now()) - began
	c.phaseN[phComeUp]++
	return !v.broken
}

// upTo is a/b, rounded up: no come-up is shortened by rounding.
func upTo(a, b clock.Tick) clock.Tick { return (a + b - 1) / b }
