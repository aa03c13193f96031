package page

import (
	"fmt"
	"strconv"
	"strings"

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
		Head: columns("Pool", "=heads", "hours", "busy", "of which walking", "kept", "free", "breaks, h", "overtime, h", "longest without a pause", "work for, heads"),
		Foot: "Kept: free, but held for a task that needs more people than are free. Overtime is worked after the end of the shift, until the line is empty and washed. Work for: the heads that would be busy all the time; tasks wait where no more than these are there."}
	tasks := table{Caption: "What each pool did", Head: columns("Pool", "=at", "share of its time", "a task waited for people, mean"), Folded: true}
	for _, p := range r.People {
		pools.Rows = append(pools.Rows, []string{p.Name, p.Heads, number.Fixed(p.RosterH, 1), number.PercentPlusMinus(p.Busy),
			number.Percent(p.WalkShare), number.Percent(p.KeptShare), number.Percent(p.FreeShare), number.Fixed(p.BreakH, 1),
			number.Fixed(p.OvertimeH, 2), number.Duration(p.LongestS), needed(r, p)})
		for _, t := range p.Tasks {
			tasks.Rows = append(tasks.Rows, []string{p.Name, t.Station, number.Percent(t.Share), number.Duration(t.WaitS)})
		}
	}
	brought := table{Caption: "What each shift brought", Head: columns("Shift", "=hours", "finished packs", "P10 to P90 of the shifts", "overtime, h")}
	for _, b := range r.Shifts {
		brought.Rows = append(brought.Rows, []string{b.Name, b.Hours, number.PlusMinus(b.Packs, ""),
			fmt.Sprintf("%s to %s", number.Fixed(b.Packs.P10, 0), number.Fixed(b.Packs.P90, 0)), number.Fixed(b.OvertimeH, 2)})
	}
	s.Tables = filled(pools, staffingTable(r.Staffing), tasks, brought)
	if len(r.People) == 0 {
		return s, nil
	}
	c, err := peopleChart(r)
	s.Charts = []chart{c}
	return s, err
}

// needed is the work of a pool in heads: its busy hours over the hours that one head was there.
func needed(r *result.Run, p result.Pool) string {
	if work, ok := workOf(r, p); ok {
		return number.Fixed(work, 1)
	}
	return "–"
}

func workOf(r *result.Run, p result.Pool) (heads float64, ok bool) {
	most, err := strconv.Atoi(p.Heads)
	if err != nil || most == 0 || p.RosterH == 0 {
		return 0, false // heads differ from shift to shift
	}
	return p.Busy.Mean * float64(most), true
}

// peopleChart draws what each pool did with its hours.
func peopleChart(r *result.Run) (chart, error) {
	names := make([]string, len(r.People))
	stack := []series{{ID: "people-busy", Name: "busy"}, {ID: "people-walk", Name: "walking"}, {ID: "people-kept", Name: "kept for a task that needs more"}, {ID: "people-free", Name: "free"}}
	var most result.Pool
	for i, p := range r.People {
		names[i] = p.Name + "\n" + headsOf(p)
		if p.Busy.Mean > most.Busy.Mean {
			most = p
		}
		for k, share := range []float64{p.Busy.Mean - p.WalkShare, p.WalkShare, p.KeptShare, p.FreeShare} {
			share = max(0, share)
			stack[k].Values, stack[k].Texts = append(stack[k].Values, 100*share), append(stack[k].Texts, number.Percent(share))
		}
	}
	kept := stack[:1]
	for _, s := range stack[1:] {
		if hasAny(s.Values) {
			kept = append(kept, s)
		}
	}
	says := "Every bar is one pool's hours on shift and not on a break."
	if most.Name != "" {
		says += fmt.Sprintf(" The busiest are the %s: %s.", most.Name, number.Percent(most.Busy.Mean))
		if work, ok := workOf(r, most); ok {
			says += fmt.Sprintf(" They have work for %s of %s heads.", number.Fixed(work, 1), most.Heads)
		}
	}
	return draw(chart{
		ID: "people", Draw: "states", Rows: len(names), Caption: says,
		Label: "Stacked bars: how the people of each pool spent their time on shift. The table below has the figures.",
	}, bars(names, kept, 100))
}

func headsOf(p result.Pool) string {
	if p.Heads == "1" {
		return "1 head"
	}
	return p.Heads + " heads"
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
	if strings.HasPrefix(from, "start") {
		from = "the " + from
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
