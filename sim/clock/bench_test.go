package clock

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

// again sets its slot again and again.
type again struct {
	c *Calendar
	s Slot
	d Tick
}

func (a *again) Fire(int) { a.c.Set(a.s, a.c.Now()+a.d, End) }

func benchSlots(b *testing.B, c *Calendar, n int) {
	r := rand.New(rand.NewPCG(1, 2))
	rate := 0.0
	for range n {
		a := &again{c: c, d: 1000 + Tick(r.IntN(100000))}
		a.s = c.Add("slot", a, 0)
		c.Set(a.s, a.d, End)
		rate += 1 / float64(a.d)
	}
	b.ReportAllocs()
	b.ResetTimer()
	if err := c.Run(Tick(float64(b.N) / rate)); err != nil { // about b.N entries
		b.Fatal(err)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(c.Fired()), "ns/entry")
}

func BenchmarkSlots(b *testing.B) {
	for _, n := range []int{4, 8, 16, 32, 64} {
		b.Run(fmt.Sprint(n), func(b *testing.B) { benchSlots(b, New(), n) })
	}
}

func BenchmarkSlotsPure(b *testing.B) { benchSlots(b, NewPure(), 16) }

func BenchmarkTaskSleep(b *testing.B) {
	for _, n := range []int{1, 10} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			c := New()
			defer c.Close()
			for i := range n {
				c.Go("task", func(t *Task) {
					for {
						t.Sleep(1000 + Tick(i))
					}
				})
			}
			b.ReportAllocs()
			b.ResetTimer()
			if err := c.Run(Tick(b.N/n) * 1000); err != nil {
				b.Fatal(err)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(c.Fired()), "ns/entry")
		})
	}
}

func BenchmarkSignal(b *testing.B) {
	c := New()
	defer c.Close()
	var s Signal
	c.Go("waiter", func(t *Task) {
		for {
			t.WaitUntil(&s, c.Now()+5000)
		}
	})
	c.Go("raiser", func(t *Task) {
		for {
			t.Sleep(1000)
			s.Raise()
		}
	})
	b.ReportAllocs()
	if err := c.Run(Tick(b.N) * 1000); err != nil {
		b.Fatal(err)
	}
}
