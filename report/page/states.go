package page

import (
	"fmt"
	"strings"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// statesSection shows what holds the line: the time of every station by state.
func statesSection(r *result.Run) (*section, error) {
	s := &section{ID: "limits", Title: "What holds the line"}
	if r.Bottleneck.Sentence != "" {
		s.Says = append(s.Says, r.Bottleneck.Sentence)
	}
	if len(r.Stations) == 0 {
		s.Says = append(s.Says, "The scenario has no station whose time was measured.")
		return s, nil
	}
	names := make([]string, len(r.Stations))
	for i, st := range r.Stations {
		names[i] = fmt.Sprintf("%s\n%s", number.Plain(st.Name), "base "+number.Hours(st.BaseH))
	}
	var stack []series
	for _, state := range result.States {
		one := series{ID: "state-" + strings.ReplaceAll(state, " ", "-"), Name: state}
		for _, st := range r.Stations {
			share := stateShare(st, state).Share
			one.Values = append(one.Values, 100*share)
			one.Texts = append(one.Texts, number.Percent(share))
		}
		if hasAny(one.Values) {
			stack = append(stack, one)
		}
	}
	c, err := draw(chart{
		ID: "states", Draw: "states", Rows: len(names),
		Label:   "Stacked bars: the share of time that each station spent in each state. The table below has the figures.",
		Caption: "Every bar is one station's time by state, in percent of its base: its server-hours per replication without off shift and planned stops. " + busiest(r),
	}, bars(names, stack, 100))
	if err != nil {
		return nil, err
	}
	s.Charts = []chart{c}
	s.Tables = append([]table{stateTable(r), throughTable(r)}, eachTables(r)...)
	return s, nil
}

// stateShare finds a state by name, so that a results file with another order is still read rightly.
func stateShare(st result.Station, state string) result.StateShare {
	for _, s := range st.Shares {
		if s.State == state {
			return s
		}
	}
	return result.StateShare{State: state}
}

// busiest names the station that processed the greatest share of its base.
func busiest(r *result.Run) string {
	best, name := 0.0, ""
	for _, st := range r.Stations {
		if share := stateShare(st, "processing").Share; share > best {
			best, name = share, st.Name
		}
	}
	if name == "" {
		return ""
	}
	return fmt.Sprintf("The station %s was processing for %s of its base, the greatest share.", name, number.Percent(best))
}

func stateTable(r *result.Run) table {
	t := table{Caption: "Time of each station by state, in percent of its base; ± is the half width of the 95 % interval", Folded: true,
		Head: columns(append([]string{"Station", "servers", "base, h"}, result.States...)...)}
	for _, st := range r.Stations {
		row := []string{st.Name, number.Count(int64(st.Servers)), number.Fixed(st.BaseH, 1)}
		for _, state := range result.States {
			s := stateShare(st, state)
			row = append(row, percentHalf(s.Share, s.Half))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// throughTable shows what went through each station, and its hours outside the base.
func throughTable(r *result.Run) table {
	t := table{Caption: "What went through each station, per " + words.Hour(r) + ", and its hours outside the base", Folded: true,
		Head: columns("Station", "handed on per h", "=pieces", "waited before it, mean", "waited, P95", "set aside, packs", "off shift, h", "planned stops, h")}
	for _, st := range r.Stations {
		t.Rows = append(t.Rows, []string{st.Name, number.PlusMinus(st.Handled, ""), st.Piece, number.Duration(st.WaitMeanS), number.Duration(st.WaitP95S),
			number.Fixed(st.SetAside, 1), number.Fixed(st.OffH, 1), number.Fixed(st.PlannedH, 1)})
	}
	return t
}

// eachTables has a table for every station of several servers.
func eachTables(r *result.Run) []table {
	var out []table
	for _, st := range r.Stations {
		if len(st.Each) < 2 {
			continue
		}
		t := table{Caption: "Servers of " + st.Name + ", in percent of the base of each", Folded: true,
			Head: columns(append([]string{"Server", "base, h"}, result.States...)...)}
		for _, e := range st.Each {
			row := []string{e.Name, number.Fixed(e.BaseH, 1)}
			for i := range result.States {
				share := 0.0
				if i < len(e.Shares) {
					share = e.Shares[i]
				}
				row = append(row, percentHalf(share, 0))
			}
			t.Rows = append(t.Rows, row)
		}
		out = append(out, t)
	}
	return out
}

// percentHalf writes a share in percent with its half width, which is left out at zero. The sign stands in the caption, once.
func percentHalf(share, half float64) string {
	s := number.Percent(share)
	if half > 0 {
		s = number.PercentPlusMinus(result.Estimate{Mean: share, HalfWidth: &half})
	}
	return strings.TrimSuffix(s, " %")
}
