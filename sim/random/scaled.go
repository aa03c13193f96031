package random

// scaled is a law whose values are all multiplied by a factor.
type scaled struct {
	law    Law
	factor float64
}

// Scaled is a law with every value multiplied by a factor, above 0. The same uniform number gives the same value times the factor.
func Scaled(l Law, factor float64) Law {
	if c, ok := l.(constant); ok {
		return constant(float64(c) * factor)
	}
	return scaled{l, factor}
}

func (s scaled) Quantile(u float64) float64 { return s.factor * s.law.Quantile(u) }
func (s scaled) Mean() float64              { return s.factor * s.law.Mean() }
func (s scaled) SD() float64                { return s.factor * s.law.SD() }
func (s scaled) bounds() (low, high float64) {
	low, high = Bounds(s.law)
	return s.factor * low, s.factor * high
}
