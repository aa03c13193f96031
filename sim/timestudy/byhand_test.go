package timestudy

import (
	"fmt"
	"math"
	"testing"

	"pascaline/scenarios"
	"pascaline/sim/result"
)

// A shape with a longest time must be better by 2 than the next that can be used; it is taken where it is, or where nothing else is left.
func TestTriangularMustBeBetterBy2(t *testing.T) {
	one := func(shape scenarios.Shape, aic float64, rejected bool) fitted {
		return fitted{Fitted: result.Fitted{Distribution: string(shape), AIC: &aic, Rejected: rejected}}
	}
	for _, c := range []struct {
		name string
		next fitted
		want int
	}{
		{"1.9 better", one(scenarios.Lognormal, 101.9, false), 1}, {"2 better", one(scenarios.Lognormal, 102, false), 0},
		{"the next rejected", one(scenarios.Lognormal, 100.5, true), 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := choose([]fitted{one(scenarios.Triangular, 100, false), c.next}, 12); got != c.want {
				t.Errorf("took %d", got)
			}
		})
	}
}

// A² is brought to the scale of its table: 0.7 of 25 readings is 0.7 (1 + 0.2/5) for Weibull, 0.7 (1 + 0.75/25 + 2.25/625) for normal and lognormal, 0.7 (1 + 0.6/25)
// for exponential.
func TestModifiedAndersonDarlingByHand(t *testing.T) {
	for shape, want := range map[scenarios.Shape]float64{scenarios.Weibull: 0.728, scenarios.Normal: 0.72352, scenarios.Lognormal: 0.72352, scenarios.Exponential: 0.7168, scenarios.Gamma: 0.7} {
		near(t, string(shape), modified(shape, 0.7, 25), want, 1e-12)
	}
}

// 1 1 2 2 3 3 4 4: 24 of 28 pairs rise and 4 are equal, so S = 24. The variance is (8 x 7 x 21 - 4 x 2 x 1 x 9)/18 = 1104/18, and z = 23 / sqrt(1104/18) = 2.93684. The
// slopes of pairs at 1 to 7 apart: their median is 1/2.
func TestDriftWithTiesByHand(t *testing.T) {
	z, slope := drift([]float64{1, 1, 2, 2, 3, 3, 4, 4})
	near(t, "z", z, 23/math.Sqrt(1104.0/18), 1e-12)
	near(t, "z", z, 2.93684, 1e-5)
	near(t, "slope", slope, 0.5, 1e-12)
}

// Two groups of ten readings, on the logs spread by 0.01 in the same way and 0.045 or 0.05 apart. Twice the gain in log likelihood of two kinds over one is 13.46 and 17.14
// (worked out apart from this program, by expectation and maximisation); 10 + 2 ln 20 = 15.99 is asked for.
func TestTwoKindsMustBeTold(t *testing.T) {
	for apart, want := range map[float64]bool{0.045: false, 0.05: true} {
		var v []float64
		for _, x := range []float64{-1.5, -1, -0.6, -0.3, -0.1, 0.1, 0.3, 0.6, 1, 1.5} {
			v = append(v, math.Exp(x/100), math.Exp(x/100+apart))
		}
		if _, _, _, ok := twoKinds(v); ok != want {
			t.Errorf("%g apart: two kinds %v", apart, ok)
		}
	}
}

// Four shifts of two readings each, on the logs -3a, -a, a, 3a away from the task's mean and 0.1 to both sides of their own. The variance within is 2 x 0.01, of a
// shift's mean 0.01, so Q = 20 a²/0.01 with 3 degrees. a² = 0.00225: Q = 4.5, and shifts that differ by tau = 20 a²/3 - 0.01 = 0.005 make it 3. The pace is sqrt(e^0.005 - 1), and of
// each effect a third is the shift's own: 0.005/(0.005 + 0.01).
func TestPaceOfShiftsByHand(t *testing.T) {
	a := math.Sqrt(0.00225)
	tk := Task{Name: "fill"}
	var v []float64
	for i := range 4 {
		for _, side := range []float64{-0.1, 0.1} {
			v = append(v, 50*math.Exp(float64(2*i-3)*a+side))
			tk.Readings = append(tk.Readings, Reading{Seconds: v[len(v)-1], Shift: fmt.Sprint(i)})
		}
	}
	p, effect := paceOf([]Task{tk}, [][]float64{v})
	near(t, "pace", p.Share, math.Sqrt(math.Expm1(0.005)), 1e-8)
	near(t, "low", p.Low, 0, 0) // Q is below the 9.348 of chi-square with 3 degrees at 97.5 %
	near(t, "effect", effect["3"], a, 1e-8)
	// High: Q = 0.2158 (chi-square with 3 degrees at 2.5 %) at tau = 0.045/0.2158 - 0.01 = 0.1985.
	near(t, "high", p.High, math.Sqrt(math.Expm1(0.1985)), 2e-4)
}

// 16 readings of mean 100 s and sd 12 s in 4 shifts whose pace differs by 10 %: the variance of the mean is 144/16 + 100/4 - 100/16 = 27.75, since what the pace adds to the
// scatter of the readings is in the 12 s already; 34 where it was taken out. t with 3 degrees is 3.18245.
func TestWidenByHand(t *testing.T) {
	for freed, variance := range map[bool]float64{false: 27.75, true: 34} {
		h := 6.0
		one := result.FitTask{N: 16, MeanS: 100, SDS: 12, HalfS: &h, People: 2, Shifts: make([]result.ShiftMean, 4)}
		widen(&one, &result.Pace{Share: 0.1, Low: 0.05}, freed)
		near(t, fmt.Sprintf("half width, freed %v", freed), *one.HalfS, 3.18245*math.Sqrt(variance), 1e-4)
	}
}
