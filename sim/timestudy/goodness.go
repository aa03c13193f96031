package timestudy

import (
	"fmt"
	"math"

	"pascaline/scenarios"
	"pascaline/sim/random"
)

// AndersonDarling is A² of readings against a distribution: 0 fits perfectly; the tails count most (Anderson and Darling 1954).
func AndersonDarling(v []float64, cdf func(float64) float64) float64 {
	x, n := sorted(v), len(v)
	t := 0.0
	for i := range x {
		low, high := inside(cdf(x[i])), inside(cdf(x[n-1-i]))
		t += float64(float64(2*i+1) * (math.Log(low) + math.Log1p(-high)))
	}
	return -float64(n) - t/float64(n)
}

// inside keeps a chance off 0 and 1, whose logs are infinite.
func inside(p float64) float64 { return math.Min(math.Max(p, 1e-300), 1-1e-16) }

// KolmogorovSmirnov gives the greatest distances of the readings' steps above and below a distribution.
func KolmogorovSmirnov(v []float64, cdf func(float64) float64) (plus, minus float64) {
	x := sorted(v)
	n := float64(len(x))
	for i := range x {
		p := cdf(x[i])
		plus = math.Max(plus, float64(i+1)/n-p)
		minus = math.Max(minus, p-float64(i)/n)
	}
	return plus, minus
}

// modified brings A² to the scale of the table of its shape, for n readings from which all parameters were estimated (Stephens, in
// D'Agostino and Stephens 1986, tables 4.7 to 4.17; from memory, checked by simulation).
func modified(shape scenarios.Shape, a2 float64, n int) float64 {
	m := float64(n)
	switch shape {
	case scenarios.Normal, scenarios.Lognormal:
		return float64(a2 * (1 + 0.75/m + 2.25/(m*m)))
	case scenarios.Exponential:
		return float64(a2 * (1 + 0.6/m))
	case scenarios.Weibull:
		return float64(a2 * (1 + 0.2/math.Sqrt(m)))
	}
	return a2
}

// Levels at which critical values are tabled: one in 10, 20, 40 and 100 samples of the shape itself exceeds them.
var levels = [4]float64{0.1, 0.05, 0.025, 0.01}

// Critical values of modified A² at the levels; known is for a distribution none of whose parameters was estimated. For the Weibull distribution the
// second is exceeded slightly more often than that with few readings (0.770 would be right for 10 to 200).
var (
	criticalKnown       = [4]float64{1.933, 2.492, 3.070, 3.857}
	criticalNormal      = [4]float64{0.631, 0.752, 0.873, 1.035}
	criticalExponential = [4]float64{1.062, 1.321, 1.591, 1.959}
	criticalWeibull     = [4]float64{0.637, 0.757, 0.877, 1.038}
)

// critical are the values of modified A² for a shape whose parameters were estimated. For shapes without a table they are
// simulated: the shape is drawn from and fitted anew, so the values are right for its own parameters and number of readings, up to mostRedraw of them.
func critical(shape scenarios.Shape, d distribution, n int) [4]float64 {
	switch shape {
	case scenarios.Normal, scenarios.Lognormal:
		return criticalNormal
	case scenarios.Exponential:
		return criticalExponential
	case scenarios.Weibull:
		return criticalWeibull
	}
	return simulated(shape, d, n)
}

// chance says how likely so bad a fit is where the shape is the right one, between two levels.
func chance(a2 float64, at [4]float64) string {
	for i := len(at) - 1; i >= 0; i-- {
		if a2 <= at[i] {
			continue
		}
		if i == len(at)-1 {
			return fmt.Sprintf("below %g", levels[i])
		}
		return fmt.Sprintf("%g to %g", levels[i+1], levels[i])
	}
	return fmt.Sprintf("above %g", levels[0])
}

const (
	redraws    = 199 // samples drawn for a critical value
	mostRedraw = 100 // readings in each: beyond that the value hardly moves
)

func simulated(shape scenarios.Shape, d distribution, n int) (at [4]float64) {
	n = min(n, mostRedraw)
	stream := random.Named(1, 0, "critical value of "+string(shape))
	values := make([]float64, redraws)
	v := make([]float64, n)
	for i := range values {
		for j := range v {
			v[j] = math.Max(d.Quantile(stream.At(uint64(i*n+j))), 1e-12)
		}
		again := fitters[shape](Sample{Exact: v})
		values[i] = AndersonDarling(v, again.CDF)
	}
	values = sorted(values)
	for i, l := range levels {
		at[i] = quantileOf(values, 1-l)
	}
	return at
}
