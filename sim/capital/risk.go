package capital

import (
	"math"
	"slices"

	"pascaline/sim/random"
	"pascaline/sim/result"
)

// Outcome is what the draws showed of one option.
type Outcome struct {
	NPV, IRR, Payback, Discounted []float64   // by draw; +Inf never pays, -Inf no internal rate, NaN several
	Sums                          [][]float64 // by year, then draw
}

// draws takes values for all that is not known, so many times: each range of the user's, and for the simulation the mean over
// replications taken again at random with replacement, the same ones for the line as it stands and all options. Of n
// replications n-1 are taken, which gives their mean the variance s²/n (Rao and Wu 1988: from memory). A draw is the
// same whatever else is drawn, since each figure has a stream of its own.
func (p *plant) draws(s *Sample, seed uint64, n int) []Outcome {
	out := make([]Outcome, len(p.options))
	streams := make([]random.Stream, len(p.guesses))
	for i, g := range p.guesses {
		streams[i] = random.Named(seed, 0, g.Path)
	}
	c := p.central.clone()
	for d := range n {
		for i, g := range p.guesses {
			if !g.Known() {
				g.set(c, g.Quantile(streams[i].At(uint64(d))))
			}
		}
		if s.Replication > 1 {
			p.fill(c, s, drawnAgain(s, seed, d))
		}
		for i := range out {
			out[i].take(c.Flows(i), c.Base.Rate)
		}
	}
	return out
}

// drawnAgain are the replications of draw d, n-1 of n.
func drawnAgain(s *Sample, seed uint64, d int) []int {
	stream := random.Named(seed, 0, "money/replications")
	which := make([]int, s.Replication-1)
	for i := range which {
		u := stream.At(uint64(d)*uint64(len(which)) + uint64(i))
		which[i] = min(int(float64(u*float64(s.Replication))), s.Replication-1)
	}
	return which
}

func (o *Outcome) take(f Flows, rate float64) {
	o.NPV = append(o.NPV, f.NPV(rate))
	o.Payback = append(o.Payback, orNever(f.Payback()))
	o.Discounted = append(o.Discounted, orNever(f.Discounted(rate)))
	irr := math.Inf(-1)
	if all := f.Rates(); len(all) == 1 {
		irr = all[0]
	} else if len(all) > 1 {
		irr = math.NaN()
	}
	o.IRR = append(o.IRR, irr)
	for t, x := range f.Sums() {
		if t == len(o.Sums) {
			o.Sums = append(o.Sums, nil)
		}
		o.Sums[t] = append(o.Sums[t], x)
	}
}

func orNever(years float64, pays bool) float64 {
	if pays {
		return years
	}
	return math.Inf(1)
}

// ranked is the value that the share p of all values does not exceed: an order statistic, so that "never" keeps its rank and a
// reciprocal is mapped and not averaged. Values that are no number are left out.
func ranked(sorted []float64, p float64) *float64 {
	if len(sorted) == 0 {
		return nil
	}
	i := int(math.Ceil(float64(p*float64(len(sorted))))) - 1
	x := sorted[min(max(i, 0), len(sorted)-1)]
	if math.IsInf(x, 0) {
		return nil
	}
	return &x
}

// spread is P10, P50 and P90.
func spread(values []float64) result.Range {
	x := inOrder(values)
	return result.Range{P10: ranked(x, 0.1), P50: ranked(x, 0.5), P90: ranked(x, 0.9)}
}

func inOrder(values []float64) []float64 {
	x := slices.DeleteFunc(slices.Clone(values), math.IsNaN)
	slices.Sort(x)
	return x
}

// shareOf is the share of values that are as asked.
func shareOf(values []float64, is func(float64) bool) float64 {
	if len(values) == 0 {
		return 0
	}
	n := 0
	for _, v := range values {
		if is(v) {
			n++
		}
	}
	return float64(n) / float64(len(values))
}

// NeverPays is the share of draws in which it is not paid back in its life.
func (o *Outcome) NeverPays() float64 {
	return shareOf(o.Payback, func(y float64) bool { return math.IsInf(y, 1) })
}

// InTime is the share of draws in which it is paid back in so many years.
func (o *Outcome) InTime(years float64) float64 {
	return shareOf(o.Payback, func(y float64) bool { return y <= years })
}

// Several is the share of draws with more than one internal rate.
func (o *Outcome) Several() float64 { return shareOf(o.IRR, math.IsNaN) }
