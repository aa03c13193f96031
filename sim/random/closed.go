package random

import (
	"math"

	"pascaline/scenarios"
)

// exponential is the law of a time that does not age.
type exponential struct{ mean float64 }

func (l exponential) Quantile(u float64) float64  { return -l.mean * log1p(-u) }
func (l exponential) Mean() float64               { return l.mean }
func (l exponential) SD() float64                 { return l.mean }
func (l exponential) bounds() (low, high float64) { return 0, math.Inf(1) }

// lognormal is given by the mean and sd of the time itself, not of its logarithm.
type lognormal struct{ mean, sd, mu, sigma float64 }

func newLognormal(mean, sd float64) (Law, error) {
	if err := spread(scenarios.Lognormal, mean, sd); err != nil {
		return nil, err
	}
	cv := sd / mean
	variance := log1p(float64(cv * cv))
	return lognormal{mean: mean, sd: sd, mu: log(mean) - variance/2, sigma: math.Sqrt(variance)}, nil
}

func (l lognormal) Quantile(u float64) float64  { return exp(l.mu + float64(l.sigma*normalQuantile(u))) }
func (l lognormal) Mean() float64               { return l.mean }
func (l lognormal) SD() float64                 { return l.sd }
func (l lognormal) bounds() (low, high float64) { return 0, math.Inf(1) }

// normal is the normal law without its negative part: a negative draw is taken again.
type normal struct {
	mu, sigma float64
	below     float64 // share of the whole law below 0
	mean, sd  float64 // of what is left
}

// newNormal is the normal law of mean mu and sd sigma, cut off at 0. With a = -mu/sigma and h the density at a over the
// share that is left, its mean is mu + sigma h and its variance sigma^2 (1 + a h - h^2) (Johnson, Kotz and
// Balakrishnan 1994, section 13.10.1).
func newNormal(mu, sigma float64) Law {
	a := -mu / sigma
	below := steady(0.5 * math.Erfc(-a/math.Sqrt2))
	h := exp(float64(-a*a)/2) / math.Sqrt(2*math.Pi) / (1 - below)
	return normal{
		mu: mu, sigma: sigma, below: below,
		mean: mu + float64(sigma*h),
		sd:   sigma * math.Sqrt(1+float64(a*h)-float64(h*h)),
	}
}

func (l normal) Quantile(u float64) float64 {
	z := 0.0
	if u < 0.5 {
		z = normalQuantile(l.below + float64(u*(1-l.below)))
	} else { // from above, where 1-u is exact
		z = -normalQuantile(float64((1 - u) * (1 - l.below)))
	}
	return max(0, l.mu+float64(l.sigma*z))
}

func (l normal) Mean() float64               { return l.mean }
func (l normal) SD() float64                 { return l.sd }
func (l normal) bounds() (low, high float64) { return 0, math.Inf(1) }

// weibull is given by mean and sd; its shape follows from their ratio.
type weibull struct{ mean, sd, scale, inverse float64 }

func newWeibull(mean, sd float64) (Law, error) {
	if err := spread(scenarios.Weibull, mean, sd); err != nil {
		return nil, err
	}
	k := steady(weibullShape(sd / mean))
	return weibull{mean: mean, sd: sd, scale: mean * steady(1/math.Gamma(1+1/k)), inverse: 1 / k}, nil
}

// weibullShape is the shape k whose ratio of sd to mean is cv: Gamma(1+2/k) / Gamma(1+1/k)^2 = 1 + cv^2. The left side
// falls as k rises; for cv from 0.05 to 5 the shape is between 25.9 and 0.31.
func weibullShape(cv float64) float64 {
	low, high := 0.2, 40.0
	for range 100 {
		k := (low + high) / 2
		two, _ := math.Lgamma(1 + 2/k)
		one, _ := math.Lgamma(1 + 1/k)
		if two-2*one > math.Log1p(cv*cv) {
			low = k
		} else {
			high = k
		}
	}
	return (low + high) / 2
}

func (l weibull) Quantile(u float64) float64 {
	return l.scale * exp(float64(log(-log1p(-u))*l.inverse))
}
func (l weibull) Mean() float64               { return l.mean }
func (l weibull) SD() float64                 { return l.sd }
func (l weibull) bounds() (low, high float64) { return 0, math.Inf(1) }
