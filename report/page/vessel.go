package page

import (
	"fmt"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// vesselSection shows the phases of a cycle and what the vessels did.
func vesselSection(r *result.Run) (*section, error) {
	v := r.Vessel
	if v == nil {
		return nil, nil
	}
	s := &section{ID: "vessel", Title: "The vessel"}
	for i, st := range r.Stations {
		if len(st.Phases) == 0 {
			continue
		}
		c, err := phaseChart(st, fmt.Sprintf("phases-%d", i+1))
		if err != nil {
			return nil, err
		}
		s.Charts = append(s.Charts, c)
		s.Tables = append(s.Tables, phaseTable(st))
	}
	t := table{Caption: "What the vessels did", Head: columns("Figure", "value")}
	t.Rows = [][]string{
		{"cycle, its phases only", estimatedDuration(v.CycleS)},
		{"from cycle to cycle, rostered vessel time", estimatedDuration(v.IntervalS)},
		{"cycles per replication", number.PlusMinus(v.Cycles, "")},
		{"carriers in a load, of a full load", number.Percent(v.MeanLoadShare)},
		{"part loads per replication", number.PlusMinus(v.PartLoads, "")},
		{"loads repeated per replication", number.PlusMinus(v.Repeated, "")},
		{"loads set aside per replication", number.PlusMinus(v.SetAsideLoads, "")},
	}
	if c := r.Headline.CyclesPerH; c != nil {
		t.Rows = append(t.Rows, []string{"cycles per " + words.Hour(r), number.PlusMinus(*c, "")})
		if v.Fill > 0 {
			t.Rows = append(t.Rows, []string{"fill x cycles: vessel volumes of packs per " + words.Hour(r), number.Figure(v.Fill*v.MeanLoadShare*c.Mean, 3)})
		}
	}
	if v.Fill > 0 {
		t.Rows = append(t.Rows, []string{"pack volume of a full load, of the vessel's volume", number.Percent(v.Fill)})
	}
	s.Tables = append(s.Tables, t)
	if len(v.Wear) > 0 {
		s.Tables = append(s.Tables, wearTable(v.Wear))
	}
	return s, nil
}

// drawOut is the phase that is no part of a cycle: the last load is taken out of a push-through vessel.
const drawOut = "draw out"

// phaseChart draws one cycle as a bar of its phases.
func phaseChart(st result.Station, id string) (chart, error) {
	var stack []series
	total, longest := 0.0, result.PhaseShare{}
	for i, p := range st.Phases {
		if p.Phase == drawOut {
			continue // comes once, after the last cycle
		}
		total += p.MeanS
		if p.MeanS > longest.MeanS {
			longest = p
		}
		kind := fmt.Sprintf("phase-%d", i)
		if p.Phase == "hold" {
			kind = "hold"
		}
		stack = append(stack, series{ID: kind, Name: p.Phase, Values: []float64{p.MeanS}, Texts: []string{number.Duration(p.MeanS)}})
	}
	return draw(chart{
		ID: id, Draw: "phases", Rows: 1,
		Label: fmt.Sprintf("One bar: the phases of a cycle of %s by their mean length. The table below has the figures.", st.Name),
		Caption: fmt.Sprintf("The mean cycle of %s, phase by phase: %s in all. The longest phase is %s, %s.",
			st.Name, number.Duration(total), longest.Phase, number.Duration(longest.MeanS)),
	}, bars([]string{st.Name}, stack, total))
}

func phaseTable(st result.Station) table {
	t := table{Caption: "Phases of " + st.Name, Head: columns("Phase", "mean length", "share of the base"), Folded: true}
	for _, p := range st.Phases {
		t.Rows = append(t.Rows, []string{p.Phase, number.Duration(p.MeanS), number.Percent(p.Share)})
	}
	return t
}

// estimatedDuration writes a time with its half width, in seconds below an hour so that both can be compared.
func estimatedDuration(e result.Estimate) string {
	s := number.PlusMinus(e, "s")
	if e.Mean >= 60 {
		s += " (" + number.Duration(e.Mean) + ")"
	}
	return s
}

// wearTable says when parts that last a number of cycles are due.
func wearTable(all []result.Wear) table {
	t := table{Caption: "Parts that last a number of cycles", Head: columns("Part", "lasts, cycles", "used", "cycles a week", "weeks left", "between"),
		Foot: fmt.Sprintf("At the cycles of one vessel in this run and %s rostered hours a week, counted from now. An inspection may ask for less.", number.Figure(all[0].HoursPerWk, 3))}
	for _, w := range all {
		left, between := "never", ""
		if w.WeeksLeft != nil {
			left = number.Fixed(*w.WeeksLeft, 1)
		}
		if w.WeeksWithin != nil {
			between = number.Fixed(w.WeeksWithin[0], 1) + " and " + number.Fixed(w.WeeksWithin[1], 1)
		}
		t.Rows = append(t.Rows, []string{w.Part, number.Count(w.Cycles), number.Count(w.Used), number.Fixed(w.PerWeek, 0), left, between})
	}
	return t
}
