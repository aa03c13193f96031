package clock

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestOrderOfOneTick(t *testing.T) {
	both(t, func(t *testing.T, c *Calendar, n *note) {
		say := func(what int) { n.add("slot %d", what) }
		var s [5]Slot
		for i := range s {
			s[i] = c.Add("", act(say), i)
		}
		c.Go("early", func(k *Task) { k.SleepUntil(100, Roster); n.add("task in roster") })
		c.Go("sleeper", func(k *Task) { k.Sleep(100); n.add("task slept") })
		c.Set(s[0], 100, Last)
		c.Set(s[1], 100, Begin)
		c.Set(s[2], 100, Roster) // before the task that begins at tick 0 sets itself for the same phase
		c.Set(s[3], 100, End)
		c.Set(s[4], 100, End)
		c.Set(s[3], 100, End) // moved to where it is: now behind slot 4
		run(t, c, 100)
		n.want(t, "100 slot 4", "100 slot 3", "100 task slept", "100 slot 2", "100 task in roster", "100 slot 1",
			"100 slot 0")
		if c.Fired() != 9 { // 5 slots, 2 tasks that begin, 2 that wake
			t.Errorf("fired %d", c.Fired())
		}
	})
}

func TestPhasePastBecomesThePresentOne(t *testing.T) {
	both(t, func(t *testing.T, c *Calendar, n *note) {
		var late, other Slot
		late = c.Add("late", act(func(int) { n.add("late, key %d", c.key) }), 0)
		other = c.Add("other", act(func(int) { n.add("other, key %d", c.key) }), 0)
		first := c.Add("first", act(func(int) {
			c.Set(other, 7, Begin) // scheduled first: stays before what is moved into this phase
			c.Set(late, 7, End)
		}), 0)
		c.Set(first, 7, Begin)
		run(t, c, 10)
		n.want(t, "7 other, key 58", "7 late, key 58")
	})
}

func TestSlotsWithinFire(t *testing.T) {
	both(t, func(t *testing.T, c *Calendar, n *note) {
		var a, b, d Slot
		count := 0
		a = c.Add("a", act(func(int) {
			n.add("a due %v", c.Due(a) == Never)
			switch count++; count {
			case 1:
				c.Set(a, 5, End) // again, within its own action
				c.Set(b, 5, End)
			case 2:
				c.Clear(b) // b was next
				c.Set(a, 8, End)
				c.Clear(a) // and this one not after all
				c.Set(d, 9, End)
			}
		}), 0)
		b = c.Add("b", act(func(int) { n.add("b") }), 0)
		d = c.Add("d", act(func(int) { n.add("d"); c.Set(a, Never, End) }), 0)
		c.Set(a, 1, End)
		run(t, c, 20)
		n.want(t, "1 a due true", "5 a due true", "9 d")
		if c.Due(a) != Never || c.Due(d) != Never {
			t.Error("something is left")
		}
		if c.Now() != 20 {
			t.Errorf("ended at %d", c.Now())
		}
	})
}

func TestRunInPiecesAndHalt(t *testing.T) {
	both(t, func(t *testing.T, c *Calendar, n *note) {
		var s Slot
		s = c.Add("tick", act(func(int) {
			n.add("tick")
			c.Set(s, c.Now()+10, End)
			if c.Now() == 30 {
				c.Halt()
			}
		}), 0)
		c.Set(s, 10, End)
		run(t, c, 10) // up to and with 10
		n.add("first run over")
		run(t, c, 45)
		n.add("halted")
		run(t, c, 45)
		n.add("over")
		if c.Due(s) != 50 {
			t.Errorf("due %d", c.Due(s))
		}
		c.Add("more", act(func(int) {}), 0)
		run(t, c, 50)
		n.want(t, "10 tick", "10 first run over", "20 tick", "30 tick", "30 halted", "40 tick", "45 over", "50 tick")
	})
}

