package page

import (
	"cmp"
	"fmt"
	"slices"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// mostStops is how many bars are drawn; the table has all stops.
const mostStops = 15

// stopSection shows what stops cost, the dearest first.
func stopSection(r *result.Run) (*section, error) {
	if len(r.Stops) == 0 {
		return nil, nil
	}
	s := &section{ID: "stops", Title: "Stops"}
	list := slices.Clone(r.Stops)
	slices.SortStableFunc(list, func(a, b result.Stop) int {
		return cmp.Or(cmp.Compare(b.Lost, a.Lost), cmp.Compare(b.DownH, a.DownH))
	})
	t := table{Caption: "Stops per replication; times are summed over the servers",
		Head: columns("Stop", "=station", "=kind", "=for the vessel", "times", "stood", "of which waiting for a mender", "lost, packs/h")}
	for _, x := range list {
		t.Rows = append(t.Rows, []string{x.Name, x.Station, kindOf(x), x.From, often(x.Times), number.Duration(3600 * x.DownH), number.Duration(3600 * x.WaitH), lostOf(x)})
	}
	s.Tables = []table{t}
	if !slices.ContainsFunc(list, func(x result.Stop) bool { return x.From != "" }) {
		return s, nil // no vessel whose output could be lost
	}
	s.Tables[0].Foot = "Lost: vessel output in packs per " + words.Hour(r) + ". Of a stop of the vessel (own) it is the time it stood; of one elsewhere (outside), the time for which the vessel " +
		"was starved or blocked because that station was down. Stops of one station share that by how long they stood. While intensifiers are lost, come-ups are slower and nothing stands."
	c, ok, err := lostChart(list, words.Hour(r))
	if ok {
		s.Charts = []chart{c}
	} else {
		s.Says = []string{"No stop cost the vessel any output."}
	}
	return s, err
}

func kindOf(s result.Stop) string {
	if s.Slows {
		return "slows come-up"
	}
	if s.Planned {
		return "planned"
	}
	return "unplanned"
}

func lostOf(s result.Stop) string {
	if s.Lost == 0 && (s.From == "" || s.Planned && s.From == "outside") {
		return "–"
	}
	return number.Fixed(s.Lost, 1)
}

// lostChart draws the stops that cost output, the dearest first, with how much of all that the bars down to each have; false where none did.
func lostChart(list []result.Stop, per string) (c chart, any bool, err error) {
	sum := 0.0
	for _, x := range list {
		sum += x.Lost
	}
	if sum <= 0 {
		return c, false, nil
	}
	var names []string
	own, outside := series{ID: "loss-own", Name: "own stops of the vessel"}, series{ID: "loss-outside", Name: "stops of other stations"}
	so := 0.0
	for _, x := range list[:min(len(list), mostStops)] {
		if x.Lost <= 0 {
			break
		}
		so += x.Lost
		names = append(names, x.Name+"\n"+x.Station)
		text := fmt.Sprintf("%s (%s so far)", number.Fixed(x.Lost, 1), number.Percent(so/sum))
		a, b := &own, &outside
		if x.From != "own" {
			a, b = b, a
		}
		a.Values, a.Texts = append(a.Values, x.Lost), append(a.Texts, text)
		b.Values, b.Texts = append(b.Values, 0), append(b.Texts, "")
	}
	var stack []series
	for _, s := range []series{own, outside} {
		if hasAny(s.Values) {
			stack = append(stack, s)
		}
	}
	c, err = draw(chart{
		ID: "stops", Draw: "stops", Rows: len(names),
		Label: "Bars: vessel output lost to each stop, the greatest first, with the share of all that is lost so far. The table below has the figures.",
		Caption: fmt.Sprintf("Vessel output lost to stops, in packs per %s, the greatest first: %s in all. “%s” costs most, %s of it.",
			per, number.Fixed(sum, 1), list[0].Name, number.Percent(list[0].Lost/sum)),
	}, bars(names, stack, 0))
	return c, true, err
}

// often writes how many times something happens on average.
func often(times float64) string {
	if times < 1 {
		return number.Figure(times, 2)
	}
	return number.Fixed(times, 1)
}
