package capital

import (
	"math"
	"slices"
	"testing"

	"pascaline/sim/interest"
	"pascaline/sim/study"
)

// Everything rises by 10 % a year. In the first: 200 packs more at 2 in 50 weeks bring 20,000; 40 h more at 20 cost 40,000; 2 cycles more at 3.5 cost 350;
// maintenance 3,000. Together -23,350, and in the second year 1.1 times that.
func TestAllRisesByHand(t *testing.T) {
	a, b, buy := now(), then(), Buy{Price: 50000, Life: 2, Upkeep: 3000}
	a.PerCycle, a.Rise = Cycle{1, 0.5, 2}, 0.1
	b.PerCycle, b.Rise, b.Hours = a.PerCycle, 0.1, []float64{160}
	sameFlows(t, a.Flows(&b, &buy), Flows{-50000, -23350, -25685})
	for i, c := range []YearLine{{Earned: 20000, People: 40000, Running: 350, Upkeep: 3000}, {Earned: 22000, People: 44000, Running: 385, Upkeep: 3300}} {
		l := a.Lines(&b, &buy)[i+1]
		if !near(l.Earned, c.Earned) || !near(l.People, c.People) || !near(l.Running, c.Running) || !near(l.Upkeep, c.Upkeep) {
			t.Errorf("year %d: %+v", i+1, l)
		}
	}
}

// What the line cost, 100,000 over 10 years, and what the option costs, 50,000 over 5, are 20,000 a year without interest, with 2,000 and 3,000 of upkeep; of
// 50,000 packs that is 0.4 and 0.1 each.
func TestCostOfLineAndOption(t *testing.T) {
	s := now()
	s.Rate = 0
	c := s.CostPerUnit(nil, Buy{Price: 100000, Life: 10, Upkeep: 2000}, Buy{Price: 50000, Life: 5, Upkeep: 3000})
	if !near(c.Capital, 0.4) || !near(c.Upkeep, 0.1) || !near(c.People, 2.4) { // 120 h x 20 x 50 of 50,000
		t.Errorf("%+v", c)
	}
}

// Of n replications n-1 are drawn again, each of them any of the n.
func TestDrawnAgain(t *testing.T) {
	s := &Sample{Replication: 5}
	seen := map[int]int{}
	for d := range 500 {
		which := drawnAgain(s, 1, d)
		if len(which) != 4 {
			t.Fatalf("%d drawn of 5", len(which))
		}
		for _, i := range which {
			seen[i]++
		}
	}
	for i := range 5 {
		if math.Abs(float64(seen[i])-400) > 4*math.Sqrt(2000*0.2*0.8) {
			t.Errorf("number %d was drawn %d times of 2,000", i, seen[i])
		}
	}
	if len(seen) != 5 {
		t.Errorf("%v", seen)
	}
}

// Flows with rates of 10 and 20 % have no one rate, as one of -100, 200 has; and one that is never paid back has none.
func TestRatesOfDraws(t *testing.T) {
	var o Outcome
	for _, f := range []Flows{{-100, 230, -132}, {-100, 200}, {-100, -5}} {
		o.take(f, 0.1)
	}
	if !math.IsNaN(o.IRR[0]) || math.Abs(o.IRR[1]-1) > 1e-9 || !math.IsInf(o.IRR[2], -1) || !near(o.Several(), 1.0/3) {
		t.Errorf("%v, several in %v", o.IRR, o.Several())
	}
}

func byHandPlant(change func(a, b *Side)) *plant {
	a, b := now(), then()
	change(&a, &b)
	return &plant{central: &Case{Base: a, Options: []Side{b}, Buys: []Buy{{Price: 50000, Life: 5}}}}
}

