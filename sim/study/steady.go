package study

import (
	"errors"
	"math"

	"pascaline/scenarios"
	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/result"
)

// mserBatch is how many observations make one batch of the cut.
const mserBatch = 5

// leastBatches is how many batches there must be before a cut means anything.
const leastBatches = 10

// ErrNoSteadyState is told where a replication ends because everything is finished: there is nothing that lasts.
var ErrNoSteadyState = errors.New("a list of lots or a replication until finished ends: it has no steady state; leave --steady out, or state a supply without end and a length")

// SteadyScenario is a scenario as it would run for ever: without its roster, everybody of its best-staffed shift always there. The error
// is ErrNoSteadyState.
func SteadyScenario(s *scenarios.Scenario) (*scenarios.Scenario, error) {
	if s.Run.OneReplication.UntilFinished || len(s.Lots) > 0 {
		return nil, ErrNoSteadyState
	}
	x := *s
	x.People = append(scenarios.Pools(nil), s.People...)
	for i := range x.People {
		x.People[i].Heads = s.MostHeads(&s.People[i])
	}
	x.Roster = nil
	return &x, nil
}

// MSER5 is the number of batches of five observations to cut from the start of a series: the d in its first half that makes
// sum over j > d of (Z_j - mean)^2 / (k-d)^2 least, of the k batch means Z (White 1997; in batches of five White, Cobb and Spratt 2000: from memory). It
// is short where there are fewer than ten batches, or where the least lies at the end of the first half, so that a longer
// series would cut more.
func MSER5(y []float64) (cut int, short bool) {
	k := len(y) / mserBatch
	z := make(Sample, k)
	for j := range z {
		z[j] = Sample(y[j*mserBatch : (j+1)*mserBatch]).Mean()
	}
	best := math.Inf(1)
	for d := 0; d <= k/2 && d < k; d++ {
		if x := mser(z, d); x < best {
			best, cut = x, d
		}
	}
	return cut, k < leastBatches || cut == k/2 && cut > 0
}

// mser is the statistic that MSER5 makes least.
func mser(z Sample, d int) float64 {
	rest := z[d:]
	m, sum := rest.Mean(), 0.0
	for _, x := range rest {
		sum += float64((x - m) * (x - m))
	}
	return sum / float64(len(rest)*len(rest))
}

// Ratio is the sum of a over the sum of b, with the half width of its interval from the residuals a - ratio x b (the classical ratio estimator; Law and
// Kelton: from memory); false with fewer than two values.
func Ratio(a, b Sample) (mean, half float64, ok bool) {
	if len(a) == 0 || b.Mean() == 0 {
		return 0, 0, false
	}
	mean = a.Mean() / b.Mean()
	rest := make(Sample, len(a))
	for i := range a {
		rest[i] = a[i] - float64(mean*b[i])
	}
	h, ok := rest.Half()
	return mean, h / math.Abs(b.Mean()), ok
}

// steady gathers what came out at the end of each vessel cycle, or of each step of time where there is no vessel.
type steady struct {
	ends  [][]clock.Tick
	outs  [][]int64
	loads bool // by vessel cycle
}

func (s *steady) add(r *line.Record) {
	if s.loads = r.Vessel != nil; s.loads {
		s.ends, s.outs = append(s.ends, r.Vessel.Ends), append(s.outs, r.Vessel.Outs)
		return
	}
	var ends []clock.Tick
	var outs []int64
	sum := int64(0)
	for i, n := range r.Steps {
		if end := clock.Tick(i+1) * r.Step; end <= r.Length {
			sum += n
			ends, outs = append(ends, end), append(outs, sum)
		}
	}
	s.ends, s.outs = append(s.ends, ends), append(s.outs, outs)
}

// series is the mean over replications of what came in each observation, as far as all have one.
func (s *steady) series() []float64 {
	n := math.MaxInt
	for _, x := range s.outs {
		n = min(n, len(x))
	}
	y := make([]float64, n)
	for i := range y {
		sum := 0.0
		for _, x := range s.outs {
			if sum += float64(x[i]); i > 0 {
				sum -= float64(x[i-1])
			}
		}
		y[i] = sum / float64(len(s.outs))
	}
	return y
}

