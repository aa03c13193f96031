package study_test

import (
	"testing"

	"pascaline/scenarios/units"
	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/measure"
	"pascaline/sim/study"
)

// oneFor runs a model's scenario for another length.
func oneFor(m *line.Model, minutes int) (*line.Record, error) {
	s := *m.Scenario()
	s.Run.OneReplication.For = units.Duration(minutes) * units.Duration(clock.Minute)
	m, err := line.New(&s)
	if err != nil {
		return nil, err
	}
	return study.One(m, line.Options{Seed: 1, Replication: 1})
}

// The whole-line cases, derived by hand: fixed times, everything else ample, cycles/h counted from the 200th to the last cycle end.
func TestWholeLines(t *testing.T) {
	for _, c := range []struct {
		file, why string
		want      float64
	}{
		{"one-station", "740 x 1.5 / 2 = 555 s a load: loading governs", 3600.0 / 555},
		{"two-stations", "277.5 s a load: the vessel governs", 3600.0 / 416},
		{"three-people", "370 s a load: the vessel governs, a second station buys nothing", 3600.0 / 416},
		{"swap-by-crew", "(111 + 20) x 5 = 655 s a load: no gain of the second station", 3600.0 / 655},
		{"swap-by-machine", "the crew fills elsewhere: 555 s a load", 3600.0 / 555},
		{"dryer-100", "100 x 60 / 740", 100 * 60 / 740.0},
		{"dryer-110", "the vessel governs", 3600.0 / 416},
		{"dryer-110-once", "110 / 1.05 packs/min", 110 / 1.05 * 60 / 740},
		{"dryer-120-every", "120 x 0.85 packs/min", 120 * 0.85 * 60 / 740},
	} {
		t.Run(c.file, func(t *testing.T) {
			r := once(t, "testdata/lines/"+c.file+".yaml", line.Options{Seed: 1, Replication: 1, CycleEnds: true})
			e := r.Vessel.Ends
			n := len(e)
			got := float64(n-200) * 3600e6 / float64(e[n-1]-e[199])
			near(t, c.why, got, c.want, 0.0005) // the digits printed
		})
	}
}

// Counted over 8 h from an empty line: 51 and 68 cycles.
func TestWholeLinesFromEmpty(t *testing.T) {
	for file, want := range map[string]int64{"one-station-8h": 51, "two-stations-8h": 68} {
		r := once(t, "testdata/lines/"+file+".yaml", line.Options{Seed: 1, Replication: 1})
		if r.Vessel.Cycles != want {
			t.Errorf("%s: %d cycles in 8 h, want %d", file, r.Vessel.Cycles, want)
		}
	}
}

// A freed person is kept for a task for two: it starts at 45 s, and the kept time is shown.
func TestKeptPeople(t *testing.T) {
	r := once(t, "testdata/lines/kept-people.yaml", line.Options{Seed: 1, Replication: 1})
	near(t, "task for two at work until 55 s", inState(r, "loading", measure.Processing), 10, 0)
	near(t, "kept for it from 30 s to 45 s", float64(r.Pools[0].Kept)/1e6, 15, 0)
}

// Time starved for want of a carrier is told apart from other starving: here it is all of it, and on the plain line, whose loading is
// starved only after the last carrier of the day, it is none.
func TestShortOfCarriers(t *testing.T) {
	r := once(t, "testdata/lines/carriers-short.yaml", line.Options{Seed: 1, Replication: 1})
	near(t, "starved, s", inState(r, "loading", measure.Starved), 200, 0)
	near(t, "for want of a carrier, s", float64(r.Stations[0].Lacked)/1e6, 200, 0)
	r = once(t, "scenarios/examples/plain.yaml", line.Options{Seed: 1, Replication: 1})
	if r.Stations[0].Lacked != 0 || inState(r, "loading", measure.Starved) == 0 {
		t.Errorf("plain line: %d us of %g s starved for want of carriers, want none of some", r.Stations[0].Lacked, inState(r, "loading", measure.Starved))
	}
}
