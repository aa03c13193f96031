package study

import (
	"context"
	"fmt"

	"pascaline/sim/line"
	"pascaline/sim/press"
	"pascaline/sim/result"
)

// Run repeats a scenario and sums up what it showed. An interrupted study gives what was done, marked incomplete. The error is a
// fault of this program, or none at all was done.
func Run(ctx context.Context, m *line.Model, o Options) (*result.Run, error) {
	t := newTotal(m, o.Seed)
	most, asked := Most, "auto"
	if o.Replications > 0 {
		most, asked = o.Replications, fmt.Sprint(o.Replications)
	}
	stopped := "number asked"
	if o.Replications == 0 {
		stopped = "cap"
	}
	interrupted, err := replicate(ctx, m, o, most, func(r *line.Record) bool {
		t.add(r)
		if o.Steady {
			t.steady.add(r)
		}
		if o.Each != nil {
			o.Each(r)
		}
		if o.Progress != nil {
			h, _ := t.rate.Half()
			o.Progress(t.n, h)
		}
		if o.Replications == 0 && t.precise(o) {
			stopped = "precision"
			return false
		}
		return true
	})
	if err != nil {
		return nil, err
	}
	if interrupted {
		stopped = "interrupted"
	}
	if t.n == 0 {
		return nil, context.Cause(ctx)
	}
	r := t.result()
	if o.Steady {
		t.steadyHeadline(r)
	}
	r.Replications = result.Replications{
		N: t.n, Asked: asked, StoppedBy: stopped, Precision: o.Precision, Incomplete: interrupted,
		LengthH: hours(t.length) / float64(t.n), RosteredHoursH: hours(t.rostered) / float64(t.n),
	}
	r.Warnings = append(r.Warnings, t.warnings(r.HandCheck.BoundPacksPerH, stopped)...)
	sc := m.Scenario()
	r.ScenarioHash = sc.Hash()
	r.Warnings = append(r.Warnings, press.Doubts(sc)...)
	r.Assumptions = append([]result.Assumption{}, press.Assumed(sc)...)
	for _, a := range sc.Assumptions() {
		r.Assumptions = append(r.Assumptions, result.Assumption{Where: a.Where, Value: a.Value, Origin: a.Origin, Says: a.Says})
	}
	if o.Replays {
		r.Replays, err = replays(ctx, m, o, r.PerReplication)
	}
	return r, err
}
