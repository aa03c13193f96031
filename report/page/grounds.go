package page

import (
	"fmt"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// handSection sets the result beside what a pocket calculator says.
func handSection(r *result.Run) (*section, error) {
	h := r.HandCheck
	if len(h.Rows) == 0 {
		return nil, nil
	}
	s := &section{ID: "hand", Title: "Hand check"}
	if h.Sentence != "" {
		s.Says = []string{h.Sentence}
	}
	t := table{Caption: "What each station could do if nothing else held it", Head: columns("Station", "packs/h", "=the sum")}
	for _, row := range h.Rows {
		t.Rows = append(t.Rows, []string{row.Station, number.Fixed(row.PacksPerH, 0), row.How})
	}
	t.Rows = append(t.Rows, []string{"simulated", number.Fixed(r.Headline.PacksPerH.Mean, 0),
		fmt.Sprintf("%s of the lowest, %s by %s", number.Percent(h.Share), number.Fixed(h.BoundPacksPerH, 0), h.By)})
	s.Tables = []table{t}
	return s, nil
}

// mostReplications is how many single replications a page shows, so that it stays small enough to be sent.
const mostReplications = 1000

// replicationSection shows how far the replications lie apart.
func replicationSection(r *result.Run) (*section, error) {
	if len(r.PerReplication) == 0 {
		return nil, nil
	}
	s := &section{ID: "replications", Title: "How sure: the replications"}
	e := r.Headline.PacksPerH
	if len(r.PerReplication) > 1 {
		c, err := dots(r.PerReplication[:min(mostReplications, len(r.PerReplication))], e, "packs/h", words.Hour(r), false)
		if err != nil {
			return nil, err
		}
		s.Charts = []chart{c}
	}
	each := r.PerReplication
	caption := "Replications"
	if len(each) > mostReplications {
		each = each[:mostReplications]
		caption = fmt.Sprintf("The first %s of %s replications; all are in results.json", number.Count(mostReplications), number.Count(int64(len(r.PerReplication))))
	}
	t := table{Caption: caption, Folded: true, Head: columns("Replication", "packs/h", "packs", "cases", "carriers", "vessel cycles", "length, h")}
	for _, p := range each {
		t.Rows = append(t.Rows, []string{number.Count(int64(p.Number)), number.Fixed(p.PacksPerH, 1), number.Count(p.Packs), number.Count(p.Cases),
			number.Count(p.Carriers), number.Count(p.Cycles), number.Fixed(p.LengthH, 2)})
	}
	s.Tables = []table{t}
	return s, nil
}

// dots draws each replication as a dot with the mean as a line and its interval as a band; the unit is that of the readings.
// fromZero draws the 0 in any case.
func dots(all []result.Replication, e result.Estimate, unit, per string, fromZero bool) (chart, error) {
	sc := charts.NewScatter()
	sc.SetGlobalOptions(charts.WithXAxisOpts(opts.XAxis{Type: "value", Min: 0, Max: len(all) + 1, MinInterval: 1}),
		charts.WithYAxisOpts(opts.YAxis{Type: "value", Scale: opts.Bool(!fromZero)}), charts.WithLegendOpts(opts.Legend{Show: opts.Bool(false)}))
	data := make([]opts.ScatterData, len(all))
	for i, p := range all {
		data[i] = opts.ScatterData{Value: [2]float64{float64(p.Number), short(p.PacksPerH)}}
	}
	mean := number.PlusMinus(e, unit)
	set := []charts.SeriesOpts{charts.WithSeriesId("dots"),
		charts.WithMarkLineNameYAxisItemOpts(opts.MarkLineNameYAxisItem{Name: "mean", YAxis: short(e.Mean)})}
	if e.HalfWidth != nil {
		type edge struct {
			YAxis float64 `json:"yAxis"`
		}
		set = append(set, charts.WithSeriesOpts(func(s *charts.SingleSeries) {
			s.MarkAreas = &opts.MarkAreas{Data: []any{[2]edge{{short(e.Mean - *e.HalfWidth)}, {short(e.Mean + *e.HalfWidth)}}}}
		}))
	}
	sc.AddSeries(unit, data, set...)
	return draw(chart{
		ID: "dots", Draw: "dots",
		Label:   "Dots: packs per hour of each replication, with the mean and its interval. The table below has the figures.",
		Caption: fmt.Sprintf("Each dot is one replication, in packs per %s. The line is the mean, the band its interval: %s.", per, mean),
	}, sc)
}

// balanceSection shows that no pack was lost in the counting.
func balanceSection(r *result.Run) (*section, error) {
	b := r.Balance
	s := &section{ID: "balance", Title: "Balance", Says: []string{"Packs in = finished + set aside + on the line at the end. It was checked at the end of every replication."}}
	t := table{Caption: "Packs, mean per replication", Head: columns("Packs", "mean")}
	for _, row := range []struct {
		name  string
		value float64
	}{{"in", b.In}, {"finished", b.Finished}, {"set aside", b.SetAside}, {"on the line at the end", b.OnLine}} {
		t.Rows = append(t.Rows, []string{row.name, number.Fixed(row.value, 1)})
	}
	s.Tables = []table{t}
	if len(r.Stretches) > 1 {
		st := table{Caption: "Stretches of the line", Head: columns("From", "=to", "=pieces", "pieces out", "packs out")}
		for _, x := range r.Stretches {
			st.Rows = append(st.Rows, []string{x.From, x.To, x.Piece, number.Fixed(x.Pieces, 1), number.Fixed(x.Packs, 1)})
		}
		s.Tables = append(s.Tables, st)
	}
	return s, nil
}

// assumptionSection lists the values behind the result: first those that nobody stated.
func assumptionSection(r *result.Run) (*section, error) { return assumptionsOf(r.Assumptions) }

func assumptionsOf(all []result.Assumption) (*section, error) {
	if len(all) == 0 {
		return nil, nil
	}
	s := &section{ID: "assumptions", Title: "Assumptions and values used"}
	open := table{Caption: "Values that the scenario does not state itself", Head: columns("Value", "=used", "=comes from", "=what it means")}
	stated := table{Caption: "Values that the scenario states", Head: open.Head, Folded: true}
	for _, a := range all {
		row := []string{a.Where, a.Value, a.Origin, a.Says}
		if a.Origin == "file" {
			stated.Rows = append(stated.Rows, row)
		} else {
			open.Rows = append(open.Rows, row)
		}
	}
	s.Tables = filled(open, stated)
	return s, nil
}
