package random

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// gamma is given by mean and sd: shape k = (mean/sd)^2.
type gamma struct {
	mean, sd float64
	tab      *table // of log(x/mean)
}

func newGamma(mean, sd float64) (Law, error) {
	if err := spread(mean, sd, 0.01, 5); err != nil {
		return nil, err
	}
	k := mean / sd * (mean / sd)
	return gamma{mean, sd, newTable(func(_, u, rest float64) (y, slope float64) {
		y = gammaQuantile(k, u, rest)
		return y - math.Log(k), u * rest / gammaDensity(k, y)
	})}, nil
}

// gammaDensity is the density of the logarithm y of a gamma time with scale 1: x f(x).
func gammaDensity(k, y float64) float64 {
	lg, _ := math.Lgamma(k)
	return math.Exp(k*y - math.Exp(y) - lg)
}

// gammaQuantile is the logarithm of the quantile, scale 1, from the smaller of the shares below and above.
func gammaQuantile(k, below, above float64) float64 {
	lg, _ := math.Lgamma(k + 1)
	// For small x the share below is x^k/Gamma(k+1) times a factor between 1 and exp(-x).
	if y := (math.Log(below) + lg) / k; y < -40 {
		return y
	}
	y := 0.0
	if below < above {
		y = math.Log(mathext.GammaIncRegInv(k, below))
	} else {
		y = math.Log(mathext.GammaIncRegCompInv(k, above))
	}
	for range 2 { // Newton's steps take out what the library's stopping rule left
		miss := mathext.GammaIncReg(k, math.Exp(y)) - below
		if below >= above {
			miss = above - mathext.GammaIncRegComp(k, math.Exp(y))
		}
		y -= miss / gammaDensity(k, y)
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
	a, b := 1+4*(likely-low)/(high-low), 1+4*(high-likely)/(high-low)
	return pert{low, likely, high, newTable(func(_, u, rest float64) (y, slope float64) {
		y = betaQuantile(a, b, u, rest)
		return y, u * rest / betaDensity(a, b, y)
	})}, nil
}

// betaDensity is the density of y = log(x/(1-x)) of a beta value x: x (1-x) f(x).
func betaDensity(a, b, y float64) float64 {
	return math.Exp(-a*math.Log1p(math.Exp(-y)) - b*math.Log1p(math.Exp(y)) - mathext.Lbeta(a, b))
}

// betaQuantile is log(x/(1-x)) of the quantile x, from the smaller of the shares below and above.
func betaQuantile(a, b, below, above float64) float64 {
	if above < below {
		return -betaQuantile(b, a, above, below)
	}
	x := mathext.InvRegIncBeta(a, b, below)
	y := math.Log(x / (1 - x))
	for range 2 {
		y -= (mathext.RegIncBeta(a, b, 1/(1+math.Exp(-y))) - below) / betaDensity(a, b, y)
	}
	return y
}

func (l pert) Quantile(u float64) float64 {
	return l.low + float64((l.high-l.low)/(1+exp(-l.tab.at(u))))
}

func (l pert) Mean() float64 { return (l.low + float64(4*l.likely) + l.high) / 6 }

func (l pert) SD() float64 {
	m := l.Mean()
	return math.Sqrt((m - l.low) * (l.high - m) / 7)
}

func (l pert) bounds() (low, high float64) { return l.low, l.high }
