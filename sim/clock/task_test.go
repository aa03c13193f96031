package clock

import (
	"errors"
	"runtime"
	"slices"
	"strings"
	"testing"
)

func TestSleepStandsWhilePaused(t *testing.T) {
	both(t, func(t *testing.T, c *Calendar, n *note) {
		k := c.Go("worker", func(k *Task) {
			n.add("slept %v, %d left", k.Sleep(100), k.Left())
			n.add("slept %v, %d left", k.Sleep(10), k.Left()) // begins while paused
			n.add("until %v", k.SleepUntil(300, Roster))      // does not mind
		})
		c.Go("boss", func(b *Task) {
			b.SleepUntil(30, Begin)
			k.Pause()
			k.Pause() // twice is once
			n.add("%d left", k.Left())
			b.SleepUntil(80, Begin)
			n.add("%d left", k.Left())
			k.Resume()
			k.Resume()
			b.SleepUntil(149, Begin)
			n.add("%d left", k.Left())
			b.SleepUntil(150, Begin) // the sleep ended in phase End of this tick; the next one is in hand
			k.Pause()
			b.SleepUntil(200, Begin)
			k.Resume()
			b.SleepUntil(250, Begin)
			k.Pause()
		})
		run(t, c, 400)
		n.want(t, "30 70 left", "80 70 left", "149 1 left", "150 slept true, 0 left", "210 slept true, 0 left",
			"300 until true")
	})
}

func TestPauseInTheTickOfTheEnd(t *testing.T) {
	both(t, func(t *testing.T, c *Calendar, n *note) {
		s := c.Add("stop", act(func(int) {}), 0)
		var k *Task
		c.own[s].f = act(func(int) { k.Pause(); n.add("paused, %d left", k.Left()) })
		c.Set(s, 50, End) // set before the task sleeps: comes first in the same phase
		k = c.Go("worker", func(k *Task) { k.Sleep(50); n.add("done") })
		c.Go("boss", func(b *Task) { b.Sleep(70); k.Resume() })
		run(t, c, 100)
		n.want(t, "50 paused, 0 left", "70 done")
	})
}

func TestWake(t *testing.T) {
	both(t, func(t *testing.T, c *Calendar, n *note) {
		var never Signal
		var k *Task
		c.Go("early", func(*Task) { k.Wake() }) // k has not begun: nothing
		k = c.Go("worker", func(k *Task) {
			k.Wake() // runs: nothing
			n.add("slept %v, %d left", k.Sleep(100), k.Left())
			n.add("paused sleep %v, %d left", k.Sleep(100), k.Left())
			n.add("until %v, %d left", k.SleepUntil(1000, End), k.Left())
			n.add("without end %v, %v left", k.Sleep(Never), k.Left() == Never)
			n.add("raised %v", k.WaitUntil(&never, 1000))
			k.Wait(&never)
			n.add("waited")
			n.add("slept %v, %d left", k.Sleep(5), k.Left())
		})
		c.Go("boss", func(b *Task) {
			b.Sleep(30)
			k.Wake()
			k.Wake() // woken already
			b.Sleep(10)
			k.Pause()
			b.Sleep(10)
			k.Wake()
			b.Sleep(1)
			k.Resume() // is in SleepUntil: nothing
			for range 4 {
				b.Sleep(10)
				k.Wake()
			}
			b.Sleep(10)
			k.Wake() // has ended: nothing
		})
		run(t, c, 2000)
		n.want(t, "30 slept false, 70 left", "50 paused sleep false, 90 left", "61 until false, 939 left",
			"71 without end false, true left", "81 raised false", "91 waited", "96 slept true, 0 left")
		if never.first != nil || never.last != nil {
			t.Error("the signal still has somebody")
		}
	})
}

func TestSignal(t *testing.T) {
	both(t, func(t *testing.T, c *Calendar, n *note) {
		var s Signal
		for _, name := range []string{"a", "b", "c"} {
			c.Go(name, func(k *Task) {
				if name == "b" {
					n.add("b raised %v", k.WaitUntil(&s, 10)) // leaves the middle of the list
					k.Sleep(5)
				}
				k.Wait(&s)
				n.add("%s", name)
				n.add("%s raised %v", name, k.WaitUntil(&s, 40))
			})
		}
		c.Go("raiser", func(k *Task) {
			k.SleepUntil(20, Roster)
			s.Raise()
			s.Raise() // all are woken already
			n.add("raised")
			k.SleepUntil(40, Roster)
			s.Raise() // before the limit of time in the same tick
			k.SleepUntil(50, Begin)
			s.Raise() // nobody waits
		})
		run(t, c, 100)
		n.want(t, "10 b raised false", "20 raised", "20 a", "20 c", "20 b", "40 a raised true", "40 c raised true",
			"40 b raised true")
		if c.Parked() != nil {
			t.Error("parked", c.Parked())
		}
	})
}

