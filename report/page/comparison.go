package page

import (
	"fmt"
	"slices"
	"strconv"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"pascaline/report/number"
	"pascaline/sim/result"
)

// comparisonDocument is the page of a comparison.
func comparisonDocument(c *result.Comparison) (*document, error) {
	c, err := number.Shown(c)
	if err != nil {
		return nil, err
	}
	n := len(c.Scenarios) - 1
	title := "Compared with " + c.Scenarios[0].Name
	if n == 1 {
		title = c.Scenarios[1].Name + ", beside " + c.Scenarios[0].Name
	}
	d := &document{
		Title: title, Tab: title, Answer: c.Answer, Figures: comparisonFigures(c), Sure: pairedSure(c), Notes: notes(c.Warnings), Cautions: c.Cautions,
		Facts: []fact{
			{Name: "Seed", Value: strconv.FormatUint(c.Seed, 10)},
			{Name: "Replications", Value: strconv.Itoa(c.Replications.N) + " of each (asked: " + c.Replications.Asked + ")"},
		},
	}
	for _, s := range c.Scenarios {
		d.Facts = append(d.Facts, fact{Name: s.Name, Value: "SHA-256 " + s.ScenarioHash, Hash: true})
	}
	if c.Replications.Incomplete {
		d.Incomplete = "the study was interrupted; the figures rest on the replications that were done."
	}
	d.Sections, err = built(c, []func(*result.Comparison) (*section, error){differenceSection, pairSection, comparedSection, differingSection})
	return d, err
}

// comparisonFigures are the base's rate and what the others bring beyond it.
func comparisonFigures(c *result.Comparison) []headFigure {
	var out []headFigure
	for _, s := range c.Scenarios[:1] {
		for _, v := range s.Values {
			if v.Measure == c.Measures[0].Name {
				out = append(out, estimate(&v.Estimate, c.Measures[0].Unit, s.Name))
			}
		}
	}
	for _, x := range headDifferences(c) {
		if len(out) == 4 {
			break
		}
		f := headFigure{Value: "0", Unit: x.Unit, Says: x.Scenario}
		if x.Above+x.Below > 0 {
			f.Value, f.Doubt = signed(x)
		}
		out = append(out, f)
	}
	return out
}

// signed gives a difference as it stands in great figures.
func signed(x result.Difference) (value, doubt string) {
	mean, half := number.Rounded(number.EstimateOf(x))
	if x.Mean > 0 {
		mean = "+" + mean
	}
	if half != "" {
		half = "± " + half
	}
	return mean, half
}

func headDifferences(c *result.Comparison) []result.Difference {
	var out []result.Difference
	for _, x := range c.Differences {
		if x.Measure == c.Measures[0].Name {
			out = append(out, x)
		}
	}
	return out
}

func pairedSure(c *result.Comparison) string {
	n := c.Replications
	s := fmt.Sprintf("From %s replications of %s, each run for all %d scenarios with the same random numbers", number.Count(int64(n.N)), n.Length, len(c.Scenarios))
	if n.N == 1 {
		return "From one replication of " + n.Length + ". One replication says nothing about chance: there is no interval."
	}
	s += "; ± is the half width of the interval of the difference (paired Student t"
	if len(c.Scenarios) > 2 {
		s += ", all of the headline together at 95 %"
	}
	s += "). "
	if n.StoppedBy == "precision" {
		return s + fmt.Sprintf("They ended when every difference was known to within %s of the rate itself.", number.Percent(n.Precision))
	}
	return s + stopped(n)
}

// differenceSection shows each scenario's difference with its interval.
func differenceSection(c *result.Comparison) (*section, error) {
	if len(c.Differences) == 0 {
		return nil, nil
	}
	s := &section{ID: "differences", Title: "What changes", After: c.Method}
	if heads := headDifferences(c); c.Replications.N > 1 && len(heads) > 0 {
		ch, err := intervals("differences", "Difference from "+c.Scenarios[0].Name+" in "+c.Measures[0].Name, heads)
		if err != nil {
			return nil, err
		}
		s.Charts = []chart{ch}
	}
	for g, m := range c.Measures {
		if t := differenceTable(c, m, g == 0); len(t.Rows) > 0 {
			s.Tables = append(s.Tables, t)
		}
	}
	return s, nil
}

// differenceTable is one measure of all scenarios.
func differenceTable(c *result.Comparison, m result.Measure, first bool) table {
	holds := "each interval by itself"
	if first && len(c.Scenarios) > 2 {
		holds = "the intervals hold together"
	}
	t := table{Caption: fmt.Sprintf("%s: %s less that of %s; %s", m.Name, m.Says, c.Scenarios[0].Name, holds),
		Head: columns("Scenario", "difference", "interval", "of the base", "=shown?", "pairs above / below", "correlation", "variance saved")}
	for _, x := range c.Differences {
		if x.Measure == m.Name {
			t.Rows = append(t.Rows, []string{x.Scenario, number.Difference(x), number.Interval(x), number.SignedPercent(x.Share), shown(x),
				fmt.Sprintf("%d / %d of %d", x.Above, x.Below, x.Pairs), figureOr(x.Correlation, func(v float64) string { return number.Fixed(v, 2) }), figureOr(x.VarianceSaved, number.Percent)})
		}
	}
	return t
}

func figureOr(v *float64, write func(float64) string) string {
	if v == nil {
		return "none"
	}
	return write(*v)
}

func shown(x result.Difference) string {
	switch {
	case x.Above+x.Below == 0:
		return "exactly 0"
	case x.Low == nil:
		return "not known"
	case x.Shown:
		return "yes"
	}
	return "no difference shown"
}

