package random

import (
	"math"

	"gonum.org/v1/gonum/mathext"

	"pascaline/scenarios"
)

// gamma is given by mean and sd: shape k = (mean/sd)^2.
type gamma struct {
	mean, sd float64
	tab      *table // of log(x/mean)
}

func newGamma(mean, sd float64) (Law, error) {
	if err := spread(scenarios.Gamma, mean, sd); err != nil {
		return nil, err
	}
	k := mean / sd * (mean / sd)
	c := newGammaCurve(k)
	return gamma{mean, sd, newTable(c, c.start())}, nil
}

// gammaCurve is the gamma law of mean 1 in y = log x.
type gammaCurve struct{ k, logk, lgamma, lgamma1 float64 }

func newGammaCurve(k float64) gammaCurve {
	lg, _ := math.Lgamma(k)
	lg1, _ := math.Lgamma(k + 1)
	return gammaCurve{k, math.Log(k), lg, lg1}
}

func (c gammaCurve) below(y float64) float64 {
	y += c.logk
	if y < -40 { // where exp(-x) is 1; x itself may be too small for a number
		return math.Exp(c.k*y - c.lgamma1)
	}
	return mathext.GammaIncReg(c.k, math.Exp(y))
}

func (c gammaCurve) above(y float64) float64 { return mathext.GammaIncRegComp(c.k, math.Exp(y+c.logk)) }

func (c gammaCurve) density(y float64) float64 {
	y += c.logk
	return math.Exp(c.k*y - math.Exp(y) - c.lgamma)
}

// start is near the lowest knot, and not above it by much: from x^k/Gamma(k+1), which is never below the share below x,
// or from Wilson and Hilferty's cube root (1931), whichever is higher.
func (c gammaCurve) start() float64 {
	y := (-halfRange+c.lgamma1)/c.k - c.logk
	z := normalQuantile(math.Exp(-halfRange))
	if root := 1 - 1/(9*c.k) + z/(3*math.Sqrt(c.k)); root > 0 {
		y = max(y, 3*math.Log(root))
	}
	return y
}

func (l gamma) Quantile(u float64) float64  { return l.mean * exp(l.tab.at(u)) }
func (l gamma) Mean() float64               { return l.mean }
func (l gamma) SD() float64                 { return l.sd }
func (l gamma) bounds() (low, high float64) { return 0, math.Inf(1) }

// pert is a beta law between low and high with its peak at likely and the mean (low + 4 likely + high)/6. Its variance
// is (mean-low)(high-mean)/7, not ((high-low)/6)^2.
type pert struct {
	low, likely, high float64
	tab               *table // of log(x/(1-x)), x from 0 to 1
}

func newPERT(low, likely, high float64) (Law, error) {
	if err := ordered(number{"low", low}, number{"likely", likely}, number{"high", high}); err != nil {
		return nil, err
	}
	if low == high {
		return constant(low), nil
	}
	c := newBetaCurve(1+4*(likely-low)/(high-low), 1+4*(high-likely)/(high-low))
	return pert{low, likely, high, newTable(c, c.start())}, nil
}

// betaCurve is the beta law on 0..1 in y = log(x/(1-x)).
type betaCurve struct{ a, b, lbeta float64 }

func newBetaCurve(a, b float64) betaCurve { return betaCurve{a, b, mathext.Lbeta(a, b)} }

func (c betaCurve) below(y float64) float64 { return mathext.RegIncBeta(c.a, c.b, 1/(1+math.Exp(-y))) }
func (c betaCurve) above(y float64) float64 { return mathext.RegIncBeta(c.b, c.a, 1/(1+math.Exp(y))) }

func (c betaCurve) density(y float64) float64 {
	return math.Exp(-c.a*math.Log1p(math.Exp(-y)) - c.b*math.Log1p(math.Exp(y)) - c.lbeta)
}

// start is the lowest knot by the first term of the share's series, x^a/(a B(a,b)).
func (c betaCurve) start() float64 { return (-halfRange + math.Log(c.a) + c.lbeta) / c.a }

func (l pert) Quantile(u float64) float64 {
	return l.low + float64((l.high-l.low)/(1+exp(-l.tab.at(u))))
}

func (l pert) Mean() float64 { return (l.low + float64(4*l.likely) + l.high) / 6 }

func (l pert) SD() float64 {
	m := l.Mean()
	return math.Sqrt((m - l.low) * (l.high - m) / 7)
}

func (l pert) bounds() (low, high float64) { return l.low, l.high }