// TestTimeoutsLeaveNothingInTheSignal: a task that waits many times with a limit is in the list once, and is woken
// once.
func TestTimeoutsLeaveNothingInTheSignal(t *testing.T) {
	both(t, func(t *testing.T, c *Calendar, n *note) {
		var s Signal
		wakes := 0
		c.Go("waiter", func(k *Task) {
			for {
				k.WaitUntil(&s, c.Now()+1)
				wakes++
			}
		})
		run(t, c, 1000)
		if s.first == nil || s.first != s.last || s.first.after != nil {
			t.Error("not exactly one waits")
		}
		c.Go("raiser", func(k *Task) { s.Raise() })
		before := wakes
		run(t, c, 1000)
		if wakes != before+1 {
			t.Errorf("woken %d times", wakes-before)
		}
	})
}

func TestWaitUntilATickThatIsPast(t *testing.T) {
	both(t, func(t *testing.T, c *Calendar, n *note) {
		var s Signal
		c.Go("waiter", func(k *Task) { k.Sleep(10); n.add("raised %v", k.WaitUntil(&s, 5)) })
		run(t, c, 20)
		n.want(t, "10 raised false")
	})
}

func TestGoWithinARun(t *testing.T) {
	both(t, func(t *testing.T, c *Calendar, n *note) {
		c.Go("first", func(k *Task) {
			k.SleepUntil(7, Roster)
			c.Go("second", func(k *Task) { n.add("second, phase %d", c.key&7); k.Sleep(3); n.add("second") })
			n.add("first ends")
		})
		run(t, c, 20)
		n.want(t, "7 first ends", "7 second, phase 2", "10 second")
		if len(c.tasks) != 0 {
			t.Error("tasks that have ended are still known")
		}
	})
}

func TestParked(t *testing.T) {
	both(t, func(t *testing.T, c *Calendar, _ *note) {
		var s Signal
		c.Go("waits", func(k *Task) { k.Wait(&s) })
		c.Go("waits with a limit", func(k *Task) { k.WaitUntil(&s, 1000) })
		c.Go("sleeps", func(k *Task) { k.Sleep(1000) })
		c.Go("paused", func(k *Task) { k.Pause(); k.Sleep(10) })
		c.Go("without end", func(k *Task) { k.Sleep(Never) })
		c.Go("ended", func(k *Task) {})
		run(t, c, 100)
		if got := strings.Join(c.Parked(), ", "); got != "waits, paused, without end" {
			t.Errorf("parked: %s", got)
		}
	})
}

//go:noinline
func deepFault(v any) { panic(v) }

func TestPanicInATaskBecomesAFault(t *testing.T) {
	boom := errors.New("boom")
	both(t, func(t *testing.T, c *Calendar, n *note) {
		c.Go("vessel 2", func(k *Task) { k.Sleep(5); deepFault(boom) })
		c.Go("other", func(k *Task) { k.Sleep(5); n.add("not reached") })
		err := c.Run(10)
		var f *Fault
		if !errors.As(err, &f) || !errors.Is(err, boom) || f.Task != "vessel 2" || f.Tick != 5 {
			t.Fatalf("got %v", err)
		}
		if !strings.Contains(string(f.Stack), "deepFault") {
			t.Errorf("stack lost:\n%s", f.Stack)
		}
		if f.Error() != "vessel 2, at 5µs of simulated time: boom" {
			t.Errorf("message %q", f.Error())
		}
		if again := c.Run(20); again != err {
			t.Errorf("a second run gave %v", again)
		}
		n.want(t)
	})
}

func TestPanicInASlotBecomesAFault(t *testing.T) {
	both(t, func(t *testing.T, c *Calendar, _ *note) {
		s := c.Add("dryer/out", act(func(int) { deepFault("bad") }), 0)
		c.Set(s, 3, End)
		var f *Fault
		if err := c.Run(10); !errors.As(err, &f) || f.Task != "dryer/out" || f.Tick != 3 || f.Unwrap() != nil ||
			!strings.Contains(string(f.Stack), "deepFault") {
			t.Fatalf("got %v", err)
		}
	})
}

func TestCloseUnwindsTasks(t *testing.T) {
	before := runtime.NumGoroutine()
	var ended []string
	c := New()
	var s Signal
	for _, name := range []string{"sleeps", "waits", "paused"} {
		c.Go(name, func(k *Task) {
			defer func() { ended = append(ended, name) }()
			switch name {
			case "waits":
				k.Wait(&s)
			case "paused":
				k.Pause()
			}
			k.Sleep(1000)
			t.Error("went on")
		})
	}
	run(t, c, 10)
	c.Go("never begun", func(*Task) { t.Error("begun") })
	c.Close()
	c.Close()
	if !slices.Equal(ended, []string{"sleeps", "waits", "paused"}) {
		t.Errorf("ended: %v", ended)
	}
	noMoreThan(t, before)
}

func TestPanicWhileUnwinding(t *testing.T) {
	c := New()
	c.Go("bad", func(k *Task) { defer deepFault("late"); k.Sleep(10) })
	run(t, c, 5)
	defer func() {
		if f, ok := recover().(*Fault); !ok || f.Value != "late" {
			t.Error("lost")
		}
	}()
	c.Close()
}
