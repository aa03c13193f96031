package study_test

import (
	"context"
	"errors"
	"strings"
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/result"
	"pascaline/sim/study"
)

// The MSER-5 example of the check values (constructed with exact fractions; the rule of White 1997, from memory): 20 batches, the statistic is
// least at d = 4 (433/6400, next 418/5625 at d = 5), the mean of the rest 399/20.
func TestMSER5ByHand(t *testing.T) {
	y := []float64{-6, -3, 0, 3, 6, 18, 4, 7, 10, 13, 21, 24, 10, 13, 16, 21, 24, 10, 13, 16, 20, 23, 26, 12, 15, 18, 21, 24, 27, 13, 17, 20, 23, 26, 12, 15, 18, 21, 24, 27,
		13, 16, 19, 22, 25, 28, 14, 17, 20, 23, 26, 12, 15, 18, 21, 24, 27, 13, 16, 19, 22, 25, 28, 14, 17, 20, 23, 26, 12, 15, 18, 21, 24, 27, 13, 16, 19, 22, 25, 28, 14, 17,
		20, 23, 26, 12, 15, 18, 21, 24, 27, 13, 16, 19, 22, 25, 28, 14, 17, 20}
	cut, short := study.MSER5(y)
	if cut != 4 || short {
		t.Errorf("cut %d batches, short %v, want 4, false", cut, short)
	}
	near(t, "mean of the rest", study.Sample(y[5*cut:]).Mean(), 19.95, 1e-12)
}

func TestMSER5Short(t *testing.T) {
	rising := make([]float64, 100) // never steady: the longer the cut the better
	for i := range rising {
		rising[i] = float64(i)
	}
	if cut, short := study.MSER5(rising); cut != 10 || !short {
		t.Errorf("a series that only rises: cut %d, short %v, want 10, true", cut, short)
	}
	if cut, short := study.MSER5(make([]float64, 49)); cut != 0 || !short {
		t.Errorf("nine batches: cut %d, short %v, want 0, true", cut, short)
	}
	if cut, short := study.MSER5(make([]float64, 50)); cut != 0 || short {
		t.Errorf("ten alike: cut %d, short %v, want 0, false", cut, short)
	}
	if cut, short := study.MSER5(nil); cut != 0 || !short {
		t.Errorf("nothing: cut %d, short %v", cut, short)
	}
}

// By hand: sums 30 and 12 give 2.5; residuals 10 - 2.5 x 4 = 0, 11 - 12.5 = -1.5, 9 - 7.5 = 1.5 with s = 1.5; half width 4.3027 x 1.5 / sqrt 3 / 4.
func TestRatioByHand(t *testing.T) {
	mean, half, ok := study.Ratio(study.Sample{10, 11, 9}, study.Sample{4, 5, 3})
	if !ok {
		t.Fatal("no interval")
	}
	near(t, "ratio", mean, 2.5, 1e-12)
	near(t, "half width", half, 4.302653*1.5/1.7320508/4, 1e-5)
	if _, _, ok := study.Ratio(study.Sample{10}, study.Sample{4}); ok {
		t.Error("one value has an interval")
	}
	if mean, _, ok := study.Ratio(study.Sample{1, 1}, study.Sample{0, 0}); mean != 0 || ok {
		t.Error("nothing to divide by")
	}
}

