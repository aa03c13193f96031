package line

import (
	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// granted: the people are there.
func (p *place) granted(*ask) {
	p.phase = idle
	if p.then != idle { // a task that was broken off goes on
		ph := p.then
		p.then, p.phase, p.crew = idle, ph, len(p.ask.who)
		p.goOn()
		return
	}
	if !p.able() || !p.b.job.ready(p.b, 0) {
		p.b.pool.give(&p.ask)
		p.b.unkeep(p)
		p.b.clear(p)
		return
	}
	p.b.begin(p)
}

// waits: the people are not there yet.
func (p *place) waits(away bool) { p.do(waitState(away)) }

// joined: one more is at work from now on.
func (p *place) joined(a *ask) {
	p.progress()
	p.crew = len(a.who)
	p.run(handling)
}

// halt and resume are the two ends of a break that pauses the task.
func (p *place) halt() {
	p.halted = true
	p.hold(measure.PlannedStop, goOn, false)
}

func (p *place) resume() {
	if p.halted {
		p.halted = false
		p.release(measure.PlannedStop)
	}
}

// progress takes what was done off what is left of the work in hand.
func (p *place) progress() {
	now := p.l.cal.Now()
	switch p.phase {
	case walking:
		p.walk -= now - p.from
	case handling:
		p.hand = max(0, p.hand-(now-p.from)*clock.Tick(p.crew))
	case swapping:
		p.swap -= now - p.from
	}
	p.from = now
}

// hold adds a reason to stand. The work in hand stands still, to go on, to be done again, or it is set aside. People go to other
// tasks meanwhile, if they may.
func (p *place) hold(why measure.State, pol policy, lets bool) {
	p.lack(false)
	first := p.stand(why)
	// While its people are on a break it goes on asking, to be told when they are back: until then the break comes before a repair.
	onBreak := p.does == measure.PlannedStop && (why == measure.UnderRepair || why == measure.WaitRepair || why == measure.Changeover)
	if p.phase == asking && p.then == idle && !onBreak {
		p.b.pool.withdraw(&p.ask)
		p.b.unkeep(p)
		p.phase = idle
	}
	if first {
		p.freeze()
	}
	if p.phase == asking && p.then != idle { // its people had not come back yet
		p.b.pool.withdraw(&p.ask)
		p.do(measure.WaitOperator)
		p.phase = p.then
	}
	if p.phase == idle || p.phase == asking || p.phase == giving && !p.b.keeps { // nothing is being worked on
		return
	}
	switch pol {
	case again:
		if p.phase != giving {
			p.redo()
		}
	case setAside:
		p.ask.may = false
		p.free()
		p.b.job.drop(p.b, p)
		p.b.unkeep(p)
		p.b.clear(p)
		return
	}
	if lets && p.b.pool != nil && len(p.ask.who) > 0 {
		p.then = p.phase
		p.free()
	}
}

// freeze stops the clock of the work in hand.
func (p *place) freeze() {
	if p.due == clock.Never {
		return
	}
	now := p.l.cal.Now()
	p.l.cal.Clear(p.slot)
	if p.phase == giving {
		p.swap = p.due - now // to the next piece
	} else {
		p.progress()
	}
	p.due = clock.Never
	p.ask.may = false
}

// lack keeps account of the time a place is starved because no empty carrier is there.
func (p *place) lack(is bool) {
	if is == p.lacking {
		return
	}
	now := p.l.cal.Now()
	if p.lacking {
		p.b.lacked += now - p.lackingAt
	}
	p.lacking, p.lackingAt = is, now
}

// redo makes the task as long again as it was drawn; what was done is lost.
func (p *place) redo() {
	if p.phase == swapping && p.b.pool != nil && !p.b.crewed { // the hand work is done and its people are gone: the machine swaps again
		p.lost += p.fullSwap - p.swap
		p.swap = p.fullSwap
		p.again()
		return
	}
	p.lost += (p.full-p.hand)/clock.Tick(max(1, p.crew)) + p.fullSwap - p.swap
	p.hand, p.swap = p.full, p.fullSwap
	p.again()
	if p.phase > walking {
		p.phase = handling
	}
}

// again counts a repeat, and tells when there is no end of them.
func (p *place) again() {
	p.repeats++
	p.unbroken++
	if p.unbroken == 100 {
		p.l.warn("never done", p.name+": the same task was begun again 100 times; stops come faster than it can be done")
	}
}

// release takes a reason away; with the last one the work goes on.
func (p *place) release(why measure.State) {
	if !p.unstand(why) {
		return
	}
	b := p.b
	b.l.agenda.poke(b.node)
	switch {
	case p.phase == idle || p.phase == asking:
		if b.in != nil {
			b.in.freed()
		}
	case b.pool != nil && p.then != idle && len(p.ask.who) == 0: // its people were let go
		p.phase = asking
		b.pool.want(&p.ask)
		p.do(measure.WaitOperator)
	default:
		p.goOn()
	}
}

// goOn takes up the work where it stood still.
func (p *place) goOn() {
	switch {
	case p.phase != giving:
		if p.b.pool != nil && p.ask.walked {
			p.walk = max(p.walk, p.b.pool.walk)
			p.ask.walked = false
		}
		p.run(walking)
	case p.swap > 0: // on its way to the next piece
		p.set(p.l.cal.Now() + p.swap)
		p.swap = 0
	default:
		p.b.handOn(p)
	}
}

// busy tells whether a task is in hand, be it one that was broken off and waits for its people.
func (p *place) busy() bool { return p.phase > asking || p.then != idle }

// wantOff sends the place off shift: a machine at once, people when they have done the task in hand.
func (p *place) wantOff(off bool) {
	p.goesOff = off
	is := p.why[measure.OffShift] > 0
	switch {
	case off && !is && (p.b.pool == nil || !p.busy() || p.phase == asking || p.phase == giving && !p.b.keeps):
		p.hold(measure.OffShift, goOn, false)
	case !off && is:
		p.release(measure.OffShift)
	}
}

// staffed tells the places of a bench how many people are on shift. Packing places beyond them are off shift; loading stations are not,
// since a crew can fill at one while the machine swaps at the other.
func (b *bench) staffed(heads int) {
	for i, p := range b.places {
		p.surplus = heads == 0 || b.byHeads && (i+1)*b.least > heads
		p.wantOff(p.surplus || b.l.off)
	}
}
