package clock

import (
	"runtime"

	"github.com/fschuetz04/simgo"
)

// schedule queues ev in simgo at key k and mirrors it in the calendar. Nothing else may schedule in simgo.
func (c *Calendar) schedule(ev *simgo.Event, k int64) {
	// The delay is taken from simgo's own time, which lags behind ours: both are whole numbers below 2^53, so
	// now + (k - now) is exactly k.
	ev.TriggerDelayed(float64(k) - c.sim.Now())
	c.mirror.push(stamp{k, c.now, c.seq})
}

// template is a pending event with one handler and without finalizer, by value. Each wake-up is a copy of it: simgo's
// own Event sets a finalizer that aborts the event, so that garbage collection could change results.
func (c *Calendar) template(h simgo.Handler) simgo.Event {
	ev := c.sim.Event()
	runtime.SetFinalizer(ev, nil)
	ev.AddHandler(h)
	return *ev
}

// mirror is a heap of the stamps of simgo's queue, in simgo's order: time, then order of scheduling.
type mirror []stamp

func (m *mirror) push(e stamp) {
	*m = append(*m, e)
	a := *m
	i := len(a) - 1
	for i > 0 {
		up := (i - 1) / 2
		if !e.before(a[up]) {
			break
		}
		a[i], i = a[up], up
	}
	a[i] = e
}

func (m *mirror) pop() {
	a := *m
	n := len(a) - 1
	e := a[n]
	a = a[:n]
	*m = a
	if n == 0 {
		return
	}
	i := 0
	for {
		child := 2*i + 1
		if child >= n {
			break
		}
		if child+1 < n && a[child+1].before(a[child]) {
			child++
		}
		if !a[child].before(e) {
			break
		}
		a[i], i = a[child], child
	}
	a[i] = e
}
