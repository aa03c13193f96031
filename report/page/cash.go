package page

import (
	"fmt"
	"math"
	"strconv"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// cashChart draws the sum of the cash flows with the band of the draws.
func cashChart(r *result.Payback, o *result.PaybackOption) (chart, error) {
	line := charts.NewLine()
	years := make([]string, len(o.Band)) // names, since values are stacked only over names
	for i, b := range o.Band {
		years[i] = strconv.Itoa(b.Year)
	}
	line.SetXAxis(years)
	line.SetGlobalOptions(charts.WithXAxisOpts(opts.XAxis{Type: "category"}), charts.WithYAxisOpts(opts.YAxis{Type: "value"}),
		charts.WithLegendOpts(opts.Legend{Show: opts.Bool(false)}))
	add := func(id, name, stack string, of func(b result.BandYear) float64) {
		data := make([]opts.LineData, len(o.Band))
		for i, b := range o.Band {
			data[i] = opts.LineData{Value: short(of(b))}
		}
		line.AddSeries(name, data, charts.WithSeriesId(id), charts.WithLineChartOpts(opts.LineChart{Stack: stack, ShowSymbol: opts.Bool(false)}))
	}
	add("low", "P10", "band", func(b result.BandYear) float64 { return b.P10 })
	add("band", "P10 to P90", "band", func(b result.BandYear) float64 { return b.P90 - b.P10 })
	add("central", "as planned", "", func(b result.BandYear) float64 { return b.Central })
	add("middle", "P50", "", func(b result.BandYear) float64 { return b.P50 })
	return draw(chart{
		ID: "cash", Draw: "cash",
		Label: fmt.Sprintf("Sum of the cash flows of %s by year, as planned and with the band from P10 to P90. The tables under Year by year have the figures.", o.Name),
		Caption: fmt.Sprintf("%s: sum of all money in and out, %s, at the end of each year. Paid back where it crosses 0. Line: as planned; dashes: the middle of %s draws; band: 8 of 10 of them.",
			o.Name, r.Currency, number.Count(int64(r.Draws))),
	}, line)
}

const mostSwings = 12

// swingChart draws what each figure alone does to the net present value, the greatest first: to the left of the plan what it takes, to the right
// what it adds. The axis begins at the least value, which travels as the minimum of the axis.
func swingChart(r *result.Payback, o *result.PaybackOption) (chart, error) {
	list := o.Tornado[:min(mostSwings, len(o.Tornado))]
	base := o.Central.NPV
	var names []string
	parts := [3][]opts.BarData{}
	for _, x := range list {
		a, b := math.Min(x.NPVLow, x.NPVHigh), math.Max(x.NPVLow, x.NPVHigh)
		names = append(names, number.Plain(swingName(x)))
		parts[0] = append(parts[0], opts.BarData{Value: short(a - base), Name: number.Fixed(a, 0)})
		parts[1] = append(parts[1], opts.BarData{Value: short(b - base), Name: number.Fixed(b, 0)})
	}
	bar := charts.NewBar()
	bar.SetGlobalOptions(charts.WithXAxisOpts(opts.XAxis{Type: "value"}), charts.WithYAxisOpts(opts.YAxis{Type: "category", Inverse: opts.Bool(true)}),
		charts.WithLegendOpts(opts.Legend{Show: opts.Bool(true)}))
	bar.SetXAxis(names).XYReversal()
	for i, s := range []struct{ id, name string }{{"loss-own", "worth less than planned"}, {"gain", "worth more than planned"}} {
		bar.AddSeries(s.name, parts[i], charts.WithSeriesId(s.id), charts.WithBarChartOpts(opts.BarChart{BarGap: "-100%"}))
	}
	return draw(chart{
		ID: "swings", Draw: "swings", Rows: len(names),
		Label:   fmt.Sprintf("Lying bars: net present value of %s when one figure moves, the figure that matters most on top. The table below has the figures.", o.Name),
		Caption: fmt.Sprintf("%s: how far its net present value, %s as planned, moves when one figure moves and all others stay; beside each bar the value it comes to, in %s.", o.Name, number.Fixed(base, 0), r.Currency),
	}, bar)
}

// costChart draws the cost of a unit, stacked by what it is paid for.
func costChart(r *result.Payback) (chart, error) {
	parts := []series{{ID: "state-processing", Name: "capital"}, {ID: "state-blocked", Name: "people"}, {ID: "state-starved", Name: "energy and water"},
		{ID: "state-waiting-for-operator", Name: "wear parts"}, {ID: "state-changeover", Name: "maintenance"}}
	var names []string
	for i := range r.Options {
		c := r.Options[i].Cost
		if c == nil || c.Sum == 0 {
			continue
		}
		names = append(names, r.Options[i].Name)
		for k, v := range []float64{c.Capital, c.People, c.Energy + c.Water, c.Wear, c.Upkeep} {
			parts[k].Values = append(parts[k].Values, v)
			parts[k].Texts = append(parts[k].Texts, strconv.FormatFloat(v, 'f', 3, 64))
		}
	}
	return draw(chart{
		ID: "cost", Draw: "costs", Rows: len(names),
		Label:   "Stacked lying bars: what a " + r.Unit + " costs in each option, by what it is paid for. The table below has the figures.",
		Caption: fmt.Sprintf("%s per %s sold in the first year.", r.Currency, r.Unit),
	}, bars(names, parts, 0))
}
