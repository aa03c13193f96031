package study

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"pascaline/scenarios"
	"pascaline/sim/clock"
	"pascaline/sim/interest"
	"pascaline/sim/line"
	"pascaline/sim/result"
)

func sizedScenario(t testing.TB, text string) *scenarios.Scenario {
	t.Helper()
	s, faults := scenarios.ReadBytes("sized.yaml", []byte(text))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return s
}

// Two benches that take 12 packs in 24 to 36 s make 2,880 packs/h, so 3,500 need three; the machine is never chosen: it costs too much.
const benchesToSize = `scenario: benches
product: {packs_per_case: 12}
packing: {time: {low: 24 s, likely: 30 s, high: 36 s}}
run: {one_replication: 1 h}
variants: {machine: {packing.time: 6 s}}
size:
  target: {packs_per_hour: 3500}
  vary:
    how: {variants: [as written, machine], costs: [0 EUR, 90000 EUR/year]}
    benches: {fields: [packing.benches], range: 1 to 4, cost_each: 1000 EUR/year, owned: 1}
`

func TestSizeFindsTheCheapest(t *testing.T) {
	r, err := Size(context.Background(), sizedScenario(t, benchesToSize), Options{Seed: 1, Workers: 2})
	if err != nil {
		t.Fatal(err)
	}
	f := r.Chosen
	if f == nil || f.Cost != 2000 || f.Setting[1].Value != "3" || f.Chance.Share != 1 || f.Chance.N != FreshRuns {
		t.Fatalf("chosen %+v", f)
	}
	fates := map[string]int{}
	for _, s := range r.Settings {
		fates[s.Fate]++
	}
	// One and two benches are ruled out by hand: 1,440 and 2,880 packs/h. What is dearer is seen for the frontier only.
	if d := cmp.Diff(map[string]int{result.FateByHand: 2, result.FateChosen: 1, result.FateDearer: 5}, fates); d != "" {
		t.Error(d)
	}
	if len(r.Steps) != 4 || r.Steps[0].To != "" || r.Steps[2].To != "2" || r.Steps[2].Chance.Share != 0 || r.Steps[3].Chance.Share != 1 {
		t.Errorf("steps %+v", r.Steps)
	}
	if d := r.Steps[2].Differs.Mean; math.Abs(d+1440) > 30 {
		t.Errorf("one bench less changes the output by %.0f packs/h", d)
	}
}

