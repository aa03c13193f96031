package page

import (
	"fmt"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// peopleSection shows what the people did, shift by shift.
func peopleSection(r *result.Run) (*section, error) {
	if len(r.People) == 0 && len(r.Shifts) == 0 {
		return nil, nil
	}
	s := &section{ID: "people", Title: "People"}
	pools := table{Caption: "Pools of people, per replication; shares are of the hours on shift and not on a break",
		Head: columns("Pool", "=heads", "hours", "busy", "of which walking", "kept", "free", "breaks, h", "overtime, h", "longest without a pause"),
		Foot: "Kept: free, but held for a task that needs more people than are free. Overtime is worked after the end of the shift, until the line is empty and washed."}
	tasks := table{Caption: "What each pool did", Head: columns("Pool", "=at", "share of its time", "a task waited for people, mean"), Folded: true}
	shifts := table{Caption: "Pools by shift", Head: columns("Pool", "=shift", "heads", "hours", "busy"), Folded: true}
	for _, p := range r.People {
		pools.Rows = append(pools.Rows, []string{p.Name, p.Heads, number.Fixed(p.RosterH, 1), number.PercentPlusMinus(p.Busy),
			number.Percent(p.WalkShare), number.Percent(p.KeptShare), number.Percent(p.FreeShare), number.Fixed(p.BreakH, 1),
			number.Fixed(p.OvertimeH, 2), number.Duration(p.LongestS)})
		for _, t := range p.Tasks {
			tasks.Rows = append(tasks.Rows, []string{p.Name, t.Station, number.Percent(t.Share), number.Duration(t.WaitS)})
		}
		for _, b := range p.ByShift {
			shifts.Rows = append(shifts.Rows, []string{p.Name, b.Shift, number.Count(int64(b.Heads)), number.Fixed(b.RosterH, 1), number.Percent(b.Busy)})
		}
	}
	brought := table{Caption: "What each shift brought", Head: columns("Shift", "=hours", "finished packs", "P10 to P90", "overtime, h")}
	for _, b := range r.Shifts {
		brought.Rows = append(brought.Rows, []string{b.Name, b.Hours, number.PlusMinus(b.Packs, ""),
			fmt.Sprintf("%s to %s", number.Fixed(b.Packs.P10, 0), number.Fixed(b.Packs.P90, 0)), number.Fixed(b.OvertimeH, 2)})
	}
	s.Tables = filled(pools, tasks, shifts, brought)
	return s, nil
}

// filled leaves out empty tables.
func filled(tables ...table) []table {
	var out []table
	for _, t := range tables {
		if len(t.Rows) > 0 {
			out = append(out, t)
		}
	}
	return out
}

// stopSection lists the stops, the longest standing first as the results give them.
func stopSection(r *result.Run) (*section, error) {
	if len(r.Stops) == 0 {
		return nil, nil
	}
	t := table{Caption: "Stops per replication; times are summed over the servers", Head: columns("Stop", "=station", "=kind", "times", "stood", "of which waiting for a mender")}
	for _, s := range r.Stops {
		kind := "unplanned"
		if s.Planned {
			kind = "planned"
		}
		t.Rows = append(t.Rows, []string{s.Name, s.Station, kind, often(s.Times), number.Duration(3600 * s.DownH), number.Duration(3600 * s.WaitH)})
	}
	return &section{ID: "stops", Title: "Stops", Tables: []table{t}}, nil
}

// often writes how many times something happens on average.
func often(times float64) string {
	if times < 1 {
		return number.Figure(times, 2)
	}
	return number.Fixed(times, 1)
}

// coldSection shows how long packs were out of the chilled store.
func coldSection(r *result.Run) (*section, error) {
	c := r.ColdChain
	if c.FromStart.N == 0 {
		return nil, nil
	}
	s := &section{ID: "cold", Title: "Cold chain"}
	switch {
	case c.LimitS > 0 && c.OverShare > 0:
		s.Says = []string{fmt.Sprintf("%s of the packs were over the limit of %s%s.", number.Percent(c.OverShare), number.Duration(c.LimitS), since(c.LimitFrom))}
	case c.LimitS > 0:
		s.Says = []string{fmt.Sprintf("No pack was over the limit of %s%s.", number.Duration(c.LimitS), since(c.LimitFrom))}
	default:
		s.Says = []string{"No limit was stated for the time out of the chilled store."}
	}
	t := table{Caption: "Time until the chilled store", Head: columns("Counted from", "packs", "mean", "P95", "longest")}
	t.Rows = append(t.Rows, timesRow("the start of its carrier", c.FromStart))
	if c.FromVessel != nil {
		t.Rows = append(t.Rows, timesRow("leaving the vessel", *c.FromVessel))
	}
	s.Tables = []table{t}
	return s, nil
}

func since(from string) string {
	if from == "" {
		return ""
	}
	return ", counted from " + from
}

func timesRow(name string, t result.Times) []string {
	p95 := number.Duration(t.P95S.Mean)
	if t.P95S.HalfWidth != nil {
		p95 += " ± " + number.Duration(*t.P95S.HalfWidth)
	}
	return []string{name, number.Count(t.N), number.Duration(t.MeanS), p95, number.Duration(t.MaxS)}
}
