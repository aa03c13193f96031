package page

import (
	"fmt"
	"math"
	"strings"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// timeFitDocument is the page of a stopwatch sheet.
func timeFitDocument(r *result.TimeFit) (*document, error) {
	snippet := r.Snippet
	r, err := number.Shown(r)
	if err != nil {
		return nil, err
	}
	n, doubts := 0, 0
	for _, t := range r.Tasks {
		n += t.N
		doubts += len(t.Doubts)
	}
	d := &document{
		Over: "Times from the floor", Title: r.File, Tab: "Task times from " + r.File, Answer: r.Answer, Notes: notes(r.Warnings), Sure: r.Rule,
		Figures: []headFigure{
			{Value: number.Count(int64(len(r.Tasks))), Says: "task times"},
			{Value: number.Count(int64(n)), Says: "readings"},
			{Value: number.Count(int64(doubts)), Says: "remarks to look at"},
		},
		Facts: []fact{{Name: "Half width asked for", Value: number.Percent(r.HalfShare) + " of each mean"}},
	}
	d.Sections = append(d.Sections, overview(r))
	for i, t := range r.Tasks {
		s, err := taskSection(t, i+1)
		if err != nil {
			return nil, err
		}
		d.Sections = append(d.Sections, *s)
	}
	if r.Pace != nil {
		d.Sections = append(d.Sections, section{ID: "pace", Title: "Shift pace", Says: []string{r.Pace.Sentence,
			"In a scenario it is shift_pace of the pool of people: without it shifts come out falsely alike."}})
	}
	d.Sections = append(d.Sections, section{ID: "snippet", Title: "For the scenario file", Text: plainLines(snippet),
		Says: []string{"Copy this into the scenario, or let the program put it there: add --into and the name of the scenario file."}})
	if len(r.LeftOut) > 0 {
		d.Sections = append(d.Sections, section{ID: "left-out", Title: "Rows that were left out", Says: r.LeftOut})
	}
	return d, nil
}

// plainLines makes each line harmless and keeps the lines.
func plainLines(text string) string {
	lines := strings.Split(text, "\n")
	for i := range lines {
		lines[i] = number.Plain(lines[i])
	}
	return strings.Join(lines, "\n")
}

func overview(r *result.TimeFit) section {
	t := table{Caption: "Task times", Head: columns("Task", "=goes into", "readings", "mean", "±", "sd", "least", "most", "=distribution", "more needed")}
	for _, x := range r.Tasks {
		half, more, field := "–", "none", x.Field
		if x.HalfS != nil {
			half = number.Figure(*x.HalfS, 2) + " s"
		}
		if x.Needed > x.N {
			more = number.Count(int64(x.Needed - x.N))
		}
		if field == "" {
			field = "no field yet"
		}
		t.Rows = append(t.Rows, []string{x.Name, field, number.Count(int64(x.N)), seconds(x.MeanS), half, number.Figure(x.SDS, 3) + " s", seconds(x.LeastS), seconds(x.MostS), x.Best, more})
	}
	t.Foot = "± is the 95 % interval of the mean (Student t). More needed: readings to bring it to the half width asked for."
	return section{ID: "tasks", Title: "All tasks", Tables: []table{t}}
}

func seconds(s float64) string { return number.Figure(s, 4) + " s" }

// taskSection shows one task: what was read, what was fitted, what speaks against it.
func taskSection(t result.FitTask, no int) (*section, error) {
	s := &section{ID: fmt.Sprintf("task-%d", no), Title: t.Name, Small: true, Says: append([]string{
		fmt.Sprintf("%s readings of %s. Taken: %s; %s.", number.Count(int64(t.N)), t.ReadingOf, t.Best, t.Why)}, t.Doubts...)}
	if len(t.Bars) > 0 {
		h, err := histogram(t, no)
		if err != nil {
			return nil, err
		}
		q, err := quantilePlot(t, no)
		if err != nil {
			return nil, err
		}
		s.Charts = []chart{h, q}
	}
	if len(t.Fits) > 0 {
		s.Tables = append(s.Tables, fitTable(t))
	}
	if len(t.Bars) > 0 {
		b := table{Caption: "Histogram of " + t.Name, Folded: true, Head: columns("From", "to", "readings", "expected")}
		for _, x := range t.Bars {
			b.Rows = append(b.Rows, []string{seconds(x.FromS), seconds(x.ToS), number.Count(int64(x.Readings)), number.Figure(x.Expected, 3)})
		}
		s.Tables = append(s.Tables, b)
	}
	if len(t.Shifts) > 1 {
		b := table{Caption: t.Name + " by shift", Folded: true, Head: columns("Shift", "readings", "mean")}
		for _, x := range t.Shifts {
			b.Rows = append(b.Rows, []string{x.Shift, number.Count(int64(x.N)), seconds(x.MeanS)})
		}
		s.Tables = append(s.Tables, b)
	}
	return s, nil
}

// fitTable lists fitted distributions in order of AIC.
func fitTable(task result.FitTask) table {
	t := table{Caption: "Distributions for " + task.Name + ", by maximum likelihood, in order of AIC", Head: columns("Distribution", "=parameters", "mean", "sd", "AIC", "Anderson-Darling", "at most (5 %)", "=verdict")}
	for _, f := range task.Fits {
		var p []string
		for _, x := range f.Parameters {
			if f.AIC == nil { // the readings themselves, counted
				p = append(p, number.Count(int64(x.Value))+" "+x.Name)
				continue
			}
			p = append(p, x.Name+" "+number.Figure(x.Value, 4))
		}
		aic, ad, most, verdict := "–", "–", "–", "possible"
		if f.AIC != nil {
			aic = number.Fixed(*f.AIC, 1)
		}
		if f.Modified != nil {
			ad, most = number.Fixed(*f.Modified, 2), number.Fixed(*f.Critical, 2)
		}
		switch {
		case f.Remark != "":
			verdict = f.Remark
		case f.Rejected:
			verdict = "the readings speak against it (chance " + f.P + ")"
		case f.Distribution == "empirical":
			verdict = "the readings themselves"
		}
		t.Rows = append(t.Rows, []string{f.Distribution, strings.Join(p, ", "), seconds(f.MeanS), seconds(f.SDS), aic, ad, most, verdict})
	}
	t.Foot = "Anderson-Darling is A² on the scale of its table of critical values. A shape that is not spoken against need not be the right one: with few readings many shapes are possible."
	return t
}

func histogram(t result.FitTask, no int) (chart, error) {
	names := make([]string, len(t.Bars))
	bars, line := make([]opts.BarData, len(t.Bars)), make([]opts.LineData, len(t.Bars))
	digits := decimalsFor(t.Bars[0].ToS - t.Bars[0].FromS)
	for i, b := range t.Bars {
		names[i] = number.Fixed(b.FromS, digits)
		bars[i], line[i] = opts.BarData{Value: b.Readings}, opts.LineData{Value: short(b.Expected)}
	}
	c := charts.NewBar()
	c.SetGlobalOptions(charts.WithXAxisOpts(opts.XAxis{Type: "category"}), charts.WithYAxisOpts(opts.YAxis{Type: "value"}))
	c.SetXAxis(names).AddSeries("readings", bars, charts.WithSeriesId("readings"))
	l := charts.NewLine()
	l.SetXAxis(names).AddSeries(t.Best, line, charts.WithSeriesId("expected"))
	c.Overlap(l)
	return draw(chart{ID: fmt.Sprintf("histogram-%d", no), Draw: "histogram", Title: "Histogram",
		Label:   fmt.Sprintf("Histogram of the readings of %s with what the %s distribution expects. The table below has the figures.", t.Name, t.Best),
		Caption: fmt.Sprintf("Bars: readings, from the time under each bar on, in seconds. Line: what the %s distribution expects.", t.Best)}, c)
}

// decimalsFor shows the difference between neighbouring bars.
func decimalsFor(width float64) int {
	if width <= 0 {
		return 0
	}
	return min(3, max(0, 1-int(math.Floor(math.Log10(width)))))
}

func quantilePlot(t result.FitTask, no int) (chart, error) {
	c := charts.NewScatter()
	data := make([]opts.ScatterData, len(t.Quantiles))
	low, high := t.Quantiles[0].ExpectedS, t.Quantiles[len(t.Quantiles)-1].ExpectedS
	for i, q := range t.Quantiles {
		data[i] = opts.ScatterData{Value: [2]float64{short(q.ExpectedS), short(q.ReadS)}}
		low, high = min(low, q.ReadS), max(high, q.ReadS)
	}
	c.SetGlobalOptions(charts.WithXAxisOpts(opts.XAxis{Type: "value", Min: short(low), Max: short(high)}),
		charts.WithYAxisOpts(opts.YAxis{Type: "value", Min: short(low), Max: short(high)}), charts.WithLegendOpts(opts.Legend{Show: opts.Bool(false)}))
	c.AddSeries("readings", data, charts.WithSeriesId("points"))
	l := charts.NewLine()
	l.AddSeries("fits exactly", []opts.LineData{{Value: [2]float64{short(low), short(low)}}, {Value: [2]float64{short(high), short(high)}}}, charts.WithSeriesId("diagonal"))
	c.Overlap(l)
	return draw(chart{ID: fmt.Sprintf("quantiles-%d", no), Draw: "quantiles", Title: "Quantile plot",
		Label:   fmt.Sprintf("Each reading of %s against what the %s distribution expects at its rank; on the line it fits exactly.", t.Name, t.Best),
		Caption: "Each dot is a reading: across what the distribution expects at its rank, up what was read, in seconds. On the line it fits exactly."}, c)
}
