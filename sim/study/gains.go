package study

import (
	"cmp"
	"context"
	"math"
	"slices"

	"pascaline/sim/line"
	"pascaline/sim/result"
)

// Gains adds to a run what the line would gain if one thing were a little better: all servers of a station a tenth faster, never the hold, or one
// more person, carrier, place. Each candidate is paired with the run, replication by replication, with common random numbers; the
// intervals hold together over all candidates (Bonferroni). It goes on until each is known to the run's precision, at most as many replications as
// the run had. An interrupted one leaves the run without gains, marked incomplete.
func Gains(ctx context.Context, m *line.Model, o Options, r *result.Run) error {
	var stations []string
	for _, x := range r.Bottleneck.Rows {
		if slices.ContainsFunc(r.Stations, func(s result.Station) bool { return s.Name == x.Station }) {
			stations = append(stations, x.Station)
		}
	}
	list, err := candidates(m, stations)
	if err != nil || len(list) == 0 {
		return err
	}
	g := &gains{list: list, run: r, pairs: make([]Pairs, len(list)), least: min(Least, r.Replications.N)}
	models := make([]*line.Model, 1+len(list)) // the run's own is run again only where the run did not keep what is compared
	for i, c := range list {
		models[1+i] = c.model
	}
	headline, name := packsPerH, "packs/h"
	if r.Headline.PacksPerH.Mean == 0 && r.Headline.CarriersPerH != nil {
		headline, name, models[0] = carriersPerH, "carriers/h", m
	}
	interrupted, err := Together(ctx, models, o, r.Replications.N, func(n int, records []*line.Record) bool {
		base := r.PerReplication[n-1].PacksPerH
		if models[0] != nil {
			base, _ = headline.of(m, records[0])
		}
		for i, rec := range records[1:] {
			v, _ := headline.of(models[1+i], rec)
			g.pairs[i].Add(base, v)
		}
		half, ok := g.widest()
		if o.Progress != nil {
			o.Progress(n, half)
		}
		return !ok || n < g.least || half > math.Abs(g.pairs[0].Base.Mean())*o.Precision/(1+o.Precision)
	})
	switch {
	case err != nil:
		return err
	case interrupted:
		r.Replications.Incomplete = true
		r.Warnings = warn(r.Warnings, "interrupted", "The search for what limits the line was interrupted: there are no gains.")
	default:
		r.Gains = g.result(name)
	}
	return nil
}

type gains struct {
	list  []better
	run   *result.Run
	pairs []Pairs
	least int
}

func (g *gains) level() float64 { return Bonferroni(Level, len(g.list)) }

// widest is the widest half width; false while there is none.
func (g *gains) widest() (half float64, ok bool) {
	for i := range g.pairs {
		h, ok := g.pairs[i].Differences().HalfAt(g.level())
		if !ok {
			return 0, false
		}
		half = math.Max(half, h)
	}
	return half, true
}

// result ranks the candidates by their gain; equal ones stay in the order of the line.
func (g *gains) result(unit string) *result.Gains {
	out := &result.Gains{N: len(g.pairs[0].Base), Level: g.level(), Unit: unit}
	for i, c := range g.list {
		p := &g.pairs[i]
		d := p.Differences()
		x := result.Gain{Candidate: c.name, Kind: c.kind, Change: c.change, Mean: d.Mean(), Share: per(d.Mean(), math.Abs(p.Base.Mean()))}
		if h, ok := d.HalfAt(out.Level); ok {
			low, high := x.Mean-h, x.Mean+h
			x.Low, x.High, x.Shown = &low, &high, low > 0
		}
		if v, ok := p.Saved(); ok {
			x.VarianceSaved = &v
		}
		out.Rows = append(out.Rows, x)
	}
	slices.SortStableFunc(out.Rows, func(a, b result.Gain) int { return cmp.Compare(b.Mean, a.Mean) })
	best := &out.Rows[0]
	for i := range out.Rows {
		x := &out.Rows[i]
		x.NotToldApart = i > 0 && best.Low != nil && best.Shown && *x.High >= *best.Low
	}
	return out
}
