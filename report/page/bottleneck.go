package page

import (
	"fmt"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// bottleneckSection shows where the vessel's time went and which station was active without a pause.
func bottleneckSection(r *result.Run) (*section, error) {
	if len(r.Bottleneck.Rows) == 0 {
		return nil, nil
	}
	s := &section{ID: "bottleneck", Title: "Where the bottleneck was"}
	var names []string
	lost := series{ID: "lost", Name: "vessel time lost"}
	for _, l := range r.Bottleneck.Rows {
		if l.VesselHeldPct > 0 {
			names = append(names, l.Station)
			lost.Values = append(lost.Values, 100*l.VesselHeldPct)
			lost.Texts = append(lost.Texts, number.Percent(l.VesselHeldPct))
		}
	}
	if len(names) > 0 {
		c, err := draw(chart{
			ID: "lost", Draw: "shares", Rows: len(names),
			Label:   "Bars: the share of the vessel's time that it lost to each station. The table below has the figures.",
			Caption: "Vessel time lost to each station, in percent of the vessel's base. " + mostLost(r.Bottleneck.Rows),
		}, bars(names, []series{lost}, 0))
		if err != nil {
			return nil, err
		}
		s.Charts = []chart{c}
	}
	if c, err := holdsChart(r.Bottleneck.Rows); err != nil {
		return nil, err
	} else if c != nil {
		s.Charts = append(s.Charts, *c)
	}
	t := table{Caption: "Views of the bottleneck, told apart",
		Head: columns("Station", "vessel time lost to it", "active share", "mean active period", "holds alone", "holds shifting")}
	for _, l := range r.Bottleneck.Rows {
		t.Rows = append(t.Rows, []string{l.Station, number.Percent(l.VesselHeldPct), number.Percent(l.ActiveShare), number.Duration(l.MeanActiveS), number.Percent(l.SoleShare), number.Percent(l.ShiftingShare)})
	}
	s.Tables = []table{t}
	s.After = r.Bottleneck.Method
	return s, nil
}

// holdsChart shows which station's active period was the longest, nil where none held the line.
func holdsChart(rows []result.Limit) (*chart, error) {
	var names []string
	stack := []series{{ID: "sole", Name: "holds alone"}, {ID: "shifting", Name: "holds, shifting"}}
	for _, l := range rows {
		if l.SoleShare+l.ShiftingShare == 0 {
			continue
		}
		names = append(names, l.Station)
		for i, v := range []float64{l.SoleShare, l.ShiftingShare} {
			text := number.Percent(v)
			if v == 0 {
				text = ""
			}
			stack[i].Values, stack[i].Texts = append(stack[i].Values, 100*v), append(stack[i].Texts, text)
		}
	}
	if len(names) == 0 {
		return nil, nil
	}
	c, err := draw(chart{
		ID: "holds", Draw: "states", Rows: len(names),
		Label:   "Stacked bars: the share of the time in which each station's active period was the longest, alone and while the hold was shifting. The table below has the figures.",
		Caption: "Who held the line, by the longest active period, in percent of the time in which any station was active. While the hold is shifting it counts for both stations.",
	}, bars(names, stack, 100))
	return &c, err
}

func mostLost(rows []result.Limit) string {
	best := rows[0]
	for _, l := range rows[1:] {
		if l.VesselHeldPct > best.VesselHeldPct {
			best = l
		}
	}
	return fmt.Sprintf("Most went to %s: %s.", best.Station, number.Percent(best.VesselHeldPct))
}

// lossSection shows the way from the vessel's ideal to what was finished, in packs per hour.
func lossSection(r *result.Run) (*section, error) {
	if len(r.Waterfall) == 0 {
		return nil, nil
	}
	s := &section{ID: "losses", Title: "Where the output went"}
	names := make([]string, len(r.Waterfall))
	stack := []series{{ID: "under", Name: "under"}, {ID: "end", Name: "ideal and finished"}, {ID: "loss-own", Name: "own loss"},
		{ID: "loss-outside", Name: "loss from outside"}, {ID: "gain", Name: "gain"}}
	level := 0.0
	for i, l := range r.Waterfall {
		names[i] = l.Cause
		values := make([]float64, len(stack))
		switch {
		case l.Kind == "ideal" || l.Kind == "finished":
			level, values[1] = l.PacksPerH, l.PacksPerH
		case l.PacksPerH > 0:
			values[0], values[4] = level, l.PacksPerH
			level += l.PacksPerH
		default:
			level += l.PacksPerH
			values[0] = max(0, level)
			if l.From == "own" {
				values[2] = -l.PacksPerH
			} else {
				values[3] = -l.PacksPerH
			}
		}
		for k, v := range values {
			text := ""
			if v != 0 && k > 0 {
				text = number.Fixed(l.PacksPerH, 0)
			}
			stack[k].Values, stack[k].Texts = append(stack[k].Values, v), append(stack[k].Texts, text)
		}
	}
	c, err := draw(chart{
		ID: "losses", Draw: "losses", Rows: len(names),
		Label:   "Waterfall in packs per hour, from the vessel's ideal over every loss to what was finished. The table below has the figures.",
		Caption: "Packs per " + words.Hour(r) + ", from the vessel's ideal to what was finished; the steps add up. " + greatestLoss(r.Waterfall, r.Contribution),
	}, bars(names, used(stack), 0))
	if err != nil {
		return nil, err
	}
	s.Charts, s.Tables = []chart{c}, []table{lossTable(r)}
	return s, nil
}

// used leaves out series that no step has, so that the legend names only what is seen.
func used(stack []series) []series {
	var out []series
	for i, s := range stack {
		if i == 0 || hasAny(s.Values) {
			out = append(out, s)
		}
	}
	return out
}

func greatestLoss(rows []result.Loss, m *result.Contribution) string {
	var worst result.Loss
	for _, l := range rows {
		if l.Kind == "loss" && l.PacksPerH < worst.PacksPerH {
			worst = l
		}
	}
	if worst.Cause == "" {
		return "Nothing was lost."
	}
	s := fmt.Sprintf("The greatest loss is “%s”: %s packs/h", worst.Cause, number.Fixed(-worst.PacksPerH, 0))
	if m != nil {
		s += fmt.Sprintf(", at %s %s a pack worth %s %s an hour if all of it could be sold", number.Figure(m.PerPack, 3), m.Currency,
			number.Fixed(-worst.PacksPerH*m.PerPack, 0), m.Currency)
	}
	return s + "."
}

// lossTable has the steps in packs and, where a pack's contribution is known, in money.
func lossTable(r *result.Run) table {
	rows, m := r.Waterfall, r.Contribution
	head := []string{"Step", "packs/h", "left", "=from", "=what it is"}
	t := table{Caption: "Loss waterfall in packs per " + words.Hour(r), Folded: true}
	if m != nil {
		head = []string{"Step", "packs/h", "left", m.Currency + "/h", "=from", "=what it is"}
		t.Foot = fmt.Sprintf("Money: at %s %s contribution a pack, if all packs could be sold.", number.Figure(m.PerPack, 3), m.Currency)
	}
	t.Head = columns(head...)
	left := 0.0
	for _, l := range rows {
		if l.Kind == "ideal" || l.Kind == "finished" {
			left = l.PacksPerH
		} else {
			left += l.PacksPerH
		}
		row := []string{l.Cause, number.Fixed(l.PacksPerH, 1), number.Fixed(left, 1)}
		if m != nil {
			row = append(row, number.Fixed(l.PacksPerH*m.PerPack, 0))
		}
		t.Rows = append(t.Rows, append(row, l.From, l.Detail))
	}
	return t
}