func TestSizeWhereNothingMeets(t *testing.T) {
	s := sizedScenario(t, benchesToSize)
	s.Size.Target.PacksPerHour = 28700 // a machine and four benches: 28,800 by hand, less the first fill
	s.Size.Target.Tolerance = 0.001
	r, err := Size(context.Background(), s, Options{Seed: 1, Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	if r.Chosen != nil && r.Chosen.Setting[0].Value != "machine" {
		t.Errorf("chosen %+v", r.Chosen)
	}
	s.Size.Target.PacksPerHour = 40000
	r, err = Size(context.Background(), s, Options{Seed: 1, Workers: 1})
	if err != nil || r.Chosen != nil || r.Nearest != nil || r.Procedure.ByHand != len(r.Settings) || r.Procedure.Replications != 0 {
		t.Errorf("%v, chosen %v, nearest %v, %d by hand", err, r.Chosen, r.Nearest, r.Procedure.ByHand)
	}
}

func TestSizeInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	o := Options{Seed: 1, Workers: 2, Progress: func(done int, _ float64) {
		if done == 1 {
			cancel()
		}
	}}
	r, err := Size(ctx, sizedScenario(t, benchesToSize), o)
	if err != nil || !r.Incomplete || len(r.Settings) != 8 || r.Warnings[0].Code != "interrupted" {
		t.Errorf("%v, %+v", err, r)
	}
}

// Costs by hand: 20 EUR/h x 2 people x 16 h x 5 days x 50 weeks; 10,000 EUR over 5 years at 8 % is 2,504.56 a year (A/P = 0.250456); what is
// owned costs nothing.
func TestCostOfSettings(t *testing.T) {
	s := sizedScenario(t, `scenario: x
packing: {benches: 2, crew: 1 packer, time: 26 s}
people: {packers: {}}
roster: {days: Mon to Fri, shifts: {early: {hours: "06:00 to 14:00", people: {packers: 2}}, late: {hours: "14:00 to 22:00", people: {packers: 2}}}}
money: {people: {packers: {cost: 20 EUR/h, shifts: {late: 25 EUR/h}}}, discount_rate: 8 %, weeks_per_year: 50}
size:
  target: {packs_per_shift: 10}
  vary:
    stated: {fields: [packing.benches], values: [1, 2], cost_each: 10000 EUR, owned: 1, life: 5 years}
    paid: {fields: [roster.shifts.early.people.packers], range: 1 to 2}
    late: {fields: [roster.shifts.late.people.packers], values: [1, 2]}
    rent: {fields: [packing.per_case], values: [1 s, 2 s], costs: [0 EUR, 3 EUR/h]}
    fee: {fields: [packing.time], values: [26 s, 20 s], costs: [0 EUR, 700 EUR/year]}
`)
	p := newPricer(s)
	for i, want := range [][2]float64{{0, 2504.5645}, {40000, 80000}, {50000, 100000}, {0, 12000}, {0, 700}} {
		d := &s.Size.Vary[i]
		for k := range want {
			if got := p.choice(d, k); math.Abs(got-want[k]) > 0.01 {
				t.Errorf("%s %s: %.4f a year, want %.4f", d.Name, d.Choices()[k], got, want[k])
			}
		}
	}
	for _, c := range [][3]float64{{0, 4, 0.25}, {0.1, 10, 0.162745}, {0.08, 12, 0.132695}} { // the last two as in every interest table
		if got := interest.AP(c[0], int(c[1])); math.Abs(got-c[2]) > 5e-7 {
			t.Errorf("A/P of %g, %g: %.6f", c[0], c[1], got)
		}
	}
}

// No replication makes more than its ceiling, and more of anything never lowers it.
func TestCeilingHolds(t *testing.T) {
	b, err := scenarios.Example("sizing")
	if err != nil {
		t.Fatal(err)
	}
	s := sizedScenario(t, string(b))
	build := func(t testing.TB, choice []int) (*scenarios.Scenario, float64) {
		x, faults := s.Setting(choice)
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		most, _ := ceiling(x, &s.Size.Target)
		return x, most
	}
	y := newYardstick(s, &s.Size.Target)
	rapid.Check(t, func(rt *rapid.T) {
		choice := make([]int, len(s.Size.Vary))
		for i := range choice {
			choice[i] = rapid.IntRange(0, len(s.Size.Vary[i].Choices())-1).Draw(rt, s.Size.Vary[i].Name)
		}
		x, most := build(t, choice)
		d := 1 + rapid.IntRange(0, len(choice)-2).Draw(rt, "dimension") // the first is a variant, which is no amount
		if choice[d]+1 < len(s.Size.Vary[d].Choices()) {
			choice[d]++
			if _, more := build(t, choice); more < most-1e-6 {
				rt.Fatalf("more %s lowers the ceiling from %.1f to %.1f", s.Size.Vary[d].Name, most, more)
			}
		}
		if rapid.IntRange(0, 9).Draw(rt, "run") > 0 {
			return
		}
		m, err := line.New(x)
		if err != nil {
			rt.Fatal(err)
		}
		rec, err := One(m, line.Options{Seed: 5, Replication: rapid.IntRange(1, 1000).Draw(rt, "replication")})
		if err != nil {
			rt.Fatal(err)
		}
		if got := y.trial(rec).mean; got > most {
			rt.Fatalf("%.0f packs, ceiling %.0f", got, most)
		}
	})
}

// Two shifts of 8 h, looked at for 38 h from the first on: both early ones are whole, of the late ones the second ends 2 h too late for it.
const twoShiftsToSize = `scenario: x
packing: {crew: 1 packer, time: 26 s}
people: {packers: {}}
roster: {shifts: {early: {hours: "06:00 to 14:00", people: {packers: 1}}, late: {hours: "14:00 to 22:00", people: {packers: 1}}}}
run: {one_replication: 38 h}
size: {target: {packs_per_shift: 100}, vary: {times: {fields: [packing.time], values: [26 s], costs: [0 EUR]}}}
`

// A share of three whole shifts in a replication is counted as such; what a shift made that was cut short says nothing.
func TestTrialCountsShifts(t *testing.T) {
	s := sizedScenario(t, twoShiftsToSize)
	y := newYardstick(s, &s.Size.Target)
	y.rule.tolerance = 0.1
	r := &line.Record{Length: 38 * clock.Hour, Packs: 305, Rostered: 30 * clock.Hour,
		Shifts: []line.ShiftRecord{{Name: "early", Packs: []int64{120, 95}}, {Name: "late", Packs: []int64{80, 10}}}}
	got := y.trial(r)
	want := trial{mean: 295.0 / 3, full: 1.0 / 3, nearly: 2.0 / 3}
	if math.Abs(got.mean-want.mean)+math.Abs(got.full-want.full)+math.Abs(got.nearly-want.nearly) > 1e-12 {
		t.Errorf("got %+v, want %+v", got, want)
	}
	y.target.Shifts = append(y.target.Shifts, "late")
	if got := y.trial(r); got.mean != 80 || got.full != 0 || got.nearly != 0 {
		t.Errorf("late only: %+v", got)
	}
	y.target.PacksPerShift, y.target.PacksPerHour = 0, 10
	if got := newYardstick(s, y.target).trial(r); got.mean != 10 || got.full != 1 { // 80 in 8 h
		t.Errorf("packs an hour of late: %+v", got)
	}
}

// A replication of 8 h has no late shift and one of 4 h no whole shift at all: nothing is held against the target that is no shift of it, and nothing is run. A
// day has both.
func TestTargetOfAShiftThatNeverComes(t *testing.T) {
	for _, c := range []struct{ name, length, shifts, says string }{
		{"late in 8 h", "8 h", ", shifts: [late]", "size.target counts the packs of whole shifts (late), and a replication of 8 h has none: let run.one_replication be longer, such as day or week, or begin elsewhere (run.starts)"},
		{"any in 4 h", "4 h", "", "size.target counts the packs of whole shifts (any), and a replication of 4 h has none: let run.one_replication be longer, such as day or week, or begin elsewhere (run.starts)"},
		{"early in 8 h", "8 h", ", shifts: [early]", ""},
		{"late in a day", "day", ", shifts: [late]", ""},
	} {
		text := strings.NewReplacer("38 h", c.length, "packs_per_shift: 100", "packs_per_shift: 100"+c.shifts).Replace(twoShiftsToSize)
		_, err := Size(context.Background(), sizedScenario(t, text), Options{Seed: 1, Workers: 1})
		var none *NoShift
		if c.says == "" && err != nil || c.says != "" && (!errors.As(err, &none) || err.Error() != c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// Each setting is measured by its own roster: where shifts are made longer, packs an hour are of the longer ones. 3,600/36 = 100 an hour either way.
func TestEachSettingHasItsOwnHours(t *testing.T) {
	r, err := Size(context.Background(), sizedScenario(t, `scenario: x
product: {packs_per_case: 1}
packing: {crew: 1 packer, time: 36 s}
people: {packers: {}}
roster: {shifts: {early: {hours: "06:00 to 10:00", people: {packers: 1}}}}
variants: {long: {roster.shifts.early.hours: "06:00 to 14:00"}}
size: {target: {packs_per_hour: 90, in: the mean}, vary: {hours: {variants: [as written, long], costs: [0 EUR, 1 EUR/year]}}}
`), Options{Seed: 1, Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range r.Settings {
		if x.Output == nil || math.Abs(x.Output.Mean-100) > 1 {
			t.Errorf("%+v, %+v", x, x.Output)
		}
	}
}

// Of three lots two have a due time; one of them is in time, the other is not finished: half of the lots are on time.
func TestTrialCountsLots(t *testing.T) {
	s := sizedScenario(t, `scenario: x
lots: [{lot: a, quantity: 10 packs, due: 2 h}, {lot: b, quantity: 10 packs}, {lot: c, quantity: 10 packs, due: 3 h}]
labeller: {time: 1 s}
size:
  target: {lots_on_time: 90 %}
  vary:
    heads: {fields: [labeller.heads], range: 1 to 2, cost_each: 5 EUR}
`)
	y := newYardstick(s, &s.Size.Target)
	r := &line.Record{Lots: []line.LotRecord{{Name: "a", Done: 2 * clock.Hour}, {Name: "b", Done: 9 * clock.Hour}, {Name: "c", Done: -1}}}
	if got := y.trial(r); got.mean != 50 || got.full != 0 {
		t.Errorf("got %+v", got)
	}
	r.Lots[2].Done = 3 * clock.Hour
	if got := y.trial(r); got.mean != 100 || got.full != 1 || y.rule.target != 90 {
		t.Errorf("got %+v of %g", got, y.rule.target)
	}
}
