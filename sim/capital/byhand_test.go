package capital

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/random"
	"pascaline/sim/result"
	"pascaline/sim/study"
)

// The gain is worth 840,000 times 1 to 3 a year and costs 8,400,000: it is paid back in 10/c years with c between 1 and 3, all values as likely. P10 of that
// is 10 over P90 of c, 10/2.8, P90 is 10/1.2; a mean of 5 years with ± would have said neither. Tolerances are 4 standard errors of a
// rank of 5,000 draws, sqrt(p(1-p)/5000) x 2, times 10/c².
func TestIntervalThroughAReciprocal(t *testing.T) {
	r := answer(t, ask(t, benches), study.Options{Seed: 1, Replications: 2, Workers: 2})
	o := r.Options[1]
	if o.Gain.Mean != 100*168 || *o.Gain.HalfWidth != 0 {
		t.Fatalf("gain %+v", o.Gain)
	}
	rank := 4 * math.Sqrt(0.1*0.9/5000) * 2
	for _, c := range []struct {
		name string
		got  *float64
		c    float64
		wide float64
	}{{"P10", o.PaybackYears.P10, 2.8, rank}, {"P50", o.PaybackYears.P50, 2, rank * 5 / 3}, {"P90", o.PaybackYears.P90, 1.2, rank}} {
		if c.got == nil || math.Abs(*c.got-10/c.c) > c.wide*10/c.c/c.c {
			t.Errorf("%s: %v, want %v", c.name, c.got, 10/c.c)
		}
	}
	if o.NeverPays != 0 {
		t.Errorf("never pays in %v", o.NeverPays)
	}
	// With a life of 5 years it pays where c is at least 2, in half of the cases.
	short := r.Options[2]
	if math.Abs(short.NeverPays-0.5) > 4*math.Sqrt(0.25/5000) || short.PaybackYears.P90 != nil || short.PaybackYears.P10 == nil {
		t.Errorf("never pays in %v, %v", short.NeverPays, short.PaybackYears)
	}
	// In 3 years it pays where c is at least 10/3: never; in 5 years where it is 2, in half of the cases.
	five := answer(t, ask(t, strings.Replace(benches, "money:", "money:\n  pays_within: 5 years", 1)), study.Options{Seed: 1, Replications: 2, Workers: 2}).Options[1]
	if math.Abs(five.InTime-0.5) > 4*math.Sqrt(0.25/5000) {
		t.Errorf("in 5 years in %v", five.InTime)
	}
	if o.InTime != 0 || o.Central.Payback == nil || math.Abs(*o.Central.Payback-5) > 1e-9 {
		t.Errorf("in time %v, as planned %v", o.InTime, o.Central.Payback)
	}
}

// Break-even of the same: to be back in 3 years 8.4 million must come in three, 10/3 a pack or 10/6 of the packs, or be 5.04 million.
func TestBreakEvenByHand(t *testing.T) {
	r := answer(t, ask(t, benches), study.Options{Seed: 1, Replications: 2, Workers: 1})
	want := map[string]float64{"contribution": 10.0 / 3, "gain in output": 16800 * 5.0 / 3, "purchase": 5040000}
	for _, b := range r.Options[1].BreakEven {
		w, ok := want[b.What]
		if !ok {
			if b.Needed != nil {
				t.Errorf("%s at %v", b.What, *b.Needed) // more demand brings nothing: all is sold already
			}
			continue
		}
		if b.Needed == nil || math.Abs(*b.Needed-w) > 1e-6*w {
			t.Errorf("%s: %v, want %v", b.What, b.Needed, w)
		}
		delete(want, b.What)
	}
	if len(want) > 0 {
		t.Errorf("not there: %v", want)
	}
	for _, x := range r.Options[1].Tornado {
		if x.What == "contribution" && (math.Abs(x.Low-1.2) > 1e-9 || math.Abs(x.High-2.8) > 1e-9 || x.Tried) {
			t.Errorf("%+v", x)
		}
	}
}

