package random

import (
	"math"
	"sort"
)

// Residual is the law of the time to the next event when a row of events, whose intervals have law l, is looked at at a
// random moment (the equilibrium law of a renewal process; Cox 1962, section 5.2). Its distribution is
// Fe(x) = (1/mean) times the integral of 1-F from 0 to x, and its mean (mean^2 + sd^2) / (2 mean). It is exact for
// constant, exponential and empirical laws; for others it is tabulated once: the share below a quantile is right to 1e-6.
func Residual(l Law) Law {
	switch l := l.(type) {
	case constant:
		if l == 0 {
			return l
		}
		return uniform{0, float64(l)}
	case exponential:
		return l
	case empirical:
		return newResidualReadings(l.values)
	case scaled: // what is looked at through another scale of time
		return Scaled(Residual(l.law), l.factor)
	}
	return newResidualCurve(l)
}

// equilibrium is the mean and sd of a residual law, from the moments of the interval: E(X^2)/2E(X) and E(X^3)/3E(X).
type equilibrium struct{ mean, sd float64 }

func newEquilibrium(first, second, third float64) equilibrium {
	m := second / (2 * first)
	return equilibrium{m, math.Sqrt(third/(3*first) - float64(m*m))}
}

func (l equilibrium) Mean() float64 { return l.mean }
func (l equilibrium) SD() float64   { return l.sd }

// residualReadings is the residual law of readings: 1-F is level between two of them, so Fe is straight there.
type residualReadings struct {
	equilibrium
	x     []float64 // 0 and the readings, sorted
	share []float64 // Fe there, from 0 to 1
}

func newResidualReadings(values []float64) Law {
	var first, second, third, area, before float64
	l := residualReadings{x: []float64{0}, share: []float64{0}}
	for i, v := range values {
		first += v
		second += float64(v * v)
		third += float64(v * v * v)
		area += float64((v - before) * float64(len(values)-i))
		l.x, l.share, before = append(l.x, v), append(l.share, area), v
	}
	for i := range l.share {
		l.share[i] /= area
	}
	l.equilibrium = newEquilibrium(first, second, third)
	return l
}

func (l residualReadings) Quantile(u float64) float64 {
	i := sort.SearchFloat64s(l.share, u) // at least 1, and share[i-1] < u <= share[i]
	part := (u - l.share[i-1]) / (l.share[i] - l.share[i-1])
	return l.x[i-1] + float64(part*(l.x[i]-l.x[i-1]))
}

func (l residualReadings) bounds() (low, high float64) { return 0, l.x[len(l.x)-1] }

// residualCurve is the residual law of a law without steps, as knots of the value x against w = -log(1-Fe), in which
// upper ends are nearly straight. The slope dx/dw is known at each knot: it is mean (1-Fe)/(1-F).
type residualCurve struct {
	equilibrium
	w, x, slope []float64 // from w = 0, x = 0 on
	high        float64
}

// Knots stand at equal steps of t = log(p/(1-p)), p the share of intervals that are shorter than x. Beyond 33 the
// share above is under 5e-15 and no longer known to two digits. The sd leaves out what lies there, which matters for
// the widest lognormal laws only (1 in 100 at an sd of five means).
const (
	residualRange = 33
	residualSteps = 2 * residualRange * knotsPerUnit
)

func newResidualCurve(l Law) Law {
	r := residualCurve{w: make([]float64, residualSteps+2), x: make([]float64, residualSteps+2),
		slope: make([]float64, residualSteps+2)}
	_, r.high = Bounds(l)

	// From the top down: above is the integral of 1-F from x on, made of positive pieces only.
	var third, above float64
	for i := residualSteps; i >= 0; i-- {
		t := float64(i)/knotsPerUnit - residualRange
		x := l.Quantile(logistic(t))
		r.x[i+1] = x
		if i < residualSteps {
			s := segment(l, t, x)
			above += s.excess + float64(logistic(-t-1.0/knotsPerUnit)*(r.x[i+2]-x))
			third += s.third
		}
		r.w[i+1] = above
		r.slope[i+1] = above / logistic(-t)
	}
	mean := above + r.x[1]
	for i := 1; i < len(r.w); i++ {
		r.w[i] = -log(max(r.w[i], math.SmallestNonzeroFloat64) / mean)
	}
	r.slope[0] = mean
	top := len(r.w) - 1 // its integral is 0: keep it only as an end of the piece before
	r.w, r.x, r.slope = r.w[:top], r.x[:top], r.slope[:top]
	second := float64(l.Mean()*l.Mean()) + float64(l.SD()*l.SD())
	r.equilibrium = newEquilibrium(l.Mean(), second, third)
	return r
}

// sums are integrals over the shares of one step of t.
type sums struct{ excess, third float64 }

// segment integrates Q-x and Q^3 over the shares from t to the next knot, by Gauss and Legendre's rule with four
// points.
func segment(l Law, t, x float64) (s sums) {
	nodes := [...]float64{-0.8611363115940526, -0.3399810435848563, 0.3399810435848563, 0.8611363115940526}
	weights := [...]float64{0.3478548451374538, 0.6521451548625461, 0.6521451548625461, 0.3478548451374538}
	const half = 0.5 / knotsPerUnit
	for i, node := range nodes {
		at := t + half + float64(half*node)
		p, rest := logistic(at), logistic(-at)
		q := l.Quantile(p)
		weight := half * weights[i] * p * rest
		s.excess += float64(weight * (q - x))
		s.third += float64(weight * q * q * q)
	}
	return s
}

// logistic is the share at t = log(p/(1-p)).
func logistic(t float64) float64 { return 1 / (1 + exp(-t)) }

func (l residualCurve) Quantile(u float64) float64 {
	w := -log1p(-u)
	i := sort.SearchFloat64s(l.w, w)
	switch {
	case i == 1: // no interval is shorter than the first knot: Fe is straight
		return float64(l.slope[0] * u)
	case i == len(l.w):
		i--
		return min(l.high, l.x[i]+float64(l.slope[i]*(w-l.w[i])))
	}
	d := l.w[i] - l.w[i-1]
	return hermite((w-l.w[i-1])/d, l.x[i-1], float64(l.slope[i-1]*d), l.x[i], float64(l.slope[i]*d))
}

func (l residualCurve) bounds() (low, high float64) { return 0, l.high }