// intervals draws differences as dots with their intervals, and 0 as a line.
func intervals(id, what string, list []result.Difference) (chart, error) {
	sc := charts.NewScatter()
	names := make([]string, len(list))
	data := make([]opts.ScatterData, len(list))
	for i, x := range list {
		low, high := x.Mean, x.Mean
		if x.Low != nil {
			low, high = *x.Low, *x.High
		}
		names[i] = x.Scenario
		data[i] = opts.ScatterData{Value: []float64{short(x.Mean), float64(i), short(low), short(high)}, Name: number.Difference(x)}
	}
	sc.SetGlobalOptions(charts.WithXAxisOpts(opts.XAxis{Type: "value"}), charts.WithYAxisOpts(opts.YAxis{Type: "category", Data: names, Inverse: opts.Bool(true)}),
		charts.WithLegendOpts(opts.Legend{Show: opts.Bool(false)}))
	sc.AddSeries("difference", data, charts.WithSeriesId("difference"), charts.WithMarkLineNameXAxisItemOpts(opts.MarkLineNameXAxisItem{Name: "0", XAxis: 0}))
	return draw(chart{
		ID: id, Draw: "intervals", Rows: len(list),
		Label:   "Dots with intervals: " + what + ". The table below has the figures.",
		Caption: what + ", with intervals. Where the interval reaches over the line at 0, no difference is shown.",
	}, sc)
}

// pairSection shows the difference of each replication.
func pairSection(c *result.Comparison) (*section, error) {
	heads := headDifferences(c)
	if c.Replications.N < 2 || len(heads) == 0 {
		return nil, nil
	}
	const most = 6
	s := &section{ID: "pairs", Title: "How sure: the pairs", Small: len(heads) > 1}
	for i, x := range heads[:min(most, len(heads))] {
		at := slices.IndexFunc(c.Scenarios, func(s result.Compared) bool { return s.Name == x.Scenario })
		var rows []result.Replication
		for _, p := range c.PerReplication {
			rows = append(rows, result.Replication{Number: p.Number, PacksPerH: p.Values[at] - p.Values[0]})
		}
		ch, err := pairDots(fmt.Sprintf("pairs-%d", i+1), x, rows)
		if err != nil {
			return nil, err
		}
		if s.Small {
			ch.Title = x.Scenario
		}
		s.Charts = append(s.Charts, ch)
	}
	if len(heads) > most {
		s.After = []string{fmt.Sprintf("The first %d of %d scenarios are drawn; the table has all.", most, len(heads))}
	}
	t := table{Caption: c.Measures[0].Name + " of each replication", Folded: true, Head: columns("Replication")}
	for _, x := range c.Scenarios {
		t.Head = append(t.Head, column{Name: x.Name, Figure: true})
	}
	for _, p := range c.PerReplication {
		row := []string{number.Count(int64(p.Number))}
		for _, v := range p.Values {
			row = append(row, number.Fixed(v, 1))
		}
		t.Rows = append(t.Rows, row)
	}
	s.Tables = []table{t}
	return s, nil
}

// pairDots draws the difference of each replication as a dot.
func pairDots(id string, x result.Difference, rows []result.Replication) (chart, error) {
	ch, err := dots(rows, number.EstimateOf(x), x.Unit, "", true)
	ch.ID = id
	ch.Label = "Dots: difference of each replication in " + x.Unit + ", with the mean and its interval. The table below has the figures."
	ch.Caption = fmt.Sprintf("Each dot is one replication: %s minus the base, in %s. The line is the mean, the band its interval: %s. %d of %d lie above 0, %d below.",
		x.Scenario, x.Unit, number.Difference(x), x.Above, x.Pairs, x.Below)
	return ch, err
}

// comparedSection sets the scenarios side by side.
func comparedSection(c *result.Comparison) (*section, error) {
	t := table{Caption: "The scenarios side by side", Head: columns("Scenario")}
	for _, m := range c.Measures {
		t.Head = append(t.Head, column{Name: m.Name, Figure: true})
	}
	t.Head = append(t.Head, column{Name: "rostered hours", Figure: true}, column{Name: "holds it back most"})
	for _, s := range c.Scenarios {
		row := []string{s.Name}
		for _, m := range c.Measures {
			cell := "none"
			for _, v := range s.Values {
				if v.Measure == m.Name {
					cell = number.PlusMinus(v.Estimate, "")
				}
			}
			row = append(row, cell)
		}
		t.Rows = append(t.Rows, append(row, number.Fixed(s.RosteredH, 1), s.Holds))
	}
	sec := &section{ID: "scenarios", Title: "The scenarios side by side", Tables: []table{t}}
	for _, m := range c.Measures {
		sec.After = append(sec.After, fmt.Sprintf("%s: %s.", m.Name, m.Says))
	}
	sec.After = append(sec.After, "± is the interval of each scenario by itself. Two such intervals may overlap although the difference is certain: the differences above decide.")
	return sec, nil
}

// differingSection lists what the files state differently.
func differingSection(c *result.Comparison) (*section, error) {
	s := &section{ID: "differing", Title: "What differs between the files"}
	if len(c.Differing) == 0 {
		s.Says = []string{"Nothing that matters: all scenarios state the same values."}
		return s, nil
	}
	t := table{Caption: "Values that are not the same in all scenarios; the rest is alike", Head: columns("Value")}
	for _, x := range c.Scenarios {
		t.Head = append(t.Head, column{Name: x.Name})
	}
	for _, x := range c.Differing {
		t.Rows = append(t.Rows, append([]string{x.Where}, x.Values...))
	}
	s.Tables = []table{t}
	return s, nil
}
