package line

import (
	"pascaline/sim/clock"
	"pascaline/sim/measure"
)

// A server is one thing whose states are told apart: a loading station, a vessel, a tip, a lane, a bench place, a machine's head.
// It has what it does of itself (processing, starved, blocked, waiting for operator) and reasons to stand, which overlap: a
// break can meet a repair. The strongest reason is shown.
type server struct {
	l     *Line
	name  string
	st    measure.States
	does  measure.State          // of itself
	why   [measure.NStates]int16 // reasons to stand
	stood int16                  // how many reasons
	due   int16                  // stops that wait for the end of the work in hand: nothing new is begun
	ended uint64                 // tasks, loads or packs ended
	runs  []*runClock            // count time in processing
	shift []*runClock            // count time not off shift
	count []*counter             // count cycles or packs
	mover int                    // number in the search for who holds the line, or none
	rest  clock.Signal           // raised when the work in hand is done while a stop is due
}

// able tells whether new work may be begun.
func (s *server) able() bool { return s.stood == 0 && s.due == 0 }

// canHand tells whether finished work may leave: a station under repair lets it go, one that is off shift or in a line that
// stands as a whole does not.
func (s *server) canHand() bool { return s.why[measure.OffShift] == 0 && !s.l.still }

func (s *server) base() *server { return s }

// do says what the server does of itself from now on.
func (s *server) do(x measure.State) { s.doAt(x, s.l.cal.Now()) }

func (s *server) doAt(x measure.State, now clock.Tick) {
	if s.does != x {
		s.turnTo(x, now)
	}
}

func (s *server) turnTo(x measure.State, now clock.Tick) {
	was := s.does
	s.does = x
	switch {
	case s.stood == 0:
		s.show(x, now)
	case was == measure.PlannedStop || x == measure.PlannedStop:
		s.show(s.strongest(), now)
	}
}

// stand adds a reason, and tells whether it is the first.
func (s *server) stand(why measure.State) bool {
	s.why[why]++
	s.stood++
	s.show(s.strongest(), s.l.cal.Now())
	return s.stood == 1
}

// unstand takes a reason away, and tells whether it was the last.
func (s *server) unstand(why measure.State) bool {
	if s.why[why] == 0 {
		s.l.fail(s.name, "a reason to stand is taken away that was not there: "+why.String())
		return false
	}
	s.why[why]--
	s.stood--
	s.show(s.strongest(), s.l.cal.Now())
	return s.stood == 0
}

// strongest is the state that holds: the strongest reason, or what the server does.
func (s *server) strongest() measure.State {
	if s.does == measure.PlannedStop && s.why[measure.OffShift] == 0 { // its people are on a break: that comes before a repair
		return measure.PlannedStop
	}
	for x := measure.NStates - 1; x > 0 && s.stood > 0; x-- {
		if s.why[x] > 0 {
			return measure.State(x)
		}
	}
	return s.does
}

func (s *server) show(x measure.State, now clock.Tick) {
	was := s.st.Now()
	if was == x {
		return
	}
	if s.l.ahead {
		s.l.chain.changed = max(s.l.chain.changed, now)
	} else {
		s.l.blame.settle(now)
	}
	if len(s.runs) > 0 {
		tell(s.runs, was == measure.Processing, x == measure.Processing, now, s.l.ahead)
	}
	if len(s.shift) > 0 {
		tell(s.shift, was != measure.OffShift, x != measure.OffShift, now, s.l.ahead)
	}
	if s.mover != none && was.Active() != x.Active() {
		s.l.moving.Set(s.mover, x.Active(), now, s.l.ahead)
	}
	s.st.Set(x, now)
}

// did counts n more ended (cycles of a bench or vessel, packs of a belt) holding packs packs.
func (s *server) did(packs int32) {
	s.ended++
	for _, c := range s.count {
		c.add(s, packs)
	}
	if s.due > 0 {
		s.rest.Raise()
	}
}

// A stander is a server seen by what makes it stand: stops, roster, breaks.
type stander interface {
	hold(why measure.State, pol policy, lets bool) // one more reason; lets: its people may go to other tasks
	release(why measure.State)                     // one reason less
	wantOff(off bool)                              // off shift as soon as the task in hand allows, or back on
	busy() bool                                    // work is in hand
	base() *server
}

// runClock counts time while at least one of its servers is in the state it counts.
type runClock struct {
	on    int
	since clock.Tick
	total clock.Tick
	runs  clock.Signal // raised when it begins to run
	told  clock.Tick   // total when somebody began to go ahead
	until clock.Tick   // what the total must come to before who waits for that signal has something to do; Never: nobody waits
}

// tell starts or stops clocks. Ahead of time nobody is woken: who went ahead does that afterwards.
func tell(cs []*runClock, was, is bool, now clock.Tick, ahead bool) {
	if was == is {
		return
	}
	for _, c := range cs {
		if is {
			c.start(now, ahead)
		} else {
			c.stop(now)
		}
	}
}

func (c *runClock) start(now clock.Tick, ahead bool) {
	if c.on == 0 {
		c.since = now
		if !ahead {
			c.runs.Raise()
		}
	}
	c.on++
}

func (c *runClock) stop(now clock.Tick) {
	c.on--
	if c.on == 0 {
		c.total += now - c.since
	}
}

func (c *runClock) so(now clock.Tick) clock.Tick {
	if c.on > 0 {
		return c.total + now - c.since
	}
	return c.total
}
