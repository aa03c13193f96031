package selftest

import (
	"context"
	"fmt"
	"math"
	"strings"

	"pascaline/scenarios"
	"pascaline/scenarios/units"
	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/measure"
	"pascaline/sim/study"
	"pascaline/testdata"
)

// Seed is the seed of every run here: a check passes or fails for good, not by luck.
const Seed = 20260101

// Runner runs scenarios for one case.
type Runner struct {
	ctx  context.Context
	Seed uint64
	read func(file string) ([]byte, error) // of testdata/published; nil: those that are part of the program
}

// Context ends when the checks are to be given up.
func (r *Runner) Context() context.Context { return r.ctx }

// File reads a scenario of testdata/published and makes it ready, for a simulated length of its own (0: as the file says).
func (r *Runner) File(name string, length clock.Tick) (*line.Model, error) {
	read := r.read
	if read == nil {
		read = publishedFile
	}
	b, err := read(name)
	if err != nil {
		return nil, err
	}
	return r.Text(name, string(b), length)
}

func publishedFile(name string) ([]byte, error) { return testdata.Files.ReadFile("published/" + name) }

// Text makes a scenario ready that stands in text; name is for its faults.
func (r *Runner) Text(name, text string, length clock.Tick) (*line.Model, error) {
	s, faults := scenarios.ReadBytes(name, []byte(text))
	if len(faults) > 0 {
		list := make([]string, len(faults))
		for i := range faults {
			list[i] = faults[i].Headline()
		}
		return nil, fmt.Errorf("%s", strings.Join(list, "\n"))
	}
	if length > 0 {
		s.Run.OneReplication = scenarios.Length{For: units.Duration(length)}
	}
	return line.New(s)
}

// Once runs one replication.
func (r *Runner) Once(m *line.Model) (*line.Record, error) {
	if err := r.ctx.Err(); err != nil {
		return nil, err
	}
	return study.One(m, line.Options{Seed: r.Seed, Replication: 1})
}

// Between runs a file of testdata/published up to an instant and, with the same random numbers, on to a later one: what lies between
// has no trace of the empty start.
func (r *Runner) Between(name string, from, to clock.Tick) (*Window, error) {
	w := &Window{}
	for _, x := range []struct {
		at  clock.Tick
		rec **line.Record
	}{{from, &w.before}, {to, &w.after}} {
		m, err := r.File(name, x.at)
		if err != nil {
			return nil, err
		}
		if *x.rec, err = r.Once(m); err != nil {
			return nil, err
		}
	}
	return w, nil
}

// Window is what happened between two instants of one replication.
type Window struct{ before, after *line.Record }

// Ticks is the length of the window.
func (w *Window) Ticks() clock.Tick { return w.after.Length - w.before.Length }

// Per is how often a time fits into the window.
func (w *Window) Per(unit clock.Tick) float64 { return float64(w.Ticks()) / float64(unit) }

// Packs is the number of packs finished in the window.
func (w *Window) Packs() float64 { return float64(w.after.Packs - w.before.Packs) }

// Share is the share of the window that the servers of a station, numbered from 0 in the order of the line, spent in a state.
func (w *Window) Share(station int, s measure.State) float64 {
	var sum clock.Tick
	servers := w.after.Stations[station].Servers
	for i := range servers {
		sum += servers[i].Times[s] - w.before.Stations[station].Servers[i].Times[s]
	}
	return float64(sum) / float64(w.Ticks()) / float64(len(servers))
}

// Level is the mean number of units that stood in a buffer.
func (w *Window) Level(buffer string) (float64, error) {
	total := 0.0
	for _, x := range []struct {
		rec  *line.Record
		sign float64
	}{{w.before, -1}, {w.after, 1}} {
		found := false
		for i := range x.rec.Buffers {
			if b := &x.rec.Buffers[i]; b.Name == buffer {
				total += x.sign * b.Mean * float64(x.rec.Length)
				found = true
			}
		}
		if !found {
			return 0, fmt.Errorf("there is no buffer %q", buffer)
		}
	}
	return total / float64(w.Ticks()), nil
}

// Lead is the mean time of the packs finished in the window since they, or their carrier, were begun, in ticks.
func (w *Window) Lead() float64 {
	n := w.after.Start.N() - w.before.Start.N()
	return float64(w.after.Start.Sum()-w.before.Start.Sum()) / float64(n)
}

// FromVariance is the tolerance of a mean over t units of time, 4 standard errors, where avar is the limit of t times its variance
// (for a count N: the limit of Var N(t)/t).
func FromVariance(avar, t float64) float64 { return 4 * math.Sqrt(avar/t) }
