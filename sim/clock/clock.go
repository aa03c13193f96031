// Package clock is the only calendar of a run, and the only place where time passes.
//
// Time is a whole number of microseconds. A calendar has slots and tasks. A slot has at most one pending time: setting
// it again moves it, clearing it takes it away, so nothing stale is left behind and nothing is allocated; slots carry
// what happens to every pack. A task is sequential code, a coroutine that a simgo event resumes; tasks carry what
// happens a few times an hour. Every simgo event is mirrored by one key in the calendar, whose action is one simgo
// step, so both kinds keep one order: by tick, then by phase, then by order of scheduling.
//
// A calendar and all that is on it belong to one goroutine at a time.
package clock

import (
	"fmt"
	"math"
	"slices"
	"time"

	"github.com/fschuetz04/simgo"
)

// Tick is a moment or a span of time in microseconds.
type Tick = int64

// Spans of time in ticks.
const (
	Microsecond Tick = 1
	Millisecond      = 1000 * Microsecond
	Second           = 1000 * Millisecond
	Minute           = 60 * Second
	Hour             = 60 * Minute
	Day              = 24 * Hour
	Week             = 7 * Day
)

// Never is later than any moment of a run.
const Never Tick = math.MaxInt64

// A Phase settles what comes first at one tick.
type Phase int64

// The phases of a tick, in their order: what ends comes before what begins.
const (
	End    Phase = iota // work that ends, packs that arrive
	Roster              // stops, repairs, breaks, shifts
	Begin               // work that begins, tasks that are woken
	Last                // after all else, for the end of the run
)

// A key is tick<<phaseBits + phase. It stays below 2^53, so that simgo's float64 time holds it exactly: 2^50
// microseconds are 35 years.
const (
	phaseBits       = 3
	maxTick   Tick  = 1 << (53 - phaseBits)
	never     int64 = math.MaxInt64
)

// DefaultBudget is how many entries may fire at one tick before Run calls it endless.
const DefaultBudget = 1_000_000

// Slot names one pending time of a Firer.
type Slot int32

// A Firer acts when one of its slots is due; what is the number that the slot was added with.
type Firer interface{ Fire(what int) }

type owner struct {
	f    Firer
	what int
}

// Calendar orders slots and tasks by (tick, phase, order of scheduling).
type Calendar struct {
	// Budget is how many entries may fire at one tick; beyond it Run returns a *BudgetError.
	Budget uint64

	key   int64 // of the entry in hand
	now   Tick  // its tick
	seq   uint64
	fired uint64
	mark  uint64 // fired when this tick began

	running bool
	halted  bool
	fault   *Fault

	tournament
	soon  *Soon   // nil until made
	goes  Aheader // nil: nobody goes ahead
	own   []owner
	names []string
	hand  Slot  // the slot that fired last, or byTask
	task  *Task // the task that was resumed last
	inner *Task // the task that runs just now

	mirror mirror
	sim    *simgo.Simulation
	tasks  []*Task
	pure   *pure // nil except in pure mode
	trace  func(key int64, name string, what int)
}

// byTask in Calendar.hand says that a task was in hand last, not a slot.
const byTask Slot = -1

// New returns an empty calendar at tick 0.
func New() *Calendar {
	return &Calendar{Budget: DefaultBudget, sim: simgo.NewSimulation()}
}

// Now is the present tick.
func (c *Calendar) Now() Tick { return c.now }

// Fired is the number of entries carried out so far: slots that fired and tasks that were resumed.
func (c *Calendar) Fired() uint64 { return c.fired }

// Trace makes f see every entry before it is carried out: its key (tick*8 + phase), the name of the slot or task, and
// the slot's number (-1 for a task).
func (c *Calendar) Trace(f func(key int64, name string, what int)) { c.trace = f }

// Add makes a slot that fires f with what. Slots are added before Run or between two runs, never within one. The name
// is for error messages and the trace.
func (c *Calendar) Add(name string, f Firer, what int) Slot {
	if c.running {
		panic("clock: slot " + name + " added within a run")
	}
	c.own = append(c.own, owner{f, what})
	c.names = append(c.names, name)
	return c.tournament.add()
}

// Set makes slot s due at a tick, moving it when it is set already. A phase that is past at this tick becomes the
// present one; a tick that is past, or beyond 35 years, is an internal error and panics. Never clears the slot.
func (c *Calendar) Set(s Slot, tick Tick, p Phase) { c.set(s, tick, p, c.now) }

func (c *Calendar) set(s Slot, tick Tick, p Phase, as Tick) {
	k := tick<<phaseBits + int64(p)
	if k < c.key || tick >= maxTick {
		if tick == Never {
			c.Clear(s)
			return
		}
		k = c.clamp(tick, p)
	}
	c.seq++
	c.stamps[s] = stamp{k, as, c.seq}
	if c.pure != nil {
		c.pure.set(s, k)
		return
	}
	c.replay(int32(s))
}

// Clear takes slot s off the calendar. Clearing a slot that is not set does nothing.
func (c *Calendar) Clear(s Slot) {
	if c.stamps[s].key == never {
		return
	}
	c.stamps[s].key = never
	if c.pure != nil {
		c.pure.clear(s)
		return
	}
	c.replay(int32(s))
}

// Due is the tick at which s is set, or Never.
func (c *Calendar) Due(s Slot) Tick {
	if k := c.stamps[s].key; k != never {
		return k >> phaseBits
	}
	return Never
}

// clamp is the key of a tick and phase; what is asked for a phase gone by happens in the present one.
func (c *Calendar) clamp(tick Tick, p Phase) int64 {
	switch {
	case tick >= maxTick:
		panic(fmt.Sprintf("clock: set for %d us, beyond 35 years", tick))
	case tick < c.now:
		panic(fmt.Sprintf("clock: set for %s, in the past of %s", span(tick), span(c.now)))
	}
	return max(tick<<phaseBits+int64(p), c.key)
}

// to makes key the present one.
func (c *Calendar) to(key int64) {
	c.key = key
	if tick := key >> phaseBits; tick != c.now {
		c.now, c.mark = tick, c.fired
	}
}

// last names the entry in hand, or the last one.
func (c *Calendar) last() string {
	switch {
	case c.hand >= 0 && int(c.hand) < len(c.names):
		return c.names[c.hand]
	case c.task != nil:
		return c.task.name
	}
	return "nothing"
}

// Close ends all tasks, also those that never began. It is called once the last run is over, from outside it.
// Nothing of the calendar may be used afterwards, except to read what it counted.
func (c *Calendar) Close() {
	tasks, before := c.tasks, c.fault
	c.tasks = nil
	for _, t := range tasks {
		t.live = nil
		t.stop()
	}
	if c.fault != before {
		panic(c.fault) // a defer of a task went wrong while it unwound
	}
}

// Parked names the tasks that wait with nothing scheduled to wake them, in the order in which they were made: those
// that wait for a signal without a limit of time, those that sleep without end and those that stand paused.
func (c *Calendar) Parked() []string {
	var names []string
	for _, t := range c.tasks {
		if t.live == nil && t != c.inner {
			names = append(names, t.name)
		}
	}
	return names
}

// ended forgets a task whose code has returned.
func (c *Calendar) ended(t *Task) {
	if i := slices.Index(c.tasks, t); i >= 0 {
		c.tasks = slices.Delete(c.tasks, i, i+1)
	}
}

// span writes a moment for people, as 1h2m3.5s.
func span(t Tick) string { return (time.Duration(t) * time.Microsecond).String() }
