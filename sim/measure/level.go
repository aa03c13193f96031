package measure

import (
	"fmt"
	"math"
	"time"

	"pascaline/sim/clock"
)

// Level follows the content of some places over time, from 0 at tick 0.
//
// Content x time up to tick t is content x t less the sum of each change x its tick, so a change costs one product and nothing is added up
// in between; full time likewise. Sums may run over on the way: they come back.
type Level struct {
	n       int64
	places  int64      // the most that may be there
	last    clock.Tick // of the last change
	turn    clock.Tick // a step of time ends, Never: no more
	moment  int64      // sum of change x tick; n x t - moment is exact up to 8,000 pieces for 35 years
	full    clock.Tick // sum of ticks at which the places were full no more, less those at which they became full
	highest int64      // since the step of time began
	most    int64      // before that
	err     error
	steps   *steps
}

// NewLevel is the empty level of so many places; 0 means without limit.
func NewLevel(places int64) *Level {
	if places <= 0 {
		places = math.MaxInt64
	}
	return &Level{places: places, turn: clock.Never}
}

// Add changes the content by n. A content below 0 or above the places, or a time before the last one, is an imbalance:
// the first is remembered with its tick (Err), and the content is kept as it is counted.
func (l *Level) Add(n int64, now clock.Tick) {
	if now >= l.turn || now < l.last {
		now = l.pass(now)
	}
	l.last = now
	l.moment += n * now
	if l.n >= l.places {
		l.full += now
	}
	l.n += n
	l.highest = max(l.highest, l.n)
	if uint64(l.n) >= uint64(l.places) { // below 0 too
		l.brim(now)
	}
}

// brim notes that the places are full, or that they cannot hold that.
func (l *Level) brim(now clock.Tick) {
	if l.n >= l.places {
		l.full -= now
	}
	if l.n != l.places {
		l.imbalance(now)
	}
}

// pass ends the steps of time that are over at a tick, and gives the tick of the change.
func (l *Level) pass(now clock.Tick) clock.Tick {
	if now < l.last {
		l.imbalance(now)
		return l.last
	}
	for now >= l.turn {
		l.nextStep(now > l.turn)
	}
	return now
}

// area is content x ticks up to a tick.
func (l *Level) area(now clock.Tick) int64 { return l.n*now - l.moment }

// Value is the content now.
func (l *Level) Value() int64 { return l.n }

// Max is the highest content so far, however short it was.
func (l *Level) Max() int64 { return max(l.most, l.highest) }

// Mean is the content's mean over the time from tick 0 to now.
func (l *Level) Mean(now clock.Tick) float64 {
	if now <= 0 {
		return float64(l.n)
	}
	return float64(l.area(now)) / float64(now)
}

// Full is the time up to now during which every place was taken; 0 when there is no limit.
func (l *Level) Full(now clock.Tick) clock.Tick {
	if l.n >= l.places {
		return l.full + now
	}
	return l.full
}

// Err is the first imbalance, a *LevelError, or nil.
func (l *Level) Err() error { return l.err }

func (l *Level) imbalance(now clock.Tick) {
	if l.err == nil {
		l.err = &LevelError{Tick: now, Before: l.last, Content: l.n, Places: l.places}
	}
}

// A LevelError says that a content could not have been: pieces were lost or made, or times were mixed up.
type LevelError struct {
	Tick    clock.Tick
	Before  clock.Tick // the time of the change before
	Content int64
	Places  int64
}

// Error says what the level was, how many places there are, and when.
func (e *LevelError) Error() string {
	at := time.Duration(e.Tick) * time.Microsecond
	switch {
	case e.Tick < e.Before:
		return fmt.Sprintf("level changed at %s after a change at %s", at, time.Duration(e.Before)*time.Microsecond)
	case e.Content < 0:
		return fmt.Sprintf("level of %d at %s", e.Content, at)
	}
	return fmt.Sprintf("level of %d in %d places at %s", e.Content, e.Places, at)
}
