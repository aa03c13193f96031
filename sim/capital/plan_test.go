package capital

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"pascaline/sim/interest"
)

// now and then are a line and an option by hand: 1,000 and 1,500 packs a week, of which 1,200 can be sold at 2 each, 50 weeks a year, at 10 %.
func now() Side {
	return Side{
		Prices{PerPack: 2, HourCost: []float64{20}, Paid: []bool{true}, Demand: 1200, Weeks: 50, Rate: 0.1, Reference: 5, PaysIn: 3},
		Week{Packs: 1000, Cycles: 10, Hours: []float64{120}, Overtime: []float64{0}, Rostered: 80},
	}
}

func then() Side {
	s := now()
	s.Packs, s.Cycles = 1500, 15
	return s
}

func sameFlows(t *testing.T, got, want Flows) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%v, want %v", got, want)
	}
	for i := range got {
		if !near(got[i], want[i]) {
			t.Fatalf("%v, want %v", got, want)
		}
	}
}

// 200 more packs are sold in a week, though 500 more are made: 200 x 2 x 50 = 20,000 a year.
func TestDemandCapByHand(t *testing.T) {
	a, b, buy := now(), then(), Buy{Price: 50000, Life: 5}
	f := a.Flows(&b, &buy)
	sameFlows(t, f, Flows{-50000, 20000, 20000, 20000, 20000, 20000})
	if years, pays := f.Payback(); !pays || years != 2.5 {
		t.Errorf("paid back in %v, %v; 50,000 / 20,000 is 2.5", years, pays)
	}
	if npv := f.NPV(0.1); math.Abs(npv-25815.735388) > 1e-6 { // 20,000 x (P/A, 10 %, 5) = 20,000 x 3.79078676941
		t.Errorf("NPV %v", npv)
	}
	a.Demand, b.Demand = 1000, 1000
	f = a.Flows(&b, &buy)
	if _, pays := f.Payback(); pays || f.Total() != -50000 {
		t.Errorf("what nobody buys pays back: %v", f)
	}
	// 10 % more demand each year: 1,200, 1,320, 1,452, 1,597.2 (the option makes 1,500).
	a, b = now(), then()
	a.Growth, b.Growth = 0.1, 0.1
	buy.Life = 4
	sameFlows(t, a.Flows(&b, &buy), Flows{-50000, 20000, 32000, 45200, 50000})
	// Prices rise by 10 % each year as well.
	a.Growth, b.Growth, a.Rise, b.Rise = 0, 0, 0.1, 0.1
	buy.Life = 3
	sameFlows(t, a.Flows(&b, &buy), Flows{-50000, 20000, 22000, 24200})
	a.Endless, b.Endless, a.Rise, b.Rise = true, true, 0, 0
	sameFlows(t, a.Flows(&b, &buy), Flows{-50000, 50000, 50000, 50000})
}

func TestCostsByHand(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(a, b *Side, buy *Buy)
		want   Flows
	}{
		{"cycles cost only as far as they are needed: 12 of 15 against 10, at 3.5, is 350 a year", func(a, b *Side, _ *Buy) {
			a.PerCycle = Cycle{1, 0.5, 2}
			b.PerCycle = a.PerCycle
		}, Flows{-50000, 19650, 19650}},
		{"40 hours fewer a week earn nothing where they are paid all the same", func(_, b *Side, _ *Buy) { b.Hours = []float64{80} }, Flows{-50000, 20000, 20000}},
		{"40 hours more a week cost 40,000 a year", func(_, b *Side, _ *Buy) { b.Hours = []float64{160} }, Flows{-50000, -20000, -20000}},
		{"hours not paid: 80 x 0.8 against 120, 56 x 20 x 50 = 56,000 saved", func(a, b *Side, _ *Buy) {
			a.Paid, b.Paid, b.Hours = []bool{false}, []bool{false}, []float64{80}
		}, Flows{-50000, 76000, 76000}},
		{"an hour of overtime at 50 % above: 5 x 0.8 x 20 x 1.5 x 50 = 6,000", func(a, b *Side, _ *Buy) {
			a.Premium, b.Premium, b.Overtime = 0.5, 0.5, []float64{5}
		}, Flows{-50000, 14000, 14000}},
		{"maintenance", func(_, _ *Side, buy *Buy) { buy.Upkeep = 3000 }, Flows{-50000, 17000, 17000}},
		{"installation, training and a rest value", func(_, _ *Side, buy *Buy) {
			buy.Installation, buy.Training, buy.Rest = 5000, 1000, 8000
		}, Flows{-56000, 20000, 28000}},
		{"half a week without output: 500 packs at 2", func(_, _ *Side, buy *Buy) { buy.StandsH = 40 }, Flows{-51000, 20000, 20000}},
		{"a lost week of a line with hours to spare is made up: 900 x 50 are sold anyway", func(a, b *Side, buy *Buy) {
			a.Demand, b.Demand, buy.StandsH = 900, 900, 80
		}, Flows{-50000, 0, 0}},
		{"tax 25 % on 20,000 less 25,000 written off: 1,250 are saved", func(a, _ *Side, _ *Buy) { a.Tax = 0.25 }, Flows{-50000, 21250, 21250}},
		{"tax with 5 years of depreciation of the option, whatever the line has: 10,000 a year, 30,000 left at the end", func(a, b *Side, _ *Buy) { a.Tax, a.WriteOff, b.WriteOff = 0.25, 1, 5 },
			Flows{-50000, 17500, 17500 + 7500}},
		{"training saves tax at once, the rest value is taxed", func(a, _ *Side, buy *Buy) { a.Tax, buy.Training, buy.Rest = 0.25, 1000, 8000 },
			Flows{-50750, 21250, 21250 + 6000}},
		{"a fee of 2 less 0.5 of variable cost", func(a, b *Side, _ *Buy) { a.Variable, b.Variable = 0.5, 0.5 }, Flows{-50000, 15000, 15000}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, b, buy := now(), then(), Buy{Price: 50000, Life: 2}
			c.change(&a, &b, &buy)
			sameFlows(t, a.Flows(&b, &buy), c.want)
		})
	}
}

