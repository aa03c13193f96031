package page

import (
	"fmt"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// frontierSection shows what more money would bring.
func frontierSection(r *result.Sizing) (*section, error) {
	if len(r.Frontier) == 0 {
		return nil, nil
	}
	s := &section{ID: "frontier", Title: "What more money would bring"}
	if len(r.Settings) > 1 {
		c, err := frontierChart(r)
		if err != nil {
			return nil, err
		}
		s.Charts = []chart{c}
	}
	unit := r.Target.Unit
	head := []string{"Setting"}
	for _, d := range r.Dimensions {
		head = append(head, "="+d.Name)
	}
	t := table{Caption: "The frontier: no setting that was simulated makes as much for less", Head: columns(append(head, "cost, "+perYear(r), "output, "+unit, "reached the target", "replications")...),
		Foot: "Settings that the hand check ruled out are not among them: they make less than the target."}
	for _, n := range r.Frontier {
		x := r.Settings[n-1]
		row := append([]string{number.Count(int64(x.Number))}, x.Values...)
		t.Rows = append(t.Rows, append(row, number.Fixed(x.Cost, 0), number.PlusMinus(*x.Output, ""), number.Percent(x.Reached), number.Count(int64(x.N))))
	}
	s.Tables = []table{t}
	return s, nil
}

// frontierChart draws every setting that was simulated by cost and output, the frontier as a line, the target as another.
func frontierChart(r *result.Sizing) (chart, error) {
	sc := charts.NewScatter()
	unit := r.Target.Unit
	sc.SetGlobalOptions(charts.WithXAxisOpts(opts.XAxis{Type: "value", Scale: opts.Bool(true), Name: perYear(r)}),
		charts.WithYAxisOpts(opts.YAxis{Type: "value", Scale: opts.Bool(true), Name: unit}))
	var all, edge, here []opts.ScatterData
	for _, x := range r.Settings {
		if x.Output == nil {
			continue
		}
		p := opts.ScatterData{Value: [2]float64{short(x.Cost), short(x.Output.Mean)}, Name: "setting " + number.Count(int64(x.Number))}
		all = append(all, p)
		if x.Fate == result.FateChosen {
			here = append(here, p)
		}
	}
	for _, n := range r.Frontier {
		x := r.Settings[n-1]
		edge = append(edge, opts.ScatterData{Value: [2]float64{short(x.Cost), short(x.Output.Mean)}, Name: "setting " + number.Count(int64(n))})
	}
	target := number.Fixed(r.Target.Value, 0) + " " + unit
	sc.AddSeries("settings", all, charts.WithSeriesId("all"),
		charts.WithMarkLineNameYAxisItemOpts(opts.MarkLineNameYAxisItem{Name: "target " + target, YAxis: short(r.Target.Value)}))
	sc.AddSeries("frontier", edge, charts.WithSeriesId("edge"))
	if len(here) > 0 {
		sc.AddSeries("chosen", here, charts.WithSeriesId("here"))
	}
	return draw(chart{
		ID: "frontier", Draw: "frontier",
		Label: "Dots: each setting that was simulated, by its cost in a year and its mean output; the frontier is set off. The table below has its figures.",
		Caption: fmt.Sprintf("Each dot is a setting, by what it costs in a year and what it makes on average; those on the frontier are set off. The broken line is the target, %s; it has to be met "+
			"not on average but as often as was asked.", target),
	}, sc)
}
