package study_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/result"
	"pascaline/sim/study"
)

// withGains runs a scenario and works out its gains.
func withGains(t *testing.T, m *line.Model, o study.Options) *result.Run {
	t.Helper()
	r, err := study.Run(context.Background(), m, o)
	if err != nil {
		t.Fatal(err)
	}
	if err := study.Gains(context.Background(), m, o, r); err != nil {
		t.Fatal(err)
	}
	return r
}

func gain(t *testing.T, r *result.Run, candidate string) result.Gain {
	t.Helper()
	for _, x := range r.Gains.Rows {
		if x.Candidate == candidate {
			return x
		}
	}
	t.Fatalf("no candidate %s in %+v", candidate, r.Gains.Rows)
	return result.Gain{}
}

// exponential is a line of exponential stations with rates in units of a tenth of a second and places between, without end before it.
type exponential struct {
	name       string
	rates      []float64
	places     []int
	best       int // station that a little more speed helps most, from 1
	throughput float64
	elasticity []float64
	active     []float64 // mean active period of each station
	starved    []float64 // share of the time; processing is throughput over rate, blocked the rest
}

// Four lines with their exact values: throughput, elasticity d ln X / d ln rate, mean active period and shares of states, solved from their Markov chains (the
// check values of bottleneck cases A, C, D, F: derived; active periods after Roser, Nakano and Tanaka 2001).
var exponentials = []exponential{
	{"slow middle", []float64{1.2, 1, 1.1}, []int{2, 2}, 2, 0.791425139785, []float64{0.207318200802, 0.489477878102, 0.303203934182}, []float64{2.06292325329, 3.53583489193, 2.75597401106}, []float64{0, 0.081734216086, 0.280522600195}},
	{"five alike", []float64{1, 1, 1, 1, 1}, []int{2, 2, 2, 2}, 3, 0.680489477417, []float64{0.147786504079, 0.226882377984, 0.250662267514, 0.226882377992, 0.147786504081},
		[]float64{2.50718963296, 2.45935317596, 2.49789604287, 2.56770057407, 2.73819939647}, []float64{0, 0.0890531833901, 0.150554240291, 0.215174680427, 0.319510522583}},
	{"slow first", []float64{1, 1.1, 1.2, 1.15}, []int{3, 3, 3}, 1, 0.823426878309, []float64{0.371445322197, 0.316689445546, 0.184017729396, 0.127847530923},
		[]float64{4.49393073255, 2.97434647242, 2.31622831035, 2.78063074596}, []float64{0, 0.145527215265, 0.231979916807, 0.283976627557}},
	{"small places before, slowest last", []float64{1, 1.02, 1, 0.99}, []int{0, 0, 8}, 2, 0.568206535874, []float64{0.31571894574, 0.366971696911, 0.315791215133, 0.00151815027396},
		[]float64{1.57978800482, 1.52820619758, 1.70122558736, 2.0585051663}, []float64{0, 0.208533887304, 0.431552571504, 0.426054004168}},
}

// text writes the line as a scenario and gives the names of its stations.
func (x exponential) text() (string, []string) {
	names := []string{"labeller", "packing", "sealer", "case labeller", "palletiser"}[5-len(x.rates):]
	s := "scenario: " + x.name + "\nproduct: {packs_per_case: 1}\n"
	for i, n := range names {
		places := 0
		if i > 0 {
			places = x.places[i-1]
		}
		key := map[string]string{"case labeller": "case_labeller"}[n]
		if key == "" {
			key = n
		}
		switch {
		case n == "packing" && i > 0:
			s += fmt.Sprintf("table: {places: %d}\npacking: {time: {mean: %.6f s, as: exponential}}\n", places, 10/x.rates[i])
		case n == "packing" || n == "labeller":
			s += fmt.Sprintf("%s: {time: {mean: %.6f s, as: exponential}}\n", key, 10/x.rates[i])
		default:
			s += fmt.Sprintf("%s: {places_before: %d, time: {mean: %.6f s, as: exponential}}\n", key, places, 10/x.rates[i])
		}
	}
	return s + "run: {one_replication: 12 h}\n", names
}