func TestKeysNearTheEndAreExact(t *testing.T) {
	both(t, func(t *testing.T, c *Calendar, n *note) {
		say := func(what int) { n.lines = append(n.lines, string(rune('a'+what))) }
		s := [4]Slot{}
		for i := range s {
			s[i] = c.Add("", act(say), i)
		}
		last := maxTick - 1
		c.Go("task", func(k *Task) {
			k.SleepUntil(last-1, Begin)
			say('t' - 'a')
			c.Set(s[2], last, End)
			k.SleepUntil(last, Roster)
			say('u' - 'a')
		})
		c.Set(s[0], last, Begin)
		c.Set(s[1], last-1, Roster)
		c.Set(s[3], last, Last)
		run(t, c, last)
		if got := strings.Join(n.lines, ""); got != "btcuad" {
			t.Errorf("order %s, want btcuad", got)
		}
		if c.Now() != last || c.key != last*8+int64(Last) || float64(c.key+5) != float64(int64(1)<<53) {
			t.Errorf("ended at %d, key %d", c.Now(), c.key)
		}
	})
}

func TestTimeThatDoesNotMoveOn(t *testing.T) {
	both(t, func(t *testing.T, c *Calendar, _ *note) {
		c.Budget = 1000
		s := Slot(0)
		s = c.Add("dryer/gate", act(func(int) { c.Set(s, c.Now(), End) }), 0)
		c.Set(s, 90*Minute, End)
		var e *BudgetError
		if err := c.Run(Day); !errors.As(err, &e) {
			t.Fatal("got", err)
		}
		if e.Name != "dryer/gate" || e.Tick != 90*Minute || e.Entries != 1001 || c.Now() != 90*Minute {
			t.Errorf("got %+v", e)
		}
		if want := "clock: 1001 entries at 1h30m0s of simulated time, the last by dryer/gate: time does not move on"; e.Error() != want {
			t.Errorf("got %q", e.Error())
		}
	})
	both(t, func(t *testing.T, c *Calendar, _ *note) {
		c.Budget = 1000
		c.Go("vessel", func(k *Task) {
			for {
				k.Sleep(0)
			}
		})
		if err := c.Run(Day); err == nil || !strings.Contains(err.Error(), "vessel") {
			t.Error("got", err)
		}
	})
}

// TestBudgetIsOfOneTick: many entries are fine while time moves on.
func TestBudgetIsOfOneTick(t *testing.T) {
	both(t, func(t *testing.T, c *Calendar, _ *note) {
		c.Budget = 2
		s := Slot(0)
		s = c.Add("s", act(func(int) { c.Set(s, c.Now()+1, End) }), 0)
		c.Set(s, 0, End)
		run(t, c, 1000)
	})
}

func TestRunRefuses(t *testing.T) {
	c := New()
	run(t, c, 10)
	var inner error
	s := c.Add("s", act(func(int) { inner = c.Run(30) }), 0)
	c.Set(s, 15, End)
	run(t, c, 20)
	for _, tc := range []struct {
		name, want string
		err        error
	}{
		{"an end in the past", "past", c.Run(19)},
		{"an end beyond 35 years", "35 years", c.Run(maxTick)},
		{"never", "35 years", c.Run(Never)},
		{"a run within a run", "within a run", inner},
	} {
		if tc.err == nil || !strings.Contains(tc.err.Error(), tc.want) {
			t.Errorf("%s: got %v", tc.name, tc.err)
		}
	}
}

func TestInternalErrorsPanic(t *testing.T) {
	for _, tc := range []struct {
		name, want string
		do         func(c *Calendar, s Slot)
	}{
		{"set in the past", "past", func(c *Calendar, s Slot) { c.Set(s, 4, Last) }},
		{"set beyond the end of time", "35 years", func(c *Calendar, s Slot) { c.Set(s, maxTick, End) }},
		{"set where the key would overflow", "35 years", func(c *Calendar, s Slot) { c.Set(s, math.MaxInt64/8+9, End) }},
		{"a slot added within a run", "within a run", func(c *Calendar, s Slot) { c.Add("new", nil, 0) }},
		{"a sleep by somebody else", "somebody else", func(c *Calendar, s Slot) {
			c.tasks[0].Sleep(1)
		}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			c := New()
			defer c.Close()
			s := c.Add("other", act(func(int) {}), 0)
			k := c.Add("culprit", act(func(int) { tc.do(c, s) }), 0)
			c.Go("task", func(t *Task) { t.Sleep(Never) })
			c.Set(k, 5, End)
			var f *Fault
			if err := c.Run(10); !errors.As(err, &f) || f.Task != "culprit" || f.Tick != 5 || !strings.Contains(f.Error(), tc.want) {
				t.Errorf("got %v", err)
			}
		})
	}
}