// Two machines of unequal lives, 62,000 for 4 years and 77,000 for 6 at 12 % (constructed): each bought again and again over 12 years costs
// in present value what its equivalent annual cost says.
func TestUnequalLivesByHand(t *testing.T) {
	for _, c := range []struct {
		buy  Buy
		cost float64
	}{
		{Buy{Price: 62000, Rest: 8000, Life: 4}, 33738.6595605 - 15000},
		{Buy{Price: 77000, Rest: 10000, Life: 6}, 38496.1231345 - 21000},
	} {
		annual := c.buy.annualCost(0.12)
		if math.Abs(annual-c.cost) > 1e-6 {
			t.Errorf("%v, want %v", annual, c.cost)
		}
		all := make(Flows, 13)
		for t := 0; t < 12; t += c.buy.Life {
			all[t] += c.buy.Price
			all[t+c.buy.Life] -= c.buy.Rest
		}
		if whole := all.Annual(0.12); !near(whole, annual) {
			t.Errorf("over 12 years %v a year, over one life %v", whole, annual)
		}
	}
}

// A study of high-pressure juice found 10.7 cents a litre, of which capital 59 %, labour 37 %, utilities 4 %, with 16.5 million litres a year at 3,000 L/h and
// 0.0606 kWh/L (Sampedro et al. 2014, Food Bioprocess Technol 7:1928: checked). Put in as a plant of our terms (110 h in each of 50 weeks, loads of
// 100 L, capital over 10 years at 10 %) the split comes out again, and the price of power that it takes is one that is paid.
func TestJuiceSplit(t *testing.T) {
	const litres, rate, cents = 16.5e6, 3000.0, 10.7
	hours := litres / rate / 50
	if math.Abs(hours-110) > 1e-9 {
		t.Fatalf("%v hours a week", hours)
	}
	power := 0.04 * cents / 100 / 0.0606
	if power < 0.05 || power > 0.12 {
		t.Fatalf("%v a kWh", power)
	}
	s := Side{
		Prices{HourCost: []float64{0.37 * cents / 100 * rate}, Paid: []bool{true}, Endless: true, Weeks: 50, Rate: 0.1, PerCycle: Cycle{Energy: 100 * 0.0606 * power}},
		Week{Packs: hours * rate, Cycles: hours * rate / 100, Hours: []float64{hours}, Overtime: []float64{0}, Rostered: hours},
	}
	plant := Buy{Price: 0.59 * cents / 100 * litres * interest.PA(0.1, 10), Life: 10}
	c := s.CostPerUnit(nil, plant)
	for _, x := range []struct {
		name       string
		got, share float64
	}{{"capital", c.Capital, 0.59}, {"labour", c.People, 0.37}, {"utilities", c.Energy + c.Water, 0.04}, {"all", c.Sum(), 1}} {
		if !near(x.got, x.share*cents/100) {
			t.Errorf("%s: %v, want %v", x.name, x.got, x.share*cents/100)
		}
	}
}

// More demand or a greater gain never makes an option worth less, and the sum of the years is the flows.
func TestMoreDemandIsNeverWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := now(), then()
		buy := Buy{Price: rapid.Float64Range(0, 1e5).Draw(t, "price"), Life: rapid.IntRange(1, 12).Draw(t, "life"), Upkeep: rapid.Float64Range(0, 1e4).Draw(t, "upkeep")}
		a.Tax = rapid.Float64Range(0, 0.5).Draw(t, "tax")
		a.Demand = rapid.Float64Range(1, 3000).Draw(t, "demand")
		b.Demand = a.Demand
		less := a.Flows(&b, &buy).NPV(0.1)
		more := rapid.Float64Range(1, 3).Draw(t, "more")
		a.Demand, b.Demand = a.Demand*more, b.Demand*more
		if now := a.Flows(&b, &buy).NPV(0.1); now < less-1e-6 {
			t.Fatalf("%v with more demand, %v before", now, less)
		}
		for _, l := range a.Lines(&b, &buy) {
			if !near(l.Flow, l.Earned-l.People-l.Running-l.Upkeep-l.Buying-l.Tax) {
				t.Fatalf("%+v does not add up", l)
			}
		}
	})
}
