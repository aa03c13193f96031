package timestudy

import (
	"fmt"
	"math"
	"strconv"

	"gonum.org/v1/gonum/stat/distuv"

	"pascaline/scenarios"
	"pascaline/sim/result"
)

// every fits the time to stop. The mean's interval is that of events at random (chi-square with two degrees for each; Epstein 1954), or, where another
// shape is taken, that of this shape.
func (x *stopStudy) every(r *result.StopFitC, s Sample) {
	time, events := sum(s.Exact)+sum(s.Censored), float64(len(s.Exact))
	if events == 0 {
		events, time = float64(r.N), x.ranFor(r)
	}
	r.EveryFits = []result.Fitted{}
	if time < leastClock {
		r.Doubts = append(r.Doubts, x.noTime())
		return
	}
	low, high := atRandom(time, events)
	x.take(r, string(scenarios.Exponential), time/events, 0, low, high)
	switch {
	case r.N == 1:
		r.Doubts = append(r.Doubts, "One stop: the time to the next is little more than a guess.")
	case len(s.Exact) < fewestToStop:
		r.Doubts = append(r.Doubts, fmt.Sprintf("%s to stop: too few to tell a shape; stops at random (exponential) are assumed.", count(len(s.Exact), "time", "times")))
	}
	if len(s.Exact) < fewestToStop || spread(s.Exact) == 0 {
		return
	}
	all := fitAll(s, forCensored, x.written)
	for _, f := range all {
		r.EveryFits = append(r.EveryFits, f.Fitted)
	}
	if f := all[steady(all)]; f.Distribution != string(scenarios.Exponential) {
		low, high := meanWithin(s, f.dist)
		x.take(r, f.Distribution, f.MeanS, f.SDS, low, high)
	}
}

// tooSeldom leaves out of the scenario what it would refuse: a stop that comes less than once a year of its clock.
func (x *stopStudy) tooSeldom(r *result.StopFitC) {
	if x.unit == "h" && x.written(r.Mean) > longest/3600 {
		r.Every = ""
		r.Doubts = append(r.Doubts, "A time to stop of more than a year is more than a scenario takes: the stop is left out.")
	}
}

// ranFor is the time of the clock in the log in which a cause did not last.
func (x *stopStudy) ranFor(r *result.StopFitC) float64 {
	if x.l.Meter != "" {
		return x.exposure(r.Station)
	}
	return x.exposure(r.Station) - r.Down
}

// noTime says that nothing is known of the time to a stop.
func (x *stopStudy) noTime() string {
	if x.l.Meter != "" {
		return "The rows of the station show one reading of its meter only, so the time to a stop is not known: write every yourself."
	}
	return "The log has no time beside this stop, so the time to the next is not known: say when the log began and ended (--from, --to), or write every yourself."
}

const (
	fewestToStop = 8    // times to stop below which no shape is fitted
	leastClock   = 1e-4 // hours, cycles, packs: less than any log tells
)

// take writes the time to stop of a shape, with its mean and the interval of that.
func (x *stopStudy) take(r *result.StopFitC, shape string, mean, sd, low, high float64) {
	low, high = round(low), round(high)
	r.EveryBest, r.Mean, r.Low, r.High = shape, round(mean), &low, &high
	r.Every = "{mean: " + x.spanText(r.Mean) + ", as: exponential}"
	if shape != string(scenarios.Exponential) {
		r.Every = "{mean: " + x.spanText(r.Mean) + ", sd: " + x.sdText(sd) + ", as: " + shape + "}"
	}
}

// atRandom is the interval of 95 % of the mean time to an event that comes at random, from a number of events in a time: 2 T over the quantiles of
// chi-square, with two degrees more at the low end, since the time ends without an event (Epstein 1954).
func atRandom(time, events float64) (low, high float64) {
	return 2 * time / distuv.ChiSquared{K: 2*events + 2}.Quantile(0.975), 2 * time / distuv.ChiSquared{K: 2 * events}.Quantile(0.025)
}

// steady is the index of the best fit of times to stop: the exponential unless another that can be used is better by 2 in AIC, because a stop
// that has no age needs the least to be known.
func steady(all []fitted) int {
	best := 0
	for i, f := range all {
		if f.Distribution == string(scenarios.Exponential) {
			best = i
		}
	}
	for i, f := range all {
		if f.Remark == "" && *f.AIC < *all[best].AIC-2 {
			return i
		}
	}
	return best
}

// meanWithin is the interval of 95 % of the mean of a fitted shape: all means that no other mean beats by much in likelihood, whatever the spread
// (profile likelihood). How much is n ln(1 + t^2/(n-1)), which is exact for the mean of a normal distribution and goes to chi-square's 3.84 for
// many readings (Kendall and Stuart 1979, section 24.1).
func meanWithin(s Sample, d distribution) (low, high float64) {
	n := float64(len(s.Exact))
	t := student(len(s.Exact) - 1)
	least := logLikelihood(d, s) - float64(n*math.Log1p(t*t/(n-1))/2)
	shape, of := byMean(d)
	beyond := func(m float64) float64 {
		f := func(x []float64) float64 {
			if math.Abs(x[0]-shape) > 5 {
				return math.NaN()
			}
			return logLikelihood(of(math.Exp(m), math.Exp(x[0])), s)
		}
		return least - f(climb([]float64{shape}, f))
	}
	m := math.Log(d.Mean())
	const far = 4 // 55 times the mean
	return math.Exp(bisect(func(x float64) float64 { return -beyond(x) }, m-far, m)), math.Exp(bisect(beyond, m, m+far))
}

// byMean is the log of what a shape has beside its mean, and the shape by its mean and that.
func byMean(d distribution) (float64, func(mean, p float64) distribution) {
	switch d := d.(type) {
	case distuv.Weibull:
		return math.Log(d.K), func(m, k float64) distribution { return distuv.Weibull{K: k, Lambda: m / math.Gamma(1+1/k)} }
	case distuv.Gamma:
		return math.Log(d.Alpha), func(m, k float64) distribution { return distuv.Gamma{Alpha: k, Beta: k / m} }
	case distuv.LogNormal:
		return math.Log(d.Sigma), func(m, s float64) distribution { return distuv.LogNormal{Mu: math.Log(m) - float64(s*s/2), Sigma: s} }
	}
	return 0, func(m, _ float64) distribution { return distuv.Exponential{Rate: 1 / m} }
}

// written is a time to stop as it is written into a scenario: a whole number of cycles or packs, or hours with four digits.
func (x *stopStudy) written(v float64) float64 {
	if x.unit != "h" {
		return math.Max(1, math.Round(v))
	}
	return writtenHours(v)
}

// spanText is a mean time to stop as a scenario reads it.
func (x *stopStudy) spanText(v float64) string {
	if x.unit != "h" {
		return x.sdText(v)
	}
	return hours(v) + " " + x.clock
}

func (x *stopStudy) sdText(v float64) string {
	if x.unit != "h" {
		return plain(x.written(v)) + " " + x.unit
	}
	return hours(v)
}

func writtenHours(v float64) float64 {
	p := math.Pow10(max(0, 3-int(math.Floor(math.Log10(math.Max(v, 1e-6))))))
	return math.Round(v*p) / p
}

func hours(v float64) string { return strconv.FormatFloat(writtenHours(v), 'f', -1, 64) + " h" }
