package page

import (
	"fmt"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// steadySection shows what was cut off the start of a steady run.
func steadySection(r *result.Run) (*section, error) {
	x := r.Steady
	if x == nil {
		return nil, nil
	}
	what, one, many := "packs finished in each vessel cycle", "vessel cycle", "vessel cycles"
	if !x.ByCycle {
		what, one, many = "packs finished in each step of time", "step of time", "steps of time"
	}
	s := &section{ID: "steady", Title: "Steady state: what was cut off", Says: []string{fmt.Sprintf(
		"The first %d of %d observations (%s h) are left out: one cut for all replications, found from their mean by MSER-5 (White 1997): the start whose loss makes the mean of the rest best known. An observation is the %s.",
		x.Cut, x.Observations, number.Fixed(x.CutH, 1), what)}}
	sc := charts.NewScatter()
	sc.SetGlobalOptions(charts.WithXAxisOpts(opts.XAxis{Type: "value", Min: 0, Max: len(x.Series) + 1, MinInterval: 1, Name: one}),
		charts.WithYAxisOpts(opts.YAxis{Type: "value"}), charts.WithLegendOpts(opts.Legend{Show: opts.Bool(false)}))
	data := make([]opts.ScatterData, len(x.Series))
	t := table{Caption: "Mean over the replications by " + one, Folded: true, Head: columns("No.", what, "=used")}
	for i, v := range x.Series {
		data[i] = opts.ScatterData{Value: [2]float64{float64(i + 1), short(v)}}
		used := "yes"
		if i < x.Cut {
			used = "cut off"
		}
		t.Rows = append(t.Rows, []string{number.Count(int64(i + 1)), number.Fixed(v, 1), used})
	}
	set := []charts.SeriesOpts{charts.WithSeriesId("cut")}
	if x.Cut > 0 {
		set = append(set, charts.WithMarkLineNameXAxisItemOpts(opts.MarkLineNameXAxisItem{Name: "cut", XAxis: float64(x.Cut) + 0.5}))
	}
	sc.AddSeries("packs", data, set...)
	c, err := draw(chart{ID: "cut", Draw: "dots", Label: "Dots: " + what + ", mean over the replications, with a line where the start is cut off. The table below has the figures.",
		Caption: "Each dot is the mean over the replications. What lies left of the line is cut off."}, sc)
	if err != nil {
		return nil, err
	}
	s.Charts = []chart{c}
	sum := table{Caption: "Steady figures: ratios of what was finished to the time or the observations, each with a ratio's interval", Head: columns("Figure", "value")}
	sum.Rows = append(sum.Rows, []string{"finished per hour", number.PlusMinus(x.PerH, "")}, []string{many + " per hour", number.PlusMinus(x.TimesPerH, "")},
		[]string{"finished per " + one, number.PlusMinus(x.Each, "")})
	s.Tables = []table{sum, t}
	return s, nil
}
