package study

import (
	"math"
	"slices"

	"pascaline/sim/clock"
	"pascaline/sim/line"
	"pascaline/sim/result"
)

// lotTotal is one lot over replications.
type lotTotal struct {
	done, turn, begun Sample // hours; done is +Inf where it was not finished
	out, aside, over  int64
	longest           clock.Tick
	legs              []legTotal
}

type legTotal struct {
	n           int64 // replications in which the lot came here
	first, last clock.Tick
	in, out     clock.Tick // sums of means
}

// addLots takes in the lots of one replication.
func (t *total) addLots(r *line.Record) {
	if len(r.Lots) == 0 {
		return
	}
	if t.lots == nil {
		t.lots = make([]lotTotal, len(r.Lots))
		t.changes = make([]line.ChangeRecord, len(r.Changes))
	}
	end := 0.0
	for i := range r.Lots {
		t.lots[i].add(&r.Lots[i])
		end = max(end, t.lots[i].done[t.n-1])
	}
	t.ends = append(t.ends, end)
	for i, c := range r.Changes {
		x := &t.changes[i]
		x.Station = c.Station
		x.Times, x.Stood, x.Waited = x.Times+c.Times, x.Stood+c.Stood, x.Waited+c.Waited
	}
	t.addMass(r)
}

// addMass weighs what was finished, where products differ.
func (t *total) addMass(r *line.Record) {
	s := t.m.Scenario()
	if len(s.Products) == 0 {
		return
	}
	kg := 0.0
	from := len(s.Lots) - len(r.Lots) // those before the lot in work are left out
	for i := range r.Lots {
		own := s.ProductNamed(string(s.Lots[from+i].Product))
		if own.Product.Pack.Mass == 0 {
			return
		}
		kg += float64(float64(r.Lots[i].Out) * float64(own.Product.Pack.Mass))
	}
	t.kg = append(t.kg, per(kg, hours(r.Rostered)))
}

func (x *lotTotal) add(r *line.LotRecord) {
	done := math.Inf(1)
	if r.Done >= 0 {
		done = hours(r.Done)
		x.turn = append(x.turn, hours(r.Done-r.Ready))
	}
	x.done = append(x.done, done)
	if r.Begun >= 0 {
		x.begun = append(x.begun, hours(r.Begun))
	}
	x.out, x.aside, x.over = x.out+r.Out, x.aside+r.Aside, x.over+r.Over
	x.longest = max(x.longest, r.Longest)
	if x.legs == nil {
		x.legs = make([]legTotal, len(r.Legs))
	}
	for i, g := range r.Legs {
		if g.Gone == 0 {
			continue
		}
		y := &x.legs[i]
		y.n++
		y.first, y.last = y.first+g.First, y.last+g.Last
		y.in, y.out = y.in+g.MeanIn, y.out+g.MeanOut
	}
}

// lotsResult sums up all lots; nil where there are none.
func (t *total) lotsResult() *result.Lots {
	if len(t.lots) == 0 {
		return nil
	}
	s := t.m.Scenario()
	r := &result.Lots{Order: string(s.LotOrder), Finish: finish(t.ends), Changes: []result.Change{}}
	from := len(s.Lots) - len(t.lots)
	waits := &waitSums{}
	packs := 0.0
	for i := range t.lots {
		x, l := &t.lots[i], &s.Lots[from+i]
		lot := result.Lot{Lot: string(l.Lot), Product: string(l.Product), Customer: string(l.Customer), Group: s.GroupOf(l)}
		own := s
		if len(s.Products) > 0 {
			own = s.ProductNamed(string(l.Product))
		}
		x.fill(&lot, &t.last.Lots[i], t.n)
		waits.add(own, &lot)
		if l.Due != nil {
			due := hours(clock.Tick(l.Due.After(s.Run.Starts.At.At)))
			lot.DueH = &due
			x.chanceLate(&lot, due)
		}
		packs += float64(lot.Packs)
		r.Each = append(r.Each, lot)
	}
	r.Wait = waits.means(packs)
	n := float64(t.n)
	for _, c := range t.changes {
		r.Changes = append(r.Changes, result.Change{Station: c.Station, Times: float64(c.Times) / n, StoodH: hours(c.Stood) / n, WaitH: hours(c.Waited) / n})
	}
	return r
}

// fill puts in what was found of one lot.
func (x *lotTotal) fill(lot *result.Lot, last *line.LotRecord, n int) {
	lot.Packs, lot.ReadyH = last.Packs, hours(last.Ready)
	lot.BegunH, lot.TurnaroundH, lot.Finish = x.begun.Estimate(), x.turn.Estimate(), finish(x.done)
	lot.SetAside, lot.LongestS = float64(x.aside)/float64(n), seconds(x.longest)
	lot.Over = per(float64(x.over), float64(x.out))
	before := 0.0
	for i := range x.legs {
		g := &x.legs[i]
		leg := result.LotLeg{Station: last.Legs[i].Station}
		if g.n > 0 {
			k := float64(g.n)
			leg.FirstH, leg.LastH = hours(g.first)/k, hours(g.last)/k
			in, out := seconds(g.in)/k, seconds(g.out)/k
			if i > 0 {
				leg.WaitS = max(0, in-before)
			}
			leg.StayS = max(0, out-in)
			before = out
		}
		lot.Legs = append(lot.Legs, leg)
	}
}

// chanceLate is the share of replications in which a lot was not finished when due, with its Wilson interval (Wilson 1927, Journal of
// the American Statistical Association 22:209: from memory).
func (x *lotTotal) chanceLate(lot *result.Lot, due float64) {
	late := 0
	for _, d := range x.done {
		if d > due {
			late++
		}
	}
	share := float64(late) / float64(len(x.done))
	lot.Late = &share
	lot.LateLow, lot.LateHigh = wilson(late, len(x.done))
}

// wilson is the 95 % interval of a chance of which k of n trials came true.
func wilson(k, n int) (low, high float64) {
	if n == 0 {
		return 0, 1
	}
	z2 := float64(Normal975 * Normal975)
	p, m := float64(k)/float64(n), float64(n)
	mid := (p + z2/(2*m)) / (1 + z2/m)
	half := Normal975 / (1 + z2/m) * math.Sqrt(float64(p*(1-p))/m+z2/float64(4*m*m))
	return max(0, mid-half), min(1, mid+half)
}

// finish sums up when something was finished; what was not finished comes last.
func finish(s Sample) result.Finish {
	var f result.Finish
	done := Sample{}
	for _, x := range s {
		if !math.IsInf(x, 1) {
			done = append(done, x)
		}
	}
	f.Never = per(float64(len(s)-len(done)), float64(len(s)))
	if len(done) > 0 {
		f.FirstH, f.LastH = slices.Min(done), slices.Max(done)
	}
	quantile := func(p float64) *float64 {
		q := s.Quantile(p)
		if math.IsInf(q, 0) || math.IsNaN(q) {
			return nil
		}
		return &q
	}
	f.P10H, f.P50H, f.P90H = quantile(0.1), quantile(0.5), quantile(0.9)
	return f
}