// after gives, for each replication, what came after a cut of so many observations, how many those were and in what time, in hours.
func (s *steady) after(cut int) (out, times, length Sample) {
	for i, ends := range s.ends {
		last := len(ends) - 1
		var from clock.Tick
		var was int64
		if cut > 0 {
			from, was = ends[cut-1], s.outs[i][cut-1]
		}
		out = append(out, float64(s.outs[i][last]-was))
		times = append(times, float64(len(ends)-cut))
		length = append(length, hours(ends[last]-from))
	}
	return out, times, length
}

// result cuts and estimates; nil where some replication has too little to look at.
func (s *steady) result() *result.Steady {
	y := s.series()
	if len(y) < 2 {
		return nil
	}
	batches, short := MSER5(y)
	cut := batches * mserBatch
	out, times, length := s.after(cut)
	x := &result.Steady{Observations: len(y), Cut: cut, Short: short, ByCycle: s.loads, Series: y, CutH: 0}
	if cut > 0 {
		from := 0.0
		for _, ends := range s.ends {
			from += hours(ends[cut-1])
		}
		x.CutH = from / float64(len(s.ends))
	}
	x.PerH, x.TimesPerH, x.Each = ratioOf(out, length), ratioOf(times, length), ratioOf(out, times)
	return x
}

// ratioOf is a ratio as a report prints it. Its spread is that of the single replications' ratios.
func ratioOf(a, b Sample) result.Estimate {
	single := make(Sample, len(a))
	for i := range a {
		single[i] = per(a[i], b[i])
	}
	e := single.Estimate()
	mean, half, ok := Ratio(a, b)
	e.Mean, e.HalfWidth = mean, nil
	if ok {
		e.HalfWidth = &half
	}
	return e
}

// precise tells whether the headline is known well enough: that of the steady state where it is asked for.
func (t *total) precise(o Options) bool {
	if len(t.lots) > 0 && t.n < LeastForLots {
		return false
	}
	if !o.Steady {
		return precise(t.rate, o.Precision)
	}
	if t.n < Least {
		return false
	}
	x := t.steady.result()
	if x == nil || x.PerH.HalfWidth == nil {
		return false
	}
	return *x.PerH.HalfWidth <= math.Abs(x.PerH.Mean)*o.Precision/(1+o.Precision)
}

// steadyHeadline puts the steady state in the place of the headline, and says what stands against it. Wear is that of the steady cycles in the hours of
// a week that the roster has which was left out; 0: those of the scenario.
func (t *total) steadyHeadline(r *result.Run, weekH float64) {
	x := t.steady.result()
	if x == nil {
		r.Warnings = warn(r.Warnings, "warm-up not over", "There are too few vessel cycles or steps of time to cut a start off: nothing can be said of a steady state. Let one replication be longer (run.one_replication).")
		return
	}
	r.Steady = x
	s, cases := t.m.Scenario(), r.Headline.CasesPerH != nil
	r.Headline = result.Headline{PacksPerH: x.PerH, PacksPerRun: r.Headline.PacksPerRun}
	if r.Stretches[len(r.Stretches)-1].Piece == "carriers" {
		r.Headline.PacksPerH, r.Headline.CarriersPerH = t.rate.Estimate(), &x.PerH
	} else {
		if mass := float64(s.Product.Pack.Mass); mass > 0 {
			r.Headline.KgPerH = scaledBy(x.PerH, mass)
		}
		if cases {
			r.Headline.CasesPerH = scaledBy(x.PerH, 1/float64(s.Product.PacksPerCase))
		}
	}
	if x.ByCycle {
		r.Headline.CyclesPerH = &x.TimesPerH
		if weekH == 0 {
			weekH = s.WeekHours("")
		}
		r.Vessel.Wear = wear(s, x.TimesPerH, weekH)
	}
	r.HandCheck = HandCheck(s, r.Headline.PacksPerH.Mean)
	if x.Short {
		r.Warnings = warn(r.Warnings, "warm-up not over", "The run is too short for its cut: of %d observations a start of %d is left out, which reaches the middle or rests on too few. Let one replication be longer (run.one_replication).", x.Observations, x.Cut)
	}
}

func scaledBy(e result.Estimate, f float64) *result.Estimate {
	e.Mean, e.SD, e.P10, e.P90 = e.Mean*f, e.SD*f, e.P10*f, e.P90*f
	if e.HalfWidth != nil {
		h := *e.HalfWidth * f
		e.HalfWidth = &h
	}
	return &e
}
