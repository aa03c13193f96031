package line

import (
	"pascaline/scenarios/units"
	"pascaline/sim/clock"
	"pascaline/sim/measure"
	"pascaline/sim/random"
)

// stop is one thing that makes servers stand: one lane, vessel or place, or a whole station at once. It is a task that waits until it
// is due by its own clock, for the end of the work in hand if it is planned, for a mender if it needs one, and for the repair.
type stop struct {
	l        *Line
	station  *station
	label    string // as the scenario calls the station
	name     string
	of       []stander
	places   *inbox // a stop of waiting places
	loses    int    // intensifiers of the pumps, instead of making servers stand
	pumps    []*pumps
	planned  bool
	kind     units.Clock
	every    random.Draw
	chance   float64
	byChance random.Stream
	at       []clock.Tick
	first    float64 // seconds, cycles or packs to the first
	takes    random.Draw
	menders  *pool
	task     *clock.Task
	crew     int
	pol      policy
	runs     *runClock
	count    *counter
	ask      ask
	here     bool
	came     clock.Signal

	times   int64
	down    clock.Tick    // server time standing, waiting for repair included
	waited  clock.Tick    // of that, waiting for a mender
	holding measure.State // how it makes its servers stand; Processing: it does not just now
}

// counter counts what ends at its servers until a stop is due. At once no new work is begun, so that nothing slips in before the stop.
type counter struct {
	s      *stop
	packs  bool
	left   float64
	n      uint64 // cycles seen, for a chance
	is     bool   // the stop is due
	signal clock.Signal
}

// add counts one cycle that held so many packs.
func (c *counter) add(_ *server, packs int32) {
	if c.is {
		return
	}
	switch {
	case c.s.chance > 0:
		c.is = c.s.byChance.At(c.n) < c.s.chance
		c.n++
	case c.packs:
		c.left -= float64(packs)
		c.is = c.left <= 0
	default:
		c.left--
		c.is = c.left <= 0
	}
	if c.is {
		c.s.ahead(1)
		c.signal.Raise()
	}
}

// ahead keeps the servers from beginning new work, or lets them again.
func (s *stop) ahead(n int16) {
	for _, o := range s.of {
		o.base().due += n
		if v, ok := o.(*vessel); ok {
			v.c.try() // it no longer goes before another
		}
	}
}

// live is the life of a stop.
func (s *stop) live(t *clock.Task) {
	if len(s.at) > 0 {
		for k, at := range s.at {
			if at > t.Now() { // the one before may have taken longer
				t.SleepUntil(at, clock.Roster)
			}
			s.happen(t, uint64(k))
		}
		return
	}
	due := s.first
	for k := uint64(0); ; k++ {
		s.await(t, due)
		s.happen(t, k)
		if s.chance == 0 { // by chance every cycle decides for itself
			due = s.every.Seconds(k)
		}
	}
}

// await waits until the stop is due, after left more seconds of its clock, or cycles or packs.
func (s *stop) await(t *clock.Task, left float64) {
	if s.count != nil {
		s.count.left, s.count.is = left, false
		for !s.count.is {
			t.Wait(&s.count.signal)
		}
		s.ahead(-1)
		return
	}
	d, err := random.Ticks(left, s.name)
	if err != nil {
		s.l.fail(s.name, err.Error())
		return
	}
	if s.runs == nil { // calendar time
		t.SleepUntil(t.Now()+d, clock.Roster)
		return
	}
	// The clock cannot have run so far before now + what is missing, so that is when to look again. While it stands, wait.
	for end := s.runs.so(t.Now()) + d; ; {
		missing := end - s.runs.so(t.Now())
		switch {
		case missing <= 0:
			return
		case s.runs.on > 0:
			t.SleepUntil(t.Now()+missing, clock.Roster)
		default:
			s.runs.until = end
			t.Wait(&s.runs.runs)
			s.runs.until = clock.Never
		}
	}
}

// happen is the stop itself.
func (s *stop) happen(t *clock.Task, k uint64) {
	if s.planned {
		s.untilRest(t)
	}
	s.times++
	began := t.Now()
	as := measure.UnderRepair
	if s.planned {
		as = measure.PlannedStop
	}
	if s.menders != nil {
		wait := measure.WaitRepair
		if s.planned {
			wait = measure.PlannedStop
		}
		s.hold(wait)
		s.here = false
		s.menders.want(&s.ask)
		for !s.here {
			t.Wait(&s.came)
		}
		if s.ask.walked && s.menders.walk > 0 {
			s.menders.walking += s.menders.walk * clock.Tick(s.crew)
			t.SleepUntil(t.Now()+s.menders.walk, clock.Roster)
		}
		s.waited += (t.Now() - began) * clock.Tick(s.counts())
		s.change(wait, as)
	} else {
		s.hold(as)
	}
	t.Sleep(s.takes.At(k))
	if s.menders != nil {
		s.menders.give(&s.ask)
	}
	s.down += (t.Now() - began) * clock.Tick(s.counts())
	s.release(as)
}

// untilRest waits for the end of the work in hand; no new work is begun meanwhile.
func (s *stop) untilRest(t *clock.Task) {
	s.ahead(1)
	for _, o := range s.of {
		if _, belt := o.(*lane); belt {
			continue // a belt has no cycle to wait for
		}
		for o.busy() {
			t.Wait(&o.base().rest)
		}
	}
	s.ahead(-1)
}

func (s *stop) hold(why measure.State) {
	s.holding = why
	if s.loses > 0 {
		s.lose(s.loses)
		return
	}
	if s.places != nil {
		s.places.close(true)
	}
	for _, o := range s.of {
		o.hold(why, s.pol, true)
	}
}

// lose takes intensifiers from the pumps, or with a negative number gives them back. Vessels that began nothing new because the stop was due
// look again: it does not stand them.
func (s *stop) lose(n int) {
	for _, p := range s.pumps {
		p.lose(n)
	}
	for _, o := range s.of {
		if v, ok := o.(*vessel); ok {
			v.news.Raise()
		}
	}
}

func (s *stop) change(from, to measure.State) {
	s.holding = to
	if s.loses > 0 {
		return
	}
	for _, o := range s.of {
		o.hold(to, goOn, true)
		o.release(from)
	}
}

func (s *stop) release(why measure.State) {
	s.holding = measure.Processing
	if s.loses > 0 {
		s.lose(-s.loses)
		return
	}
	for _, o := range s.of {
		o.release(why)
	}
	if s.places != nil {
		s.places.close(false)
	}
}

func (s *stop) granted(*ask) {
	s.here = true
	s.came.Raise()
}
func (s *stop) waits(bool)  {}
func (s *stop) joined(*ask) {}

// halt and resume: a mender's break pauses the repair.
func (s *stop) halt()   { s.task.Pause() }
func (s *stop) resume() { s.task.Resume() }

// counts is how many servers, or sets of pumps, the stop holds at a time.
func (s *stop) counts() int {
	if s.loses > 0 {
		return len(s.pumps)
	}
	return max(1, len(s.of))
}
