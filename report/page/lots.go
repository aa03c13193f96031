package page

import (
	"fmt"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// mostDrawn is how many lots a drawing holds; the tables hold all.
const mostDrawn = 24

// lotSection says when each lot is done, how likely it is late, and where it waited.
func lotSection(r *result.Run) (*section, error) {
	l := r.Lots
	if l == nil {
		return nil, nil
	}
	s := &section{ID: "lots", Title: "Lots", Says: []string{l.Sentence}}
	c, err := lotChart(r)
	if err != nil {
		return nil, err
	}
	s.Charts = []chart{c}
	s.After = []string{"Lots go through the line one after the other: no load, case or carrier holds two of them, and the last of each is closed part full. " +
		"Where packs could overtake each other, those of the next lot wait until the lot before has left."}
	s.Tables = filled(doneTable(r), coldLots(r), waitTable(l), changeTable(l), legTable(r))
	return s, nil
}

// when writes hours of the run as a time of the plant week; absent where that was not reached.
func when(r *result.Run, h *float64) string {
	if h == nil {
		return "not finished"
	}
	return number.Moment(r.Profile.StartMin, *h)
}

func doneTable(r *result.Run) table {
	t := table{
		Caption: "When each lot is done, over the replications",
		Head:    columns("Lot", "=product", "=customer", "packs", "=ready", "=begun, mean", "=finished, P10", "=P50", "=P90", "=due", "=late", "turnaround, mean"),
		Foot: "P50: half of the replications finish it by then, P90: 9 of 10. Late: the share of the replications in which it was not finished when due, with the 95 % interval of that chance. " +
			"Turnaround: from ready to finished.",
	}
	row := func(name, product, customer, packs, ready, begun string, f result.Finish, due, late, turn string) {
		t.Rows = append(t.Rows, []string{name, product, customer, packs, ready, begun, when(r, f.P10H), when(r, f.P50H), when(r, f.P90H), due, late, turn})
	}
	packs := int64(0)
	for i := range r.Lots.Each {
		x := &r.Lots.Each[i]
		packs += x.Packs
		due, late := "", ""
		if x.DueH != nil {
			due, late = when(r, x.DueH), lateText(x)
		}
		begun := "not begun"
		if x.BegunH.N > 0 {
			begun = when(r, &x.BegunH.Mean)
		}
		turn := ""
		if x.TurnaroundH.N > 0 {
			turn = number.Duration(3600 * x.TurnaroundH.Mean)
		}
		row(x.Lot, x.Product, x.Customer, number.Count(x.Packs), when(r, &x.ReadyH), begun, x.Finish, due, late, turn)
	}
	if len(r.Lots.Each) > 1 {
		row("all lots", "", "", number.Count(packs), "", "", r.Lots.Finish, "", "", "")
	}
	return t
}

func lateText(x *result.Lot) string {
	whole := func(share float64) string { return number.Fixed(100*share, 0) }
	return fmt.Sprintf("%s\u00a0%% (%s\u00a0to\u00a0%s)", whole(*x.Late), whole(x.LateLow), whole(x.LateHigh))
}

func coldLots(r *result.Run) table {
	t := table{Caption: "Packs out of the chilled store, by lot", Head: columns("Lot", "longest", "beyond the limit", "=longest wait, mean of its packs", "packs set aside")}
	if r.ColdChain.LimitS > 0 {
		t.Caption += "; the limit is " + number.Duration(r.ColdChain.LimitS)
	}
	for _, x := range r.Lots.Each {
		over := "no limit stated"
		if r.ColdChain.LimitS > 0 {
			over = number.Percent(x.Over)
		}
		t.Rows = append(t.Rows, []string{x.Lot, number.Duration(x.LongestS), over, x.OverBy, often(x.SetAside)})
	}
	return t
}

func waitTable(l *result.Lots) table {
	t := table{Caption: "Where packs waited, mean over all lots", Head: columns("Place", "a pack waits")}
	for _, w := range l.Wait {
		t.Rows = append(t.Rows, []string{w.Place, number.Duration(w.MeanS)})
	}
	return t
}

func changeTable(l *result.Lots) table {
	t := table{Caption: "Changeovers per replication", Head: columns("Station", "times", "stood", "of which waiting for people")}
	for _, c := range l.Changes {
		t.Rows = append(t.Rows, []string{c.Station, often(c.Times), number.Duration(3600 * c.StoodH), number.Duration(3600 * c.WaitH)})
	}
	return t
}

func legTable(r *result.Run) table {
	t := table{Caption: "Each lot at each station, means over the replications", Folded: true,
		Head: columns("Lot", "=station", "=first pack in", "=last pack out", "a pack waits before it", "a pack is in it")}
	for _, x := range r.Lots.Each {
		for _, g := range x.Legs {
			if g.LastH == 0 {
				continue
			}
			t.Rows = append(t.Rows, []string{x.Lot, g.Station, when(r, &g.FirstH), when(r, &g.LastH), number.Duration(g.WaitS), number.Duration(g.StayS)})
		}
	}
	return t
}

// lotChart draws every station as a row with the lots that were in it, from the mean time of the first pack in to the last out.
func lotChart(r *result.Run) (chart, error) {
	each := r.Lots.Each[:min(mostDrawn, len(r.Lots.Each))]
	legs := each[0].Legs
	names := make([]string, len(legs))
	end := make([]float64, len(legs))
	for i, g := range legs {
		names[i] = g.Station
	}
	var stack []series
	top := 0.0
	for k, x := range each {
		gap := series{ID: fmt.Sprintf("gap-%d", k), Name: "gap", Values: make([]float64, len(legs)), Texts: make([]string, len(legs))}
		bar := series{ID: fmt.Sprintf("lot-%d", k), Name: "lot " + x.Lot, Values: make([]float64, len(legs)), Texts: make([]string, len(legs))}
		for i, g := range x.Legs {
			from, to := max(g.FirstH, end[i]), max(g.LastH, end[i])
			gap.Values[i], bar.Values[i] = max(0, from-end[i]), to-from
			bar.Texts[i] = fmt.Sprintf("%s: %s to %s", x.Lot, when(r, &g.FirstH), when(r, &g.LastH))
			end[i] = to
			top = max(top, to)
		}
		stack = append(stack, gap, bar)
	}
	caption := "Each bar is a lot in a station, from the mean time of its first pack in to that of its last pack out."
	if len(each) < len(r.Lots.Each) {
		caption += fmt.Sprintf(" The first %d lots are drawn.", len(each))
	}
	c, err := draw(chart{
		ID: "lots", Draw: "lots", Rows: len(names), Caption: caption,
		Label: "Lying bars: for each station the lots that were in it, one after the other, over the time of the run. The tables below have the times.",
	}, bars(names, stack, top))
	return c, err
}