func steadyRun(t *testing.T, text string, o study.Options) *result.Run {
	t.Helper()
	s, faults := scenarios.ReadBytes("x.yaml", []byte(text))
	for _, f := range faults {
		t.Fatal(f)
	}
	o.WeekH = s.WeekHours("")
	s, err := study.SteadyScenario(s)
	if err != nil {
		t.Fatal(err)
	}
	m, err := line.New(s)
	if err != nil {
		t.Fatal(err)
	}
	o.Steady = true
	r, err := study.Run(context.Background(), m, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// By hand: a vessel of 240 s, loads of 2 carriers with 10 packs, everything else ample: 15 cycles and 300 packs an hour to the last digit, although the first packs come
// late, and whatever the roster says. The start is cut off.
func TestSteadyByHand(t *testing.T) {
	const text = `scenario: vessel
product: {packs_per_carrier: 10, hold: 180 s}
loading: {crew: 1 loader, hand_time: {per: carrier, mean: 60 s, as: constant}}
infeed: {places: 4}
vessel: {carriers_per_load: 2, phases: {close: 20 s, come_up: 40 s}}
drain: {places: 4}
tip: {swap: 20 s, per_pack: 1 s}
packing: {time: 2 s}
people: {loaders: {serve: [loading]}}
roster: {shifts: {early: {hours: 06:00 to 14:00, people: {loaders: 1}}}}
run: {one_replication: day}
`
	r := steadyRun(t, text, study.Options{Seed: 1, Replications: 3, Workers: 1})
	x := r.Steady
	if x == nil || x.Cut != 5 || x.Short || !x.ByCycle {
		t.Fatalf("%+v", x)
	}
	near(t, "packs/h", r.Headline.PacksPerH.Mean, 300, 1e-9)
	near(t, "cycles/h", r.Headline.CyclesPerH.Mean, 15, 1e-9)
	near(t, "packs a cycle", x.Each.Mean, 20, 1e-9)
	// A seal lasts 1,100 cycles and has had 260: 840 are left, 15 an hour, 56 h a week on the roster that is left out, so one week.
	worn := strings.NewReplacer("product: {packs", "product: {packs_per_case: 5, packs", "vessel: {", "vessel: {life: [{part: seal, cycles: 1100, used: 260}], ").Replace(text)
	r = steadyRun(t, worn, study.Options{Seed: 1, Replications: 3, Workers: 1})
	w := r.Vessel.Wear[0]
	near(t, "hours a week", w.HoursPerWk, 56, 1e-9)
	near(t, "cycles a week", w.PerWeek, 840, 1e-6)
	near(t, "weeks left", *w.WeeksLeft, 1, 1e-9)
	if r.Headline.CasesPerH == nil {
		t.Fatal("no cases")
	}
	near(t, "cases/h", r.Headline.CasesPerH.Mean, 60, 1e-9)
	one := steadyRun(t, text, study.Options{Seed: 1, Replications: 1, Workers: 1})
	if one.Headline.PacksPerH.HalfWidth != nil || one.Steady.Each.HalfWidth != nil {
		t.Error("one replication has an interval")
	}
}

// A short run says that its warm-up is not over; a line without a vessel is observed by steps of time; what ends has no steady state.
func TestSteadyEdges(t *testing.T) {
	r := steadyRun(t, "scenario: short\nlabeller: {time: {mean: 10 s, as: exponential}}\nrun: {one_replication: 3 h, steps: 30 min}\n", study.Options{Seed: 1, Replications: 2, Workers: 1})
	if r.Steady == nil || r.Steady.ByCycle || r.Steady.Observations != 6 || !r.Steady.Short || r.Warnings[0].Code != "warm-up not over" {
		t.Errorf("%+v, %+v", r.Steady, r.Warnings)
	}
	r = steadyRun(t, "scenario: no step\nlabeller: {time: 10 s}\nrun: {one_replication: 10 min, steps: 30 min}\n", study.Options{Seed: 1, Replications: 2, Workers: 1})
	if r.Steady != nil || r.Warnings[0].Code != "warm-up not over" {
		t.Errorf("without one step: %+v", r.Warnings)
	}
	s, _ := scenarios.ReadBytes("x.yaml", []byte("scenario: ends\nsupply: 100 packs\nlabeller: {time: 2 s}\nrun: {one_replication: until finished}\n"))
	if _, err := study.SteadyScenario(s); !errors.Is(err, study.ErrNoSteadyState) {
		t.Errorf("until finished: %v", err)
	}
}

// Batch means 1.4, then 1 and -1 in turn: of all ten the sum of squares is 10.384, over 10^2 0.1038; of the last nine 8.889, over 9^2 0.1097, and
// more with every further cut. Over the number of batches, not its square, a cut would look better.
func TestMSERDividesByTheSquare(t *testing.T) {
	var y []float64
	for j := range 10 {
		z := 1.4
		if j > 0 {
			z = float64(1 - 2*((j+1)%2))
		}
		y = append(y, z, z, z, z, z)
	}
	if cut, short := study.MSER5(y); cut != 0 || short {
		t.Errorf("cut %d, short %v; want none", cut, short)
	}
}
