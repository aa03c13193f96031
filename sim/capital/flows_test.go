package capital

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"pascaline/sim/interest"
)

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(1, math.Abs(a), math.Abs(b)) }

// Worked by hand; the values of textbooks stand in testdata/published/economics.csv.
func TestPaybackByHand(t *testing.T) {
	for _, c := range []struct {
		name  string
		flows Flows
		rate  float64
		years float64
		pays  bool
	}{
		{"to the day at the end of a year", Flows{-100, 50, 50, 50}, 0, 2, true},
		{"half way through the third year", Flows{-125, 50, 50, 50}, 0, 2.5, true},
		{"with interest 50 and 90.9 do not bring 150", Flows{-150, 55, 110, 0}, 0.1, 0, false},
		{"with interest: 50 and 100 today", Flows{-100, 55, 121}, 0.1, 1.5, true},
		{"never", Flows{-1000, 100, 100, 100, 100, 100}, 0, 0, false},
		{"just not", Flows{-100, 99.999}, 0, 0, false},
		{"nothing is paid: at once", Flows{0, 10, 10}, 0, 0, true},
		{"nothing is paid, nothing comes", Flows{0, 0, 0}, 0, 0, false},
		{"nothing is paid today but a loss follows", Flows{0, -10, -10}, 0, 0, false},
		{"a cost later: below 0 from year 1 on, back in the middle of year 3", Flows{0, -10, 5, 10}, 0, 2.5, true},
		{"no flows", nil, 0, 0, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			years, pays := c.flows.Discounted(c.rate)
			if pays != c.pays || pays && !near(years, c.years) {
				t.Errorf("%v, %v; want %v, %v", years, pays, c.years, c.pays)
			}
		})
	}
}

func TestRatesByHand(t *testing.T) {
	for _, c := range []struct {
		name  string
		flows Flows
		rates []float64
	}{
		{"doubled in a year", Flows{-100, 200}, []float64{1}},
		{"half lost", Flows{-100, 50}, []float64{-0.5}},
		{"never paid back at any rate", Flows{-100, -5}, nil},
		{"nothing is paid", Flows{100, 5}, nil},
		{"nothing at all", Flows{0, 0}, nil},
		{"two: 10 % and 20 %", Flows{-100, 230, -132}, []float64{0.1, 0.2}},
		{"one that only touches: 10 % twice", Flows{-100, 220, -121}, []float64{0.1}},
		{"none though the sign changes twice", Flows{-100, 200, -121}, nil},
		{"three: 0, 10 and 20 %", Flows{-100, 330, -362, 132}, []float64{0, 0.1, 0.2}},
		{"nothing in the first years", Flows{0, 0, -100, 110}, []float64{0.1}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := c.flows.Rates()
			if len(got) != len(c.rates) {
				t.Fatalf("%v, want %v", got, c.rates)
			}
			for i := range got {
				if math.Abs(got[i]-c.rates[i]) > 1e-6 {
					t.Errorf("%v, want %v", got, c.rates)
				}
			}
			if _, unique := c.flows.Rate(); unique != (len(c.rates) == 1) {
				t.Error("the only one or not is told wrongly")
			}
		})
	}
}

// At each internal rate the present value is 0, and between two of them it does not change its sign.
func TestRatesAreZeros(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := Flows(rapid.SliceOfN(rapid.Float64Range(-100, 100), 2, 12).Draw(t, "flows"))
		all := f.Rates()
		if !slices.IsSorted(all) {
			t.Fatal("not in order")
		}
		for _, r := range all {
			size := 0.0
			for i, a := range f {
				size += math.Abs(a * interest.PF(r, i))
			}
			if v := f.NPV(r); math.Abs(v) > 1e-6*size {
				t.Fatalf("NPV at %v is %v", r, v)
			}
		}
		signs := 0
		for x, before := -0.99, 0.0; x < 20; x += 0.01 {
			v := f.NPV(x)
			if v*before < 0 {
				signs++
			}
			before = v
		}
		if len(all) < signs {
			t.Fatalf("%d rates, %d changes of sign", len(all), signs)
		}
	})
}

func TestEdgesOfFactors(t *testing.T) {
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"without interest a year counts as a year", interest.PA(0, 5), 5},
		{"without interest a gradient is 0+1+2+3+4", interest.PG(0, 5), 10},
		{"without interest a tenth is paid each year", interest.AP(0, 10), 0.1},
		{"without interest the level gain divides", first(Repaid(100, 25, 0)), 4},
		{"nothing to repay", first(Repaid(0, 25, 0.1)), 0},
		{"a level amount is its own annual amount", Flows{0, 7, 7, 7}.Annual(0.08), 7},
		{"no years, no annual amount", Flows{5}.Annual(0.08), 0},
	} {
		if !near(c.got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
	if _, pays := Repaid(100, 10, 0.1); pays {
		t.Error("a gain that only pays the interest repays")
	}
	if !math.IsNaN((Flows{1, 2}).MIRR(0.1, 0.1)) || !math.IsNaN((Flows{-1}).MIRR(0.1, 0.1)) {
		t.Error("a modified rate of flows that have none")
	}
}

func first(a float64, _ bool) float64 { return a }

// Payback with interest is never shorter than without, and the sum of the flows stands behind it.
func TestPaybackHoldsTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := Flows{-rapid.Float64Range(0.1, 1000).Draw(t, "outlay")}
		f = append(f, rapid.SliceOfN(rapid.Float64Range(0, 300), 1, 15).Draw(t, "gains")...)
		rate := rapid.Float64Range(0, 0.5).Draw(t, "rate")
		plain, pays := f.Payback()
		if pays != (f.Total() >= 0) {
			t.Fatalf("pays %v, total %v", pays, f.Total())
		}
		with, paysWith := f.Discounted(rate)
		if paysWith && (!pays || with < plain-1e-9) {
			t.Fatalf("%v with interest, %v without", with, plain)
		}
		if paysWith != (f.NPV(rate) >= 0) && math.Abs(f.NPV(rate)) > 1e-6 {
			t.Fatalf("pays with interest %v, NPV %v", paysWith, f.NPV(rate))
		}
		sums := f.Sums()
		if !near(sums[len(sums)-1], f.Total()) {
			t.Fatal("sums do not end at the total")
		}
	})
}