// A figure has no break-even for one of two reasons, and they are told apart: it pays at any value, from a millionth of the plan to ten times it, or at none. An
// option that sells less pays up to a price, not from it on.
func TestNoBreakEven(t *testing.T) {
	for _, c := range []struct {
		name           string
		sum            func(v float64) float64
		needed         float64 // 0: none
		always, atMost bool
	}{
		{"it rises through 0", func(v float64) float64 { return v - 3 }, 3, false, false},
		{"it falls through 0", func(v float64) float64 { return 3 - v }, 3, false, true},
		{"not even at ten times 2", func(v float64) float64 { return v - 20.1 }, 0, false, false},
		{"just at ten times 2", func(v float64) float64 { return v - 20 }, 20, false, false},
		{"even at nearly nothing", func(v float64) float64 { return v + 1 }, 0, true, false},
		{"even at ten times 2, though more is worse", func(v float64) float64 { return 21 - v }, 0, true, false},
		{"not even at nearly nothing, and more is worse", func(v float64) float64 { return -v }, 0, false, false},
	} {
		b := result.BreakEven{Planned: 2}
		solve(&b, c.sum)
		if (b.Needed == nil) != (c.needed == 0) || b.Needed != nil && math.Abs(*b.Needed-c.needed) > 1e-9 || b.Always != c.always || b.AtMost != c.atMost {
			t.Errorf("%s: %+v", c.name, b)
		}
	}
	// For 1 EUR the bench pays whatever a pack brings, for 8.4 milliards not at ten times that: 20 x 840,000 x 3 is 50 million.
	for price, always := range map[string]bool{"1 EUR": true, "8400000000 EUR": false} {
		r := answer(t, ask(t, strings.Replace(benches, "8400000 EUR", price, 1)), study.Options{Seed: 1, Replications: 2, Workers: 1})
		i := slices.IndexFunc(r.Options[1].BreakEven, func(b result.BreakEven) bool { return b.What == "contribution" })
		if b := r.Options[1].BreakEven[i]; b.Needed != nil || b.Always != always {
			t.Errorf("for %s: %+v", price, b)
		}
	}
}

func constantLaw(t *testing.T, v float64) random.Law {
	t.Helper()
	l, err := random.NewLaw(scenarios.Law{Shape: scenarios.Constant, Mean: v})
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func TestHiring(t *testing.T) {
	q := ask(t, `scenario: hands
loading: {crew: 2 loaders, hand_time: {per: carrier, mean: 60 s, as: constant}}
packing: {fed: without end, crew: 1 packer, time: 30 s}
labeller: {fed: without end, time: 1 s, by: 1 clerk}
people: {loaders: {heads: 2}, packers: {}, clerks: {heads: 1}}
roster: {shifts: {early: {hours: 06:00 to 14:00, people: {packers: 1}}, late: {hours: 14:00 to 22:00, people: {packers: 0}}}}
money: {contribution: 1 EUR/pack, people: {loaders: 20 EUR/h, packers: 20 EUR/h, clerks: 20 EUR/h}}
variants:
  other: {packing.time: 29 s}
  bought: {packing.benches: 2, money.buy.installation: 5 EUR}
  hired: {people.clerks.heads: 2}
  trained: {packing.time: 29 s, money.buy.training: 5 EUR}
  stands: {packing.time: 29 s, money.buy.line_stands: 8 h}
  rented: {packing.time: 29 s, money.buy.maintenance: 5 EUR/year}
`)
	if got := Hands(q.Base); !slices.Equal(got, []string{"loaders", "packers"}) {
		t.Errorf("%q", got)
	}
	var kinds []string
	for _, o := range q.Options {
		kinds = append(kinds, o.Kind)
	}
	if !slices.Equal(kinds, []string{Changes, Buys, Hires, Buys, Buys, Changes}) {
		t.Errorf("%q", kinds)
	}
	rows := rowsOf([]*scenarios.Scenario{q.Base})
	before := sum(week(q.Base, rows).Hours)
	Hire(q.Base, "loaders")
	Hire(q.Base, "packers") // only in the shift in which there is one: 8 h on 7 days
	if after := sum(week(q.Base, rows).Hours); after-before != 7*16+7*8 || q.Base.Loading.Crew.Most != 3 {
		t.Errorf("%v hours more, crew %v", after-before, q.Base.Loading.Crew)
	}
}

// A fee of 4 a kg for packs of 0.5 kg is 2 a pack, a variable cost of 0.2 a kg 0.1: 840,000 packs more a year leave 1.9 each.
func TestTollFeeByHand(t *testing.T) {
	text := strings.NewReplacer("contribution: {low: 1 EUR/pack, high: 3 EUR/pack}", "toll_fee: 4 EUR/kg\n  variable_cost: 0.2 EUR/kg",
		"packing:", "product: {pack: {mass: 500 g}}\npacking:").Replace(benches)
	r := answer(t, ask(t, text), study.Options{Seed: 1, Replications: 2, Workers: 1})
	if got := r.Options[1].Lines[1].Earned; !near(got, 840000*1.9) || r.Unit != "kg" {
		t.Errorf("%v more earned for each %s", got, r.Unit)
	}
}
