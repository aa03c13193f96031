package page

import (
	"encoding/json"
	"fmt"
	"html/template"
	"math"
	"strings"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"pascaline/report/number"
)

// source is a chart of go-echarts, of which only the options are wanted.
type source interface {
	Validate()
	JSON() map[string]any
}

// draw completes c with the options of s. json.Marshal writes <, > and & as escapes, so that no name can end the script
// element that carries them.
func draw(c chart, s source) (chart, error) {
	s.Validate()
	data, err := json.Marshal(s.JSON())
	if err != nil {
		return c, fmt.Errorf("chart %s: %w", c.ID, err)
	}
	c.Options = template.JS(data)
	return c, nil
}

// series is one colour of a stacked bar chart: a value and its printed text for each bar.
type series struct {
	ID, Name string
	Values   []float64
	Texts    []string
}

// bars makes lying bars, stacked, one for each name, from the top down; a line break in a name stays. The text of a value is carried as the name of the item.
func bars(names []string, stack []series, top float64) *charts.Bar {
	c := charts.NewBar()
	plain := make([]string, len(names))
	for i, n := range names {
		parts := strings.Split(n, "\n")
		for k := range parts {
			parts[k] = number.Plain(parts[k])
		}
		plain[i] = strings.Join(parts, "\n")
	}
	x := opts.XAxis{Type: "value", Min: 0}
	if top > 0 {
		x.Max = top
	}
	c.SetGlobalOptions(charts.WithXAxisOpts(x), charts.WithYAxisOpts(opts.YAxis{Type: "category", Inverse: opts.Bool(true)}),
		charts.WithLegendOpts(opts.Legend{Show: opts.Bool(len(stack) > 1)}))
	c.SetXAxis(plain).XYReversal()
	for _, s := range stack {
		data := make([]opts.BarData, len(s.Values))
		for i, v := range s.Values {
			data[i] = opts.BarData{Value: short(v), Name: s.Texts[i]}
		}
		c.AddSeries(number.Plain(s.Name), data, charts.WithSeriesId(s.ID), charts.WithBarChartOpts(opts.BarChart{Stack: "all"}))
	}
	return c
}

// short drops the digits of a value that no drawing can show.
func short(v float64) float64 {
	if v == 0 {
		return 0
	}
	p := math.Pow10(5 - int(math.Floor(math.Log10(math.Abs(v)))))
	return math.Round(v*p) / p
}

// hasAny tells whether a chart of the values would show anything.
func hasAny(values []float64) bool {
	for _, v := range values {
		if v != 0 {
			return true
		}
	}
	return false
}
