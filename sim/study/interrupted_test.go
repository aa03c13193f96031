package study

import (
	"context"
	"math"
	"testing"
)

// Of lots of 40 and 10 min, due after 60 and 15 min, the second goes first. Interrupted as soon as the fresh replications begin, or within the search, the
// order that was found is there, held against the list in a few replications and marked.
func TestInterruptedOrderKeepsWhatItFound(t *testing.T) {
	jobs := []job{{first: 40, due: 60}, {first: 10, due: 15}}
	s := jobsScenario(t, jobs, []int{0, 1}, false)
	o := OrderOptions{Options: Options{Seed: 1, Replications: 50, Workers: 1}, Goal: LeastLateness, Look: 3, Try: 10}
	ctx, cancel := context.WithCancel(t.Context())
	o.Progress = func(n int, _ float64) { cancel() }
	r, err := Order(ctx, s, o)
	if err != nil || !r.Incomplete || r.Replications < 1 || r.Replications >= 50 || r.Suggested.Lots[0].Lot != "l1" || r.Same {
		t.Fatalf("%+v, %v", r, err)
	}
	q := &orderer{s: s, o: o, seen: map[string]Sample{}}
	q.o.Progress = nil
	done, cancel := context.WithCancel(t.Context())
	cancel()
	if err = q.confirm(done, r, []int{0, 1}, []int{1, 0}); err != nil || r.Replications != leastConfirmed || !r.Incomplete || r.Suggested.Lots[0].Lot != "l1" {
		t.Errorf("%+v, %v", r, err)
	}
	if _, err = Order(done, s, o); err == nil {
		t.Error("nothing was tried and there is an answer")
	}
}

// Of eleven replications in which the last never ended, P90 is the tenth value, 9 h, and no place between it and never; P50 is the sixth. Where two never
// ended it is never. 0.7 of 90 steps is 63, though the product falls short of it by a last bit.
func TestQuantileBesideNever(t *testing.T) {
	never := math.Inf(1)
	x := Sample{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, never}
	f := finish(x)
	if f.P90H == nil || *f.P90H != 9 || *f.P50H != 5 || *f.P10H != 1 || math.Abs(f.Never-1.0/11) > 1e-12 {
		t.Errorf("P90 %v, P50 %v, P10 %v, never %v", f.P90H, f.P50H, f.P10H, f.Never)
	}
	x[9] = never
	if f := finish(x); f.P90H != nil || !math.IsInf(x.Quantile(0.9), 1) || !math.IsInf(x.Quantile(0.95), 1) {
		t.Errorf("P90 %v of two that never ended", f.P90H)
	}
	long := make(Sample, 91)
	for i := range long {
		long[i] = float64(i)
		if i > 63 {
			long[i] = never
		}
	}
	if got := long.Quantile(0.7); got != 63 {
		t.Errorf("%v, want 63", got)
	}
	if got := (Sample{1, 2}).Quantile(0.25); got != 1.25 {
		t.Errorf("%v, want a quarter of the way", got)
	}
}
