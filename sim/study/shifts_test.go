package study_test

import (
	"math"
	"slices"
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/result"
	"pascaline/sim/study"
)

// byText reads a scenario from its text.
func byText(t *testing.T, text string) *line.Model {
	t.Helper()
	s, faults := scenarios.ReadBytes("x.yaml", []byte(text))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	m, err := line.New(s)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func studied(t *testing.T, text string, o study.Options) *result.Run {
	t.Helper()
	r, err := study.Run(t.Context(), byText(t, text), o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// A case of one pack each 36 s: 100 an hour, so 800 in the shift of 8 h and 400 in the one of 4 h, without any chance. The mean of a shift is 600, and nothing
// is in doubt; single shifts go from 400 to 800. The interval of one replication is none, however many shifts it has.
func TestUnlikeShiftsAreNotInDoubt(t *testing.T) {
	const text = `scenario: x
product: {packs_per_case: 1}
packing: {crew: 1 packer, time: 36 s}
people: {packers: {}}
roster: {shifts: {long: {hours: "06:00 to 14:00", people: {packers: 1}}, short: {hours: "14:00 to 18:00", people: {packers: 1}}}}
run: {one_replication: week}
`
	r := studied(t, text, study.Options{Seed: 1, Replications: 3, Workers: 1})
	e := r.Headline.PacksPerShift
	if e == nil || math.Abs(e.Mean-600) > 1 || *e.HalfWidth > 1e-6 || e.N != 3 || math.Abs(e.P10-400) > 1 || math.Abs(e.P90-800) > 1 {
		t.Errorf("of all shifts %+v", e)
	}
	for i, want := range []float64{800, 400} {
		if e := r.Shifts[i].Packs; math.Abs(e.Mean-want) > 1 || *e.HalfWidth > 1e-6 {
			t.Errorf("%s: %+v, want %v", r.Shifts[i].Name, e, want)
		}
	}
	r = studied(t, text, study.Options{Seed: 1, Replications: 1, Workers: 1})
	if r.Headline.PacksPerShift.HalfWidth != nil || r.Shifts[0].Packs.HalfWidth != nil {
		t.Error("an interval of one replication")
	}
}

// Stops of several days leave whole weeks with little output: what a shift brings is known no better than what a week brings, whose seven shifts
// are no seven trials. The half width of a shift is that of a week over seven.
func TestShiftsOfAWeekAreOneTrial(t *testing.T) {
	r := studied(t, `scenario: x
product: {packs_per_case: 1}
packing: {crew: 1 packer, time: 36 s}
stops: [{station: packing, name: long, every: {mean: 150 h calendar time, as: exponential}, takes: 40 h}]
people: {packers: {}}
roster: {shifts: {early: {hours: "06:00 to 14:00", people: {packers: 1}}}}
run: {one_replication: week}
`, study.Options{Seed: 1, Replications: 30, Workers: 2})
	var weeks study.Sample
	for _, x := range r.PerReplication {
		weeks = append(weeks, float64(x.Packs))
	}
	half, _ := weeks.Half()
	for _, e := range []*result.Estimate{r.Headline.PacksPerShift, &r.Shifts[0].Packs} {
		if math.Abs(e.Mean-weeks.Mean()/7) > 1e-6 || math.Abs(*e.HalfWidth-half/7) > 1e-6 || e.N != 30 {
			t.Errorf("a shift %v within %v of %d, a week %v within %v", e.Mean, *e.HalfWidth, e.N, weeks.Mean(), half)
		}
	}
}

// 100 packs an hour for 75 min, counted in steps of 30 min: the third is cut to 15 min, and its 25 packs are 100 an hour as well.
func TestTheLastStepIsCut(t *testing.T) {
	r := studied(t, `scenario: x
product: {packs_per_case: 1}
packing: {time: 36 s}
run: {one_replication: 75 min, steps: 30 min}
`, study.Options{Seed: 1, Replications: 1, Workers: 1})
	got := r.Profile.PacksPerH
	if len(got) != 3 || slices.ContainsFunc(got, func(v float64) bool { return math.Abs(v-100) > 4 }) { // a pack more or less in 15 min
		t.Errorf("%v packs/h", got)
	}
}
