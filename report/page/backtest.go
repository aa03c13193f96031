package page

import (
	"fmt"
	"strconv"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// mostCounted is how many periods are drawn; the table has them all.
const mostCounted = 120

// backtestDocument is the page of a prediction held against counts.
func backtestDocument(r *result.Backtest) (*document, error) {
	r, err := number.Shown(r)
	if err != nil {
		return nil, err
	}
	d := &document{
		Over: "Held against what was counted", Title: r.Scenario, Tab: r.Scenario + ": held against " + r.File, Answer: r.Answer, Notes: notes(r.Warnings),
		Sure: r.Says[0],
		Figures: []headFigure{
			{Value: number.SignedPercent(r.Bias), Says: fmt.Sprintf("counted against predicted (%s to %s)", number.SignedPercent(r.BiasLow), number.SignedPercent(r.BiasHigh))},
			{Value: fmt.Sprintf("%d of %d", r.Inside, len(r.Periods)), Says: r.Per + "s within their own interval of 95 %"},
			{Value: number.Percent(r.Detectable), Says: "bias that these counts would have shown 9 times in 10"},
		},
		Facts: []fact{
			{Name: "Counts", Value: r.File},
			{Name: "Seed", Value: strconv.FormatUint(r.Seed, 10)},
			{Name: "Replications", Value: strconv.Itoa(r.Replications)},
			{Name: "Scenario", Value: "SHA-256 " + r.ScenarioHash, Hash: true},
		},
	}
	if r.Variant != "" {
		d.Facts = append(d.Facts, fact{Name: "Variant", Value: r.Variant})
	}
	if r.Incomplete {
		d.Incomplete = "the run was interrupted; the verdict rests on the replications that were done."
	}
	s := section{ID: "verdict", Title: "The verdict, and how hard the test was", Says: append(append([]string{}, r.Says[1:]...), r.Where)}
	d.Sections = append(d.Sections, s)
	p, err := periodSection(r)
	if err != nil {
		return nil, err
	}
	d.Sections = append(d.Sections, *p)
	if len(r.Gaps) > 0 {
		d.Sections = append(d.Sections, gapSection(r))
	}
	if len(r.LeftOut) > 0 {
		d.Sections = append(d.Sections, section{ID: "left-out", Title: "Rows that were left out", Says: r.LeftOut})
	}
	return d, nil
}

func periodSection(r *result.Backtest) (*section, error) {
	t := table{Caption: "Counted and predicted, by " + r.Per, Head: columns("Period", "counted", "predicted", "from", "to", "=within")}
	shown := r.Periods[:min(len(r.Periods), mostCounted)]
	names := make([]string, len(shown))
	low, band := make([]opts.LineData, len(shown)), make([]opts.LineData, len(shown))
	middle, counted := make([]opts.LineData, len(shown)), make([]opts.ScatterData, len(shown))
	for i, p := range r.Periods {
		inside := "yes"
		if !p.Inside {
			inside = "no"
		}
		t.Rows = append(t.Rows, []string{p.Period, number.Fixed(p.Counted, 0), number.Fixed(p.Mean, 0), number.Fixed(p.Low, 0), number.Fixed(p.High, 0), inside})
		if i < len(shown) {
			names[i] = number.Plain(p.Period)
			low[i], band[i] = opts.LineData{Value: short(p.Low)}, opts.LineData{Value: short(p.High - p.Low)}
			middle[i], counted[i] = opts.LineData{Value: short(p.Mean)}, opts.ScatterData{Value: short(p.Counted), Name: inside}
		}
	}
	l := charts.NewLine()
	l.SetGlobalOptions(charts.WithXAxisOpts(opts.XAxis{Type: "category"}), charts.WithYAxisOpts(opts.YAxis{Type: "value"}), charts.WithLegendOpts(opts.Legend{Show: opts.Bool(false)}))
	l.SetXAxis(names).AddSeries("low", low, charts.WithSeriesId("low"), charts.WithLineChartOpts(opts.LineChart{Stack: "band"}))
	l.AddSeries("interval", band, charts.WithSeriesId("band"), charts.WithLineChartOpts(opts.LineChart{Stack: "band"}))
	l.AddSeries("predicted", middle, charts.WithSeriesId("middle"))
	sc := charts.NewScatter()
	sc.SetXAxis(names).AddSeries("counted", counted, charts.WithSeriesId("counted"))
	l.Overlap(sc)
	c, err := draw(chart{ID: "counted", Draw: "counted", Label: "Counts as dots on the band of what was predicted for each period. The table below has the figures.",
		Caption: fmt.Sprintf("Dots: %s counted in each %s; a ring where the count lies outside. Line and band: predicted mean, and the interval in which 95 of 100 such periods fall.", r.What, r.Per)}, l)
	if err != nil {
		return nil, err
	}
	s := &section{ID: "periods", Title: "Every period", Charts: []chart{c}, Tables: []table{t}}
	if len(shown) < len(r.Periods) {
		s.After = []string{fmt.Sprintf("The chart shows the first %d periods; the table has all.", len(shown))}
	}
	return s, nil
}

func gapSection(r *result.Backtest) section {
	t := table{Caption: "What a single loss would have to be to explain the gap", Head: columns("Loss", "in the model, packs/h", "would have to be, packs/h", "times")}
	for _, g := range r.Gaps {
		to, times := number.Fixed(g.PacksPerH*g.Times, 0), number.Fixed(g.Times, 2)
		if g.Times < 0 {
			to, times = "below 0", "not possible"
		}
		t.Rows = append(t.Rows, []string{g.Cause, number.Fixed(g.PacksPerH, 0), to, times})
	}
	t.Foot = "Each row takes the whole gap by itself; the loss at the top changes least. Counts alone cannot tell which one it is: measure that one first."
	return section{ID: "losses", Title: "What could lie behind the gap", Tables: []table{t}}
}
