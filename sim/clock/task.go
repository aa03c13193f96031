package clock

import (
	"iter"

	"github.com/fschuetz04/simgo"
)

// doing is what a task is about.
type doing uint8

const (
	runs     doing = iota // or has ended
	starts                // has not begun
	sleeps                // in own time
	sleepsTo              // a tick
	waits                 // for a signal
	wakes                 // its wake-up is on the calendar for the present tick
)

// A Task is sequential code that sleeps and waits: a coroutine that simgo's events resume. Only the task itself may
// call Sleep, SleepUntil, Wait and WaitUntil; anybody on the same calendar may call the rest. Its code must not
// recover from a panic that it did not cause, since Close ends it by one.
type Task struct {
	c     *Calendar
	name  string
	next  func() (struct{}, bool)
	stop  func()
	yield func(struct{}) bool
	tmpl  simgo.Event  // copied for every wake-up
	live  *simgo.Event // the one wake-up that counts; any other in simgo's queue is stale

	doing  doing
	woken  bool // the sleep or wait was ended by Wake
	paused bool
	raised bool
	due    Tick // of the sleep or wait in hand, Never without one
	left   Tick // of a sleep that stands or is over

	signal        *Signal // waited for
	before, after *Task   // in its list
}

// unwind is the panic by which Close ends a task.
type unwind struct{}

// Go makes a task that starts at the present tick in phase Begin. The name is for error messages and the trace.
func (c *Calendar) Go(name string, run func(*Task)) *Task {
	t := &Task{c: c, name: name, doing: starts}
	t.next, t.stop = iter.Pull(func(yield func(struct{}) bool) {
		t.yield = yield
		defer t.end()
		run(t)
	})
	t.tmpl = c.template(t.resume)
	c.tasks = append(c.tasks, t)
	t.wakeAt(c.now, Begin)
	return t
}

// end is the last act of a task's code. A panic becomes a Fault here, where its stack still is.
func (t *Task) end() {
	t.doing = runs
	t.c.ended(t)
	switch p := recover(); p.(type) {
	case nil, unwind:
	default:
		t.c.fault = t.c.newFault(t.name, p)
		t.c.Halt()
	}
}

// resume is the handler of the task's events.
func (t *Task) resume(ev *simgo.Event) {
	if ev != t.live { // taken back
		return
	}
	c := t.c
	t.live = nil
	if t.doing == waits { // its time is over
		t.signal.remove(t)
	}
	t.doing = runs
	c.to(int64(c.sim.Now()))
	c.hand, c.task, c.inner = byTask, t, t
	c.fired++
	if c.trace != nil {
		c.trace(c.key, t.name, -1)
	}
	t.next()
	c.inner = nil
}

// wakeAt schedules the one wake-up that counts. Without a tick (Never) there is none.
func (t *Task) wakeAt(tick Tick, p Phase) {
	t.live = nil
	if tick == Never {
		return
	}
	k := t.c.clamp(tick, p)
	t.c.seq++
	ev := new(simgo.Event)
	*ev = t.tmpl
	t.live = ev
	t.c.schedule(ev, k)
}

// wake schedules the wake-up at this tick, in phase Begin.
func (t *Task) wake() {
	t.doing = wakes
	t.wakeAt(t.c.now, Begin)
}

// own makes sure that it is the task itself that asks.
func (t *Task) own() {
	if t.c.inner != t {
		panic("clock: task " + t.name + " told to sleep or wait by somebody else")
	}
}

// park gives control back until the wake-up.
func (t *Task) park() {
	if !t.yield(struct{}{}) {
		panic(unwind{})
	}
}

// Now is the present tick.
func (t *Task) Now() Tick { return t.c.now }

// Name is the name that the task was made with.
func (t *Task) Name() string { return t.name }

// Sleep lets d ticks of the task's own time pass, which stands still while the task is paused; a sleep that begins
// while it is paused begins to count at Resume. It ends in phase End. It returns true when the time has passed, false
// when Wake ended it before (Left then says what was missing). With Never only Wake ends it. A negative d is an
// internal error and panics.
func (t *Task) Sleep(d Tick) bool {
	t.own()
	if d < 0 {
		panic("clock: task " + t.name + " sleeps a negative time")
	}
	t.doing, t.woken, t.left = sleeps, false, d
	if !t.paused {
		t.count()
	}
	t.park()
	return t.slept()
}

// count lets what is left of the sleep go by from now on.
func (t *Task) count() {
	t.due = Never
	if t.left != Never {
		t.due = t.c.now + t.left
	}
	t.wakeAt(t.due, End)
}

// slept is the answer of a sleep that is over.
func (t *Task) slept() bool {
	if !t.woken {
		t.left = 0
	}
	return !t.woken
}

// SleepUntil sleeps until a tick and phase of the calendar's time; pauses do not matter to it. It returns true when
// that moment has come, false when Wake ended it before. A phase that is past at this tick becomes the present one; a
// tick that is past is an internal error and panics.
func (t *Task) SleepUntil(tick Tick, p Phase) bool {
	t.own()
	t.doing, t.woken, t.due = sleepsTo, false, tick
	t.wakeAt(tick, p)
	t.park()
	return t.slept()
}

// Wake makes a sleep or wait of t, paused or not, return at this tick in phase Begin, with false. It does nothing when
// t does neither, as when it was woken already in this tick.
func (t *Task) Wake() {
	switch t.doing {
	case sleeps, sleepsTo:
		t.left = t.Left()
	case waits:
		t.signal.remove(t)
	default:
		return
	}
	t.woken = true
	t.wake()
}

// Left is what is left of the sleep in hand, or what was left when Wake ended it. It is 0 after a sleep that was not
// cut short, and Never for one without end.
func (t *Task) Left() Tick {
	switch {
	case t.doing == sleeps && t.paused, t.doing != sleeps && t.doing != sleepsTo:
		return t.left
	case t.due == Never:
		return Never
	}
	return t.due - t.c.now
}

// Pause makes the task's own time stand still: a Sleep, in hand or to come, does not count until Resume. It does not
// touch SleepUntil, Wait and WaitUntil. A second Pause does nothing: who pauses for several reasons counts them.
func (t *Task) Pause() {
	if t.paused {
		return
	}
	if t.doing == sleeps {
		t.left, t.live = t.Left(), nil
	}
	t.paused = true
}

// Resume lets the task's own time go on. It does nothing when the task is not paused.
func (t *Task) Resume() {
	if !t.paused {
		return
	}
	t.paused = false
	if t.doing == sleeps {
		t.count()
	}
}
