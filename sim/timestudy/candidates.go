package timestudy

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"pascaline/scenarios"
	"pascaline/sim/result"
)

// The shapes that are tried, and how each is fitted by maximum likelihood.
var fitters = map[scenarios.Shape]func(Sample) distribution{
	scenarios.Exponential: fitExponential,
	scenarios.Gamma:       fitGamma,
	scenarios.Lognormal:   fitLognormal,
	scenarios.Weibull:     fitWeibull,
	scenarios.Normal:      fitNormal,
	scenarios.Triangular:  fitTriangular,
}

// Candidates for task times, and for samples with censored values, in the order in which they are tried.
var (
	forTasks    = []scenarios.Shape{scenarios.Lognormal, scenarios.Gamma, scenarios.Weibull, scenarios.Normal, scenarios.Triangular, scenarios.Exponential}
	forCensored = []scenarios.Shape{scenarios.Exponential, scenarios.Weibull, scenarios.Lognormal, scenarios.Gamma}
)

const (
	fewestForShape = 5   // readings below which no shape is fitted
	mostSpread     = 8.0 // standard deviation over mean beyond which a fit is of nothing that was read
	mostTime       = 1e7 // seconds, or hours, cycles, packs; a scenario takes a year
	fewestForOwn   = 30  // readings from which they can stand for themselves
)

// fitted is one candidate with its distribution.
type fitted struct {
	result.Fitted
	dist distribution
}

// fitAll fits the candidates and sorts them by AIC. The readings differ from each other and are above 0; written is a value as it is written into a scenario.
func fitAll(s Sample, shapes []scenarios.Shape, written func(float64) float64) []fitted {
	var all []fitted
	for _, shape := range shapes {
		d := fitters[shape](s)
		f := fitted{dist: d, Fitted: result.Fitted{Distribution: string(shape), Parameters: parameters(d), MeanS: round(d.Mean()), SDS: round(d.StdDev())}}
		ll := logLikelihood(d, s)
		if math.IsNaN(ll) || math.IsInf(ll, 0) || math.IsInf(f.MeanS, 0) || math.IsInf(f.SDS, 0) {
			continue
		}
		aic := round(2*float64(len(f.Parameters)) - 2*ll)
		f.AIC, f.LogLikelihood = &aic, round(ll)
		if len(s.Censored) == 0 {
			judge(&f, shape, s.Exact)
		}
		f.Remark = f.unusable(written)
		all = append(all, f)
	}
	slices.SortStableFunc(all, func(a, b fitted) int { return cmp.Compare(*a.AIC, *b.AIC) })
	return all
}

// judge holds readings against a fitted shape.
func judge(f *fitted, shape scenarios.Shape, v []float64) {
	a2 := AndersonDarling(v, f.dist.CDF)
	plus, minus := KolmogorovSmirnov(v, f.dist.CDF)
	at := critical(shape, f.dist, len(v))
	m, c, ks := modified(shape, a2, len(v)), round(at[1]), round(math.Max(plus, minus))
	f.P, f.Rejected = chance(m, at), m > at[1]
	a2, m = round(a2), round(m)
	f.AndersonDarling, f.Modified, f.Critical, f.Distance = &a2, &m, &c, &ks
}

// unusable says why a fit cannot be put into a scenario, or "": what the scenario would refuse when it reads it again, or what is of nothing that was read.
func (f fitted) unusable(written func(float64) float64) string {
	if f.SDS/f.MeanS > mostSpread || f.MeanS > mostTime || f.SDS > mostTime {
		return "not used: its spread is far beyond anything that was read"
	}
	l := scenarios.Law{Shape: scenarios.Shape(f.Distribution), Mean: written(f.MeanS), SD: written(f.SDS)}
	if f.limited() {
		l = scenarios.Law{Shape: scenarios.Triangular, Low: written(f.Parameters[0].Value), Likely: written(f.Parameters[1].Value), High: written(f.Parameters[2].Value)}
	}
	switch {
	case l.Refused() == "":
		return ""
	case l.Shape == scenarios.Normal:
		return fmt.Sprintf("not used: negative in %.1f of 100 draws; drawn again until positive the mean would be %.4g s", 100*math.Erfc(l.Mean/l.SD/math.Sqrt2)/2, l.MeanUsed())
	}
	return "not used: its spread is outside what a scenario takes for this shape"
}

// limited tells a shape that ends at a longest time, which no number of readings shows.
func (f fitted) limited() bool { return f.Distribution == string(scenarios.Triangular) }

// choose is the index of the candidate to use: the lowest AIC among those that can be used and that the readings do not speak
// against; one with a longest time must be better by 2. With all rejected it is -1 where there are readings enough to stand for themselves, else the lowest AIC.
func choose(all []fitted, n int) int {
	first, limited := -1, -1
	for i, f := range all {
		if f.Remark != "" {
			continue
		}
		if first < 0 {
			first = i
		}
		switch {
		case f.Rejected:
		case limited >= 0 && *f.AIC >= *all[limited].AIC+2:
			return limited
		case f.limited() && limited < 0:
			limited = i
		default:
			return i
		}
	}
	if limited >= 0 {
		return limited
	}
	if n >= fewestForOwn {
		return -1
	}
	return first
}

// parameters of a fitted distribution, by the names of the literature.
func parameters(d distribution) []result.Parameter {
	p := func(name string, v float64) result.Parameter { return result.Parameter{Name: name, Value: round(v)} }
	switch d := d.(type) {
	case distuv.Exponential:
		return []result.Parameter{p("mean", 1/d.Rate)}
	case distuv.Gamma:
		return []result.Parameter{p("shape", d.Alpha), p("scale", 1/d.Beta)}
	case distuv.LogNormal:
		return []result.Parameter{p("mu", d.Mu), p("sigma", d.Sigma)}
	case distuv.Weibull:
		return []result.Parameter{p("shape", d.K), p("scale", d.Lambda)}
	case distuv.Normal:
		return []result.Parameter{p("mean", d.Mu), p("sd", d.Sigma)}
	case distuv.Triangle:
		low, high := d.Quantile(0), d.Quantile(1)
		return []result.Parameter{p("low", low), p("likely", d.Mode()), p("high", high)}
	}
	return nil
}

// round keeps ten digits: more would differ from processor to processor, and say nothing.
func round(v float64) float64 {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return v
	}
	p := math.Pow10(9 - int(math.Floor(math.Log10(math.Abs(v)))))
	if math.IsInf(p, 0) || p == 0 {
		return v
	}
	return math.Round(v*p) / p
}
