package clock

import (
	"fmt"
	"runtime/debug"
)

// Run carries out everything up to and with tick end, phase Last, and leaves the calendar there. Run may be called
// again with a later end. It returns an error when more than Budget entries fire at one tick (*BudgetError), when a
// task or a slot panics (*Fault), and when end is in the past or beyond 35 years. After an error the calendar can only
// be closed; after a *BudgetError it can also go on with a larger Budget.
func (c *Calendar) Run(end Tick) (err error) {
	switch {
	case c.running:
		return fmt.Errorf("clock: run called within a run, at %s", span(c.now))
	case c.fault != nil:
		return c.fault
	case end < c.now:
		return fmt.Errorf("clock: run to %s, in the past of %s", span(end), span(c.now))
	case end >= maxTick:
		return fmt.Errorf("clock: run to %d us, beyond 35 years", end)
	}
	c.running, c.halted = true, false
	defer func() {
		c.running = false
		if p := recover(); p != nil {
			c.fault = c.newFault(c.last(), p)
			err = c.fault
		}
	}()
	if stop := (end + 1) << phaseBits; c.pure != nil {
		c.pure.run(stop)
	} else {
		c.build()
		c.merge(stop)
	}
	switch {
	case c.fault != nil:
		return c.fault
	case c.spent():
		return &BudgetError{Name: c.last(), Tick: c.now, Entries: c.fired - c.mark}
	case !c.halted:
		c.to(end<<phaseBits + int64(Last))
	}
	return nil
}

// Halt makes Run return after the entry in hand. A later Run goes on from there.
func (c *Calendar) Halt() { c.halted = true }

// merge carries out slots and simgo's events in one order until a key reaches stop.
func (c *Calendar) merge(stop int64) {
	for !c.halted {
		s := c.winner()
		next := c.stamps[s]
		if c.soon.due(next) {
			key := c.soon.stamp.key
			if key >= stop {
				return
			}
			c.soon.stamp.key = never
			c.fire(c.soon.slot, key)
		} else if len(c.mirror) > 0 && c.mirror[0].before(next) {
			if c.mirror[0].key >= stop {
				return
			}
			c.mirror.pop()
			c.sim.Step()
		} else {
			if next.key >= stop {
				return
			}
			if c.goes != nil && c.wentAhead(s, next.key, stop) {
				continue
			}
			c.stamps[s].key = never
			c.fire(Slot(s), next.key)
			if c.stamps[s].key == never { // not set again by its own action
				c.replay(s)
			}
		}
		if c.spent() {
			return
		}
	}
}

// fire carries out slot s at key.
func (c *Calendar) fire(s Slot, key int64) {
	c.to(key)
	c.hand = s
	c.fired++
	o := c.own[s]
	if c.trace != nil {
		c.trace(key, c.names[s], o.what)
	}
	o.f.Fire(o.what)
}

// spent says that more entries fired at this tick than the budget allows.
func (c *Calendar) spent() bool { return c.fired-c.mark > c.Budget }

// A BudgetError says that the entries of one tick had no end: something is set again and again without time passing.
type BudgetError struct {
	Name    string // slot or task that fired last
	Tick    Tick
	Entries uint64
}

// Error names what fired last and the simulated time.
func (e *BudgetError) Error() string {
	return fmt.Sprintf("clock: %d entries at %s of simulated time, the last by %s: time does not move on",
		e.Entries, span(e.Tick), e.Name)
}

// A Fault is a panic inside a task, or inside a slot's action, with the stack that it had there: outside of a
// coroutine that stack is lost.
type Fault struct {
	Task  string // name of the task or slot
	Tick  Tick
	Value any
	Stack []byte
}

func (c *Calendar) newFault(name string, p any) *Fault {
	return &Fault{Task: name, Tick: c.now, Value: p, Stack: debug.Stack()}
}

// Error names the task and the simulated time; the stack is kept apart.
func (f *Fault) Error() string {
	return fmt.Sprintf("%s, at %s of simulated time: %v", f.Task, span(f.Tick), f.Value)
}

// Unwrap is the panic's value when that is an error.
func (f *Fault) Unwrap() error {
	err, _ := f.Value.(error)
	return err
}
