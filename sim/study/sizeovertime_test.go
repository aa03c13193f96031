package study

import (
	"context"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"

	"pascaline/sim/clock"
	"pascaline/sim/line"
)

// One bench takes 35 min for a case, so that the 14th case of a shift of 8 h is finished 10 min after its end, in hand by one packer; a
// week of five such shifts has 50 min of it, 50 weeks have 41 h 40 min.
const staysOn = `scenario: stays on
product: {packs_per_case: 1}
packing: {crew: 1 packer, time: 35 min}
people: {packers: {}}
roster: {days: Mon to Fri, shifts: {early: {hours: "06:00 to 14:00", people: {packers: 1}}}}
`

// The pay of that by hand, with and without the money block's half on top, and by the hour that the size block has for its people.
func TestOvertimePayByHand(t *testing.T) {
	for _, c := range []struct {
		name, more string
		want       float64 // EUR a year; -1: none is worked out
	}{
		{"half on top", "money: {people: {packers: 24 EUR/h}, overtime: 50 %, weeks_per_year: 50}\n", 1500}, // 41.667 h x 24 EUR x 1.5
		{"nothing on top", "money: {people: {packers: 24 EUR/h}, weeks_per_year: 50}\n", 1000},
		{"hours that have no cost", "", -1},
		{"the size block's hour goes first", "money: {people: {packers: 99 EUR/h}, weeks_per_year: 25}\n", 300}, // 20.833 h x 14.40 EUR
	} {
		t.Run(c.name, func(t *testing.T) {
			vary := "    times: {fields: [packing.time], values: [35 min], costs: [0 EUR]}\n"
			if c.want == 300 {
				vary = "    heads: {fields: [roster.shifts.early.people.packers], values: [1], cost_each: 14.4 EUR/h}\n"
			}
			s := sizedScenario(t, staysOn+c.more+"size:\n  target: {packs_per_shift: 14}\n  vary:\n"+vary)
			r, err := Size(context.Background(), s, Options{Seed: 1, Workers: 2})
			if err != nil {
				t.Fatal(err)
			}
			f := r.Chosen
			if f == nil || math.Abs(f.OvertimeH-1.0/6) > 1e-9 || (f.Overtime == nil) != (c.want < 0) {
				t.Fatalf("%+v", f)
			}
			if f.Overtime != nil && math.Abs(f.Overtime.Mean-c.want) > 1e-6 {
				t.Errorf("%g a year, want %g", f.Overtime.Mean, c.want)
			}
			if c.want < 0 && r.Warnings[0].Text != "After a shift people stay on for 0.2 h on average until the line is empty; packs finished then are counted, its pay is not in the cost. What an hour costs is not said of packers: write it under money.people." {
				t.Error(r.Warnings)
			}
		})
	}
}

// People are paid for overtime as in the last shift in which they are there: fitters 30 EUR in the early one, packers 25 EUR in the late one. Of 16
// rostered hours a day and 80 a week, one person-hour each a day is 5 in a week and 250 in a year.
func TestOvertimeIsPaidAsInTheLastShift(t *testing.T) {
	s := sizedScenario(t, `scenario: x
packing: {crew: 1 packer, time: 26 s}
people: {packers: {}, fitters: {serve: [stops]}, cleaners: {serve: [packing]}}
roster: {days: Mon to Fri, shifts: {early: {hours: "06:00 to 14:00", people: {packers: 2, fitters: 1, cleaners: 1}}, late: {hours: "14:00 to 22:00", people: {packers: 2, fitters: 0, cleaners: 1}}}}
money: {people: {packers: {cost: 20 EUR/h, shifts: {late: 25 EUR/h}}, fitters: {cost: 30 EUR/h, shifts: {late: 50 EUR/h}}}, weeks_per_year: 50}
size: {target: {packs_per_shift: 10}, vary: {times: {fields: [packing.time], values: [26 s], costs: [0 EUR]}}}
`)
	o := newPricer(s).overtime(s)
	r := &line.Record{Rostered: 16 * clock.Hour, Pools: []line.PoolRecord{{Overtime: clock.Hour}, {Overtime: clock.Hour}, {Overtime: clock.Hour}}}
	if got, want := o.of(r), 250.0*(25+30); math.Abs(got-want) > 1e-9 {
		t.Errorf("%g a year, want %g", got, want)
	}
	total := &total{pools: []poolTotal{{rec: line.PoolRecord{Name: "packers", Overtime: 1}}, {rec: line.PoolRecord{Name: "fitters"}}, {rec: line.PoolRecord{Name: "cleaners", Overtime: 1}}}}
	if d := cmp.Diff([]string{"cleaners"}, o.unpaid(total)); d != "" {
		t.Error(d)
	}
}
