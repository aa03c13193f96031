package line

import (
	"math"

	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// phase is where a place of a bench is in its task.
type phase uint8

const (
	idle     phase = iota
	asking         // material is there, people are not yet
	walking        // people come from another station
	handling       // work that is shared by the crew
	swapping       // work that takes its time whoever is there
	giving         // the work is done, its outcome is handed on
)

// outcome is what came of an attempt to hand on.
type outcome uint8

const (
	given outcome = iota
	noRoom
	later // the place set its slot for the next piece
)

// A job is what the places of a bench do: it finds the material of a task, says how long the work takes, and hands its outcome on.
type job interface {
	ready(b *bench, asked int) bool // material for one task more than those asked for
	take(b *bench, p *place)        // takes it and sets p.unit, p.hand and p.swap
	give(b *bench, p *place) outcome
	drop(b *bench, p *place) // sets aside what is in hand
}

// policy is what becomes of the work in hand when a stop begins.
type policy uint8

const (
	goOn policy = iota
	again
	setAside
)

// bench is k places of work, each doing one task at a time: loading, tip, machines, packing, wiping.
type bench struct {
	l       *Line
	node    int
	station *station
	in      *inbox
	next    taker
	job     job
	pool    *pool // nil: a machine
	least   int
	most    int
	before  bool // blocking before service: room is kept before work begins
	crewed  bool // the crew does the swap too
	byHeads bool // places beyond the people on shift are off shift
	keeps   bool // the crew stays while the outcome is handed on
	places  []*place
	count   uint64      // tasks begun
	out     int         // units given per task, for blocking before
	needs   []int       // units of a full task, by kind of product or one for all; none where that is not known
	lacks   func() bool // whether a starved place waits for an empty carrier, if anybody asks
	lacked  clock.Tick  // place time starved for want of an empty carrier
}

// place is one place of a bench.
type place struct {
	server
	b         *bench
	i         int
	slot      clock.Slot
	phase     phase
	then      phase // where it goes on when its people are back
	ask       ask
	crew      int        // people at work, 1 for a machine
	from      clock.Tick // since when the present part of the work runs
	walk      clock.Tick
	hand      clock.Tick // person-ticks left
	swap      clock.Tick
	full      clock.Tick // hand and swap as drawn, for a repeat
	fullSwap  clock.Tick
	unit      unit
	given     int32 // pieces handed on of this task
	due       clock.Tick
	halted    bool // by a break
	kept      int  // places promised downstream
	done      clock.Tick
	repeats   int
	unbroken  int // repeats of the task in hand
	lost      clock.Tick
	goesOff   bool       // off shift when the task in hand is done
	surplus   bool       // more places than people on shift
	lacking   bool       // starved for want of an empty carrier,
	lackingAt clock.Tick // since then
}

func (b *bench) busyPlaces() (n int) {
	for _, p := range b.places {
		if p.busy() {
			n++
		}
	}
	return n
}

// spare is how many units can stand at free places.
func (b *bench) spare() int64 {
	n := int64(0)
	for _, p := range b.places {
		if !p.busy() && p.why[measure.OffShift] == 0 {
			n++
		}
	}
	return n
}

// try hands on what is finished and begins what can begin.
func (b *bench) try() {
	for {
		p := b.finished()
		if p == nil || b.handOn(p) == noRoom { // a tip that gave one of its packs leaves the next place to another
			break
		}
	}
	asked := 0
	for _, p := range b.places {
		if p.phase == asking && p.then == idle {
			asked++
		}
	}
	for _, p := range b.places {
		if p.phase != idle {
			continue
		}
		switch {
		case !p.able():
			p.do(measure.Starved)
		case !b.job.ready(b, asked):
			p.do(measure.Starved)
			p.lack(b.lacks != nil && b.lacks())
		case b.before && !b.next.room(b.out):
			p.do(measure.Blocked)
		case b.pool == nil:
			b.begin(p)
		default:
			asked++
			p.lack(false)
			b.keep(p)
			p.phase, p.then = asking, idle
			b.pool.want(&p.ask) // and waits, if the pool does not give them at this tick
		}
	}
}

// stirs tells whether the unit that came last could make a place begin. Where something is handed on or people are given out, the bench is
// told of that by itself.
func (b *bench) stirs() bool {
	return b.l.lots != nil || b.in.ripe >= b.full(0) && b.in.ripe >= b.enough(0) || b.l.closing()
}

// full is how many units of a kind of product a full task takes; 0 where that is not known.
func (b *bench) full(kind int) int {
	if len(b.needs) == 0 {
		return 0
	}
	return b.needs[min(kind, len(b.needs)-1)]
}

// enough is with how many units of a kind that wait another place could begin.
func (b *bench) enough(kind int) int {
	full := b.full(kind)
	if full == 0 {
		return 0
	}
	n, free := full, false
	for _, p := range b.places {
		switch {
		case p.phase == idle:
			free = true
		case p.phase == asking && p.then == idle:
			n += full
		}
	}
	if !free {
		return math.MaxInt
	}
	return n
}

// begin takes the material and starts the work.
func (b *bench) begin(p *place) {
	b.keep(p)
	p.lack(false)
	p.crew = max(1, len(p.ask.who))
	p.given, p.unbroken = 0, 0
	p.hand, p.swap, p.walk = 0, 0, 0
	p.phase = walking
	b.job.take(b, p)
	b.count++
	p.full, p.fullSwap = p.hand, p.swap
	p.goOn()
}

// run goes on with the first part of the work from ph on that takes time.
func (p *place) run(ph phase) {
	now := p.l.cal.Now()
	p.from = now
	p.ask.may = false
	switch {
	case ph <= walking && p.walk > 0:
		p.phase = walking
		p.do(measure.WaitOperator)
		p.set(now + p.walk)
	case ph <= handling && p.hand > 0:
		p.phase = handling
		p.do(measure.Processing)
		if p.b.most > p.b.least {
			p.ask.may = true
			p.b.l.agenda.poke(p.b.pool.node)
		}
		c := clock.Tick(p.crew)
		p.set(now + (p.hand+c-1)/c)
	case ph <= swapping && p.swap > 0:
		p.phase = swapping
		p.do(measure.Processing)
		if !p.b.crewed {
			p.free()
		}
		p.set(now + p.swap)
	default:
		p.finish()
	}
}

func (p *place) set(tick clock.Tick) {
	p.due = tick
	p.l.cal.Set(p.slot, tick, clock.End)
}

// Fire: a part of the work is done.
func (p *place) Fire(int) {
	p.due = clock.Never
	switch p.phase {
	case walking:
		if p.b.pool != nil {
			p.b.pool.walking += p.walk * clock.Tick(len(p.ask.who))
		}
		p.walk = 0
		p.run(handling)
	case handling:
		p.hand = 0
		p.run(swapping)
	case swapping:
		p.swap = 0
		p.finish()
	case giving:
		p.b.handOn(p)
	}
}

// finish ends the work; what it made is handed on, now or when there is room.
func (p *place) finish() {
	p.phase, p.done, p.due = giving, p.l.cal.Now(), clock.Never
	p.ask.may = false
	if !p.b.keeps {
		p.free()
		p.did(p.unit.n)
	}
	p.b.handOn(p)
}

// free gives the people back.
func (p *place) free() {
	if p.b.pool == nil || len(p.ask.who) == 0 {
		return
	}
	p.b.pool.give(&p.ask)
	p.ask.may = false
	if p.halted {
		p.halted = false
		p.unstand(measure.PlannedStop)
	}
}

// clear makes a place idle. What it does from now on is seen when the bench looks around, at this tick.
func (b *bench) clear(p *place) {
	p.phase, p.then, p.due = idle, idle, clock.Never
	if b.l.doneAt > 0 { // the run ends here, and nobody looks around any more
		p.do(measure.Starved)
	}
	if p.server.due > 0 {
		p.rest.Raise()
	}
	p.wantOff(p.goesOff)
	if b.in != nil {
		b.in.freed()
	}
	b.l.agenda.poke(b.node)
}