// At 60 % of a demand of 1,200, 720, both sell the same and the 50,000 are lost; of 2,000, 1,200, the line sells 1,000 and the option 200 more: 20,000 x (P/A, 10 %, 5).
func TestLowDemandByHand(t *testing.T) {
	for demand, want := range map[float64]float64{1200: -50000, 2000: 25815.735388} {
		p := byHandPlant(func(a, b *Side) { a.Demand, b.Demand = demand, demand })
		if v := p.at60(0); math.Abs(v.NPV-want) > 1e-5 {
			t.Errorf("of %v: %v, want %v", demand, v.NPV, want)
		}
	}
	if byHandPlant(func(a, _ *Side) { a.Endless = true }).at60(0) != nil {
		t.Error("60 % of all that can be made")
	}
}

// With cycles at 3.5 and 100 packs in each, v packs a week more leave (2 - 0.035) x 50 = 98.25 v a year; 2 years and a half of that bring 50,000 back from
// 203.56 packs on; 500 packs bring 122,812.5 back. The 500 need a contribution of (20,000 + 875) / 25,000 = 0.835.
func TestBreakEvenWithCyclesByHand(t *testing.T) {
	costly := func(a, b *Side) {
		a.Endless, b.Endless, a.PaysIn = true, true, 2.5
		a.PerCycle = Cycle{1, 0.5, 2}
		b.PerCycle = a.PerCycle
	}
	p := byHandPlant(costly)
	want := map[string]float64{"gain in output": 50000 / 98.25 / 2.5, "purchase": 122812.5, "contribution": 0.835}
	list := p.breakEven(0, "EUR")
	for _, b := range list {
		if b.Needed == nil || math.Abs(*b.Needed-want[b.What]) > 1e-6*want[b.What] {
			t.Errorf("%s: %v, want %v", b.What, b.Needed, want[b.What])
		}
	}
	if len(list) != len(want) {
		t.Errorf("%d figures", len(list))
	}
	// A gain of 500 within h is worth 98.25 v x (P/A, 10 %, 5) - 50,000 at both ends; h is 3.0776835 x 20, of 480 and 520 (Student, 1 degree of freedom, 80 %).
	swings := p.tornado(0, study.Sample{480, 520})
	if len(swings) != 1 {
		t.Fatalf("%+v", swings)
	}
	x, h := swings[0], 3.0776835372*20
	for _, e := range []struct{ v, got, npv float64 }{{500 - h, x.Low, x.NPVLow}, {500 + h, x.High, x.NPVHigh}} {
		if math.Abs(e.got-e.v) > 1e-6 || math.Abs(e.npv-(98.25*e.v*interest.PA(0.1, 5)-50000)) > 1e-3 {
			t.Errorf("%v worth %v", e.got, e.npv)
		}
	}
}

// Half a year counts half: 20,000 a year on 50,000 are back after 2.5.
func TestSumWithinAYear(t *testing.T) {
	f := Flows{-50000, 20000, 20000, 20000}
	for years, want := range map[float64]float64{0: -50000, 1: -30000, 2.5: 0, 2.75: 5000, 3: 10000, 9: 10000} {
		if got := f.sumAt(years); !near(got, want) {
			t.Errorf("after %v years %v, want %v", years, got, want)
		}
	}
}

// A shift with its own cost has it, the others that of the pool, however the two are written.
func TestAShiftWithItsOwnCost(t *testing.T) {
	q := ask(t, `scenario: x
packing: {crew: 1 packer, time: 36 s}
people: {packers: {heads: 1}}
roster: {shifts: {early: {hours: "06:00 to 14:00"}, late: {hours: "14:00 to 22:00"}, night: {hours: "22:00 to 06:00"}}}
money: {contribution: 1 EUR/pack, people: {packers: {cost: 20 EUR/h, shifts: {night: 30 EUR/h}}}}
`)
	p, err := newPlant(q.Base, nil)
	if err != nil {
		t.Fatal(err)
	}
	if got := p.central.Base.HourCost; !slices.Equal(got, []float64{20, 20, 30}) {
		t.Errorf("%v", got)
	}
}
