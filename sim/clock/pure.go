package clock

import "github.com/fschuetz04/simgo"

// pure is the other way to keep the same order: every slot is a simgo event with the same key, and simgo alone says
// what comes next; the mirror only tells when to stop. It is slow and there to be compared with.
type pure struct {
	c     *Calendar
	slots []pureEvent
}

type pureEvent struct {
	tmpl simgo.Event
	live *simgo.Event // the one that counts; any other in simgo's queue is stale
}

// arm makes a fresh copy the one that counts.
func (p *pureEvent) arm() *simgo.Event {
	p.live = new(simgo.Event)
	*p.live = p.tmpl
	return p.live
}

// NewPure returns an empty calendar in which every slot is a simgo event too. It gives the same trace as New, and is
// for differential tests.
func NewPure() *Calendar {
	c := New()
	c.pure = &pure{c: c}
	return c
}

func (p *pure) set(s Slot, key int64) {
	for len(p.slots) <= int(s) {
		p.slots = append(p.slots, pureEvent{tmpl: p.c.template(p.handler(Slot(len(p.slots))))})
	}
	p.c.schedule(p.slots[s].arm(), key)
}

func (p *pure) clear(s Slot) { p.slots[s].live = nil }

func (p *pure) handler(s Slot) simgo.Handler {
	return func(ev *simgo.Event) {
		if ev != p.slots[s].live {
			return
		}
		p.slots[s].live = nil
		p.c.stamps[s].key = never
		p.c.fire(s, int64(p.c.sim.Now()))
	}
}

// run carries out simgo's events until a key reaches stop.
func (p *pure) run(stop int64) {
	c := p.c
	for !c.halted && !c.spent() && len(c.mirror) > 0 && c.mirror[0].key < stop {
		c.mirror.pop()
		c.sim.Step()
	}
}
