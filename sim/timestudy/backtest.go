package timestudy

import (
	"context"
	"errors"
	"fmt"
	"math"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"pascaline/scenarios"
	"pascaline/scenarios/units"
	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/result"
	"pascaline/sim/study"
)

// predicted is what each replication made, in steps of time.
type predicted struct {
	steps  [][]int64
	stepS  float64
	cycles []float64
	scale  float64   // packs to what was counted
	endS   []float64 // when each replication ended
}

// in is what a replication made between two times in seconds; steps that are cut are shared in proportion.
func (p *predicted) in(rep int, from, to float64) float64 {
	t := 0.0
	for i, n := range p.steps[rep] {
		a, b := float64(i)*p.stepS, math.Min(float64(i+1)*p.stepS, p.endS[rep]) // the last step ends with the replication
		if share := math.Min(b, to) - math.Max(a, from); share > 0 {
			t += float64(float64(n) * math.Min(1, share/(b-a)))
		}
	}
	return t * p.scale
}

const (
	bothSides = study.Normal975    // of a normal distribution at 95 %
	nineInTen = 1.2815515655446004 // one-sided 90 %
)

// Backtest holds the predictions of a model against counts. The verdict is the usual one: a model is not rejected unless what was counted, over
// all periods, lies further from the prediction than chance allows in 95 of 100 valid models. What is independent is a replication: hours of
// a day hang together, so that days (or weeks) are compared as wholes.
func Backtest(ctx context.Context, m *line.Model, c *Counts, o study.Options) (*result.Backtest, error) {
	run, p, err := predict(ctx, m, o)
	if err != nil {
		return nil, err
	}
	return hold(run, p, c, float64(m.Scenario().Product.PacksPerCase))
}

// Finer makes the steps of time so fine that periods are not cut through them.
func Finer(s *scenarios.Scenario) { s.Run.Steps = min(s.Run.Steps, 10*units.Minute) }

// predict runs a model and keeps what each replication made.
func predict(ctx context.Context, m *line.Model, o study.Options) (*result.Run, *predicted, error) {
	p := &predicted{}
	o.Each = func(r *line.Record) {
		p.steps, p.endS = append(p.steps, r.Steps), append(p.endS, float64(r.Length)/float64(clock.Second))
		p.stepS = float64(r.Step) / float64(clock.Second)
		n := 0.0
		if r.Vessel != nil {
			n = float64(r.Vessel.Cycles)
		}
		p.cycles = append(p.cycles, n)
	}
	run, err := study.Run(ctx, m, o)
	return run, p, err
}

// hold holds counts against what was predicted.
func hold(run *result.Run, p *predicted, c *Counts, packsPerCase float64) (*result.Backtest, error) {
	if len(c.All) == 0 {
		return nil, errors.New("no period was counted")
	}
	if p.scale = 1; c.What == "cases" {
		p.scale = 1 / packsPerCase
	}
	if c.What == "cycles" && (c.Per != "day" || run.Vessel == nil || daysApart(run.Replications.LengthH)) {
		return nil, errors.New("cycles are compared per day, for a line with a vessel whose replication is a day; count packs or cases instead")
	}
	r := &result.Backtest{Head: result.NewHead(result.KindBacktest), Scenario: run.Scenario, ScenarioHash: run.ScenarioHash, Seed: run.Seed,
		Replications: run.Replications.N, What: c.What, Per: c.Per, Unit: "day", Warnings: run.Warnings}
	if daysApart(run.Replications.LengthH) {
		r.Unit = "week"
	}
	if err := compare(r, run, c, p); err != nil {
		return nil, err
	}
	explain(r, run)
	return r, nil
}

// unit is the periods of one independent unit, with what each replication made in them.
type unit struct {
	counted float64
	sums    []float64
}

// compare fills in periods, bias and verdict.
func compare(r *result.Backtest, run *result.Run, c *Counts, p *predicted) error {
	reps := len(p.steps)
	byKey := map[string]*unit{}
	var order []string
	for _, x := range c.All {
		from, to, err := x.window(run.Profile.StartMin, run.Replications.LengthH, c.Per == "day")
		if err != nil {
			return err
		}
		values := make([]float64, reps)
		for i := range values {
			if values[i] = p.in(i, from, to); c.What == "cycles" {
				values[i] = p.cycles[i]
			}
		}
		one := period(x, values)
		if one.Inside {
			r.Inside++
		}
		r.Periods = append(r.Periods, one)
		key := x.unitOf(r.Unit, run.Profile.StartMin, c.Per == "day")
		u := byKey[key]
		if u == nil {
			u = &unit{sums: make([]float64, reps)}
			byKey[key] = u
			order = append(order, key)
		}
		u.counted += x.N
		for i, v := range values {
			u.sums[i] += v
		}
	}
	var all []*unit
	for _, k := range order {
		all = append(all, byKey[k])
	}
	return judgeUnits(r, all, reps)
}

// unitOf names the day or week that a period belongs to. Both begin when the replication does, so that a night shift, or the last night of a week, is
// not cut; whole days have no time of day.
func (p Count) unitOf(what string, startMin int, whole bool) string {
	at := p.From
	if !whole {
		at = at.Add(-time.Duration(startMin%1440) * time.Minute)
	}
	if what == "week" {
		y, w := at.AddDate(0, 0, -(startMin / 1440)).ISOWeek()
		return fmt.Sprintf("%d week %d", y, w)
	}
	return at.Format("2006-01-02")
}

// period sets a count beside its prediction.
func period(x Count, values []float64) result.CountedIn {
	v := sorted(values)
	one := result.CountedIn{Period: x.Label, Counted: x.N, Mean: round(mean(v)), Low: round(quantileOf(v, 0.025)), High: round(quantileOf(v, 0.975))}
	one.Inside = x.N >= one.Low && x.N <= one.High
	return one
}

// judgeUnits sums up over independent units. The mean of the replications is itself not sure: its error is the same in every unit.
func judgeUnits(r *result.Backtest, all []*unit, reps int) error {
	var variance, sds, square float64
	for _, u := range all {
		m, sd := mean(u.sums), stdDev(u.sums)
		r.Counted += u.counted
		r.Predicted += m
		variance += float64(sd * sd)
		sds += sd
		if sd > 0 {
			square += float64((u.counted - m) / sd * (u.counted - m) / sd)
		}
	}
	r.Units = len(all)
	if r.Predicted <= 0 {
		return errors.New("the model predicts nothing in the periods that were counted; are the times those of the roster?")
	}
	sd := math.Sqrt(variance + float64(sds*sds)/float64(reps))
	if sd == 0 {
		return errors.New("every replication finishes the same in all periods that were counted, so the counts cannot test it: a model without chance (give times and stops their spread), or a list of lots that was counted to its end (count a part of it)")
	}
	share := sd / r.Predicted
	r.Bias = round(r.Counted/r.Predicted - 1)
	r.BiasLow, r.BiasHigh = round(r.Bias-bothSides*share), round(r.Bias+bothSides*share)
	r.Z = round((r.Counted - r.Predicted) / sd)
	r.Accepted = math.Abs(r.Z) <= bothSides
	r.Detectable = round((bothSides + nineInTen) * share)
	n := distuv.UnitNormal
	r.PowerAt5 = round(n.CDF(0.05/share-bothSides) + n.CDF(-0.05/share-bothSides))
	r.SpreadRatio = round(math.Sqrt(square / float64(r.Units)))
	r.Counted, r.Predicted = round(r.Counted), round(r.Predicted)
	return nil
}
