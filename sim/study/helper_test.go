package study_test

import (
	"math"
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/measure"
	"pascaline/sim/study"
)

// model reads a scenario file below the module's root, as pascaline run does.
func model(t *testing.T, file string) *line.Model {
	t.Helper()
	s, faults, err := scenarios.Read("../../"+file, "")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range faults {
		t.Error(f)
	}
	if len(faults) > 0 {
		t.FailNow()
	}
	m, err := line.New(s)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// once runs a scenario file once.
func once(t *testing.T, file string, o line.Options) *line.Record {
	t.Helper()
	r, err := study.One(model(t, file), o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// inState is the time all servers of a station spent in a state, in seconds.
func inState(r *line.Record, station string, s measure.State) float64 {
	var sum clock.Tick
	for i := range r.Stations {
		if r.Stations[i].Name == station {
			for _, x := range r.Stations[i].Servers {
				sum += x.Times[s]
			}
		}
	}
	return float64(sum) / 1e6
}

// near fails unless got is want within tol.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.9g, want %.9g within %g", what, got, want, tol)
	}
}
