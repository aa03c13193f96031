package capital

import (
	"math"
	"slices"

	"pascaline/sim/result"
	"pascaline/sim/study"
)

// verdict is what cash flows come to at a discount rate.
func verdict(f Flows, rate float64) result.Verdict {
	v := result.Verdict{NPV: f.NPV(rate), Rates: f.Rates(), Annual: f.Annual(rate)}
	if v.Rates == nil {
		v.Rates = []float64{}
	}
	if years, pays := f.Payback(); pays {
		v.Payback = &years
	}
	if years, pays := f.Discounted(rate); pays {
		v.Discounted = &years
	}
	if len(v.Rates) > 1 {
		if m := f.MIRR(rate, rate); !math.IsNaN(m) {
			v.MIRR = &m
		}
	}
	return v
}

// sumAt is the sum of flows after so many years, linear within a year.
func (f Flows) sumAt(years float64) float64 {
	sum := 0.0
	for t, a := range f {
		switch {
		case float64(t) <= years:
			sum += a
		case float64(t-1) < years:
			sum += float64(a * (years - float64(t-1)))
		}
	}
	return sum
}

// lever is one figure that is moved while all others stay as planned.
type lever struct {
	what, unit string
	planned    func(c *Case, i int) float64
	set        func(c *Case, i int, v float64)
	atMost     bool // more of it is worse, where nothing else is shown
}

var levers = []lever{
	{"demand in the first year", "packs/week", func(c *Case, i int) float64 { return c.Options[i].Demand }, func(c *Case, i int, v float64) {
		scaled := v / c.Options[i].Demand
		c.Base.Demand *= scaled
		c.Options[i].Demand = v
	}, false},
	{"contribution", "/pack", func(c *Case, i int) float64 { return c.Options[i].margin() }, func(c *Case, i int, v float64) {
		d := v - c.Options[i].margin()
		c.Options[i].PerPack += d
		c.Base.PerPack += d
	}, false},
	{"gain in output", "packs/week", func(c *Case, i int) float64 { return c.Options[i].Packs - c.Base.Packs }, func(c *Case, i int, v float64) {
		o := &c.Options[i]
		before := o.Packs
		o.Packs = c.Base.Packs + v
		if before > 0 {
			o.Cycles *= o.Packs / before
		}
	}, false},
	{"purchase", "", func(c *Case, i int) float64 { return c.Buys[i].Price }, func(c *Case, i int, v float64) { c.Buys[i].Price = v }, true},
}

const (
	mostTimes = 10  // a figure is moved up to so many times its planned value
	halvings  = 100 // of the stretch in which a break-even lies
)

// breakEven finds for each figure the value at which option i is just paid back in the asked time.
func (p *plant) breakEven(i int, currency string) (list []result.BreakEven) {
	for _, l := range levers {
		planned := l.planned(p.central, i)
		if planned <= 0 || l.unit == "packs/week" && l.what[0] == 'd' && p.central.Base.Endless {
			continue
		}
		b := result.BreakEven{What: l.what, Unit: l.unit, Planned: planned, AtMost: l.atMost}
		if l.unit == "" || l.unit == "/pack" {
			b.Unit = currency + l.unit
		}
		solve(&b, func(v float64) float64 {
			c := p.central.clone()
			l.set(c, i, v)
			return c.Flows(i).sumAt(c.Base.PaysIn)
		})
		list = append(list, b)
	}
	return list
}

// solve finds where a sum that only rises or only falls with a figure crosses 0 between nearly nothing and ten times the planned value, and on which side
// of that it pays: more output, or a higher price of it, is worse for an option that sells less. Where it does not cross it pays at all these values or at
// none. Where the sum is flat at 0 the value that is needed least is given.
func solve(b *result.BreakEven, sum func(float64) float64) {
	low, high := b.Planned*1e-6, b.Planned*mostTimes
	atLow, atHigh := sum(low) >= 0, sum(high) >= 0
	if atLow == atHigh {
		b.Always = atLow
		return
	}
	if b.AtMost = atLow; b.AtMost {
		low, high = high, low
	}
	for range halvings {
		mid := (low + high) / 2
		if sum(mid) < 0 {
			low = mid
		} else {
			high = mid
		}
	}
	b.Needed = &high
}

const (
	tried      = 0.2 // a figure given as one value is moved by this share up and down
	eightOfTen = 0.8 // of the cases lie between P10 and P90
)

// tornado moves each figure alone between its P10 and P90, what is known by a fifth, and the simulated gain over the interval that holds it in 8 of
// 10 cases, so that like stands beside like.
func (p *plant) tornado(i int, gain study.Sample) (list []result.Swing) {
	at := func(change func(*Case)) float64 {
		c := p.central.clone()
		change(c)
		return c.Flows(i).NPV(c.Base.Rate)
	}
	for _, g := range p.guesses {
		low, high := g.Quantile(0.1), g.Quantile(0.9)
		if g.Known() {
			low, high = float64(g.Central*(1-tried)), float64(g.Central*(1+tried))
		}
		s := result.Swing{What: g.Says, Unit: g.Unit, Low: low, High: high, Tried: g.Known()}
		s.NPVLow, s.NPVHigh = at(func(c *Case) { g.set(c, low) }), at(func(c *Case) { g.set(c, high) })
		list = append(list, s)
	}
	if h, ok := gain.HalfAt(eightOfTen); ok && h > 0 {
		s := result.Swing{What: "gain in output (doubt of the simulation)", Unit: "packs/week", Low: gain.Mean() - h, High: gain.Mean() + h}
		s.NPVLow, s.NPVHigh = at(func(c *Case) { levers[2].set(c, i, s.Low) }), at(func(c *Case) { levers[2].set(c, i, s.High) })
		list = append(list, s)
	}
	list = slices.DeleteFunc(list, func(s result.Swing) bool { return s.NPVLow == s.NPVHigh })
	slices.SortStableFunc(list, func(a, b result.Swing) int {
		switch wa, wb := math.Abs(a.NPVHigh-a.NPVLow), math.Abs(b.NPVHigh-b.NPVLow); {
		case wa > wb:
			return -1
		case wa < wb:
			return 1
		}
		return 0
	})
	return list
}

const lowDemand = 0.6

// at60 is option i if only 60 % of the demand comes; nil where all that is made can be sold.
func (p *plant) at60(i int) *result.Verdict {
	if p.central.Base.Endless {
		return nil
	}
	c := p.central.clone()
	c.Base.Demand *= lowDemand
	c.Options[i].Demand *= lowDemand
	v := verdict(c.Flows(i), c.Base.Rate)
	return &v
}

// unitOf is what costs are split by.
func unitOf(s *Side) string {
	if s.PackKg > 0 {
		return "kg"
	}
	return "pack"
}
