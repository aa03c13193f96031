package line

import (
	"slices"

	"pascaline/sim/clock"
	"pascaline/sim/measure"
	"pascaline/sim/random"
)

// vesselPhase is a phase of a vessel cycle.
type vesselPhase uint8

const (
	phStart      vesselPhase = iota // hand work that starts a cycle
	phTransferIn                    // or the one stroke of a push-through vessel
	phClose
	phPrefill
	phGasWait // gas leaves the packs' surface
	phPumps   // the pumps are at work on another vessel
	phComeUp
	phHold
	phDecompress
	phOpen
	phDrain
	phTransferOut
	phDrawOut // the last load of a push-through vessel is drawn out
	vesselPhases
)

var phaseNames = [vesselPhases]string{"start", "transfer in", "close", "prefill", "gas wait", "wait for pumps", "come-up", "hold", "decompress", "open", "drain",
	"transfer out", "draw out"}

// chambers is what all vessels of a line share.
type chambers struct {
	l           *Line
	node        int
	station     *station
	in          *inbox
	next        taker
	load        int
	push        bool
	after       clock.Tick    // a part load is taken when its first carrier has waited this long; Never: at the end only
	rest        bool          // the rest is taken when no more carriers come
	kinds       []chamberKind // by kind of product
	mixed       bool          // carriers of several lots may go into one load where hold and pressure are the same
	missed      float64
	missedBy    random.Stream
	missedAside bool
	atMost      int
	starters    *pool
	startCrew   int
	drawers     *pool
	drawCrew    int
	loads       uint64 // begun
	claimed     int    // carriers at the infeed that a vessel is about to take
	each        []*vessel
	part        int64
	repeated    int64
	aside       int64
	carriers    int64      // in all loads ended
	packsOut    int64      // handed on by the vessels
	slowLost    clock.Tick // come-up that took longer for want of intensifiers
	slowShared  clock.Tick // or because pumps were shared
	phaseSum    [vesselPhases]clock.Tick
	phaseN      [vesselPhases]int64
	cycleSum    clock.Tick
	ends        []clock.Tick // when cycles ended, if kept
	outs        []int64      // what the end of the line had finished then
	keepEnds    bool
}

// chamberKind is what the cycle of a product is like.
type chamberKind struct {
	time     [vesselPhases]random.Draw
	worked   [vesselPhases][]clock.Tick // by carriers in the load, where a time is worked out
	hold     clock.Tick
	pressure float64 // MPa
}

// vessel is one chamber: a task that takes a load, lets it go through its phases and hands it on.
type vessel struct {
	server
	c       *chambers
	task    *clock.Task
	news    clock.Signal // something changed: carriers, room, reasons
	inside  []unit
	done    bool // what is inside is finished
	no      uint64
	kind    int     // of the load's product
	lots    []int32 // of the carriers that the next load is made of
	tries   int
	at      vesselPhase
	working bool       // a phase runs
	free    bool       // it waits for a load,
	since   clock.Tick // since then
	broken  bool       // a stop broke come-up or hold
	spoiled bool       // the load is set aside
	started clock.Tick
	ask     ask
	crew    bool // the people asked for are there
	asking  *pool
	halted  bool
	goesOff bool
	pumps   *pumps
}

// try tells every vessel that something changed.
func (c *chambers) try() {
	for _, v := range c.each {
		v.news.Raise()
	}
}

// spare is how many carriers may stand in vessels that are empty and wait for a load (separate unloading only).
func (c *chambers) spare() int64 {
	if c.push {
		return 0
	}
	n := int64(0)
	for _, v := range c.each {
		if len(v.inside) == 0 && !v.working {
			n += int64(c.load)
		}
	}
	return n
}

func (c *chambers) holds() int64 {
	n := c.in.held()
	for _, v := range c.each {
		n += int64(len(v.inside))
	}
	return n
}

// live is the life of a vessel.
func (v *vessel) live(t *clock.Task) {
	for {
		v.free, v.since = true, t.Now()
		n := v.await(t)
		v.free = false
		if n == 0 {
			v.drawOut(t)
			continue
		}
		v.begin(t, n)
		v.cycle(t)
		if !v.c.push {
			v.unload(t)
		}
	}
}

// await waits for a load and gives its number of carriers; 0 means that the finished load is to be drawn out.
func (v *vessel) await(t *clock.Task) int {
	c := v.c
	for {
		v.rests()
		n, look := v.loadable()
		switch {
		case !v.able():
			v.do(measure.Starved)
		case n > 0 && !v.clear():
			v.do(measure.Blocked)
		case n > 0 && v.first():
			return n
		case v.done && (c.l.dry(c.node) && c.in.ready() == c.claimed || v.lotEnds()):
			if v.mayUnload(len(v.inside)) {
				return 0
			}
			v.do(measure.Blocked)
		default:
			v.do(measure.Starved)
		}
		t.WaitUntil(&v.news, look)
	}
}

// clear tells whether a load may come in: the finished one, if there is one, can leave with the same stroke.
func (v *vessel) clear() bool { return !v.done || v.mayUnload(len(v.inside)) }

