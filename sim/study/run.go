package study

import (
	"context"
	"fmt"

	"pascaline/scenarios"
	"pascaline/sim/line"
	"pascaline/sim/press"
	"pascaline/sim/result"
)

// Run repeats a scenario and sums up what it showed. An interrupted study gives what was done, marked incomplete. The error is a
// fault of this program, or none at all was done.
func Run(ctx context.Context, m *line.Model, o Options) (*result.Run, error) {
	t := newTotal(m, o.Seed)
	most, asked, stopped := o.end()
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
		t.steadyHeadline(r, o.WeekH)
	}
	r.Replications = result.Replications{
		N: t.n, Asked: asked, StoppedBy: stopped, Precision: o.Precision, Incomplete: interrupted,
		LengthH: hours(t.length) / float64(t.n), RosteredHoursH: hours(t.rostered) / float64(t.n),
	}
	r.Warnings = append(r.Warnings, t.warnings(r.HandCheck.BoundPacksPerH, stopped)...)
	sc := m.Scenario()
	r.ScenarioHash = sc.Hash()
	r.Warnings = append(r.Warnings, press.Doubts(sc)...)
	r.Assumptions = append(append([]result.Assumption{}, press.Assumed(sc)...), Assumed(sc)...)
	if o.Replays {
		r.Replays, err = replays(ctx, m, o, r.PerReplication)
	}
	return r, err
}

// end says how many replications there are at most, how many were asked for, and what stops them if nothing else does.
func (o Options) end() (most int, asked, stopped string) {
	if o.Replications > 0 {
		return o.Replications, fmt.Sprint(o.Replications), "number asked"
	}
	return Most, "auto", "cap"
}

// Assumed are the assumptions of a scenario as results have them, never nil.
func Assumed(s *scenarios.Scenario) []result.Assumption {
	list := []result.Assumption{}
	for _, a := range s.Assumptions() {
		list = append(list, result.Assumption(a))
	}
	return list
}
