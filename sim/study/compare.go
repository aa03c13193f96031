package study

import (
	"cmp"
	"context"
	"math"

	"pascaline/sim/line"
	"pascaline/sim/result"
)

// Entrant is a scenario that is compared.
type Entrant struct {
	Name, Variant string
	Model         *line.Model
}

// Compare sets scenarios beside the first of them, paired by replication with common random numbers. It goes on until every difference of the
// headline is known to the precision asked for (half width over the base's rate, see near), at least Least replications. The
// runs are what a study of each alone would give. The error is a NotAlike, a fault of this program, or none at all was done.
func Compare(ctx context.Context, list []Entrant, o Options) (*result.Comparison, []*result.Run, error) {
	doubts, err := alike(list)
	if err != nil {
		return nil, nil, err
	}
	c := &comparison{list: list, o: o}
	models := make([]*line.Model, len(list))
	for i, e := range list {
		models[i] = e.Model
		c.totals = append(c.totals, newTotal(e.Model, o.Seed))
	}
	most, asked, stopped := o.end()
	var unlike error
	interrupted, err := Together(ctx, models, o, most, func(n int, records []*line.Record) bool {
		if unlike = c.otherEnds(records); unlike != nil {
			return false
		}
		c.add(records)
		if o.Progress != nil {
			o.Progress(n, c.widest())
		}
		if o.Replications == 0 && c.near() {
			stopped = "precision"
			return false
		}
		return true
	})
	if err = cmp.Or(err, unlike); err != nil {
		return nil, nil, err
	}
	if interrupted {
		stopped = "interrupted"
	}
	if c.n == 0 {
		return nil, nil, context.Cause(ctx)
	}
	r := c.result()
	base := c.totals[0]
	r.Replications = result.Replications{N: c.n, Asked: asked, StoppedBy: stopped, Precision: o.Precision, Incomplete: interrupted,
		LengthH: hours(base.length) / float64(c.n), RosteredHoursH: hours(base.rostered) / float64(c.n)}
	r.Warnings = c.warnings(r, doubts)
	var runs []*result.Run
	for _, t := range c.totals {
		runs = append(runs, t.result())
	}
	return r, runs, nil
}

// comparison gathers what is compared.
type comparison struct {
	list    []Entrant
	o       Options
	n       int
	totals  []*total
	gauges  []gauge
	pairs   [][]Pairs // by measure, then by scenario after the base
	counted [][]Sample
	each    []result.PairedReadings
}

// add takes in one replication of all.
func (c *comparison) add(records []*line.Record) {
	if c.n == 0 {
		c.gauges = gaugesOf(records[0])
		c.pairs = make([][]Pairs, len(c.gauges))
		c.counted = make([][]Sample, len(c.gauges))
		for g := range c.gauges {
			c.pairs[g] = make([]Pairs, len(c.list)-1)
			c.counted[g] = make([]Sample, len(c.list))
		}
	}
	c.n++
	row := result.PairedReadings{Number: c.n}
	for i, r := range records {
		c.totals[i].add(r)
	}
	for g, x := range c.gauges {
		base, there := x.of(c.list[0].Model, records[0])
		for i, r := range records {
			v, has := x.of(c.list[i].Model, r)
			if has {
				c.counted[g][i] = append(c.counted[g][i], v)
			}
			if i > 0 && has && there {
				c.pairs[g][i-1].Add(base, v)
			}
			if g == 0 {
				row.Values = append(row.Values, v)
			}
		}
	}
	c.each = append(c.each, row)
}

// level of each interval of the headline, so that all of them hold together.
func (c *comparison) level() float64 { return Bonferroni(Level, len(c.list)-1) }

// widest is the widest half width of the headline's differences, 0 where there is none yet.
func (c *comparison) widest() float64 {
	w := 0.0
	for i := range c.pairs[0] {
		h, _ := c.pairs[0][i].Differences().HalfAt(c.level())
		w = math.Max(w, h)
	}
	return w
}

// near tells whether every difference of the headline is known well enough: half width <= gamma / (1 + gamma) times the greater of the two
// means. Of a difference itself no relative precision can be asked, since it may be 0.
func (c *comparison) near() bool {
	if c.n < Least {
		return false
	}
	for i := range c.pairs[0] {
		p := &c.pairs[0][i]
		h, ok := p.Differences().HalfAt(c.level())
		most := math.Max(math.Abs(p.Base.Mean()), math.Abs(p.Other.Mean()))
		if !ok || h > most*c.o.Precision/(1+c.o.Precision) {
			return false
		}
	}
	return true
}

func (c *comparison) result() *result.Comparison {
	r := &result.Comparison{Head: result.NewHead(result.KindComparison), Seed: c.o.Seed, Differences: []result.Difference{},
		Differing: differing(c.list), PerReplication: c.each}
	for g, x := range c.gauges {
		if some(c.counted[g]) {
			r.Measures = append(r.Measures, x.Measure)
		}
	}
	for i, e := range c.list {
		t := c.totals[i]
		s := result.Compared{Name: e.Name, Variant: e.Variant, ScenarioHash: e.Model.Scenario().Hash(),
			LengthH: hours(t.length) / float64(c.n), RosteredH: hours(t.rostered) / float64(c.n), Values: []result.ValueReading{}}
		for g, x := range c.gauges {
			if len(c.counted[g][i]) > 0 {
				s.Values = append(s.Values, result.ValueReading{Measure: x.Name, Estimate: c.counted[g][i].Estimate()})
			}
		}
		r.Scenarios = append(r.Scenarios, s)
	}
	for i := range c.list[1:] {
		for g, x := range c.gauges {
			if p := &c.pairs[g][i]; len(p.Base) > 0 {
				r.Differences = append(r.Differences, c.difference(c.list[i+1].Name, x, p, g == 0))
			}
		}
	}
	return r
}

func some(samples []Sample) bool {
	for _, s := range samples {
		if len(s) > 0 {
			return true
		}
	}
	return false
}

// difference is one scenario minus the base in one measure.
func (c *comparison) difference(name string, g gauge, p *Pairs, headline bool) result.Difference {
	d := p.Differences()
	x := result.Difference{Scenario: name, Measure: g.Name, Unit: g.Unit, Mean: d.Mean(), Level: Level, Simultaneous: headline,
		Share: per(d.Mean(), math.Abs(p.Base.Mean())), Pairs: len(d)}
	if headline {
		x.Level = c.level()
	}
	if h, ok := d.HalfAt(x.Level); ok {
		low, high := x.Mean-h, x.Mean+h
		x.Low, x.High, x.Shown = &low, &high, low > 0 || high < 0
	}
	if r, ok := p.Correlation(); ok {
		x.Correlation = &r
	}
	if v, ok := p.Saved(); ok {
		x.VarianceSaved = &v
	}
	for _, v := range d {
		switch {
		case v > 0:
			x.Above++
		case v < 0:
			x.Below++
		}
	}
	return x
}