// first tells whether no other vessel that could take the load has waited longer, or as long with a lower number: a finished load is not left in one
// vessel for good while another is loaded again and again.
func (v *vessel) first() bool {
	before := true // v in the order of numbers
	for _, u := range v.c.each {
		switch {
		case u == v:
			before = false
		case u.free && u.able() && (u.since < v.since || before && u.since == v.since) && u.clear():
			return false
		}
	}
	return true
}

// loadable is how many carriers could be taken now, and until when to wait for more: a part load is taken when its first carrier
// has waited its time, or when no more come.
func (v *vessel) loadable() (n int, look clock.Tick) {
	c := v.c
	have := c.in.ready() - c.claimed
	rest := false
	if c.l.lots != nil && have > 0 {
		have, rest = c.alike(have)
	}
	switch {
	case have >= c.load:
		return c.load, clock.Never
	case have == 0:
		return 0, clock.Never
	case rest || c.rest && c.l.dry(c.node):
		return have, clock.Never
	case c.after == clock.Never:
		return 0, clock.Never
	}
	if at := c.in.q.at(c.claimed).at + c.after; at > v.l.cal.Now() {
		return 0, at
	}
	return have, clock.Never
}

// begin takes n carriers in; with push-through the same stroke takes the finished load out.
func (v *vessel) begin(t *clock.Task, n int) {
	c := v.c
	old := v.inside
	if v.done {
		c.next.promise(len(old))
	}
	v.no = c.loads
	v.kind = c.l.kindOf(c.in.q.at(c.claimed).u.lot)
	v.lots = v.lots[:0]
	for i := range n {
		v.lots = append(v.lots, c.in.q.at(c.claimed+i).u.lot)
	}
	c.loads++
	c.claimed += n // they stand at the infeed until the cycle is started
	c.try()        // another may take what is left
	v.working, v.at, v.started = true, phStart, v.l.cal.Now()
	v.people(t, c.starters, c.startCrew)
	v.run(t, phStart)
	v.letGo()
	c.claimed -= n
	load := make([]unit, 0, c.load)
	for i := range n {
		if c.l.lots != nil {
			c.in.bring(v.lots[i]) // another vessel may have been started before this one
		}
		u := c.in.pop()
		c.station.turn.enter(&u, c.l.cal.Now())
		load = append(load, u)
		if first := load[0].lot; u.lot != first && !(c.mixed && c.sameCycle(first, u.lot)) {
			v.l.fail(v.name, "carriers of two lots came into one load")
		}
	}
	v.inside = append(slices.Clone(load), old...) // both are on their way during the stroke
	v.run(t, phTransferIn)
	v.inside = load
	if v.done {
		v.done = false
		for _, u := range old {
			v.handOut(u, true)
		}
	}
	if n < c.load {
		c.part++
	}
	v.tries, v.spoiled = 0, false
}

// cycle takes the load through its phases. The hold is never shortened: a load whose come-up or hold was broken, or that
// missed its pressure, begins again with the prefill or is set aside.
func (v *vessel) cycle(t *clock.Task) {
	c := v.c
	v.run(t, phClose)
	for {
		v.run(t, phPrefill)
		v.run(t, phGasWait)
		if v.underPressure(t) {
			break
		}
		v.tries++
		if v.spoiled || v.tries > c.atMost {
			v.spoiled = true
			break
		}
		c.repeated++
	}
	v.run(t, phDecompress)
	v.run(t, phOpen)
	v.run(t, phDrain)
	if !c.push {
		v.run(t, phTransferOut)
	}
	v.end()
}

// underPressure is come-up and hold; false where they were broken or the pressure was missed.
func (v *vessel) underPressure(t *clock.Task) bool {
	c := v.c
	v.broken = false
	if !v.comeUp(t) {
		v.mended(t)
		return false
	}
	if c.missed > 0 && c.missedBy.At(v.drawNo()) < c.missed {
		v.spoiled = v.spoiled || c.missedAside
		return false
	}
	if !v.run(t, phHold) {
		v.mended(t)
		return false
	}
	return true
}

// mended waits until the stop that broke the load is over.
func (v *vessel) mended(t *clock.Task) {
	for v.stood > 0 {
		t.Wait(&v.news)
	}
}

// end counts a cycle.
func (v *vessel) end() {
	c := v.c
	now := v.l.cal.Now()
	v.working, v.done = false, true
	for i := range v.inside {
		v.inside[i].out = now
	}
	c.carriers += int64(len(v.inside))
	c.cycleSum += now - v.started
	if c.keepEnds {
		c.ends, c.outs = append(c.ends, now), append(c.outs, v.l.finishedHere())
	}
	if v.spoiled {
		c.aside++
		for i := range v.inside { // the carriers go on without their packs
			u := &v.inside[i]
			v.l.setAside(c.station, *u)
			u.n = 0
		}
	}
	v.did(int32(len(v.inside)))
	if c.in.extra != nil {
		c.in.freed()
	}
}
