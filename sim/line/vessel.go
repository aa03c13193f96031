package line

import (
	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// drawNo numbers draws of a load: every try of it has its own.
func (v *vessel) drawNo() uint64 { return v.no*64 + uint64(min(v.tries, 63)) }

// long is how long a phase takes this load: worked out from what it holds, or drawn.
func (v *vessel) long(ph vesselPhase) clock.Tick {
	k := &v.c.kinds[v.kind]
	if w := k.worked[ph]; len(w) > 0 {
		return w[min(max(len(v.inside), 1), len(w))-1]
	}
	return k.time[ph].At(v.drawNo())
}

// run lets one phase go by. It is false where a stop broke the load.
func (v *vessel) run(t *clock.Task, ph vesselPhase) bool {
	c := v.c
	d := c.kinds[v.kind].hold
	if ph != phHold {
		d = v.long(ph)
	}
	v.at = ph
	if d == 0 {
		return true
	}
	v.do(measure.Processing)
	began := v.st.So(measure.Processing, t.Now())
	whole := t.Sleep(d)
	c.phaseSum[ph] += v.st.So(measure.Processing, t.Now()) - began
	c.phaseN[ph]++
	return whole
}

// people waits for those that a phase needs.
func (v *vessel) people(t *clock.Task, p *pool, n int) {
	if p == nil {
		return
	}
	v.asking, v.crew = p, false
	v.ask.least, v.ask.most = n, n
	v.do(measure.WaitOperator)
	p.want(&v.ask)
	for !v.crew {
		t.Wait(&v.news)
	}
	if v.ask.walked && p.walk > 0 {
		p.walking += p.walk * clock.Tick(n)
		t.Sleep(p.walk)
	}
}

func (v *vessel) letGo() {
	if v.asking == nil {
		return
	}
	p := v.asking
	v.asking, v.crew = nil, false
	p.give(&v.ask)
	if v.halted {
		v.resume()
	}
}

func (v *vessel) granted(*ask) {
	v.crew = true
	v.news.Raise()
}

func (v *vessel) waits(away bool) { v.do(waitState(away)) }
func (v *vessel) joined(*ask)     {}

func (v *vessel) halt() {
	v.halted = true
	v.hold(measure.PlannedStop, goOn, false)
}

func (v *vessel) resume() {
	if v.halted {
		v.halted = false
		v.release(measure.PlannedStop)
	}
}

// hold adds a reason to stand. Phases stand still; come-up and hold are broken unless the reason lets the work go on, which only
// a stop of the whole plant by its roster or a break of those who started it does.
func (v *vessel) hold(why measure.State, pol policy, _ bool) {
	first := v.stand(why)
	if first {
		v.task.Pause()
		v.c.try() // it no longer goes before another
	}
	if pol == goOn || !v.working || v.at != phComeUp && v.at != phHold || v.broken {
		return
	}
	v.broken = true
	v.spoiled = v.spoiled || pol == setAside
	v.task.Wake()
}

// busy tells whether a load is being worked on.
func (v *vessel) busy() bool { return v.working }

// wantOff sends the vessel off shift when the cycle in hand is done, or back on.
func (v *vessel) wantOff(off bool) {
	v.goesOff = off
	switch {
	case !off && v.why[measure.OffShift] > 0:
		v.release(measure.OffShift)
	case off:
		v.news.Raise()
	}
}

// rests goes off shift if that is wanted. It is asked whenever nothing is being worked on.
func (v *vessel) rests() {
	if r := v.l.roster; r != nil && r.ended != none {
		v.l.agenda.poke(r.node) // the day may be over with this cycle
	}
	if v.goesOff && v.why[measure.OffShift] == 0 {
		v.hold(measure.OffShift, goOn, false)
	}
}

// release takes a reason away; with the last one the phase goes on.
func (v *vessel) release(why measure.State) {
	if v.unstand(why) {
		v.task.Resume()
		v.news.Raise()
	}
}
