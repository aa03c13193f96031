package study

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"pascaline/sim/result"
)

// Level is the confidence of every interval.
const Level = 0.95

// Sample is a list of values, one for each replication, in order.
type Sample []float64

// Mean is the mean, 0 of an empty sample.
func (s Sample) Mean() float64 {
	if len(s) == 0 {
		return 0
	}
	sum := 0.0
	for _, x := range s {
		sum += x
	}
	return sum / float64(len(s))
}

// SD is the standard deviation with n-1, 0 of fewer than two values.
func (s Sample) SD() float64 {
	if len(s) < 2 {
		return 0
	}
	m, sum := s.Mean(), 0.0
	for _, x := range s {
		sum += float64((x - m) * (x - m)) // the conversion keeps the product from being fused: same bits on every processor
	}
	return math.Sqrt(sum / float64(len(s)-1))
}

// Half is the half width of the Student-t interval at Level; false with fewer than two values, when there is none.
func (s Sample) Half() (float64, bool) { return s.HalfAt(Level) }

// HalfAt is the half width of the Student-t interval at a level such as 0.95; false with fewer than two values, when there is none.
func (s Sample) HalfAt(level float64) (float64, bool) {
	n := len(s)
	if n < 2 {
		return 0, false
	}
	return float64(studentT(n-1, level)*s.SD()) / math.Sqrt(float64(n)), true
}

// Normal975 is the 97.5 % point of the standard normal distribution: 95 % lie between it and its negative (any table).
const Normal975 = 1.959963984540054

// studentT is the quantile of the t distribution for a two-sided interval at a level, rounded to ten decimals: the library's last bits
// depend on whether the processor fuses products.
func studentT(df int, level float64) float64 {
	return math.Round(distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(df)}.Quantile(1-(1-level)/2)*1e10) / 1e10
}

// Quantile is the p-quantile by linear interpolation between order statistics (Hyndman and Fan 1996, type 7: from memory). Values may be without
// end: what never was finished.
func (s Sample) Quantile(p float64) float64 {
	if len(s) == 0 {
		return 0
	}
	x := slices.Clone(s)
	slices.Sort(x)
	h := p * float64(len(x)-1)
	if whole := math.Round(h); math.Abs(h-whole) < 1e-9 {
		h = whole
	}
	i := int(h)
	if h == float64(i) || x[i] == x[i+1] { // what comes next may be without end, and then nothing can be taken of it
		return x[i]
	}
	return x[i] + float64((h-float64(i))*(x[i+1]-x[i]))
}

// Estimate is what a report prints of a sample.
func (s Sample) Estimate() result.Estimate {
	e := result.Estimate{Mean: s.Mean(), Level: Level, N: len(s), SD: s.SD(), P10: s.Quantile(0.1), P90: s.Quantile(0.9)}
	if h, ok := s.Half(); ok {
		e.HalfWidth = &h
	}
	return e
}
