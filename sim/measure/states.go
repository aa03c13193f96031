// Package measure keeps what is observed of a line while it runs: states, levels, times and counts.
//
// Everything streams: memory does not grow with the length of a run. Everything is kept in whole numbers (ticks,
// pieces, and their products), so that sums do not depend on their order; real numbers appear only where a mean is
// asked for. Quantiles alone come from a histogram; their error is stated.
package measure

import "pascaline/sim/clock"

// State is what a server does or why it does not; exactly one holds at a time.
type State uint8

// The states, weakest first: of several reasons to stand, the highest is shown.
const (
	Processing State = iota
	Starved
	Blocked
	WaitOperator
	Changeover
	WaitRepair
	UnderRepair
	PlannedStop
	OffShift
	NStates // how many there are
)

var stateNames = [NStates]string{
	"processing", "starved", "blocked", "waiting for operator", "changeover", "waiting for repair", "under repair",
	"planned stop", "off shift",
}

// String is the state's name as reports print it.
func (s State) String() string {
	if s >= NStates {
		return "unknown state"
	}
	return stateNames[s]
}

// activeStates are those in which a server itself holds the line (Roser, Nakano and Tanaka 2002), as bits: it works,
// is made ready or is down. In all others it waits for something outside, or is not meant to run.
const activeStates = 1<<Processing | 1<<Changeover | 1<<WaitRepair | 1<<UnderRepair

// Active says whether a server in state s is itself what the line waits for, if anything does.
func (s State) Active() bool { return activeStates>>s&1 == 1 }

// States sums the time that one server spends in each state.
type States struct {
	state   State
	active  bool       // the last time that was counted was active
	since   clock.Tick // the state was entered
	counted clock.Tick // times are complete up to here
	times   [NStates]clock.Tick
	periods int64
}

// NewStates begins in state s.
func NewStates(s State, now clock.Tick) States {
	return States{state: s, since: now, counted: now}
}

// Set enters state x. Entering the state that holds already changes nothing. Time must not run backwards.
func (s *States) Set(x State, now clock.Tick) {
	if x == s.state {
		return
	}
	s.count(now)
	s.state, s.since = x, now
}

// count adds the time since the last count to the state that holds. A state left in the tick in which it was entered
// is no state: it neither makes nor parts an active period.
func (s *States) count(now clock.Tick) {
	d := now - s.counted
	if d == 0 {
		return
	}
	s.counted = now
	s.times[s.state] += d
	active := s.state.Active()
	if active && !s.active {
		s.periods++
	}
	s.active = active
}

// Now is the state that holds.
func (s *States) Now() State { return s.state }

// Since is when that state was entered.
func (s *States) Since() clock.Tick { return s.since }

// So is the time spent in state x up to now.
func (s *States) So(x State, now clock.Tick) clock.Tick {
	if x == s.state {
		return s.times[x] + now - s.counted
	}
	return s.times[x]
}

// Close counts up to now and returns the time spent in each state; they add up to the time since NewStates. The states
// may go on afterwards.
func (s *States) Close(now clock.Tick) [NStates]clock.Tick {
	s.count(now)
	return s.times
}

// Active is the time in active states and the number of active periods, up to the last Close or change of state. A
// period runs from one inactive state to the next: active states that follow each other are one. The mean of
// the active-period method is total/periods.
func (s *States) Active() (total clock.Tick, periods int64) {
	for x := range NStates {
		if x.Active() {
			total += s.times[x]
		}
	}
	return total, s.periods
}