// What a tenth more speed brings is 1.1 to the power of the elasticity, less a little, since a faster station limits less.
func TestGainsOfExponentialLines(t *testing.T) {
	if testing.Short() {
		t.Skip("some hundred thousand packs")
	}
	for _, x := range exponentials {
		t.Run(x.name, func(t *testing.T) {
			t.Parallel()
			text, names := x.text()
			s, faults := scenarios.ReadBytes("x.yaml", []byte(text))
			for _, f := range faults {
				t.Fatal(f)
			}
			m, err := line.New(s)
			if err != nil {
				t.Fatal(err)
			}
			r := withGains(t, m, study.Options{Seed: 7, Replications: 20, Precision: 0.0001, Workers: 1})
			rate := r.Headline.PacksPerH
			near(t, "throughput", rate.Mean, 360*x.throughput, 1.5**rate.HalfWidth)
			for i, name := range names {
				g := gain(t, r, name)
				half := (*g.High - *g.Low) / 2 / rate.Mean
				near(t, name+", gain", g.Share, math.Pow(1+study.Quicker, x.elasticity[i])-1, half+0.005)
				near(t, name+", mean active period", r.Bottleneck.Rows[i].MeanActiveS/10, x.active[i], 0.05*x.active[i])
			}
			for i, st := range r.Stations {
				processing := x.throughput / x.rates[i]
				for k, want := range map[string]float64{"processing": processing, "starved": x.starved[i], "blocked": 1 - processing - x.starved[i]} {
					for _, share := range st.Shares {
						if share.State == k {
							near(t, st.Name+" "+k, share.Share, want, 2*share.Half+0.001)
						}
					}
				}
			}
			best := gain(t, r, names[x.best-1])
			if !best.Shown || r.Gains.Rows[0].Candidate != best.Candidate && !best.NotToldApart {
				t.Errorf("%s is not among the greatest: %+v", best.Candidate, r.Gains.Rows)
			}
		})
	}
}

// By hand: two machines of 2 s and 3 s in a row, two packers who are never short of a bench. The second machine limits: a tenth faster, the line
// makes a tenth more. Nothing else changes anything, and a run from an empty line loses or wins at most a pack an hour.
func TestGainsByHand(t *testing.T) {
	e := entrant(t, "two", "scenario: two\nlabeller: {time: 2 s}\ncheckweigher: {time: 3 s, places_before: 5}\nrun: {one_replication: 10 h}\n")
	r := withGains(t, e.Model, study.Options{Seed: 1, Replications: 3, Precision: 0.01, Workers: 2})
	g := gain(t, r, "checkweigher")
	near(t, "packs/h more of the slower", g.Mean, 120, 0.2)
	if !g.Shown || r.Gains.Rows[0].Candidate != "checkweigher" {
		t.Errorf("%+v", r.Gains.Rows)
	}
	near(t, "packs/h more of the quicker", gain(t, r, "labeller").Mean, 0, 0.2)
}

// The hold is never made shorter: a vessel a tenth faster is faster in its other phases only. One carrier to a load, phases of 60 s and a hold of
// 180 s: 240 s a cycle become 180 + 60/1.1 = 234.545 s.
func TestAFasterVesselKeepsItsHold(t *testing.T) {
	e := entrant(t, "vessel", `scenario: vessel
product: {packs_per_carrier: 10, hold: 180 s}
vessel: {carriers_per_load: 1, phases: {close: 20 s, come_up: 40 s}}
run: {one_replication: 40 h}
`)
	faster, err := e.Model.Faster("vessel", 0.1)
	if err != nil {
		t.Fatal(err)
	}
	r, err := study.One(faster, line.Options{Seed: 1, Replication: 1})
	if err != nil {
		t.Fatal(err)
	}
	v := r.Vessel
	near(t, "cycle", float64(v.CycleSum)/1e6/float64(v.Cycles), 180+60/1.1, 0.001)
	for ph, name := range line.PhaseNames() {
		if name == "hold" {
			near(t, "hold", float64(v.PhaseSum[ph])/1e6/float64(v.PhaseN[ph]), 180, 0)
		}
	}
}

// People: a third packer at two full benches is given a bench too, and brings half as much again.
func TestOneMorePacker(t *testing.T) {
	e := entrant(t, "pack", "scenario: pack\nproduct: {packs_per_case: 10}\npacking: {benches: 2, crew: 1 packer, time: 30 s}\npeople: {packers: {heads: 2}}\nrun: {one_replication: 10 h}\n")
	r := withGains(t, e.Model, study.Options{Seed: 1, Replications: 2, Precision: 0.01, Workers: 1})
	near(t, "a third packer", gain(t, r, "packers").Share, 0.5, 1e-9)
	near(t, "packing a tenth faster", gain(t, r, "packing").Share, 0.1, 0.001)
}

// An interrupted search leaves the run as it was, marked incomplete.
func TestGainsInterrupted(t *testing.T) {
	e := entrant(t, "bench", bench)
	o := study.Options{Seed: 1, Replications: 20, Precision: 0.01, Workers: 2}
	r, err := study.Run(context.Background(), e.Model, o)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if err := study.Gains(ctx, e.Model, o, r); err != nil || r.Gains != nil || !r.Replications.Incomplete {
		t.Errorf("%v, %+v", err, r.Gains)
	}
}

// A machine of 2 s to which a pack comes every 3 s: what comes in limits, nothing else does.
func TestWhatComesInLimits(t *testing.T) {
	e := entrant(t, "paced", "scenario: paced\nsupply: {every: 3 s}\nlabeller: {time: 2 s}\nrun: {one_replication: 10 h}\n")
	r := withGains(t, e.Model, study.Options{Seed: 1, Replications: 3, Precision: 0.01, Workers: 1})
	near(t, "supply, packs/h more", gain(t, r, "supply").Mean, 120, 0.2)
	near(t, "labeller, packs/h more", gain(t, r, "labeller").Mean, 0, 0.2)
}
