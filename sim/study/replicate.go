// Package study asks questions of a line: how much, how sure, what holds it back. It repeats replications until the answer is as
// precise as was asked, and turns records of runs into results. The same seed and scenario give the same results, byte for byte,
// whatever the number of workers: records are taken in order of their numbers, and what was begun beyond the last is thrown away.
package study

import (
	"context"
	"fmt"
	"math"
	"runtime/debug"

	"pascaline/sim/line"
)

// Least is the least number of replications before precision may end a study, most the cap.
// With lots the question is a chance, that of being late, so there are at least LeastForLots: one near 10 % is then known to some 6 points.
const (
	Least        = 20
	LeastForLots = 100
	Most         = 1000
)

// Options of a study.
type Options struct {
	Seed         uint64
	Replications int                          // 0: until the precision is reached
	Precision    float64                      // relative half width to be reached
	Workers      int                          // at least 1
	Progress     func(done int, half float64) // called in order after each replication, if set
	Steady       bool                         // the line as it would run for ever: the start is cut off
	WeekH        float64                      // with Steady: hours in a week of the roster that was left out; 0: those of the scenario
	Each         func(r *line.Record)         // called in order with each replication, if set
	Replays      bool                         // the typical, worst and best replication are run again to be shown
}

// A RunError is a replication that failed: a fault of this program. It carries what is needed to see it again.
type RunError struct {
	Scenario    string
	Seed        uint64
	Replication int
	Err         error
}

// Error names the scenario, the seed and the replication, so that it can be run again alone.
func (e *RunError) Error() string {
	return fmt.Sprintf("replication %d of %q with seed %d failed: %v", e.Replication, e.Scenario, e.Seed, e.Err)
}

// Unwrap gives the cause.
func (e *RunError) Unwrap() error { return e.Err }

// One runs one replication alone. It gives the same record as in a batch.
func One(m *line.Model, o line.Options) (r *line.Record, err error) {
	defer func() { // a fault of ours: it must name the run, not end the program
		if p := recover(); p != nil {
			err = fmt.Errorf("%v\n%s", p, debug.Stack())
		}
		if err != nil {
			err = &RunError{string(m.Scenario().Name), o.Seed, o.Replication, err}
		}
	}()
	l, err := m.Line(o)
	if err != nil {
		return nil, err
	}
	if err := l.Run(); err != nil {
		return nil, err
	}
	return l.Record(o.Replication), nil
}

// replicate runs replications 1, 2, 3 … and gives each to take in order, until take says that it is enough, ctx is cancelled (what
// was taken so far stands: interrupted is true) or one fails.
func replicate(ctx context.Context, m *line.Model, o Options, most int, take func(*line.Record) bool) (interrupted bool, err error) {
	return inOrder(ctx, o.Workers, most, func(_ context.Context, n int) (*line.Record, error) {
		return One(m, line.Options{Seed: o.Seed, Replication: n, CycleEnds: o.Steady})
	}, take)
}

// Together runs replications 1, 2, 3 … of several models, each number with the same random numbers in all of them (common random
// numbers: the same thing, by its name and number, has the same luck), and gives the records of one number, in order of the models, to take. It
// ends as replicate does. A model that is nil is left out: its record is nil.
func Together(ctx context.Context, models []*line.Model, o Options, most int, take func(n int, records []*line.Record) bool) (interrupted bool, err error) {
	n := 0
	return inOrder(ctx, o.Workers, most, func(ctx context.Context, n int) ([]*line.Record, error) {
		records := make([]*line.Record, len(models))
		for i, m := range models {
			if m == nil || ctx.Err() != nil {
				continue
			}
			r, err := One(m, line.Options{Seed: o.Seed, Replication: n})
			if err != nil {
				return nil, err
			}
			records[i] = r
		}
		return records, ctx.Err()
	}, func(records []*line.Record) bool {
		n++
		return take(n, records)
	})
}

// outcome is finished work on its way to be taken in order.
type outcome[T any] struct {
	it  T
	err error
}

// inOrder does work 1 to most, several at a time, and gives what comes of each to take in order of their numbers, until take says that it is
// enough, ctx is cancelled (interrupted) or one fails. What was begun beyond the last is thrown away; do sees that it is no longer wanted by its ctx.
func inOrder[T any](ctx context.Context, workers, most int, do func(ctx context.Context, n int) (T, error), take func(T) bool) (interrupted bool, err error) {
	workers = max(1, min(workers, most))
	ahead := make(chan chan outcome[T], 2*workers) // in order; its length bounds what is begun beyond the last
	type job struct {
		n   int
		out chan outcome[T]
	}
	jobs := make(chan job)
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	for range workers {
		go func() {
			for j := range jobs {
				it, err := do(ctx, j.n)
				j.out <- outcome[T]{it, err}
			}
		}()
	}
	go func() {
		defer close(ahead)
		defer close(jobs)
		for n := 1; n <= most; n++ {
			out := make(chan outcome[T], 1)
			select {
			case ahead <- out:
			case <-ctx.Done():
				return
			}
			select {
			case jobs <- job{n, out}:
			case <-ctx.Done():
				close(out)
				return
			}
		}
	}()
	for out := range ahead {
		select {
		case <-ctx.Done():
			return true, nil
		case x, ok := <-out:
			if !ok || ctx.Err() != nil {
				return true, nil
			}
			if x.err != nil {
				return false, x.err
			}
			if !take(x.it) {
				return false, nil
			}
		}
	}
	return ctx.Err() != nil, nil
}

// precise tells whether a sample's interval is narrow enough: half width / |mean| <= gamma / (1 + gamma) (Law and Kelton: from memory).
func precise(s Sample, gamma float64) bool {
	h, ok := s.Half()
	return ok && len(s) >= Least && h <= math.Abs(s.Mean())*gamma/(1+gamma)
}
