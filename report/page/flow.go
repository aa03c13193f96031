package page

import (
	"fmt"
	"slices"
	"strings"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"pascaline/report/number"
	"pascaline/report/words"
	"pascaline/sim/result"
)

// firstMonday is Monday 00:00 in milliseconds of the chart's time axis, which counts from a Thursday.
const firstMonday = 4 * 86400 * 1000

// profileSection shows what was finished over the run.
func profileSection(r *result.Run) (*section, error) {
	p := r.Profile
	if len(p.PacksPerH) == 0 {
		return nil, nil
	}
	line := timeChart(p)
	band := make([]float64, len(p.P90))
	for i := range band {
		band[i] = p.P90[i] - p.P10[i]
	}
	addSteps(line, p, "low", "P10", p.P10, "band")
	addSteps(line, p, "band", "P10 to P90", band, "band")
	addSteps(line, p, "mean", "mean", p.PacksPerH, "")
	c, err := draw(chart{
		ID: "profile", Draw: "profile",
		Label: "Step line of finished packs per hour over the run with the band from P10 to P90. The table below has the figures.",
		Caption: fmt.Sprintf("Finished packs per hour in steps of %s: the line is the mean over replications, the band holds the middle 80 %% of them.%s",
			number.Duration(p.StepS), shadedWords(p)),
	}, line)
	if err != nil {
		return nil, err
	}
	t := table{Caption: "Finished packs per hour, by step", Head: columns("From", "mean", "P10", "P90"), Folded: true}
	for i, v := range p.PacksPerH {
		t.Rows = append(t.Rows, []string{stepName(p, float64(i)*p.StepS), number.Fixed(v, 0), number.Fixed(p.P10[i], 0), number.Fixed(p.P90[i], 0)})
	}
	s := &section{ID: "profile", Title: "Finished packs over the run", Charts: []chart{c}, Tables: []table{t}}
	for _, says := range []string{planWords(r), crewWords(r)} {
		if says != "" {
			s.Says = append(s.Says, says)
		}
	}
	return s, nil
}

// planWords says how much of what is planned the line makes; "" where no plan was stated.
func planWords(r *result.Run) string {
	if r.Profile.Plan <= 0 {
		return ""
	}
	return fmt.Sprintf("Planned are %s packs per %s; the line makes %s of that.",
		number.Fixed(r.Profile.Plan, 0), words.Hour(r), number.Percent(r.Headline.PacksPerH.Mean/r.Profile.Plan))
}

// crewWords says who is there in each shift, since output follows the crew; "" where there is nobody or no roster.
func crewWords(r *result.Run) string {
	var shifts []string
	for _, sh := range r.Shifts {
		var heads []string
		for _, p := range r.People {
			for _, b := range p.ByShift {
				if b.Shift == sh.Name && b.Heads > 0 {
					heads = append(heads, fmt.Sprintf("%s %d", p.Name, b.Heads))
				}
			}
		}
		if len(heads) > 0 {
			shifts = append(shifts, fmt.Sprintf("%s (%s): %s", sh.Name, sh.Hours, strings.Join(heads, ", ")))
		}
	}
	if len(shifts) == 0 {
		return ""
	}
	return "Crews by shift. " + strings.Join(shifts, "; ") + "."
}

// timeChart is an empty chart over the time of the profile, with the times shaded when the line is not rostered.
func timeChart(p result.Profile) *charts.Line {
	line := charts.NewLine()
	line.SetGlobalOptions(
		charts.WithXAxisOpts(opts.XAxis{Type: "time", Min: at(p, 0), Max: at(p, float64(len(p.PacksPerH))*p.StepS)}),
		charts.WithYAxisOpts(opts.YAxis{Type: "value", Min: 0}),
		charts.WithLegendOpts(opts.Legend{Show: opts.Bool(false)}))
	return line
}

// addSteps adds values that hold for a step each; the last is repeated at the end so that its step is drawn. It carries the shaded times.
func addSteps(line *charts.Line, p result.Profile, id, name string, values []float64, stack string) {
	data := make([]opts.LineData, 0, len(values)+1)
	for i, v := range values {
		data = append(data, opts.LineData{Value: [2]float64{at(p, float64(i)*p.StepS), short(v)}})
	}
	data = append(data, opts.LineData{Value: [2]float64{at(p, float64(len(values))*p.StepS), short(values[len(values)-1])}})
	set := []charts.SeriesOpts{charts.WithSeriesId(id), charts.WithLineChartOpts(opts.LineChart{Step: "end", Stack: stack, ShowSymbol: opts.Bool(false)})}
	if id == "mean" {
		for _, s := range p.Shaded {
			set = append(set, charts.WithMarkAreaData([]opts.MarkAreaData{{XAxis: at(p, s.FromS)}, {XAxis: at(p, s.ToS)}}))
		}
		set = append(set, marks(p)...)
	}
	line.AddSeries(name, data, set...)
}

// marks are the plan as a lying line, and a standing one wherever another crew comes.
func marks(p result.Profile) (set []charts.SeriesOpts) {
	if p.Plan > 0 {
		set = append(set, charts.WithMarkLineNameYAxisItemOpts(opts.MarkLineNameYAxisItem{Name: "plan " + number.Fixed(p.Plan, 0), YAxis: short(p.Plan)}))
	}
	for _, s := range p.Shifts {
		set = append(set, charts.WithMarkLineNameXAxisItemOpts(opts.MarkLineNameXAxisItem{Name: number.Plain(s.What), XAxis: at(p, s.FromS)}))
	}
	return set
}

// at is a simulated time on the chart's axis, in milliseconds.
func at(p result.Profile, seconds float64) float64 {
	if !p.Roster {
		return seconds * 1000
	}
	return firstMonday + float64(p.StartMin)*60000 + seconds*1000
}

// stepName is the time of a step in words: plant time where there is a roster, else time since the start.
func stepName(p result.Profile, seconds float64) string {
	if !p.Roster {
		return number.Duration(seconds)
	}
	return number.Moment(p.StartMin, seconds/3600)
}

// shadedWords lists the shaded times, each once however many days it comes again, unless there are too many to read.
func shadedWords(p result.Profile) string {
	if len(p.Shaded) == 0 {
		return ""
	}
	var words []string
	for _, s := range p.Shaded {
		span := fmt.Sprintf("%s %s to %s", s.What, clockOnly(p, s.FromS), clockOnly(p, s.ToS))
		if !slices.Contains(words, span) {
			words = append(words, span)
		}
		if len(words) > 8 {
			return " Shaded: the line is not rostered or on a break."
		}
	}
	return " Shaded: " + strings.Join(words, ", ") + "."
}

// clockOnly is a time without its day.
func clockOnly(p result.Profile, seconds float64) string {
	name := stepName(p, seconds)
	if p.Roster {
		name = name[strings.LastIndex(name, " ")+1:]
	}
	return name
}
