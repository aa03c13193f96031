//go:build independent

package study_test

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"os/exec"
	"slices"
	"strconv"
	"testing"

	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/measure"
	"pascaline/sim/result"
	"pascaline/sim/study"
)

// The model of testdata/independent/plain.py (with parts.py beside it) was written in SimPy 3 from the words of the design and of the scenario, not from this code.
// Run with: go test -tags independent ./sim/study -run Independent (needs Debian's python3-simpy3).
const python = "/usr/bin/python3" // SimPy 3 is Debian's; another Python on the path would not have it

// day is one replication of the other model.
type day struct {
	PacksPerH  float64                       `json:"packs_per_h"`
	CyclesPerH float64                       `json:"cycles_per_h"`
	States     map[string]map[string]float64 `json:"states_s"`
	MeanOut    float64                       `json:"mean_out_s"`
	P95        float64                       `json:"p95_out_s"`
}

// share is the share of a station's base spent in a state; the base leaves out off shift and planned stops, as the design says.
func (d *day) share(station, state string) float64 { return d.States[station][state] / d.base(station) }

func (d *day) base(station string) (seconds float64) {
	for k, v := range d.States[station] {
		if k != "off shift" && k != "planned stop" {
			seconds += v
		}
	}
	return seconds
}

// otherModel runs it in two processes; its replications are numbered, so the split changes nothing.
func otherModel(t *testing.T, n int, args ...string) (days []day) {
	t.Helper()
	var cmds []*exec.Cmd
	var outs, errs [2]bytes.Buffer
	for i := range 2 {
		c := exec.Command(python, append([]string{"../../testdata/independent/plain.py", "--replications", strconv.Itoa(n / 2), "--first", strconv.Itoa(1 + i*n/2)}, args...)...)
		c.Stdout, c.Stderr = &outs[i], &errs[i]
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		cmds = append(cmds, c)
	}
	for i, c := range cmds {
		if err := c.Wait(); err != nil {
			t.Fatalf("%v\n%s", err, errs[i].String())
		}
		for lines := bufio.NewScanner(&outs[i]); lines.Scan(); {
			var d day
			if err := json.Unmarshal(lines.Bytes(), &d); err != nil {
				t.Fatal(err)
			}
			days = append(days, d)
		}
	}
	return days
}

// agree demands that two estimates differ by at most 4 combined standard errors and the slack.
func agree(t *testing.T, what string, other study.Sample, mean, se, slack float64) {
	t.Helper()
	otherSE := other.SD() / math.Sqrt(float64(len(other)))
	tol := 4*math.Hypot(otherSE, se) + slack
	d := math.Abs(other.Mean() - mean)
	line := fmt.Sprintf("%-40s SimPy %.6g ± %.2g, this program %.6g ± %.2g (standard errors), apart %.2g, allowed %.2g", what, other.Mean(), otherSE, mean, se, d, tol)
	if !(d <= tol) {
		t.Error(line)
	} else {
		t.Log(line)
	}
}

func standardError(e result.Estimate) float64 { return e.SD / math.Sqrt(float64(e.N)) }

func TestIndependentModel(t *testing.T) {
	for _, c := range []struct {
		name, file string
		n          int
		args       []string
	}{
		{"plain", "scenarios/examples/plain.yaml", 40, nil},
		{"saturated: no roster, breaks, stops, part loads, pace of shifts", "testdata/independent/plain-saturated.yaml", 40, []string{"--saturated"}},
		{"frequent stops", "testdata/independent/plain-often.yaml", 60, []string{"--often"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			days := otherModel(t, c.n, c.args...)
			if len(days) != c.n {
				t.Fatalf("%d replications of the SimPy model, want %d", len(days), c.n)
			}
			m := model(t, c.file)
			r, err := study.Run(context.Background(), m, study.Options{Seed: 11, Replications: 200, Workers: 2})
			if err != nil {
				t.Fatal(err)
			}
			sideBySide(t, days, r)
			compareRecords(t, days, m, 200)
		})
	}
}

func sideBySide(t *testing.T, days []day, r *result.Run) {
	of := func(f func(*day) float64) (s study.Sample) {
		for i := range days {
			s = append(s, f(&days[i]))
		}
		return s
	}
	h := &r.Headline
	agree(t, "packs/h", of(func(d *day) float64 { return d.PacksPerH }), h.PacksPerH.Mean, standardError(h.PacksPerH), 0)
	agree(t, "cycles/h", of(func(d *day) float64 { return d.CyclesPerH }), h.CyclesPerH.Mean, standardError(*h.CyclesPerH), 0)
	p95 := r.ColdChain.FromStart.P95S
	agree(t, "P95 out of the chilled store, s", of(func(d *day) float64 { return d.P95 }), p95.Mean, standardError(p95), p95.Mean/128) // half a bin of the histogram
	shares := 0
	for _, s := range r.Stations {
		for _, x := range s.Shares {
			se := x.Half / 1.972 // t quantile, 199 degrees of freedom
			// The slack is for rare states that one side may not have seen at all: 0.05 points.
			agree(t, s.Name+" "+x.State, of(func(d *day) float64 { return d.share(s.Name, x.State) }), x.Share, se, 0.0005)
			shares++
		}
	}
	if shares != len(days[0].States)*len(result.States) {
		t.Errorf("%d shares were compared; the SimPy model has %d stations", shares, len(days[0].States))
	}
}

// compareRecords compares what results give no interval for: the hours behind the shares, in which start-up, breaks, planned stops and the
// end of the day are seen, and the mean time out of the chilled store.
func compareRecords(t *testing.T, days []day, m *line.Model, n int) {
	var out study.Sample
	bases := map[string]study.Sample{}
	for i := range n {
		rec, err := study.One(m, line.Options{Seed: 12, Replication: i + 1})
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, rec.Start.Mean()/1e6)
		for _, s := range rec.Stations {
			var base clock.Tick
			for _, x := range s.Servers {
				for k, v := range x.Times {
					if k := measure.State(k); k != measure.OffShift && k != measure.PlannedStop {
						base += v
					}
				}
			}
			bases[s.Name] = append(bases[s.Name], float64(base)/3600e6)
		}
	}
	both := func(what string, other func(*day) float64, own study.Sample) {
		var s study.Sample
		for i := range days {
			s = append(s, other(&days[i]))
		}
		agree(t, what, s, own.Mean(), own.SD()/math.Sqrt(float64(len(own))), 1e-4)
	}
	both("mean time out of the chilled store, s", func(d *day) float64 { return d.MeanOut }, out)
	for _, name := range slices.Sorted(maps.Keys(bases)) {
		both(name+", hours behind its shares", func(d *day) float64 { return d.base(name) / 3600 }, bases[name])
	}
}
